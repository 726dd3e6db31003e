// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QQuickItem>
#include <QtQml/qqmlregistration.h>

/// Keeps the system's keyboard down for a field that our own keypad serves; a hardware keyboard still works.
class QuietInput : public QObject {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QQuickItem* target READ target WRITE setTarget NOTIFY targetChanged)
public:
    using QObject::QObject;
    [[nodiscard]] QQuickItem* target() const { return m_target; }
    void setTarget(QQuickItem* target) {
        if (m_target == target)
            return;
        m_target = target;
        if (m_target != nullptr)
            m_target->setFlag(QQuickItem::ItemAcceptsInputMethod, false);
        emit targetChanged();
    }

signals:
    void targetChanged();

private:
    QQuickItem* m_target = nullptr;
};
