// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/level_book.h"
#include "site/book_closing.h"
#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// Level of the first point of a book page whose heights are not known yet: pages show a book by itself.
inline constexpr double kPageStartLevel_m = 100.0;

/// A line of a level book as on paper. A struck-out reading has a line of its own, in its place.
struct BookPageLine {
    std::string point; // as the user named it
    std::optional<double> backsight_m;
    std::optional<double> intermediate_m;
    std::optional<double> foresight_m;
    std::optional<double> rise_m;
    std::optional<double> fall_m;
    std::optional<double> level_m; // with the closing error shared out where that is chosen
    std::string remark;            // why it was struck, where it was
    bool struck = false;
    std::vector<Id> sights;
};

/// One level book, reduced by itself from kPageStartLevel_m and closed on what is known.
struct BookPage {
    std::vector<BookPageLine> lines;
    std::optional<ReducedBook> reduced;
    std::optional<Finding> not_reduced; // why not; none for a book without sights
    std::optional<BookClosing> closing;
    std::optional<Finding> no_closure; // why it was not closed, or its error not shared out
};

/// Closed and shared out as book_closing.h says.
[[nodiscard]] BookPage book_page(const Survey& survey, const SiteHeights& heights, Id book);

} // namespace rillmark
