// SPDX-License-Identifier: GPL-3.0-or-later
// Names of what is stored by an id: kinds of station, qualities of a fix, actions, tables.
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> label_words() {
    static constexpr Word table[] = {
        {"position.kind_intake", RILLMARK_TR("Intake"), ""},
        {"position.kind_route-point", RILLMARK_TR("Route point"), ""},
        {"position.kind_high-point", RILLMARK_TR("High point"), ""},
        {"position.kind_powerhouse", RILLMARK_TR("Powerhouse"), ""},
        {"position.kind_tailwater", RILLMARK_TR("Tailwater"), ""},
        {"position.kind_flood-mark", RILLMARK_TR("Flood mark"), ""},
        {"position.kind_boundary-corner", RILLMARK_TR("Boundary corner"), ""},
        {"position.kind_cable-point", RILLMARK_TR("Cable point"), ""},
        {"position.kind_house", RILLMARK_TR("House"), ""},
        {"position.kind_benchmark", RILLMARK_TR("Bench mark"), ""},
        {"position.kind_crossing", RILLMARK_TR("Crossing"), ""},
        {"position.kind_access", RILLMARK_TR("Access"), ""},
        {"position.kind_hazard", RILLMARK_TR("Hazard"), ""},
        {"position.kind_other", RILLMARK_TR("Other"), ""},
        {"position.quality_none", RILLMARK_TR("no fix"), ""},
        {"position.quality_autonomous", RILLMARK_TR("autonomous fix"), ""},
        {"position.quality_differential", RILLMARK_TR("differential fix"), ""},
        {"position.quality_pps", RILLMARK_TR("precise fix"), ""},
        {"position.quality_rtk-fixed", RILLMARK_TR("RTK fixed"), ""},
        {"position.quality_rtk-float", RILLMARK_TR("RTK float"), ""},
        {"position.quality_dead-reckoning", RILLMARK_TR("dead reckoning"), ""},
        {"position.quality_manual", RILLMARK_TR("typed in"), ""},
        {"position.quality_simulator", RILLMARK_TR("simulated"), ""},
        {"position.quality_unknown", RILLMARK_TR("fix"), ""},
        {"project.verb_booked", RILLMARK_TR("booked"), ""},
        {"project.verb_changed", RILLMARK_TR("changed"), ""},
        {"project.verb_struck", RILLMARK_TR("struck out"), ""},
        {"project.verb_restored", RILLMARK_TR("taken back"), ""},
        {"project.table_site", RILLMARK_TR("site"), ""},
        {"project.table_station", RILLMARK_TR("station"), ""},
        {"project.table_level_book", RILLMARK_TR("level book"), ""},
        {"project.table_flow_test", RILLMARK_TR("flow test"), ""},
        {"project.table_meter", RILLMARK_TR("current meter"), ""},
        {"project.table_alternative", RILLMARK_TR("alternative"), ""},
        {"project.table_fix", RILLMARK_TR("fix"), ""},
        {"project.table_occupation", RILLMARK_TR("stay at a station"), ""},
        {"project.table_level_sight", RILLMARK_TR("sight"), ""},
        {"project.table_height_run", RILLMARK_TR("run of heights"), ""},
        {"project.table_height_reading", RILLMARK_TR("height reading"), ""},
        {"project.table_pipe_section", RILLMARK_TR("section of the pipe"), ""},
        {"project.table_pipe_fitting", RILLMARK_TR("fitting in the pipe"), ""},
        {"project.table_pipe_price", RILLMARK_TR("price of a pipe"), ""},
        {"project.table_flow_reading", RILLMARK_TR("flow reading"), ""},
        {"project.table_flow_series", RILLMARK_TR("series of readings"), ""},
        {"project.table_flow_series_block", RILLMARK_TR("part of a series"), ""},
        {"project.table_container_fill", RILLMARK_TR("fill"), ""},
        {"project.table_gauging_vertical", RILLMARK_TR("vertical"), ""},
        {"project.table_gauging_velocity", RILLMARK_TR("velocity"), ""},
        {"project.table_note", RILLMARK_TR("note"), ""},
        {"project.table_photo", RILLMARK_TR("photo"), ""},
        {"project.table_answer", RILLMARK_TR("answer"), ""},
        {"project.table_import_source", RILLMARK_TR("file read in"), ""},
    };
    return table;
}

} // namespace rillmark::words
