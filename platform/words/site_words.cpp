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
        {"site.ask_heights", RILLMARK_TR("Head from intake to powerhouse, closed"), ""},
        {"site.ask_flow", RILLMARK_TR("Flow tested on more than one day"), ""},
        {"site.ask_flood", RILLMARK_TR("Flood marks at the intake"), ""},
        {"site.ask_boundary", RILLMARK_TR("Boundary corners"), ""},
        {"site.ask_intake_photo", RILLMARK_TR("Photo of the intake"), ""},
        {"site.ask_powerhouse_photo", RILLMARK_TR("Photo of the powerhouse site"), ""},
        {"site.ask_pipe_route", RILLMARK_TR("Pipe route, station by station"), ""},
        {"site.ask_cable_route", RILLMARK_TR("Cable route to the house"), ""},
        {"site.ask_benchmark", RILLMARK_TR("Bench mark to come back to"), ""},
        {"site.ask_water_temperature", RILLMARK_TR("Water temperature"), ""},
        {"site.ask_pipe", RILLMARK_TR("A pipe to start from"), ""},
        {"site.ask_cable", RILLMARK_TR("A cable to start from"), ""},
        {"site.ask_notes", RILLMARK_TR("Notes on ground and access"), ""},
        {"site.why_no_head", RILLMARK_TR("The powerhouse has no height against the intake yet."), ""},
        {"site.why_head_unchecked", RILLMARK_TR("Nothing checks it: run the levels back and close them."), ""},
        {"site.why_no_flow", RILLMARK_TR("No flow test counts yet."), ""},
        {"site.why_one_visit", RILLMARK_TR("All tests are of one day. Come back at low water."), ""},
        {"site.why_no_flood_mark", RILLMARK_TR("Look for drift lines and ask the landowner; log each as a flood mark."), ""},
        {"site.why_no_boundary", RILLMARK_TR("Log at least three corners, or the fence where the pipe crosses it."), ""},
        {"site.why_no_photo", RILLMARK_TR("Take one from where the whole place can be seen."), ""},
        {"site.why_straight_route", RILLMARK_TR("Only its ends are logged. Log every bend, high point and crossing."), ""},
        {"site.why_no_route", RILLMARK_TR("Log both ends and every bend between."), ""},
        {"site.why_no_benchmark", RILLMARK_TR("Mark a bolt or a rock that will still be there and log it."), ""},
        {"site.why_no_temperature", RILLMARK_TR("Measure it; 10 °C is assumed."), ""},
        {"site.why_no_pipe", RILLMARK_TR("Choose one in Power."), ""},
        {"site.why_no_cable", RILLMARK_TR("Choose one in Power."), ""},
        {"site.why_no_notes", RILLMARK_TR("Say what the ground is like and how a lorry gets there."), ""},
    };
    return table;
}

} // namespace rillmark::words
