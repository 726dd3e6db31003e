// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "demo/demo_creek.h"
#include "project/project.h"
#include "report/report.h"
#include "site/survey.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <sstream>
#include <string>

namespace rillmark::report {

/// A folder with one site, and the report made of it.
class ReportFixture : public testing::Test {
protected:
    void SetUp() override { ASSERT_TRUE(m_folder.isValid()); }

    void make_demo() {
        ASSERT_TRUE(make_demo_creek(site()).ok());
        open();
    }
    void make_empty(const std::string& name) {
        ASSERT_TRUE(Project::create(site(), name).ok());
        open();
    }
    /// Both change the file and open it again.
    bool rename_site(const std::string& name) {
        return write_site([&name](Project& project) {
            SiteRow row = *project.site();
            row.name = name;
            return project.change(row).ok();
        });
    }
    bool book_station(const std::string& name) {
        return write_site([&name](Project& project) {
            StationRow row;
            row.name = name;
            row.kind = "other";
            for (int i = 0; i < 40; ++i)
                row.note += name + " "; // far more than a page of it
            return project.book(row).ok();
        });
    }

    /// A triangle of salt, 40 s at its foot, with one struck reading.
    bool book_salt_test() {
        return write_site([](Project& project) {
            FlowTestRow test;
            test.method = "salt-slug";
            test.name = "Salt in May";
            test.salt_mass_kg = 1.0;
            test.factor = 5.0; // kg/m3 per S/m
            test.factor_u = 0.05;
            const Expected<Id> id = project.book(test);
            bool booked = id.ok();
            for (int second = 0; second <= 100 && booked; ++second) {
                FlowReadingRow row;
                row.test_id = *id;
                row.position = second;
                row.role = "trace";
                row.time_s = second;
                row.conductivity_Sm = 0.020 + 0.010 * std::max(0.0, 1.0 - std::abs(second - 50.0) / 20.0);
                row.typed = std::to_string(second) + " s";
                const Expected<Id> reading = project.book(row);
                booked = reading.ok() &&
                         (second != 70 || project.strike(FlowReadingRow::kTable, *reading, "finger in the probe").ok());
            }
            return booked;
        });
    }

    [[nodiscard]] std::filesystem::path folder() const { return m_folder.path().toStdString(); }
    [[nodiscard]] std::filesystem::path site() const { return folder() / "site.gpkg"; }
    [[nodiscard]] std::filesystem::path pdf() const { return folder() / "report.pdf"; }
    [[nodiscard]] const Project* project() const { return m_project.get(); }

    [[nodiscard]] static Options options() {
        Options options;
        options.version = QStringLiteral("9.8.7");
        options.now = QDateTime(QDate(2026, 10, 2), QTime(11, 30));
        return options;
    }
    [[nodiscard]] Expected<Made> write(const Options& options, const Progress& progress = {}) const {
        return write_report(*m_project, options, pdf(), progress);
    }

    /// What one of poppler's tools prints of the report.
    [[nodiscard]] std::string tool(const std::string& call) const {
        return tool_to(call, call.starts_with("pdftotext") ? " -" : "");
    }
    [[nodiscard]] std::string tool_to(const std::string& call, const std::string& out) const {
        const std::string command = call + " '" + pdf().string() + "'" + out + " 2>/dev/null";
        std::string text;
        const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
        std::array<char, 4096> part{};
        for (std::size_t read = 1; pipe && read > 0;) {
            read = std::fread(part.data(), 1, part.size(), pipe.get());
            text.append(part.data(), read);
        }
        return text;
    }
    [[nodiscard]] static QByteArray bytes_of(const std::filesystem::path& path) {
        QFile file(QString::fromStdString(path.string()));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    [[nodiscard]] std::vector<std::string> files() const {
        std::vector<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(folder()))
            names.push_back(entry.path().filename().string());
        std::ranges::sort(names);
        return names;
    }

private:
    void open() {
        Expected<Project> opened = Project::open(site(), OpenMode::ReadOnly);
        ASSERT_TRUE(opened.ok()) << opened.error().code;
        m_project = std::make_unique<Project>(std::move(opened).value());
    }
    bool write_site(const std::function<bool(Project&)>& change) {
        m_project.reset();
        {
            Expected<Project> opened = Project::open(site());
            if (!opened || !change(*opened))
                return false;
        }
        open();
        return m_project != nullptr;
    }

    QTemporaryDir m_folder;
    std::unique_ptr<Project> m_project;
};

} // namespace rillmark::report
