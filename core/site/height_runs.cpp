// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/height_runs.h"

#include "heights/clinometer.h"
#include "heights/hand_level.h"
#include "heights/hose_gauge.h"
#include "heights/taped_distance.h"
#include "heights/water_tube.h"
#include "heights/zenith.h"
#include "levelling/reciprocal.h"
#include "site/barometer_runs.h"
#include "units/constants.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

// Common practice, no source: a distance over rough ground, where nothing is said of it.
constexpr double kDistance_rel = 0.01;
// Common practice, no source: measured once against a tape, in the boots one walks in.
constexpr double kEyeHeight_u_m = 0.02;
// Common practice, no source: a thermometer held in the water that runs out.
constexpr double kWaterTemperature_u_C = 1.0;
// Common practice, no source: measured with a tape, as it is booked.
constexpr double kInstrumentHeight_u_m = 0.01;
// Common practice, no source: a dial of a hundred marks, read to a mark.
constexpr double kGaugeStep_rel = 0.01;
// Our choice, no source: where nothing was booked, what one calls at the point is within a hand's breadth of it.
constexpr double kUnbookedHeight_u_m = 0.05;

/// One run on its way to the network.
class RunComputation {
public:
    RunComputation(const Survey& survey, const HeightRunRow& run) : m_survey(survey), m_run(run) {
        for (const Booked<HeightReadingRow>& one : survey.readings(run.id))
            if (!one.struck)
                m_readings.push_back(one.row);
        m_result.run_id = run.id;
    }

    RunResult compute() && {
        const std::optional<HeightMethod> method = height_method_from_id(m_run.method);
        if (!method) {
            m_result.findings.push_back(warning("levels.method_unknown", m_run.name, {{"method", m_run.method}}));
            return std::move(m_result);
        }
        if (m_readings.empty())
            return std::move(m_result);
        m_source = height_method_info(*method).name_code;
        switch (*method) {
        case HeightMethod::TwoPeg:
            peg_test();
            break;
        case HeightMethod::Reciprocal:
            reciprocal_line();
            break;
        case HeightMethod::HandLevel:
            each([this](const auto& reading) { return by_hand_level(reading); });
            break;
        case HeightMethod::Clinometer:
            each([this](const auto& reading) { return by_clinometer(reading); });
            break;
        case HeightMethod::Zenith:
            each([this](const auto& reading) { return by_zenith(reading); });
            break;
        case HeightMethod::WaterTube:
            each([this](const auto& reading) { return by_water_tube(reading); });
            break;
        case HeightMethod::HoseGauge:
            each([this](const auto& reading) { return by_hose(reading); });
            break;
        case HeightMethod::Barometer:
        case HeightMethod::BaseAndRover:
            barometer_heights(*method);
            break;
        case HeightMethod::KnownHeight:
            known_heights();
            break;
        case HeightMethod::Tape:
            distances();
            break;
        }
        find_whole();
        return std::move(m_result);
    }

private:
    template <class Rise>
    void each(const Rise& rise) {
        for (const HeightReadingRow& reading : m_readings) {
            const Expected<MeasuredRise> measured = rise(reading);
            if (measured)
                add(reading, *measured);
            else
                refuse(reading, measured.error());
        }
    }

    void refuse(const HeightReadingRow& reading, Finding why) {
        why.severity = Severity::Warning; // the run stands, this reading is left out
        tell(reading, {std::move(why)});
    }

    void tell(const HeightReadingRow& reading, const Findings& findings) {
        for (Finding finding : findings) {
            finding.where = point(reading, true) + (finding.where.empty() ? "" : ": " + finding.where);
            m_result.findings.push_back(std::move(finding));
        }
    }

    [[nodiscard]] std::string point(const HeightReadingRow& reading, bool to_end) const {
        return reading_point_name(m_survey, reading, to_end);
    }

    void add(const HeightReadingRow& reading, const MeasuredRise& measured) {
        tell(reading, measured.findings);
        m_result.rises.push_back({reading.id, measured.estimate()});
        m_result.differences.push_back({reading.id, reading_node(reading, false), reading_node(reading, true),
                                        measured.rise_m, measured.random_m, m_source,
                                        m_run.name + ", " + point(reading, true), measured.shared});
    }

    /// Instruments are told apart by their name: runs with the same one share its errors.
    [[nodiscard]] std::string instrument_key() const {
        return m_run.instrument.empty() ? std::to_string(m_run.id) : m_run.instrument;
    }

    [[nodiscard]] Estimate height_above_point(const std::optional<double>& booked_m) const {
        return booked_m ? Estimate{*booked_m, kInstrumentHeight_u_m} : Estimate{0.0, kUnbookedHeight_u_m};
    }

    Expected<MeasuredRise> by_hand_level(const HeightReadingRow& reading) const {
        HandLevelLine line;
        line.sights = static_cast<int>(std::clamp<std::int64_t>(reading.sights.value_or(0), -1, 1000000));
        line.eye_height_m = {m_run.eye_height_m.value_or(0.0), m_run.eye_height_u_m.value_or(kEyeHeight_u_m)};
        line.part_m = reading.part_m.value_or(0.0);
        if (m_run.reading_u_m)
            line.pointing_m = *m_run.reading_u_m;
        line.downwards = reading.role == "down";
        line.run = instrument_key();
        return hand_level(line);
    }

    [[nodiscard]] double distance_u_m(double distance_m) const {
        return m_run.distance_u.value_or(kDistance_rel) * distance_m;
    }

    /// Of a booked reading with a slope or a level distance; the slope one counts where both are there.
    template <class Sight>
    Expected<void> put_distance(const HeightReadingRow& reading, Sight& sight) const {
        if (!reading.slope_distance_m && !reading.level_distance_m)
            return refusal("levels.distance_missing");
        sight.distance_m = reading.slope_distance_m ? *reading.slope_distance_m : *reading.level_distance_m;
        sight.distance_is = reading.slope_distance_m ? SightDistance::Slope : SightDistance::Level;
        sight.distance_u_m = distance_u_m(sight.distance_m);
        sight.target_height_m = height_above_point(reading.target_height_m);
        return {};
    }

    Expected<MeasuredRise> by_clinometer(const HeightReadingRow& reading) const {
        if (!reading.angle_deg)
            return refusal("levels.angle_missing");
        ClinometerSight sight;
        sight.forward.angle_rad = *reading.angle_deg * kRadiansPerDegree;
        if (reading.back_angle_deg)
            sight.reverse = ClinometerReading{*reading.back_angle_deg * kRadiansPerDegree, {}};
        if (const Expected<void> put = put_distance(reading, sight); !put)
            return put.error();
        sight.eye_height_m = height_above_point(reading.instrument_height_m);
        if (m_run.index_deg) // what it shows on the level is taken off
            sight.index_correction_rad = {-*m_run.index_deg * kRadiansPerDegree,
                                          m_run.index_u_deg.value_or(0.0) * kRadiansPerDegree};
        if (m_run.angle_u_deg)
            sight.reading_u_rad = *m_run.angle_u_deg * kRadiansPerDegree;
        sight.run = instrument_key();
        const Expected<SightedRise> rise = clinometer(sight);
        return rise ? Expected<MeasuredRise>(rise->rise) : rise.error();
    }

    Expected<MeasuredRise> by_zenith(const HeightReadingRow& reading) const {
        if (!reading.angle_deg)
            return refusal("levels.angle_missing");
        ZenithLine line;
        line.forward.zenith_rad = (90.0 - *reading.angle_deg) * kRadiansPerDegree;
        if (const Expected<void> put = put_distance(reading, line.forward); !put)
            return put.error();
        line.forward.instrument_height_m = height_above_point(reading.instrument_height_m);
        if (reading.back_angle_deg) {
            line.reverse = line.forward;
            line.reverse->zenith_rad = (90.0 - *reading.back_angle_deg) * kRadiansPerDegree;
        }
        if (m_run.angle_u_deg)
            line.reading_u_rad = *m_run.angle_u_deg * kRadiansPerDegree;
        line.run = instrument_key();
        const Expected<SightedRise> rise = zenith_line(line);
        return rise ? Expected<MeasuredRise>(rise->rise) : rise.error();
    }

    Expected<MeasuredRise> by_water_tube(const HeightReadingRow& reading) const {
        WaterTubeOptions options;
        if (m_run.reading_u_m)
            options.setup_u_m = *m_run.reading_u_m;
        return water_tube({{reading.near_reading_m.value_or(0.0), reading.far_reading_m.value_or(0.0), {}}}, options);
    }

    /// Booked from the upper to the lower point.
    Expected<MeasuredRise> by_hose(const HeightReadingRow& reading) const {
        HoseStretch stretch;
        stretch.gauge.full_scale_Pa = m_run.gauge_range_Pa.value_or(0.0);
        if (m_run.gauge_class)
            stretch.gauge.class_rel = *m_run.gauge_class;
        // the gauge takes the step that can be read, u = step / sqrt(12)
        stretch.gauge.resolution_Pa =
            m_run.pressure_u_Pa ? *m_run.pressure_u_Pa * std::sqrt(12.0) : kGaugeStep_rel * stretch.gauge.full_scale_Pa;
        stretch.gauge.zero_Pa = m_run.gauge_zero_Pa;
        stretch.gauge.name = instrument_key();
        stretch.pressure_Pa = reading.pressure_Pa.value_or(0.0);
        stretch.gauge_above_lower_m = height_above_point(reading.gauge_above_m);
        stretch.water_above_upper_m = height_above_point(reading.water_above_m);
        if (reading.temperature_C)
            stretch.water_temperature_C = {*reading.temperature_C, kWaterTemperature_u_C};
        if (const StationRow* intake = m_survey.first_of_kind("intake"); intake != nullptr && intake->latitude_deg)
            stretch.place.latitude_deg = *intake->latitude_deg;
        stretch.downwards = true;
        stretch.run = std::to_string(m_run.id);
        return hose_gauge(stretch);
    }

    void peg_test() {
        std::vector<PegSetup> setups;
        for (const HeightReadingRow& one : m_readings)
            setups.push_back({one.near_distance_m.value_or(0.0), one.near_reading_m.value_or(0.0),
                              one.far_distance_m.value_or(0.0), one.far_reading_m.value_or(0.0)});
        if (setups.size() < 2) {
            m_result.findings.push_back(note("levels.peg_setups_missing"));
            return;
        }
        TwoPegOptions options;
        if (m_run.reading_u_m)
            options.reading_uncertainty_m = *m_run.reading_u_m;
        const Expected<TwoPegResult> test = two_peg(setups, options);
        if (!test) {
            m_result.findings.push_back(test.error());
            return;
        }
        m_result.findings.insert(m_result.findings.end(), test->findings.begin(), test->findings.end());
        m_result.findings.push_back(note("levels.peg_test_holds_for", {},
                                         {{"days", static_cast<std::int64_t>(kTwoPegValidDays)},
                                          {"date", m_readings.back().observed_at.substr(0, 10)}}));
        m_result.two_peg = *test;
    }

    /// The first reading is from the bank of its `from` point, the second from the other.
    void reciprocal_line() {
        if (m_readings.size() < 2) {
            m_result.findings.push_back(note("levels.other_bank_missing"));
            return;
        }
        const HeightReadingRow& a = m_readings[0];
        const HeightReadingRow& b = m_readings[1];
        const bool turned = reading_node(b, false) == reading_node(a, true); // booked from the other bank's side
        ReciprocalObservation observation;
        observation.from_a = {a.near_reading_m.value_or(0.0), a.far_reading_m.value_or(0.0)};
        observation.from_b = turned ? BankReadings{b.far_reading_m.value_or(0.0), b.near_reading_m.value_or(0.0)}
                                    : BankReadings{b.near_reading_m.value_or(0.0), b.far_reading_m.value_or(0.0)};
        if (a.far_distance_m && a.near_distance_m)
            observation.distance_m = *a.far_distance_m + *a.near_distance_m;
        ReciprocalOptions options;
        if (m_run.reading_u_m)
            options.near_uncertainty_m = *m_run.reading_u_m;
        const Expected<ReciprocalResult> line = reciprocal(observation, options);
        if (!line) {
            refuse(a, line.error());
            return;
        }
        add(a, {line->rise.value, line->rise.standard_uncertainty, {}, line->findings});
    }

    void barometer_heights(HeightMethod method) {
        for (PressureRise& one : pressure_rises(m_survey, m_run, m_readings, method, m_result.findings)) {
            m_result.rises.push_back({one.reading_id, one.rise.estimate()});
            m_result.differences.push_back(
                {one.reading_id, one.from_node, one.to_node, one.rise.rise_m, one.rise.random_m, m_source,
                 m_run.name + ", " + station_name_or(one.to_node), std::move(one.rise.shared)});
        }
    }

    [[nodiscard]] std::string station_name_or(const std::string& node) const {
        for (const HeightReadingRow& reading : m_readings)
            for (const bool end : {false, true})
                if (reading_node(reading, end) == node)
                    return point(reading, end);
        return {};
    }

    void known_heights() {
        for (const HeightReadingRow& one : m_readings) {
            if (!one.height_m || !one.height_u_m)
                continue;
            KnownHeight known{reading_node(one, false), {*one.height_m, *one.height_u_m}, false, one.id, m_source};
            m_result.known.push_back(std::move(known));
        }
    }

    /// Distances give no height: taped_legs.h takes them for the chainage once the heights are known.
    void distances() {
        for (const HeightReadingRow& one : m_readings)
            if (!one.slope_distance_m && !one.level_distance_m)
                refuse(one, refusal("levels.distance_missing"));
    }

    void find_whole() {
        if (m_result.differences.empty())
            return;
        const Expected<AdjustedNetwork> alone = adjust(m_result.differences);
        if (!alone)
            return;
        const HeightDifference& first = m_result.differences.front();
        const HeightDifference& last = m_result.differences.back();
        const std::string to = last.to == first.from ? last.from : last.to; // a run that comes back to where it began
        const Expected<Estimate> rise = alone->difference(first.from, to);
        if (!rise || first.from == to)
            return;
        m_result.whole = *rise;
        m_result.whole_from = station_name_or(first.from);
        m_result.whole_to = station_name_or(to);
    }

    const Survey& m_survey;
    const HeightRunRow& m_run;
    std::vector<HeightReadingRow> m_readings;
    std::string m_source;
    RunResult m_result;
};

} // namespace

std::string reading_node(const HeightReadingRow& reading, bool to_end) {
    const std::optional<Id>& station = to_end ? reading.to_id : reading.from_id;
    return station ? "s" + std::to_string(*station)
                   : "r" + std::to_string(reading.run_id) + ":" + (to_end ? reading.to_point : reading.from_point);
}

std::string reading_point_name(const Survey& survey, const HeightReadingRow& reading, bool to_end) {
    const std::optional<Id>& station = to_end ? reading.to_id : reading.from_id;
    const StationRow* known = station ? survey.station(*station) : nullptr;
    return known != nullptr ? known->name : to_end ? reading.to_point : reading.from_point;
}

RunResult run_result(const Survey& survey, const HeightRunRow& run) {
    return RunComputation(survey, run).compute();
}

} // namespace rillmark
