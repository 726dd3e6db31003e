// SPDX-License-Identifier: GPL-3.0-or-later
// The whole job through the UI by accessible names: from an empty folder to the file that is handed over.
#include "journey.h"

#include "project/project.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QColor>
#include <QDate>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <cmath>
#include <memory>

namespace {

/// A receiver log of ours: one place for a minute, a fix a second.
QString write_log(const QString& folder, double minutes_north) {
    QFile file(folder + QStringLiteral("/walk.nmea"));
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    for (int second = 0; second < 60; ++second) {
        const QString body = QStringLiteral("GPGGA,08%1%2.00,%3,N,01351.8520,E,1,09,0.9,1012.%4,M,46.8,M,,")
                                 .arg(10)
                                 .arg(second, 2, 10, QLatin1Char('0'))
                                 .arg(4717.5 + minutes_north + 0.00001 * (second % 3), 9, 'f', 5, QLatin1Char('0'))
                                 .arg(second % 10);
        int sum = 0;
        for (const QChar& letter : body)
            sum ^= letter.unicode();
        file.write(QStringLiteral("$%1*%2\r\n").arg(body).arg(sum, 2, 16, QLatin1Char('0')).toUpper().toLatin1());
    }
    return file.fileName();
}

void log_station(Journey& journey, const QString& kind, const QString& name) {
    journey.tap(QStringLiteral("Log a station"));
    journey.tap(kind);
    journey.type(QStringLiteral("Name of the station"), name);
    EXPECT_TRUE(QTest::qWaitFor([&] { return journey.shows(QStringLiteral("Log the station here")); }, 5000));
    journey.tap(QStringLiteral("Log the station here"));
    journey.see(QStringLiteral("Name of this station"));
    journey.tap(QStringLiteral("Back to the stations"));
}

void sight(Journey& journey, const QString& reading) {
    journey.type(QStringLiteral("Staff reading"), reading);
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Book the sight"));
}

} // namespace

class WholeJob : public ::testing::TestWithParam<QSize> {};

TEST_P(WholeJob, FromAnEmptyFolderToTheHandedOverFile) {
    QTemporaryDir folder;
    QDir(folder.path()).mkpath(QStringLiteral("config"));
    Journey journey(folder.path(), GetParam());
    ASSERT_NE(journey.window(), nullptr);
    SettingsModel& settings = *journey.app().settings();
    settings.setMetric(true);
    settings.setReceiverAddress(write_log(folder.path(), 0.0));
    settings.setReceiver(QStringLiteral("replay"));

    journey.type(QStringLiteral("Name of the new site"), QStringLiteral("Pewter Creek"));
    journey.tap(QStringLiteral("Start the site"));
    journey.see(QStringLiteral("No station yet"));

    log_station(journey, QStringLiteral("Intake"), QStringLiteral("Weir pool"));
    log_station(journey, QStringLiteral("Powerhouse"), QStringLiteral("Old mill"));
    journey.see(QStringLiteral("Weir pool"));

    journey.place(QStringLiteral("Levels"));
    journey.tap(QStringLiteral("Start a level book"));
    journey.type(QStringLiteral("Name of the book"), QStringLiteral("Down the creek"));
    journey.tap(QStringLiteral("Start the book"));
    const bool sheet = journey.shows(QStringLiteral("Read the staff")); // a wide window has the entry beside the page
    if (sheet)
        journey.tap(QStringLiteral("Read the staff"));
    sight(journey, QStringLiteral("0.512"));
    sight(journey, QStringLiteral("3.217 m"));
    sight(journey, QStringLiteral("0.4"));
    // 12 ft and 6 in are 3.810 m
    journey.type(QStringLiteral("Staff reading"), QStringLiteral("12 ft 6 in"));
    journey.see(QStringLiteral("3.810 m"));
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Staff on: Change point CP2"));
    journey.tap(QStringLiteral("Old mill"));
    journey.tap(QStringLiteral("Book the sight"));
    // (3.217 - 0.512) + (3.810 - 0.4), worked by hand
    journey.see(QStringLiteral("Head 6.11"));
    if (sheet)
        journey.tap(QStringLiteral("Close sheet"));

    // how we know: the readings behind the head, each with its share
    journey.tap(QStringLiteral("Head 6.115 ± 0.006 m, rests on little"));
    journey.see(QStringLiteral("Fall from Weir pool to Old mill, the axis of an impulse wheel"));
    journey.see(QStringLiteral("Nothing checks this head yet"));
    journey.see(QStringLiteral("25 %")); // four readings of equal weight
    journey.tap(QStringLiteral("Show the readings behind it"));
    journey.see(QStringLiteral("Down the creek"));

    journey.place(QStringLiteral("Flow"));
    journey.tap(QStringLiteral("Test the flow"));
    journey.type(QStringLiteral("Name of the test"), QStringLiteral("Spout"));
    journey.tap(QStringLiteral("Container and stopwatch"));
    for (const QString& time : {QStringLiteral("9.9 s"), QStringLiteral("10.1"), QStringLiteral("10.0")}) {
        journey.type(QStringLiteral("Volume caught"), QStringLiteral("200 L"));
        journey.tap(QStringLiteral("next"));
        for (const QChar& letter : time)
            QTest::sendKeyEvent(QTest::Click, journey.window(), Qt::Key(0), letter, {});
        journey.tap(QStringLiteral("Close sheet"));
        journey.tap(QStringLiteral("Book the fill"));
    }
    journey.see(QStringLiteral("Flow 20.0")); // 600 L in 30 s
    journey.tap(QStringLiteral("Back to the flow tests"));

    journey.place(QStringLiteral("Power"));
    journey.see(QStringLiteral("Gross head: 6.11"));
    journey.tap(QStringLiteral("Pipe: missing. "));
    journey.type(QStringLiteral("Pipe length"), QStringLiteral("120 m"));
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Use these values"));
    journey.see(QStringLiteral("Drive and generator"));

    journey.place(QStringLiteral("Handover"));
    journey.see(QStringLiteral("Ready for the designer?"));
    journey.tap(QStringLiteral("Answer or strike out: Permissions asked for: water, land, grid"));
    journey.type(QStringLiteral("Remark, or why it is not needed"), QStringLiteral("asked in May"));
    journey.tap(QStringLiteral("Yes"));
    journey.see(QStringLiteral("Permissions asked for: water, land, grid: done. Yes: asked in May"));
    journey.tap(QStringLiteral("Check the file"));
    journey.see(QStringLiteral("Checked: no fault found."));
    journey.tap(QStringLiteral("Save the copy"));
    journey.see(QStringLiteral("Saved as one closed, checked file"));
    journey.tap(QStringLiteral("Save the copy that it belongs to beside it"));
    journey.tap(QStringLiteral("Make the report"));
    journey.see(QStringLiteral(" pages: "));

    EXPECT_EQ(journey.complaints(), QStringList());
    const QDir handed(QFileInfo(journey.app().project().path()).absolutePath() + QStringLiteral("/handover"));
    const QStringList files = handed.entryList({QStringLiteral("*.gpkg")});
    ASSERT_EQ(files.size(), 1);
    EXPECT_EQ(handed.entryList({QStringLiteral("*.pdf")}).size(), 1);
    const rillmark::Expected<rillmark::Project> copy = rillmark::Project::open(
        handed.filePath(files.first()).toStdString(), rillmark::OpenMode::ReadOnly);
    ASSERT_TRUE(copy.ok());
    EXPECT_TRUE(copy->verify().empty());
    EXPECT_EQ(copy->all<rillmark::SightRow>()->size(), 4u);
    EXPECT_EQ(copy->all<rillmark::StationRow>()->size(), 2u);
}

TEST_P(WholeJob, EveryPageHasNamedControlsOfTouchSizeAndNoComplaints) {
    QTemporaryDir folder;
    Journey journey(folder.path(), GetParam());
    ASSERT_NE(journey.window(), nullptr);
    EXPECT_EQ(journey.unnamed_controls(), QStringList());
    EXPECT_EQ(journey.small_controls(56), QStringList());
    journey.app().newSite(QStringLiteral("A creek with a rather long name that nobody can shorten"));
    for (const char* place : {"walk", "levels", "flow", "power", "handover"}) {
        journey.app().setPlace(QString::fromLatin1(place));
        QTest::qWait(100);
        EXPECT_EQ(journey.unnamed_controls(), QStringList()) << place;
        EXPECT_EQ(journey.small_controls(56), QStringList()) << place;
    }
    EXPECT_EQ(journey.complaints(), QStringList());
}

TEST_P(WholeJob, AFallByWaterTubeFromTheSheetToTheHeadAndTheProfile) {
    QTemporaryDir folder;
    Journey journey(folder.path(), GetParam());
    journey.app().settings()->setMetric(true);
    journey.app().newSite(QStringLiteral("Creek"));
    for (const auto& [kind, name] : {std::pair("intake", "Weir pool"), std::pair("powerhouse", "Old mill")})
        journey.app().walk()->logStation(QString::fromLatin1(kind), QString::fromLatin1(name));
    journey.app().setPlace(QStringLiteral("levels"));
    journey.tap(QStringLiteral("Measure it another way"));
    journey.tap(QStringLiteral("Measure a fall"));
    journey.type(QStringLiteral("Name of the run"), QStringLiteral("Tube"));
    journey.tap(QStringLiteral("Water tube"));
    journey.see(QStringLiteral("Hold both ends of the tube upright"));
    journey.tap(QStringLiteral("To point"));
    journey.tap(QStringLiteral("Old mill"));
    journey.type(QStringLiteral("Water above the point it starts from"), QStringLiteral("30 cm"));
    journey.tap(QStringLiteral("next"));
    for (const QChar& letter : QStringLiteral("1.45"))
        QTest::sendKeyEvent(QTest::Click, journey.window(), Qt::Key(0), letter, {});
    journey.tap(QStringLiteral("Close sheet"));
    journey.tap(QStringLiteral("Book the reading"));
    journey.see(QStringLiteral("Falls 1.150")); // 1.45 m - 0.30 m
    journey.see(QStringLiteral("Head 1.150"));
    journey.tap(QStringLiteral("Back to all ways"));
    journey.tap(QStringLiteral("Evidence"));
    journey.see(QStringLiteral("Tube, Weir pool - Old mill"));
    EXPECT_EQ(journey.complaints(), QStringList());
}

namespace {

/// What a kill leaves: the resume state as it is on the disk at `moment`, without what an orderly end would write after it.
template <class Act>
void kill_after(const QTemporaryDir& folder, QSize window, const Act& moment) {
    const QString kept = folder.filePath(QStringLiteral("resume.json"));
    const QString killed = folder.filePath(QStringLiteral("killed.json"));
    {
        Journey journey(folder.path(), window);
        moment(journey);
        QTest::qWait(600);
        ASSERT_TRUE(QFile::copy(kept, killed));
    }
    QFile::remove(kept);
    QFile::rename(killed, kept);
}

} // namespace

TEST_P(WholeJob, AHalfTypedNameAndItsSheetComeBackAfterAKill) {
    QTemporaryDir folder;
    kill_after(folder, GetParam(), [](Journey& journey) {
        journey.app().newSite(QStringLiteral("Creek"));
        journey.app().setPlace(QStringLiteral("levels"));
        journey.tap(QStringLiteral("Start a level book"));
        journey.type(QStringLiteral("Name of the book"), QStringLiteral("Up the le"));
    });
    Journey again(folder.path(), GetParam());
    again.see(QStringLiteral("New level book"));
    again.tap(QStringLiteral("Start the book"));
    again.see(QStringLiteral("Up the le"));
    again.tap(QStringLiteral("New level book")); // what was used is not offered again
    again.see(QStringLiteral("Name of the book"));
    again.tap(QStringLiteral("Start the book"));
    EXPECT_EQ(again.app().levels()->bookName(), QStringLiteral("Level book 2"));
    EXPECT_EQ(again.complaints(), QStringList());
}

TEST_P(WholeJob, AKilledAppComesBackToWhereItWas) {
    QTemporaryDir folder;
    kill_after(folder, GetParam(), [](Journey& journey) {
        journey.app().newSite(QStringLiteral("Creek"));
        journey.app().setPlace(QStringLiteral("flow"));
        journey.app().flow()->newTest(QStringLiteral("container"), QStringLiteral("Spout"));
        journey.see(QStringLiteral("Name of this test"));
        journey.type(QStringLiteral("Time to fill"), QStringLiteral("12.3"));
    });
    Journey again(folder.path(), GetParam());
    again.see(QStringLiteral("Name of this test"));
    EXPECT_EQ(again.app().place(), QStringLiteral("flow"));
    EXPECT_EQ(again.app().flow()->fillForm()->typed(QStringLiteral("time")), QStringLiteral("12.3"));
}

namespace {

/// WCAG 2.2, relative luminance of an sRGB colour.
double luminance(const QColor& colour) {
    const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double high = std::max(luminance(a), luminance(b));
    const double low = std::min(luminance(a), luminance(b));
    return (high + 0.05) / (low + 0.05); // WCAG 2.2, contrast ratio
}

} // namespace

TEST(Look, TextStandsOutSevenToOneByDayAndByNight) {
    EXPECT_NEAR(contrast(Qt::black, Qt::white), 21.0, 1e-9); // the definition's own extreme
    QQmlEngine engine;
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    QQmlComponent component(&engine);
    component.setData("import QtQml\nimport Rillmark.Ui\nQtObject { property QtObject theme: Theme }", QUrl());
    const std::unique_ptr<QObject> holder(component.create());
    ASSERT_NE(holder, nullptr) << component.errorString().toStdString();
    auto* theme = holder->property("theme").value<QObject*>();
    const auto colour = [theme](const char* name) { return theme->property(name).value<QColor>(); };
    for (const bool night : {false, true}) {
        theme->setProperty("night", night);
        for (const char* ground : {"paper", "card"})
            for (const char* ink : {"ink", "quietInk", "action", "water", "warning", "danger"})
                EXPECT_GE(contrast(colour(ink), colour(ground)), 7.0) << ink << " on " << ground << (night ? " by night" : " by day");
        EXPECT_GE(contrast(colour("inkOnAction"), colour("action")), 7.0);
        EXPECT_GE(contrast(colour("ink"), colour("pressed")), 7.0);
    }
}

INSTANTIATE_TEST_SUITE_P(Windows, WholeJob, ::testing::Values(QSize(412, 892), QSize(892, 412), QSize(1280, 800)),
                         [](const auto& one) {
                             return std::to_string(one.param.width()) + "x" + std::to_string(one.param.height());
                         });

int main(int argc, char* argv[]) {
    QTemporaryDir settings;
    qputenv("XDG_CONFIG_HOME", settings.path().toUtf8());
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("rillmark-test"));
    ::testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
