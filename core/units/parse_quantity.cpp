// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/parse_quantity.h"

#include "units/digit.h"
#include "units/parse_number.h"
#include "units/typed_text.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

namespace rillmark {

namespace {

constexpr std::size_t kLongestTyped = 200; // bytes; our choice, far beyond any quantity
constexpr double kLargest = 1e18;          // in SI; our choice, beyond anything at a creek

constexpr Quantity kLastQuantity = Quantity::Coordinate;

/// Units that make up one value together, the larger first.
constexpr std::string_view kChains[][3] = {{"ft", "in", ""}, {"lb", "oz", ""}, {"h", "min", "s"}, {"°", "′", "″"}};

struct Part {
    double number = 0.0;
    bool whole = false;
    std::optional<Unit> unit;
    std::size_t at = 0;
};

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Reads one typed text from left to right.
class Reader {
public:
    Reader(std::string_view typed, const Unit& assumed, const NumberFormat& format)
        : m_typed(typed), m_plain(plain_text(typed)), m_assumed(assumed), m_format(format) {}

    Expected<ParsedQuantity> read();

private:
    Expected<ParsedQuantity> read_parts(double sign);
    Expected<Part> read_part(std::string code_without_number);
    Expected<std::optional<Unit>> read_unit();
    Expected<ParsedQuantity> combine(const std::vector<Part>& parts, double sign) const;
    Expected<ParsedQuantity> checked(double si, std::string_view unit) const;

    bool skip(std::string_view expected);
    void skip_spaces();
    std::string_view rest() const { return std::string_view(m_plain.text).substr(m_at); }
    std::string accepted() const;
    Finding problem(std::string code, std::size_t at, std::vector<Arg> more = {}) const;

    std::string_view m_typed;
    PlainText m_plain;
    Unit m_assumed;
    NumberFormat m_format;
    std::size_t m_at = 0;
};

Finding Reader::problem(std::string code, std::size_t at, std::vector<Arg> more) const {
    std::vector<Arg> args{{"typed", std::string(m_typed)},
                          {"position", static_cast<std::int64_t>(m_plain.position[at])}};
    args.insert(args.end(), more.begin(), more.end());
    return refusal(std::move(code), {}, std::move(args));
}

std::string Reader::accepted() const {
    std::string list;
    for (const Unit& unit : units_for(m_assumed.quantity, m_assumed.system.value_or(UnitSystem::Metric)))
        list += (list.empty() ? "" : ", ") + std::string(unit.symbol);
    return list;
}

bool Reader::skip(std::string_view expected) {
    if (!rest().starts_with(expected))
        return false;
    m_at += expected.size();
    return true;
}

void Reader::skip_spaces() {
    while (skip(" ")) {
    }
}

Expected<ParsedQuantity> Reader::read() {
    skip_spaces();
    if (rest().empty())
        return refusal("units.empty");
    const double sign = skip("-") ? -1.0 : 1.0;
    if (sign > 0.0)
        skip("+");
    skip_spaces();
    return read_parts(sign);
}

Expected<ParsedQuantity> Reader::read_parts(double sign) {
    std::vector<Part> parts;
    do {
        const Expected<Part> part = read_part(parts.empty() ? "units.not_a_number" : "units.unexpected_text");
        if (!part)
            return part.error();
        parts.push_back(*part);
        skip_spaces();
        const bool gradient = m_assumed.quantity == Quantity::Slope && parts.size() == 1 && !part->unit;
        if (gradient && (skip(":") || skip("in "))) {
            skip_spaces();
            const Expected<Part> run = read_part("units.not_a_number");
            if (!run)
                return run.error();
            if (!rest().empty() || run->unit)
                return problem("units.unexpected_text", m_at);
            if (run->number == 0.0)
                return problem("units.bad_fraction", run->at);
            return checked(sign * part->number / run->number, "1:n");
        }
    } while (!rest().empty());
    return combine(parts, sign);
}

Expected<Part> Reader::read_part(std::string code_without_number) {
    const std::size_t start = m_at;
    const Expected<ParsedNumber> number = parse_number(rest(), m_format);
    if (!number)
        return problem(number.error().code, start);
    if (number->length == 0)
        return problem(std::move(code_without_number), start);
    m_at += number->length;
    skip_spaces();
    const Expected<std::optional<Unit>> unit = read_unit();
    if (!unit)
        return unit.error();
    return Part{number->value, number->whole, *unit, start};
}

Expected<std::optional<Unit>> Reader::read_unit() {
    const std::string_view word = rest().substr(0, std::min(rest().find(' '), rest().size()));
    const bool gradient = m_assumed.quantity == Quantity::Slope && (word.starts_with(':') || word == "in");
    if (word.empty() || is_digit(word.front()) || gradient)
        return std::optional<Unit>{};

    bool of_other_quantity = false;
    for (int q = 0; q <= static_cast<int>(kLastQuantity); ++q)
        of_other_quantity = of_other_quantity || find_unit(static_cast<Quantity>(q), word).has_value();
    if (const std::optional<UnitMatch> match = unit_at_start(m_assumed.quantity, rest())) {
        const std::string_view after = rest().substr(match->length);
        const char last = rest()[match->length - 1];
        const bool runs_on = !after.empty() && ((is_letter(last) && is_letter(after.front())) || after.front() == '/' ||
                                                after.front() == '^' || (is_digit(after.front()) && of_other_quantity));
        if (!runs_on) {
            m_at += match->length;
            return std::optional<Unit>(match->unit);
        }
    }
    const Arg unit{"unit", std::string(word)};
    if (m_assumed.symbol.empty())
        return problem("units.takes_no_unit", m_at, {unit});
    return problem(of_other_quantity ? "units.wrong_quantity" : "units.unknown_unit", m_at,
                   {unit, {"accepted", accepted()}});
}

/// Whether `smaller` may follow `larger` in one value: "5 ft 3 in".
bool follows(const Unit& larger, const Unit& smaller) {
    for (const auto& chain : kChains) {
        const auto first = std::find(std::begin(chain), std::end(chain), larger.symbol);
        if (first != std::end(chain) && std::find(std::next(first), std::end(chain), smaller.symbol) != std::end(chain))
            return true;
    }
    return false;
}

Expected<ParsedQuantity> Reader::combine(const std::vector<Part>& parts, double sign) const {
    if (parts.size() == 1) {
        const Unit& unit = parts[0].unit ? *parts[0].unit : m_assumed;
        return checked(to_si(unit, sign * parts[0].number), unit.symbol);
    }
    double si = 0.0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Part& part = parts[i];
        if (!part.unit)
            return problem("units.part_without_unit", part.at);
        if (i + 1 < parts.size() && !part.whole)
            return problem("units.parts_do_not_combine", part.at);
        if (i > 0) {
            const Unit& larger = *parts[i - 1].unit;
            if (!follows(larger, *part.unit))
                return problem("units.parts_do_not_combine", part.at);
            if (!(part.number < std::round(larger.factor / part.unit->factor)))
                return problem("units.part_too_large", part.at, {{"unit", std::string(larger.symbol)}});
        }
        si += to_si(*part.unit, part.number);
    }
    return checked(sign * si, parts[0].unit->symbol);
}

Expected<ParsedQuantity> Reader::checked(double si, std::string_view unit) const {
    if (!(std::abs(si) <= kLargest))
        return problem("units.out_of_range", 0);
    return ParsedQuantity{si, std::string(unit)};
}

/// Digits and marks alone, as most cells of a file: no other spelling to look for, no unit to find. Nothing where it is
/// more.
std::optional<ParsedQuantity> bare_number(std::string_view typed, const Unit& assumed, const NumberFormat& format) {
    if (typed.empty() || !std::ranges::all_of(typed, [](char c) { return is_digit(c) || c == '.' || c == ','; }))
        return std::nullopt;
    const Expected<ParsedNumber> number = parse_number(typed, format);
    if (!number || number->length != typed.size())
        return std::nullopt;
    const double si = to_si(assumed, number->value);
    if (!(std::abs(si) <= kLargest))
        return std::nullopt;
    return ParsedQuantity{si, std::string(assumed.symbol)};
}

} // namespace

Expected<ParsedQuantity> parse_quantity(std::string_view typed, const Unit& assumed, const NumberFormat& format) {
    if (typed.size() > kLongestTyped)
        return refusal("units.too_long", {}, {{"longest", static_cast<std::int64_t>(kLongestTyped)}});
    if (std::optional<ParsedQuantity> bare = bare_number(typed, assumed, format))
        return *std::move(bare);
    if (!is_utf8(typed))
        return refusal("units.not_utf8");
    return Reader(typed, assumed, format).read();
}

Expected<ParsedQuantity> parse_quantity(std::string_view typed, Quantity quantity, UnitSystem system,
                                        const NumberFormat& format) {
    return parse_quantity(typed, entry_unit(quantity, system), format);
}

} // namespace rillmark
