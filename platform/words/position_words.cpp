// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>

namespace rillmark::words {

namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kOurs = "our own choice";

constexpr std::array kWords{
    // Single fixes
    Word{"position.not_finite", RILLMARK_TR("A position has a number that is not one ({where}). It was not used."), ""},
    Word{"position.out_of_range",
         RILLMARK_TR("Latitude {latitude}, longitude {longitude} is no place on Earth: latitude lies within 90 degrees, "
                     "longitude within 180. Check the receiver or what was typed."),
         ""},
    Word{"position.no_fix",
         RILLMARK_TR("The receiver has no fix at the moment; any coordinates it sends are old. Wait under open sky."),
         "NMEA Revealed (gpsd project), GGA quality 0"},
    Word{"position.not_measured",
         RILLMARK_TR("The receiver says that this position is {quality}: it was not measured here and cannot be a "
                     "station. Switch off the simulation or wait for a measured fix."),
         "NMEA Revealed (gpsd project), GGA quality 6 to 8"},
    Word{"position.zero_zero",
         RILLMARK_TR("The receiver sends 0 degrees north, 0 degrees east, which is open sea. It has no fix yet: wait, or "
                     "restart it."),
         kOurs},
    Word{"position.height_out_of_range",
         RILLMARK_TR("A height of {height} is not on the surface of the Earth. The fix was not used."), kOurs},
    // Averaging
    Word{"position.nothing_to_average",
         RILLMARK_TR("None of the {fixes} fixes can be used, so there is no position. Wait for a fix and log again."), ""},
    Word{"position.bad_correlation_time",
         RILLMARK_TR("The correlation time must be above zero; it is {correlation_time}."), ""},
    Word{"position.spread_too_wide",
         RILLMARK_TR("The fixes of this station lie more than {limit} apart, so they are not of one place. Log the "
                     "stations one by one."),
         kOurs},
    Word{"position.fixes_left_out",
         RILLMARK_TR("{left_out} fixes were not usable and were left out of the average; {used} were used."), ""},
    Word{"position.moved_while_averaging",
         RILLMARK_TR("The fixes scatter by {scatter}, more than three times the {claimed} that the receiver claims. It "
                     "was moved while averaging, or its view of the sky is poor: stand still and log again."),
         kOurs},
    Word{"position.receiver_unsure",
         RILLMARK_TR("The receiver itself is only sure to {claimed} (limit {limit}). Wait for a better fix or find a "
                     "more open place."),
         kOurs},
    Word{"position.mixed_quality",
         RILLMARK_TR("The fixes of this station are of different quality, from {best} to {worst}. The average is only as "
                     "good as the worse ones: log again when the receiver keeps the better."),
         kPractice},
    Word{"position.no_height",
         RILLMARK_TR("The receiver gave no height here (it saw too few satellites). The station has a place in the plan "
                     "but no height from the receiver."),
         ""},
    Word{"position.short_average",
         RILLMARK_TR("Averaged for {seconds}. The errors of the sky last for minutes: stay {limit}, or come back hours "
                     "later, before relying on this position for more than the plan."),
         kPractice},
    // Lines and grids
    Word{"position.route_empty", RILLMARK_TR("The line has no points yet. Log its first station."), ""},
    Word{"position.route_too_short", RILLMARK_TR("The line needs at least two points. Log another station on it."), ""},
    Word{"position.outside_utm",
         RILLMARK_TR("Latitude {latitude}, longitude {longitude} cannot be shown in UTM zone {zone}: UTM reaches from "
                     "80 degrees south to 84 degrees north, in zones 1 to 60, near the zone's own meridian."),
         "DMA TM 8358.2 (1989), as implemented by GeographicLib"},
    // Receivers
    Word{"position.no_receiver", RILLMARK_TR("No receiver is connected ({where}). Choose one in the settings."), ""},
    Word{"position.searching",
         RILLMARK_TR("{where}: listening, no usable fix yet. The first one can take minutes under open sky."), ""},
    Word{"position.fixing", RILLMARK_TR("{where}: receiving fixes."), ""},
    Word{"position.fix_stale",
         RILLMARK_TR("{where}: the last fix is {age} old. It shows where you were, not where you are."), kOurs},
    Word{"position.signal_lost",
         RILLMARK_TR("{where}: no fix for {age}. Move to a more open place and see that the receiver is on."), kOurs},
    Word{"position.cannot_connect",
         RILLMARK_TR("Cannot reach the receiver at {where}: {reason}. See that it is on and near; it is tried again "
                     "by itself."),
         ""},
    Word{"position.connection_lost",
         RILLMARK_TR("The connection to {where} broke: {reason}. It is tried again by itself; the last fix may be old."),
         ""},
    Word{"position.not_permitted",
         RILLMARK_TR("This device does not let the app know its position ({where}). Allow it in the device's settings."),
         ""},
    Word{"position.service_off",
         RILLMARK_TR("The position service of this device is switched off or failed ({where}). Switch it on, or connect "
                     "a receiver."),
         ""},
    Word{"position.no_system_service",
         RILLMARK_TR("This device has no position service of its own. Connect a receiver by network or cable, or play "
                     "back a log."),
         ""},
    Word{"position.log_unreadable",
         RILLMARK_TR("The log {where} cannot be read: {reason}. Choose another file."), ""},
    Word{"position.log_ended", RILLMARK_TR("The log {where} has been played to its end."), ""},
    Word{"position.stopped", RILLMARK_TR("{where}: stopped."), ""},
};

} // namespace

std::span<const Word> position_words() {
    return kWords;
}

} // namespace rillmark::words
