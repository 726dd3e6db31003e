// SPDX-License-Identifier: GPL-3.0-or-later
// The presenters without their pages.
#include "app_model.h"

#include "position/position_fix.h"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QDateTime>
#include <QElapsedTimer>
#include <QFile>
#include <QUrl>
#include <QTemporaryDir>
#include <QtTest/QSignalSpy>
#include <QtTest/QTest>

namespace {

using namespace rillmark;

class Models : public ::testing::Test {
protected:
    void SetUp() override {
        m_app = std::make_unique<AppModel>(m_folder.path());
        m_app->settings()->setMetric(true);
        m_app->settings()->setReceiver(QStringLiteral("replay"));
        ASSERT_TRUE(m_app->newSite(QStringLiteral("Creek")));
    }
    [[nodiscard]] const Survey& survey() { return m_app->project().survey(); }
    void book_sight(const char* reading) {
        m_app->levels()->form()->setTypedByKey(QStringLiteral("reading"), QString::fromLatin1(reading));
        m_app->levels()->bookSight();
    }

    QTemporaryDir m_folder;
    std::unique_ptr<AppModel> m_app;
};

} // namespace

TEST_F(Models, AFormKeepsWhatWasTypedAndSaysHowItIsUnderstood) {
    EntryForm& form = *m_app->levels()->form();
    const QAbstractItemModelTester tester(&form, QAbstractItemModelTester::FailureReportingMode::Fatal);
    const QModelIndex reading = form.index(0);
    form.setTyped(0, QStringLiteral("12 ft 6 in"));
    EXPECT_EQ(form.data(reading, EntryForm::TypedRole).toString(), QStringLiteral("12 ft 6 in"));
    EXPECT_EQ(form.data(reading, EntryForm::UnderstoodRole).toString(), QStringLiteral("3.810 m"));
    EXPECT_TRUE(form.complete());
    for (const char* wrong : {"abc", "12 kg", "-1", "1.2.3", "--"}) {
        form.setTyped(0, QString::fromLatin1(wrong));
        EXPECT_FALSE(form.data(reading, EntryForm::ProblemRole).toString().isEmpty()) << wrong;
        EXPECT_FALSE(form.complete()) << wrong;
        EXPECT_FALSE(form.number(QStringLiteral("reading")).has_value()) << wrong;
    }
    form.setTyped(99, QStringLiteral("1")); // no such row: nothing happens
    form.clear();
    EXPECT_FALSE(form.complete());
}

TEST_F(Models, UnitsSwitchAtAnyTimeWithoutTouchingTheRecord) {
    m_app->levels()->newBook(QStringLiteral("B"), {});
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    m_app->levels()->setPoint(m_app->walk()->station());
    book_sight("1.524");
    ASSERT_EQ(survey().sights.size(), 1u);
    m_app->settings()->setMetric(false);
    EXPECT_NE(m_app->levels()->setup().indexOf(QStringLiteral("ft")), -1);
    EXPECT_EQ(survey().sights.front().row.reading_m, 1.524);
    EXPECT_EQ(survey().sights.front().row.typed, "1.524");
}

TEST_F(Models, TheBookProposesTheNextSight) {
    LevelsModel& levels = *m_app->levels();
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    const QString intake = m_app->walk()->station();
    levels.newBook(QStringLiteral("B"), {});
    const QAbstractItemModelTester tester(levels.page(), QAbstractItemModelTester::FailureReportingMode::Fatal);
    EXPECT_EQ(levels.kind(), QStringLiteral("backsight"));
    levels.setPoint(intake);
    book_sight("0.5");
    EXPECT_EQ(levels.kind(), QStringLiteral("foresight"));
    EXPECT_EQ(levels.point(), QStringLiteral("cp"));
    book_sight("3.0");
    EXPECT_EQ(survey().sights.back().row.point, "CP1");
    EXPECT_EQ(levels.kind(), QStringLiteral("backsight")); // on the change point, nowhere else
    EXPECT_EQ(levels.points().size(), 1);
    book_sight("0.4");
    EXPECT_EQ(survey().sights.back().row.point, "CP1");
    levels.setPoint(intake);
    book_sight("0.398");
    EXPECT_TRUE(levels.closes());
    EXPECT_GT(levels.closureShare(), 1.0); // two metres off: far beyond what is allowed
    EXPECT_EQ(levels.page()->count(), 3);
}

TEST_F(Models, AStruckSightStaysOnThePageAndIsReadAgainInItsPlace) {
    LevelsModel& levels = *m_app->levels();
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    levels.newBook(QStringLiteral("B"), {});
    levels.setPoint(m_app->walk()->station());
    book_sight("0.5");
    book_sight("4.0");
    const QString wrong = key_text(survey().sights.back().row.id);
    levels.strike(wrong, QStringLiteral("metre misread"));
    EXPECT_TRUE(levels.isStruck(wrong));
    levels.repeat(wrong);
    EXPECT_EQ(levels.kind(), QStringLiteral("foresight"));
    book_sight("3.0");
    EXPECT_EQ(survey().sights.size(), 3u);
    EXPECT_EQ(survey().sights.back().row.position, survey().sights[1].row.position);
    EXPECT_EQ(levels.page()->count(), 3);
    EXPECT_EQ(levels.page()->data(levels.page()->index(1), LevelPageModel::StruckRole).toBool(), true);
    m_app->undo(); // the repeated reading
    m_app->undo(); // the strike-out
    EXPECT_FALSE(levels.isStruck(wrong));
}

TEST_F(Models, AReadingFarFromWhatIsExpectedIsQuestionedBeforeItIsBooked) {
    LevelsModel& levels = *m_app->levels();
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    const QString intake = m_app->walk()->station();
    levels.newBook(QStringLiteral("B"), {});
    levels.setPoint(intake);
    book_sight("1.500");
    levels.setKind(QStringLiteral("intermediate"));
    levels.setPoint(intake);
    levels.form()->setTypedByKey(QStringLiteral("reading"), QStringLiteral("1.501"));
    EXPECT_TRUE(levels.doubts().isEmpty());
    levels.form()->setTypedByKey(QStringLiteral("reading"), QStringLiteral("2.500"));
    ASSERT_EQ(levels.doubts().size(), 1);
    EXPECT_EQ(levels.doubts().front().severity, 1);
    EXPECT_TRUE(levels.ready()); // it warns, and books what the person confirms
    levels.form()->setTypedByKey(QStringLiteral("reading"), QStringLiteral("25"));
    EXPECT_EQ(levels.doubts().front().severity, 2);
}

TEST_F(Models, ABookRunBackIsHeldAgainstTheFirstOneByTheClassThatWasChosen) {
    LevelsModel& levels = *m_app->levels();
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    const QString intake = m_app->walk()->station();
    m_app->walk()->logStation(QStringLiteral("powerhouse"), QStringLiteral("Powerhouse"));
    const QString powerhouse = m_app->walk()->station();
    const auto run = [&](const QString& from, const char* backsight, const QString& to, const char* foresight) {
        levels.setPoint(from);
        book_sight(backsight);
        levels.setPoint(to);
        book_sight(foresight);
    };
    levels.newBook(QStringLiteral("Out"), {});
    run(intake, "1.000", powerhouse, "2.000");
    EXPECT_FALSE(levels.closes());
    levels.newBook(QStringLiteral("Back"), {});
    run(powerhouse, "2.000", intake, "0.996");
    ASSERT_TRUE(levels.closes());
    EXPECT_EQ(levels.closure(), QStringLiteral("Differs from Out by 0.004 m, allowed 0.007 m")); // 5 mm x sqrt(2)
    levels.setAllowance(QStringLiteral("section_third_order"));
    EXPECT_FALSE(levels.closes()); // a class by length, and no length yet
    levels.lineForm()->setTypedByKey(QStringLiteral("length"), QStringLiteral("250"));
    levels.keepLength();
    ASSERT_TRUE(levels.closes());
    EXPECT_EQ(levels.closure(), QStringLiteral("Differs from Out by 0.004 m, allowed 0.006 m")); // 12 mm x sqrt(0.25 km)
}

TEST_F(Models, AReadingOfARunIsQuestionedBeforeItIsBooked) {
    LevelsModel& levels = *m_app->levels();
    m_app->walk()->logStation(QStringLiteral("intake"), QStringLiteral("Intake"));
    const QString intake = m_app->walk()->station();
    m_app->walk()->logStation(QStringLiteral("powerhouse"), QStringLiteral("Powerhouse"));
    const QString powerhouse = m_app->walk()->station();
    levels.newBook(QStringLiteral("Out"), {});
    levels.setPoint(intake);
    book_sight("1.000");
    levels.setPoint(powerhouse);
    book_sight("2.500");
    HeightRunModel& run = *m_app->heightRun();
    run.newRun(QStringLiteral("water-tube"), QStringLiteral("Tube"), {});
    run.setFrom(intake);
    run.setTo(powerhouse);
    EntryForm& form = *run.form();
    form.setTyped(0, QStringLiteral("0.50"));
    form.setTyped(1, QStringLiteral("2.00"));
    ASSERT_TRUE(run.ready());
    EXPECT_TRUE(run.doubts().isEmpty());
    form.setTyped(1, QStringLiteral("2.20"));
    ASSERT_EQ(run.doubts().size(), 1);
    EXPECT_EQ(survey().height_readings.size(), 0u);
}

TEST(PegGuideTest, LeadsThroughBothSetUpsToAVerdictWithItsLastDay) {
    const QDate tested(2026, 5, 1);
    EXPECT_EQ(peg_guide(0, {}, {}, tested).setup, 1);
    EXPECT_EQ(peg_guide(1, {}, tested, tested).setup, 2);
    EXPECT_FALSE(peg_guide(2, {}, tested, tested).good); // refused readings give no verdict
    EXPECT_TRUE(peg_guide(2, {}, tested, tested).until.isEmpty());
    // rise 0.1 m by the set-up midway; the second one at peg B shows no error, then 2 mm in 58 m
    const TwoPegOptions fine{0.0002, kTwoPegLimit, {}, {}};
    const auto good = two_peg({{30.0, 1.500, 30.0, 1.400}, {59.0, 1.600, 1.0, 1.500}}, fine);
    ASSERT_TRUE(good.ok());
    const PegGuide passed = peg_guide(2, *good, tested, QDate(2026, 5, 8));
    EXPECT_TRUE(passed.good);
    EXPECT_NE(passed.until.indexOf(QStringLiteral("until 2026-05-08")), -1);
    EXPECT_NE(peg_guide(2, *good, tested, QDate(2026, 5, 9)).until.indexOf(QStringLiteral("ran out on 2026-05-08")), -1);
    const auto bad = two_peg({{30.0, 1.500, 30.0, 1.400}, {59.0, 1.605, 1.0, 1.500}}, fine);
    ASSERT_TRUE(bad.ok());
    EXPECT_FALSE(peg_guide(2, *bad, tested, tested).good);
}

TEST_F(Models, AnotherCopyIsTakenInAndAConflictIsSettledByThePerson) {
    m_app->levels()->newBook(QStringLiteral("Line"), {});
    const Id book = survey().books.front().row.id;
    const QString mine = m_app->project().path();
    const QString other = m_folder.filePath(QStringLiteral("other.gpkg"));
    ASSERT_TRUE(m_app->project().project()->save_copy(other.toStdString()).ok());
    m_app->levels()->renameBook(QStringLiteral("Mine"));
    {
        Expected<Project> theirs = Project::open(other.toStdString());
        ASSERT_TRUE(theirs.ok());
        LevelBookRow row = theirs->get<LevelBookRow>(book)->row;
        row.name = "Theirs";
        ASSERT_TRUE(theirs->change(row).ok());
        StationRow station;
        station.kind = "intake";
        station.name = "Their intake";
        ASSERT_TRUE(theirs->book(station).ok());
    }
    MergeModel& merge = *m_app->merge();
    merge.takeIn({QUrl::fromLocalFile(other)});
    EXPECT_TRUE(merge.working());
    EXPECT_FALSE(m_app->isOpen());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !merge.working(); }, 20000));
    ASSERT_TRUE(m_app->isOpen());
    EXPECT_EQ(m_app->project().path(), mine);
    EXPECT_EQ(survey().stations.size(), 1u);
    ASSERT_EQ(merge.conflicts().size(), 1);
    EXPECT_TRUE(merge.conflicts().front().otherHolds); // the later one
    EXPECT_NE(merge.conflicts().front().mine.indexOf(QStringLiteral("Mine")), -1);
    merge.settle(0, false);
    EXPECT_EQ(survey().books.front().row.name, "Mine");
    EXPECT_FALSE(merge.conflicts().front().otherHolds);
    merge.takeIn({QUrl::fromLocalFile(m_folder.filePath(QStringLiteral("none.gpkg")))});
    ASSERT_TRUE(QTest::qWaitFor([&] { return !merge.working(); }, 20000));
    EXPECT_EQ(merge.refusal().size(), 1);
    EXPECT_TRUE(m_app->isOpen());
}

TEST_F(Models, TheSiteIsWrittenForOtherProgramsUnderANameThatIsFree) {
    ExportModel& files = *m_app->files();
    files.setFormat(QStringLiteral("csv"));
    QStringList places;
    for (int i = 0; i < 2; ++i) {
        files.write();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !files.working(); }, 20000));
        ASSERT_EQ(files.refusal().size(), 1); // a site without a position has no UTM zone
        files.setUtm(false);
        files.write();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !files.working(); }, 20000));
        EXPECT_TRUE(files.refusal().isEmpty());
        places.append(files.done());
        files.setUtm(true);
    }
    EXPECT_NE(places[0], places[1]);
    files.setFormat(QStringLiteral("gpx"));
    files.write();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !files.working(); }, 20000));
    EXPECT_EQ(files.refusal().size(), 1); // no positions to draw
}

TEST_F(Models, AFileHeldByAnotherProgramIsWaitedForWithoutFreezing) {
    sqlite3* other = nullptr;
    ASSERT_EQ(sqlite3_open(m_app->project().path().toUtf8().constData(), &other), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
    QElapsedTimer clock;
    clock.start();
    m_app->walk()->addNote(QStringLiteral("steep ground"));
    EXPECT_LT(clock.elapsed(), 500);
    EXPECT_FALSE(m_app->saved());
    EXPECT_EQ(m_app->savedText(), QStringLiteral("Waiting for the file"));
    EXPECT_TRUE(survey().notes.empty());
    sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr);
    sqlite3_close(other);
    EXPECT_TRUE(QTest::qWaitFor([this] { return m_app->saved(); }, 3000));
    ASSERT_EQ(survey().notes.size(), 1u);
    EXPECT_EQ(survey().notes.front().row.text, "steep ground");
}

TEST_F(Models, AFileThatIsNoProjectIsRefusedAndTheOpenOneStays) {
    QFile file(m_folder.filePath(QStringLiteral("notes.gpkg")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("this is no database");
    file.close();
    QSignalSpy told(m_app.get(), &AppModel::told);
    EXPECT_FALSE(m_app->openFile(file.fileName()));
    EXPECT_EQ(told.count(), 1);
    EXPECT_EQ(m_app->siteName(), QStringLiteral("Creek"));
    EXPECT_FALSE(m_app->openFile(m_folder.filePath(QStringLiteral("absent.gpkg"))));
}

TEST_F(Models, AVerticalAndItsVelocitiesAreOneAction) {
    FlowModel& flow = *m_app->flow();
    GaugingModel& gauging = *m_app->gauging();
    flow.newTest(QStringLiteral("velocity-area"), QStringLiteral("Gauging"));
    gauging.setEdge(QStringLiteral("water-edge"));
    gauging.verticalForm()->setTypedByKey(QStringLiteral("distance"), QStringLiteral("0"));
    gauging.bookVertical();
    gauging.verticalForm()->setTypedByKey(QStringLiteral("distance"), QStringLiteral("1"));
    gauging.verticalForm()->setTypedByKey(QStringLiteral("depth"), QStringLiteral("0.5"));
    EXPECT_FALSE(gauging.ready());
    gauging.velocityForms().front()->setTypedByKey(QStringLiteral("velocity"), QStringLiteral("0.4"));
    ASSERT_TRUE(gauging.ready());
    gauging.bookVertical();
    gauging.setEdge(QStringLiteral("water-edge"));
    gauging.verticalForm()->setTypedByKey(QStringLiteral("distance"), QStringLiteral("2"));
    gauging.bookVertical();
    EXPECT_EQ(survey().verticals.size(), 3u);
    EXPECT_EQ(survey().velocities.size(), 1u);
    EXPECT_EQ(flow.result().value, QStringLiteral("200")); // 0.4 m/s x 0.5 m x 1 m, in L/s
    EXPECT_EQ(gauging.bed().size(), 3);
    EXPECT_EQ(gauging.panels().size(), 1);
    EXPECT_EQ(gauging.panels().front().weight, 2); // all of the flow
    EXPECT_EQ(gauging.comparison().size() > 3, true);
    m_app->undo();
    m_app->undo(); // the vertical with its velocity
    EXPECT_FALSE(flow.result().known());
}

TEST_F(Models, ChoosingAPipeMakesTheAlternative) {
    PowerModel& power = *m_app->power();
    EXPECT_EQ(power.alternative(), QStringLiteral("0"));
    power.choosePipe(QString::fromStdString(m_app->project().tables().pipes.front().id));
    EXPECT_EQ(survey().alternatives.size(), 1u);
    power.addAlternative(QStringLiteral("PVC"));
    EXPECT_EQ(power.name(), QStringLiteral("PVC"));
    EXPECT_EQ(survey().alternatives.size(), 2u);
    EXPECT_EQ(survey().alternatives[0].row.pipe_id, survey().alternatives[1].row.pipe_id); // a copy to change
}

TEST_F(Models, AStageLogIsReadInBehindTheScreenAndCanBeStopped) {
    QFile file(m_folder.filePath(QStringLiteral("log.csv")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("time,stage_m\n");
    for (int quarter = 0; quarter < 40000; ++quarter)
        file.write(QDateTime(QDate(2025, 1, 1), QTime(0, 0), Qt::UTC).addSecs(900LL * quarter).toString(QStringLiteral("yyyy-MM-dd HH:mm:ss")).toUtf8() +
                   (quarter == 7 ? ",\n" : ",0.42\n"));
    file.close();
    SeriesImport& import = *m_app->seriesImport();
    import.setKind(QStringLiteral("stage"));
    import.file()->begin(QUrl::fromLocalFile(file.fileName()));
    ASSERT_EQ(import.file()->fields().size(), 1);
    EXPECT_EQ(import.file()->fields().front().column, QStringLiteral("1"));
    EXPECT_EQ(import.file()->fields().front().unit, QStringLiteral("m"));
    import.start(QStringLiteral("Gauge"));
    import.cancel();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !import.running(); }, 20000));
    EXPECT_TRUE(survey().series.empty());
    ASSERT_TRUE(import.file()->isReady()); // the file is still in hand
    import.start(QStringLiteral("Gauge"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !import.running(); }, 20000));
    ASSERT_EQ(survey().series.size(), 1u);
    const FlowSeriesRow& series = survey().series.front().row;
    EXPECT_EQ(series.file_name, "log.csv");
    EXPECT_EQ(series.file_sha256.size(), 64u);
    const std::vector<StagePoint>& log = survey().series_values.at(series.id)->stages;
    ASSERT_EQ(log.size(), 40000u);
    EXPECT_DOUBLE_EQ(*log[0].stage_m, 0.42);
    EXPECT_FALSE(log[7].stage_m.has_value());
}

TEST_F(Models, ATestLeftOutOfTheRatingKeepsItsReason) {
    m_app->flow()->newTest(QStringLiteral("container"), QStringLiteral("Spout"));
    m_app->flow()->stageForm()->setTyped(0, QStringLiteral("42 cm"));
    m_app->flow()->keepStage();
    const FlowTestRow& test = survey().tests.front().row;
    EXPECT_DOUBLE_EQ(test.stage_m.value_or(0.0), 0.42);
    m_app->season()->setAside(QString::number(test.id), QStringLiteral("ice at the gauge"));
    EXPECT_FALSE(survey().tests.front().row.counts);
    EXPECT_EQ(survey().tests.front().row.set_aside_reason, "ice at the gauge");
    m_app->season()->setAside(QString::number(survey().tests.front().row.id), {});
    EXPECT_TRUE(survey().tests.front().row.counts);
}

TEST_F(Models, TheMonthlyTableOfTheFlowToLeave) {
    m_app->flow()->setLeaveRule(QStringLiteral("monthly"));
    EntryForm& form = *m_app->flow()->leaveForm();
    ASSERT_EQ(form.count(), 12);
    for (int month = 0; month < 12; ++month)
        form.setTyped(month, QStringLiteral("%1 L/s").arg(month + 1));
    m_app->flow()->keepLeave();
    EXPECT_DOUBLE_EQ(survey().site.leave_jan_m3s.value_or(0.0), 0.001);
    EXPECT_DOUBLE_EQ(survey().site.leave_dec_m3s.value_or(0.0), 0.012);
}

TEST(HeightRun, PerCentOfAClinometerIsKeptAsItsAngle) {
    QTemporaryDir folder;
    AppModel app(folder.path());
    app.settings()->setMetric(true);
    ASSERT_TRUE(app.newSite(QStringLiteral("Creek")));
    app.walk()->logStation(QStringLiteral("intake"), QStringLiteral("Top"));
    app.walk()->logStation(QStringLiteral("powerhouse"), QStringLiteral("Bottom"));
    HeightRunModel& run = *app.heightRun();
    run.newRun(QStringLiteral("clinometer"), {}, {});
    run.setTo(app.walk()->stations().last().id);
    ASSERT_NE(run.from(), run.to());
    run.form()->setTypedByKey(QStringLiteral("Or the slope, per cent"), QStringLiteral("-100 %"));
    run.form()->setTypedByKey(QStringLiteral("Level distance"), QStringLiteral("30 m"));
    ASSERT_TRUE(run.ready());
    run.book();
    const std::vector<rillmark::Booked<rillmark::HeightReadingRow>>& booked = app.project().survey().height_readings;
    ASSERT_EQ(booked.size(), 1u);
    EXPECT_NEAR(*booked[0].row.angle_deg, -45.0, 1e-9); // 100 % are 45 degrees
    EXPECT_FALSE(booked[0].row.back_angle_deg);
    EXPECT_NE(booked[0].row.typed.find("-100 %"), std::string::npos);
    EXPECT_TRUE(run.result().contains(QStringLiteral("30"))) << run.result().toStdString(); // 30 m level at 100 %
}

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
