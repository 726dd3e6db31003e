// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/sections.h"

#include <QLocale>

namespace rillmark::report {

void file_section(const Context& context, Galley& galley) {
    galley.chapter(Report::tr("The project file"));
    galley.text(Report::tr(
        "This report was made from the file below, which holds every reading, struck ones too, and the photos: a "
        "GeoPackage that any GIS opens. Compare its SHA-256 checksum to be sure that you have the same file."));
    Table table{{Column{}, Column{}}, {}};
    const FileFacts& file = context.file;
    table.rows = {{Report::tr("File"), file.name},
                  {Report::tr("Size"), Report::tr("%1 bytes").arg(file.bytes)},
                  {Report::tr("SHA-256"),
                   file.sha256.isEmpty() ? Report::tr("could not be read") : QString::fromLatin1(file.sha256)},
                  {Report::tr("Site begun"), Wording::when(context.survey.site.created_at)},
                  {Report::tr("Report made"), QLocale().toString(context.options.now, QLocale::ShortFormat)},
                  {Report::tr("Made by"), QStringLiteral("Rillmark %1").arg(context.options.version)}};
    galley.table(std::move(table));
    if (file.changes_beside)
        galley.item(
            Report::tr("The file was in use: its last changes stood in the -wal file beside it, so the checksum is not "
                       "that of a "
                       "copy made for handing over. Save a copy and make the report of that one to have both agree."),
            ink::kWarning);
}

} // namespace rillmark::report
