// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "heights/height_method.h"
#include "project/records.h"

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
};

/// What a method reads, one reading at a time.
[[nodiscard]] std::vector<RecordField<rillmark::HeightReadingRow>> reading_fields(rillmark::HeightMethod method);
/// What all readings of a run share: the instrument.
[[nodiscard]] std::vector<RecordField<rillmark::HeightRunRow>> run_fields(rillmark::HeightMethod method);

/// Puts what was typed into the record; an empty field empties its column.
template <class Record>
void fill_record(const std::vector<RecordField<Record>>& fields, const EntryForm& form, Record& record) {
    for (const RecordField<Record>& one : fields) {
        const std::optional<double> si = form.number(one.field.key);
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
