// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app_model.h"

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QSize>
#include <QString>
#include <QStringList>

#include <memory>

class QAccessibleInterface;

/// Drives the real UI as a person would, by accessible names alone: finds what shows, presses it, types, reads.
class Journey {
public:
    /// Opens the app in a folder of its own.
    Journey(const QString& folder, QSize window_size);
    ~Journey();

    /// Each waits a little for the element to show; a failure is recorded with the names that do show.
    void tap(const QString& name);
    void type(const QString& name, const QString& text);
    void key(Qt::Key key);
    void see(const QString& text);
    void gone(const QString& text);
    void place(const QString& place);

    /// Controls that can be pressed and are smaller than that, or have no name.
    [[nodiscard]] QStringList small_controls(double least) const;
    [[nodiscard]] QStringList unnamed_controls() const;
    [[nodiscard]] bool shows(const QString& text) const;
    [[nodiscard]] AppModel& app() { return *m_app; }
    [[nodiscard]] QQuickWindow* window() const { return m_window; }
    /// What QML complained of.
    [[nodiscard]] const QStringList& complaints() const { return m_complaints; }

private:
    struct Found {
        QString name;
        QRect box; // of the part that shows, on the screen
        bool pressable = false;
        bool editable = false;
        QObject* object = nullptr;
    };
    [[nodiscard]] QList<Found> elements() const;
    [[nodiscard]] std::optional<Found> find(const QString& name, bool editable) const;
    std::optional<Found> wait_for(const QString& name, bool editable = false);
    /// Brings what lies outside a scrolling page into view.
    void reveal(const Found& found);
    [[nodiscard]] QString names() const;

    QStringList m_complaints;
    std::unique_ptr<AppModel> m_app;
    std::unique_ptr<QQmlApplicationEngine> m_engine;
    QQuickWindow* m_window = nullptr;
};
