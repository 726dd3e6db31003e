// SPDX-License-Identifier: GPL-3.0-or-later
// A whole project file from elsewhere: opened as it is, migrated, read, verified, estimated; and as a foreign
// GeoPackage.
#include "project/project.h"
#include "fuzz_target.h"
#include "project/foreign_geopackage.h"
#include "site/readiness.h"

#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace {

/// A folder of this process, in memory where the system has that.
const std::filesystem::path& scratch() {
    static const std::filesystem::path folder = [] {
        std::error_code ignored;
        const std::filesystem::path root = std::filesystem::is_directory("/dev/shm", ignored)
                                               ? std::filesystem::path("/dev/shm")
                                               : std::filesystem::temp_directory_path();
        std::filesystem::path made = root / ("rillmark-fuzz-" + std::to_string(::getpid()));
        std::filesystem::create_directories(made);
        return made;
    }();
    return folder;
}

struct Emptied {
    ~Emptied() {
        std::error_code ignored;
        for (const auto& entry : std::filesystem::directory_iterator(scratch(), ignored))
            std::filesystem::remove(entry.path(), ignored);
        std::filesystem::remove(scratch(), ignored);
        std::filesystem::create_directories(scratch(), ignored);
    }
};

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rillmark;
    const Emptied emptied;
    const std::filesystem::path file = scratch() / "f.gpkg";
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
    if (const Expected<std::vector<ForeignLayer>> layers = foreign_layers(file))
        for (const ForeignLayer& layer : *layers)
            static_cast<void>(read_foreign_layer(file, layer.name));
    Expected<Project> project = Project::open(file);
    if (!project) {
        fuzz::require(!project.error().code.empty(), "a refusal has a code");
        return 0;
    }
    static_cast<void>(project->verify());
    static_cast<void>(project->edit_log());
    static_cast<void>(project->undo());
    const Expected<Survey> survey = load_survey(*project);
    const Expected<PowerTables> tables = read_power_tables();
    if (survey && tables)
        static_cast<void>(readiness(*survey, site_estimate(*survey, *tables)));
    return 0;
}
