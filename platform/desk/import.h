// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/output.h"
#include "site/import_file.h"
#include "site/import_plan.h"

#include <filesystem>
#include <string>
#include <vector>

namespace rillmark::desk {

/// A file of another program, or photos, to be taken into a site.
struct ImportCall {
    std::filesystem::path site;
    std::vector<std::string> files; // one, or photos
    ImportReading reading;
    ImportChoice choice;
    bool list = false;  // tell what would come in, and write nothing
    bool again = false; // also a file that was taken in before
};
int import_file(const ImportCall& call, const Manner& manner);

} // namespace rillmark::desk
