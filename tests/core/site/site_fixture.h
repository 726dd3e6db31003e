// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"
#include "site/site_estimate.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <string>

namespace rillmark {

/// A project in a folder of its own, with short ways to book.
class SiteFixture : public ::testing::Test {
protected:
    void SetUp() override {
        std::string pattern = (std::filesystem::temp_directory_path() / "rillmark-site-XXXXXX").string();
        ASSERT_NE(mkdtemp(pattern.data()), nullptr);
        m_folder = pattern;
        Expected<Project> made = Project::create(m_folder / "site.gpkg", "Test creek");
        ASSERT_TRUE(made.ok()) << made.error().code;
        m_project.emplace(std::move(made).value());
        Expected<PowerTables> tables = read_power_tables();
        ASSERT_TRUE(tables.ok());
        m_tables = *tables;
    }
    void TearDown() override {
        m_project.reset();
        std::filesystem::remove_all(m_folder);
    }

    template <class Record>
    Id book(const Record& row) {
        const Expected<Id> id = m_project->book(row);
        EXPECT_TRUE(id.ok()) << id.error().code << " " << id.error().where;
        return id.value_or(0);
    }
    Id station(const std::string& kind, const std::string& name, std::optional<double> latitude = {},
               std::optional<double> longitude = {}) {
        StationRow row;
        row.kind = kind;
        row.name = name;
        row.latitude_deg = latitude;
        row.longitude_deg = longitude;
        return book(row);
    }
    Id sight(Id book_id, const std::string& kind, std::optional<Id> station_id, const std::string& point, double reading_m) {
        SightRow row;
        row.book_id = book_id;
        row.position = ++m_position;
        row.kind = kind;
        row.station_id = station_id;
        row.point = point;
        row.reading_m = reading_m;
        return book(row);
    }
    Id level_book() {
        LevelBookRow row;
        row.name = "Book 1";
        return book(row);
    }
    SiteEstimate estimate() {
        Expected<Survey> survey = load_survey(*m_project);
        EXPECT_TRUE(survey.ok());
        m_survey = *survey;
        return site_estimate(m_survey, m_tables);
    }

    std::filesystem::path m_folder;
    std::optional<Project> m_project;
    PowerTables m_tables;
    Survey m_survey;
    std::int64_t m_position = 0;
};

} // namespace rillmark
