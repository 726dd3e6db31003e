// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_csv.h"

#include "exchange/csv.h"
#include "units/lower_case.h"

#include <algorithm>
#include <cctype>
#include <span>

namespace rillmark {

namespace {

constexpr std::string_view kLongitudes[] = {"longitude_deg", "longitude", "lon", "lng", "long", "x"};
constexpr std::string_view kLatitudes[] = {"latitude_deg", "latitude", "lat", "y"};

std::string comma_list(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names)
        list += (list.empty() ? "" : ", ") + name;
    return list;
}

/// The chosen column, or the first of the usual names.
Expected<std::size_t> position_column(const CsvTable& table, const std::string& chosen,
                                      std::span<const std::string_view> usual) {
    if (!chosen.empty()) {
        const auto hit = std::ranges::find(table.header, chosen);
        if (hit != table.header.end())
            return static_cast<std::size_t>(hit - table.header.begin());
    } else {
        for (const std::string_view name : usual)
            for (std::size_t i = 0; i < table.header.size(); ++i)
                if (lower_case(table.header[i]) == name)
                    return i;
    }
    return refusal(
        "exchange.import_column_missing", table.file,
        {{"missing", chosen.empty() ? std::string(usual[1]) : chosen}, {"columns", comma_list(table.header)}});
}

std::string with_point(std::string_view cell, char separator) {
    std::string number(cell);
    if (separator == ';')
        std::ranges::replace(number, ',', '.');
    return number;
}

ImportFeature described_row(const CsvTable& table, std::size_t row) {
    ImportFeature feature;
    feature.line = table.line(row);
    for (std::size_t i = 0; i < table.header.size(); ++i) {
        const std::string text = import_text(table.cell(row, i));
        feature.fields.emplace_back(table.header[i], text);
        const std::string name = lower_case(table.header[i]);
        if (name == "name")
            feature.name = text;
        else if (name == "kind")
            feature.kind = text;
        else if (name == "note")
            feature.note = text;
    }
    return feature;
}

} // namespace

Expected<ImportedFile> read_place_table(std::string_view bytes, const std::string& file,
                                        const PositionColumns& columns) {
    const Expected<CsvTable> table = read_csv(bytes, file);
    if (!table)
        return table.error();
    const Expected<std::size_t> longitude = position_column(*table, columns.longitude, kLongitudes);
    if (!longitude)
        return longitude.error();
    const Expected<std::size_t> latitude = position_column(*table, columns.latitude, kLatitudes);
    if (!latitude)
        return latitude.error();
    ImportedFile imported{"csv", {}, {}};
    ImportCount count(file);
    for (std::size_t row = 0; row < table->size(); ++row) {
        ImportFeature feature = described_row(*table, row);
        const std::string x = with_point(table->cell(row, *longitude), table->separator);
        const std::string y = with_point(table->cell(row, *latitude), table->separator);
        if (x.empty() && y.empty()) {
            imported.notes.push_back(note("exchange.import_empty", feature.name, {{"line", table->line(row)}}));
            continue;
        }
        const Expected<ImportPoint> point = import_point(x, y);
        if (!point)
            return at_place(point.error(), file, table->line(row),
                            table->header[import_number(x) ? *latitude : *longitude]);
        if (const Expected<void> counted = count.feature(); !counted)
            return counted.error();
        feature.parts = {{*point}};
        imported.features.push_back(std::move(feature));
    }
    if (imported.features.empty())
        return refusal("exchange.import_nothing", file);
    return imported;
}

} // namespace rillmark
