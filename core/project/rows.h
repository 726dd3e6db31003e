// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/columns.h"
#include "project/sqlite.h"
#include "project/tables.h"

#include <cmath>
#include <type_traits>

/// Reading and writing of any record by its list of columns.
namespace rillmark::rows {

namespace detail {
template <class T>
struct Plain {
    using type = T;
};
template <class T>
struct Plain<std::optional<T>> {
    using type = T;
};
/// The type of a member without its optional.
template <class Record, class Value>
using PlainValue = typename Plain<std::remove_cvref_t<decltype(std::declval<Record>().*std::declval<Value Record::*>())>>::type;
} // namespace detail

template <class Record>
CellKind kind_of(const Column<Record>& column) {
    return std::visit(
        []<class Value>(Value Record::*) {
            using Plain = detail::PlainValue<Record, Value>;
            if constexpr (std::is_same_v<Plain, bool>)
                return CellKind::Boolean;
            else if constexpr (std::is_same_v<Plain, Id>)
                return CellKind::Integer;
            else if constexpr (std::is_same_v<Plain, double>)
                return CellKind::Real;
            else
                return CellKind::Text;
        },
        column.member);
}

template <class Record>
bool required(const Column<Record>& column) {
    return std::holds_alternative<Id Record::*>(column.member) || std::holds_alternative<double Record::*>(column.member) ||
           std::holds_alternative<std::string Record::*>(column.member) ||
           std::holds_alternative<bool Record::*>(column.member);
}

template <class Record>
void bind(sqlite::Run& run, int index, const Column<Record>& column, const Record& record) {
    std::visit(
        [&]<class Value>(Value Record::* member) {
            if constexpr (std::is_same_v<Value, bool>)
                run.bind(index, static_cast<std::int64_t>(record.*member));
            else if constexpr (std::is_same_v<Value, std::string>)
                run.bind(index, std::string_view(record.*member));
            else
                run.bind(index, record.*member);
        },
        column.member);
}

template <class Record>
void read(const sqlite::Run& run, int index, const Column<Record>& column, Record& record) {
    std::visit(
        [&]<class Value>(Value Record::* member) {
            using Plain = detail::PlainValue<Record, Value>;
            if constexpr (!std::is_same_v<Plain, Value>)
                if (run.null(index)) {
                    (record.*member).reset();
                    return;
                }
            if constexpr (std::is_same_v<Plain, bool>)
                record.*member = run.integer(index) != 0;
            else if constexpr (std::is_same_v<Plain, Id>)
                record.*member = run.integer(index);
            else if constexpr (std::is_same_v<Plain, double>)
                record.*member = run.real(index);
            else
                record.*member = run.text(index);
        },
        column.member);
}

/// The cell as the edit log keeps it: numbers in the shortest form that reads back to the same; nullopt for NULL.
template <class Record>
std::optional<std::string> text_of(const Column<Record>& column, const Record& record) {
    return std::visit(
        [&]<class Value>(Value Record::* member) -> std::optional<std::string> {
            if constexpr (std::is_same_v<Value, std::string>)
                return record.*member;
            else if constexpr (std::is_same_v<Value, bool>)
                return record.*member ? "1" : "0";
            else if constexpr (std::is_same_v<Value, Id> || std::is_same_v<Value, double>)
                return number_text(record.*member);
            else
                return record.*member ? std::optional(number_text(*(record.*member))) : std::nullopt;
        },
        column.member);
}

/// The first column that holds a number which is not finite, or nullptr. SQLite would store NaN as NULL.
template <class Record>
const char* not_finite(const Record& record) {
    for (const Column<Record>& column : columns<Record>()) {
        bool finite = true;
        if (const auto* member = std::get_if<double Record::*>(&column.member))
            finite = std::isfinite(record.**member);
        else if (const auto* optional = std::get_if<std::optional<double> Record::*>(&column.member))
            finite = std::isfinite((record.**optional).value_or(0.0));
        if (!finite)
            return column.name;
    }
    return nullptr;
}

/// "id, name, ..." of a record.
template <class Record>
std::string column_list() {
    std::string list;
    for (const Column<Record>& column : columns<Record>())
        list += (list.empty() ? "" : ", ") + std::string(column.name);
    return list;
}

template <class Record>
void read_record(const sqlite::Run& run, Record& record) {
    int index = 0;
    for (const Column<Record>& column : columns<Record>())
        read(run, index++, column, record);
}

} // namespace rillmark::rows
