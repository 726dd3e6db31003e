// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/dxf_drawing.h"

#include "export/export_text.h"

#include <algorithm>
#include <cctype>

namespace rillmark {

namespace {

constexpr int kDecimals = 4;
constexpr std::size_t kLongestLayer = 31; // characters, release 12
constexpr double kTextShare = 0.01;       // of the longer side of the drawing, own choice
constexpr double kSmallestText_m = 0.1;   // own choice

/// A group: its code on one line, its value on the next.
std::string group(int code, const std::string& value) {
    return std::to_string(code) + "\n" + value + "\n";
}

std::string place(int first_code, const LocalPoint& at, double height_m = 0.0) {
    return group(first_code, decimal_text(at.east_m, kDecimals)) +
           group(first_code + 10, decimal_text(at.north_m, kDecimals)) +
           group(first_code + 20, decimal_text(height_m, kDecimals));
}

std::string entity(const char* type, const std::string& layer) {
    return group(0, type) + group(8, layer);
}

std::string layer_table(const std::set<std::string>& layers) {
    std::string text = group(0, "TABLE") + group(2, "LAYER") + group(70, std::to_string(layers.size() + 1));
    int colour = 0;
    const auto add = [&](const std::string& name) {
        constexpr int kNamedColours = 7; // red, yellow, green, cyan, blue, magenta, black or white
        text += group(0, "LAYER") + group(2, name) + group(70, "0") + group(62, std::to_string(colour % kNamedColours + 1)) +
                group(6, "CONTINUOUS");
        ++colour;
    };
    add("0");
    std::ranges::for_each(layers, add);
    return text + group(0, "ENDTAB");
}

std::string line_type_table() {
    return group(0, "TABLE") + group(2, "LTYPE") + group(70, "1") + group(0, "LTYPE") + group(2, "CONTINUOUS") +
           group(70, "0") + group(3, "Solid line") + group(72, "65") + group(73, "0") + group(40, "0.0") + group(0, "ENDTAB");
}

} // namespace

std::string DxfDrawing::layer_name(std::string_view text) {
    std::string name;
    for (const char c : text.substr(0, kLongestLayer)) {
        const bool taken = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '$' || c == '-';
        name += taken ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : '_';
    }
    return name;
}

void DxfDrawing::reach(const LocalPoint& at) {
    m_least = m_empty ? at : LocalPoint{std::min(m_least.east_m, at.east_m), std::min(m_least.north_m, at.north_m)};
    m_most = m_empty ? at : LocalPoint{std::max(m_most.east_m, at.east_m), std::max(m_most.north_m, at.north_m)};
    m_empty = false;
}

void DxfDrawing::add_point(const std::string& layer, const LocalPoint& at, double height_m) {
    reach(at);
    m_layers.insert(layer);
    m_entities += entity("POINT", layer) + place(10, at, height_m);
}

void DxfDrawing::add_text(const std::string& layer, const LocalPoint& at, const std::string& text) {
    reach(at);
    m_layers.insert(layer);
    m_texts.push_back({layer, at, dxf_text(text)});
}

void DxfDrawing::add_polyline(const std::string& layer, const std::vector<LocalPoint>& vertices, bool closed) {
    m_layers.insert(layer);
    m_entities += entity("POLYLINE", layer) + group(66, "1") + place(10, {}) + group(70, closed ? "1" : "0");
    for (const LocalPoint& vertex : vertices) {
        reach(vertex);
        m_entities += entity("VERTEX", layer) + place(10, vertex);
    }
    m_entities += entity("SEQEND", layer);
}

void DxfDrawing::write(std::ostream& out) const {
    const double side_m = std::max(m_most.east_m - m_least.east_m, m_most.north_m - m_least.north_m);
    const std::string text_height = decimal_text(std::max(kTextShare * side_m, kSmallestText_m), kDecimals);
    out << group(0, "SECTION") << group(2, "HEADER") << group(9, "$ACADVER") << group(1, "AC1009") << group(9, "$EXTMIN")
        << place(10, m_least) << group(9, "$EXTMAX") << place(10, m_most) << group(0, "ENDSEC");
    out << group(0, "SECTION") << group(2, "TABLES") << line_type_table() << layer_table(m_layers) << group(0, "ENDSEC");
    out << group(0, "SECTION") << group(2, "ENTITIES") << m_entities;
    for (const Text& text : m_texts)
        out << entity("TEXT", text.layer) << place(10, text.at) << group(40, text_height) << group(1, text.text);
    out << group(0, "ENDSEC") << group(0, "EOF");
}

} // namespace rillmark
