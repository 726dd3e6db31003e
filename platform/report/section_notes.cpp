// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/sections.h"

#include <algorithm>

namespace rillmark::report {

void notes_section(const Context& context, Galley& galley) {
    if (context.survey.notes.empty())
        return;
    galley.chapter(Report::tr("Notes of the walk"));
    Table table{{{Report::tr("Station")}, {Report::tr("When")}, {Report::tr("Note")}}, {}};
    for (const Booked<NoteRow>& note : context.survey.notes) {
        const StationRow* station = note.row.station_id ? context.survey.station(*note.row.station_id) : nullptr;
        Cell text(text_of(note.row.text));
        text.struck = note.struck;
        table.rows.push_back({Cell(station != nullptr ? text_of(station->name) : QString()).bold(),
                              Wording::when(note.row.observed_at), text});
        if (note.struck)
            table.rows.push_back({Cell(), Cell(), Cell(text_of(note.struck_reason)).in(ink::kDanger)});
    }
    galley.table(std::move(table));
}

} // namespace rillmark::report
