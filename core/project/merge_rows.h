// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/merge.h"
#include "project/sqlite.h"

#include <string>

namespace rillmark {

/// Brings the rows of `other` into `mine`, inside the transaction that the caller holds, and adds to the report.
/// Throws Refused and SqliteError.
void merge_rows(sqlite::Database& mine, sqlite::Database& other, const std::string& other_file,
                const MergeOptions& options, MergeReport& report);

} // namespace rillmark
