// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/closure.h"
#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <string>

namespace rillmark {

/// What a book is checked by, and how well it closes.
struct BookClosing {
    enum class On {
        Itself,      // its last point was visited before
        KnownHeight, // bench marks at both ends
        SecondRun,   // another book between the same two points, in either direction
    };
    On on = On::Itself;
    Closure closure;         // of a second run: the difference of the two
    std::string second_run;  // name of that book
    double to_share_m = 0.0; // what distribute() takes out of this book: of two runs half of their difference
};

/// How a closed book closes: on itself, else between known heights, else against the newest other book of the same two
/// ends. Nothing where there is no check. `reduced` is the book itself. A class for two runs (section_allowances())
/// holds for those only; where it does not apply the site rule does. Refuses what closure() and double_run() refuse,
/// `levels.no_length` above all: a class by length without one.
[[nodiscard]] Expected<std::optional<BookClosing>> book_closing(const Survey& survey, const SiteHeights& heights,
                                                                const LevelBookRow& book, const ReducedBook& reduced);

/// The book with the misclosure shared out as its row says; unchanged where it says nothing.
/// Refuses what distribute() refuses.
[[nodiscard]] Expected<ReducedBook> shared_out(const LevelBookRow& book, ReducedBook reduced,
                                               const BookClosing& closing);

} // namespace rillmark
