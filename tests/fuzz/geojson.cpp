// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_geojson.h"
#include "map_target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    rillmark::fuzz::plan(rillmark::read_geojson(rillmark::fuzz::text_of(data, size), "f.geojson"));
    return 0;
}
