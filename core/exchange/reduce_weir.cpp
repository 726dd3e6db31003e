// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/head_table.h"
#include "exchange/reduce_methods.h"
#include "flow/thin_plate_weir.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {{"head", Quantity::Length, true, false, "exchange.weir.head"}};
constexpr ReduceField kParameters[] = {
    {"shape", {}, false, false, "exchange.weir.shape", "v-notch"},
    {"angle", Quantity::Angle, false, false, "exchange.weir.angle"},
    {"crest_length", Quantity::Length, false, false, "exchange.weir.crest_length"},
    {"crest_height", Quantity::Length, false, false, "exchange.weir.crest_height"},
    {"approach_width", Quantity::Length, false, false, "exchange.weir.approach_width"},
    {"gauge_distance", Quantity::Length, false, false, "exchange.weir.gauge_distance"},
    {"tailwater", Quantity::Length, false, false, "exchange.weir.tailwater"},
    {"zero", Quantity::Length, false, false, "exchange.head.zero", "0"},
    {"reading_uncertainty", Quantity::Length, false, true, "exchange.head.reading_uncertainty", "0.001"},
    {"zero_uncertainty", Quantity::Length, false, true, "exchange.head.zero_uncertainty", "0.001"},
};

Expected<WeirShape> shape_of(const std::string& text) {
    if (text == "v-notch")
        return WeirShape::VNotch;
    if (text == "rectangular")
        return WeirShape::Rectangular;
    if (text == "cipolletti")
        return WeirShape::Cipolletti;
    return refusal("exchange.shape_unknown", {}, {{"cell", text}, {"accepted", "v-notch, rectangular, cipolletti"}});
}

Expected<Reduction> reduce_weir(const ReduceTable& table) {
    const Expected<WeirShape> shape = shape_of(table.text_parameter("shape"));
    if (!shape)
        return shape.error();
    const ThinPlateWeir weir{*shape,
                             table.parameter("angle"),
                             table.parameter("crest_length"),
                             table.parameter("crest_height"),
                             table.parameter("approach_width"),
                             table.parameter("gauge_distance")};
    WeirOptions options;
    options.gauge = head_gauge(table);
    options.tailwater_m = table.parameter("tailwater");
    const Expected<WeirResult> result = thin_plate_weir(weir, head_readings(table), options);
    if (!result)
        return head_place(table, result.error());
    Reduction reduction = head_reduction(table, result->flow, result->head_m);
    if (result->submergence_factor < 1.0)
        reduction.results.push_back(
            {"exchange.result.free_discharge", {}, {result->free_m3s, 0.0}, Quantity::Discharge});
    return reduction;
}

} // namespace

const ReduceMethod& weir_method() {
    static constexpr ReduceMethod method{"weir", "exchange.method.weir", kColumns, kParameters, reduce_weir};
    return method;
}

} // namespace rillmark
