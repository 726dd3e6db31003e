// SPDX-License-Identifier: GPL-3.0-or-later
// A stage log of a million rows in the app without its pages: read, rated, and rated again, with the screen alive.
#include "app_model.h"
#include "memory_and_beat.h"

#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <QtTest/QTest>

#include <cmath>

namespace {

using namespace rillmark;

// Of the event loop; a person waits for a tap's answer longer than this without calling it stuck (common practice, no
// source), and a machine does other things besides.
constexpr qint64 kLongestGap_ms = 500;
constexpr double kMostMemory_MiB = 200.0;

class SeriesImports : public ::testing::Test {
protected:
    void SetUp() override {
        m_app = std::make_unique<AppModel>(m_folder.path());
        m_app->settings()->setMetric(true);
        for (const char* kind : {kStageSeries, kDailyFlowSeries})
            m_app->settings()->remember(QStringLiteral("logger/") + QLatin1String(kind), {});
        ASSERT_TRUE(m_app->newSite(QStringLiteral("Creek")));
    }
    [[nodiscard]] SeriesImport& import() { return *m_app->seriesImport(); }
    [[nodiscard]] const Survey& survey() { return m_app->project().survey(); }
    [[nodiscard]] const SiteSeason& season() { return *m_app->project().estimate().season; }

    /// A flow test with the staff gauge read at it: one filling of a container.
    void visit(double stage_cm, double seconds) {
        m_app->flow()->newTest(QStringLiteral("container"), QStringLiteral("Visit at %1").arg(stage_cm));
        const QString test = m_app->flow()->test();
        m_app->flow()->stageForm()->setTyped(0, QStringLiteral("%1 cm").arg(stage_cm));
        m_app->flow()->keepStage();
        FillRow fill;
        fill.test_id = key_of(test);
        fill.volume_m3 = 0.02;
        fill.time_s = seconds;
        fill.typed = "20 L";
        m_app->project().book(fill);
    }
    /// Nineteen years of a stage every ten minutes, below a header of twenty lines.
    QUrl long_log() {
        QFile file(m_folder.filePath(QStringLiteral("log.csv")));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        for (int line = 1; line < 20; ++line)
            file.write("# the logger says this and that\n");
        file.write("time;stage [mm]\n");
        const qint64 start_s = QDateTime(QDate(2007, 1, 1), QTime(0, 0), Qt::UTC).toSecsSinceEpoch();
        for (int i = 0; i < 1'000'000; ++i) {
            const auto time = QDateTime::fromSecsSinceEpoch(start_s + 600LL * i, Qt::UTC);
            file.write(time.toString(QStringLiteral("yyyy-MM-dd HH:mm:ss")).toLatin1());
            file.write(QByteArray(";") + QByteArray::number(450.0 + 150.0 * std::sin(i / 8000.0), 'f', 1).replace('.', ',') + '\n');
        }
        return QUrl::fromLocalFile(file.fileName());
    }
    void wait() { ASSERT_TRUE(QTest::qWaitFor([&] { return !import().running(); }, 120'000)); }

    QTemporaryDir m_folder;
    std::unique_ptr<AppModel> m_app;
};

TEST_F(SeriesImports, AMillionStagesNeitherFreezeNorFillTheMemory) {
    for (const auto& [stage_cm, seconds] : {std::pair{30.0, 40.0}, {40.0, 14.142}, {50.0, 7.698}, {60.0, 5.0}}) // Q goes with (h - 0.2)^1.5
        visit(stage_cm, seconds);
    const QUrl log = long_log();
    import().setKind(QString::fromLatin1(kStageSeries));
    const MemoryPeak memory;
    const Beat beat;
    import().file()->begin(log);
    import().start(QStringLiteral("Gauge"));
    wait();
    ASSERT_EQ(survey().series.size(), 1u) << (import().findings().empty() ? "" : qPrintable(import().findings().front().sentence));
    ASSERT_EQ(survey().series_values.at(survey().series.front().row.id)->stages.size(), 1'000'000u);
    ASSERT_TRUE(season().record.has_value());
    EXPECT_GT(season().record->summary.full_years, 17u);
    m_app->flow()->stageForm()->setTyped(0, QStringLiteral("61 cm")); // of the last visit: the log is rated again
    m_app->flow()->keepStage();
    QTest::qWait(20);
    EXPECT_LT(beat.longest_ms(), kLongestGap_ms);
    EXPECT_LT(memory.grown_MiB(), kMostMemory_MiB);
    RecordProperty("longest_gap_ms", static_cast<int>(beat.longest_ms()));
    RecordProperty("grown_MiB", static_cast<int>(memory.grown_MiB()));
}

TEST_F(SeriesImports, ColumnsAreRememberedForEachKindOfFile) {
    QFile file(m_folder.filePath(QStringLiteral("flows.csv")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("day;quality;flow;of next day\n");
    for (int day = 1; day < 29; ++day)
        file.write(QStringLiteral("2025-02-%1;1;2,5;3,5\n").arg(day, 2, 10, QLatin1Char('0')).toLatin1());
    file.close();
    import().file()->begin(QUrl::fromLocalFile(file.fileName()));
    import().file()->choose(QStringLiteral("field/0"), QStringLiteral("3"));
    import().file()->choose(QStringLiteral("unit/0"), QStringLiteral("L/s"));
    import().file()->close();
    import().setKind(QString::fromLatin1(kStageSeries));
    import().setKind(QString::fromLatin1(kDailyFlowSeries));
    import().file()->begin(QUrl::fromLocalFile(file.fileName()));
    EXPECT_EQ(import().file()->fields().front().column, QStringLiteral("3"));
    import().start({});
    wait();
    ASSERT_EQ(survey().series.size(), 1u);
    EXPECT_EQ(survey().series.front().row.name, "flows.csv");
    EXPECT_EQ(survey().series.front().row.unit, "L/s");
    EXPECT_NEAR(*survey().series_values.begin()->second->daily.flow_m3s.front(), 0.0035, 1e-12);
}

TEST_F(SeriesImports, WhatCannotBeASeriesIsRefusedAndTheFileStaysInHand) {
    QFile file(m_folder.filePath(QStringLiteral("twice.csv")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("time,flow m3/s\n2025-02-01 06:00,1\n2025-02-01 18:00,1\n2025-02-02 06:00,1\n");
    file.close();
    import().file()->begin(QUrl::fromLocalFile(file.fileName()));
    import().start(QStringLiteral("Gauge"));
    wait();
    EXPECT_TRUE(survey().series.empty());
    ASSERT_EQ(import().findings().size(), 1);
    EXPECT_TRUE(import().findings().front().sentence.contains(QStringLiteral("one day")));
    EXPECT_TRUE(import().file()->isOpen());
}

} // namespace
