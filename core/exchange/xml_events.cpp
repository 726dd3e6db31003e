// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/xml_events.h"

#include "exchange/csv.h"
#include "exchange/import_features.h"

#include <expat.h>

#include <algorithm>
#include <memory>
#include <optional>

namespace rillmark {

namespace {

struct FreeParser {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};
using Parser = std::unique_ptr<std::remove_pointer_t<XML_Parser>, FreeParser>;

std::string local_name(const char* name) {
    const std::string_view whole(name);
    const std::size_t colon = whole.rfind(':');
    return std::string(colon == std::string_view::npos ? whole : whole.substr(colon + 1));
}

/// What Expat's calls share. A refusal stops the parser; no exception passes through its C code.
class XmlReading {
public:
    XmlReading(XML_Parser parser, std::string file, const XmlEvents& events)
        : m_parser(parser), m_file(std::move(file)), m_events(events) {
        XML_SetUserData(parser, this);
        XML_SetElementHandler(parser, &XmlReading::start, &XmlReading::end);
        XML_SetCharacterDataHandler(parser, &XmlReading::characters);
        XML_SetStartDoctypeDeclHandler(parser, &XmlReading::doctype);
    }

    Expected<void> read(std::string_view bytes) {
        // in blocks: Expat takes an int
        constexpr std::size_t kXmlBlock_bytes = 1024 * 1024;
        for (std::size_t at = 0; at == 0 || at < bytes.size(); at += kXmlBlock_bytes) {
            const std::string_view block = bytes.substr(at, kXmlBlock_bytes);
            const bool last = at + kXmlBlock_bytes >= bytes.size();
            if (XML_Parse(m_parser, block.data(), static_cast<int>(block.size()), last ? 1 : 0) != XML_STATUS_OK)
                return m_refusal
                           ? *m_refusal
                           : here(refusal("exchange.xml_not_well_formed", m_file,
                                          {{"detail", std::string(XML_ErrorString(XML_GetErrorCode(m_parser)))}}));
        }
        return {};
    }

private:
    XML_Parser m_parser;
    std::string m_file;
    const XmlEvents& m_events;
    std::vector<std::string> m_path;
    std::vector<std::string> m_texts;
    std::size_t m_elements = 0;
    std::optional<Finding> m_refusal;

    [[nodiscard]] std::int64_t line() const { return static_cast<std::int64_t>(XML_GetCurrentLineNumber(m_parser)); }

    [[nodiscard]] Finding here(Finding finding) const {
        const auto column = static_cast<std::int64_t>(XML_GetCurrentColumnNumber(m_parser)) + 1;
        return at_place(std::move(finding), m_file, line(), std::to_string(column));
    }

    void stop(Finding finding) {
        if (!m_refusal)
            m_refusal = std::move(finding);
        XML_StopParser(m_parser, XML_FALSE);
    }

    static void start(void* user, const char* name, const char** attributes) {
        static_cast<XmlReading*>(user)->opened(name, attributes);
    }
    static void end(void* user, const char*) { static_cast<XmlReading*>(user)->closed(); }
    static void characters(void* user, const char* text, int size) {
        static_cast<XmlReading*>(user)->add_text({text, static_cast<std::size_t>(size)});
    }
    static void doctype(void* user, const char*, const char*, const char*, int) {
        auto* reading = static_cast<XmlReading*>(user);
        reading->stop(reading->here(refusal("exchange.xml_doctype", reading->m_file)));
    }

    void opened(const char* name, const char** attributes) {
        if (m_refusal)
            return;
        if (m_path.size() >= kXmlDeepest)
            return stop(
                here(refusal("exchange.xml_too_deep", m_file, {{"limit", static_cast<std::int64_t>(kXmlDeepest)}})));
        if (++m_elements > kXmlMostElements)
            return stop(here(refusal("exchange.xml_too_long", m_file)));
        m_path.push_back(local_name(name));
        m_texts.emplace_back();
        XmlElement element{m_path, {}, line()};
        for (const char** one = attributes; *one != nullptr; one += 2)
            element.attributes.emplace(local_name(one[0]), one[1]);
        if (const Expected<void> done = m_events.opened(element); !done)
            stop(here(done.error()));
    }

    void closed() {
        if (m_refusal || m_path.empty())
            return;
        if (const Expected<void> done = m_events.closed(m_path, m_texts.back(), line()); !done)
            stop(here(done.error()));
        m_path.pop_back();
        m_texts.pop_back();
    }

    void add_text(std::string_view text) {
        if (m_refusal || m_texts.empty())
            return;
        if (m_texts.back().size() + text.size() > kXmlLongestText_bytes)
            return stop(here(refusal("exchange.xml_too_long", m_file)));
        m_texts.back() += text;
    }
};

} // namespace

std::string XmlElement::attribute(const std::string& name) const {
    const auto found = attributes.find(name);
    return found == attributes.end() ? std::string() : found->second;
}

Expected<void> read_xml(std::string_view bytes, const std::string& file, const XmlEvents& events) {
    if (bytes.size() > kImportLargestFile_bytes)
        return refusal("exchange.import_file_too_large", file,
                       {{"limit_mib", static_cast<std::int64_t>(kImportLargestFile_bytes / 1024 / 1024)}});
    const Parser parser(XML_ParserCreate(nullptr));
    return XmlReading(parser.get(), file, events).read(bytes);
}

} // namespace rillmark
