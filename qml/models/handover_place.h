// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

/// Where files for handing over go: in the folder `handover` beside the project file, which is made, under a name of
/// the file, the day and the part of the site that they hold. Without its suffix; a number is added where that name is
/// taken, whatever the suffix.
[[nodiscard]] QString handover_place(const QString& project_file, const QString& part = {});
