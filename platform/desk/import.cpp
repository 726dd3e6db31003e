// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/import.h"

#include "exchange/sha256.h"
#include "project/foreign_geopackage.h"
#include "site/import_plan.h"

#ifdef RILLMARK_REPORT
#include "photos/photo_intake.h"

#include <QCoreApplication>
#endif

#include <algorithm>
#include <iostream>

namespace rillmark::desk {

namespace {

const char* shape_name(ImportShape shape) {
    switch (shape) {
    case ImportShape::Point:
        return "point";
    case ImportShape::Line:
        return "line";
    case ImportShape::Area:
        break;
    }
    return "area";
}

nlohmann::json preview_json(const ImportPlan& plan) {
    nlohmann::json list = nlohmann::json::array();
    for (const ImportPreview& one : plan.preview)
        list.push_back({{"name", one.name},
                        {"layer", one.layer},
                        {"shape", shape_name(one.shape)},
                        {"points", one.points},
                        {"becomes", one.becomes},
                        {"line", one.line}});
    return list;
}

void print_preview(const ImportPlan& plan) {
    std::vector<std::vector<std::string>> rows{{"line", "layer", "shape", "points", "name", "becomes"}};
    for (const ImportPreview& one : plan.preview)
        rows.push_back({std::to_string(one.line), one.layer, shape_name(one.shape), std::to_string(one.points),
                        one.name, one.becomes.empty() ? "left out" : one.becomes});
    print_table(rows);
}

int list_layers(const std::filesystem::path& file, const Manner& manner) {
    const Expected<std::vector<ForeignLayer>> layers = foreign_layers(file);
    if (!layers)
        return refuse(layers.error(), manner);
    nlohmann::json list = nlohmann::json::array();
    std::vector<std::vector<std::string>> rows{{"layer", "geometry", "rows", "system", "columns"}};
    for (const ForeignLayer& one : *layers) {
        std::string columns;
        for (const std::string& column : one.columns)
            columns += (columns.empty() ? "" : ", ") + column;
        rows.push_back({one.name, one.geometry, std::to_string(one.rows), one.system, columns});
        list.push_back({{"layer", one.name},
                        {"geometry", one.geometry},
                        {"rows", one.rows},
                        {"system", one.system},
                        {"readable", one.readable},
                        {"columns", one.columns}});
    }
    if (manner.json)
        print_json({{"layers", std::move(list)}, {"findings", nlohmann::json::array()}});
    else
        print_table(rows);
    return kDone;
}

int tell(const ImportCall& call, const ImportPlan& plan, const std::optional<ImportOutcome>& outcome,
         const Manner& manner) {
    if (manner.json) {
        nlohmann::json done = nullptr;
        if (outcome)
            done = {{"stations", outcome->stations}, {"fixes", outcome->fixes}, {"photos", outcome->photos}};
        print_json({{"site", call.site.string()},
                    {"imported", std::move(done)},
                    {"stations", plan.stations.size()},
                    {"fixes", plan.fixes.size()},
                    {"preview", preview_json(plan)},
                    {"findings", to_json(plan.notes)}});
        return kDone;
    }
    if (!outcome) {
        print_preview(plan);
        std::cout << plan.stations.size() << " stations and " << plan.fixes.size()
                  << " fixes would come in; nothing was written\n";
    } else {
        std::cout << call.site.string() << ": " << outcome->stations << " stations, " << outcome->fixes << " fixes and "
                  << outcome->photos << " photos taken in\n";
    }
    print_findings(plan.notes, manner);
    return kDone;
}

std::string format_of(const std::filesystem::path& file) {
    const Expected<std::string> bytes = import_bytes(file);
    return bytes ? import_format(*bytes) : std::string();
}

/// Photos alone: all of them in one step.
int import_photos(const ImportCall& call, const Manner& manner) {
#ifdef RILLMARK_REPORT
    int count = 1;
    char name[] = "rillmark-desk";
    char* arguments[] = {name, nullptr};
    const QCoreApplication application(count, arguments);
    std::vector<PhotoData> photos;
    std::string digests;
    Progress progress("reading photos", call.files.size());
    for (const std::string& file : call.files) {
        const Expected<std::string> bytes = import_bytes(file);
        if (!bytes)
            return refuse(bytes.error(), manner);
        PhotoContext context;
        context.title = std::filesystem::path(file).stem().string();
        Expected<PhotoData> photo =
            prepare_photo(std::span(reinterpret_cast<const unsigned char*>(bytes->data()), bytes->size()), context);
        if (!photo) {
            Finding finding = photo.error();
            finding.where = file;
            return refuse(finding, manner);
        }
        photos.push_back(std::move(photo).value());
        digests += sha256_hex(*bytes);
        progress.step();
    }
    const ImportSource source{"jpeg",
                              std::filesystem::path(call.files.front()).filename().string(),
                              call.files.size() == 1 ? digests : sha256_hex(digests),
                              {},
                              {}};
    if (call.list)
        return tell(call, {}, std::nullopt, manner);
    Expected<Project> project = Project::open(call.site);
    if (!project)
        return refuse(project.error(), manner);
    const Expected<ImportOutcome> outcome = book_import(*project, {}, source, photos);
    return outcome ? tell(call, {}, *outcome, manner) : refuse(outcome.error(), manner);
#else
    return refuse(refusal("exchange.import_no_photos_here", call.files.front()), manner);
#endif
}

} // namespace

int import_file(const ImportCall& call, const Manner& manner) {
    const std::filesystem::path file = call.files.front();
    const std::string format = format_of(file);
    if (format == "jpeg")
        return import_photos(call, manner);
    if (call.files.size() > 1)
        return refuse(refusal("exchange.import_one_at_a_time", file.string(), {{"parameter", std::string("FILE")}}),
                      manner);
    if (format == "geopackage" && call.list && call.reading.layer.empty())
        return list_layers(file, manner);
    const Expected<std::string> bytes = import_bytes(file);
    if (!bytes)
        return refuse(bytes.error(), manner);
    const Expected<ImportedFile> read = read_import_file(file, *bytes, call.reading);
    if (!read)
        return refuse(read.error(), manner);
    const std::string name = file.filename().string();
    Expected<ImportPlan> plan = plan_import(*read, call.choice, name);
    if (!plan)
        return refuse(plan.error(), manner);
    Expected<Project> project = Project::open(call.site, call.list ? OpenMode::ReadOnly : OpenMode::ReadWrite);
    if (!project)
        return refuse(project.error(), manner);
    const std::string digest = sha256_hex(*bytes);
    if (const std::optional<ImportRow> before = earlier_import(*project, digest)) {
        const Finding again = warning("site.import_again", name, {{"at", before->observed_at}});
        if (!call.list && !call.again)
            return refuse(refusal(again.code, again.where, again.args), manner);
        plan->notes.push_back(again);
    }
    if (call.list)
        return tell(call, *plan, std::nullopt, manner);
    const Progress progress("taking in " + name);
    const ImportSource source{read->format, name, digest, call.reading.layer, mapping_text(call.choice)};
    const Expected<ImportOutcome> outcome = book_import(*project, *plan, source);
    return outcome ? tell(call, *plan, *outcome, manner) : refuse(outcome.error(), manner);
}

} // namespace rillmark::desk
