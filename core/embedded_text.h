// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace rillmark {

/// A text file of the source tree that is built into the program.
struct EmbeddedText {
    std::string_view file; // its name without folder
    std::string_view text;
};

/// core/project/schema/*.sql in the order of their numbers.
std::span<const EmbeddedText> schema_texts();
/// assets/tables/*.csv: pipes, conductors, roughness, efficiencies; each row with its source.
std::span<const EmbeddedText> table_texts();
/// assets/demo/*.csv: the demo creek.
std::span<const EmbeddedText> demo_texts();

/// A picture of the source tree that is built into the program.
struct EmbeddedPicture {
    std::string_view file; // its name without folder
    std::span<const unsigned char> bytes;
};

/// assets/demo/*.jpg: the photos of the demo creek and, named *.small.jpg, their thumbnails.
std::span<const EmbeddedPicture> demo_pictures();

} // namespace rillmark
