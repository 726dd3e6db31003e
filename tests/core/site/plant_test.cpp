// SPDX-License-Identifier: GPL-3.0-or-later
// From the record to the plant: sections, fittings, intake, machine, pressures, the copy of an alternative.
#include "core/site/site_fixture.h"

#include "site/machine_link.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rillmark {
namespace {

bool has(const Findings& findings, const std::string& code) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

/// A line of four stations 0.001 degrees of latitude apart with levels from one set-up, and an alternative.
class PlantTest : public SiteFixture {
protected:
    void levelled_line(const std::vector<double>& readings_m) {
        const Id page = level_book();
        const char* kinds[] = {"intake", "route-point", "route-point", "powerhouse"};
        for (std::size_t i = 0; i < readings_m.size(); ++i) {
            m_stations.push_back(
                station(kinds[i], "S" + std::to_string(i), 46.0 - 0.001 * static_cast<double>(i), 7.0));
            sight(page,
                  i == 0                       ? "backsight"
                  : i + 1 == readings_m.size() ? "foresight"
                                               : "intermediate",
                  m_stations[i], {}, readings_m[i]);
        }
    }
    Id alternative() {
        AlternativeRow row;
        row.name = "A";
        row.design_flow_m3s = 0.03;
        return book(row);
    }
    Id section(Id alternative_id, const std::string& pipe, std::optional<double> length_m) {
        PipeSectionRow row;
        row.alternative_id = alternative_id;
        row.position = ++m_place;
        row.name = pipe;
        row.pipe_id = pipe;
        row.length_m = length_m;
        return book(row);
    }
    std::string a_pipe(std::size_t which) const { return m_tables.pipes[which].id; }
    std::vector<Id> m_stations;
    std::int64_t m_place = 0;
};

TEST_F(PlantTest, SectionsFollowEachOtherAndTheOpenOneTakesWhatIsLeft) {
    levelled_line({0.2, 1.2, 2.4, 3.8});
    const Id a = alternative();
    section(a, a_pipe(0), 100.0);
    section(a, a_pipe(1), {});
    const SiteEstimate site = estimate();
    ASSERT_EQ(site.chosen.pipe.pipes.size(), 2U);
    // three legs of 0.001 degrees of latitude (111.18 m each at 46 degrees) with their falls
    const double length_m = 333.53;
    EXPECT_NEAR(site.chosen.pipe.length_m->value, length_m, 0.2);
    EXPECT_NEAR(site.chosen.pipe.pipes[1].route.length_m.value, length_m - 100.0, 0.2);
    EXPECT_NEAR(site.chosen.pipe.sections[1].from_m, 100.0, 1e-9);
    EXPECT_EQ(site.chosen.pipe.pipes[0].route.minor_k.value, kDefaultMinorK);
    EXPECT_EQ(site.chosen.pipe.pipes[1].route.minor_k.value, 0.0);
}

TEST_F(PlantTest, FittingsStandInTheirSections) {
    const Id a = alternative();
    section(a, a_pipe(0), 100.0);
    const Id lower = section(a, a_pipe(1), 50.0);
    PipeFittingRow entrance;
    entrance.alternative_id = a;
    entrance.fitting_id = "entrance-square";
    book(entrance);
    PipeFittingRow bends;
    bends.alternative_id = a;
    bends.section_id = lower;
    bends.fitting_id = "bend-45";
    bends.count = 3;
    bends.k = 0.2; // of the maker, before the table's
    book(bends);
    SiteEstimate site = estimate();
    ASSERT_EQ(site.chosen.pipe.pipes.size(), 2U);
    EXPECT_NEAR(site.chosen.pipe.pipes[0].route.minor_k.value, 0.5, 1e-12);
    EXPECT_NEAR(site.chosen.pipe.pipes[1].route.minor_k.value, 0.6, 1e-12);
    PipeFittingRow odd;
    odd.alternative_id = a;
    odd.fitting_id = "no-such-bend";
    book(odd);
    site = estimate();
    EXPECT_TRUE(has(site.chosen.findings, "power.unknown_fitting"));
    EXPECT_TRUE(site.chosen.pipe.pipes.empty());
    EXPECT_FALSE(site.chosen.result.house_W);
}

TEST_F(PlantTest, WhatCannotBeIsSaid) {
    const Id a = alternative();
    const Id open = section(a, a_pipe(0), {});
    EXPECT_TRUE(has(estimate().chosen.findings, "site.pipe_length_unknown")); // no line walked
    ASSERT_TRUE(m_project->strike(PipeSectionRow::kTable, open, "test"));
    levelled_line({0.2, 1.2, 2.4, 3.8});
    const Id longer = section(a, a_pipe(0), 500.0);
    EXPECT_TRUE(has(estimate().chosen.findings, "site.sections_off_route"));
    const Id rest = section(a, a_pipe(1), {});
    SiteEstimate site = estimate();
    EXPECT_TRUE(has(site.chosen.findings, "site.section_no_length"));
    EXPECT_TRUE(site.chosen.pipe.pipes.empty());
    ASSERT_TRUE(m_project->strike(PipeSectionRow::kTable, rest, "test"));
    ASSERT_TRUE(m_project->strike(PipeSectionRow::kTable, longer, "test"));
    section(a, "", 300.0);
    EXPECT_TRUE(has(estimate().chosen.findings, "site.section_incomplete"));
}

TEST_F(PlantTest, ZeroLengthIsRefusedInTheChain) {
    const Id a = alternative();
    section(a, a_pipe(0), 0.0);
    const SiteEstimate site = estimate();
    EXPECT_TRUE(has(site.chosen.result.findings, "power.not_positive"));
    EXPECT_FALSE(site.chosen.result.net_head_m);
}

TEST_F(PlantTest, ThePressuresFollowFromTheStations) {
    levelled_line({0.2, 1.2, 2.4, 3.8});
    const Id a = alternative();
    section(a, a_pipe(0), {});
    const SiteEstimate site = estimate();
    const Expected<PressureInput> input =
        plant_pressure_input(m_survey, site.heights, site.chosen.pipe, site.chosen.input, *m_survey.alternative());
    ASSERT_TRUE(input) << input.error().code;
    EXPECT_EQ(input->closing_s, 0.0); // none entered: a sudden stop, the cautious case
    EXPECT_NEAR(input->points.back().chainage_m, site.chosen.pipe.length_m->value, 1e-9);
    const Expected<PressureProfile> profile = pressure_profile(*input);
    ASSERT_TRUE(profile) << profile.error().code;
    EXPECT_NEAR(profile->points.back().static_Pa, 999.7 * 9.807 * 3.6, 50.0);
    EXPECT_TRUE(grade_stations(m_survey, site.heights, *m_survey.alternative()).empty());
}

TEST_F(PlantTest, AnUphillPipeIsFoundAndShownAtItsStations) {
    levelled_line({1.2, 2.6, 1.4, 3.8}); // down, up, down: a low spot and a high one
    const Id a = alternative();
    section(a, a_pipe(0), {});
    const SiteEstimate site = estimate();
    const std::vector<GradeStation> spots = grade_stations(m_survey, site.heights, *m_survey.alternative());
    ASSERT_EQ(spots.size(), 2U);
    EXPECT_EQ(spots[0].station, m_stations[1]);
    EXPECT_EQ(spots[0].kind, SpotKind::Low);
    EXPECT_EQ(spots[1].station, m_stations[2]);
    EXPECT_EQ(spots[1].kind, SpotKind::High);
    const Expected<PressureInput> input =
        plant_pressure_input(m_survey, site.heights, site.chosen.pipe, site.chosen.input, *m_survey.alternative());
    ASSERT_TRUE(input);
    EXPECT_TRUE(has(pressure_profile(*input).value().findings, "power.pipe_rises"));
}

TEST_F(PlantTest, PressuresWithoutPipeFlowOrHeightsSayWhatIsMissing) {
    AlternativeRow bare;
    bare.name = "A";
    const Id a = book(bare);
    SiteEstimate site = estimate();
    const auto refused = [&] {
        return plant_pressure_input(m_survey, site.heights, site.chosen.pipe, site.chosen.input,
                                    *m_survey.alternative())
            .error()
            .code;
    };
    EXPECT_EQ(refused(), "power.missing_pipe");
    section(a, a_pipe(0), 100.0);
    site = estimate();
    EXPECT_EQ(refused(), "power.missing_flow");
    bare.id = a;
    bare.created_at = m_survey.alternative()->created_at;
    bare.design_flow_m3s = 0.02;
    ASSERT_TRUE(m_project->change(bare));
    site = estimate();
    EXPECT_EQ(refused(), "site.no_pipe_profile");
}

TEST_F(PlantTest, TheIntakeIsALink) {
    AlternativeRow row;
    row.name = "A";
    row.design_flow_m3s = 0.1;
    row.pipe_id = m_tables.pipes.back().id;
    row.pipe_length_m = 200.0;
    row.intake_kind = "sharp-crest";
    row.crest_width_m = 3.0;
    row.crest_height_m = 1.0;
    row.wall_top_m = 0.9;
    row.flood_m3s = 4.0;
    row.rack_area_m2 = 0.1;
    row.rack_bar_m = 0.006;
    row.rack_gap_m = 0.012;
    row.mouth_depth_m = 0.01;
    book(row);
    SiteEstimate site = estimate();
    const IntakeLink& intake = site.chosen.intake;
    ASSERT_TRUE(intake.wall && intake.rack && intake.mouth && intake.loss_m);
    EXPECT_GT(intake.wall->flood_level_m, 0.6); // 4 m3/s over 3 m
    EXPECT_LT(intake.wall->flood_level_m, 0.9);
    EXPECT_TRUE(has(intake.findings, "power.rack_approach_fast"));
    EXPECT_TRUE(has(intake.findings, "site.mouth_too_shallow"));
    EXPECT_NEAR(intake.loss_m->value, 0.5 * (intake.rack->clean_m + intake.rack->clogged_m), 1e-12);
    EXPECT_EQ(site.chosen.input.intake_loss_m->value, intake.loss_m->value);
}

TEST_F(PlantTest, TheMachineIsHeldAgainstItsKind) {
    const TurbineTables tables = read_turbine_tables().value();
    ChainInput chain;
    ChainResult result;
    AlternativeRow row;
    row.turbine_kind = "pelton";
    EXPECT_TRUE(machine_link(chain, result, tables, row).options.empty()); // nothing known yet
    result.net_head_m = Estimate{10.0, 0.1};
    result.flow_m3s = Estimate{0.1, 0.005};
    MachineLink link = machine_link(chain, result, tables, row);
    EXPECT_EQ(link.options.size(), tables.kinds.size());
    EXPECT_TRUE(has(link.findings, "site.turbine_head_outside"));
    row.turbine_kind = "no-such-kind";
    EXPECT_TRUE(has(machine_link(chain, result, tables, row).findings, "power.unknown_turbine"));
    row.turbine_kind = "propeller";
    row.setting_m = 50.0;
    link = machine_link(chain, result, tables, row);
    EXPECT_TRUE(has(link.findings, "site.head_ends_at_axis"));
    ASSERT_TRUE(link.chosen);
    if (link.chosen->setting_m) {
        EXPECT_TRUE(has(link.findings, "site.turbine_set_too_high"));
    }
    row.lower_end = "tailwater";
    EXPECT_FALSE(has(machine_link(chain, result, tables, row).findings, "site.head_ends_at_axis"));
}

TEST_F(PlantTest, ACopyHasItsOwnSectionsAndFittings) {
    const Id a = alternative();
    section(a, a_pipe(0), 100.0);
    const Id lower = section(a, a_pipe(1), 50.0);
    PipeFittingRow bends;
    bends.alternative_id = a;
    bends.section_id = lower;
    bends.fitting_id = "bend-45";
    book(bends);
    (void)estimate();
    const Expected<Id> copy = copy_alternative(*m_project, m_survey, a, "B");
    ASSERT_TRUE(copy) << copy.error().code;
    (void)estimate();
    const std::vector<PipeSectionRow> sections = m_survey.sections(*copy);
    ASSERT_EQ(sections.size(), 2U);
    EXPECT_EQ(sections[1].pipe_id, a_pipe(1));
    EXPECT_NE(sections[1].id, lower);
    ASSERT_EQ(m_survey.fittings(*copy).size(), 1U);
    EXPECT_EQ(m_survey.fittings(*copy)[0].section_id, sections[1].id);
    EXPECT_EQ(m_survey.sections(a).size(), 2U);
}

} // namespace
} // namespace rillmark
