// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <QByteArray>

#include <string>
#include <vector>

namespace rillmark::sync {

/// One thing in a server's list of a folder.
struct Listed {
    std::string name; // the last part of its path, decoded
    bool folder = false;
};

/// Reads the answer to PROPFIND. Source: RFC 4918, sections 13 and 14 (multistatus, response, href, propstat).
/// Hostile until proven: a document type, an entity of its own, more than 16 levels, more than 20,000 things or a name
/// longer than 255 bytes refuses the whole list (`exchange.server_list`). Names are not to be used as paths.
Expected<std::vector<Listed>> parse_multistatus(const QByteArray& xml);

} // namespace rillmark::sync
