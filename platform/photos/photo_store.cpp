// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/photo_worker.h"

namespace rillmark {

PhotoStore store_in_project(std::filesystem::path file, std::string device) {
    return [file = std::move(file), device = std::move(device)](const PhotoData& photo, Id station_id) -> Expected<Id> {
        auto project = Project::open(file, OpenMode::ReadWrite, system_context(device));
        if (!project)
            return project.error();
        return project->book_photo(photo, station_id);
    };
}

} // namespace rillmark
