// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "record_fields.h"
#include "station_choices.h"

#include <QList>
#include <QStringList>

#include <vector>

/// A choice that a link of the plant holds as text; the lists of machines are added by the presenter.
struct PlantChoice {
    QString link;
    QString key; // name of the column
    QString label;
    std::string rillmark::AlternativeRow::* column = nullptr;
    QList<Choice> choices; // the first stands for an empty column
};

/// "intake", "laying", "turbine", "drive", "prices".
[[nodiscard]] QStringList plant_links();
[[nodiscard]] std::vector<RecordField<rillmark::AlternativeRow>> plant_fields(const QString& link);
[[nodiscard]] std::vector<PlantChoice> plant_choices();
