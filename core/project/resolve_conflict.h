// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/merge.h"
#include "project/project.h"

namespace rillmark {

/// Gives a column that two files said differently one of the two values, as a change by the user: both stay in the edit
/// log. Nothing is written where the row holds the value already.
/// Refuses `project.no_such_row`, `project.unknown_column` (a conflict of a table or column that this program does not
/// know, or a value that is none of its kind) and what Project::change() refuses.
[[nodiscard]] Expected<void> resolve_conflict(Project& project, const MergeConflict& conflict, bool take_other);

} // namespace rillmark
