// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/password_store.h"

#include <qt6keychain/keychain.h>

namespace rillmark::sync {

namespace {

const QString kService = QStringLiteral("rillmark");

QString key_of(const QString& server, const QString& user) {
    return user + QLatin1Char(' ') + server;
}

} // namespace

void PasswordStore::read(const QString& server, const QString& user, std::function<void(const QString&)> then) {
    auto* job = new QKeychain::ReadPasswordJob(kService, this); // deletes itself
    job->setInsecureFallback(false);
    job->setKey(key_of(server, user));
    connect(job, &QKeychain::Job::finished, this,
            [job, then = std::move(then)] { then(job->error() == QKeychain::NoError ? job->textData() : QString()); });
    job->start();
}

void PasswordStore::write(const QString& server, const QString& user, const QString& password,
                          std::function<void(bool)> then) {
    auto* job = new QKeychain::WritePasswordJob(kService, this);
    job->setInsecureFallback(false);
    job->setKey(key_of(server, user));
    job->setTextData(password);
    connect(job, &QKeychain::Job::finished, this,
            [job, then = std::move(then)] { then(job->error() == QKeychain::NoError); });
    job->start();
}

void PasswordStore::forget(const QString& server, const QString& user) {
    auto* job = new QKeychain::DeletePasswordJob(kService, this);
    job->setInsecureFallback(false);
    job->setKey(key_of(server, user));
    job->start();
}

} // namespace rillmark::sync
