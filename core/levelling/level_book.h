// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

enum class SightKind { Backsight, Intermediate, Foresight };

/// One staff reading as booked. A book is its sights in the order of booking.
struct Sight {
    std::int64_t id = 0;
    SightKind kind = SightKind::Backsight;
    std::string point;                // name or key of the station or change point that the staff stands on
    double reading_m = 0.0;           // negative when the staff hangs upside down from the point
    std::optional<double> distance_m; // instrument to staff, > 0
    bool struck = false;              // left out of every sum; keeps its place in the order
};

/// One line of the book page. A change point has its foresight and its backsight on one line.
struct BookRow {
    std::string point;
    std::optional<double> backsight_m;
    std::optional<double> intermediate_m;
    std::optional<double> foresight_m;
    std::optional<double> rise_m;                 // > 0 or 0; a line has a rise or a fall, the first line neither
    std::optional<double> fall_m;                 // > 0
    std::optional<double> height_of_instrument_m; // of the set-up that this line's backsight begins
    double reduced_level_m = 0.0;
    std::optional<double> adjusted_level_m; // after distribute() of closure.h
    std::size_t setup = 0;                  // 1, 2, ...: the set-up whose IS or FS it is; the first line has 1
    std::vector<std::int64_t> sights;       // ids of its one or two readings
};

/// Two sides of an arithmetic check of the page; they differ when the page holds a slip in booking or reduction.
struct PageCheck {
    double left_m = 0.0;
    double right_m = 0.0;
    [[nodiscard]] double difference_m() const { return left_m - right_m; }
    [[nodiscard]] bool holds() const;
};

/// The arithmetic checks of a page. They find slips of booking and reduction only, never errors of the field.
struct PageChecks {
    PageCheck sights;        // sum BS - sum FS = last level - first level (closed book only)
    PageCheck rise_and_fall; // sum rise - sum fall = last level - first level (covers intermediate sights)
    PageCheck
        height_of_instrument; // sum IS + sum FS + sum of all levels but the first = sum of each HI x its IS and FS
    [[nodiscard]] bool hold() const;
};

/// A reduced book.
struct ReducedBook {
    std::vector<BookRow> rows;
    std::size_t setups = 0;
    bool open = false; // ends with a backsight or an intermediate sight: still being booked
    double sum_backsights_m = 0.0;
    double sum_intermediates_m = 0.0;
    double sum_foresights_m = 0.0;
    double sum_rises_m = 0.0;
    double sum_falls_m = 0.0;
    double last_minus_first_m = 0.0;           // levels of the last and the first line
    std::vector<double> length_to_setup_end_m; // per set-up, backsights and foresights from the start of the book on;
                                               // empty unless every one of those distances is known
    PageChecks checks;
    Findings findings; // notes and warnings

    /// Length of the whole line (m), where every distance is known.
    [[nodiscard]] std::optional<double> length_m() const {
        return length_to_setup_end_m.empty() ? std::nullopt : std::optional(length_to_setup_end_m.back());
    }
};

/// Largest difference between the two ways of reduction, and of a page check that holds: floating-point error only,
/// tested for a book of 10 000 sights between -500 and 9000 m.
inline constexpr double kReductionError_m = 1e-7;

/// Longest reading taken without a word; telescopic staves are 4 or 5 m long (common practice, no source).
inline constexpr double kLongStaff_m = 5.0;

/// Longest reading taken at all; nobody holds a staff of 10 m upright (common practice, no source).
inline constexpr double kLongestReading_m = 10.0;

/// Reduces a level book from the level of its first point, by rise and fall (step = previous reading - this reading)
/// and by height of instrument (HI = level + BS, level = HI - IS or FS). `rows` holds the levels by rise and fall; the
/// check of `height_of_instrument` compares them with the other way.
///
/// A book that ends with a backsight or an intermediate sight is reduced as far as it goes (`levels.book_open`, a
/// note). A reading beyond 5 m is a warning (`levels.reading_long`), since a staff that long is rare. Refuses: no sight
/// that counts (`levels.book_empty`); a start level that is not finite or not in -500..9000 m
/// (`levels.start_level_impossible`); a reading that is not finite or beyond 10 m either way
/// (`levels.reading_impossible`); a distance that is not finite or not above zero (`levels.distance_impossible`);
/// a sight without a point (`levels.point_unnamed`); an intermediate sight or foresight with no backsight since the
/// last foresight, or as the first sight (`levels.no_setup`); a backsight while the set-up is still without its
/// foresight (`levels.setup_not_finished`); a change point whose foresight and backsight name different points
/// (`levels.change_point_mismatch`). `where` of each is the point; `row` counts the sights from 1, struck ones too.
///
/// Source: any text on levelling; checks as in the worked books of tests/checks/levelling.json. Exact to
/// kReductionError_m.
[[nodiscard]] Expected<ReducedBook> reduce(const std::vector<Sight>& sights, double start_level_m);

/// The arithmetic checks of any page, also of one that was reduced by hand and typed in.
/// An open page: the check of the sights leaves the unfinished set-up out. An empty page gives zeros.
[[nodiscard]] PageChecks check_page(const std::vector<BookRow>& rows);

} // namespace rillmark
