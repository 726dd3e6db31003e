// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/records.h"

#include <span>
#include <tuple>
#include <type_traits>
#include <variant>

namespace rillmark {

/// Where a column's value lives in its record.
template <class Record>
using Member = std::variant<Id Record::*, std::optional<Id> Record::*, double Record::*,
                            std::optional<double> Record::*, std::string Record::*, bool Record::*>;

/// One column of a table: its name, its member, and what gpkg_data_columns tells other programs.
template <class Record>
struct Column {
    const char* name;
    Member<Record> member;
    const char* title;
    const char* unit; // SI symbol, "deg", "degC", "1" for a ratio, empty for text and keys
};

/// The columns of a record, id first. Specialised in columns.cpp and columns_observations.cpp for every record of
/// records.h.
template <class Record>
[[nodiscard]] std::span<const Column<Record>> columns();

/// Every record, in an order in which each comes after those it refers to (site last of the items).
using ItemRecords = std::tuple<StationRow, MeterRow, FlowTestRow, LevelBookRow, HeightRunRow, FlowSeriesRow, AlternativeRow,
                               PipeSectionRow, PipeFittingRow, PipePriceRow, SiteRow>;
using ObservationRecords = std::tuple<OccupationRow, FixRow, SightRow, HeightReadingRow, FillRow, FlowReadingRow,
                                      FlowSeriesBlockRow, VerticalRow, VelocityRow, NoteRow, PhotoRow, AnswerRow, ImportRow, StrikeOutRow>;

namespace detail {
template <class Record, class Tuple>
struct IsOneOf;
template <class Record, class... Others>
struct IsOneOf<Record, std::tuple<Others...>> : std::disjunction<std::is_same<Record, Others>...> {};
} // namespace detail

/// Items may change; observations never do.
template <class Record>
inline constexpr bool kIsItem = detail::IsOneOf<Record, ItemRecords>::value;
/// These have a POINT geometry beside their longitude and latitude.
template <class Record>
inline constexpr bool kHasGeometry = std::is_same_v<Record, StationRow> || std::is_same_v<Record, FixRow>;

/// Calls visit(Record{}) for each record type, items first.
template <class Visit>
void for_each_record(Visit&& visit) {
    std::apply([&](const auto&... items) { (visit(items), ...); }, ItemRecords{});
    std::apply([&](const auto&... observations) { (visit(observations), ...); }, ObservationRecords{});
}

} // namespace rillmark
