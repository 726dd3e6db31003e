// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/geometry.h"
#include "fuzz_target.h"
#include "project/foreign_geometry.h"

#include <algorithm>
#include <cmath>

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rillmark;
    const std::span<const unsigned char> blob(data, size);
    if (const std::optional<GeometryPoint> point = read_point_blob(blob)) {
        const auto written = point_blob(*point);
        const std::optional<GeometryPoint> again = read_point_blob(written);
        fuzz::require(again && again->longitude_deg == point->longitude_deg &&
                          again->latitude_deg == point->latitude_deg,
                      "what is written reads back");
        fuzz::require(read_foreign_geometry(blob).has_value(), "both readers take a point");
    }
    if (const std::optional<ForeignGeometry> geometry = read_foreign_geometry(blob))
        for (const ForeignShape& shape : geometry->shapes)
            for (const std::vector<ForeignVertex>& part : shape.parts) {
                fuzz::require(!part.empty(), "a part has a vertex");
                for (const ForeignVertex& one : part)
                    fuzz::require(std::isfinite(one.x) && std::isfinite(one.y), "vertices are finite");
            }
    return 0;
}
