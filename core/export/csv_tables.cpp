// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/csv_tables.h"

#include "export/export_text.h"
#include "project/rows.h"

#include <sstream>

namespace rillmark {

namespace {

constexpr const char* kLineEnd = "\r\n"; // RFC 4180, section 2
constexpr int kLengthDecimals = 4;

template <class Record>
std::optional<GeoPoint> place_of(const Record& row) {
    if constexpr (requires { row.longitude_deg; row.latitude_deg; }) {
        const std::optional<double> latitude = row.latitude_deg;
        const std::optional<double> longitude = row.longitude_deg;
        if (latitude && longitude)
            return GeoPoint{*latitude, *longitude};
    }
    return {};
}

template <class Record>
constexpr bool kHasPlace = requires(Record row) { row.longitude_deg; };

template <class Record>
Expected<void> add_table(const Project& project, const PlanFrame* frame, std::vector<TextTable>& tables) {
    const Expected<std::vector<Booked<Record>>> rows = project.all<Record>();
    if (!rows)
        return rows.error();
    std::ostringstream text;
    write_csv_table(text, *rows, frame);
    tables.push_back({std::string(Record::kTable) + ".csv", text.str()});
    return {};
}

void write_estimate(std::ostream& out, const std::optional<Estimate>& estimate) {
    if (!estimate) {
        out << ",,,";
        return;
    }
    for (const double number : {estimate->value, estimate->standard_uncertainty, estimate->expanded()})
        out << ',' << decimal_text(number, kLengthDecimals);
}

} // namespace

template <class Record>
void write_csv_table(std::ostream& out, const std::vector<Booked<Record>>& rows, const PlanFrame* frame) {
    const bool in_plan = frame != nullptr && kHasPlace<Record>;
    for (const Column<Record>& column : columns<Record>())
        out << column.name << ',';
    out << "struck,struck_reason" << (in_plan ? ",east_m,north_m,frame" : "") << kLineEnd;
    for (const Booked<Record>& one : rows) {
        for (const Column<Record>& column : columns<Record>())
            out << csv_text(rows::text_of(column, one.row).value_or("")) << ',';
        out << (one.struck ? "1" : "0") << ',' << csv_text(one.struck_reason);
        if (in_plan) {
            const std::optional<GeoPoint> place = place_of(one.row);
            const Expected<LocalPoint> plan = place ? frame->to_plan(*place) : refusal("exchange.no_positions");
            if (plan)
                out << ',' << decimal_text(plan->east_m, kLengthDecimals) << ','
                    << decimal_text(plan->north_m, kLengthDecimals) << ',' << csv_text(frame->name());
            else
                out << ",,,";
        }
        out << kLineEnd;
    }
}

Expected<std::vector<TextTable>> csv_tables(const Project& project, const PlanFrame* frame) {
    std::vector<TextTable> tables;
    Expected<void> outcome;
    for_each_record([&]<class Record>(const Record&) {
        if (outcome)
            outcome = add_table<Record>(project, frame, tables);
    });
    if (!outcome)
        return outcome.error();
    const Expected<std::vector<Project::PhotoLink>> links = project.photo_links();
    if (!links)
        return links.error();
    std::string text = std::string("station_id,photo_id") + kLineEnd;
    for (const Project::PhotoLink& link : *links)
        text += number_text(link.station_id) + "," + number_text(link.photo_id) + kLineEnd;
    tables.push_back({"station_photo.csv", std::move(text)});
    return tables;
}

void write_profile_csv(std::ostream& out, const ExportSite& site) {
    out << "station,chainage_m,height_m,height_u_m,height_pm_m,fall_m,fall_u_m,fall_pm_m" << kLineEnd;
    for (const ExportProfilePoint& point : site.profile) {
        out << csv_text(point.station) << ',' << decimal_text(point.chainage_m, kLengthDecimals);
        write_estimate(out, point.height_m);
        write_estimate(out, point.fall_m);
        out << kLineEnd;
    }
}

#define RILLMARK_WRITE(Record)                                                                                         \
    template void write_csv_table<Record>(std::ostream&, const std::vector<Booked<Record>>&, const PlanFrame*);
RILLMARK_WRITE(StationRow)
RILLMARK_WRITE(OccupationRow)
RILLMARK_WRITE(SightRow)
#undef RILLMARK_WRITE

} // namespace rillmark
