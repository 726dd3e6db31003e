// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/output.h"

#include "exchange/reduce_table.h"
#include "units/typed_text.h"
#include "words/words.h"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <unistd.h>

namespace rillmark::desk {

namespace {

const Arg* arg_of(const Finding& finding, std::string_view name) {
    // the last one: the place is put behind the arguments of the computation
    const auto hit =
        std::find_if(finding.args.rbegin(), finding.args.rend(), [&](const Arg& a) { return a.name == name; });
    return hit == finding.args.rend() ? nullptr : &*hit;
}

std::string plain(const Arg& arg) {
    if (const auto* whole = std::get_if<std::int64_t>(&arg.value))
        return std::to_string(*whole);
    if (const auto* text = std::get_if<std::string>(&arg.value))
        return *text;
    return std::to_string(std::get<double>(arg.value));
}

/// Characters, not bytes: enough for the accents and signs that we print.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

} // namespace

std::string short_name(std::string_view code) {
    return std::string(code.substr(code.rfind('.') + 1));
}

std::string word(std::string_view code) {
    const words::Word* found = words::find(code);
    return found == nullptr ? std::string(code) : found->text;
}

std::string place_of(const Finding& finding) {
    const Arg* file = arg_of(finding, "file");
    const Arg* line = arg_of(finding, "line");
    if (file == nullptr || line == nullptr)
        return {};
    std::string place = plain(*file) + ":" + plain(*line) + ": ";
    if (const Arg* column = arg_of(finding, "column"))
        place += "column " + plain(*column) + ": ";
    return place;
}

std::string sentence(const Finding& finding, const Manner& manner) {
    const auto format = [&](const Arg& arg) {
        const auto* number = std::get_if<double>(&arg.value);
        return number == nullptr ? plain(arg) : format_value(*number, arg.quantity, manner.units);
    };
    return place_of(finding) + words::sentence(finding, format);
}

const char* severity_name(Severity severity) {
    switch (severity) {
    case Severity::Note:
        return "note";
    case Severity::Warning:
        return "warning";
    case Severity::Refusal:
        break;
    }
    return "refusal";
}

std::string si_unit(Quantity quantity) {
    switch (quantity) {
    case Quantity::Number:
    case Quantity::Ratio:
    case Quantity::Slope:
        return "1";
    case Quantity::Angle:
        return "rad";
    default:
        break;
    }
    const std::string_view spellings = plain_unit(quantity).spellings;
    return std::string(spellings.substr(0, spellings.find('|')));
}

nlohmann::json to_json(const std::optional<Estimate>& estimate, Quantity quantity) {
    if (!estimate)
        return nullptr;
    return {{"value", estimate->value},
            {"standard_uncertainty", estimate->standard_uncertainty},
            {"unit", si_unit(quantity)}};
}

nlohmann::json to_json(const Finding& finding) {
    nlohmann::json args = nlohmann::json::object();
    nlohmann::json units = nlohmann::json::object();
    for (const Arg& arg : finding.args) {
        std::visit([&](const auto& value) { args[arg.name] = value; }, arg.value);
        if (std::holds_alternative<double>(arg.value))
            units[arg.name] = si_unit(arg.quantity);
    }
    return {{"code", finding.code},
            {"severity", severity_name(finding.severity)},
            {"where", finding.where},
            {"args", std::move(args)},
            {"units", std::move(units)}};
}

nlohmann::json to_json(const Findings& findings) {
    nlohmann::json list = nlohmann::json::array();
    for (const Finding& finding : findings)
        list.push_back(to_json(finding));
    return list;
}

void print_json(const nlohmann::json& json) {
    std::cout << json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
}

void print_table(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const std::vector<std::string>& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], width_of(row[i]));
    }
    for (const std::vector<std::string>& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i)
            line += "  " + row[i] + std::string(i + 1 == row.size() ? 0 : widths[i] - width_of(row[i]), ' ');
        std::cout << line << '\n';
    }
}

void print_findings(const Findings& findings, const Manner& manner, const std::string& heading) {
    if (!findings.empty())
        std::cout << '\n' << heading << '\n';
    for (const Finding& finding : findings)
        std::cout << "  " << severity_name(finding.severity) << ": " << sentence(finding, manner) << '\n';
}

std::string shown(const std::optional<Estimate>& estimate, Quantity quantity, const Manner& manner) {
    if (!estimate)
        return "–";
    const bool count = quantity == Quantity::Number && estimate->value == std::floor(estimate->value);
    if (estimate->standard_uncertainty == 0.0)
        return format_value(estimate->value, quantity, manner.units, count ? std::optional(0) : std::nullopt);
    return format_estimate(*estimate, quantity, manner.units);
}

Progress::Progress(std::string what, std::size_t steps)
    : m_what(std::move(what)), m_steps(steps), m_terminal(isatty(STDERR_FILENO) != 0) {
    show();
}

Progress::~Progress() {
    if (m_terminal)
        std::cerr << "\r\033[K" << std::flush; // ECMA-48: erase to the end of the line
}

void Progress::step() {
    ++m_done;
    show();
}

void Progress::show() const {
    if (!m_terminal)
        return;
    std::cerr << '\r' << m_what;
    if (m_steps > 0)
        std::cerr << ", " << m_done << " of " << m_steps;
    std::cerr << " ..." << std::flush;
}

int refuse(const Finding& finding, const Manner& manner) {
    std::cerr << "rillmark-desk: " << sentence(finding, manner) << '\n';
    if (manner.json)
        print_json({{"findings", to_json(Findings{finding})}});
    return arg_of(finding, "parameter") == nullptr ? kDataProblem : kWrongCall;
}

} // namespace rillmark::desk
