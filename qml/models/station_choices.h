// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/survey.h"

#include <QList>
#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// Something to choose by its name; `id` is a key as text, since JavaScript holds no 64-bit integers.
class Choice {
    Q_GADGET
    QML_VALUE_TYPE(choice)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
public:
    QString id;
    QString label;
    friend bool operator==(const Choice&, const Choice&) = default;
};

/// The stations that are not struck out, by name, in the order of logging.
[[nodiscard]] QList<Choice> station_choices(const rillmark::Survey& survey);

[[nodiscard]] inline QString key_text(rillmark::Id id) { return QString::number(id); }
/// 0 for a text that is no key.
[[nodiscard]] inline rillmark::Id key_of(const QString& text) { return text.toLongLong(); }
