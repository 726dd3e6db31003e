// SPDX-License-Identifier: GPL-3.0-or-later
// A server, or what stands before it, that does what it should not.
#include "sync/odd_proxy.h"
#include "sync/real_servers.h"
#include "sync/sync_fixture.h"

#include <QElapsedTimer>

namespace {

using namespace rillmark;
using namespace rillmark::testing;

/// Apache behind a proxy that misbehaves, and a site that both sides have.
class OddServerTest : public SyncTest {
protected:
    void SetUp() override {
        if (server.missing())
            GTEST_SKIP() << server.problem();
        ASSERT_EQ(server.problem(), "");
        make_site("ann");
        give("ann", "ben");
        add_station("ann", "Intake");
        ASSERT_EQ(why(synced("ann", server.url())), "");
        before = content(at_server(server.root()));
        add_station("ben", "Powerhouse");
        grow_old();
    }
    /// As if the file at the server were an hour old, so that nobody need wait for its tag.
    void grow_old() const {
        fs::last_write_time(at_server(server.root()), fs::file_time_type::clock::now() - std::chrono::hours(1));
    }
    sync::SiteOrder quick(const std::string& name) const {
        sync::SiteOrder what = order(name, proxy.url());
        what.patience.settle = sync::Milliseconds(0);
        what.patience.attempts = 1;
        return what;
    }
    /// The site here is whole and holds all that ben booked, and that at the server is the one from before.
    void expect_nothing_lost() {
        auto here = Project::open(file_of("ben"), OpenMode::ReadOnly);
        ASSERT_TRUE(here);
        EXPECT_TRUE(here->verify().empty());
        EXPECT_NE(content(file_of("ben")).find("Powerhouse"), std::string::npos);
        EXPECT_EQ(content(at_server(server.root())), before);
    }
    void expect_success_when_it_behaves() {
        proxy.behave();
        grow_old();
        EXPECT_EQ(why(synced(quick("ben"))), "");
        EXPECT_EQ(content(at_server(server.root())), content(file_of("ben")));
    }

    RealServer server{RealServer::Kind::Apache};
    OddProxy proxy{server.port()};
    std::string before; // content at the server
};

struct Oddity {
    const char* name;
    const char* method;
    QByteArray answer;
    const char* code;
};

const QByteArray kPage = "<!DOCTYPE html><html><body>Welcome to our guest network</body></html>";

} // namespace

TEST_F(OddServerTest, EachOddAnswerIsToldInItsWordsAndHarmsNothing) {
    const auto status = [](int code, const QByteArray& headers = {}, const QByteArray& body = {}) {
        return OddProxy::status(code, headers, body);
    };
    const std::vector<Oddity> oddities{
        {"401", "*", status(401, "WWW-Authenticate: Basic realm=\"x\"\r\n"), "exchange.server_password"},
        {"401 without a challenge", "*", status(401), "exchange.server_password"},
        {"403", "*", status(403), "exchange.server_forbidden"},
        {"403 to PUT", "PUT", status(403), "exchange.server_forbidden"},
        {"404 to everything", "*", status(404), "exchange.server_no_folder"},
        {"405 to PUT", "PUT", status(405), "exchange.server_no_webdav"},
        {"412 for ever", "MOVE", status(412), "exchange.server_overtaken"},
        {"413", "PUT", status(413), "exchange.server_file_refused"},
        {"423", "PUT", status(423), "exchange.server_locked"},
        {"500", "GET", status(500), "exchange.server_trouble"},
        {"503 for an hour", "GET", status(503, "Retry-After: 3600\r\n"), "exchange.server_trouble"},
        {"507 to PUT", "PUT", status(507), "exchange.server_full"},
        {"507 to MOVE", "MOVE", status(507), "exchange.server_full"},
        {"a redirect", "GET", status(302, "Location: https://elsewhere.example/\r\n"), "exchange.server_moved"},
        {"a page in place of the file", "GET", status(200, "Content-Type: text/html\r\n", kPage),
         "exchange.server_web_page"},
        {"a page in place of everything", "*", status(200, "Content-Type: text/html\r\n", kPage),
         "exchange.server_web_page"},
        {"a page after the upload", "HEAD", status(200, "Content-Type: text/html\r\n", {}),
         "exchange.server_kept_other"},
        {"garbage", "GET", status(200, "ETag: \"x\"\r\n", QByteArray(5000, '\x9f')), "exchange.server_no_project"},
        {"nothing", "GET", status(200, "ETag: \"x\"\r\n"), "exchange.server_no_project"},
        {"a database of another kind", "GET",
         status(200, "", QByteArray("SQLite format 3\0", 16) + QByteArray(4080, '\0')), "exchange.server_no_project"},
        {"no HTTP", "GET", "220 mail.example ready\r\n", "exchange.server_cut"},
        {"less than it said", "GET", "HTTP/1.1 200 OK\r\nContent-Length: 9000\r\n\r\nshort", "exchange.server_cut"},
        {"hung up", "GET", "\r\n", "exchange.server_cut"},
    };
    for (const Oddity& one : oddities) {
        SCOPED_TRACE(one.name);
        proxy.behave();
        proxy.always(one.method, one.answer);
        const sync::SiteOutcome outcome = synced(quick("ben"));
        ASSERT_TRUE(outcome.refusal);
        EXPECT_EQ(outcome.refusal->code, one.code) << why(outcome);
        EXPECT_FALSE(outcome.sent);
        expect_nothing_lost();
    }
    expect_success_when_it_behaves();
}

TEST_F(OddServerTest, PassingTroubleIsTriedAgain) {
    proxy.instead("GET", {OddProxy::status(503), OddProxy::status(429, "Retry-After: 0\r\n")});
    proxy.instead("PUT", {OddProxy::status(423)});
    sync::SiteOrder what = quick("ben");
    what.patience.attempts = 5;
    EXPECT_EQ(why(synced(what)), "");
    EXPECT_EQ(content(at_server(server.root())), content(file_of("ben")));
}

TEST_F(OddServerTest, ASilentServerIsGivenUp) {
    proxy.fall_silent();
    sync::SiteOrder what = quick("ben");
    what.access.silence_ms = 300;
    QElapsedTimer since;
    since.start();
    EXPECT_EQ(why(synced(what)), "exchange.server_silent");
    EXPECT_LT(since.elapsed(), 5000);
    expect_nothing_lost();
    expect_success_when_it_behaves();
}

TEST_F(OddServerTest, CancellingEndsAtOnceAndLosesNothing) {
    proxy.fall_silent();
    std::atomic<bool> stop = false;
    sync::SiteHooks hooks;
    hooks.doing = [&](const char*, const std::optional<Finding>&) { stop = true; };
    QElapsedTimer since;
    since.start();
    EXPECT_EQ(why(sync::sync_site(quick("ben"), hooks, stop)), "exchange.sync_cancelled");
    EXPECT_LT(since.elapsed(), 2000);
    expect_nothing_lost();
    expect_success_when_it_behaves();
}

TEST_F(OddServerTest, AClockOfTheServerThatIsWrongChangesNothing) {
    // the year 1980, and a file from the server's future
    std::ifstream file(at_server(server.root()), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    proxy.instead("GET", {OddProxy::status(200,
                                           "ETag: \"other\"\r\nDate: Tue, 01 Jan 1980 00:00:00 GMT\r\n"
                                           "Last-Modified: Fri, 01 Jan 2100 00:00:00 GMT\r\n",
                                           QByteArray::fromStdString(bytes))});
    sync::SiteOrder what = quick("ben");
    what.patience.attempts = 3;
    EXPECT_EQ(why(synced(what)), ""); // the tag is not Apache's: overtaken once, then right
    EXPECT_EQ(content(at_server(server.root())), content(file_of("ben")));
}

/// At every cut, in either direction: both sides hold a whole earlier (or the whole new) file, and the next try
/// succeeds.
TEST_F(OddServerTest, ACutAtAnyByteLeavesBothSidesWhole) {
    proxy.cut_after({}, {});
    const std::string fresh = file_bytes(file_of("ben"));
    const std::string at_first = file_bytes(at_server(server.root()));
    ASSERT_EQ(why(synced(quick("ben"))), ""); // a round without a cut, to know how many bytes go each way
    const qint64 up = proxy.up();
    const qint64 down = proxy.down();
    ASSERT_GT(up, 100'000);
    ASSERT_GT(down, 100'000);
    const std::string after = content(at_server(server.root()));

    std::mt19937_64 chance(20261125);
    // RILLMARK_CUTS=50 is the long form
    const int more_cuts = std::max(qEnvironmentVariableIntValue("RILLMARK_CUTS"), 2);
    std::vector<std::pair<bool, qint64>> cuts;
    for (const bool upwards : {true, false}) {
        const qint64 all = upwards ? up : down;
        for (const qint64 at : {qint64{0}, qint64{150}, all - 1, all - 400})
            cuts.emplace_back(upwards, at);
        for (int i = 0; i < more_cuts; ++i)
            cuts.emplace_back(upwards, static_cast<qint64>(chance() % static_cast<std::uint64_t>(all)));
    }
    for (const auto& [upwards, at] : cuts) {
        SCOPED_TRACE((upwards ? "up, byte " : "down, byte ") + std::to_string(at));
        fs::remove_all(folder / "memory-ben");
        write_bytes(file_of("ben"), fresh);
        write_bytes(at_server(server.root()), at_first);
        grow_old();
        proxy.behave();
        proxy.cut_after(upwards ? std::optional(at) : std::nullopt, upwards ? std::nullopt : std::optional(at));
        synced(quick("ben"));
        auto here = Project::open(file_of("ben"), OpenMode::ReadOnly);
        ASSERT_TRUE(here);
        EXPECT_TRUE(here->verify().empty());
        const std::string there = content(at_server(server.root()));
        EXPECT_TRUE(there == before || there == after);
        expect_success_when_it_behaves();
        EXPECT_EQ(content(file_of("ben")), after);
    }
}
