// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/folder_sync.h"

#include "project/project.h"
#include "sync/multistatus.h"

#include <algorithm>
#include <map>

namespace rillmark::sync {

namespace {

namespace fs = std::filesystem;

using Places = std::map<Id, fs::path>;

/// The sites of the folder by their keys; of two copies of a site the first by name.
Places sites_here(const fs::path& folder) {
    std::error_code failed;
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed))
        if (entry.is_regular_file(failed) && entry.path().extension() == ".gpkg" &&
            !entry.path().filename().string().starts_with("."))
            files.push_back(entry.path());
    std::ranges::sort(files);
    Places places;
    for (const fs::path& file : files) {
        const Expected<Project> project = Project::open(file, OpenMode::ReadOnly);
        if (!project)
            continue;
        if (const Expected<SiteRow> site = project->site())
            places.emplace(site->id, file);
    }
    return places;
}

Expected<std::vector<Id>> sites_there(const FolderOrder& order, DavClient& client) {
    const Request request{Verb::List, url_of(order.server), {{"Depth", "1"}}, Body::ListInfo};
    const Answer answer = client.perform(request, {});
    if (answer.fault != Fault::None || answer.status != 207) // RFC 4918, section 11.1
        return failure_of(answer, Verb::List).finding;
    const Expected<std::vector<Listed>> list = parse_multistatus(client.list());
    if (!list)
        return list.error();
    std::vector<Id> sites;
    for (const Listed& one : *list)
        if (const auto id = site_of_folder(one.name); id && one.folder)
            sites.push_back(*id);
    return sites;
}

/// A fetched file gets the name of its site, where that name is free.
fs::path name_after_site(const fs::path& file) {
    std::string name;
    if (const Expected<Project> project = Project::open(file, OpenMode::ReadOnly))
        if (const Expected<SiteRow> site = project->site())
            name = site->name;
    constexpr std::size_t kLongest = 60;
    std::erase_if(name, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
    std::ranges::replace_if(
        name, [](char c) { return std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos; }, '_');
    std::error_code failed;
    const fs::path better = file.parent_path() / (name + ".gpkg");
    if (name.empty() || name.front() == '.' || name.size() > kLongest || fs::exists(better, failed))
        return file;
    fs::rename(file, better, failed);
    return failed ? file : better;
}

} // namespace

FolderReport sync_folder(const FolderOrder& order, const SiteHooks& hooks, const std::atomic<bool>& stop,
                         const std::function<void(const fs::path&)>& about) {
    FolderReport report;
    DavClient client(order.access, stop);
    const Expected<std::vector<Id>> there = sites_there(order, client);
    if (!there) {
        report.refusal = there.error();
        report.fingerprint = client.refused_fingerprint();
        return report;
    }
    Places places = sites_here(order.folder);
    for (const auto& [id, file] : places)
        if (!order.send_new && std::ranges::find(*there, id) == there->end())
            report.sites.push_back({id, file, false, true, {}});
    for (const FolderOutcome& only : report.sites)
        places.erase(only.site_id);
    const Places here = places;
    for (const Id id : *there)
        places.emplace(id, order.folder / (site_folder(id) + ".gpkg"));
    for (const auto& [id, file] : places) {
        if (about)
            about(file);
        FolderOutcome one{id, file, !here.contains(id), false, {}};
        one.outcome = sync_site({order.server, order.access, id, file, order.folder / ".rillmark-sync", order.patience},
                                hooks, stop);
        std::error_code ignored;
        if (one.made_here && fs::exists(file, ignored))
            one.file = name_after_site(file);
        report.sites.push_back(std::move(one));
    }
    return report;
}

} // namespace rillmark::sync
