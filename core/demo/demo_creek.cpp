// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_creek.h"

#include "demo/demo_season.h"
#include "demo/demo_tables.h"
#include "position/average.h"
#include "project/files.h"
#include "site/position_rows.h"

#include <functional>
#include <map>

namespace rillmark {

namespace {

using demo::table;

/// Books the tables of assets/demo one after the other.
class Maker {
public:
    explicit Maker(Project& project) : m_project(project) {}

    Expected<void> make() {
        for (const auto step : {&Maker::stations, &Maker::track, &Maker::notes, &Maker::photos, &Maker::levels,
                                &Maker::height_runs, &Maker::flow_tests, &Maker::fills, &Maker::gauging,
                                &Maker::flow_readings, &Maker::season, &Maker::alternatives, &Maker::site})
            if (Expected<void> done = (this->*step)(); !done)
                return done;
        return {};
    }

private:
    using Batch = Project::Batch;
    using BookRow = std::function<Expected<void>(Batch&, const ReduceTable&, std::size_t)>;

    /// Reads a table and books its rows in one transaction.
    Expected<void> book_rows(std::string_view file, std::span<const ReduceField> fields, const BookRow& book) {
        const Expected<ReduceTable> rows = table(file, fields);
        if (!rows)
            return rows.error();
        return m_project.together([&](Batch& batch) -> Expected<void> {
            for (std::size_t row = 0; row < rows->size(); ++row)
                if (Expected<void> booked = book(batch, *rows, row); !booked)
                    return booked;
            return {};
        });
    }

    template <class Record>
    Expected<void> book(Batch& batch, const Record& record, Id* id = nullptr) {
        const Expected<Id> booked = batch.book(record);
        if (!booked)
            return booked.error();
        if (id != nullptr)
            *id = *booked;
        return {};
    }

    [[nodiscard]] std::optional<Id> station(const std::string& name) const {
        const auto hit = m_stations.find(name);
        return hit == m_stations.end() ? std::nullopt : std::optional(hit->second.id);
    }

    Expected<void> stations() {
        const Expected<ReduceTable> fixes = table("fixes.csv", demo::kFixes);
        if (!fixes)
            return fixes.error();
        return book_rows("stations.csv", demo::kStations,
                         [&](Batch& batch, const ReduceTable& rows, std::size_t row) -> Expected<void> {
                             StationRow station;
                             station.name = rows.text(row, "name");
                             station.kind = rows.text(row, "kind");
                             station.note = rows.text(row, "note");
                             station.created_at = rows.text(row, "at");
                             return stay(batch, *fixes, station);
                         });
    }

    /// A station with the stay that made it.
    Expected<void> stay(Batch& batch, const ReduceTable& fixes, StationRow& station) {
        std::vector<PositionFix> here;
        for (std::size_t row = 0; row < fixes.size(); ++row)
            if (fixes.text(row, "station") == station.name)
                here.push_back(demo::fix_of(fixes, row));
        const Expected<AveragedPosition> mean = average_position(here);
        if (!mean)
            return mean.error();
        station.longitude_deg = mean->longitude_deg;
        station.latitude_deg = mean->latitude_deg;
        if (Expected<void> booked = book(batch, station, &station.id); !booked)
            return booked;
        m_stations.emplace(station.name, station);
        Id occupation = 0;
        if (Expected<void> booked = book(batch, occupation_row(*mean, station.id), &occupation); !booked)
            return booked;
        for (const PositionFix& fix : here)
            if (Expected<void> booked = book(batch, fix_row(fix, occupation)); !booked)
                return booked;
        return {};
    }

    Expected<void> track() {
        return book_rows("track.csv", demo::kFixes, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
            return book(batch, fix_row(demo::fix_of(rows, row), {}));
        });
    }

    Expected<void> notes() {
        return book_rows("notes.csv", demo::kNotes, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
            return book(batch,
                        NoteRow{0, station(rows.text(row, "station")), rows.text(row, "text"), rows.text(row, "at")});
        });
    }

    Expected<void> photos() {
        const Expected<ReduceTable> rows = table("photos.csv", demo::kPhotos);
        if (!rows)
            return rows.error();
        for (std::size_t row = 0; row < rows->size(); ++row) {
            const std::string& file = rows->text(row, "file");
            Expected<std::vector<unsigned char>> picture = demo::picture(file);
            Expected<std::vector<unsigned char>> small = demo::picture(file.substr(0, file.rfind('.')) + ".small.jpg");
            for (const Expected<std::vector<unsigned char>>* one : {&picture, &small})
                if (!*one)
                    return one->error();
            const StationRow& at = m_stations[rows->text(row, "station")];
            PhotoRow photo;
            photo.title = rows->text(row, "title");
            photo.longitude_deg = at.longitude_deg;
            photo.latitude_deg = at.latitude_deg;
            photo.direction_deg = rows->number(row, "direction");
            photo.source = "drawn";
            photo.observed_at = rows->text(row, "at");
            const Expected<Id> booked =
                m_project.book_photo({photo, std::move(picture).value(), std::move(small).value()}, at.id);
            if (!booked)
                return booked.error();
        }
        return {};
    }

    Expected<void> levels() {
        Id book_id = 0;
        Expected<void> booked =
            book_rows("books.csv", demo::kBooks, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
                LevelBookRow level_book;
                level_book.name = rows.text(row, "name");
                level_book.instrument = rows.text(row, "instrument");
                level_book.observer = rows.text(row, "observer");
                level_book.allowance = rows.text(row, "allowance");
                level_book.created_at = rows.text(row, "at");
                return book(batch, level_book, &book_id);
            });
        if (!booked)
            return booked;
        std::map<Id, std::string> struck;
        booked = book_rows("sights.csv", demo::kSights,
                           [&](Batch& batch, const ReduceTable& rows, std::size_t row) -> Expected<void> {
                               SightRow sight;
                               sight.book_id = book_id;
                               sight.position = static_cast<std::int64_t>(*rows.number(row, "position"));
                               sight.kind = rows.text(row, "kind");
                               sight.station_id = station(rows.text(row, "station"));
                               sight.point = rows.text(row, "point");
                               sight.reading_m = *rows.number(row, "reading");
                               sight.distance_m = rows.number(row, "distance");
                               sight.typed = rows.text(row, "reading") + " m";
                               sight.remark = rows.text(row, "remark");
                               sight.observed_at = rows.text(row, "at");
                               Expected<void> done = book(batch, sight, &sight.id);
                               if (done && !rows.text(row, "struck").empty())
                                   struck.emplace(sight.id, rows.text(row, "struck"));
                               return done;
                           });
        for (const auto& [id, reason] : struck)
            if (booked)
                booked = m_project.strike(SightRow::kTable, id, reason);
        return booked;
    }

    Expected<void> height_runs() {
        std::map<std::string, Id> runs;
        Expected<void> booked = book_rows("height_runs.csv", demo::kHeightRuns,
                                          [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
                                              HeightRunRow run;
                                              run.name = rows.text(row, "name");
                                              run.method = rows.text(row, "method");
                                              run.instrument = rows.text(row, "instrument");
                                              run.gauge_class = rows.number(row, "gauge_class");
                                              run.gauge_range_Pa = rows.number(row, "gauge_range");
                                              run.gauge_zero_Pa = rows.number(row, "gauge_zero");
                                              run.pressure_u_Pa = rows.number(row, "pressure_uncertainty");
                                              run.created_at = rows.text(row, "at");
                                              return book(batch, run, &runs[run.name]);
                                          });
        if (!booked)
            return booked;
        return book_rows("height_readings.csv", demo::kHeightReadings,
                         [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
                             HeightReadingRow reading;
                             reading.run_id = runs[rows.text(row, "run")];
                             reading.position = static_cast<std::int64_t>(row);
                             reading.from_id = station(rows.text(row, "from"));
                             reading.to_id = station(rows.text(row, "to"));
                             reading.near_reading_m = rows.number(row, "near_reading");
                             reading.near_distance_m = rows.number(row, "near_distance");
                             reading.far_reading_m = rows.number(row, "far_reading");
                             reading.far_distance_m = rows.number(row, "far_distance");
                             reading.pressure_Pa = rows.number(row, "pressure");
                             reading.temperature_C = rows.number(row, "temperature");
                             reading.typed = typed_of(rows, row,
                                                      {{"near_reading", "m"},
                                                       {"near_distance", "m"},
                                                       {"far_reading", "m"},
                                                       {"far_distance", "m"},
                                                       {"pressure", "kPa"},
                                                       {"temperature", "°C"}});
                             reading.observed_at = rows.text(row, "at");
                             return book(batch, reading);
                         });
    }

    using FieldUnit = std::pair<const char*, const char*>;
    /// A reading as one would have typed it: the numbers of its row with their units.
    static std::string typed_of(const ReduceTable& rows, std::size_t row, std::initializer_list<FieldUnit> fields) {
        std::string typed;
        for (const auto& [field, unit] : fields)
            if (const std::string& text = rows.text(row, field); !text.empty())
                typed += (typed.empty() ? "" : ", ") + text + " " + unit;
        return typed;
    }

    Expected<void> flow_tests() {
        Id meter_id = 0;
        Expected<void> booked =
            book_rows("meters.csv", demo::kMeters, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
                MeterRow meter;
                meter.name = rows.text(row, "name");
                meter.slope_m = *rows.number(row, "slope");
                meter.intercept_ms = *rows.number(row, "intercept");
                meter.limit_rev_s = rows.number(row, "limit");
                meter.upper_slope_m = rows.number(row, "upper_slope");
                meter.upper_intercept_ms = rows.number(row, "upper_intercept");
                meter.created_at = rows.text(row, "at");
                return book(batch, meter, &meter_id);
            });
        if (!booked)
            return booked;
        return book_rows("tests.csv", demo::kTests, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
            FlowTestRow test;
            test.method = rows.text(row, "method");
            test.name = rows.text(row, "name");
            test.note = rows.text(row, "note");
            test.station_id = station(rows.text(row, "station"));
            test.stage_m = rows.number(row, "stage");
            test.volume_uncertainty = rows.number(row, "volume_uncertainty");
            test.length_m = rows.number(row, "length");
            test.width_m = rows.number(row, "width");
            test.salt_mass_kg = rows.number(row, "salt_mass");
            test.sample_m3 = rows.number(row, "sample");
            test.standard_kgm3 = rows.number(row, "standard");
            test.manning_n = rows.number(row, "manning_n");
            test.manning_n_u = rows.number(row, "manning_n_uncertainty");
            if (test.method == "velocity-area")
                test.meter_id = meter_id;
            test.created_at = rows.text(row, "at");
            return book(batch, test, &m_tests[test.method]);
        });
    }

    Expected<void> fills() {
        return book_rows("fills.csv", demo::kFills, [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
            FillRow fill;
            fill.test_id = m_tests["container"];
            fill.volume_m3 = *rows.number(row, "volume");
            fill.time_s = *rows.number(row, "time");
            fill.typed = rows.text(row, "volume") + " L, " + rows.text(row, "time") + " s";
            fill.observed_at = rows.text(row, "at");
            return book(batch, fill);
        });
    }

    Expected<void> gauging() {
        return book_rows("gauging.csv", demo::kGauging,
                         [&](Batch& batch, const ReduceTable& rows, std::size_t row) -> Expected<void> {
                             VerticalRow vertical;
                             vertical.test_id = m_tests["velocity-area"];
                             vertical.distance_m = *rows.number(row, "distance");
                             vertical.depth_m = *rows.number(row, "depth");
                             vertical.edge = rows.text(row, "edge");
                             if (const std::string& angle = rows.text(row, "angle"); !angle.empty())
                                 vertical.angle_deg = from_si(plain_unit(Quantity::Angle), *rows.number(row, "angle"));
                             vertical.typed = rows.text(row, "distance") + " m, " + rows.text(row, "depth") + " m";
                             vertical.observed_at = rows.text(row, "at");
                             Expected<void> booked = book(batch, vertical, &vertical.id);
                             if (!booked || !rows.number(row, "revolutions"))
                                 return booked;
                             VelocityRow velocity;
                             velocity.vertical_id = vertical.id;
                             velocity.depth_fraction = *rows.number(row, "fraction");
                             velocity.revolutions = rows.number(row, "revolutions");
                             velocity.time_s = rows.number(row, "time");
                             velocity.typed = rows.text(row, "revolutions") + " in " + rows.text(row, "time") + " s";
                             velocity.observed_at = rows.text(row, "at");
                             return book(batch, velocity);
                         });
    }

    Expected<void> flow_readings() {
        return book_rows("flow_readings.csv", demo::kFlowReadings,
                         [&](Batch& batch, const ReduceTable& rows, std::size_t row) {
                             FlowReadingRow reading;
                             reading.test_id = m_tests[rows.text(row, "test")];
                             reading.position = static_cast<std::int64_t>(row);
                             reading.role = rows.text(row, "role");
                             reading.part = static_cast<std::int64_t>(*rows.number(row, "part"));
                             reading.distance_m = rows.number(row, "distance");
                             reading.depth_m = rows.number(row, "depth");
                             reading.time_s = rows.number(row, "time");
                             reading.length_m = rows.number(row, "length");
                             reading.height_m = rows.number(row, "height");
                             reading.conductivity_Sm = rows.number(row, "conductivity");
                             reading.temperature_C = rows.number(row, "temperature");
                             reading.volume_m3 = rows.number(row, "volume");
                             reading.typed = typed_of(rows, row,
                                                      {{"length", "m"},
                                                       {"distance", "m"},
                                                       {"depth", "m"},
                                                       {"time", "s"},
                                                       {"height", "m"},
                                                       {"volume", "mL"},
                                                       {"conductivity", "µS/cm"},
                                                       {"temperature", "°C"}});
                             reading.remark = rows.text(row, "remark");
                             reading.observed_at = rows.text(row, "at");
                             return book(batch, reading);
                         });
    }

    Expected<void> season() { return demo::book_season(m_project); }

    Expected<void> alternatives() {
        return book_rows("alternatives.csv", demo::kAlternatives,
                         [&](Batch& batch, const ReduceTable& rows, std::size_t row) -> Expected<void> {
                             AlternativeRow one;
                             one.name = rows.text(row, "name");
                             one.note = rows.text(row, "note");
                             one.intake_id = station("Intake");
                             one.powerhouse_id = station("Powerhouse");
                             one.house_id = station("House");
                             one.design_flow_m3s = rows.number(row, "design_flow");
                             one.pipe_id = rows.text(row, "pipe");
                             one.minor_k = rows.number(row, "minor_k");
                             one.turbine_efficiency = rows.number(row, "turbine_efficiency");
                             one.turbine_efficiency_u = rows.number(row, "turbine_efficiency_u");
                             one.generator_efficiency = rows.number(row, "generator_efficiency");
                             one.generator_efficiency_u = rows.number(row, "generator_efficiency_u");
                             one.cable_id = rows.text(row, "cable");
                             one.cable_system = rows.text(row, "cable_system");
                             one.voltage_V = rows.number(row, "voltage");
                             one.power_factor = rows.number(row, "power_factor");
                             one.created_at = rows.text(row, "at");
                             Expected<void> booked = book(batch, one, &one.id);
                             if (row == 0)
                                 m_chosen = one.id;
                             return booked;
                         });
    }

    Expected<void> site() {
        const Expected<ReduceTable> rows = table("site.csv", demo::kSite);
        if (!rows)
            return rows.error();
        Expected<SiteRow> site = m_project.site();
        if (!site)
            return site.error();
        site->name = rows->text(0, "name");
        site->owner = rows->text(0, "owner");
        site->note = rows->text(0, "note");
        site->water_temperature_C = rows->number(0, "water_temperature");
        site->alternative_id = m_chosen;
        return m_project.change(*site);
    }

    Project& m_project;
    std::map<std::string, StationRow> m_stations; // by name
    std::map<std::string, Id> m_tests;            // by method
    std::optional<Id> m_chosen;
};

} // namespace

Expected<void> make_demo_creek(const std::filesystem::path& path, ProjectContext context) {
    std::error_code unknown;
    if (std::filesystem::exists(path, unknown))
        return refusal("project.exists", path.filename().string());
    PassingFile passing(passing_name(path, context.new_id()));
    {
        Expected<Project> project = Project::create(passing.path(), "Demo creek", std::move(context));
        if (!project)
            return project.error();
        if (Expected<void> made = Maker(*project).make(); !made)
            return made;
    }
    return passing.put_in_place(path);
}

} // namespace rillmark
