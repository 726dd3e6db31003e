// SPDX-License-Identifier: GPL-3.0-or-later
// Kills a booking program 200 times at random moments: whatever it had acknowledged must be in the file.
#include "project/project.h"

#include <gtest/gtest.h>

#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <map>
#include <random>
#include <set>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace rillmark {
namespace {

namespace fs = std::filesystem;

constexpr int kKills = 200;
constexpr int kKillsPerFile = 20; // a file grows through several kills, then a new one is begun

using Acknowledged = std::map<std::string, std::set<Id>>;

/// Starts the booker, waits `microseconds` after its first line and kills it. Returns all that it printed.
std::string run_and_kill(const char* booker, const fs::path& file, int seed, unsigned microseconds) {
    int ends[2];
    if (::pipe(ends) != 0)
        return {};
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(ends[1], STDOUT_FILENO);
        ::close(ends[0]);
        ::close(ends[1]);
        ::execl(booker, booker, file.c_str(), std::to_string(seed).c_str(), static_cast<char*>(nullptr));
        ::_exit(127);
    }
    ::close(ends[1]);
    std::string printed;
    char buffer[4096];
    bool killed = false;
    for (ssize_t got = 0; (got = ::read(ends[0], buffer, sizeof buffer)) > 0;) {
        printed.append(buffer, static_cast<std::size_t>(got));
        if (!killed) {
            ::usleep(microseconds);
            ::kill(child, SIGKILL);
            killed = true; // what still lies in the pipe was acknowledged as well
        }
    }
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "the booker ended by itself";
    return printed;
}

void collect(const std::string& printed, Acknowledged& acknowledged) {
    std::istringstream lines(printed.substr(0, printed.rfind('\n') + 1)); // a half-printed line was not read by anyone
    std::string table;
    Id id = 0;
    while (lines >> table >> id)
        acknowledged[table].insert(id);
}

template <class Record>
void expect_all(const Project& project, const Acknowledged& acknowledged) {
    const auto rows = project.all<Record>();
    ASSERT_TRUE(rows.ok()) << Record::kTable;
    std::set<Id> stored;
    for (const auto& row : *rows)
        stored.insert(row.row.id);
    const auto wanted = acknowledged.find(Record::kTable);
    if (wanted == acknowledged.end())
        return;
    for (const Id id : wanted->second)
        EXPECT_TRUE(stored.contains(id)) << Record::kTable << " " << id;
}

TEST(Kill, EveryAcknowledgedRowSurvives) {
    const char* booker = std::getenv("RILLMARK_KILL_BOOKER");
    const char* kept = std::getenv("RILLMARK_KILL_FILE");
    ASSERT_TRUE(booker && kept);
    const unsigned seed = std::random_device{}();
    std::printf("seed %u\n", seed);
    std::mt19937 random(seed);
    const fs::path file = kept;
    Acknowledged acknowledged;
    std::size_t total = 0;
    for (int kill = 0; kill < kKills; ++kill) {
        if (kill % kKillsPerFile == 0) {
            for (const char* suffix : {"", "-wal", "-shm", "-journal"})
                fs::remove(file.string() + suffix);
            acknowledged.clear();
            ASSERT_TRUE(Project::create(file, "Kill Creek").ok());
        }
        const std::string printed = run_and_kill(booker, file, kill, static_cast<unsigned>(random() % 40'000));
        ASSERT_FALSE(printed.empty());
        collect(printed, acknowledged);
        // Whole fixes of a stay and the checks of the file itself.
        const auto project = Project::open(file);
        ASSERT_TRUE(project.ok()) << project.error().code;
        for (const Finding& fault : project->verify())
            ADD_FAILURE() << fault.code << " " << fault.where;
        expect_all<StationRow>(*project, acknowledged);
        expect_all<SightRow>(*project, acknowledged);
        expect_all<FillRow>(*project, acknowledged);
        expect_all<NoteRow>(*project, acknowledged);
        expect_all<VerticalRow>(*project, acknowledged);
        expect_all<VelocityRow>(*project, acknowledged);
        expect_all<OccupationRow>(*project, acknowledged);
        expect_all<PhotoRow>(*project, acknowledged);
        EXPECT_EQ(project->all<FixRow>()->size(), 10 * project->all<OccupationRow>()->size());
        ASSERT_FALSE(HasFailure()) << "kill " << kill;
        if (kill % kKillsPerFile == kKillsPerFile - 1)
            for (const auto& [table, ids] : acknowledged)
                total += ids.size();
    }
    std::printf("%d kills, %zu acknowledged rows, none lost\n", kKills, total);
    EXPECT_GT(total, static_cast<std::size_t>(kKills) * 3); // the bookings went on beyond preparing
}

} // namespace
} // namespace rillmark
