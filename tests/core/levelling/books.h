// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "checks/checks.h"
#include "levelling/level_book.h"
#include "units/units.h"

#include <string>
#include <vector>

namespace rillmark::books {

inline const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;

/// The sights of the rows of a check entry; `suffix` is "_m" or "_ft".
inline std::vector<Sight> sights_of(const nlohmann::json& rows, const std::string& suffix = "_m") {
    const double unit_m = suffix == "_ft" ? kFoot_m : 1.0;
    std::vector<Sight> sights;
    const auto add = [&](const nlohmann::json& row, const char* key, SightKind kind) {
        if (const auto reading = row.find(key + suffix); reading != row.end()) {
            Sight s;
            s.id = static_cast<std::int64_t>(sights.size()) + 1;
            s.kind = kind;
            s.point = row.at("point");
            s.reading_m = reading->get<double>() * unit_m;
            sights.push_back(s);
        }
    };
    for (const nlohmann::json& row : rows) {
        add(row, "fs", SightKind::Foresight);
        add(row, "is", SightKind::Intermediate);
        add(row, "bs", SightKind::Backsight);
    }
    return sights;
}

inline Sight sight(SightKind kind, const std::string& point, double reading_m) {
    static constexpr std::int64_t kId = 7;
    Sight s;
    s.id = kId;
    s.kind = kind;
    s.point = point;
    s.reading_m = reading_m;
    return s;
}
inline Sight bs(const std::string& point, double reading_m) {
    return sight(SightKind::Backsight, point, reading_m);
}
inline Sight is(const std::string& point, double reading_m) {
    return sight(SightKind::Intermediate, point, reading_m);
}
inline Sight fs(const std::string& point, double reading_m) {
    return sight(SightKind::Foresight, point, reading_m);
}

inline std::vector<double> levels(const ReducedBook& book) {
    std::vector<double> all;
    for (const BookRow& row : book.rows)
        all.push_back(row.reduced_level_m);
    return all;
}

inline std::vector<double> instrument_heights(const ReducedBook& book) {
    std::vector<double> all;
    for (const BookRow& row : book.rows)
        if (row.height_of_instrument_m)
            all.push_back(*row.height_of_instrument_m);
    return all;
}

/// Expects a list of metres to be the table's list in its own unit.
#define EXPECT_LIST(got_m, table, unit_m, tolerance)                                                                   \
    do {                                                                                                               \
        const std::vector<double> got_list = (got_m);                                                                  \
        const std::vector<double> wanted_list = (table).get<std::vector<double>>();                                    \
        ASSERT_EQ(got_list.size(), wanted_list.size());                                                                \
        for (std::size_t list_i = 0; list_i < got_list.size(); ++list_i)                                               \
            EXPECT_NEAR(got_list[list_i] / (unit_m), wanted_list[list_i], tolerance) << #table << " line " << list_i;  \
    } while (false)

} // namespace rillmark::books
