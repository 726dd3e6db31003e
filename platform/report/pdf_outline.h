// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <QIODevice>
#include <QString>

#include <vector>

namespace rillmark::report {

/// One line of the bookmarks that a reader shows beside the pages.
struct OutlineEntry {
    QString title;
    int level = 0;    // 0, or at most one more than that of the line before
    int page = 0;     // from 0
    double top = 0.0; // points from the lower edge of the page to where it opens
};

/// Appends an outline to a finished PDF as an incremental update: new objects, a new cross-reference section and a
/// trailer that names the one before; what was written stays byte for byte. Qt's writer makes no outlines. Source: ISO
/// 32000-1:2008, 7.5.4 (cross-reference table), 7.5.6 (incremental updates), 12.3.3 (document outline); clauses from
/// memory, unconfirmed but for the readers that open it in the tests.
///
/// The file must have a classic cross-reference table, a catalogue that is a plain dictionary and a flat list of pages:
/// what QPdfWriter writes. `device` is open for reading and writing. Without entries nothing is written. Refuses
/// another structure and a device that fails (`exchange.pdf_outline`); the file is then as it was, or has bytes after
/// its end.
[[nodiscard]] Expected<void> append_outline(QIODevice& device, const std::vector<OutlineEntry>& entries);

} // namespace rillmark::report
