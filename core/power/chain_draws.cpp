// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_draws.h"

#include "power/chain_model.h"

#include <cmath>
#include <string_view>

namespace rillmark {

namespace {

constexpr std::string_view kTopic = "power.";
constexpr std::string_view kBore = "power.bore";
constexpr std::string_view kDrive = "power.drive_efficiency";
constexpr std::string_view kFormula = "power.friction_formula";

double narrowed_W(const Budgeted& watts, double part_left) {
    return watts.estimate.expanded() * std::sqrt(std::max(part_left, 0.0));
}

} // namespace

Expected<DrawnEstimate> draw_watts(const ChainInput& input, std::mt19937_64& engine, const DrawOptions& options,
                                   DriveShape drive) {
    const CheckedChain chain = check_chain(input);
    const ChainResult first = water_to_wire(input);
    if (!first.generator_W)
        return refusal("power.no_watts", {});
    const ChainModel model(chain);
    DrawOptions with_shapes = options;
    for (std::size_t i = 0; i < model.inputs().size(); ++i)
        if (model.inputs()[i].input == kBore || (model.inputs()[i].input == kDrive && drive == DriveShape::Range))
            with_shapes.rectangular.push_back(i);
    double Links::*link = first.house_W ? &Links::house_W : &Links::generator_W;
    return draw_estimate(
        model.inputs(),
        [&](std::span<const double> x) {
            const double watts = model.at(x).*link;
            return std::isfinite(watts) ? std::max(watts, 0.0) : 0.0;
        },
        engine, with_shapes);
}

std::optional<NextStep> next_step(const Budgeted& watts) {
    for (const BudgetLine& line : watts.budget) { // largest share first
        if (line.input == kFormula)
            continue;
        if (!(line.share > 0.0))
            return {};
        return NextStep{line.input,
                        line.subject,
                        line.share,
                        watts.estimate.expanded(),
                        narrowed_W(watts, 1.0 - 0.75 * line.share), // half the uncertainty is a quarter of the variance
                        narrowed_W(watts, 1.0 - line.share)};
    }
    return {};
}

Finding next_step_note(const NextStep& step) {
    return note("power.do_next_" + step.input.substr(kTopic.size()), step.subject,
                {{"share", step.share, Quantity::Ratio},
                 {"now", step.now_W, Quantity::Power},
                 {"halved", step.halved_W, Quantity::Power},
                 {"known", step.known_W, Quantity::Power}});
}

} // namespace rillmark
