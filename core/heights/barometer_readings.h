// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/barometer.h"

#include <string>
#include <vector>

namespace rillmark {

/// A reading that counts, and its row from 1.
struct UsedReading {
    std::int64_t row = 0;
    BarometerReading reading;
};

/// Judges readings as barometer.h says; `where` is `prefix` and the field. Struck ones are left out.
[[nodiscard]] Expected<std::vector<UsedReading>> used_readings(const std::vector<BarometerReading>& readings,
                                                               const std::string& prefix);
[[nodiscard]] Expected<void> check_options(const BarometerOptions& options);
/// Standard uncertainty of one reading: noise and resolution.
[[nodiscard]] double reading_u_Pa(const BarometerOptions& options);

/// Part of a reading of the base in its pressure at another time.
struct BaseShare {
    std::size_t reading = 0;
    double weight = 0.0;
};

/// The air at the base at the time of a reading elsewhere.
struct BaseAir {
    double pressure_Pa = 0.0;
    std::optional<double> temperature_C;
    std::optional<double> relative_humidity;
    std::vector<BaseShare> shares;
    std::size_t stretch = 0; // number of base readings not after it
    bool open = false;       // before the first or after the last reading of the base
    double gap_s = 0.0;      // between the readings of the base, or to the only one
    double drift_u_Pa = 0.0; // of what the tendency did besides being even
};

/// The air at the base at a time; `base` in order of time and not empty.
[[nodiscard]] BaseAir base_air_at(const std::vector<UsedReading>& base, double time_s, const BarometerOptions& options);

/// Rise of one reading above the base. The reading's pressure has any offset of the instruments taken off already.
struct BarometerColumn {
    const BarometerReading& point;
    const BaseAir& base;
    double offset_u_Pa = 0.0;
};

struct ColumnRise {
    MeasuredRise rise;
    bool temperature_assumed = false;
};
[[nodiscard]] Expected<ColumnRise> rise_of(const BarometerColumn& column, const BarometerOptions& options);

} // namespace rillmark
