// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "project/sqlite.h"

#include <string>

namespace rillmark {

/// Every fault that can be found in a database of our schema; empty when there is none. Throws nothing: a database that
/// cannot be read to the end is a finding too.
[[nodiscard]] Findings verify_database(sqlite::Database& database, const std::string& where);

} // namespace rillmark
