// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

// Limits of an XML file, our own choice.
inline constexpr std::size_t kXmlDeepest = 64;
inline constexpr std::size_t kXmlLongestText_bytes = 16u * 1024u * 1024u; // of one element
inline constexpr std::size_t kXmlMostElements = 5'000'000;

/// The names of the elements from the root to the one that is meant.
using XmlPath = std::vector<std::string>;

/// An element as it opens. Names come without the prefix of their namespace.
struct XmlElement {
    const XmlPath& path; // its own name last
    std::map<std::string, std::string> attributes;
    std::int64_t line = 0;

    [[nodiscard]] std::string attribute(const std::string& name) const;
};

/// What is told while a file is read; a refusal of either ends the reading.
struct XmlEvents {
    std::function<Expected<void>(const XmlElement&)> opened;
    /// `text` is all text directly within the element.
    std::function<Expected<void>(const XmlPath& path, const std::string& text, std::int64_t line)> closed;
};

/// Reads XML of version 1.0 from front to back (Expat). The bytes are not trusted: a document type declaration is
/// refused, so that there are no entities but the five of the standard and nothing is ever fetched.
///
/// Refuses with file, line and column: `exchange.xml_not_well_formed` (argument `detail`), `exchange.xml_doctype`,
/// `exchange.xml_too_deep`, `exchange.xml_too_long`; and `exchange.import_file_too_large` above
/// kImportLargestFile_bytes.
[[nodiscard]] Expected<void> read_xml(std::string_view bytes, const std::string& file, const XmlEvents& events);

} // namespace rillmark
