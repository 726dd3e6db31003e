// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_creek.h"
#include "desk/commands.h"
#include "project/project.h"

#include <algorithm>
#include <iostream>

namespace rillmark::desk {

int demo(const std::filesystem::path& file, const Manner& manner) {
    if (const Expected<void> made = make_demo_creek(file, system_context("rillmark-desk")); !made)
        return refuse(made.error(), manner);
    if (manner.json)
        print_json({{"file", file.string()}, {"findings", nlohmann::json::array()}});
    else
        std::cout << "The demo creek is in " << file.string() << '\n';
    return kDone;
}

int check(const std::filesystem::path& file, const Manner& manner) {
    const Expected<Project> project = Project::open(file, OpenMode::ReadOnly);
    if (!project)
        return refuse(project.error(), manner);
    const Findings faults = project->verify();
    if (manner.json)
        print_json({{"file", file.string()}, {"findings", to_json(faults)}});
    else if (faults.empty())
        std::cout << file.string() << ": no fault found\n";
    for (const Finding& fault : faults)
        std::cerr << file.string() << ": " << severity_name(fault.severity) << ": " << sentence(fault, manner) << '\n';
    const bool sound =
        std::ranges::all_of(faults, [](const Finding& fault) { return fault.severity == Severity::Note; });
    return sound ? kDone : kDataProblem;
}

} // namespace rillmark::desk
