// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/flow_method.h"
#include "record_fields.h"
#include "station_choices.h"

#include <QList>

#include <vector>

/// A choice that a method's set-up holds as text: the shape of a weir, the bed of a float gauging.
struct SetupChoice {
    QString label;
    std::string rillmark::FlowTestRow::* column = nullptr;
    QList<Choice> choices; // the first stands for an empty column
};

/// What one reading of a method may be for, and what it asks.
struct ReadingRole {
    std::string role;
    QString label;
    std::vector<RecordField<rillmark::FlowReadingRow>> fields;
    QString part_label; // of the section or probe that it belongs to; empty: there is but one
};

/// `dye`: of a constant rate whose tracer is dye.
[[nodiscard]] std::vector<RecordField<rillmark::FlowTestRow>> setup_fields(rillmark::FlowMethod method, bool dye);
[[nodiscard]] std::vector<SetupChoice> setup_choices(rillmark::FlowMethod method);
/// Empty for the methods that have pages of their own.
[[nodiscard]] std::vector<ReadingRole> reading_roles(rillmark::FlowMethod method, bool dye);
