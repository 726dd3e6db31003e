// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sync/request.h"

#include <QNetworkAccessManager>
#include <QNetworkReply>
#include <QString>

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>

namespace rillmark::sync {

/// Who we are to the server, and which server we believe.
struct Access {
    QString user;
    QString password;          // only ever in memory
    QByteArray trusted_sha256; // hexadecimal: a certificate trusted by hand; else only what the system trusts
    int silence_ms = 30'000;   // until a server from which nothing comes is given up
};

/// Bytes done and bytes in all (0: unknown) of what is on the way.
using TransferProgress = std::function<void(std::int64_t, std::int64_t)>;

/// Sends requests one at a time and waits for their answers; for a worker's thread. Redirects are not followed, cookies
/// and caches not used, certificates checked by the system's authorities.
class DavClient {
public:
    DavClient(Access access, const std::atomic<bool>& stop, TransferProgress progress = {});

    /// `file`: what Body::ClosedCopy sends, or where the body of a GET goes (made anew).
    /// The body of a list is kept in list().
    Answer perform(const Request& request, const std::filesystem::path& file);
    [[nodiscard]] const QByteArray& list() const { return m_list; }
    /// SHA-256 of the certificate that was not believed, as hexadecimal pairs; empty when there was none.
    [[nodiscard]] const QString& refused_fingerprint() const { return m_refused_fingerprint; }

private:
    void judge_certificate(QNetworkReply* reply, const QList<QSslError>& errors);
    [[nodiscard]] Answer answer_of(const QNetworkReply& reply) const;

    Access m_access;
    const std::atomic<bool>& m_stop;
    TransferProgress m_progress;
    QNetworkAccessManager m_network;
    QByteArray m_list;
    QString m_refused_fingerprint;
    QString m_certificate_problem;
};

} // namespace rillmark::sync
