// SPDX-License-Identifier: GPL-3.0-or-later
// The presenters of the tracer and slope-area pages without their pages.
#include "app_model.h"

#include "memory_and_beat.h"
#include "site/flow_readings.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>
#include <QtTest/QSignalSpy>
#include <QtTest/QTest>

#include <algorithm>
#include <cmath>

namespace {

using namespace rillmark;

class FlowRuns : public ::testing::Test {
protected:
    void SetUp() override {
        m_app = std::make_unique<AppModel>(m_folder.path());
        m_app->settings()->setMetric(true);
        m_app->settings()->remember(QStringLiteral("logger/trace"), {});
        ASSERT_TRUE(m_app->newSite(QStringLiteral("Creek")));
    }
    void start_test(const char* method) {
        m_app->flow()->newTest(QString::fromLatin1(method), QStringLiteral("Test"));
        ASSERT_FALSE(run().test().isEmpty());
    }
    [[nodiscard]] FlowRunModel& run() { return *m_app->flowRun(); }
    [[nodiscard]] const Survey& survey() { return m_app->project().survey(); }
    QUrl write(const char* name, const QByteArray& bytes) {
        const QString path = m_folder.filePath(QString::fromLatin1(name));
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return QUrl::fromLocalFile(path);
    }
    /// A wave of salt as a logger writes it, a reading a second.
    static QByteArray wave(int seconds) {
        QByteArray bytes = "Datum;Uhrzeit;Leitf. [\xB5S/cm]\r\n";
        for (int i = 0; i < seconds; ++i) {
            const double ec = 100.0 + 0.1 * (i % 2) + 80.0 * std::exp(-std::pow((i - 300.0) / 60.0, 2));
            bytes += QStringLiteral("13.04.2026;%1:%2:%3;%4\r\n")
                         .arg(10 + i / 3600, 2, 10, QLatin1Char('0'))
                         .arg(i / 60 % 60, 2, 10, QLatin1Char('0'))
                         .arg(i % 60, 2, 10, QLatin1Char('0'))
                         .arg(ec, 0, 'f', 1)
                         .replace(QLatin1String("."), QLatin1String(","), Qt::CaseInsensitive)
                         .replace(QLatin1String("13,04,2026"), QLatin1String("13.04.2026"))
                         .toLatin1();
        }
        return bytes;
    }
    void read_whole(LoggerImport& file) {
        QSignalSpy done(&file, &LoggerImport::done);
        file.read();
        EXPECT_TRUE(file.isBusy());
        EXPECT_TRUE(done.wait(60000));
    }
    void type(const char* key, const char* text) {
        run().form()->setTypedByKey(QString::fromUtf8(key), QString::fromUtf8(text));
    }

    QTemporaryDir m_folder;
    std::unique_ptr<AppModel> m_app;
};

} // namespace

TEST_F(FlowRuns, ALoggersFileBecomesTheWave) {
    start_test("salt-slug");
    LoggedTrace& logged = *run().logged();
    LoggerImport& file = *logged.file();
    file.begin(write("logger.csv", wave(700)));
    ASSERT_TRUE(file.isReady());
    EXPECT_EQ(file.separator(), QStringLiteral(";"));
    EXPECT_EQ(file.decimal(), QStringLiteral(","));
    EXPECT_TRUE(file.understood().front().contains(QStringLiteral("13 April 2026, 10:00:00")))
        << qPrintable(file.understood().front());
    EXPECT_TRUE(file.understood().front().contains(QStringLiteral("100.0"))) << qPrintable(file.understood().front());
    read_whole(file);
    ASSERT_TRUE(logged.waiting());
    EXPECT_TRUE(logged.fits());
    EXPECT_LT(logged.points().size(), 900);
    logged.take(run().test(), run().part());
    ASSERT_TRUE(QTest::qWaitFor([&] { return survey().flow_readings.size() == 700; }, 20000));
    EXPECT_FALSE(logged.waiting());
    EXPECT_TRUE(run().hasWave());
    const FlowReadingRow& first = survey().flow_readings.front().row;
    EXPECT_DOUBLE_EQ(*first.time_s, 36000.0); // of the day
    EXPECT_NEAR(*first.conductivity_Sm, 0.01, 1e-12);
    EXPECT_EQ(first.remark, "logger.csv");
    // 700 readings are one line of the list, and are struck out together
    ASSERT_EQ(run().readings().size(), 1);
    run().strikeReading(run().readings().front().id, QStringLiteral("wrong probe"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return survey().flow_readings.front().struck; }, 30000));
    EXPECT_TRUE(std::ranges::all_of(survey().flow_readings, &Booked<FlowReadingRow>::struck));
    EXPECT_FALSE(run().hasWave());
    m_app->undo(); // one action
    ASSERT_TRUE(QTest::qWaitFor([&] { return run().hasWave(); }, 30000));
    run().strikeReading(run().readings().front().id, QStringLiteral("wrong probe"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return survey().flow_readings.front().struck; }, 30000));
    run().restoreReading(run().readings().front().id);
    ASSERT_TRUE(QTest::qWaitFor([&] { return run().hasWave(); }, 30000));
}

TEST_F(FlowRuns, TheLayoutOfALoggerIsRemembered) {
    start_test("salt-slug");
    LoggerImport& file = *run().logged()->file();
    file.begin(write("first.csv", "when,value\n1,100\n2,150\n3,120\n"));
    EXPECT_FALSE(file.isReady()); // no name tells which column is the conductivity
    file.choose(QStringLiteral("field/0"), QStringLiteral("1"));
    file.choose(QStringLiteral("unit/0"), QStringLiteral("S/m"));
    file.choose(QStringLiteral("time-kind"), QStringLiteral("min"));
    EXPECT_TRUE(file.isReady());
    file.begin(write("other.csv", "time,EC uS/cm\n1,100\n2,150\n"));
    EXPECT_EQ(file.fields().front().unit, QString::fromUtf8("µS/cm"));
    file.begin(write("second.csv", "a line before\nwhen,value\n1,100\n2,150\n3,120\n"));
    EXPECT_TRUE(file.isReady());
    EXPECT_EQ(file.timeKind(), QStringLiteral("min"));
    EXPECT_EQ(file.fields().front().unit, QStringLiteral("S/m"));
    EXPECT_EQ(file.firstLine(), QStringLiteral("3")); // of the file, not of the logger
}

TEST_F(FlowRuns, ABadFileIsRefusedAndChangesNothing) {
    start_test("salt-slug");
    LoggerImport& file = *run().logged()->file();
    file.begin(QUrl::fromLocalFile(m_folder.filePath(QStringLiteral("nowhere.csv"))));
    EXPECT_FALSE(file.isReady());
    EXPECT_EQ(file.findings().size(), 1);
    file.begin(write("twice.csv", "time,EC uS/cm\n10:00:00,100\n10:00:01,100\n10:00:01,101\n"));
    file.read();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !file.isBusy(); }, 20000));
    ASSERT_EQ(file.findings().size(), 1);
    EXPECT_TRUE(file.findings().front().sentence.contains(QStringLiteral("10:00:01")))
        << qPrintable(file.findings().front().sentence);
    EXPECT_FALSE(run().logged()->waiting());
    EXPECT_TRUE(survey().flow_readings.empty());
}

TEST_F(FlowRuns, AMillionRowsNeitherFreezeNorFillTheMemory) {
    start_test("salt-slug");
    QByteArray bytes = "time_s,EC uS/cm,temp C\n";
    bytes.reserve(24'000'000);
    for (int i = 0; i < 1'000'000; ++i)
        bytes += QByteArray::number(i) + ',' + QByteArray::number(100 + (i > 700'000 && i < 700'300 ? 90 : i % 2)) +
                 ".0,8.1\n";
    const QUrl url = write("long.csv", bytes);
    bytes = {};
    LoggedTrace& logged = *run().logged();
    const MemoryPeak memory;
    const Beat beat;
    logged.file()->begin(url);
    read_whole(*logged.file());
    ASSERT_TRUE(logged.waiting());
    EXPECT_LE(logged.points().size(), 900);
    EXPECT_TRUE(logged.fits()); // the 20,000 around the peak
    EXPECT_LT(logged.from(), 700'000.0);
    EXPECT_GT(logged.to(), 700'300.0);
    logged.setPart(0.0, 900'000.0);
    EXPECT_FALSE(logged.fits()); // too many to take
    QTest::qWait(20);
    RecordProperty("longest_gap_ms", static_cast<int>(beat.longest_ms()));
    RecordProperty("grown_MiB", static_cast<int>(memory.grown_MiB()));
    EXPECT_LT(beat.longest_ms(), 500); // of the event loop; a machine that does other things besides
    EXPECT_LT(memory.grown_MiB(), 200.0);
}

TEST_F(FlowRuns, AReadingInFlightIsCancelled) {
    start_test("salt-slug");
    QByteArray bytes = "time_s,EC uS/cm\n";
    for (int i = 0; i < 600'000; ++i)
        bytes += QByteArray::number(i) + ",100\n";
    LoggerImport& file = *run().logged()->file();
    file.begin(write("long.csv", bytes));
    file.read();
    file.cancel();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !file.isBusy(); }, 20000));
    EXPECT_FALSE(run().logged()->waiting());
}

TEST_F(FlowRuns, TheClockFillsTheTimeOfTheReading) {
    start_test("salt-slug");
    TraceClock& clock = *run().clock();
    EXPECT_FALSE(clock.running());
    clock.start();
    EXPECT_EQ(run().form()->typed(QStringLiteral("Time on the clock")), QStringLiteral("0.0"));
    EXPECT_EQ(clock.left(), 0); // now
    type("Conductivity", "100 uS/cm");
    run().book();
    ASSERT_EQ(survey().flow_readings.size(), 1u);
    EXPECT_EQ(survey().flow_readings.front().row.time_s, 0.0);
    QTest::qWait(1200);
    run().takeMoment();
    EXPECT_GE(run().form()->number(QStringLiteral("Time on the clock")).value_or(0.0), 1.0);
    EXPECT_GT(clock.left(), 0);
    const QString test = run().test();
    m_app->flow()->setTest({});
    EXPECT_FALSE(clock.running());
    m_app->flow()->setTest(test); // it went on meanwhile
    EXPECT_TRUE(clock.running());
    EXPECT_GE(clock.seconds(), 1.0);
    clock.stop();
    EXPECT_FALSE(clock.running());
}

TEST_F(FlowRuns, AdviceOnReachAndSalt) {
    start_test("salt-slug");
    SaltPlanModel& plan = *run().saltPlan();
    plan.form()->clear();
    EXPECT_TRUE(run().plansSalt());
    EXPECT_TRUE(plan.advice().isEmpty());
    for (const auto& [key, text] :
         {std::pair("width", "2 m"), std::pair("depth", "0.2 m"), std::pair("velocity", "0.25 m/s")})
        plan.form()->setTypedByKey(QString::fromLatin1(key), QString::fromLatin1(text));
    ASSERT_GE(plan.advice().size(), 4);
    EXPECT_TRUE(plan.advice().front().contains(QStringLiteral("50 m"))) << qPrintable(plan.advice().front());
    EXPECT_TRUE(plan.advice().at(1).contains(QStringLiteral("243")))
        << qPrintable(plan.advice().at(1)); // grams, see salt_plan_test
    EXPECT_TRUE(plan.findings().isEmpty());
    plan.form()->setTypedByKey(QStringLiteral("rise"), QStringLiteral("3 mS/cm"));
    EXPECT_FALSE(plan.findings().isEmpty()); // chloride
    EXPECT_FALSE(plan.limits().isEmpty());
}

TEST_F(FlowRuns, DyeAsksForConcentrations) {
    start_test("constant-rate");
    EXPECT_TRUE(run().plansSalt());
    run().choose(0, QStringLiteral("dye"));
    EXPECT_FALSE(run().plansSalt());
    EXPECT_EQ(run().roles().size(), 2); // no calibration
    type("Concentration of dye", "5 ug/L");
    run().book();
    ASSERT_EQ(survey().flow_readings.size(), 1u);
    EXPECT_NEAR(*survey().flow_readings.front().row.concentration_kgm3, 5e-6, 1e-18);
    EXPECT_NE(run().caution(), QString());
}

TEST_F(FlowRuns, MarksComeFromTheFloodMarkStations) {
    const auto station = [&](const char* kind, const char* name, double latitude) {
        StationRow row;
        row.kind = kind;
        row.name = name;
        row.latitude_deg = latitude;
        row.longitude_deg = 13.0;
        m_app->project().book(row);
    };
    station("intake", "Intake", 47.0);
    station("powerhouse", "Powerhouse", 46.999);
    station("flood-mark", "Silt line", 46.9995);
    m_app->levels()->newBook(QStringLiteral("B"), {});
    LevelsModel& levels = *m_app->levels();
    levels.setPoint(key_text(survey().stations[0].row.id));
    levels.form()->setTypedByKey(QStringLiteral("reading"), QStringLiteral("1.0"));
    levels.bookSight();
    levels.setPoint(key_text(survey().stations[2].row.id));
    levels.form()->setTypedByKey(QStringLiteral("reading"), QStringLiteral("1.5"));
    levels.bookSight();
    start_test("slope-area");
    run().setRole(QStringLiteral("mark"));
    ASSERT_EQ(run().heightStations().size(), 2);
    EXPECT_TRUE(run().heightStations().front().label.startsWith(QStringLiteral("Silt line"))); // flood marks first
    run().takeStation(run().heightStations().front().id);
    EXPECT_TRUE(run().form()->complete());
    EXPECT_EQ(run().marksToTake(), 1);
    run().bookMarks();
    ASSERT_EQ(survey().flow_readings.size(), 1u);
    const FlowReadingRow& mark = survey().flow_readings.front().row;
    EXPECT_EQ(mark.role, "mark");
    EXPECT_NEAR(*mark.length_m, 55.59, 0.05); // half a thousandth of a degree of latitude at 47 degrees, 111.18 km each
    EXPECT_NEAR(*mark.height_m, m_app->project().estimate().heights.height.at(survey().stations[2].row.id).value, 1e-9);
    EXPECT_EQ(run().marksToTake(), 0);
}
