// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHash>
#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// The strokes of our icons, from assets/icons/paths.json: 24 x 24, SVG path data.
class IconPaths : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_SINGLETON
public:
    IconPaths();
    Q_INVOKABLE QString path(const QString& name) const;

private:
    QHash<QString, QString> m_paths;
};
