// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "fuzz_target.h"
#include "site/import_plan.h"

#include <cmath>

namespace rillmark::fuzz {

/// What was read is on the globe, and can be planned or is refused.
inline void plan(const Expected<ImportedFile>& read) {
    if (!read) {
        require(!read.error().code.empty(), "a refusal has a code");
        return;
    }
    for (const ImportFeature& feature : read->features) {
        require(!feature.parts.empty(), "a feature has a part");
        for (const std::vector<ImportPoint>& part : feature.parts) {
            require(!part.empty(), "a part has a point");
            for (const ImportPoint& point : part)
                require(std::fabs(point.longitude_deg) <= 180.0 && std::fabs(point.latitude_deg) <= 90.0,
                        "on the globe");
        }
    }
    static_cast<void>(plan_import(*read, {}, "f"));
}

} // namespace rillmark::fuzz
