// SPDX-License-Identifier: GPL-3.0-or-later
#include "fuzz_target.h"
#include "position/nmea_reader.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rillmark;
    constexpr double kNow_s = 1.8e9;
    NmeaReader reader;
    // in two pieces: a sentence may be cut anywhere
    const std::string_view bytes = fuzz::text_of(data, size);
    const std::size_t cut = size == 0 ? 0 : data[0] % size;
    for (const std::string_view piece : {bytes.substr(0, cut), bytes.substr(cut)})
        for (const PositionFix& fix : reader.feed(piece, kNow_s))
            static_cast<void>(plausible(fix));
    static_cast<void>(reader.finish(kNow_s));
    return 0;
}
