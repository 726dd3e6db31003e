// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>

#include <functional>

namespace rillmark::sync {

/// The system's key store, by server and user. Where there is none, nothing is kept: no file stands in for it.
class PasswordStore : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;

    /// The password, or an empty text where none is kept or no store answers.
    void read(const QString& server, const QString& user, std::function<void(const QString&)> then);
    /// Tells whether it was kept.
    void write(const QString& server, const QString& user, const QString& password, std::function<void(bool)> then);
    void forget(const QString& server, const QString& user);
};

} // namespace rillmark::sync
