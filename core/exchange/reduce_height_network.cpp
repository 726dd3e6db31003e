// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "levelling/height_network.h"

#include <charconv>
#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"from", {}, false, false, "exchange.height_network.from"},
    {"to", {}, true, false, "exchange.height_network.to"},
    {"rise", Quantity::Length, false, false, "exchange.height_network.rise"},
    {"height", Quantity::Length, false, false, "exchange.height_network.height"},
    {"uncertainty", Quantity::Length, false, true, "exchange.height_network.uncertainty"},
    {"fixed", {}, false, false, "exchange.height_network.fixed"},
    {"cause", {}, false, false, "exchange.height_network.cause"},
    {"cause_effect", Quantity::Length, false, true, "exchange.height_network.cause_effect"},
};
constexpr ReduceField kParameters[] = {
    {"upper", {}, false, false, "exchange.height_network.upper"},
    {"lower", {}, false, false, "exchange.height_network.lower"},
    {"datum", {}, false, false, "exchange.height_network.datum"},
};

/// What the network calls a row of the file, so that what it says of it finds its line again.
const std::string kRow = "row ";

Finding placed(const ReduceTable& table, Finding finding) {
    std::size_t row = 0;
    const char* const number = finding.where.data() + kRow.size();
    const char* const end = finding.where.data() + finding.where.size();
    if (!finding.where.starts_with(kRow) || std::from_chars(number, end, row).ec != std::errc{})
        return finding;
    finding.where.clear();
    return table.at(std::move(finding), row);
}

/// The uncertainty of a row, which must be above zero. A height or rise beyond reason is refused as well.
Expected<double> uncertainty_of(const ReduceTable& table, std::size_t row, std::string_view measured) {
    const std::optional<double> u_m = table.number(row, "uncertainty");
    if (!u_m)
        return table.at(refusal("exchange.cell_empty"), row, "uncertainty");
    if (!(*u_m > 0.0) || !std::isfinite(*u_m))
        return table.at(refusal("levels.uncertainty_impossible", {}, {{"uncertainty", *u_m, Quantity::Length}}), row,
                        "uncertainty");
    const double value_m = *table.number(row, measured);
    if (!(std::abs(value_m) <= kLargestRise_m))
        return table.at(refusal("levels.rise_impossible", {}, {{"rise", value_m, Quantity::Length}}), row, measured);
    return *u_m;
}

struct Rows {
    std::vector<HeightDifference> differences;
    std::vector<KnownHeight> known;
};

Expected<KnownHeight> known_of(const ReduceTable& table, std::size_t row) {
    const std::string& fixed = table.text(row, "fixed");
    if (fixed != "yes" && fixed != "no" && !fixed.empty())
        return table.at(refusal("exchange.answer_unknown", {}, {{"cell", fixed}, {"parameter", "fixed"}}), row,
                        "fixed");
    const bool is_fixed = fixed == "yes";
    const Expected<double> u_m = is_fixed ? 0.0 : uncertainty_of(table, row, "height");
    if (!u_m)
        return u_m.error();
    return KnownHeight{
        table.text(row, "to"), {*table.number(row, "height"), *u_m}, is_fixed, static_cast<std::int64_t>(row + 1)};
}

Expected<HeightDifference> difference_of(const ReduceTable& table, std::size_t row) {
    const std::string& from = table.text(row, "from");
    if (from.empty() || from == table.text(row, "to"))
        return table.at(refusal(from.empty() ? "exchange.cell_empty" : "levels.same_point"), row, "from");
    const Expected<double> u_m = uncertainty_of(table, row, "rise");
    if (!u_m)
        return u_m.error();
    HeightDifference difference{static_cast<std::int64_t>(row + 1),
                                from,
                                table.text(row, "to"),
                                *table.number(row, "rise"),
                                *table.number(row, "uncertainty"),
                                "levels.height_difference",
                                kRow + std::to_string(row)};
    const std::string& cause = table.text(row, "cause");
    if (cause.empty() != !table.number(row, "cause_effect"))
        return table.at(refusal("exchange.cell_empty"), row, cause.empty() ? "cause" : "cause_effect");
    if (!cause.empty())
        difference.shared.push_back({cause, cause, *table.number(row, "cause_effect")});
    return difference;
}

Expected<Rows> read_rows(const ReduceTable& table) {
    Rows rows;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const bool has_height = table.number(row, "height").has_value();
        if (has_height == table.number(row, "rise").has_value())
            return table.at(refusal("exchange.rise_or_height"), row, "rise");
        if (has_height) {
            const Expected<KnownHeight> known = known_of(table, row);
            if (!known)
                return known.error();
            rows.known.push_back(*known);
        } else {
            const Expected<HeightDifference> difference = difference_of(table, row);
            if (!difference)
                return difference.error();
            rows.differences.push_back(*difference);
        }
    }
    return rows;
}

ResultTable heights_table(const AdjustedNetwork& network) {
    ResultTable heights{
        "exchange.table.heights", {{"exchange.result.point", {}}, {"exchange.result.height", Quantity::Length}}, {}};
    for (const PointHeight& one : network.heights())
        heights.rows.push_back({one.point, one.height});
    return heights;
}

ResultTable observations_table(const ReduceTable& table, const AdjustedNetwork& network) {
    using Cell = ResultTable::Cell;
    ResultTable readings{"exchange.table.residuals",
                         {{"exchange.result.from", {}},
                          {"exchange.result.to", {}},
                          {"exchange.result.residual", Quantity::Length},
                          {"exchange.result.redundancy", Quantity::Ratio},
                          {"exchange.result.normalised_residual", Quantity::Number},
                          {"exchange.result.smallest_found", Quantity::Length}},
                         {}};
    const auto exact = [](const std::optional<double>& value) { return value ? Cell(Estimate{*value, 0.0}) : Cell(); };
    for (const AdjustedObservation& one : network.observations()) {
        const auto row = static_cast<std::size_t>(one.id - 1);
        readings.rows.push_back({table.text(row, "from"), table.text(row, "to"), exact(one.residual_m),
                                 exact(one.redundancy), exact(one.normalised_residual), exact(one.smallest_found_m)});
    }
    return readings;
}

Expected<Reduction> reduce_height_network(const ReduceTable& table) {
    const Expected<Rows> rows = read_rows(table);
    if (!rows)
        return rows.error();
    AdjustOptions options;
    if (const std::string& datum = table.text_parameter("datum"); !datum.empty())
        options.datum_point = datum;
    const Expected<AdjustedNetwork> network = adjust(rows->differences, rows->known, options);
    if (!network)
        return placed(table, network.error());
    Reduction reduction;
    const std::string& upper = table.text_parameter("upper");
    const std::string& lower = table.text_parameter("lower");
    if (!upper.empty() && !lower.empty()) {
        const Expected<Estimate> fall = network->difference(lower, upper);
        if (!fall)
            return fall.error();
        reduction.results.push_back({"exchange.result.fall", {}, *fall, Quantity::Length});
    }
    if (const std::optional<GlobalTest>& test = network->global_test()) {
        reduction.results.push_back({"exchange.result.chi_squared", {}, {test->value, 0.0}, Quantity::Number});
        reduction.results.push_back({"exchange.result.chi_squared_limit", {}, {test->limit, 0.0}, Quantity::Number});
        reduction.results.push_back({"exchange.result.unit_weight_deviation", {}, {test->s0(), 0.0}, Quantity::Number});
    }
    for (const SharedEstimate& one : network->shared())
        reduction.results.push_back({"exchange.result.cause", one.key, one.value, Quantity::Number});
    reduction.tables = {heights_table(*network), observations_table(table, *network)};
    for (const Finding& finding : network->findings())
        reduction.findings.push_back(placed(table, finding));
    return reduction;
}

} // namespace

const ReduceMethod& height_network_method() {
    static constexpr ReduceMethod method{"height-network", "exchange.method.height_network", kColumns, kParameters,
                                         reduce_height_network};
    return method;
}

} // namespace rillmark
