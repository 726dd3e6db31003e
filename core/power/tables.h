// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "expected.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// One size of pipe as it is sold. The nominal size is a name only and never enters a computation.
struct PipeSize {
    std::string id;       // stable key kept in project files, e.g. "pe100-sdr17-110"
    std::string label;    // "PE100 SDR 17, 110 mm"
    std::string material; // "pe100", "pvc"
    double outside_m = 0.0;
    double wall_m = 0.0;             // smallest wall the standard allows
    double bore_m = 0.0;             // average bore, smaller than outside less two smallest walls
    double pressure_rating_Pa = 0.0; // for water at the table's temperature (20 degC, 73 degF), without derating
    double roughness_m = 0.0;        // design value, see assets/tables/pipes.csv
    std::string source;
    std::string provenance; // "seen", "computed" or "memory"

    /// The bore with its standard uncertainty, from a wall that may be anything between the smallest and 12 % more
    /// (rectangular, JCGM 100:2008, 4.3.7; 12 % is common practice, from memory, unconfirmed).
    [[nodiscard]] Estimate bore() const;
    /// The roughness with a standard uncertainty of half its value (common practice, no source).
    [[nodiscard]] Estimate roughness() const;
};

/// One size of cable conductor.
struct Conductor {
    std::string id;       // stable key, e.g. "iec-cu-16", "nec-al-2/0"
    std::string label;    // "16 mm2 copper (IEC)"
    std::string material; // "copper", "aluminium"
    double area_m2 = 0.0;
    double resistance_ohm_per_m = 0.0;         // one conductor, direct current, at the temperature below
    double resistance_temperature_C = 0.0;     // 20 (IEC, largest value allowed) or 75 (NEC, nominal)
    std::optional<double> reactance_ohm_per_m; // at 60 Hz where the table has it
    std::string source;
    std::string provenance;
};

/// A fitting and its loss coefficient, on the velocity head of the pipe that it stands in.
struct Fitting {
    std::string id; // "entrance-square"
    std::string label;
    double k = 0.0;
    std::string source;
    std::string provenance;
};

/// A turbine, generator or drive and the range in which its efficiency is commonly found.
struct EfficiencyRange {
    std::string id; // "drive-v-belt"
    std::string label;
    std::string kind; // "turbine", "drive", "generator"
    double lowest = 0.0;
    double highest = 0.0;
    std::string source;
    std::string provenance;

    /// The middle of the range; anything within it is equally likely (rectangular, JCGM 100:2008, 4.3.7).
    [[nodiscard]] Estimate estimate() const;
};

struct PowerTables {
    std::vector<PipeSize> pipes;
    std::vector<Conductor> conductors;
    std::vector<Fitting> fittings;
    std::vector<EfficiencyRange> efficiencies;

    // The row of that key; refuses an unknown one with `power.unknown_pipe`, `power.unknown_conductor`,
    // `power.unknown_fitting` or `power.unknown_machine` (argument `id`).
    [[nodiscard]] Expected<PipeSize> pipe(std::string_view id) const;
    [[nodiscard]] Expected<Conductor> conductor(std::string_view id) const;
    [[nodiscard]] Expected<Fitting> fitting(std::string_view id) const;
    [[nodiscard]] Expected<EfficiencyRange> efficiency(std::string_view id) const;
};

/// Reads pipes.csv, conductors.csv, fittings.csv and efficiencies.csv out of `texts` (see read_csv). Read once and keep;
/// the built-in tables take about a millisecond. Refuses what read_csv refuses, a missing file (`power.table_missing`), a
/// missing column (`power.table_column_missing`) and a cell that is not a number greater than zero where one belongs (`power.table_bad_cell`, with file, line and column).
[[nodiscard]] Expected<PowerTables> read_power_tables(std::span<const EmbeddedText> texts = table_texts());

} // namespace rillmark
