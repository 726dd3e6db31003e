// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "project/records.h"

#include <cmath>
#include <optional>
#include <variant>
#include <vector>

/// A field of an entry form and the column of the record that it fills: column = offset + factor x SI value.
template <class Record>
struct RecordField {
    EntryForm::Field field;
    std::variant<std::optional<double> Record::*, std::optional<rillmark::Id> Record::*> column;
    double factor = 1.0;
    double offset = 0.0;
    bool slope = false; // typed as a slope, kept as an angle in degrees in a column that another field may fill instead
};

/// One field and its column. A field that is typed as a +/- has the factor 1/2, an angle in a column of degrees 180/pi.
template <class Record, class Value>
[[nodiscard]] RecordField<Record> record_field(QString label, rillmark::Quantity quantity, std::optional<Value> Record::* column,
                                               bool required = true, bool may_be_negative = false, double factor = 1.0,
                                               double offset = 0.0) {
    return {{label, label, quantity, required, may_be_negative}, column, factor, offset};
}

/// The entry fields alone.
template <class Record>
[[nodiscard]] std::vector<EntryForm::Field> form_fields(const std::vector<RecordField<Record>>& fields) {
    std::vector<EntryForm::Field> list;
    for (const RecordField<Record>& one : fields)
        list.push_back(one.field);
    return list;
}

/// What was typed, field by field, as it is kept beside the numbers.
template <class Record>
[[nodiscard]] std::string typed_of(const std::vector<RecordField<Record>>& fields, const EntryForm& form) {
    QStringList typed;
    for (const RecordField<Record>& one : fields)
        if (const QString text = form.typed(one.field.key).trimmed(); !text.isEmpty())
            typed.append(QStringLiteral("%1 %2").arg(one.field.label, text));
    return typed.join(QStringLiteral(", ")).toStdString();
}

/// Shows in the fields what the record holds, in the user's units.
template <class Record>
void show_record(const std::vector<RecordField<Record>>& fields, const Record& record, EntryForm& form, const Formatter& formatter) {
    for (const RecordField<Record>& one : fields)
        if (const auto* column = std::get_if<std::optional<double> Record::*>(&one.column)) {
            const std::optional<double> stored = record.**column;
            form.setTypedByKey(one.field.key,
                               stored ? formatter.value((*stored - one.offset) / one.factor, *one.field.quantity) : QString());
        }
}

/// Puts what was typed into the record; an empty field empties its column.
template <class Record>
void fill_record(const std::vector<RecordField<Record>>& fields, const EntryForm& form, Record& record) {
    for (const RecordField<Record>& one : fields) {
        std::optional<double> si = form.number(one.field.key);
        if (one.slope) {
            if (!si)
                continue; // the angle beside it counts
            si = std::atan(*si);
        }
        std::visit(
            [&]<class Value>(std::optional<Value> Record::* column) {
                if (si)
                    record.*column = static_cast<Value>(one.offset + one.factor * *si);
                else
                    (record.*column).reset();
            },
            one.column);
    }
}
