// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> site_words() {
    static constexpr Word table[] = {
        {"site.unknown_flow_method",
         RILLMARK_TR("The flow test {where} uses a method ({method}) that this version does not know. It is kept, not used."),
         ""},
        {"site.head_missing",
         RILLMARK_TR("No head yet: log the intake, then level or log a station further down."), ""},
        {"site.head_not_to_powerhouse",
         RILLMARK_TR("The head ends at {point}: the powerhouse has no height yet."), ""},
        {"site.head_unchecked",
         RILLMARK_TR("Nothing checks this head yet: close the level line back on its start, or run it a second time."),
         "common practice, no source"},
        {"site.pipe_length_unknown",
         RILLMARK_TR("The pipe has no length: log stations along its route, or enter the length."), ""},
        {"site.cable_length_unknown",
         RILLMARK_TR("The cable has no length: log the powerhouse and the house, or enter the length."), ""},
        {"site.voltage_unknown", RILLMARK_TR("The cable has no voltage: enter the one held at the generator."), ""},
    };
    return table;
}

} // namespace rillmark::words
