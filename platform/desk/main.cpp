// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"

#include <CLI/CLI.hpp>

int main(int argc, char** argv) {
    using namespace rillmark::desk;
    Manner manner;
    bool us = false;
    std::string file;
    std::string method;
    std::vector<std::string> parameters;
    std::vector<std::string> others;
    bool other_site = false;
    bool list = false;
    bool columns = false;
    rillmark::ExportOrder export_order;
    ReportCall report_call;
    report_call.version = RILLMARK_VERSION;

    CLI::App app{"Works on Rillmark project files and on text tables of readings.\n"
                 "Exit status: 0 done, 1 something is wrong with the data, 2 wrong call.",
                 "rillmark-desk"};
    app.set_version_flag("--version", RILLMARK_VERSION);
    app.add_flag("--json", manner.json, "print JSON in SI units");
    app.add_flag("--us", us, "print US customary units");
    app.require_subcommand(1);

    CLI::App* demo_command = app.add_subcommand("demo", "make a project file of the invented demo creek");
    demo_command->add_option("FILE", file, "file to make; never written over")->required();
    CLI::App* show_command = app.add_subcommand("show", "print the site: stations, head, flow and power, each with its +/-");
    show_command->add_option("FILE", file, "project file; only read")->required();
    CLI::App* check_command = app.add_subcommand("check", "look for faults in a project file");
    check_command->add_option("FILE", file, "project file; only read")->required();
    CLI::App* merge_command = app.add_subcommand("merge", "bring what other files of the same site hold into a project file");
    merge_command->add_option("MINE", file, "project file that the others are merged into")->required();
    merge_command->add_option("OTHER", others, "project files; only read")->required();
    merge_command->add_flag("--other-site", other_site, "merge files of another site; MINE keeps its site page");
    CLI::App* reduce_command = app.add_subcommand("reduce", "compute one method from a CSV file");
    reduce_command->add_option("METHOD", method, "see --list");
    reduce_command->add_option("FILE", file, "CSV with a header; - reads standard input");
    reduce_command->add_option("--set", parameters, "a parameter as NAME=VALUE; may be repeated")
        ->take_all()
        ->expected(1);
    reduce_command->add_flag("--list", list, "print the methods");
    reduce_command->add_flag("--columns", columns, "print what METHOD takes");
    CLI::App* export_command = app.add_subcommand(
        "export", "write a site for other programs: csv (every table, a folder), geojson, gpx and kml (WGS 84), dxf (plan, "
                  "and the profile beside it), profile (CSV)");
    export_command->add_option("FORMAT", export_order.format, "csv, geojson, gpx, kml, dxf or profile")
        ->required()
        ->check(CLI::IsMember({"csv", "geojson", "gpx", "kml", "dxf", "profile"}));
    export_command->add_option("SITE", export_order.site, "project file; only read")->required();
    export_command->add_option("--to", export_order.to, "file to make; for csv a folder")->required();
    export_command->add_flag("--utm", export_order.utm, "csv, dxf: metres of the site's UTM zone (dxf without it: local metres)");
    export_command->add_flag("--force", export_order.force, "write over files that are there");
    CLI::App* report_command = app.add_subcommand("report", "write the report of a site as a PDF: for the owner, then for the designer");
    report_command->add_option("SITE", report_call.site, "project file; only read")->required();
    report_command->add_option("OUT", report_call.to, "PDF to make")->required();
    report_command->add_flag("--letter", report_call.letter, "US Letter pages; else A4");
    report_command->add_flag("--chosen-only", report_call.chosen_only, "the chosen alternative; else all of them");
    report_command->add_flag("--force", report_call.force, "write over a file that is there");
    for (CLI::App* command : app.get_subcommands({}))
        command->fallthrough(); // --json and --us may follow the command

    try {
        app.parse(argc, argv);
        const bool complete = list || (!method.empty() && (columns || !file.empty()));
        if (reduce_command->parsed() && !complete)
            throw CLI::RequiredError("METHOD and FILE, or --list, or METHOD --columns");
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? kDone : kWrongCall;
    }
    if (us)
        manner.units.system = rillmark::UnitSystem::UsCustomary;

    if (demo_command->parsed())
        return demo(file, manner);
    if (show_command->parsed())
        return show(file, manner);
    if (check_command->parsed())
        return check(file, manner);
    if (merge_command->parsed())
        return merge(file, others, other_site, manner);
    if (export_command->parsed())
        return export_site(export_order, manner);
    if (report_command->parsed())
        return report_site(report_call, manner);
    if (list)
        return list_methods(manner);
    if (columns)
        return list_columns(method, manner);
    return reduce(method, file, parameters, manner);
}
