// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/typed_text.h"

#include <cstddef>

namespace rillmark {

namespace {

struct Replacement {
    std::string_view typed;
    std::string_view plain;
};

constexpr Replacement kReplacements[] = {
    {"\u00A0", " "},    {"\u2007", " "},    {"\u2009", " "},        {"\u202F", " "},    {"\t", " "},
    {"\r", " "},        {"\n", " "},                                                 // spaces
    {"\u2212", "-"},    {"\u2010", "-"},    {"\u2011", "-"},        {"\u2013", "-"}, // minus, hyphens
    {"\u2032", "'"},    {"\u2018", "'"},    {"\u2019", "'"},        {"\u00B4", "'"},    {"\u02B9", "'"}, // one prime
    {"\u2033", "\""},   {"\u201C", "\""},   {"\u201D", "\""},       {"\u02BA", "\""},                    // two primes
    {"\u00B2", "2"},    {"\u00B3", "3"},    {"\u00B5", "u"},        {"\u03BC", "u"},    {"\u2044", "/"}, // m2, micro
    {"\u00B0", "deg"},  {"\u00BA", "deg"},  {"\u03A9", "ohm"},      {"\u2126", "ohm"},                   // degree, ohm
    {"\u2103", "degC"}, {"\u2109", "degF"}, {"\u2030", "permille"}, {"\u2236", ":"},    {"\u00BD", " 1/2"},
    {"\u00BC", " 1/4"}, {"\u00BE", " 3/4"}, {"\u2153", " 1/3"},     {"\u2154", " 2/3"}, {"\u215B", " 1/8"},
    {"\u215C", " 3/8"}, {"\u215D", " 5/8"}, {"\u215E", " 7/8"},     {"\u200B", ""},     {"\u200E", ""},
    {"\u200F", ""},     {"\uFEFF", ""},     {"\u2069", ""},         {"\u2068", ""}, // unseen
};

const Replacement* replacement_at(std::string_view rest) {
    for (const Replacement& candidate : kReplacements)
        if (rest.starts_with(candidate.typed))
            return &candidate;
    return nullptr;
}

bool starts_a_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; // not a UTF-8 continuation byte
}

} // namespace

PlainText plain_text(std::string_view typed) {
    PlainText plain;
    int character = 0;
    for (std::size_t at = 0; at < typed.size();) {
        if (starts_a_character(typed[at]))
            ++character;
        const Replacement* known = replacement_at(typed.substr(at));
        const std::string_view becomes = known != nullptr ? known->plain : typed.substr(at, 1);
        plain.text += becomes;
        plain.position.insert(plain.position.end(), becomes.size(), character);
        at += known != nullptr ? known->typed.size() : 1;
    }
    plain.position.push_back(character + 1);
    return plain;
}

bool is_utf8(std::string_view bytes) {
    for (std::size_t at = 0; at < bytes.size();) {
        const auto lead = static_cast<unsigned char>(bytes[at]);
        const std::size_t length = lead < 0x80   ? 1
                                   : lead < 0xC2 ? 0
                                   : lead < 0xE0 ? 2
                                   : lead < 0xF0 ? 3
                                   : lead < 0xF5 ? 4
                                                 : 0;
        if (length == 0 || at + length > bytes.size())
            return false;
        for (std::size_t i = 1; i < length; ++i)
            if (starts_a_character(bytes[at + i]))
                return false;
        if (length > 2) {
            const auto second = static_cast<unsigned char>(bytes[at + 1]);
            const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
            const bool surrogate = lead == 0xED && second >= 0xA0;
            if (overlong || surrogate || (lead == 0xF4 && second >= 0x90))
                return false;
        }
        at += length;
    }
    return true;
}

} // namespace rillmark
