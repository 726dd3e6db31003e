// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"

#include <iostream>

namespace rillmark::desk {

int export_site(const ExportOrder& order, const Manner& manner) {
    const Expected<std::vector<std::filesystem::path>> files = [&] {
        const Progress progress("writing " + order.to.string());
        return export_files(order);
    }();
    if (!files)
        return refuse(files.error(), manner);
    nlohmann::json names = nlohmann::json::array();
    for (const std::filesystem::path& file : *files)
        names.push_back(file.string());
    if (manner.json)
        print_json({{"files", std::move(names)}, {"findings", nlohmann::json::array()}});
    else
        for (const std::filesystem::path& file : *files)
            std::cout << file.string() << '\n';
    return kDone;
}

} // namespace rillmark::desk
