// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/resolve_conflict.h"

#include "project/columns.h"

#include <charconv>

namespace rillmark {

namespace {

template <class Number>
bool read_number(const std::string& text, Number& number) {
    const char* const end = text.data() + text.size();
    const auto [stop, problem] = std::from_chars(text.data(), end, number);
    return problem == std::errc{} && stop == end;
}

bool read_value(const std::string& text, std::string& value) {
    value = text;
    return true;
}
bool read_value(const std::string& text, bool& value) {
    value = text == "1";
    return value || text == "0";
}
bool read_value(const std::string& text, Id& value) {
    return read_number(text, value);
}
bool read_value(const std::string& text, double& value) {
    return read_number(text, value);
}
template <class Value>
bool read_value(const std::string& text, std::optional<Value>& value) {
    return read_value(text, value.emplace());
}

/// Puts a value as the edit log keeps it into its column; false where it does not fit there.
template <class Record>
bool put(Record& record, const Column<Record>& column, const std::optional<std::string>& text) {
    return std::visit(
        [&]<class Value>(Value Record::*member) {
            if (text)
                return read_value(*text, record.*member);
            record.*member = Value{};
            return !std::is_same_v<Value, double> && !std::is_same_v<Value, Id>; // these are never empty
        },
        column.member);
}

template <class Record>
Expected<void> resolve_in_row(Project& project, const MergeConflict& conflict,
                              const std::optional<std::string>& value) {
    const Expected<Booked<Record>> stored = project.get<Record>(conflict.row_id);
    if (!stored)
        return stored.error();
    Record record = stored->row;
    for (const Column<Record>& column : columns<Record>().subspan(1)) // the key never changes
        if (column.name == conflict.column && put(record, column, value))
            return project.change(record);
    return refusal("project.unknown_column", conflict.table, {{"column", conflict.column}});
}

} // namespace

Expected<void> resolve_conflict(Project& project, const MergeConflict& conflict, bool take_other) {
    const std::optional<std::string>& value = take_other ? conflict.other.value : conflict.mine.value;
    std::optional<Expected<void>> done;
    std::apply(
        [&]<class... Record>(const Record&...) {
            ((conflict.table == Record::kTable ? done.emplace(resolve_in_row<Record>(project, conflict, value)),
              void()                           : void()),
             ...);
        },
        ItemRecords{});
    return done ? *done
                : Expected<void>(refusal("project.unknown_column", conflict.table, {{"column", conflict.column}}));
}

} // namespace rillmark
