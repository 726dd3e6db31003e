// SPDX-License-Identifier: GPL-3.0-or-later
// The season through the UI: a neighbour's daily flows read in, brought to the site, made the flow to use, part of it left.
#include "journey.h"

#include <gtest/gtest.h>

#include <QDate>
#include <QFile>
#include <QTemporaryDir>
#include <QUrl>
#include <QtTest/QTest>

namespace {

/// Three years of days, 40 L/s in winter and 20 L/s from June to September, below a header as gauging services write it.
QString write_record(const QString& folder) {
    QFile file(folder + QStringLiteral("/neighbour.csv"));
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("Station;Tamsel Brook\nCatchment;4 km2\n\nDate;Flow (L/s)\n");
    for (QDate day(2023, 1, 1); day < QDate(2026, 1, 1); day = day.addDays(1))
        file.write(QStringLiteral("%1;%2\n").arg(day.toString(QStringLiteral("dd.MM.yyyy"))).arg(day.month() >= 6 && day.month() <= 9 ? "20,0" : "40,0").toUtf8());
    return file.fileName();
}

} // namespace

class SeasonJourney : public ::testing::TestWithParam<QSize> {};

TEST_P(SeasonJourney, FromANeighboursRecordToTheFlowThatMayBeTaken) {
    QTemporaryDir folder;
    Journey journey(folder.path(), GetParam());
    ASSERT_NE(journey.window(), nullptr);
    journey.app().settings()->setMetric(true);
    journey.app().newSite(QStringLiteral("Creek"));
    journey.app().flow()->newTest(QStringLiteral("container"), QStringLiteral("Spout"));
    journey.app().flow()->setTest({});
    journey.place(QStringLiteral("Flow"));
    journey.tap(QStringLiteral("The season, and the flow to leave"));
    journey.see(QStringLiteral("The year at this site"));
    journey.see(QStringLiteral("Not known yet. Read in the daily flows"));

    journey.tap(QStringLiteral("Read in a record"));
    journey.see(QStringLiteral("Choose the file"));
    journey.app().seriesImport()->file()->begin(QUrl::fromLocalFile(write_record(folder.path()))); // the system's dialog stands between
    journey.see(QStringLiteral("File: neighbour.csv"));
    journey.see(QStringLiteral("01.01.2023;40,0"));
    journey.type(QStringLiteral("Name of the gauge or creek"), QStringLiteral("Tamsel Brook"));
    journey.tap(QStringLiteral("Read it in"));
    journey.see(QStringLiteral("Q95: reached or passed 95 % of the time"));

    journey.tap(QStringLiteral("By the catchments"));
    journey.type(QStringLiteral("Catchment of the site, km²"), QStringLiteral("3"));
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Bring the flows over with these"));
    journey.see(QStringLiteral("The catchments of the gauge and of the site are not both known"));
    journey.type(QStringLiteral("Catchment of the gauge, km²"), QStringLiteral("4"));
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Use these of the gauge"));
    journey.see(QStringLiteral("The site's flow is 75 % of the gauge's")); // 3 km2 of 4 km2, power 1
    journey.see(QStringLiteral("15 ± ")); // 75 % of 20 L/s

    journey.tap(QStringLiteral("Back to the flow tests"));
    journey.tap(QStringLiteral("The year's flow"));
    journey.see(QStringLiteral("Flow 15"));
    journey.tap(QStringLiteral("The season, and the flow to leave"));
    journey.tap(QStringLiteral("A fixed flow"));
    journey.type(QStringLiteral("Flow to leave"), QStringLiteral("5 L/s"));
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Reckon with it"));
    journey.see(QStringLiteral("5.00 L/s stays in the creek"));
    journey.see(QStringLiteral("Flow 10")); // the strip: what may be taken
    EXPECT_EQ(journey.unnamed_controls(), QStringList());
    EXPECT_EQ(journey.small_controls(56), QStringList());
    EXPECT_EQ(journey.complaints(), QStringList());
}

INSTANTIATE_TEST_SUITE_P(Windows, SeasonJourney, ::testing::Values(QSize(412, 892), QSize(1280, 800)),
                         [](const auto& one) {
                             return std::to_string(one.param.width()) + "x" + std::to_string(one.param.height());
                         });
