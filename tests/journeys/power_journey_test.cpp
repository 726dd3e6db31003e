// SPDX-License-Identifier: GPL-3.0-or-later
// The Power place through the UI: a plant entered, its figures read, alternatives compared, one chosen, a what-if.
#include "journey.h"

#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <QtTest/QTest>

namespace {

void type_in(Journey& journey, const QString& field, const QString& text) {
    journey.type(field, text);
    journey.tap(QStringLiteral("Close sheet"));
}

} // namespace

class PowerJourney : public ::testing::TestWithParam<QSize> {
protected:
    static void check_controls(Journey& journey) {
        EXPECT_EQ(journey.unnamed_controls(), QStringList());
        EXPECT_EQ(journey.small_controls(56), QStringList());
        EXPECT_EQ(journey.complaints().join(QLatin1Char('\n')).toStdString(), "");
    }
    /// 30 m of fall from intake to powerhouse.
    static void levels(Journey& journey) {
        LevelsModel& levels = *journey.app().levels();
        levels.newBook(QStringLiteral("B"), {});
        const auto read = [&levels](const char* reading) {
            levels.form()->setTypedByKey(QStringLiteral("reading"), QString::fromLatin1(reading));
            levels.bookSight();
        };
        journey.app().walk()->logStation(QStringLiteral("intake"), QStringLiteral("intake"));
        levels.setPoint(journey.app().walk()->station());
        read("0.2");
        for (int change_points = 0; change_points < 5; ++change_points) { // a staff is not 30 m long
            read("5.2");
            read("0.2");
        }
        journey.app().walk()->logStation(QStringLiteral("powerhouse"), QStringLiteral("powerhouse"));
        levels.setPoint(journey.app().walk()->station());
        read("5.2");
    }
};

TEST_P(PowerJourney, FromAnEmptyChainToTheAlternativeThatIsBuilt) {
    QTemporaryDir folder;
    Journey journey(folder.path(), GetParam());
    ASSERT_NE(journey.window(), nullptr);
    journey.app().settings()->setMetric(true);
    journey.app().newSite(QStringLiteral("Creek"));
    levels(journey);
    journey.place(QStringLiteral("Power"));
    journey.see(QStringLiteral("Gross head: 30.0"));

    // the plant
    journey.tap(QStringLiteral("Flow through the turbine: missing. the flow to use"));
    type_in(journey, QStringLiteral("Design flow"), QStringLiteral("30 L/s"));
    journey.tap(QStringLiteral("Use these values"));
    journey.tap(QStringLiteral("Pipe: missing. "));
    type_in(journey, QStringLiteral("Pipe length"), QStringLiteral("nonsense"));
    journey.see(QStringLiteral("nonsense"));
    type_in(journey, QStringLiteral("Pipe length"), QStringLiteral("350 m"));
    journey.tap(QStringLiteral("Use these values"));
    journey.app().power()->choosePipe(QStringLiteral("pe100-sdr17-180"));
    journey.see(QStringLiteral("Net head: "));
    journey.see(QStringLiteral("Turbine: "));

    // how we know a link
    journey.tap(QStringLiteral("How we know: Net head"));
    journey.see(QStringLiteral("What the ± is made of"));
    journey.see(QStringLiteral("Repeat "));
    journey.tap(QStringLiteral("Close sheet"));

    journey.tap(QStringLiteral("Cable: missing. "));
    type_in(journey, QStringLiteral("Cable length, one way"), QStringLiteral("200 m"));
    type_in(journey, QStringLiteral("Voltage at the generator"), QStringLiteral("240 V"));
    journey.tap(QStringLiteral("Use these values"));
    journey.app().power()->setConductor(QStringLiteral("iec-cu-16"));
    journey.see(QStringLiteral("At the house: "));
    journey.see(QStringLiteral("What to do next"));
    journey.see(QStringLiteral("JCGM 101:2008")); // the draws, made of themselves
    check_controls(journey);

    // a second alternative, side by side, and the one to build on
    journey.tap(QStringLiteral("Alternatives: add, rename, strike out"));
    journey.type(QStringLiteral("Name of the new one"), QStringLiteral("Wider"));
    journey.tap(QStringLiteral("Add an alternative like this one"));
    journey.app().power()->choosePipe(QStringLiteral("pe100-sdr17-280"));
    journey.tap(QStringLiteral("Alternatives side by side"));
    journey.see(QStringLiteral("≠ Pipe"));
    journey.see(QStringLiteral("≠ Watts"));
    journey.tap(QStringLiteral("Alternative 1"));
    check_controls(journey);
    journey.tap(QStringLiteral("Close sheet"));
    journey.see(QStringLiteral("Alternative: Alternative 1"));

    // what if leaves the record as it is
    const QString recorded = journey.app().readout()->power().text();
    journey.tap(QStringLiteral("What if"));
    journey.see(QStringLiteral("The record is not touched"));
    journey.app().study()->tryPart(QStringLiteral("head"), 1.2);
    journey.see(QStringLiteral("more than recorded"));
    check_controls(journey);
    journey.tap(QStringLiteral("Back to what is recorded"));
    journey.tap(QStringLiteral("Close sheet"));
    EXPECT_EQ(journey.app().readout()->power().text(), recorded);
}

TEST_P(PowerJourney, EverySheetSaysWhatItKnowsAndWhatIsMissing) {
    QTemporaryDir folder;
    Journey journey(folder.path(), GetParam());
    ASSERT_NE(journey.window(), nullptr);
    journey.app().settings()->setMetric(true);
    journey.app().newSite(QStringLiteral("Creek"));
    levels(journey);
    journey.app().power()->choosePipe(QStringLiteral("pe100-sdr17-180"));
    journey.place(QStringLiteral("Power"));
    const std::pair<const char*, const char*> sheets[] = {
        {"Diversion and intake: no loss entered. ", "Crest of the diversion wall"},
        {"Turbine: missing. efficiency 70 ± 10 %", "Kind of turbine"},
        {"Drive and generator: missing. efficiency 85 ± 5 %", "Use these values"},
        {"Pressure along the pipe", "This is a first look, not a design"},
        {"The year", "To the season of this creek"},
        {"The economic pipe", "Keep this price"}};
    for (const auto& [opens, shows] : sheets) {
        journey.tap(QString::fromUtf8(opens));
        journey.see(QString::fromUtf8(shows));
        check_controls(journey);
        journey.tap(QStringLiteral("Close sheet"));
        journey.gone(QString::fromUtf8(shows));
    }
    // the way to what is missing
    journey.tap(QStringLiteral("The year"));
    journey.see(QStringLiteral("read in the daily flows"));
    journey.tap(QStringLiteral("To the season of this creek"));
    journey.see(QStringLiteral("Read in a record"));
    EXPECT_EQ(journey.complaints().join(QLatin1Char('\n')).toStdString(), "");
}

INSTANTIATE_TEST_SUITE_P(Windows, PowerJourney, ::testing::Values(QSize(412, 892), QSize(1280, 800)),
                         [](const auto& one) {
                             return std::to_string(one.param.width()) + "x" + std::to_string(one.param.height());
                         });
