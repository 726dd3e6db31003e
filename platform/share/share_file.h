// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <QString>

namespace rillmark {

/// Does this system have a sheet that hands a file to other programs? Where not, a file is saved to a folder instead.
[[nodiscard]] bool can_share_files();

/// Opens the system's share sheet with one closed file; for the screen's thread. Returns when the sheet was asked for:
/// what the person does with it is theirs. Refuses `exchange.share_failed`, and `exchange.share_not_here` where there
/// is no such sheet.
Expected<void> share_file(const QString& file, const QString& title);

} // namespace rillmark
