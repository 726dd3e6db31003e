// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "units/units.h"

#include <optional>
#include <string>
#include <string_view>

namespace rillmark {

/// How the person's locale writes numbers.
struct NumberFormat {
    char decimal = '.';        // '.' or ','
    std::optional<char> group; // thousands: ',', '.', ' ' (any kind of space) or '\''; none: thousands are not marked
};

struct ParsedQuantity {
    double si = 0.0;
    std::string unit; // symbol of the unit understood; of the first part of several ("ft" of 5 ft 3 in); "1:n"
};

/// Reads what a person typed into a field: a number with or without unit, to the SI value.
///
/// Accepted: "36 ft 4 in", "12in", "3 cfs", "85 L/s", "2.5'", `5' 3 1/2"`, "1/2 in", "½ in", "-0.35", "1.2e3", "1 h 5
/// min", 12°30' for angles, "1:50" and "1 in 50" for a slope; signs, primes, spaces, superscripts and accents in
/// Unicode or plain. A value in parts takes whole numbers but for the last, in the order ft in, lb oz, h min s, degree
/// ' ".
///
/// Comma and point are both read as decimal mark, so long as that has one meaning: a thousands mark counts only where
/// `format.group` is that mark and it stands before groups of three. So with a decimal point "1,5" is 1.5; "1,525" is
/// 1525 where the group is ',', and refused as ambiguous where there is no group. "0,525" is 0.525 everywhere.
///
/// Refused, with the text as typed and the place (character, from 1) in the arguments: `units.empty`, `units.too_long`
/// (over 200 bytes), `units.not_utf8`, `units.not_a_number`, `units.takes_no_unit`, `units.unknown_unit` and
/// `units.wrong_quantity` (with the accepted ones), `units.ambiguous_comma`, `units.ambiguous_point`,
/// `units.two_marks`, `units.bad_fraction`, `units.part_without_unit`, `units.part_too_large`,
/// `units.parts_do_not_combine`, `units.unexpected_text`, `units.out_of_range` (beyond 1e18 in SI, our choice).
///
/// Whether the value makes sense for its field is for the field to judge. Accuracy: the double nearest to the decimal
/// typed, times one factor: within 4 units in the last place.
[[nodiscard]] Expected<ParsedQuantity> parse_quantity(std::string_view typed, Quantity quantity, UnitSystem system,
                                                      const NumberFormat& format = {});

/// The same for a field that shows its unit: `assumed` is taken when none is typed, and gives the quantity.
[[nodiscard]] Expected<ParsedQuantity> parse_quantity(std::string_view typed, const Unit& assumed,
                                                      const NumberFormat& format = {});

} // namespace rillmark
