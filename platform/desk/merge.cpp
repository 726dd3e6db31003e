// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"
#include "project/merge.h"

#include <iostream>

namespace rillmark::desk {

namespace {

nlohmann::json to_json(const std::optional<std::string>& value) {
    return value ? nlohmann::json(*value) : nlohmann::json(nullptr);
}

nlohmann::json to_json(const MergeSide& side) {
    return {{"value", to_json(side.value)}, {"at", side.at}, {"device", side.device}};
}

nlohmann::json to_json(const MergeReport& report, const std::filesystem::path& mine) {
    nlohmann::json added = nlohmann::json::array();
    for (const MergeReport::Added& part : report.added)
        added.push_back({{"file", part.file}, {"table", part.table}, {"rows", part.rows}});
    nlohmann::json conflicts = nlohmann::json::array();
    for (const MergeConflict& conflict : report.conflicts)
        conflicts.push_back({{"file", conflict.file},
                             {"table", conflict.table},
                             {"id", conflict.row_id},
                             {"column", conflict.column},
                             {"mine", to_json(conflict.mine)},
                             {"other", to_json(conflict.other)},
                             {"kept", to_json(conflict.kept)}});
    return {{"file", mine.string()},
            {"changed", report.changed},
            {"changed_cells", report.changed_cells},
            {"added", std::move(added)},
            {"conflicts", std::move(conflicts)},
            {"findings", nlohmann::json::array()}};
}

std::string said(const MergeSide& side) {
    std::string text = side.value.value_or("nothing");
    if (side.at.empty())
        return text;
    return text + " (" + (side.device.empty() ? std::string() : side.device + ", ") + side.at + ")";
}

void print(const MergeReport& report, const std::filesystem::path& mine) {
    if (!report.changed)
        std::cout << mine.string() << ": nothing new, the file was not touched\n";
    else
        std::cout << mine.string() << ": merged\n";
    std::vector<std::vector<std::string>> rows;
    for (const MergeReport::Added& part : report.added)
        rows.push_back({"from " + part.file, part.table, std::to_string(part.rows) + " rows added"});
    print_table(rows);
    if (report.changed_cells > 0)
        std::cout << "  " << report.changed_cells << " values of this file replaced by later ones\n";
    if (!report.conflicts.empty())
        std::cout << "\nSaid differently (SI units); look at each and change it where the wrong one was kept\n";
    for (const MergeConflict& conflict : report.conflicts)
        std::cout << "  " << conflict.table << ' ' << conflict.row_id << ", " << conflict.column << ": here "
                  << said(conflict.mine) << ", in " << conflict.file << ' ' << said(conflict.other) << "; kept "
                  << conflict.kept.value_or("nothing") << '\n';
}

} // namespace

int merge(const std::filesystem::path& mine, const std::vector<std::string>& others, bool other_site,
          const Manner& manner) {
    const Expected<MergeReport> report = [&] {
        const Progress progress("merging into " + mine.string());
        return merge_into(mine, {others.begin(), others.end()}, {other_site});
    }();
    if (!report)
        return refuse(report.error(), manner);
    if (manner.json)
        print_json(to_json(*report, mine));
    else
        print(*report, mine);
    return kDone;
}

} // namespace rillmark::desk
