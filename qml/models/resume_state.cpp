// SPDX-License-Identifier: GPL-3.0-or-later
#include "resume_state.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QSaveFile>

namespace {
constexpr int kWriteDelay_ms = 250;
}

ResumeState::ResumeState(const QString& file, QObject* parent) : QObject(parent), m_file(file) {
    QFile stored(m_file);
    if (stored.open(QIODevice::ReadOnly))
        m_values = QJsonDocument::fromJson(stored.readAll()).object();
    m_later.setSingleShot(true);
    m_later.setInterval(kWriteDelay_ms);
    connect(&m_later, &QTimer::timeout, this, &ResumeState::flush);
}

ResumeState::~ResumeState() {
    if (m_later.isActive())
        flush();
}

QString ResumeState::text(const QString& key, const QString& fallback) const {
    return m_values.value(key).toString(fallback);
}

void ResumeState::setText(const QString& key, const QString& text) {
    if (m_values.value(key) == QJsonValue(text))
        return;
    m_values.insert(key, text);
    m_later.start();
}

void ResumeState::remove(const QString& key) {
    if (!m_values.contains(key))
        return;
    m_values.remove(key);
    m_later.start();
}

void ResumeState::removeAll(const QString& prefix) {
    const QStringList keys = m_values.keys();
    for (const QString& key : keys)
        if (key.startsWith(prefix))
            remove(key);
}

void ResumeState::flush() {
    m_later.stop();
    QDir().mkpath(QFileInfo(m_file).path());
    QSaveFile file(m_file);
    if (!file.open(QIODevice::WriteOnly))
        return;
    file.write(QJsonDocument(m_values).toJson(QJsonDocument::Compact));
    file.commit();
}
