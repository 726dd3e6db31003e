// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/project.h"

#include <filesystem>
#include <functional>

/// Writes to a project file over a connection of its own, on the thread of the caller, and waits a little while another
/// program holds the file.
[[nodiscard]] rillmark::Expected<void>
patient_write(const std::filesystem::path& file,
              const std::function<rillmark::Expected<void>(rillmark::Project&)>& action);
