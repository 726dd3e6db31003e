// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"
#include "export/csv_tables.h"
#include "export/dxf.h"
#include "export/geojson.h"
#include "export/gpx.h"
#include "export/kml.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <iostream>
#include <sstream>

namespace rillmark::desk {

namespace {

namespace fs = std::filesystem;

struct OutFile {
    fs::path path;
    std::string text;
};
using OutFiles = std::vector<OutFile>;

struct Source {
    const Project& project;
    ExportSite site;
};

Expected<Source> gather(const Project& project) {
    const Expected<Survey> survey = load_survey(project);
    if (!survey)
        return survey.error();
    const Expected<std::vector<Booked<FixRow>>> fixes = project.all<FixRow>();
    if (!fixes)
        return fixes.error();
    return Source{project, export_site(*survey, site_heights(*survey), *fixes)};
}

Expected<OutFiles> csv_files(const Source& source, const ExportCall& call) {
    std::optional<PlanFrame> frame;
    if (call.utm) {
        const Expected<PlanFrame> utm = PlanFrame::utm(source.site);
        if (!utm)
            return utm.error();
        frame = *utm;
    }
    Expected<std::vector<TextTable>> tables = csv_tables(source.project, frame ? &*frame : nullptr);
    if (!tables)
        return tables.error();
    OutFiles files;
    for (TextTable& table : *tables)
        files.push_back({call.to / table.name, std::move(table.text)});
    std::ostringstream profile;
    write_profile_csv(profile, source.site);
    files.push_back({call.to / "profile.csv", profile.str()});
    return files;
}

Expected<OutFiles> dxf_files(const Source& source, const ExportCall& call) {
    const Expected<PlanFrame> frame = call.utm ? PlanFrame::utm(source.site) : PlanFrame::local(source.site);
    if (!frame)
        return frame.error();
    std::ostringstream plan;
    if (const Expected<void> written = write_dxf_plan(plan, source.site, *frame); !written)
        return written.error();
    OutFiles files{{call.to, plan.str()}};
    std::ostringstream profile;
    if (write_dxf_profile(profile, source.site)) {
        fs::path beside = call.to;
        beside.replace_filename(call.to.stem().string() + "-profile" + call.to.extension().string());
        files.push_back({beside, profile.str()});
    }
    return files;
}

Expected<OutFiles> files_of(const Source& source, const ExportCall& call) {
    if (call.format == "csv")
        return csv_files(source, call);
    if (call.format == "dxf")
        return dxf_files(source, call);
    std::ostringstream text;
    if (call.format == "profile") {
        if (source.site.profile.empty())
            return refusal("exchange.no_profile");
        write_profile_csv(text, source.site);
        return OutFiles{{call.to, text.str()}};
    }
    if (!source.site.has_positions())
        return refusal("exchange.no_positions");
    if (call.format == "geojson")
        write_geojson(text, source.site);
    else if (call.format == "gpx")
        write_gpx(text, source.site);
    else
        write_kml(text, source.site);
    return OutFiles{{call.to, text.str()}};
}

/// Nothing is written before all of it may be.
Expected<void> check_places(const OutFiles& files, const ExportCall& call) {
    for (const OutFile& file : files) {
        std::error_code ignored;
        if (fs::equivalent(file.path, call.site, ignored))
            return refusal("exchange.onto_site", file.path.string());
        if (!call.force && fs::exists(fs::symlink_status(file.path, ignored)))
            return refusal("exchange.file_exists", file.path.string());
    }
    return {};
}

Finding cannot_write(const fs::path& path, const std::string& detail) {
    return refusal("exchange.cannot_write", path.string(), {{"detail", detail}});
}

/// Comes into its place whole or not at all.
Expected<void> write_file(const OutFile& file) {
    const fs::path passing = file.path.string() + ".part";
    std::ofstream stream(passing, std::ios::binary | std::ios::trunc);
    stream << file.text;
    stream.close();
    if (!stream) {
        const std::string detail = std::strerror(errno);
        std::error_code ignored;
        fs::remove(passing, ignored);
        return cannot_write(file.path, detail);
    }
    std::error_code problem;
    fs::rename(passing, file.path, problem);
    if (!problem)
        return {};
    std::error_code ignored;
    fs::remove(passing, ignored);
    return cannot_write(file.path, problem.message());
}

Expected<OutFiles> export_files(const ExportCall& call) {
    const Expected<Project> project = Project::open(call.site, OpenMode::ReadOnly);
    if (!project)
        return project.error();
    const Expected<Source> source = gather(*project);
    if (!source)
        return source.error();
    Expected<OutFiles> files = files_of(*source, call);
    if (!files)
        return files;
    if (const Expected<void> free = check_places(*files, call); !free)
        return free.error();
    std::error_code problem;
    if (call.format == "csv" && !fs::is_directory(call.to) && !fs::create_directories(call.to, problem))
        return cannot_write(call.to, problem.message());
    for (const OutFile& file : *files)
        if (const Expected<void> written = write_file(file); !written)
            return written.error();
    return files;
}

} // namespace

int export_site(const ExportCall& call, const Manner& manner) {
    const bool takes_utm = call.format == "csv" || call.format == "dxf";
    if (call.utm && !takes_utm)
        return refuse(refusal("exchange.utm_not_in_format", call.format, {{"parameter", std::string("--utm")}}), manner);
    const Expected<OutFiles> files = export_files(call);
    if (!files)
        return refuse(files.error(), manner);
    nlohmann::json names = nlohmann::json::array();
    for (const OutFile& file : *files)
        names.push_back(file.path.string());
    if (manner.json)
        print_json({{"files", std::move(names)}, {"findings", nlohmann::json::array()}});
    else
        for (const OutFile& file : *files)
            std::cout << file.path.string() << '\n';
    return kDone;
}

} // namespace rillmark::desk
