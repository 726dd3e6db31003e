// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"
#include "desk/import.h"
#include "desk/manual.h"
#include "position/station_kind.h"

#include <CLI/CLI.hpp>

#include <iostream>

namespace rillmark::desk {

namespace {

constexpr const char* kExitStatus =
    "  0  done\n"
    "  1  something is wrong with the data: nothing came of the call, or a check found faults\n"
    "  2  wrong call\n"
    "  3  the server was not reached: try again\n"
    "These numbers stay. What is wrong is said on standard error; with --json in JSON on standard output as well.";

/// What was asked for: filled by the parser, read by the commands.
struct Call {
    Manner manner;
    bool us = false;
    std::string file;
    std::string method;
    std::vector<std::string> parameters;
    std::vector<std::string> others;
    bool other_site = false;
    bool list = false;
    bool columns = false;
    ExportOrder export_order;
    ReportCall report;
    ImportCall take_in;
    SyncCall sync;
    std::string lines = "track";
    std::string areas = "boundary";
};

CLI::App* add_demo(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand("demo", "make a project file of the invented demo creek");
    command->add_option("FILE", call.file, "file to make; never written over")->required();
    return command;
}

CLI::App* add_show(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand(
        "show", "print the site: stations, head, flow and power, each with its +/-, and what the designer still needs");
    command->add_option("FILE", call.file, "project file; only read")->required();
    return command;
}

CLI::App* add_check(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand("check", "look for faults in a project file");
    command->add_option("FILE", call.file, "project file; only read")->required();
    return command;
}

CLI::App* add_merge(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand("merge", "bring what other files of the same site hold into a project file");
    command->add_option("MINE", call.file, "project file that the others are merged into")->required();
    command->add_option("OTHER", call.others, "project files; only read")->required();
    command->add_flag("--other-site", call.other_site, "merge files of another site; MINE keeps its site page");
    return command;
}

CLI::App* add_reduce(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand("reduce", "compute one method from a CSV file");
    command->add_option("METHOD", call.method, "see --list");
    command->add_option("FILE", call.file, "CSV with a header; - reads standard input");
    command->add_option("--set", call.parameters, "a parameter as NAME=VALUE; may be repeated")
        ->take_all()
        ->expected(1);
    command->add_flag("--list", call.list, "print the methods");
    command->add_flag("--columns", call.columns, "print what METHOD takes");
    command->footer("Example: rillmark-desk reduce container fills.csv --set reaction=0.2");
    return command;
}

CLI::App* add_export(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand(
        "export", "write a site for other programs: csv (every table, a folder), geojson, gpx and kml (WGS 84), dxf "
                  "(plan, and the profile beside it), profile (CSV)");
    command->add_option("FORMAT", call.export_order.format, "csv, geojson, gpx, kml, dxf or profile")
        ->required()
        ->check(CLI::IsMember({"csv", "geojson", "gpx", "kml", "dxf", "profile"}));
    command->add_option("SITE", call.export_order.site, "project file; only read")->required();
    command->add_option("--to", call.export_order.to, "file to make; for csv a folder")->required();
    command->add_flag("--utm", call.export_order.utm,
                      "csv, dxf: metres of the site's UTM zone (dxf without it: local metres)");
    command->add_flag("--force", call.export_order.force, "write over files that are there");
    return command;
}

CLI::App* add_import(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand(
        "import",
        "take stations, lines and areas of another program's file into a site: GPX, KML, GeoJSON, CSV, a layer "
        "of a GeoPackage; or photos with the position that they bear");
    std::vector<std::string> kinds;
    for (const StationKindEntry& one : station_kinds())
        kinds.emplace_back(one.id);
    command->add_option("SITE", call.take_in.site, "project file")->required();
    command->add_option("FILE", call.take_in.files, "file to take in; several only of photos")->required();
    command->add_flag("--list", call.take_in.list,
                      "print what would come in, or the layers of a GeoPackage; write nothing");
    command->add_option("--layer", call.take_in.reading.layer, "layer of a GeoPackage");
    command->add_option("--longitude", call.take_in.reading.positions.longitude, "column of a CSV");
    command->add_option("--latitude", call.take_in.reading.positions.latitude, "column of a CSV");
    command->add_flag("--wgs84", call.take_in.reading.assume_wgs84,
                      "take positions of a GeoPackage as longitude and latitude whatever it says");
    command->add_option("--name", call.take_in.choice.name_field, "field that names a station");
    command->add_option("--kind", call.take_in.choice.kind_field, "field that holds the kind of station");
    command->add_option("--height", call.take_in.choice.height_field, "field that holds the height in metres");
    command->add_option("--points", call.take_in.choice.point_kind, "kind of the points whose kind is none of ours")
        ->check(CLI::IsMember(kinds));
    command->add_option("--lines", call.lines, "what lines become")
        ->check(CLI::IsMember({"track", "pipe", "cable", "boundary", "none"}));
    command->add_option("--areas", call.areas, "what areas become")->check(CLI::IsMember({"boundary", "none"}));
    command->add_option("--u", call.take_in.choice.u_horizontal_m,
                        "standard uncertainty of a position along one axis, metres");
    command->add_option(
        "--u-height", call.take_in.choice.u_up_m,
        "standard uncertainty of a height, metres; without it heights take no part in the height network");
    command->add_flag("--again", call.take_in.again, "also a file that was taken in before");
    command->footer("All of one call comes in as one action, which the app's undo takes back.\n"
                    "Example: rillmark-desk import creek.gpkg walk.gpx --list");
    return command;
}

CLI::App* add_sync(CLI::App& app, Call& call) {
    CLI::App* command = app.add_subcommand(
        "sync",
        "keep a folder of sites current with a WebDAV server; the password comes from a prompt, a variable or a "
        "descriptor");
    command->add_option("URL", call.sync.server, "folder on the server, as https://cloud.example/dav/creeks")
        ->required();
    command->add_option("FOLDER", call.sync.folder, "folder of project files")->required();
    command->add_option("--user", call.sync.user, "user name at the server");
    command
        ->add_option("--password-env", call.sync.password_variable,
                     "variable of the environment that holds the password")
        ->capture_default_str();
    command->add_option("--password-fd", call.sync.password_descriptor,
                        "descriptor that the password is read from, one line");
    command->add_option("--trust", call.sync.trusted,
                        "SHA-256 of the server's certificate, where you made it yourself");
    command->add_flag("--allow-plain", call.sync.allow_plain,
                      "http on a network of your own: everybody in it can read the password");
    command->add_flag("--send-new", call.sync.send_new, "send sites that the server does not have yet");
    return command;
}

CLI::App* add_report(CLI::App& app, Call& call) {
    CLI::App* command =
        app.add_subcommand("report", "write the report of a site as a PDF: for the owner, then for the designer");
    command->add_option("SITE", call.report.site, "project file; only read")->required();
    command->add_option("OUT", call.report.to, "PDF to make")->required();
    command->add_flag("--letter", call.report.letter, "US Letter pages; else A4");
    command->add_flag("--chosen-only", call.report.chosen_only, "the chosen alternative; else all of them");
    command->add_flag("--force", call.report.force, "write over a file that is there");
    return command;
}

int run_import(Call& call) {
    call.take_in.choice.lines = import_lines_from_id(call.lines).value_or(ImportLines::Track);
    call.take_in.choice.areas_are_boundary = call.areas == "boundary";
    return import_file(call.take_in, call.manner);
}

int run_reduce(const Call& call) {
    if (call.list)
        return list_methods(call.manner);
    if (call.columns)
        return list_columns(call.method, call.manner);
    return reduce(call.method, call.file, call.parameters, call.manner);
}

/// The command that was named; the parser has made sure that one was.
int run(const std::string& name, Call& call) {
    if (name == "demo")
        return demo(call.file, call.manner);
    if (name == "show")
        return show(call.file, call.manner);
    if (name == "check")
        return check(call.file, call.manner);
    if (name == "merge")
        return merge(call.file, call.others, call.other_site, call.manner);
    if (name == "export")
        return export_site(call.export_order, call.manner);
    if (name == "import")
        return run_import(call);
    if (name == "sync")
        return sync_sites(call.sync, call.manner);
    if (name == "report")
        return report_site(call.report, call.manner);
    return run_reduce(call);
}

} // namespace

} // namespace rillmark::desk

int main(int argc, char** argv) {
    using namespace rillmark::desk;
    Call call;
    call.report.version = RILLMARK_VERSION;
    const std::string manual_help = "print this manual page (roff), alone";
    const std::string completion_help = "print the completion script for bash, alone";
    CLI::App app{"Works on Rillmark project files and on text tables of readings.", "rillmark-desk"};
    app.footer(std::string("Exit status\n") + kExitStatus);
    app.set_version_flag("--version", RILLMARK_VERSION, "print the version");
    app.add_flag("--json", call.manner.json, "print JSON in SI units, as docs/desk.schema.json describes it");
    app.add_flag("--us", call.us, "print US customary units");
    app.add_flag("--manual", manual_help);
    app.add_flag("--completion", completion_help);
    CLI::App* reduce_command = nullptr;
    for (const auto add :
         {add_demo, add_show, add_check, add_merge, add_import, add_export, add_report, add_sync, add_reduce}) {
        CLI::App* command = add(app, call);
        command->fallthrough(); // --json and --us may follow the command
        reduce_command = command;
    }
    const std::string_view alone = argc == 2 ? argv[1] : "";
    if (alone == "--manual" || alone == "--completion") {
        std::cout << (alone == "--manual" ? manual_page(app, RILLMARK_VERSION) : bash_completion(app));
        return kDone;
    }
    app.require_subcommand(1);
    try {
        app.parse(argc, argv);
        const bool complete = call.list || (!call.method.empty() && (call.columns || !call.file.empty()));
        if (reduce_command->parsed() && !complete)
            throw CLI::RequiredError("METHOD and FILE, or --list, or METHOD --columns");
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? kDone : kWrongCall;
    }
    if (call.us)
        call.manner.units.system = rillmark::UnitSystem::UsCustomary;
    return run(app.get_subcommands().front()->get_name(), call);
}
