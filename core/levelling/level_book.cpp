// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/level_book.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

// Land lies between the Dead Sea shore and the highest summits; a creek for a turbine does too.
constexpr double kLowestLevel_m = -500.0;
constexpr double kHighestLevel_m = 9000.0;

std::vector<Arg> row_arg(std::size_t row) {
    return {{"row", static_cast<std::int64_t>(row), Quantity::Number}};
}

Expected<void> check_numbers(const Sight& sight, std::size_t row) {
    if (sight.point.empty())
        return refusal("levels.point_unnamed", "", row_arg(row));
    if (!(std::abs(sight.reading_m) <= kLongestReading_m)) {
        std::vector<Arg> args = row_arg(row);
        args.push_back({"reading", sight.reading_m, Quantity::Length});
        args.push_back({"limit", kLongestReading_m, Quantity::Length});
        return refusal("levels.reading_impossible", sight.point, std::move(args));
    }
    if (sight.distance_m && !(std::isfinite(*sight.distance_m) && *sight.distance_m > 0.0)) {
        std::vector<Arg> args = row_arg(row);
        args.push_back({"distance", *sight.distance_m, Quantity::Length});
        return refusal("levels.distance_impossible", sight.point, std::move(args));
    }
    return {};
}

/// Takes the sights one by one. Levels are held relative to the first point until the end, so that rounding does not
/// grow with the height of the site.
class Reducer {
public:
    explicit Reducer(double start_level_m) : m_start_m(start_level_m) {}

    Expected<void> take(const Sight& sight, std::size_t row) {
        if (const Expected<void> numbers = check_numbers(sight, row); !numbers)
            return numbers;
        if (std::abs(sight.reading_m) > kLongStaff_m) {
            std::vector<Arg> args = row_arg(row);
            args.push_back({"reading", sight.reading_m, Quantity::Length});
            args.push_back({"limit", kLongStaff_m, Quantity::Length});
            m_book.findings.push_back(warning("levels.reading_long", sight.point, std::move(args)));
        }
        return sight.kind == SightKind::Backsight ? set_up(sight, row) : sight_on(sight, row);
    }

    ReducedBook finish() && {
        m_book.open = m_in_setup;
        if (m_book.open)
            m_book.findings.push_back(note("levels.book_open", m_book.rows.back().point));
        m_book.last_minus_first_m = m_level_m;
        if (!m_all_distances)
            m_book.length_to_setup_end_m.clear();
        m_book.checks = check_page(m_book.rows);
        return std::move(m_book);
    }

private:
    Expected<void> set_up(const Sight& sight, std::size_t row) {
        if (m_in_setup)
            return refusal("levels.setup_not_finished", sight.point, row_arg(row));
        if (m_book.rows.empty()) {
            BookRow first;
            first.point = sight.point;
            first.reduced_level_m = m_start_m;
            first.setup = 1;
            m_book.rows.push_back(std::move(first));
        } else if (m_book.rows.back().point != sight.point) {
            std::vector<Arg> args = row_arg(row);
            args.push_back({"foresight_point", m_book.rows.back().point, Quantity::Number});
            return refusal("levels.change_point_mismatch", sight.point, std::move(args));
        }
        BookRow& line = m_book.rows.back();
        line.backsight_m = sight.reading_m;
        line.sights.push_back(sight.id);
        m_instrument_m = m_change_point_m + sight.reading_m;
        line.height_of_instrument_m = m_start_m + m_instrument_m;
        m_book.sum_backsights_m += sight.reading_m;
        ++m_book.setups;
        m_previous_reading_m = sight.reading_m;
        m_in_setup = true;
        add_distance(sight);
        return {};
    }

    Expected<void> sight_on(const Sight& sight, std::size_t row) {
        if (!m_in_setup)
            return refusal("levels.no_setup", sight.point, row_arg(row));
        const double rise_m = m_previous_reading_m - sight.reading_m;
        m_level_m += rise_m;
        BookRow line;
        line.point = sight.point;
        line.setup = m_book.setups;
        line.sights = {sight.id};
        line.reduced_level_m = m_start_m + m_level_m;
        if (rise_m >= 0.0) {
            line.rise_m = rise_m;
            m_book.sum_rises_m += rise_m;
        } else {
            line.fall_m = -rise_m;
            m_book.sum_falls_m -= rise_m;
        }
        m_previous_reading_m = sight.reading_m;
        if (sight.kind == SightKind::Intermediate) {
            line.intermediate_m = sight.reading_m;
            m_book.sum_intermediates_m += sight.reading_m;
        } else {
            line.foresight_m = sight.reading_m;
            m_book.sum_foresights_m += sight.reading_m;
            m_change_point_m = m_instrument_m - sight.reading_m;
            m_in_setup = false;
            add_distance(sight);
            m_book.length_to_setup_end_m.push_back(m_length_m);
        }
        m_book.rows.push_back(std::move(line));
        return {};
    }

    void add_distance(const Sight& sight) {
        m_all_distances = m_all_distances && sight.distance_m.has_value();
        m_length_m += sight.distance_m.value_or(0.0);
    }

    double m_start_m;
    ReducedBook m_book;
    double m_level_m = 0.0;        // by rise and fall
    double m_change_point_m = 0.0; // by height of instrument
    double m_instrument_m = 0.0;
    double m_previous_reading_m = 0.0;
    double m_length_m = 0.0;
    bool m_all_distances = true;
    bool m_in_setup = false;
};

PageCheck check_sights(const std::vector<BookRow>& rows) {
    PageCheck check;
    double backsights_m = 0.0;
    double foresights_m = 0.0;
    for (const BookRow& row : rows) {
        if (row.foresight_m) {
            foresights_m += *row.foresight_m;
            check = {backsights_m - foresights_m, row.reduced_level_m - rows.front().reduced_level_m};
        }
        backsights_m += row.backsight_m.value_or(0.0);
    }
    return check;
}

PageCheck check_rise_and_fall(const std::vector<BookRow>& rows) {
    PageCheck check;
    for (const BookRow& row : rows)
        check.left_m += row.rise_m.value_or(0.0) - row.fall_m.value_or(0.0);
    check.right_m = rows.back().reduced_level_m - rows.front().reduced_level_m;
    return check;
}

PageCheck check_height_of_instrument(const std::vector<BookRow>& rows) {
    // Summed relative to the first level, which is added at the end: the sum of levels of a long book on a high site
    // would otherwise lose the millimetres.
    const double first_m = rows.front().reduced_level_m;
    PageCheck check;
    double instrument_m = 0.0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const BookRow& row = rows[i];
        if (i > 0) {
            check.left_m += row.intermediate_m.value_or(0.0) + row.foresight_m.value_or(0.0);
            check.left_m += row.reduced_level_m - first_m;
            check.right_m += instrument_m;
        }
        if (row.height_of_instrument_m)
            instrument_m = *row.height_of_instrument_m - first_m;
    }
    const double offset_m = first_m * static_cast<double>(rows.size() - 1);
    return {check.left_m + offset_m, check.right_m + offset_m};
}

} // namespace

bool PageCheck::holds() const {
    return std::abs(difference_m()) <= kReductionError_m;
}

bool PageChecks::hold() const {
    return sights.holds() && rise_and_fall.holds() && height_of_instrument.holds();
}

PageChecks check_page(const std::vector<BookRow>& rows) {
    if (rows.empty())
        return {};
    return {check_sights(rows), check_rise_and_fall(rows), check_height_of_instrument(rows)};
}

Expected<ReducedBook> reduce(const std::vector<Sight>& sights, double start_level_m) {
    if (!(start_level_m >= kLowestLevel_m && start_level_m <= kHighestLevel_m))
        return refusal("levels.start_level_impossible", "",
                       {{"level", start_level_m, Quantity::Length},
                        {"lowest", kLowestLevel_m, Quantity::Length},
                        {"highest", kHighestLevel_m, Quantity::Length}});
    Reducer reducer(start_level_m);
    bool any = false;
    for (std::size_t i = 0; i < sights.size(); ++i) {
        if (sights[i].struck)
            continue;
        any = true;
        if (const Expected<void> taken = reducer.take(sights[i], i + 1); !taken)
            return taken.error();
    }
    if (!any)
        return refusal("levels.book_empty");
    return std::move(reducer).finish();
}

} // namespace rillmark
