// SPDX-License-Identifier: GPL-3.0-or-later
#include "handover_place.h"

#include <QDate>
#include <QDir>
#include <QFileInfo>

#include <algorithm>

QString handover_place(const QString& project_file, const QString& part) {
    const QFileInfo file(project_file);
    const QDir folder(file.absolutePath() + QStringLiteral("/handover"));
    folder.mkpath(QStringLiteral("."));
    QString stem = QStringLiteral("%1 %2").arg(file.completeBaseName(), QDate::currentDate().toString(Qt::ISODate));
    if (!part.isEmpty())
        stem += QLatin1Char(' ') + part;
    const QStringList there = folder.entryList(QDir::AllEntries | QDir::NoDotAndDotDot);
    const auto taken = [&there](const QString& name) {
        return std::ranges::any_of(there, [&](const QString& one) {
            return one == name || one.startsWith(name + QLatin1Char('.'));
        });
    };
    QString name = stem;
    for (int n = 2; taken(name); ++n)
        name = QStringLiteral("%1 %2").arg(stem).arg(n);
    return folder.filePath(name);
}
