// SPDX-License-Identifier: GPL-3.0-or-later
// The designer's list and the files of other programs, without their pages.
#include "app_model.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>
#include <QtTest/QTest>

namespace {

class HandoverModels : public ::testing::Test {
protected:
    void SetUp() override { ASSERT_TRUE(m_app.newSite(QStringLiteral("Creek"))); }

    AskItem ask(const QString& key) {
        for (const AskItem& one : m_app.handover()->asks())
            if (one.key == key)
                return one;
        ADD_FAILURE() << key.toStdString();
        return {};
    }
    QUrl write(const QString& name, const QByteArray& bytes) {
        QFile file(m_folder.filePath(name));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return QUrl::fromLocalFile(file.fileName());
    }
    ImportModel& imports() { return *m_app.imports(); }
    void look(const QUrl& file) {
        imports().look({file});
        ASSERT_TRUE(QTest::qWaitFor([this] { return !imports().working(); }));
    }

    QTemporaryDir m_folder;
    AppModel m_app{m_folder.path()};
};

TEST_F(HandoverModels, ItemsAreAnsweredStruckAndTakenBack) {
    EXPECT_EQ(ask(QStringLiteral("permissions")).state, 2);
    m_app.handover()->answer(QStringLiteral("permissions"), QStringLiteral("yes"), QStringLiteral(" asked in May "));
    EXPECT_EQ(ask(QStringLiteral("permissions")).state, 0);
    EXPECT_EQ(ask(QStringLiteral("permissions")).answer, QStringLiteral("Yes: asked in May"));
    const QString tally = m_app.handover()->tally();
    m_app.handover()->answer(QStringLiteral("cable_route"), QStringLiteral("not-needed"), QStringLiteral("no house"));
    EXPECT_EQ(ask(QStringLiteral("cable_route")).state, 3);
    EXPECT_NE(m_app.handover()->tally(), tally);
    m_app.handover()->takeAnswerBack(QStringLiteral("cable_route"));
    EXPECT_EQ(ask(QStringLiteral("cable_route")).state, 2);
    EXPECT_EQ(m_app.handover()->tally(), tally);
    EXPECT_EQ(ask(QStringLiteral("permissions")).takes, QStringLiteral("yes-no"));
    EXPECT_EQ(ask(QStringLiteral("house_load")).takes, QStringLiteral("text"));
    EXPECT_EQ(ask(QStringLiteral("heights")).takes, QString());
}

TEST_F(HandoverModels, AFileIsShownBeforeItComesInAndOneUndoTakesItBack) {
    const QUrl file =
        write(QStringLiteral("w.gpx"), "<gpx><wpt lat=\"46\" lon=\"7\"><name>Weir</name><type>intake</type></wpt>"
                                       "<trk><trkseg><trkpt lat=\"46\" lon=\"7\"/></trkseg></trk></gpx>");
    look(file);
    EXPECT_TRUE(imports().ready());
    ASSERT_EQ(imports().preview().size(), 2);
    EXPECT_EQ(imports().preview().at(0).name, QStringLiteral("Weir"));
    EXPECT_TRUE(m_app.project().survey().stations.empty()) << "nothing is written by looking";
    imports().choose(QStringLiteral("lines"), QStringLiteral("none"));
    EXPECT_TRUE(imports().preview().at(1).left_out);
    imports().takeIn();
    ASSERT_EQ(m_app.project().survey().stations.size(), 1u);
    EXPECT_FALSE(imports().done().isEmpty());
    EXPECT_EQ(imports().fileName(), QString());
    m_app.undo();
    EXPECT_TRUE(m_app.project().survey().stations.front().struck);
}

TEST_F(HandoverModels, ATableAsksForItsColumnsAndAWrongFileIsRefused) {
    look(write(QStringLiteral("t.csv"), "a,b,c\n46,7,P\n"));
    EXPECT_FALSE(imports().ready());
    ASSERT_EQ(imports().columns().size(), 3);
    imports().choose(QStringLiteral("latitude"), QStringLiteral("a"));
    imports().choose(QStringLiteral("longitude"), QStringLiteral("b"));
    ASSERT_TRUE(QTest::qWaitFor([this] { return !imports().working(); }));
    EXPECT_TRUE(imports().ready());
    imports().choose(QStringLiteral("name"), QStringLiteral("c"));
    EXPECT_EQ(imports().preview().at(0).name, QStringLiteral("P"));
    look(write(QStringLiteral("bad.gpx"), "<gpx><wpt lat=\"x\" lon=\"7\"/></gpx>"));
    EXPECT_FALSE(imports().ready());
    ASSERT_FALSE(imports().findings().isEmpty());
    EXPECT_EQ(imports().findings().front().severity, 2);
    imports().putAway();
    EXPECT_TRUE(imports().findings().isEmpty());
}

} // namespace
