// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_grade.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rillmark {
namespace {

std::vector<PipePoint> line(const std::vector<double>& levels_m) {
    std::vector<PipePoint> points;
    for (const double level_m : levels_m)
        points.push_back({100.0 * static_cast<double>(points.size()), level_m, 0.0});
    return points;
}

TEST(PipeGrade, AFallingPipeHasNothingToSay) {
    const PipeGrade grade = pipe_grade(line({50, 40, 39.999, 10})).value();
    EXPECT_TRUE(grade.spots.empty());
    EXPECT_TRUE(grade.not_falling.empty());
}

TEST(PipeGrade, CrestsAndBottomsAlsoWhereTheyRunLevel) {
    // down, up over a level crest, down
    const PipeGrade grade = pipe_grade(line({50, 40, 44, 44, 30, 30, 20})).value();
    ASSERT_EQ(grade.spots.size(), 2u);
    EXPECT_EQ(grade.spots[0].kind, SpotKind::Low);
    EXPECT_EQ(grade.spots[0].point, 1u);
    EXPECT_EQ(grade.spots[1].kind, SpotKind::High);
    EXPECT_EQ(grade.spots[1].point, 3u);
    ASSERT_EQ(grade.not_falling.size(), 2u);
    EXPECT_EQ(grade.not_falling[0].from, 1u);
    EXPECT_EQ(grade.not_falling[0].to, 3u);
    EXPECT_DOUBLE_EQ(grade.not_falling[0].rise_m, 4.0);
    EXPECT_EQ(grade.not_falling[1].from, 4u);
    EXPECT_EQ(grade.not_falling[1].rise_m, 0.0);
}

// A line turned upside down has its high spots where it had its low ones; the two alternate.
TEST(PipeGrade, UpsideDownCrestsAreBottoms) {
    std::mt19937 random(17);
    std::uniform_int_distribution<int> level(0, 6);
    int spots = 0;
    for (int trial = 0; trial < 500; ++trial) {
        std::vector<double> levels(12), flipped(12);
        for (std::size_t i = 0; i < levels.size(); ++i) {
            levels[i] = level(random);
            flipped[i] = -levels[i];
        }
        const PipeGrade up = pipe_grade(line(levels)).value();
        const PipeGrade down = pipe_grade(line(flipped)).value();
        ASSERT_EQ(up.spots.size(), down.spots.size());
        for (std::size_t i = 0; i < up.spots.size(); ++i) {
            EXPECT_NE(up.spots[i].kind, down.spots[i].kind);
            EXPECT_EQ(up.spots[i].point, down.spots[i].point);
            if (i > 0) {
                EXPECT_NE(up.spots[i].kind, up.spots[i - 1].kind);
            }
        }
        spots += static_cast<int>(up.spots.size());
    }
    EXPECT_GT(spots, 1000);
}

TEST(PipeGrade, BendsInSpace) {
    // 30 degrees of slope into level pipe
    std::vector<PipePoint> points{{0.0, 50.0, 0.0}, {100.0, 0.0, 0.0}, {200.0, 0.0, 0.0}};
    EXPECT_NEAR(bend_at_rad(points, 1), std::numbers::pi / 6.0, 1e-12);
    // level pipe round a corner
    points = {{0.0, 5.0, 0.0}, {100.0, 5.0, std::numbers::pi / 2.0}, {200.0, 5.0, 0.0}};
    EXPECT_NEAR(bend_at_rad(points, 1), std::numbers::pi / 2.0, 1e-12);
    // both: cosine is that of the slope times that of the corner
    points = {{0.0, 50.0, 0.0}, {100.0, 0.0, std::numbers::pi / 3.0}, {200.0, 0.0, 0.0}};
    EXPECT_NEAR(bend_at_rad(points, 1), std::acos(std::cos(std::numbers::pi / 6.0) * 0.5), 1e-12);
    points = line({50, 40, 30});
    EXPECT_NEAR(bend_at_rad(points, 1), 0.0, 1e-7);
}

TEST(PipeGrade, RefusesBadLines) {
    EXPECT_EQ(pipe_grade({}).error().code, "power.too_few_points");
    EXPECT_EQ(pipe_grade(line({5})).error().code, "power.too_few_points");
    std::vector<PipePoint> points = line({50, 40, 30});
    points[2].chainage_m = 100.0;
    EXPECT_EQ(pipe_grade(points).error().code, "power.chainage_not_growing");
    EXPECT_EQ(std::get<std::int64_t>(pipe_grade(points).error().args.front().value), 3);
    points = line({500, 40, 30});
    EXPECT_EQ(pipe_grade(points).error().code, "power.rise_longer_than_pipe");
    points = line({50, 40, 30});
    points[1].bend_rad = -0.1;
    EXPECT_EQ(pipe_grade(points).error().code, "power.bend_out_of_range");
    // a vertical pipe is one
    EXPECT_TRUE(pipe_grade({{0.0, 100.0, 0.0}, {100.0, 0.0, 0.0}}).ok());
}

} // namespace
} // namespace rillmark
