// SPDX-License-Identifier: GPL-3.0-or-later
#include "icon_paths.h"

#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>

IconPaths::IconPaths() {
    QFile file(QStringLiteral(":/icons/paths.json"));
    if (!file.open(QIODevice::ReadOnly))
        return;
    const QJsonObject all = QJsonDocument::fromJson(file.readAll()).object();
    for (auto icon = all.begin(); icon != all.end(); ++icon)
        m_paths.insert(icon.key(), icon.value().toString());
}

QString IconPaths::path(const QString& name) const {
    return m_paths.value(name);
}
