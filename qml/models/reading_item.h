// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// One reading in a list: a fill, a vertical with its velocities, a shot with the clinometer.
class ReadingItem {
    Q_GADGET
    QML_VALUE_TYPE(readingItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
    Q_PROPERTY(double share MEMBER share CONSTANT FINAL) // of the discharge, verticals only
    Q_PROPERTY(QString percent MEMBER percent CONSTANT FINAL)
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id, text, detail;
    double share = 0.0;
    QString percent;
    bool struck = false;
    friend bool operator==(const ReadingItem&, const ReadingItem&) = default;
};
