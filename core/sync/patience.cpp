// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/patience.h"

#include <algorithm>

namespace rillmark::sync {

std::optional<Milliseconds> back_off(const Patience& patience, int failed, double random,
                                     std::optional<std::chrono::seconds> server_asks) {
    Milliseconds wait = std::min(patience.first, patience.longest);
    for (int i = 1; i < failed && wait < patience.longest; ++i)
        wait = std::min(wait * 2, patience.longest);
    const double kept = 1.0 - 0.5 * std::clamp(random, 0.0, 1.0);
    wait = Milliseconds(static_cast<Milliseconds::rep>(static_cast<double>(wait.count()) * kept));
    if (!server_asks)
        return wait;
    // compared in seconds: a server may name a number that overflows milliseconds
    if (*server_asks > patience.longest)
        return std::nullopt;
    return std::max<Milliseconds>(wait, *server_asks);
}

} // namespace rillmark::sync
