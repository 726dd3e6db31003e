// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/student_factor.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace rillmark {

double student_factor(int degrees) {
    // JCGM 100:2008, table G.2, column 95.45 %.
    constexpr std::array kT{13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32, 2.28};
    constexpr double kNormal = 2.0;
    const int place = std::max(degrees, 1);
    if (place <= static_cast<int>(kT.size()))
        return kT[static_cast<std::size_t>(place - 1)] / kNormal;
    // First two terms of t in 1/degrees about the normal point z = 2: (z^3 + z)/4 and (5 z^5 + 16 z^3 + 3 z)/96.
    constexpr double kFirst = 2.5;
    constexpr double kSecond = 294.0 / 96.0;
    const double n = place;
    return (kNormal + kFirst / n + kSecond / (n * n)) / kNormal;
}

double student_factor_of_part(double degrees, double part, double whole) {
    constexpr double kMany = 1e6; // the factor is 1
    if (part == 0.0)
        return 1.0;
    const double ratio = whole / part;
    return student_factor(static_cast<int>(std::min(degrees * ratio * ratio, kMany)));
}

} // namespace rillmark
