// SPDX-License-Identifier: GPL-3.0-or-later
// Against servers as people have them.
#include "sync/real_servers.h"
#include "sync/sync_fixture.h"

namespace {

using namespace rillmark;
using namespace rillmark::testing;

class RealServerTest : public SyncTest, public ::testing::WithParamInterface<RealServer::Kind> {
protected:
    /// As if the file at the server were older, each turn another time.
    void grow_old(const RealServer& server, int turn) const {
        fs::last_write_time(at_server(server.root()),
                            fs::file_time_type::clock::now() - std::chrono::hours(1) + std::chrono::seconds(10 * turn));
    }
    void rename_first_station(const std::string& name, const std::string& to) {
        clock_ms += 1000;
        Project project = open_as(name, file_of(name));
        const auto stations = project.all<StationRow>();
        if (!stations || stations->empty())
            return;
        StationRow row = stations->front().row;
        row.name = to;
        ASSERT_TRUE(project.change(row));
    }
};

#define START_OR_SKIP(server)                                                                                          \
    if ((server).missing())                                                                                            \
        GTEST_SKIP() << (server).problem();                                                                            \
    ASSERT_EQ((server).problem(), "")

} // namespace

TEST_P(RealServerTest, TwoDevicesThatSyncInTurnsEndWithTheSameContent) {
    const RealServer server(GetParam());
    START_OR_SKIP(server);
    make_site("ann");
    give("ann", "ben");
    add_station("ann", "Intake");
    add_station("ben", "Powerhouse");

    const sync::SiteOutcome first = synced("ann", server.url());
    EXPECT_EQ(why(first), "");
    EXPECT_TRUE(first.sent);
    const sync::SiteOutcome second = synced("ben", server.url());
    EXPECT_EQ(why(second), "");
    EXPECT_TRUE(second.merged.changed);
    EXPECT_TRUE(second.sent);
    const sync::SiteOutcome third = synced("ann", server.url());
    EXPECT_EQ(why(third), "");
    EXPECT_TRUE(third.merged.changed);
    EXPECT_FALSE(third.sent);
    EXPECT_EQ(content(file_of("ann")), content(file_of("ben")));
    EXPECT_EQ(content(file_of("ann")), content(at_server(server.root())));

    const sync::SiteOutcome again = synced("ben", server.url());
    EXPECT_EQ(why(again), "");
    EXPECT_FALSE(again.sent);
    EXPECT_FALSE(again.merged.changed);
}

TEST_P(RealServerTest, EditsOfBothInManyTurnsConverge) {
    const RealServer server(GetParam());
    START_OR_SKIP(server);
    make_site("ann");
    give("ann", "ben");
    std::mt19937_64 chance(20261125);
    for (int turn = 0; turn < 6; ++turn) {
        const std::string who = turn % 2 == 0 ? "ann" : "ben";
        add_station("ann", "A" + std::to_string(turn));
        if (chance() % 2 == 0)
            rename_first_station("ben", "B" + std::to_string(turn));
        sync::SiteOrder what = order(who, server.url());
        what.patience.settle = sync::Milliseconds(0); // nobody waits: the next round fetches again
        ASSERT_EQ(why(synced(what)), "") << turn;
        grow_old(server, turn);
    }
    for (const char* who : {"ben", "ann", "ben"}) {
        ASSERT_EQ(why(synced(who, server.url())), "");
        grow_old(server, 10);
    }
    EXPECT_EQ(content(file_of("ann")), content(file_of("ben")));
    EXPECT_EQ(content(file_of("ann")), content(at_server(server.root())));
    // and a third, who has nothing yet, gets it all
    EXPECT_EQ(why(synced("cat", server.url())), "");
    EXPECT_EQ(content(file_of("cat")), content(file_of("ann")));
}

TEST_P(RealServerTest, ThePasswordOpensAndAWrongOneIsTold) {
    const RealServer server(GetParam(), {.password = true});
    START_OR_SKIP(server);
    make_site("ann");
    sync::SiteOrder what = order("ann", server.url());
    EXPECT_EQ(why(synced(what)), "exchange.server_password");
    what.access.user = QStringLiteral("ann");
    what.access.password = QStringLiteral("brook");
    EXPECT_EQ(why(synced(what)), "exchange.server_password");
    EXPECT_FALSE(fs::exists(at_server(server.root())));
    what.access.password = QStringLiteral("kolibri-4711");
    EXPECT_EQ(why(synced(what)), "");
    EXPECT_TRUE(fs::exists(at_server(server.root())));
    for (const auto& entry : fs::recursive_directory_iterator(folder)) // nowhere written
        if (entry.is_regular_file()) {
            EXPECT_EQ(file_bytes(entry.path()).find("kolibri-4711"), std::string::npos) << entry.path();
        }
}

TEST_P(RealServerTest, ACertificateOfOnesOwnIsTrustedOnlyByHand) {
    const RealServer server(GetParam(), {.tls = true});
    START_OR_SKIP(server);
    make_site("ann");
    sync::SiteOrder what = order("ann", server.url());
    what.patience.settle = sync::Milliseconds(0);
    const sync::SiteOutcome refused = synced(what);
    EXPECT_EQ(refused.refusal ? refused.refusal->code : "", "exchange.server_certificate");
    EXPECT_EQ(refused.fingerprint.toLower().remove(QLatin1Char(':')).toStdString(), server.fingerprint());
    EXPECT_FALSE(fs::exists(at_server(server.root())));
    what.access.trusted_sha256 = QByteArray(64, 'a'); // another one
    EXPECT_EQ(synced(what).refusal->code, "exchange.server_certificate");
    what.access.trusted_sha256 = QByteArray::fromStdString(server.fingerprint());
    EXPECT_EQ(why(synced(what)), "");
    EXPECT_TRUE(fs::exists(at_server(server.root())));
}

TEST_P(RealServerTest, NothingIsLeftBesideTheFile) {
    const RealServer server(GetParam());
    START_OR_SKIP(server);
    make_site("ann");
    sync::SiteOrder what = order("ann", server.url());
    what.patience.settle = sync::Milliseconds(0);
    ASSERT_EQ(why(synced(what)), "");
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(at_server(server.root()).parent_path()))
        if (entry.is_regular_file())
            names.push_back(entry.path().filename().string());
    EXPECT_EQ(names, std::vector<std::string>{"site.gpkg"});
}

TEST_F(SyncTest, AServerThatGuardsNothingIsRefused) {
    const RealServer server(RealServer::Kind::Nginx, {.locks = false});
    START_OR_SKIP(server);
    make_site("ann");
    EXPECT_EQ(why(synced("ann", server.url())), "exchange.server_no_guard");
    EXPECT_FALSE(fs::exists(at_server(server.root())));
}

TEST_F(SyncTest, AServerWithoutMoveGetsTheFilePut) {
    const RealServer server(RealServer::Kind::Nginx, {.moves = false});
    START_OR_SKIP(server);
    make_site("ann");
    sync::SiteOrder what = order("ann", server.url());
    what.patience.settle = sync::Milliseconds(0);
    EXPECT_EQ(why(synced(what)), "");
    EXPECT_EQ(content(at_server(server.root())), content(file_of("ann")));
}

TEST_F(SyncTest, AnotherSiteInItsPlaceIsRefused) {
    const RealServer server(RealServer::Kind::Apache);
    START_OR_SKIP(server);
    make_site("ann");
    auto other = Project::create(folder / "other.gpkg", "Other Creek", device("x"));
    ASSERT_TRUE(other);
    fs::create_directories(at_server(server.root()).parent_path());
    ASSERT_TRUE(other->save_copy(at_server(server.root())));
    const std::string before = content(file_of("ann"));
    EXPECT_EQ(why(synced("ann", server.url())), "exchange.server_other_site");
    EXPECT_EQ(content(file_of("ann")), before);
}

TEST_F(SyncTest, AClosedCopyOfTheSameContentIsTheSameFile) {
    // the rounds tell by it whether there is something to send
    make_site("ann");
    add_station("ann", "Intake");
    give("ann", "one");
    clock_ms += 5000;
    give("ann", "two");
    EXPECT_EQ(file_bytes(file_of("one")), file_bytes(file_of("two")));
}

INSTANTIATE_TEST_SUITE_P(Servers, RealServerTest, ::testing::Values(RealServer::Kind::Apache, RealServer::Kind::Nginx),
                         [](const auto& one) { return one.param == RealServer::Kind::Apache ? "Apache" : "Nginx"; });
