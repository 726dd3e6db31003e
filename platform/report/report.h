// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"
#include "units/format_quantity.h"

#include <QDateTime>
#include <QString>

#include <filesystem>
#include <functional>

namespace rillmark::report {

enum class Paper { A4, Letter };

struct Options {
    Paper paper = Paper::A4;
    DisplayOptions display;
    bool all_alternatives = true; // else the chosen one alone
    QString version;              // of the program, as shown
    QDateTime now;                // local time at which the report is made
};

/// Told after each piece of work, `done` of `total`; false cancels.
using Progress = std::function<bool(int done, int total)>;

struct Made {
    int pages = 0;
    bool cancelled = false; // then there is no file
};

/// Writes the report of a site as a PDF: what the owner needs on page one, then all that a designer works from. The
/// file comes into its place whole or not at all and takes the place of one that is there; the site is only read.
///
/// Needs a QGuiApplication (any platform, offscreen too); may run on any thread, with a project of that thread.
/// Photos are read one at a time and scaled while they are decoded.
/// Refuses the site's own file as the target (`exchange.onto_site`), a place that cannot be written
/// (`exchange.cannot_write`), and what load_survey and read_power_tables refuse.
[[nodiscard]] Expected<Made> write_report(const Project& project, const Options& options,
                                          const std::filesystem::path& to, const Progress& progress = {});

} // namespace rillmark::report
