// SPDX-License-Identifier: GPL-3.0-or-later
#include "handover_folder.h"

#include <QDate>
#include <QDir>
#include <QFileInfo>

QString free_handover_path(const QString& project, const QString& part, const QString& ending) {
    const QFileInfo file(project);
    const QDir folder(file.absolutePath() + QStringLiteral("/handover"));
    folder.mkpath(QStringLiteral("."));
    QString stem = QStringLiteral("%1 %2").arg(file.completeBaseName(), QDate::currentDate().toString(Qt::ISODate));
    if (!part.isEmpty())
        stem += QLatin1Char(' ') + part;
    QString name = stem + ending;
    for (int n = 2; folder.exists(name); ++n)
        name = QStringLiteral("%1 %2%3").arg(stem).arg(n).arg(ending);
    return folder.filePath(name);
}
