// SPDX-License-Identifier: GPL-3.0-or-later
// The card that sends, against Apache on the loopback.
#include "app_model.h"
#include "sync/real_servers.h"

#include <gtest/gtest.h>

#include <QDirIterator>
#include <QFile>
#include <QTemporaryDir>
#include <QtTest/QTest>

namespace {

using namespace rillmark;
using rillmark::testing::RealServer;

constexpr int kRound_ms = 20'000;

class SyncCard : public ::testing::Test {
protected:
    void SetUp() override {
        if (server.missing())
            GTEST_SKIP() << server.problem();
        ASSERT_EQ(server.problem(), "");
        app = std::make_unique<AppModel>(folder.path());
        ASSERT_TRUE(app->newSite(QStringLiteral("Creek")));
        card().setKeepPassword(false);
        card().setAddress(QString::fromStdString(server.url()));
        card().setUser(QStringLiteral("ann"));
    }
    [[nodiscard]] SyncModel& card() { return *app->sync(); }
    void round() {
        card().sendAndFetch();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !card().working(); }, kRound_ms));
    }
    [[nodiscard]] std::string at_server() const {
        QDirIterator files(QString::fromStdU16String(server.root().u16string()), {"site.gpkg"}, QDir::Files,
                           QDirIterator::Subdirectories);
        return files.hasNext() ? files.next().toStdString() : std::string();
    }
    static StationRow station(const char* name) {
        StationRow row;
        row.name = name;
        row.kind = "route-point";
        return row;
    }

    RealServer server{RealServer::Kind::Apache, {.password = true}};
    QTemporaryDir folder;
    std::unique_ptr<AppModel> app;
};

} // namespace

TEST_F(SyncCard, TellsAWrongAddressAndAWrongPasswordInWords) {
    card().setAddress(QStringLiteral("ftp://cloud.example/"));
    card().sendAndFetch();
    EXPECT_FALSE(card().working());
    ASSERT_EQ(card().outcome().size(), 1);
    card().setAddress(QString::fromStdString(server.url()));
    card().setPassword(QStringLiteral("brook"));
    round();
    ASSERT_EQ(card().outcome().size(), 1);
    EXPECT_TRUE(card().done().isEmpty());
}

TEST_F(SyncCard, SendsTakesInAndKeepsTheSiteOpen) {
    card().setPassword(QStringLiteral("kolibri-4711"));
    round();
    ASSERT_TRUE(card().outcome().isEmpty());
    ASSERT_NE(at_server(), "");
    { // somebody else adds a station at the server
        Expected<Project> theirs = Project::open(at_server());
        ASSERT_TRUE(theirs);
        ASSERT_TRUE(theirs->book(station("Powerhouse")));
    }
    app->project().book(station("Intake"));
    round();
    EXPECT_TRUE(card().outcome().isEmpty());
    EXPECT_TRUE(app->isOpen());
    EXPECT_EQ(app->project().survey().stations.size(), 2u);
    EXPECT_FALSE(app->merge()->report().isEmpty());
    const Expected<Project> sent = Project::open(at_server(), OpenMode::ReadOnly);
    ASSERT_TRUE(sent);
    EXPECT_EQ(sent->all<StationRow>()->size(), 2u);
}

TEST_F(SyncCard, ThePasswordIsInNoFileOfTheApp) {
    card().setPassword(QStringLiteral("kolibri-4711"));
    round();
    app->resume()->flush();
    QSettings().sync();
    int files = 0;
    for (const QString& root : {folder.path(), qEnvironmentVariable("XDG_CONFIG_HOME")}) {
        QDirIterator all(root, QDir::Files | QDir::Hidden, QDirIterator::Subdirectories);
        while (all.hasNext()) {
            QFile file(all.next());
            ASSERT_TRUE(file.open(QIODevice::ReadOnly));
            EXPECT_FALSE(file.readAll().contains("kolibri-4711")) << file.fileName().toStdString();
            ++files;
        }
    }
    EXPECT_GT(files, 2);
}
