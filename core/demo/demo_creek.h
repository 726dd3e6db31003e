// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"

#include <filesystem>

namespace rillmark {

/// Makes a project file of an invented creek, rich enough to show every page: stations with their fixes, a walked track, a
/// level line with a closing run and one struck-out sight, two flow tests, two alternatives, notes and photos. The data is
/// in assets/demo and built into the program.
///
/// The file comes into its place whole or not at all. With a context of fixed ids and times every run gives the same
/// rows. Refuses what Project::create refuses (`project.exists`: it never writes over a file).
Expected<void> make_demo_creek(const std::filesystem::path& path, ProjectContext context = system_context());

} // namespace rillmark
