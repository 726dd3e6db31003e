// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/iso_time.h"

#include <gtest/gtest.h>

namespace rillmark {
namespace {

TEST(IsoTime, Day) {
    using namespace std::chrono;
    EXPECT_EQ(day_from_iso("2024-02-29"), sys_days(year(2024) / 2 / 29));
    for (const char* text :
         {"", "2024-02-30", "2023-02-29", "24-01-01", "2024/01/01", "2024-1-1", "0000-01-01", "abcd-ef-gh"})
        EXPECT_FALSE(day_from_iso(text).has_value()) << text;
}

} // namespace
} // namespace rillmark
