// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <optional>

namespace rillmark::sync {

using Milliseconds = std::chrono::milliseconds;

/// How often and how long a round tries. Common practice, no source.
struct Patience {
    int attempts = 5;             // of a round, after faults that may pass
    Milliseconds first{2'000};    // before the second attempt; doubled each time
    Milliseconds longest{60'000}; // no wait is longer; a server that asks for more is left for another day
    Milliseconds settle{2'100};   // until a file just written is no longer young (see is_young())
    int overtaken = 8;            // times that others may be quicker before it is given up
};

/// The wait after the `failed`-th failure (1, 2, ...): doubled each time, up to the longest, of which a random half is
/// left away so that devices do not come back all at once; but not before the server wants. `random`: 0..1.
/// Nothing: the server asks for more than the longest wait.
[[nodiscard]] std::optional<Milliseconds> back_off(const Patience& patience, int failed, double random,
                                                   std::optional<std::chrono::seconds> server_asks);

} // namespace rillmark::sync
