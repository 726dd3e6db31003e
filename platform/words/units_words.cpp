// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> units_words() {
    static constexpr Word table[] = {
        {"units.empty", RILLMARK_TR("Nothing was entered. Type a number, with a unit if you like."), ""},
        {"units.too_long",
         RILLMARK_TR("This is too long to be one value (over {longest} characters). Type one number and its unit."),
         "common practice, no source"},
        {"units.not_utf8", RILLMARK_TR("This is not readable text. Save the file as UTF-8, or type the value again."),
         ""},
        {"units.not_a_number",
         RILLMARK_TR("A number is missing at character {position} of \"{typed}\". Begin with digits, such as 1.525."),
         ""},
        {"units.takes_no_unit",
         RILLMARK_TR("\"{unit}\" in \"{typed}\" has no place here: this is a plain number. Type it without a unit."),
         ""},
        {"units.unknown_unit",
         RILLMARK_TR("\"{unit}\" in \"{typed}\" is not a unit known here. Use one of: {accepted}."), ""},
        {"units.wrong_quantity",
         RILLMARK_TR("\"{unit}\" in \"{typed}\" measures something else than is asked for. Use one of: {accepted}."),
         ""},
        {"units.ambiguous_comma",
         RILLMARK_TR("The comma in \"{typed}\" can mean thousands or decimals. Use a point for decimals, and no mark "
                     "for thousands."),
         ""},
        {"units.ambiguous_point",
         RILLMARK_TR("The point in \"{typed}\" can mean thousands or decimals. Use a comma for decimals, and no mark "
                     "for thousands."),
         ""},
        {"units.two_marks",
         RILLMARK_TR("The number at character {position} of \"{typed}\" has more than one decimal mark. Keep one, and "
                     "leave out marks for thousands."),
         ""},
        {"units.bad_fraction",
         RILLMARK_TR("The fraction at character {position} of \"{typed}\" cannot be read: its lower number must not be "
                     "zero, and after a whole number it must be less than one."),
         ""},
        {"units.part_without_unit",
         RILLMARK_TR("The number at character {position} of \"{typed}\" has no unit. Give each part its unit, such as "
                     "5 ft 3 in."),
         ""},
        {"units.part_too_large",
         RILLMARK_TR("The part at character {position} of \"{typed}\" is a whole {unit} or more. Check it, and add it "
                     "to the part before."),
         ""},
        {"units.parts_do_not_combine",
         RILLMARK_TR("The parts of \"{typed}\" do not make one value (see character {position}). Use whole feet and "
                     "inches, pounds and ounces, hours, minutes and seconds, or degrees, minutes and seconds; "
                     "otherwise one number and one unit."),
         ""},
        {"units.unexpected_text",
         RILLMARK_TR("What begins at character {position} of \"{typed}\" does not belong to the value. Remove it."),
         ""},
        {"units.out_of_range", RILLMARK_TR("\"{typed}\" is too large to be real. Check the digits and the unit."),
         "common practice, no source"},
        {"units.negative", RILLMARK_TR("{where} cannot be negative."), ""},
    };
    return table;
}

} // namespace rillmark::words
