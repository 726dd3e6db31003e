// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

/// A path in the folder `handover` beside the project file that is not taken: "site 2026-11-25 part.ending", with a number
/// where there is one already. Makes the folder.
[[nodiscard]] QString free_handover_path(const QString& project, const QString& part, const QString& ending);
