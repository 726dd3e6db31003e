// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_table.h"

#include "units/parse_quantity.h"

#include <algorithm>
#include <cctype>

namespace rillmark {

namespace {

bool same_letter(char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
}

bool same_text(std::string_view a, std::string_view b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), same_letter);
}

/// A header or parameter taken apart.
struct Named {
    const ReduceField* field = nullptr;
    std::optional<Unit> unit; // of a quantity
    std::string unknown_unit; // what stands where a unit should
};

std::optional<Unit> unit_after_name(Quantity quantity, std::string spelling) {
    if (const std::optional<Unit> unit = find_unit(quantity, spelling))
        return unit;
    std::replace(spelling.begin(), spelling.end(), '_', '/');
    return find_unit(quantity, spelling);
}

Named take_apart(std::string_view typed, std::span<const ReduceField> fields) {
    Named named;
    for (const ReduceField& field : fields) {
        const std::size_t length = field.name.size();
        if (!same_text(typed.substr(0, length), field.name))
            continue;
        const bool bare = typed.size() == length;
        if (!bare && (typed[length] != '_' || !field.quantity))
            continue;
        // of two names that both fit (angle, angle_of_x) the longer one is meant
        if (named.field != nullptr && named.field->name.size() > length)
            continue;
        named = {&field, {}, {}};
        if (!field.quantity)
            continue;
        if (bare) {
            named.unit = plain_unit(*field.quantity);
            continue;
        }
        named.unit = unit_after_name(*field.quantity, std::string(typed.substr(length + 1)));
        if (!named.unit)
            named.unknown_unit = typed.substr(length + 1);
    }
    return named;
}

std::string list_names(std::span<const ReduceField> fields) {
    std::string names;
    for (const ReduceField& field : fields)
        names += (names.empty() ? "" : ", ") + std::string(field.name);
    return names;
}

std::string list_units(Quantity quantity) {
    std::string units;
    for (const UnitSystem system : {UnitSystem::Metric, UnitSystem::UsCustomary})
        for (const Unit& unit : units_for(quantity, system)) {
            std::string spelling(unit.spellings.substr(0, unit.spellings.find('|')));
            std::replace(spelling.begin(), spelling.end(), '/', '_');
            if (spelling.empty() || (", " + units + ",").find(", " + spelling + ",") != std::string::npos)
                continue;
            units += (units.empty() ? "" : ", ") + spelling;
        }
    return units;
}

bool number_with_comma(std::string_view cell) {
    return std::count(cell.begin(), cell.end(), ',') == 1 &&
           cell.find_first_not_of("0123456789,+-") == std::string_view::npos;
}

NumberFormat format_of(const CsvTable& table) {
    NumberFormat format;
    if (table.separator == ';')
        for (std::size_t row = 0; row < table.size(); ++row)
            for (std::size_t column = 0; column < table.header.size(); ++column)
                if (number_with_comma(table.cell(row, column)))
                    format.decimal = ',';
    return format;
}

Expected<double> read_number(std::string_view typed, const Named& named, const NumberFormat& format) {
    const Expected<ParsedQuantity> parsed = parse_quantity(typed, *named.unit, format);
    if (!parsed)
        return parsed.error();
    if (!named.field->difference)
        return parsed->si;
    const std::optional<Unit> unit = find_unit(*named.field->quantity, parsed->unit);
    return parsed->si - (unit ? to_si(*unit, 0.0) : 0.0);
}

} // namespace

Unit plain_unit(Quantity quantity) {
    if (quantity == Quantity::Angle)
        return find_unit(quantity, "deg").value_or(Unit{}); // nobody reads a protractor in radians
    for (const Unit& unit : units_for(quantity, UnitSystem::Metric))
        if (unit.factor == 1.0 && unit.offset == 0.0)
            return unit;
    return entry_unit(quantity, UnitSystem::Metric);
}

std::optional<double> ReduceTable::number(std::size_t row, std::string_view field) const {
    const auto column = m_columns.find(field);
    return column == m_columns.end() || column->second.numbers.empty() ? std::nullopt : column->second.numbers[row];
}

const std::string& ReduceTable::text(std::size_t row, std::string_view field) const {
    static const std::string none;
    const auto column = m_columns.find(field);
    return column == m_columns.end() ? none : column->second.texts[row];
}

bool ReduceTable::has(std::size_t row, std::string_view field) const {
    return !text(row, field).empty();
}

std::optional<double> ReduceTable::parameter(std::string_view field) const {
    const auto hit = m_parameters.find(field);
    return hit == m_parameters.end() ? std::nullopt : hit->second.si;
}

const std::string& ReduceTable::text_parameter(std::string_view field) const {
    static const std::string none;
    const auto hit = m_parameters.find(field);
    return hit == m_parameters.end() ? none : hit->second.text;
}

Finding ReduceTable::at(Finding finding, std::size_t row, std::string_view field) const {
    return at_place(std::move(finding), m_file, m_lines[row], std::string(field));
}

namespace {

/// What the header of a file means, one entry a column.
Expected<std::vector<Named>> read_header(const CsvTable& table, std::span<const ReduceField> columns) {
    std::vector<Named> named;
    for (const std::string& header : table.header) {
        const auto refused = [&](const char* code, std::vector<Arg> args) {
            return at_place(refusal(code, table.file, std::move(args)), table.file, table.header_line, header);
        };
        named.push_back(take_apart(header, columns));
        const Named& one = named.back();
        if (one.field == nullptr)
            return refused("exchange.column_unknown", {{"name", header}, {"accepted", list_names(columns)}});
        if (!one.unknown_unit.empty())
            return refused("exchange.column_unit_unknown",
                           {{"unit", one.unknown_unit}, {"accepted", list_units(*one.field->quantity)}});
        if (std::ranges::count(named, one.field, &Named::field) > 1)
            return refused("exchange.column_twice", {{"name", std::string(one.field->name)}});
    }
    for (const ReduceField& field : columns)
        if (field.required && std::ranges::find(named, &field, &Named::field) == named.end())
            return at_place(refusal("exchange.column_missing", table.file,
                                    {{"missing", std::string(field.name)}, {"accepted", list_names(columns)}}),
                            table.file, table.header_line, std::string(field.name));
    return named;
}

Finding of_parameter(Finding finding, std::string_view name) {
    finding.args.push_back({"parameter", std::string(name)});
    return finding;
}

using Parameters = std::map<std::string_view, ReduceValue, std::less<>>;

Expected<ReduceValue> read_value(const std::string& typed, const Named& named) {
    ReduceValue value{typed, {}};
    if (!named.field->quantity)
        return value;
    const Expected<double> si = read_number(typed, named, {});
    if (!si)
        return of_parameter(si.error(), named.field->name);
    value.si = *si;
    return value;
}

/// The parameters as typed, and what holds where one was not.
Expected<Parameters> read_parameters(std::span<const ReduceField> fields, const std::vector<TypedParameter>& typed) {
    Parameters read;
    for (const TypedParameter& one : typed) {
        const Named named = take_apart(one.name, fields);
        if (named.field == nullptr)
            return of_parameter(refusal("exchange.parameter_unknown", {}, {{"accepted", list_names(fields)}}),
                                one.name);
        if (!named.unknown_unit.empty())
            return of_parameter(
                refusal("exchange.parameter_unit_unknown", {},
                        {{"unit", named.unknown_unit}, {"accepted", list_units(*named.field->quantity)}}),
                one.name);
        Expected<ReduceValue> value = read_value(one.value, named);
        if (!value)
            return value.error();
        if (!read.emplace(named.field->name, std::move(value).value()).second)
            return of_parameter(refusal("exchange.parameter_twice"), named.field->name);
    }
    for (const ReduceField& field : fields) {
        if (field.fallback.empty() || read.contains(field.name))
            continue;
        Expected<ReduceValue> value = read_value(std::string(field.fallback), take_apart(field.name, fields));
        if (!value)
            return value.error();
        read.emplace(field.name, std::move(value).value());
    }
    return read;
}

/// The value of a cell that is a quantity; nothing where it is empty.
Expected<std::optional<double>> read_cell(std::string_view text, const Named& named, const NumberFormat& format) {
    if (text.empty())
        return std::optional<double>{};
    const Expected<double> si = read_number(text, named, format);
    if (!si)
        return si.error();
    return std::optional(*si);
}

} // namespace

Expected<ReduceTable> read_reduce_table(const CsvTable& table, std::span<const ReduceField> columns,
                                        std::span<const ReduceField> parameters,
                                        const std::vector<TypedParameter>& typed) {
    const Expected<std::vector<Named>> header = read_header(table, columns);
    if (!header)
        return header.error();
    ReduceTable read;
    read.m_file = table.file;
    const NumberFormat format = format_of(table);
    std::vector<ReduceTable::Column*> filled; // one a column of the file
    for (const Named& named : *header)
        filled.push_back(&read.m_columns[named.field->name]);
    for (std::size_t row = 0; row < table.size(); ++row) {
        read.m_lines.push_back(table.line(row));
        for (std::size_t i = 0; i < filled.size(); ++i) {
            const Named& named = (*header)[i];
            const std::string_view cell = table.cell(row, i);
            const auto at_cell = [&](Finding why) {
                return at_place(std::move(why), table.file, table.line(row), std::string(named.field->name));
            };
            if (cell.empty() && named.field->required)
                return at_cell(refusal("exchange.cell_empty"));
            filled[i]->texts.emplace_back(cell);
            if (!named.field->quantity)
                continue;
            const Expected<std::optional<double>> number = read_cell(cell, named, format);
            if (!number)
                return at_cell(number.error());
            filled[i]->numbers.push_back(*number);
        }
    }
    Expected<Parameters> given = read_parameters(parameters, typed);
    if (!given)
        return given.error();
    read.m_parameters = std::move(given).value();
    return read;
}

} // namespace rillmark
