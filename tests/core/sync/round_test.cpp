// SPDX-License-Identifier: GPL-3.0-or-later
// Rounds against a server played in memory: what is sent when, and that nothing of anybody is lost whatever happens to
// the network. A site is a set of numbers here, its merge the union.
#include "sync/round.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <random>
#include <set>

namespace {

using namespace rillmark;
using namespace rillmark::sync;

using Content = std::set<int>;
constexpr std::int64_t kSite = 4711;

std::string text_of(const Content& content) {
    std::string text;
    for (const int value : content)
        text += std::to_string(value) + ",";
    return text;
}

/// A WebDAV server with a clock that a test moves. Its tags are of time and size, as those of servers are, so that two
/// files of one second and size look the same.
class PlayedServer {
public:
    struct File {
        Content content;
        int written_s = 0;
    };
    bool honours_conditions = true;
    bool locks = true;
    bool moves = true;
    bool sends_tags = true;
    int now_s = 1000;
    std::map<std::string, File> files;
    std::set<std::string> folders;
    std::vector<std::string> asked;

    static std::string tag_of(const File& file) {
        return "\"" + std::to_string(file.written_s) + "-" + std::to_string(file.content.size()) + "\"";
    }
    Answer handle(const Request& request, const Content& body) {
        asked.push_back(method_name(request.verb));
        Answer answer;
        answer.date = date(now_s);
        answer.status = status(request, body, answer);
        return answer;
    }
    [[nodiscard]] const File* site() const {
        for (const auto& [url, file] : files)
            if (url.ends_with("/site.gpkg"))
                return &file;
        return nullptr;
    }

private:
    static std::string date(int at_s) {
        char text[40];
        std::snprintf(text, sizeof text, "Sun, 06 Nov 1994 %02d:%02d:%02d GMT", at_s / 3600, at_s / 60 % 60, at_s % 60);
        return text;
    }
    static std::string header(const Request& request, const char* name) {
        for (const auto& [key, value] : request.headers)
            if (key == name)
                return value;
        return {};
    }
    [[nodiscard]] bool conditions_hold(const Request& request) const {
        const std::string if_header = header(request, "If");
        const std::string if_match = header(request, "If-Match");
        const auto tag = [&](const std::string& url) {
            return files.contains(url) ? tag_of(files.at(url)) : std::string("none");
        };
        if (!if_match.empty() && tag(request.url) != if_match)
            return false;
        if (header(request, "If-None-Match") == "*" && files.contains(request.url))
            return false;
        const std::size_t state = if_header.find("([");
        if (state == std::string::npos)
            return true;
        const std::string url = if_header.substr(1, if_header.find('>') - 1);
        return tag(url) == if_header.substr(state + 2, if_header.find("])") - state - 2);
    }
    [[nodiscard]] bool kept_out(const Request& request) const {
        return locked() && header(request, "If").find(m_lock) == std::string::npos;
    }
    int status(const Request& request, const Content& body, Answer& answer) {
        const auto there = files.find(request.url);
        switch (request.verb) {
        case Verb::Get:
        case Verb::Head:
            if (there == files.end())
                return 404;
            if (sends_tags)
                answer.etag = tag_of(there->second);
            answer.last_modified = date(there->second.written_s);
            if (!answer.etag.empty() && header(request, "If-None-Match") == answer.etag)
                return 304;
            answer.length_bytes = static_cast<std::int64_t>(there->second.content.size());
            answer.body_sha256 = text_of(there->second.content) + ".";
            return 200;
        case Verb::MakeFolder:
            return folders.insert(request.url).second ? 201 : 405;
        case Verb::Lock:
            if (!locks)
                return 405;
            if (locked())
                return 423;
            m_locked_until_s = now_s + 120;
            m_lock = "<lock:" + std::to_string(++m_locks) + ">";
            answer.lock_token = m_lock;
            return 200;
        case Verb::Unlock:
            m_lock.clear();
            return 204;
        case Verb::Put:
        case Verb::Move:
            break;
        default:
            return 405;
        }
        if (kept_out(request))
            return 423;
        if (honours_conditions && !conditions_hold(request))
            return 412;
        if (request.verb == Verb::Put) {
            files[request.url] = {body, now_s};
            return 201;
        }
        if (!moves)
            return 405;
        const std::string to = header(request, "Destination");
        if (there == files.end())
            return 404;
        if (files.contains(to) && header(request, "Overwrite") == "F")
            return 412;
        files[to] = there->second;
        files.erase(request.url);
        return 201;
    }
    [[nodiscard]] bool locked() const { return !m_lock.empty() && now_s < m_locked_until_s; }

    std::string m_lock;
    int m_locked_until_s = 0;
    int m_locks = 0;
};

/// A device: its own content, its memory, the round that it is in. step() takes one step of it.
class Device {
public:
    Device(PlayedServer& server, std::string name, Content content, std::mt19937_64& engine)
        : here(std::move(content)), m_server(server), m_name(std::move(name)), m_engine(engine) {}

    Content here;
    double fault_share = 0.0; // of requests that are lost, before or after the server acted
    std::optional<Finding> refusal;
    int rounds = 0;

    void start() {
        Patience patience;
        patience.attempts = 4;
        m_round.emplace(*parse_server_address("https://cloud.example/"), kSite, m_name, m_remembered, patience,
                        [this] { return chance(); });
    }
    [[nodiscard]] bool idle() const { return !m_round; }
    void step() {
        const Step step = m_round->step();
        if (const auto* request = std::get_if<Request>(&step)) {
            m_round->answered(ask(*request));
        } else if (const auto* task = std::get_if<Task>(&step)) {
            *task == Task::TakeIn ? take_in() : make_copy();
        } else if (const auto* wait = std::get_if<Wait>(&step)) {
            m_server.now_s += static_cast<int>((wait->time.count() + 999) / 1000);
            m_round->waited();
        } else {
            refusal = std::get<Ended>(step).refusal;
            m_remembered = m_round->remembered();
            sent = m_round->sent();
            ++rounds;
            m_round.reset();
        }
    }
    void run() {
        start();
        for (int i = 0; i < 500 && !idle(); ++i)
            step();
        ASSERT_TRUE(idle()) << "the round does not end";
    }
    bool sent = false;
    [[nodiscard]] const Remembered& remembered() const { return m_remembered; }

private:
    double chance() { return std::uniform_real_distribution<double>(0.0, 1.0)(m_engine); }
    Answer ask(const Request& request) {
        Answer lost;
        lost.fault = Fault::Cut;
        if (chance() < fault_share / 2)
            return lost;
        const Content body = request.body == Body::ClosedCopy ? m_copy : Content{};
        const Answer answer = m_server.handle(request, body);
        if (chance() < fault_share / 2)
            return lost;
        if (request.verb == Verb::Get && answer.status == 200)
            m_fetched = m_server.files.at(request.url).content;
        return answer;
    }
    void take_in() {
        here.insert(m_fetched.begin(), m_fetched.end());
        m_round->taken_in({here != m_fetched, text_of(here) + "."});
    }
    void make_copy() {
        m_copy = here;
        m_round->copied({text_of(here) + ".", static_cast<std::int64_t>(here.size())});
    }

    PlayedServer& m_server;
    std::string m_name;
    std::mt19937_64& m_engine;
    Remembered m_remembered;
    std::optional<Round> m_round;
    Content m_fetched;
    Content m_copy;
};

class RoundTest : public ::testing::Test {
protected:
    std::mt19937_64 engine{20261125};
    PlayedServer server;
    Device ann{server, "a1", {1, 2}, engine};
    Device ben{server, "b2", {2, 3}, engine};
};

} // namespace

TEST_F(RoundTest, TheFirstSendsWhatItHas) {
    ann.run();
    EXPECT_FALSE(ann.refusal);
    EXPECT_TRUE(ann.sent);
    EXPECT_EQ(server.site()->content, ann.here);
    EXPECT_EQ(ann.remembered().guard, Guard::Condition);
    EXPECT_EQ(server.asked, (std::vector<std::string>{"GET", "MKCOL", "PUT", "HEAD", "MOVE", "MOVE", "HEAD", "HEAD"}));
}

TEST_F(RoundTest, WithNothingNewOneQuestionIsAsked) {
    ann.run();
    server.now_s += 60;
    server.asked.clear();
    ann.run();
    EXPECT_FALSE(ann.sent);
    EXPECT_EQ(server.asked, std::vector<std::string>{"GET"});
}

TEST_F(RoundTest, TheSecondTakesInAndSends) {
    ann.run();
    server.now_s += 60;
    ben.run();
    EXPECT_EQ(ben.here, (Content{1, 2, 3}));
    EXPECT_EQ(server.site()->content, ben.here);
    server.now_s += 60;
    ann.run();
    EXPECT_EQ(ann.here, ben.here);
    EXPECT_FALSE(ann.sent);
}

TEST_F(RoundTest, ADeletedFileIsSentAgain) {
    ann.run();
    server.files.clear();
    server.folders.clear();
    ann.run();
    EXPECT_FALSE(ann.refusal);
    EXPECT_EQ(server.site()->content, ann.here);
}

TEST_F(RoundTest, WhereConditionsAreIgnoredItLocks) {
    server.honours_conditions = false;
    ann.run();
    EXPECT_FALSE(ann.refusal);
    EXPECT_EQ(ann.remembered().guard, Guard::Lock);
    EXPECT_EQ(server.site()->content, ann.here);
    // the lock is held for the last steps only, not while the server's clock moves on
    EXPECT_EQ(server.asked, (std::vector<std::string>{"GET", "MKCOL", "PUT", "HEAD", "MOVE", "LOCK", "HEAD", "MOVE",
                                                      "HEAD", "UNLOCK", "HEAD"}));
}

TEST_F(RoundTest, AServerThatGuardsNothingIsRefused) {
    server.honours_conditions = false;
    server.locks = false;
    ann.run();
    ASSERT_TRUE(ann.refusal);
    EXPECT_EQ(ann.refusal->code, "exchange.server_no_guard");
    EXPECT_EQ(server.site(), nullptr);
}

TEST_F(RoundTest, WithoutTagsNothingIsWrittenOver) {
    server.sends_tags = false;
    ann.run(); // the first may: where nothing is, nothing is written over
    ben.run();
    ASSERT_TRUE(ben.refusal);
    EXPECT_EQ(ben.refusal->code, "exchange.server_no_guard");
    EXPECT_EQ(ben.here, (Content{1, 2, 3})); // but what is there is taken in
}

TEST_F(RoundTest, WithoutMoveTheFileIsPutOnTheSameCondition) {
    server.moves = false;
    ann.run();
    EXPECT_FALSE(ann.refusal);
    EXPECT_FALSE(ann.remembered().moves);
    server.now_s += 60;
    ben.run();
    EXPECT_FALSE(ben.refusal);
    EXPECT_EQ(server.site()->content, (Content{1, 2, 3}));
}

TEST_F(RoundTest, WhoIsOvertakenTakesInFirst) {
    ann.run();
    server.now_s += 60;
    ben.here.insert(9);
    ben.start();
    while (server.asked.empty() || server.asked.back() != "PUT")
        ben.step(); // ben has fetched and uploaded, not yet put in place
    ann.here.insert(8);
    server.asked.clear();
    ann.run();
    ASSERT_TRUE(ann.sent);
    while (!ben.idle())
        ben.step();
    EXPECT_FALSE(ben.refusal);
    EXPECT_EQ(server.site()->content, (Content{1, 2, 3, 8, 9}));
}

/// Random histories: three devices step in any order, book, and lose requests before or after the server acted.
/// At any time the file at the server holds all that it ever held; when the network is well again all end the same.
TEST(RoundProperty, NothingAtTheServerIsEverLostAndAllEndTheSame) {
    for (int seed = 0; seed < 400; ++seed) {
        std::mt19937_64 engine(static_cast<std::uint64_t>(seed));
        PlayedServer server;
        server.honours_conditions = seed % 2 == 0;
        server.moves = seed % 3 != 0 || !server.honours_conditions;
        std::vector<Device> devices;
        for (const char* name : {"a", "b", "c"})
            devices.emplace_back(server, name, Content{}, engine);
        int next = 0;
        Content held;
        for (Device& device : devices) {
            device.here.insert(next++);
            device.fault_share = 0.15;
        }
        for (int step = 0; step < 300; ++step) {
            Device& device = devices[engine() % devices.size()];
            if (engine() % 25 == 0)
                device.here.insert(next++);
            if (engine() % 3 == 0)
                ++server.now_s;
            device.idle() ? device.start() : device.step();
            if (const auto* site = server.site()) {
                ASSERT_TRUE(std::ranges::includes(site->content, held)) << "seed " << seed << ", step " << step;
                held = site->content;
            }
        }
        for (int turn = 0; turn < 3; ++turn)
            for (Device& device : devices) {
                device.fault_share = 0.0;
                server.now_s += 200;
                for (int i = 0; i < 500 && !device.idle(); ++i)
                    device.step();
                device.run();
                ASSERT_FALSE(device.refusal) << device.refusal->code << ", seed " << seed;
            }
        for (const Device& device : devices)
            ASSERT_EQ(device.here, devices.front().here) << "seed " << seed;
        ASSERT_EQ(server.site()->content, devices.front().here) << "seed " << seed;
        ASSERT_EQ(static_cast<int>(devices.front().here.size()), next) << "seed " << seed;
    }
}
