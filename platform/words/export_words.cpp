// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr Word kWords[] = {
    {"exchange.no_positions",
     RILLMARK_TR("No station and no track of this site has a position, so there is nothing to draw. Log a position, or export "
                 "csv."),
     ""},
    {"exchange.no_profile",
     RILLMARK_TR("This site has no long profile: it takes stations along the pipe that have a position and a height."), ""},
    {"exchange.file_exists",
     RILLMARK_TR("{where} is there already and was not touched. Name another place, or add --force to write over it."), ""},
    {"exchange.onto_site", RILLMARK_TR("{where} is the site itself, which is never written over. Name another place."), ""},
    {"exchange.cannot_write",
     RILLMARK_TR("{where} cannot be written ({detail}). Check that its folder is there, that you may write in it, and that the "
                 "disk has room."),
     ""},
    {"exchange.pdf_outline",
     RILLMARK_TR("The bookmarks of the report could not be added ({detail}), so no report was kept. Try again; if it stays so, "
                 "please report it."),
     ""},
    {"exchange.no_report_here",
     RILLMARK_TR("This build of the command has no report: it was built without Qt. Make the report in the app, or build the "
                 "command with the app."),
     ""},
    {"exchange.utm_not_in_format",
     RILLMARK_TR("{where} takes no {parameter}: this format is in degrees of WGS 84, or has no positions. Use csv or dxf."),
     "RFC 7946, section 4; GPX 1.1; OGC 07-147r2"},
};

} // namespace

std::span<const Word> export_words() {
    return kWords;
}

} // namespace rillmark::words
