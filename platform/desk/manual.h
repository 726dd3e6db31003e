// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace rillmark::desk {

/// The manual page (roff, man macros) of the command, from the same texts as its --help.
[[nodiscard]] std::string manual_page(const CLI::App& app, const std::string& version);

/// A completion script for bash: commands, their options, and the values of an option that takes one of a few.
[[nodiscard]] std::string bash_completion(const CLI::App& app);

} // namespace rillmark::desk
