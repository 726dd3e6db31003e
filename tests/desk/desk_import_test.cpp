// SPDX-License-Identifier: GPL-3.0-or-later
// Taking files in, the manual, the completion, and the JSON of every command against docs/desk.schema.json.
#include "desk_fixture.h"
#include "json_schema.h"

namespace {

const std::string kGpx =
    "<gpx version=\"1.1\"><wpt lat=\"46.5\" lon=\"7.5\"><name>Weir</name><type>intake</type></wpt>"
    "<trk><trkseg><trkpt lat=\"46.5\" lon=\"7.5\"/><trkpt lat=\"46.6\" lon=\"7.6\"/></trkseg></trk></gpx>";

TEST_F(Desk, ImportsOnceAsOneStep) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    write("w.gpx", kGpx);
    const std::string before = read(m_folder / "d.gpkg");
    const Ran list = run("import d.gpkg w.gpx --list");
    EXPECT_EQ(list.status, 0) << list.err;
    EXPECT_NE(list.out.find("Weir"), std::string::npos);
    EXPECT_NE(list.out.find("nothing was written"), std::string::npos);
    EXPECT_EQ(read(m_folder / "d.gpkg"), before) << "a preview changed the file";

    const std::size_t stations = run("--json show d.gpkg").json().at("stations").size();
    const Ran done = run("--json import d.gpkg w.gpx");
    ASSERT_EQ(done.status, 0) << done.err;
    EXPECT_EQ(done.json().at("imported").at("stations"), 1);
    EXPECT_EQ(done.json().at("imported").at("fixes"), 2);
    EXPECT_EQ(run("--json show d.gpkg").json().at("stations").size(), stations + 1);
    EXPECT_EQ(run("check d.gpkg").status, 0);
    EXPECT_EQ(run("import d.gpkg w.gpx").status, 1) << "the same file again";
    EXPECT_EQ(run("import d.gpkg w.gpx --again").status, 0);
}

TEST_F(Desk, ImportRefusesWithLineAndColumn) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    write("bad.gpx", "<gpx>\n<wpt lat=\"north\" lon=\"7\"/></gpx>");
    const Ran refused = run("import d.gpkg bad.gpx");
    EXPECT_EQ(refused.status, 1);
    EXPECT_NE(refused.err.find("bad.gpx:2: column 1: "), std::string::npos) << refused.err;
    for (const char* call :
         {"import", "import d.gpkg", "import d.gpkg w.gpx --lines castle", "import d.gpkg w.gpx --points castle"})
        EXPECT_EQ(run(call).status, 2) << call;
    EXPECT_EQ(run("import d.gpkg absent.gpx").status, 1);
    write("w.gpx", kGpx);
    EXPECT_EQ(run("import d.gpkg w.gpx bad.gpx").status, 2) << "several files are photos";
}

TEST_F(Desk, ImportsATableAndALayer) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    write("t.csv", "point;north;east;what\nP1;46,5;7,5;benchmark\n");
    const Ran table = run("--json import d.gpkg t.csv --latitude north --longitude east --name point --kind what");
    ASSERT_EQ(table.status, 0) << table.err;
    EXPECT_EQ(table.json().at("preview").at(0).at("becomes"), "benchmark");
    ASSERT_EQ(run("demo other.gpkg").status, 0);
    EXPECT_EQ(run("import d.gpkg other.gpkg").status, 1) << "several layers";
    const Ran layer = run("--json import d.gpkg other.gpkg --layer station --list");
    ASSERT_EQ(layer.status, 0) << layer.err;
    EXPECT_GE(layer.json().at("stations").get<int>(), 25);
}

#ifdef RILLMARK_REPORT
TEST_F(Desk, ImportsPhotos) {
    ASSERT_EQ(run("demo d.gpkg").status, 0);
    const std::string photo = std::string(RILLMARK_SOURCE_DIR) + "/assets/demo/intake.jpg";
    const Ran done = run("--json import d.gpkg '" + photo + "'");
    ASSERT_EQ(done.status, 0) << done.err;
    EXPECT_EQ(done.json().at("imported").at("photos"), 1);
}
#endif

TEST_F(Desk, TheManualAndTheCompletionNameEveryCommand) {
    const Ran manual = run("--manual");
    const Ran completion = run("--completion");
    EXPECT_EQ(manual.status, 0);
    EXPECT_EQ(completion.status, 0);
    for (const std::string command : {"demo", "show", "check", "merge", "import", "export", "report", "reduce"}) {
        EXPECT_NE(manual.out.find(".SS \"" + command), std::string::npos) << command;
        EXPECT_NE(completion.out.find("        " + command + ")"), std::string::npos) << command;
        const Ran help = run(command + " --help");
        EXPECT_EQ(help.status, 0) << command;
    }
    EXPECT_NE(manual.out.find(".SH EXIT STATUS"), std::string::npos);
    write("c.bash", completion.out);
    const std::string ask = "cd '" + m_folder.string() +
                            "' && bash -c 'source ./c.bash; COMP_WORDS=(rillmark-desk export geo) "
                            "COMP_CWORD=2; _rillmark_desk; echo ${COMPREPLY[*]}' >out 2>err";
    ASSERT_EQ(std::system(ask.c_str()), 0) << read(m_folder / "err");
    EXPECT_EQ(read(m_folder / "out"), "geojson\n");
    if (std::system("command -v man >/dev/null && command -v groff >/dev/null") != 0)
        return;
    write("m.1", manual.out);
    const std::string lint = "cd '" + m_folder.string() + "' && groff -man -Tutf8 -ww m.1 >out 2>err";
    EXPECT_EQ(std::system(lint.c_str()), 0);
    EXPECT_EQ(read(m_folder / "err"), "");
}

TEST_F(Desk, JsonFitsItsSchema) {
    const JsonSchema schema(nlohmann::json::parse(read(std::string(RILLMARK_SOURCE_DIR) + "/docs/desk.schema.json")));
    write("w.gpx", kGpx);
    write("f.csv", "volume_L,time\n10,5.2\n10,5.4\n");
    struct Call {
        const char* definition;
        std::string arguments;
        int status = 0;
    };
    std::vector<Call> calls = {{"demo", "demo d.gpkg"},
                               {"demo", "demo e.gpkg"},
                               {"refused", "demo d.gpkg", 1},
                               {"show", "show d.gpkg"},
                               {"refused", "show absent.gpkg", 1},
                               {"check", "check d.gpkg"},
                               {"merge", "merge d.gpkg e.gpkg --other-site"},
                               {"import", "import d.gpkg w.gpx --list"},
                               {"import", "import d.gpkg w.gpx"},
                               {"refused", "import d.gpkg w.gpx", 1},
                               {"import_layers", "import d.gpkg e.gpkg --list"},
                               {"export", "export geojson d.gpkg --to d.geojson"},
                               {"reduce", "reduce container f.csv"},
                               {"reduce_list", "reduce --list"},
                               {"reduce_columns", "reduce container --columns"}};
#ifdef RILLMARK_REPORT
    calls.push_back({"report", "report d.gpkg r.pdf"});
#endif
    for (const Call& call : calls) {
        const Ran ran = run("--json " + call.arguments);
        EXPECT_EQ(ran.status, call.status) << call.arguments << "\n" << ran.err;
        for (const std::string& fault : schema.faults(call.definition, ran.json()))
            ADD_FAILURE() << call.arguments << ": " << fault;
    }
    // the validator itself finds what is wrong
    EXPECT_FALSE(schema.faults("demo", {{"file", 1}, {"findings", nlohmann::json::array()}}).empty());
    EXPECT_FALSE(schema.faults("demo", {{"file", "f"}}).empty());
    EXPECT_FALSE(schema.faults("demo", {{"file", "f"}, {"findings", nlohmann::json::array()}, {"more", 1}}).empty());
}

} // namespace
