// SPDX-License-Identifier: GPL-3.0-or-later
#include "patient_write.h"

#include <chrono>
#include <thread>

using namespace rillmark;

namespace {

// Another program holds the file while it merges or copies, seldom longer than this. Our choice, no source.
constexpr int kBusyTries = 20;
constexpr std::chrono::milliseconds kBusyPause{500};

} // namespace

Expected<void> patient_write(const std::filesystem::path& file, const std::function<Expected<void>(Project&)>& action) {
    for (int tries = 1;; ++tries) {
        Expected<Project> project = Project::open(file, OpenMode::ReadWrite);
        Expected<void> written = project ? action(*project) : Expected<void>(project.error());
        if (written || written.error().code != "project.busy" || tries == kBusyTries)
            return written;
        std::this_thread::sleep_for(kBusyPause);
    }
}
