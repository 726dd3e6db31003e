// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace rillmark {

/// Text that every format can hold: well-formed UTF-8 without control characters (tab, line feed and carriage return
/// stay, the latter as line feed) and without U+FFFE and U+FFFF. Bytes that are not UTF-8 become U+FFFD.
/// Source of the set: W3C, Extensible Markup Language (XML) 1.0, fifth edition, production [2] Char; U+007F to U+009F,
/// which it allows and advises against, are dropped as well.
[[nodiscard]] std::string clean_text(std::string_view text);

/// clean_text() with & < > " ' as entities: for the text and the attributes of XML 1.0.
[[nodiscard]] std::string xml_text(std::string_view text);

/// One cell of a text table: in quotation marks where it holds a separator (comma, semicolon, tab), a quotation mark, a
/// line end or outer spaces (RFC 4180, section 2). A text that begins with = + - @ is not changed: the table is data,
/// not a sheet of formulas.
[[nodiscard]] std::string csv_text(std::string_view text);

/// clean_text() as a text of a DXF drawing of release 12, which is ASCII: other characters, and those that begin a
/// code of the format (\ ^ and the second of two %), as \U+XXXX, line ends as spaces. Characters beyond U+FFFF have no
/// such code and become "?". Source of the codes: common practice, from memory, unconfirmed.
[[nodiscard]] std::string dxf_text(std::string_view text);

// What a file of positions holds: a tenth of a millimetre, and the millimetre of a height.
inline constexpr int kDegreeDecimals = 9;
inline constexpr int kHeightDecimals = 3;

/// A decimal without exponent, as XML's xsd:decimal and DXF want it.
[[nodiscard]] std::string decimal_text(double value, int decimals);

} // namespace rillmark
