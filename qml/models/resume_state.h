// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHash>
#include <QJsonObject>
#include <QObject>
#include <QString>
#include <QTimer>

/// Where the person was: the place, what was open, half-typed text. Written to a small file beside the app's other data a
/// moment after each change, so that a killed program comes back to it. Readings are never kept here.
class ResumeState : public QObject {
    Q_OBJECT
public:
    explicit ResumeState(const QString& file, QObject* parent = nullptr);
    ~ResumeState() override;

    [[nodiscard]] QString text(const QString& key, const QString& fallback = {}) const;
    void setText(const QString& key, const QString& text);
    void remove(const QString& key);
    /// Writes now; called when the app is suspended or closed.
    void flush();

private:
    QString m_file;
    QJsonObject m_values;
    QTimer m_later;
};
