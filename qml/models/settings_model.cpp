// SPDX-License-Identifier: GPL-3.0-or-later
#include "settings_model.h"

#include <QGuiApplication>
#include <QLocale>
#include <QPalette>

#include <algorithm>

SettingsModel::SettingsModel(QObject* parent) : QObject(parent) {}

void SettingsModel::put(const QString& key, const QVariant& value) {
    if (m_store.value(key) == value)
        return;
    m_store.setValue(key, value);
    emit changed();
}

bool SettingsModel::metric() const {
    const bool by_locale = QLocale().measurementSystem() == QLocale::MetricSystem;
    return m_store.value(QStringLiteral("metric"), by_locale).toBool();
}
void SettingsModel::setMetric(bool metric) {
    put(QStringLiteral("metric"), metric);
}

QString SettingsModel::theme() const {
    return m_store.value(QStringLiteral("theme"), QStringLiteral("system")).toString();
}
void SettingsModel::setTheme(const QString& theme) {
    put(QStringLiteral("theme"), theme);
}

bool SettingsModel::night() const {
    if (theme() != QLatin1String("system"))
        return theme() == QLatin1String("night");
    const QPalette palette = QGuiApplication::palette();
    return palette.color(QPalette::Window).lightness() < palette.color(QPalette::WindowText).lightness();
}

int SettingsModel::textPercent() const {
    return std::clamp(m_store.value(QStringLiteral("textPercent"), 100).toInt(), 100, 200);
}
void SettingsModel::setTextPercent(int percent) {
    put(QStringLiteral("textPercent"), std::clamp(percent, 100, 200));
}

QString SettingsModel::receiver() const {
    return m_store.value(QStringLiteral("receiver"), QStringLiteral("system")).toString();
}
void SettingsModel::setReceiver(const QString& receiver) {
    put(QStringLiteral("receiver"), receiver);
}

QString SettingsModel::receiverAddress() const {
    return m_store.value(QStringLiteral("receiverAddress")).toString();
}
void SettingsModel::setReceiverAddress(const QString& address) {
    put(QStringLiteral("receiverAddress"), address.trimmed());
}

int SettingsModel::averagingSeconds() const {
    return std::clamp(m_store.value(QStringLiteral("averagingSeconds"), 60).toInt(), 5, 3600);
}
void SettingsModel::setAveragingSeconds(int seconds) {
    put(QStringLiteral("averagingSeconds"), std::clamp(seconds, 5, 3600));
}

QString SettingsModel::observer() const {
    return m_store.value(QStringLiteral("observer")).toString();
}
void SettingsModel::setObserver(const QString& observer) {
    put(QStringLiteral("observer"), observer.trimmed());
}

Formatter SettingsModel::formatter() const {
    rillmark::DisplayOptions options;
    options.system = metric() ? rillmark::UnitSystem::Metric : rillmark::UnitSystem::UsCustomary;
    const QLocale locale;
    options.number.decimal = locale.decimalPoint() == QLatin1String(",") ? ',' : '.';
    return Formatter(options);
}
