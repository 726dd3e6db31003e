// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/export_site.h"
#include "report/report.h"
#include "site/site_estimate.h"
#include "wording/wording.h"

#include <QByteArray>

namespace rillmark::report {

/// The file that the report was made from.
struct FileFacts {
    QString name;
    qint64 bytes = 0;
    QByteArray sha256;           // hexadecimal; empty where the file could not be read
    bool changes_beside = false; // a -wal file with changes lay beside it
};

/// One way to build the plant, with its estimate.
struct Built {
    const AlternativeRow* row = nullptr;
    AlternativeEstimate estimate;
};

/// All that the sections draw from.
struct Context {
    const Project& project; // for the pictures
    const Options& options;
    Wording wording;
    PowerTables tables;
    Survey survey;
    SiteEstimate estimate;
    ExportSite site;                 // stations, lines and track as they are drawn
    std::vector<Built> alternatives; // the chosen one first; those struck out are left out
    FileFacts file;
};

[[nodiscard]] inline QString text_of(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// The figure with its +/-, or alone where it is exact; "–" where there is none.
[[nodiscard]] QString shown(const Context& context, const std::optional<Estimate>& estimate, Quantity quantity);
/// The day of a UTC time of the file, by local time.
[[nodiscard]] QString day_of(const std::string& utc);
/// A share; one that rounds to nothing as "< 1 %".
[[nodiscard]] QString share_text(const Context& context, double share);
/// Name of a budget line: its subject and its input.
[[nodiscard]] QString label_of(const BudgetLine& line);
/// Words for a method of measuring a fall, a flow, or the id itself.
[[nodiscard]] QString flow_method_words(const std::string& id);
[[nodiscard]] QString height_method_words(const std::string& id);

} // namespace rillmark::report
