// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"
#include "exchange/xml_events.h"

#include <string>
#include <string_view>

namespace rillmark {

/// Reads an XML file of places through a reader that is told of each element as it opens and closes, and that gives up
/// at the end what it took. Refuses as read_xml() does, and a file with nothing to take in (`exchange.import_nothing`).
template <class Reader>
[[nodiscard]] Expected<ImportedFile> read_places(std::string_view bytes, const std::string& file) {
    Reader reader(file);
    const XmlEvents events{
        [&](const XmlElement& element) { return reader.opened(element); },
        [&](const XmlPath& path, const std::string& text, std::int64_t) { return reader.closed(path, text); }};
    if (const Expected<void> read = read_xml(bytes, file, events); !read)
        return read.error();
    ImportedFile imported = reader.take();
    if (imported.features.empty())
        return refusal("exchange.import_nothing", file);
    return imported;
}

} // namespace rillmark
