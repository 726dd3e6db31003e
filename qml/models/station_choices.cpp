// SPDX-License-Identifier: GPL-3.0-or-later
#include "station_choices.h"

using namespace rillmark;

QList<Choice> station_choices(const Survey& survey) {
    QList<Choice> choices;
    for (const Booked<StationRow>& station : survey.stations)
        if (!station.struck)
            choices.append({key_text(station.row.id), QString::fromStdString(station.row.name)});
    return choices;
}
