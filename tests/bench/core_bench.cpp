// SPDX-License-Identifier: GPL-3.0-or-later
// Booking one reading against a bare insert, and from a booked reading to the new figures.
#include "big_site.h"

#include "site/site_estimate.h"
#include "site/survey.h"

#include <benchmark/benchmark.h>
#include <sqlite3.h>

#include <algorithm>

namespace {

using namespace rillmark;
using namespace rillmark::bench;

/// The same columns in a file of the same settings, inserted and committed without anything of ours.
void bare_insert(benchmark::State& state) {
    const Scratch scratch;
    sqlite3* db = nullptr;
    if (sqlite3_open((scratch.path() / "bare.db").c_str(), &db) != SQLITE_OK)
        state.SkipWithError("cannot open");
    sqlite3_exec(db, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
                     "CREATE TABLE sight(id INTEGER PRIMARY KEY, book_id INTEGER, position INTEGER, kind TEXT, station_id INTEGER,"
                     " point TEXT, reading_m REAL, distance_m REAL, typed TEXT, remark TEXT, observed_at TEXT)",
                 nullptr, nullptr, nullptr);
    sqlite3_stmt* insert = nullptr;
    sqlite3_prepare_v2(db, "INSERT INTO sight VALUES(?,1,?,'foresight',2,'',3.217,NULL,'3.217','','2026-05-14T08:00:00.000Z')", -1,
                       &insert, nullptr);
    sqlite3_int64 id = 0;
    for (auto _ : state) {
        sqlite3_bind_int64(insert, 1, ++id);
        sqlite3_bind_int64(insert, 2, id);
        if (sqlite3_step(insert) != SQLITE_DONE)
            state.SkipWithError("insert failed");
        sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    sqlite3_close(db);
}
BENCHMARK(bare_insert)->Unit(benchmark::kMicrosecond)->UseRealTime();

void booked_reading(benchmark::State& state) {
    const Scratch scratch;
    Project project = must(Project::create(scratch.path() / "site.gpkg", "Bench"));
    const Id page = add_levelled_stations(project, 10, 20);
    SightRow sight;
    sight.book_id = page;
    sight.kind = "foresight";
    sight.point = "CP1";
    sight.reading_m = 3.217;
    sight.typed = "3.217";
    for (auto _ : state) {
        ++sight.position;
        if (!project.book(sight))
            state.SkipWithError("booking failed");
    }
}
BENCHMARK(booked_reading)->Unit(benchmark::kMicrosecond)->UseRealTime();

/// What the app does after a booking: take the row into the survey, adjust, propagate.
void reading_to_figures(benchmark::State& state) {
    const Scratch scratch;
    Project project = must(Project::create(scratch.path() / "site.gpkg", "Bench"));
    add_levelled_stations(project, 300, 2000);
    AlternativeRow alternative;
    alternative.name = "A";
    const PowerTables tables = must(read_power_tables());
    alternative.pipe_id = std::max_element(tables.pipes.begin(), tables.pipes.end(), [](const PipeSize& a, const PipeSize& b) {
                              return a.bore_m < b.bore_m;
                          })->id;
    alternative.design_flow_m3s = 0.03;
    must(project.book(alternative));
    Survey survey = must(load_survey(project));
    for (auto _ : state) {
        const Booked<SightRow> booked = must(project.get<SightRow>(survey.sights.back().row.id));
        survey.sights.back() = booked;
        const SiteEstimate site = site_estimate(survey, tables);
        if (!site.heights.running_head || !site.chosen.result.generator_W)
            state.SkipWithError("no figures");
        benchmark::DoNotOptimize(site);
    }
}
BENCHMARK(reading_to_figures)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
