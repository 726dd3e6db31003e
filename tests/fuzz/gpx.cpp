// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_gpx.h"
#include "map_target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    rillmark::fuzz::plan(rillmark::read_gpx(rillmark::fuzz::text_of(data, size), "f.gpx"));
    return 0;
}
