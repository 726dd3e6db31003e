// SPDX-License-Identifier: GPL-3.0-or-later
// The report as other programs read it: poppler's tools for text, pages, fonts, pictures and bookmarks.
#include "report/report.h"

#include "report_fixture.h"

#include <gtest/gtest.h>

#include <QCryptographicHash>
#include <QThread>

#include <csignal>
#include <regex>
#include <sys/resource.h>

namespace rillmark::report {

namespace {

using ReportTest = ReportFixture;

int pages_of(const std::string& info) {
    std::smatch hit;
    return std::regex_search(info, hit, std::regex("Pages: +([0-9]+)")) ? std::stoi(hit[1]) : 0;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_F(ReportTest, HoldsTheFiguresOfTheSite) {
    make_demo();
    const Expected<Made> made = write(options());
    ASSERT_TRUE(made.ok()) << made.error().code;
    const std::string text = tool("pdftotext -layout");
    // as the desk command shows them
    for (const char* figure : {"3700 ± 400 W", "31.122 ± 0.010 m", "22.4 ± 0.6 L/s", "79 ± 9 L/s", "6850 ± 200 W",
                               "27.8 ± 0.3 m", "32.353 ± 0.010 m", "5.4 ± 0.7 V"})
        EXPECT_TRUE(has(text, figure)) << figure;
    for (const char* words : {"Ines Tarvold", "Winter water", "All year on low water", "JCGM 100:2008", "Colebrook",
                              "Rillmark 9.8.7", "Intake, looking upstream", "What is still missing",
                              "Cattle cross here", "1 : 4000 on paper", "never alone, never in", "Whole metre misread"})
        EXPECT_TRUE(has(text, words)) << words;
    for (const Booked<StationRow>& station : load_survey(*project()).value().stations)
        EXPECT_TRUE(has(text, station.row.name)) << station.row.name;
}

TEST_F(ReportTest, StruckReadingsStayLegible) {
    make_demo();
    ASSERT_TRUE(write(options()).ok());
    const std::string text = tool("pdftotext -layout");
    std::size_t struck = 0;
    for (const Booked<SightRow>& sight : load_survey(*project()).value().sights)
        if (sight.struck) {
            ++struck;
            EXPECT_TRUE(has(text, format_value(sight.row.reading_m, Quantity::Length, {}).substr(0, 5)));
            EXPECT_TRUE(has(text, sight.struck_reason.substr(0, 12)));
        }
    EXPECT_GT(struck, 0u);
}

TEST_F(ReportTest, EveryPageHasItsNumberSiteAndDate) {
    make_demo();
    const Expected<Made> made = write(options());
    ASSERT_TRUE(made.ok());
    const int pages = pages_of(tool("pdfinfo"));
    EXPECT_EQ(pages, made->pages);
    ASSERT_GT(pages, 8);
    for (int page = 1; page <= pages; ++page) {
        const std::string text = tool("pdftotext -layout -f " + std::to_string(page) + " -l " + std::to_string(page));
        EXPECT_TRUE(has(text, std::to_string(page) + " of " + std::to_string(pages))) << page;
        EXPECT_TRUE(has(text, "Quillet Creek")) << page;
        EXPECT_TRUE(has(text, "2 Oct 2026")) << page;
    }
}

TEST_F(ReportTest, PaperAndUnitsAreThoseAsked) {
    make_demo();
    Options us = options();
    us.paper = Paper::Letter;
    us.display.system = UnitSystem::UsCustomary;
    ASSERT_TRUE(write(us).ok());
    EXPECT_TRUE(has(tool("pdfinfo"), "612 x 792 pts (letter)"));
    const std::string text = tool("pdftotext -layout");
    EXPECT_TRUE(has(text, "102.11 ± 0.03 ft"));
    EXPECT_TRUE(has(text, "10 ft²/s"));
    EXPECT_FALSE(has(text, "31.122"));
    ASSERT_TRUE(write(options()).ok());
    EXPECT_TRUE(has(tool("pdfinfo"), "(A4)"));
}

TEST_F(ReportTest, OnlyTheChosenAlternativeWhereAsked) {
    make_demo();
    Options chosen = options();
    chosen.all_alternatives = false;
    ASSERT_TRUE(write(chosen).ok());
    const std::string text = tool("pdftotext -layout");
    EXPECT_TRUE(has(text, "All year on low water"));
    EXPECT_FALSE(has(text, "Winter water"));
}

TEST_F(ReportTest, FontsAreEmbeddedAndPlotsAreVectors) {
    make_demo();
    ASSERT_TRUE(write(options()).ok());
    std::istringstream fonts(tool("pdffonts"));
    std::string line;
    std::getline(fonts, line);
    std::getline(fonts, line); // head and rule
    int count = 0;
    for (; std::getline(fonts, line); ++count)
        // embedded, (subset,) to unicode
        EXPECT_TRUE(std::regex_search(line, std::regex("yes +(yes|no) +yes"))) << line;
    EXPECT_GT(count, 1);
    // the pictures of the site and nothing else
    std::istringstream images(tool("pdfimages -list"));
    int pictures = 0;
    while (std::getline(images, line))
        pictures += has(line, " image ") ? 1 : 0;
    EXPECT_EQ(static_cast<std::size_t>(pictures), load_survey(*project()).value().photos.size());
}

TEST_F(ReportTest, BookmarksLeadToTheirPages) {
    make_demo();
    ASSERT_TRUE(write(options()).ok());
    const std::string xml = tool_to("pdftohtml -xml -i -stdout", "");
    for (const char* title : {"Plan and stations", "Profile", "From water to wire", "Flow tests", "Height network",
                              "Level books", "Photos", "Spring gauging", "Intake to powerhouse and back"}) {
        std::smatch hit;
        ASSERT_TRUE(std::regex_search(xml, hit, std::regex("<item page=\"([0-9]+)\">" + std::string(title)))) << title;
        const std::string page = hit[1];
        EXPECT_TRUE(has(tool("pdftotext -f " + page + " -l " + page), title)) << title << " on " << page;
    }
}

TEST_F(ReportTest, NamesTheFileThatItWasMadeFromAndOnlyReadsIt) {
    make_demo();
    const QByteArray before = bytes_of(site());
    ASSERT_TRUE(write(options()).ok());
    EXPECT_TRUE(bytes_of(site()) == before);
    const QByteArray sum = QCryptographicHash::hash(before, QCryptographicHash::Sha256).toHex();
    EXPECT_TRUE(has(tool("pdftotext"), sum.toStdString()));
}

TEST_F(ReportTest, CancelLeavesNoFile) {
    make_demo();
    const Expected<Made> made = write(options(), [](int done, int) { return done < 3; });
    ASSERT_TRUE(made.ok());
    EXPECT_TRUE(made->cancelled);
    EXPECT_EQ(files(), std::vector<std::string>{"site.gpkg"});
    // and an earlier report stays as it was
    ASSERT_TRUE(write(options()).ok());
    const QByteArray earlier = bytes_of(pdf());
    ASSERT_TRUE(write(options(), [](int, int) { return false; })->cancelled);
    EXPECT_TRUE(bytes_of(pdf()) == earlier);
}

TEST_F(ReportTest, ADiskThatFillsUpLeavesNoFile) {
    make_demo();
    // files of this process cannot grow beyond that
    rlimit before{};
    ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
    const auto quiet = std::signal(SIGXFSZ, SIG_IGN);
    for (const rlim_t bytes : {1000u, 50'000u, 200'000u}) {
        const rlimit small{bytes, before.rlim_max};
        ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
        const Expected<Made> made = write(options());
        ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &before), 0);
        ASSERT_FALSE(made.ok()) << bytes;
        EXPECT_EQ(made.error().code, "exchange.cannot_write");
        EXPECT_EQ(files(), std::vector<std::string>{"site.gpkg"});
    }
    std::signal(SIGXFSZ, quiet);
}

TEST_F(ReportTest, TellsItsProgress) {
    make_demo();
    std::vector<int> done;
    int whole = 0;
    const Expected<Made> made = write(options(), [&](int at, int total) {
        done.push_back(at);
        whole = total;
        return true;
    });
    ASSERT_TRUE(made.ok());
    EXPECT_EQ(whole, made->pages);
    ASSERT_EQ(done.size(), static_cast<std::size_t>(whole));
    EXPECT_TRUE(std::ranges::is_sorted(done));
    EXPECT_EQ(done.back(), whole);
}

TEST_F(ReportTest, APlaceThatCannotBeWrittenIsToldAndTheSiteIsNeverWrittenOver) {
    make_demo();
    const QByteArray before = bytes_of(site());
    for (const std::filesystem::path& place : {folder() / "no such folder" / "r.pdf", site() / "r.pdf"}) {
        const Expected<Made> made = write_report(*project(), options(), place);
        ASSERT_FALSE(made.ok());
        EXPECT_EQ(made.error().code, "exchange.cannot_write");
        EXPECT_EQ(made.error().where, place.string());
    }
    const Expected<Made> onto = write_report(*project(), options(), site());
    ASSERT_FALSE(onto.ok());
    EXPECT_EQ(onto.error().code, "exchange.onto_site");
    EXPECT_TRUE(bytes_of(site()) == before);
    EXPECT_EQ(files(), std::vector<std::string>{"site.gpkg"});
}

TEST_F(ReportTest, AnEmptySiteGivesAShortHonestReport) {
    make_empty("Nothing Creek");
    const Expected<Made> made = write(options());
    ASSERT_TRUE(made.ok()) << made.error().code;
    EXPECT_LE(made->pages, 3);
    const std::string text = tool("pdftotext -layout");
    for (const char* words :
         {"Nothing Creek", "No figure yet", "No gross head yet", "No flow yet", "0 of 18", "SHA-256"})
        EXPECT_TRUE(has(text, words)) << words;
    EXPECT_FALSE(has(text, "Level books"));
}

TEST_F(ReportTest, ASaltTestComesWithItsWave) {
    make_empty("Salt Creek");
    ASSERT_TRUE(book_salt_test());
    ASSERT_TRUE(write(options()).ok());
    const std::string text = tool("pdftotext -layout");
    for (const char* words : {"Salt Creek", "Salt slug", "conductivity, µS/cm", "background",
                              "The wave has 101 readings", "finger in the probe", "Salt poured in: 1", "tested on one day only"})
        EXPECT_TRUE(has(text, words)) << words;
}

TEST_F(ReportTest, NothingStandsOutsideTheMargins) {
    make_demo();
    std::string endless;
    for (int i = 0; i < 40; ++i)
        endless += "Llanfairpwll";
    ASSERT_TRUE(
        rename_site(endless + " and a name of many words that goes on and on over more than one line of the title"));
    ASSERT_TRUE(book_station(endless));
    for (const Paper paper : {Paper::A4, Paper::Letter}) {
        Options one = options();
        one.paper = paper;
        ASSERT_TRUE(write(one).ok());
        const std::string boxes = tool("pdftotext -bbox");
        const double width = paper == Paper::A4 ? 595.3 : 612.0;
        const double height = paper == Paper::A4 ? 841.9 : 792.0;
        const std::regex word("<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" xMax=\"([0-9.-]+)\" yMax=\"([0-9.-]+)\">");
        int words = 0;
        for (std::sregex_iterator hit(boxes.begin(), boxes.end(), word), end; hit != end; ++hit, ++words) {
            EXPECT_GT(std::stod((*hit)[1]), 50.0) << hit->suffix().str().substr(0, 40);
            EXPECT_LT(std::stod((*hit)[3]), width - 50.0) << hit->suffix().str().substr(0, 40);
            EXPECT_GT(std::stod((*hit)[2]), 20.0);
            EXPECT_LT(std::stod((*hit)[4]), height - 20.0);
        }
        EXPECT_GT(words, 500);
    }
}

TEST_F(ReportTest, RunsBesideTheScreen) {
    make_demo();
    Expected<Made> made = refusal("exchange.cannot_write");
    const std::unique_ptr<QThread> thread(QThread::create([&] {
        const Expected<Project> own = Project::open(site(), OpenMode::ReadOnly);
        made = write_report(*own, options(), pdf());
    }));
    thread->start();
    ASSERT_TRUE(thread->wait(60000));
    ASSERT_TRUE(made.ok());
    EXPECT_TRUE(has(tool("pdftotext -layout"), "3700 ± 400 W"));
}

} // namespace rillmark::report
