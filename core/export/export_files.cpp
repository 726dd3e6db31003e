// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/export_files.h"

#include "export/csv_tables.h"
#include "export/dxf.h"
#include "export/geojson.h"
#include "export/gpx.h"
#include "export/kml.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

namespace rillmark {

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

Expected<OutFiles> csv_files(const Source& source, const ExportOrder& order) {
    std::optional<PlanFrame> frame;
    if (order.utm) {
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
        files.push_back({order.to / table.name, std::move(table.text)});
    std::ostringstream profile;
    write_profile_csv(profile, source.site);
    files.push_back({order.to / "profile.csv", profile.str()});
    return files;
}

Expected<OutFiles> dxf_files(const Source& source, const ExportOrder& order) {
    const Expected<PlanFrame> frame = order.utm ? PlanFrame::utm(source.site) : PlanFrame::local(source.site);
    if (!frame)
        return frame.error();
    std::ostringstream plan;
    if (const Expected<void> written = write_dxf_plan(plan, source.site, *frame); !written)
        return written.error();
    OutFiles files{{order.to, plan.str()}};
    std::ostringstream profile;
    if (write_dxf_profile(profile, source.site)) {
        fs::path beside = order.to;
        beside.replace_filename(order.to.stem().string() + "-profile" + order.to.extension().string());
        files.push_back({beside, profile.str()});
    }
    return files;
}

Expected<OutFiles> files_of(const Source& source, const ExportOrder& order) {
    if (order.format == "csv")
        return csv_files(source, order);
    if (order.format == "dxf")
        return dxf_files(source, order);
    std::ostringstream text;
    if (order.format == "profile") {
        if (source.site.profile.empty())
            return refusal("exchange.no_profile");
        write_profile_csv(text, source.site);
        return OutFiles{{order.to, text.str()}};
    }
    if (!source.site.has_positions())
        return refusal("exchange.no_positions");
    if (order.format == "geojson")
        write_geojson(text, source.site);
    else if (order.format == "gpx")
        write_gpx(text, source.site);
    else
        write_kml(text, source.site);
    return OutFiles{{order.to, text.str()}};
}

/// Nothing is written before all of it may be.
Expected<void> check_places(const OutFiles& files, const ExportOrder& order) {
    for (const OutFile& file : files) {
        std::error_code ignored;
        if (fs::equivalent(file.path, order.site, ignored))
            return refusal("exchange.onto_site", file.path.string());
        if (!order.force && fs::exists(fs::symlink_status(file.path, ignored)))
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

} // namespace

Expected<std::vector<std::filesystem::path>> export_files(const ExportOrder& order) {
    const bool takes_utm = order.format == "csv" || order.format == "dxf";
    if (order.utm && !takes_utm)
        return refusal("exchange.utm_not_in_format", order.format, {{"parameter", std::string("--utm")}});
    const Expected<Project> project = Project::open(order.site, OpenMode::ReadOnly);
    if (!project)
        return project.error();
    const Expected<Source> source = gather(*project);
    if (!source)
        return source.error();
    Expected<OutFiles> files = files_of(*source, order);
    if (!files)
        return files.error();
    if (const Expected<void> free = check_places(*files, order); !free)
        return free.error();
    std::error_code problem;
    if (order.format == "csv" && !fs::is_directory(order.to) && !fs::create_directories(order.to, problem))
        return cannot_write(order.to, problem.message());
    std::vector<fs::path> written;
    for (const OutFile& file : *files) {
        if (const Expected<void> done = write_file(file); !done)
            return done.error();
        written.push_back(file.path);
    }
    return written;
}

} // namespace rillmark
