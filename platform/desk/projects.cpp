// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_creek.h"
#include "desk/commands.h"
#include "project/project.h"

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <system_error>

namespace rillmark::desk {

namespace {

/// A copy of a project file, with its -wal where it has one, that goes with its owner.
class ScratchCopy {
public:
    explicit ScratchCopy(const std::filesystem::path& file) {
        std::string pattern = (std::filesystem::temp_directory_path(m_problem) / "rillmark-XXXXXX").string();
        if (m_problem || mkdtemp(pattern.data()) == nullptr) {
            m_problem = std::make_error_code(std::errc::io_error);
            return;
        }
        m_folder = pattern;
        std::filesystem::copy_file(file, path(), m_problem);
        const std::filesystem::path wal = file.string() + "-wal";
        if (!m_problem && std::filesystem::exists(wal))
            std::filesystem::copy_file(wal, path().string() + "-wal", m_problem);
    }
    ~ScratchCopy() {
        std::error_code ignored;
        if (!m_folder.empty())
            std::filesystem::remove_all(m_folder, ignored);
    }
    ScratchCopy(const ScratchCopy&) = delete;
    ScratchCopy& operator=(const ScratchCopy&) = delete;

    [[nodiscard]] std::filesystem::path path() const { return m_folder / "copy.gpkg"; }
    [[nodiscard]] const std::error_code& problem() const { return m_problem; }

private:
    std::filesystem::path m_folder;
    std::error_code m_problem;
};

} // namespace

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
    // SQLite looks at the limits of values only in a file that it may write, and reading a site never writes it
    const ScratchCopy copy(file);
    if (copy.problem())
        return refuse(refusal("project.io", file.string(), {{"detail", copy.problem().message()}}), manner);
    const Expected<Project> writable = Project::open(copy.path());
    if (!writable)
        return refuse(writable.error(), manner);
    const Findings faults = [&] {
        const Progress progress("checking " + file.string());
        return writable->verify();
    }();
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
