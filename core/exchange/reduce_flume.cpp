// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/head_table.h"
#include "exchange/reduce_methods.h"
#include "flow/parshall_flume.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {{"head", Quantity::Length, true, false, "exchange.flume.head"}};
constexpr ReduceField kParameters[] = {
    {"size", {}, false, false, "exchange.flume.size"},
    {"downstream_head", Quantity::Length, false, false, "exchange.flume.downstream_head"},
    {"throat", Quantity::Length, false, false, "exchange.flume.throat"},
    {"zero", Quantity::Length, false, false, "exchange.head.zero", "0"},
    {"reading_uncertainty", Quantity::Length, false, true, "exchange.head.reading_uncertainty", "0.001"},
    {"zero_uncertainty", Quantity::Length, false, true, "exchange.head.zero_uncertainty", "0.001"},
};

Expected<Reduction> reduce_flume(const ReduceTable& table) {
    FlumeOptions options;
    options.gauge = head_gauge(table);
    options.downstream_head_m = table.parameter("downstream_head");
    options.throat_m = table.parameter("throat");
    const Expected<FlumeResult> result = parshall_flume(table.text_parameter("size"), head_readings(table), options);
    if (!result)
        return head_place(table, result.error());
    Reduction reduction = head_reduction(table, result->flow, result->head_m);
    if (result->submergence)
        reduction.results.push_back({"exchange.result.submergence", {}, {*result->submergence, 0.0}, Quantity::Ratio});
    return reduction;
}

} // namespace

const ReduceMethod& flume_method() {
    static constexpr ReduceMethod method{"flume", "exchange.method.flume", kColumns, kParameters, reduce_flume};
    return method;
}

} // namespace rillmark
