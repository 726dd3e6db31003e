// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/flow_tests.h"

#include "site/flow_readings.h"
#include "units/iso_time.h"

#include <algorithm>
#include <memory>
#include <numbers>
#include <unordered_map>
#include <utility>

namespace rillmark {

namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}

BankEdge edge_of(const std::string& stored) {
    if (stored == "water-edge")
        return BankEdge::Sloping;
    return stored == "vertical-bank" ? BankEdge::Vertical : BankEdge::None;
}

TestResult container_result(const Survey& survey, const FlowTestRow& test) {
    ContainerOptions options;
    if (test.volume_uncertainty)
        options.volume_u_rel = *test.volume_uncertainty;
    options.reaction_half_width_s = test.reaction_s.value_or(options.reaction_half_width_s);
    TestResult result;
    result.test_id = test.id;
    const Expected<FlowResult> flow = container(fills_of(survey, test.id), options);
    if (!flow) {
        result.findings.push_back(flow.error());
        return result;
    }
    result.discharge = flow->discharge;
    result.findings = flow->findings;
    return result;
}

TestResult velocity_area_result(const Survey& survey, const FlowTestRow& test) {
    const VelocityAreaOptions options = velocity_area_options(survey, test);
    TestResult result;
    result.test_id = test.id;
    Expected<VelocityAreaResult> gauging = velocity_area(verticals_of(survey, test.id), options);
    if (!gauging) {
        result.findings.push_back(gauging.error());
        return result;
    }
    result.discharge = gauging->flow.discharge;
    result.findings = gauging->flow.findings;
    result.gauging = std::move(gauging).value();
    return result;
}

double volume_m3(const FillRow& fill) {
    if (fill.full_kg && fill.empty_kg)
        if (const auto weighed =
                weighed_volume_m3(*fill.full_kg, *fill.empty_kg, fill.temperature_C.value_or(kAssumedWater_C)))
            return *weighed;
    return fill.volume_m3;
}

FlowChoice choice_of(const std::string& stored) {
    if (stored == "weighted-mean")
        return FlowChoice::WeightedMean;
    return stored == "chosen-test" ? FlowChoice::ChosenTest : FlowChoice::LowestVisit;
}

} // namespace

std::vector<ContainerFill> fills_of(const Survey& survey, Id test) {
    std::vector<ContainerFill> fills;
    for (const Booked<FillRow>& fill : survey.fills)
        if (fill.row.test_id == test)
            fills.push_back({fill.row.id, volume_m3(fill.row), fill.row.time_s, fill.struck});
    return fills;
}

Vertical vertical_of(const VerticalRow& row, bool struck) {
    return {row.id, row.distance_m, row.depth_m, {}, radians(row.angle_deg.value_or(0.0)), edge_of(row.edge), struck};
}

PointReading reading_of(const VelocityRow& row, std::shared_ptr<const MeterRating> meter, bool struck) {
    return {row.id, row.depth_fraction, row.velocity_ms, row.revolutions, row.time_s, struck, std::move(meter)};
}

std::vector<Vertical> verticals_of(const Survey& survey, Id test) {
    std::vector<Vertical> verticals;
    std::unordered_map<Id, std::size_t> place;
    std::unordered_map<Id, std::shared_ptr<const MeterRating>> meters; // one rating for all readings of a meter
    for (const Booked<VerticalRow>& one : survey.verticals) {
        if (one.row.test_id != test)
            continue;
        place.emplace(one.row.id, verticals.size());
        verticals.push_back(vertical_of(one.row, one.struck));
    }
    for (const Booked<VelocityRow>& one : survey.velocities)
        if (const auto at = place.find(one.row.vertical_id); at != place.end()) {
            std::shared_ptr<const MeterRating> rating;
            if (const MeterRow* meter = one.row.meter_id ? survey.meter(*one.row.meter_id) : nullptr) {
                std::shared_ptr<const MeterRating>& kept = meters[meter->id];
                if (!kept)
                    kept = std::make_shared<MeterRating>(rating_of(*meter));
                rating = kept;
            }
            verticals[at->second].points.push_back(reading_of(one.row, std::move(rating), one.struck));
        }
    std::ranges::stable_sort(verticals, {}, &Vertical::distance_m);
    return verticals;
}

MeterRating rating_of(const MeterRow& meter) {
    MeterRating rating;
    rating.name = meter.name;
    rating.individual = meter.individual_rating;
    rating.min_velocity_ms = meter.min_velocity_ms;
    rating.max_velocity_ms = meter.max_velocity_ms;
    if (meter.slope_m == 0.0)
        return rating;
    rating.ranges.push_back({0.0, meter.slope_m, meter.intercept_ms});
    const auto add = [&](std::optional<double> limit_rev_s, std::optional<double> a_m, std::optional<double> b_ms) {
        if (limit_rev_s && a_m && b_ms)
            rating.ranges.push_back({*limit_rev_s, *a_m, *b_ms});
    };
    add(meter.limit_rev_s, meter.upper_slope_m, meter.upper_intercept_ms);
    add(meter.third_limit_rev_s, meter.third_slope_m, meter.third_intercept_ms);
    return rating;
}

Expected<Findings> check_meter(const MeterRow& meter) {
    const auto parts = [](std::initializer_list<bool> given) { return std::ranges::count(given, true); };
    const bool first = meter.slope_m > 0.0;
    const auto second =
        parts({meter.limit_rev_s.has_value(), meter.upper_slope_m.has_value(), meter.upper_intercept_ms.has_value()});
    const auto third = parts(
        {meter.third_limit_rev_s.has_value(), meter.third_slope_m.has_value(), meter.third_intercept_ms.has_value()});
    const auto in_part = [](std::int64_t range) { return refusal("site.meter_range_in_part", {}, {{"range", range}}); };
    if (!first && (second > 0 || third > 0))
        return in_part(1);
    if ((second != 0 && second != 3) || (second == 0 && third > 0))
        return in_part(2);
    if (third != 0 && third != 3)
        return in_part(3);
    return check_rating(rating_of(meter));
}

VelocityAreaOptions velocity_area_options(const Survey& survey, const FlowTestRow& test) {
    VelocityAreaOptions options;
    if (const MeterRow* meter = test.meter_id ? survey.meter(*test.meter_id) : nullptr)
        options.meter = rating_of(*meter);
    options.depth_u_m = test.depth_u_m.value_or(options.depth_u_m);
    options.wall_velocity_share = test.wall_share.value_or(options.wall_velocity_share);
    options.surface_share = test.surface_share.value_or(options.surface_share);
    return options;
}

TestResult test_result(const Survey& survey, const FlowTestRow& test) {
    const std::optional<FlowMethod> method = flow_method_from_id(test.method);
    if (!method)
        return {test.id, {}, {}, {}, {}, {warning("site.unknown_flow_method", test.name, {{"method", test.method}})}};
    switch (*method) {
    case FlowMethod::Container:
        return container_result(survey, test);
    case FlowMethod::VelocityArea:
        return velocity_area_result(survey, test);
    default:
        return flow_reading_result(survey, test, *method);
    }
}

bool in_flow_months(const SiteRow& site, const std::string& day) {
    const std::optional<std::chrono::sys_days> date = day_from_iso(day);
    if (!date || !site.flow_from_month || !site.flow_to_month)
        return true;
    const auto month = static_cast<std::int64_t>(static_cast<unsigned>(std::chrono::year_month_day(*date).month()));
    const std::int64_t from = *site.flow_from_month;
    const std::int64_t to = *site.flow_to_month;
    return from <= to ? from <= month && month <= to : month >= from || month <= to;
}

SiteFlow site_flow(const Survey& survey) {
    SiteFlow flow;
    std::vector<FlowTest> tests;
    for (const Booked<FlowTestRow>& test : survey.tests) {
        if (test.struck)
            continue;
        flow.tests.push_back(test_result(survey, test.row));
        const TestResult& result = flow.tests.back();
        if (!result.discharge)
            continue;
        const std::optional<FlowMethod> method = flow_method_from_id(test.row.method);
        if (!flow_method_info(*method).for_power) {
            flow.flood_m3s = std::max(flow.flood_m3s.value_or(0.0), result.discharge->estimate.value);
            continue;
        }
        tests.push_back({test.row.id, test.row.name, *method, *result.discharge,
                         test.row.created_at.substr(0, kIsoDayLength), test.row.counts});
    }
    if (const Expected<FlowToUse> all = flow_to_use(tests))
        flow.visits = all->visits;
    std::int64_t other_months = 0;
    for (FlowTest& test : tests)
        if (test.counts && !in_flow_months(survey.site, test.date)) {
            test.counts = false;
            ++other_months;
        }
    Expected<FlowToUse> to_use = flow_to_use(tests, choice_of(survey.site.flow_choice), survey.site.flow_test_id);
    if (to_use) {
        flow.findings = to_use->findings;
        flow.to_use = std::move(to_use).value();
    } else {
        flow.findings.push_back(to_use.error());
    }
    if (other_months > 0)
        flow.findings.push_back(note("site.other_months", {}, {{"count", other_months}}));
    return flow;
}

} // namespace rillmark
