// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce.h"

#include "desk/commands.h"

#include <cerrno>
#include <fstream>
#include <iostream>
#include <system_error>

namespace rillmark::desk {

namespace {

/// At most one byte more than read_csv takes, so that an endless stream is refused and not swallowed.
Expected<std::string> read_all(std::istream& stream, const std::string& file) {
    std::string bytes;
    constexpr std::size_t kBlock_bytes = 64 * 1024;
    while (stream && bytes.size() <= kCsvLargestFile_bytes) {
        const std::size_t before = bytes.size();
        bytes.resize(before + kBlock_bytes);
        stream.read(bytes.data() + before, kBlock_bytes);
        bytes.resize(before + static_cast<std::size_t>(stream.gcount()));
    }
    if (stream.bad())
        return refusal("exchange.cannot_read", file, {{"detail", std::generic_category().message(errno)}});
    return bytes;
}

Expected<std::string> read_file(const std::string& file) {
    if (file == "-")
        return read_all(std::cin, file);
    std::error_code unknown;
    if (std::filesystem::is_directory(file, unknown))
        return refusal("exchange.cannot_read", file, {{"detail", std::generic_category().message(EISDIR)}});
    std::ifstream stream(file, std::ios::binary);
    if (!stream)
        return refusal("exchange.cannot_read", file, {{"detail", std::generic_category().message(errno)}});
    return read_all(stream, file);
}

int no_such_method(const std::string& method) {
    std::cerr << "rillmark-desk: there is no method \"" << method << "\"; methods are:";
    for (const ReduceMethod& one : reduce_methods())
        std::cerr << ' ' << one.id;
    std::cerr << '\n';
    return kWrongCall;
}

std::string unit_of(const ReduceField& field) {
    if (!field.quantity)
        return "text";
    const std::string_view spellings = plain_unit(*field.quantity).spellings;
    return std::string(spellings.substr(0, spellings.find('|')));
}

nlohmann::json fields_json(std::span<const ReduceField> fields) {
    nlohmann::json list = nlohmann::json::array();
    for (const ReduceField& field : fields) {
        list.push_back({{"name", field.name}, {"unit", unit_of(field)}, {"required", field.required}, {"what", word(field.what)}});
        if (!field.fallback.empty())
            list.back()["default"] = field.fallback;
    }
    return list;
}

void print_fields(std::span<const ReduceField> fields) {
    std::vector<std::vector<std::string>> rows;
    for (const ReduceField& field : fields) {
        std::string need = field.required ? "required" : "";
        if (!field.fallback.empty())
            need = "default " + std::string(field.fallback);
        rows.push_back({std::string(field.name), unit_of(field), need, word(field.what)});
    }
    print_table(rows);
}

nlohmann::json cell_json(const ResultTable::Cell& cell, const std::optional<Quantity>& quantity) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return *text;
    if (const auto* estimate = std::get_if<Estimate>(&cell))
        return to_json(*estimate, quantity.value_or(Quantity::Number));
    return nullptr;
}

nlohmann::json reduction_json(const Reduction& reduction) {
    nlohmann::json results = nlohmann::json::array();
    for (const NamedResult& result : reduction.results) {
        nlohmann::json one = to_json(result.estimate, result.quantity);
        one["name"] = short_name(result.code);
        if (!result.subject.empty())
            one["case"] = result.subject;
        results.push_back(std::move(one));
    }
    nlohmann::json tables = nlohmann::json::object();
    for (const ResultTable& table : reduction.tables) {
        nlohmann::json rows = nlohmann::json::array();
        for (const std::vector<ResultTable::Cell>& row : table.rows) {
            nlohmann::json cells = nlohmann::json::object();
            for (std::size_t i = 0; i < row.size(); ++i)
                cells[short_name(table.columns[i].code)] = cell_json(row[i], table.columns[i].quantity);
            rows.push_back(std::move(cells));
        }
        tables[short_name(table.code)] = std::move(rows);
    }
    return {{"method", reduction.method},
            {"results", std::move(results)},
            {"tables", std::move(tables)},
            {"findings", to_json(reduction.findings)}};
}

std::string cell_text(const ResultTable::Cell& cell, const std::optional<Quantity>& quantity, const Manner& manner) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return *text;
    if (const auto* estimate = std::get_if<Estimate>(&cell))
        return shown(*estimate, quantity.value_or(Quantity::Number), manner);
    return "–";
}

void print_reduction(const Reduction& reduction, const Manner& manner) {
    std::vector<std::vector<std::string>> lines;
    for (const NamedResult& result : reduction.results) {
        std::vector<std::string> line{word(result.code), shown(result.estimate, result.quantity, manner)};
        if (!result.subject.empty())
            line.insert(line.begin(), result.subject);
        lines.push_back(std::move(line));
    }
    print_table(lines);
    for (const ResultTable& table : reduction.tables) {
        std::cout << '\n' << word(table.code) << '\n';
        std::vector<std::vector<std::string>> rows(1);
        for (const ResultTable::Column& column : table.columns)
            rows.front().push_back(word(column.code));
        for (const std::vector<ResultTable::Cell>& row : table.rows) {
            rows.emplace_back();
            for (std::size_t i = 0; i < row.size(); ++i)
                rows.back().push_back(cell_text(row[i], table.columns[i].quantity, manner));
        }
        print_table(rows);
    }
    print_findings(reduction.findings, manner);
}

} // namespace

int list_methods(const Manner& manner) {
    nlohmann::json list = nlohmann::json::array();
    std::vector<std::vector<std::string>> rows;
    for (const ReduceMethod& method : reduce_methods()) {
        list.push_back({{"id", method.id}, {"what", word(method.what)}});
        rows.push_back({std::string(method.id), word(method.what)});
    }
    manner.json ? print_json({{"methods", std::move(list)}}) : print_table(rows);
    return kDone;
}

int list_columns(const std::string& id, const Manner& manner) {
    const ReduceMethod* method = find_reduce_method(id);
    if (method == nullptr)
        return no_such_method(id);
    if (manner.json) {
        print_json({{"method", id},
                    {"columns", fields_json(method->columns)},
                    {"parameters", fields_json(method->parameters)}});
        return kDone;
    }
    std::cout << word(method->what) << "\n\nColumns\n";
    print_fields(method->columns);
    if (!method->parameters.empty()) {
        std::cout << "\nParameters, each as --set NAME=VALUE\n";
        print_fields(method->parameters);
    }
    std::cout << "\nA unit may follow a name (depth_ft, velocity_ft_s, discharge_L_s) or a value (3 ft 6 in).\n";
    return kDone;
}

int reduce(const std::string& id, const std::string& file, const std::vector<std::string>& parameters,
           const Manner& manner) {
    const ReduceMethod* method = find_reduce_method(id);
    if (method == nullptr)
        return no_such_method(id);
    std::vector<TypedParameter> typed;
    for (const std::string& parameter : parameters) {
        const std::size_t sign = parameter.find('=');
        if (sign == std::string::npos || sign == 0) {
            std::cerr << "rillmark-desk: --set takes NAME=VALUE, not \"" << parameter << "\"\n";
            return kWrongCall;
        }
        typed.push_back({parameter.substr(0, sign), parameter.substr(sign + 1)});
    }
    const Expected<std::string> bytes = read_file(file);
    if (!bytes)
        return refuse(bytes.error(), manner);
    const Expected<CsvTable> table = read_csv(*bytes, file);
    if (!table)
        return refuse(table.error(), manner);
    const Expected<Reduction> reduction = reduce_table(*method, *table, typed);
    if (!reduction)
        return refuse(reduction.error(), manner);
    manner.json ? print_json(reduction_json(*reduction)) : print_reduction(*reduction, manner);
    return kDone;
}

} // namespace rillmark::desk
