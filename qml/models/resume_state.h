// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHash>
#include <QJsonObject>
#include <QObject>
#include <QString>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

/// Where the person was: the place, what was open, half-typed text. Written to a small file beside the app's other data a
/// moment after each change, so that a killed program comes back to it. Readings are never kept here.
class ResumeState : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
public:
    explicit ResumeState(const QString& file, QObject* parent = nullptr);
    ~ResumeState() override;

    Q_INVOKABLE [[nodiscard]] QString text(const QString& key, const QString& fallback = {}) const;
    Q_INVOKABLE void setText(const QString& key, const QString& text);
    Q_INVOKABLE void remove(const QString& key);
    void removeAll(const QString& prefix);
    /// Writes now; called when the app is suspended or closed.
    void flush();

private:
    QString m_file;
    QJsonObject m_values;
    QTimer m_later;
};
