// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk_fixture.h"

#include <regex>

namespace {

TEST_F(Desk, HelpAndVersion) {
    for (const char* call : {"--help", "demo --help", "show --help", "check --help", "report --help", "reduce --help", "--version"}) {
        const Ran help = run(call);
        EXPECT_EQ(help.status, 0) << call;
        EXPECT_FALSE(help.out.empty()) << call;
        EXPECT_EQ(help.err, "") << call;
    }
}

TEST_F(Desk, WrongCallsEndWithTwo) {
    write("f.csv", "volume,time\n1,2\n");
    for (const char* call : {"", "fly", "show", "demo", "check a b", "reduce", "reduce levels", "reduce guess f.csv",
                             "reduce guess --columns", "reduce --columns", "--colour show f", "reduce container f.csv --set x",
                             "reduce container f.csv --set colour=1", "reduce container f.csv --set reaction=soon",
                             "reduce levels f.csv --set allowance"}) {
        const Ran wrong = run(call);
        EXPECT_EQ(wrong.status, 2) << call;
        EXPECT_FALSE(wrong.err.empty()) << call;
        EXPECT_EQ(wrong.out, "") << call;
    }
}

TEST_F(Desk, DemoShowAndCheck) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    const std::string before = read(m_folder / "d.gpkg");
    const Ran text = run("show d.gpkg");
    EXPECT_EQ(text.status, 0);
    EXPECT_EQ(text.err, "");
    for (const char* part : {"Quillet Creek", "Powerhouse", "Low-water test", "watts at the house", "31.12", "±", " m "})
        EXPECT_NE(text.out.find(part), std::string::npos) << part;
    EXPECT_NE(run("show --us d.gpkg").out.find("102."), std::string::npos); // feet
    EXPECT_EQ(run("check d.gpkg").status, 0);

    const nlohmann::json site = run("show d.gpkg --json").json();
    EXPECT_NEAR(site.at("head").at("value").get<double>(), 31.12, 0.03);
    EXPECT_EQ(site.at("head").at("unit"), "m");
    EXPECT_GT(site.at("head").at("standard_uncertainty").get<double>(), 0.0);
    EXPECT_EQ(site.at("flow_to_use").at("unit"), "m3/s");
    EXPECT_EQ(site.at("chain").at("house_power").at("unit"), "W");
    EXPECT_GE(site.at("flow_tests").size(), 2u);
    EXPECT_GE(site.at("stations").size(), 25u);
    EXPECT_TRUE(run("check d.gpkg --json").json().at("findings").empty());

    EXPECT_EQ(read(m_folder / "d.gpkg"), before) << "reading changed the file";
    EXPECT_FALSE(fs::exists(m_folder / "d.gpkg-wal"));
    EXPECT_EQ(run("demo d.gpkg").status, 1) << "never written over";
    EXPECT_EQ(read(m_folder / "d.gpkg"), before);
}

TEST_F(Desk, CheckFindsAValueBeyondItsLimits) {
    if (std::system("command -v sqlite3 >/dev/null") != 0)
        GTEST_SKIP() << "needs Debian's sqlite3";
    ASSERT_EQ(run("demo demo.gpkg").status, 0);
    // another program that does not mind our limits
    const std::string spoil = "cd '" + m_folder.string() +
                              "' && sqlite3 demo.gpkg 'PRAGMA ignore_check_constraints=1; UPDATE site SET "
                              "water_temperature_C = 900'";
    ASSERT_EQ(std::system(spoil.c_str()), 0);
    const std::string before = read(m_folder / "demo.gpkg");
    const Ran check = run("check demo.gpkg");
    EXPECT_EQ(check.status, 1);
    EXPECT_NE(check.err.find("site"), std::string::npos) << check.err;
    EXPECT_EQ(read(m_folder / "demo.gpkg"), before);
}

TEST_F(Desk, FilesThatAreNoProjects) {
    write("text.gpkg", "this is no database");
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    write("cut.gpkg", read(m_folder / "d.gpkg").substr(0, 100000));
    for (const char* file : {"text.gpkg", "cut.gpkg", "absent.gpkg", "."})
        for (const char* command : {"show ", "check "}) {
            const Ran refused = run(std::string(command) + file);
            EXPECT_EQ(refused.status, 1) << command << file;
            EXPECT_FALSE(refused.err.empty()) << command << file;
            EXPECT_EQ(refused.out, "") << command << file;
        }
    EXPECT_EQ(run("demo nowhere/d.gpkg").status, 1);
}

#ifdef RILLMARK_REPORT
TEST_F(Desk, ReportIsMadeOnceAndNotOverAFile) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    const std::string before = read(m_folder / "d.gpkg");
    const Ran made = run("report d.gpkg r.pdf");
    EXPECT_EQ(made.status, 0);
    EXPECT_EQ(made.out, "r.pdf\n");
    EXPECT_EQ(made.err, "");
    const std::string first = read(m_folder / "r.pdf");
    EXPECT_EQ(first.substr(0, 5), "%PDF-");
    const Ran again = run("report d.gpkg r.pdf --letter");
    EXPECT_EQ(again.status, 1);
    EXPECT_NE(again.err.find("r.pdf"), std::string::npos);
    EXPECT_EQ(read(m_folder / "r.pdf"), first);
    const Ran forced = run("--json --us report d.gpkg r.pdf --letter --chosen-only --force");
    EXPECT_EQ(forced.status, 0);
    EXPECT_GT(forced.json().at("pages"), 5);
    EXPECT_NE(read(m_folder / "r.pdf"), first);
    EXPECT_EQ(read(m_folder / "d.gpkg"), before);
    EXPECT_FALSE(fs::exists(m_folder / "d.gpkg-wal"));
}

TEST_F(Desk, ReportSaysWhyThereIsNone) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    write("no.gpkg", "this is no project");
    for (const char* call : {"report missing.gpkg r.pdf", "report no.gpkg r.pdf", "report d.gpkg d.gpkg", "report d.gpkg d.gpkg --force",
                             "report d.gpkg nowhere/r.pdf"}) {
        const Ran refused = run(call);
        EXPECT_EQ(refused.status, 1) << call;
        EXPECT_FALSE(refused.err.empty()) << call;
        EXPECT_FALSE(fs::exists(m_folder / "r.pdf")) << call;
    }
    EXPECT_EQ(run("report d.gpkg").status, 2);
}
#else
TEST_F(Desk, ABuildWithoutQtSaysThatItHasNoReport) {
    const Ran refused = run("report d.gpkg r.pdf");
    EXPECT_EQ(refused.status, 1);
    EXPECT_NE(refused.err.find("no report"), std::string::npos);
}
#endif

TEST_F(Desk, ListsAndColumns) {
    const nlohmann::json methods = run("reduce --list --json").json().at("methods");
    ASSERT_EQ(methods.size(), 28u);
    for (const nlohmann::json& method : methods) {
        const std::string id = method.at("id");
        const nlohmann::json taken = run("reduce " + id + " --columns --json").json();
        EXPECT_FALSE(taken.at("columns").empty());
        for (const nlohmann::json& column : taken.at("columns"))
            EXPECT_EQ(column.at("what").get<std::string>().find("exchange."), std::string::npos) << "not worded";
        EXPECT_EQ(run("reduce " + id + " --columns").status, 0);
    }
    EXPECT_NE(run("reduce --list").out.find("velocity-area"), std::string::npos);
}

TEST_F(Desk, ReduceFromFileAndFromStandardInput) {
    write("fills.csv", "\xEF\xBB\xBFvolume_L;time\r\n20;10,2\r\n20;9,8\r\n20;10,1\r\n20;10,4\r\n20;9,9\r\n");
    const Ran text = run("reduce container fills.csv");
    EXPECT_EQ(text.status, 0);
    EXPECT_NE(text.out.find("fills      5\n"), std::string::npos) << text.out;
    EXPECT_NE(text.out.find("1.98 ± 0.07 L/s"), std::string::npos) << text.out;
    const nlohmann::json json = run("reduce container - --json <fills.csv").json();
    const nlohmann::json& flow = json.at("results").at(0);
    EXPECT_EQ(flow.at("name"), "discharge");
    EXPECT_EQ(flow.at("unit"), "m3/s");
    EXPECT_NEAR(flow.at("value").get<double>(), 0.00198413, 1e-8);
    // the worked example leaves Student's factor out, which is 1.028 for five fills and counts for their scatter alone
    EXPECT_GT(flow.at("standard_uncertainty").get<double>(), 0.00198413 * 0.0185317);
    EXPECT_LT(flow.at("standard_uncertainty").get<double>(), 0.00198413 * 0.0185317 * 1.028);
    EXPECT_EQ(json.at("tables").at("fills").size(), 5u);
}

TEST_F(Desk, EveryMethodPrintsResultsWithoutCodes) {
    write("levels.csv", "point,backsight,foresight\nA,1.2,\nB,0.4,3.1\nA,,1.1\n");
    write("velocity-area.csv", "distance,depth,revolutions,time,edge\n0,0,,,water-edge\n1,0.5,40,60,\n2,0.4,,,vertical-bank\n");
    write("container.csv", "volume_L,time\n20,2\n");
    write("penstock.csv", "case,flow_L_s,gross_head,length,bore_mm,roughness_mm,minor_k\nsmall,20,30,400,160,0.01,2\n"
                          "large,20,30,400,200,0.01,2\n");
    for (const std::string method : {"levels", "velocity-area", "container", "penstock"}) {
        const std::string set = method == "velocity-area" ? " --set rating_a=0.13 --set rating_b=0.016" : "";
        const Ran text = run("reduce " + method + " " + method + ".csv" + set);
        EXPECT_EQ(text.status, 0) << text.err;
        static const std::regex code("(exchange|flow|levels|power|units)\\.[a-z]|\\{");
        EXPECT_FALSE(std::regex_search(text.out, code)) << text.out;
        const nlohmann::json json = run("reduce " + method + " " + method + ".csv --json" + set).json();
        for (const nlohmann::json& result : json.at("results"))
            EXPECT_TRUE(result.at("value").is_number() && result.at("standard_uncertainty").is_number() &&
                        result.at("unit").is_string())
                << result;
    }
}

TEST_F(Desk, BadFilesNameLineAndColumn) {
    expect_refused("container", "volume,time\n0.02,ten\n", "2: column time");
    expect_refused("container", "volume,time\n0.02,10\n0.02\n", "3: column time");
    expect_refused("container", "volume,time\n0.02,10\n,\n", "3");
    expect_refused("container", "volume\n0.02\n", "1: column time");
    expect_refused("container", "volume,colour,time\n0.02,1,10\n", "1: column colour");
    expect_refused("container", "volume_furlong,time\n0.02,10\n", "1: column volume_furlong");
    expect_refused("container", "volume,time\n0.02,10 furlong\n", "2: column time");
    expect_refused("container", "volume,time\n0.02,-10\n", "2: column time");
    expect_refused("container", "volume,time\n0.02,1\xE9\n", "2");
    expect_refused("container", std::string("\xFF\xFEv\0", 4), "1");
    expect_refused("container", "", "1");
    expect_refused("levels", "point,backsight,foresight\r\nA,1.2,\r\nB,,11.1\r\n", "3: column foresight");
    expect_refused("velocity-area", "distance,depth,velocity\n0,0,\n1,-0.2,0.4\n2,0,\n", "3: column depth");
    expect_refused("penstock", "flow,gross_head,length,bore,roughness\n0.02,30,400,0,0.00001\n", "2: column bore");
    const Ran absent = run("reduce levels absent.csv");
    EXPECT_EQ(absent.status, 1);
    EXPECT_NE(absent.err.find("absent.csv"), std::string::npos);
    EXPECT_EQ(run("reduce levels .").status, 1);
}

} // namespace
