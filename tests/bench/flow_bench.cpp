// SPDX-License-Identifier: GPL-3.0-or-later
// Flow: the result of a gauging, a salt wave integrated again while its end is dragged, and fifty years of daily flows
// from their CSV to a flow-duration curve against a bare read of the same file with a sort.
#include "exchange/csv.h"
#include "exchange/logger_guess.h"
#include "exchange/reduce_table.h"
#include "exchange/series_table.h"
#include "flow/salt_slug.h"
#include "flow/salt_trace.h"
#include "flow/velocity_area.h"
#include "season/daily_flow.h"
#include "season/flow_duration.h"
#include "units/iso_time.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

namespace {

using namespace rillmark;

/// Forty verticals of three points between two banks.
std::vector<Vertical> gauging() {
    constexpr int kVerticals = 40;
    std::vector<Vertical> section(kVerticals + 2);
    for (int i = 0; i <= kVerticals + 1; ++i) {
        Vertical& at = section[static_cast<std::size_t>(i)];
        at.id = i + 1;
        at.distance_m = 0.25 * i;
        if (i == 0 || i > kVerticals) {
            at.edge = BankEdge::Sloping;
            continue;
        }
        at.depth_m = 0.9 + 0.02 * (i % 7);
        for (const double fraction : {0.2, 0.6, 0.8})
            at.points.push_back({0, fraction, {}, 100.0 - 40.0 * fraction + i % 5, 60.0, false, nullptr});
    }
    return section;
}

/// What one keystroke costs: the section with the vertical in hand, both uncertainties, findings and advice.
void gauging_of_40_verticals(benchmark::State& state) {
    const std::vector<Vertical> section = gauging();
    VelocityAreaOptions options;
    options.meter = {"m", {{0.0, 0.25, 0.01}, {0.7, 0.255, 0.0065}}, 0.03, 3.0, true};
    for (auto _ : state) {
        const auto result = velocity_area(section, options);
        if (!result)
            state.SkipWithError("no result");
        benchmark::DoNotOptimize(result);
    }
}
BENCHMARK(gauging_of_40_verticals)->Unit(benchmark::kMicrosecond);

/// A wave read every half second for nearly three hours.
std::vector<TraceReading> wave() {
    constexpr int kReadings = 20000;
    std::vector<TraceReading> readings;
    for (int i = 0; i < kReadings; ++i) {
        const double t = 0.5 * i;
        const double rise = t > 600.0 ? std::exp(-std::pow(std::log((t - 600.0) / 900.0), 2)) : 0.0;
        const double noise = 1e-5 * ((i * 7919) % 11 - 5) / 5.0;
        readings.push_back({t, 0.012 + 0.006 * rise + noise, 8.0, false});
    }
    return readings;
}

void slug_trace_of_20000_integrated_again(benchmark::State& state) {
    const auto trace = prepare_trace(wave(), {ConductivityCorrection::Linear, kSaltAlpha_per_K, {}});
    if (!trace) {
        state.SkipWithError("no trace");
        return;
    }
    TraceWindows windows = suggest_windows(*trace);
    const double whole_s = windows.end_s;
    double shift_s = 0.0;
    for (auto _ : state) {
        shift_s = std::fmod(shift_s + 1.0, 200.0);
        windows.end_s = whole_s - shift_s;
        const auto integral = integrate_trace(*trace, windows);
        if (!integral)
            state.SkipWithError("no integral");
        benchmark::DoNotOptimize(integral);
    }
}
BENCHMARK(slug_trace_of_20000_integrated_again)->Unit(benchmark::kMicrosecond);

/// The worst case of a drag: the readings change as well, and the trace is cleaned anew.
void slug_trace_of_20000_from_the_readings(benchmark::State& state) {
    const std::vector<TraceReading> readings = wave();
    for (auto _ : state) {
        const auto trace = prepare_trace(readings, {ConductivityCorrection::Linear, kSaltAlpha_per_K, {}});
        if (!trace || !integrate_trace(*trace, suggest_windows(*trace)))
            state.SkipWithError("no integral");
    }
}
BENCHMARK(slug_trace_of_20000_from_the_readings)->Unit(benchmark::kMillisecond);

/// Fifty years of days as a water office hands them out, one a line.
class DailyFile {
public:
    DailyFile() : m_path(std::filesystem::temp_directory_path() / fmt::format("rillmark-days-{}.csv", ::getpid())) {
        std::ofstream out(m_path);
        out << "date,flow_m3_s\n";
        const std::chrono::sys_days first = std::chrono::year(1970) / 1 / 1;
        for (int i = 0; i < 18263; ++i) {
            const std::chrono::year_month_day day = first + std::chrono::days(i);
            out << fmt::format("{:04}-{:02}-{:02},{:.3f}\n", static_cast<int>(day.year()),
                               static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()),
                               1.0 + std::sin(i / 58.0) * 0.8 + (i * 7919 % 97) / 100.0);
        }
    }
    ~DailyFile() { std::filesystem::remove(m_path); }
    DailyFile(const DailyFile&) = delete;
    DailyFile& operator=(const DailyFile&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

/// Lines split at the comma, the figure taken as it stands, all sorted: nothing checked, no dates understood.
std::size_t bare_read(const std::filesystem::path& path) {
    std::ifstream in(path);
    std::vector<std::pair<std::string, double>> days;
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
        const std::size_t comma = line.find(',');
        days.emplace_back(line.substr(0, comma), std::strtod(line.c_str() + comma + 1, nullptr));
    }
    std::sort(days.begin(), days.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    return days.size();
}

/// As the app reads it: as a stream, by the layout that the first lines propose.
std::size_t curve_by_import(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    const ByteSource source = [&in](char* room, std::size_t size) {
        in.read(room, static_cast<std::streamsize>(size));
        return std::optional(static_cast<std::size_t>(in.gcount()));
    };
    std::string head(kLoggerHead_bytes, '\0');
    head.resize(*source(head.data(), head.size()));
    const TextEncoding encoding = guess_encoding(head);
    const LoggerLayout layout = guess_logger_layout(logger_head(head, encoding), encoding, kDailyFlowFields);
    in.clear();
    in.seekg(0);
    const Expected<LoggerTable> table = read_logger_table(source, "days.csv", layout, kDailyFlowFields, {});
    return table ? flow_duration(daily_flows(*table)->series).size() : 0;
}

/// As the desk command reads it: every cell kept with its place, typed units understood.
std::size_t curve_by_reduction(const std::filesystem::path& path) {
    static constexpr ReduceField kColumns[] = {{"date", {}, true}, {"flow", Quantity::Discharge}};
    std::ifstream in(path, std::ios::binary);
    std::string bytes(std::filesystem::file_size(path), '\0');
    in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    const Expected<CsvTable> csv = read_csv(bytes, "days.csv");
    const Expected<ReduceTable> table = read_reduce_table(*csv, kColumns, {}, {});
    std::vector<DayRecord> days;
    days.reserve(table->size());
    for (std::size_t row = 0; row < table->size(); ++row)
        days.push_back({*day_from_iso(table->text(row, "date")), table->number(row, "flow")});
    return flow_duration(daily_record(std::move(days))->series).size();
}

/// Of this thread, so that what else the machine does is left out.
double processor_s() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// Both in turn on the same file: the counter is ours over the bare read.
void fifty_years_to_a_curve(benchmark::State& state, std::size_t (*curve_from)(const std::filesystem::path&)) {
    const DailyFile file;
    std::vector<double> ratios;
    for (auto _ : state) {
        const double start_s = processor_s();
        const std::size_t bare = bare_read(file.path());
        const double between_s = processor_s();
        const std::size_t ours = curve_from(file.path());
        const double end_s = processor_s();
        if (bare != ours)
            state.SkipWithError("not the same days");
        ratios.push_back((end_s - between_s) / (between_s - start_s));
        state.SetIterationTime(end_s - between_s);
    }
    const auto middle = ratios.begin() + static_cast<std::ptrdiff_t>(ratios.size() / 2);
    std::nth_element(ratios.begin(), middle, ratios.end());
    state.counters["times_bare_read"] = *middle;
}
BENCHMARK_CAPTURE(fifty_years_to_a_curve, by_import, curve_by_import)->Unit(benchmark::kMillisecond)->UseManualTime();
BENCHMARK_CAPTURE(fifty_years_to_a_curve, by_reduction, curve_by_reduction)
    ->Unit(benchmark::kMillisecond)
    ->UseManualTime();

} // namespace

BENCHMARK_MAIN();
