// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/dav_client.h"

#include <QAuthenticator>
#include <QCryptographicHash>
#include <QEventLoop>
#include <QFile>
#include <QSslCertificate>
#include <QSslError>
#include <QTimer>

#include <memory>

namespace rillmark::sync {

namespace {

// A site of 1,000 stations and 200 photos of 4 MB is below 1 GB.
constexpr qint64 kMostFile_bytes = qint64{16} << 30;
constexpr qint64 kMostList_bytes = qint64{4} << 20;
constexpr qint64 kMostWords_bytes = qint64{64} << 10; // of any other answer; not looked at
constexpr int kLookForStop_ms = 50;

Fault fault_of(QNetworkReply::NetworkError error) {
    switch (error) {
    case QNetworkReply::HostNotFoundError:
    case QNetworkReply::ProxyNotFoundError:
        return Fault::NameUnknown;
    case QNetworkReply::ConnectionRefusedError:
    case QNetworkReply::TemporaryNetworkFailureError:
    case QNetworkReply::NetworkSessionFailedError:
    case QNetworkReply::UnknownNetworkError:
    case QNetworkReply::ProxyConnectionRefusedError:
        return Fault::Unreachable;
    case QNetworkReply::TimeoutError:
    case QNetworkReply::ProxyTimeoutError:
        return Fault::Timeout;
    case QNetworkReply::SslHandshakeFailedError:
        return Fault::Certificate;
    default:
        break;
    }
    return Fault::Cut;
}

/// The error lies in the connection, not in what an HTTP server answered.
bool is_of_the_connection(QNetworkReply::NetworkError error) {
    return error != QNetworkReply::NoError && error < QNetworkReply::ContentAccessDenied &&
           error != QNetworkReply::ProxyAuthenticationRequiredError;
}

std::string header(const QNetworkReply& reply, const char* name) {
    constexpr qsizetype kLongest = 2000;
    return reply.rawHeader(name).left(kLongest).toStdString();
}

/// Where the bytes of an answer go, with a limit of its own.
class Sink {
public:
    Sink(const Request& request, const std::filesystem::path& file, QByteArray& list)
        : m_verb(request.verb), m_list(list) {
        m_file.setFileName(QString::fromStdU16String(file.u16string()));
    }

    /// Takes what has come; false: no more of it.
    bool take(QNetworkReply& reply) {
        const QByteArray bytes = reply.readAll();
        m_count += bytes.size();
        const int status = reply.attribute(QNetworkRequest::HttpStatusCodeAttribute).toInt();
        if (m_verb == Verb::Get && status == 200)
            return take_file(bytes);
        if (m_verb == Verb::List)
            m_list += bytes;
        if (m_count <= (m_verb == Verb::List ? kMostList_bytes : kMostWords_bytes))
            return true;
        // the words of a refusal need no reading to the end; a list that does not end is a fault
        m_fault = m_verb == Verb::List ? Fault::TooLarge : Fault::None;
        return false;
    }

    void finish(Answer& answer) {
        if (m_verb != Verb::Get || answer.status != 200 || answer.fault != Fault::None)
            return;
        if (!m_file.isOpen() && !open())
            m_fault = Fault::NoRoom;
        if (m_file.isOpen() && !m_file.flush())
            m_fault = Fault::NoRoom;
        m_file.close();
        if (answer.length_bytes && *answer.length_bytes != m_count)
            m_fault = Fault::Cut;
        answer.body_sha256 = m_hash.result().toHex().toStdString();
    }
    [[nodiscard]] Fault fault() const { return m_fault; }
    [[nodiscard]] QString problem() const { return m_file.errorString(); }

private:
    bool open() { return m_file.open(QIODevice::WriteOnly | QIODevice::Truncate); }
    bool take_file(const QByteArray& bytes) {
        if (m_count > kMostFile_bytes)
            m_fault = Fault::TooLarge;
        else if ((!m_file.isOpen() && !open()) || m_file.write(bytes) != bytes.size())
            m_fault = Fault::NoRoom;
        m_hash.addData(bytes);
        return m_fault == Fault::None;
    }

    Verb m_verb;
    QByteArray& m_list;
    QFile m_file;
    QCryptographicHash m_hash{QCryptographicHash::Sha256};
    qint64 m_count = 0;
    Fault m_fault = Fault::None;
};

QNetworkRequest prepared(const Request& request) {
    QNetworkRequest prepared(QUrl::fromEncoded(QByteArray::fromStdString(request.url), QUrl::StrictMode));
    prepared.setAttribute(QNetworkRequest::RedirectPolicyAttribute, QNetworkRequest::ManualRedirectPolicy);
    prepared.setAttribute(QNetworkRequest::CookieLoadControlAttribute, QNetworkRequest::Manual);
    prepared.setAttribute(QNetworkRequest::CookieSaveControlAttribute, QNetworkRequest::Manual);
    prepared.setAttribute(QNetworkRequest::CacheLoadControlAttribute, QNetworkRequest::AlwaysNetwork);
    prepared.setAttribute(QNetworkRequest::Http2AllowedAttribute, false);
    prepared.setRawHeader("Accept-Encoding", "identity"); // the bytes as they lie there, with their own tag
    prepared.setRawHeader("Cache-Control", "no-cache");
    prepared.setRawHeader("User-Agent", "rillmark");
    if (request.body == Body::ClosedCopy)
        prepared.setRawHeader("Content-Type",
                              "application/geopackage+sqlite3"); // OGC 12-128r18, annex on the media type
    else if (request.body != Body::None)
        prepared.setRawHeader("Content-Type", "application/xml; charset=\"utf-8\"");
    for (const auto& [name, value] : request.headers)
        prepared.setRawHeader(QByteArray::fromStdString(name), QByteArray::fromStdString(value));
    return prepared;
}

} // namespace

DavClient::DavClient(Access access, const std::atomic<bool>& stop, TransferProgress progress)
    : m_access(std::move(access)), m_stop(stop), m_progress(std::move(progress)) {
    m_network.setAutoDeleteReplies(false);
    QObject::connect(&m_network, &QNetworkAccessManager::authenticationRequired, &m_network,
                     [this](QNetworkReply* reply, QAuthenticator* authenticator) {
                         // asked a second time for the same request: it was not taken, and 401 is the answer
                         if (m_access.user.isEmpty() || reply->property("asked").toBool())
                             return;
                         reply->setProperty("asked", true);
                         authenticator->setUser(m_access.user);
                         authenticator->setPassword(m_access.password);
                     });
}

void DavClient::judge_certificate(QNetworkReply* reply, const QList<QSslError>& errors) {
    const QSslCertificate shown = reply->sslConfiguration().peerCertificate();
    const QByteArray digest = shown.digest(QCryptographicHash::Sha256);
    if (!shown.isNull() && !m_access.trusted_sha256.isEmpty() && digest.toHex() == m_access.trusted_sha256.toLower()) {
        reply->ignoreSslErrors(errors); // this very certificate was trusted by hand
        return;
    }
    m_refused_fingerprint = QString::fromLatin1(digest.toHex(':').toUpper());
    m_certificate_problem = errors.isEmpty() ? QString() : errors.first().errorString();
}

Answer DavClient::perform(const Request& request, const std::filesystem::path& file) {
    m_list.clear();
    m_certificate_problem.clear();
    QFile upload(QString::fromStdU16String(file.u16string()));
    if (request.body == Body::ClosedCopy && !upload.open(QIODevice::ReadOnly)) {
        Answer none;
        none.fault = Fault::NoRoom;
        none.detail = upload.errorString().toStdString();
        return none;
    }

    const QNetworkRequest wire = prepared(request);
    const QByteArray method(method_name(request.verb));
    const auto send = [&]() -> QNetworkReply* {
        if (request.verb == Verb::Get)
            return m_network.get(wire);
        if (request.verb == Verb::Head)
            return m_network.head(wire);
        if (request.body == Body::ClosedCopy)
            return m_network.sendCustomRequest(wire, method, &upload);
        return m_network.sendCustomRequest(wire, method, QByteArray::fromStdString(body_text(request.body)));
    };
    const std::unique_ptr<QNetworkReply> reply(send());
    Sink sink(request, file, m_list);
    QEventLoop loop;
    QTimer silence;
    silence.setSingleShot(true);
    QTimer stop;
    Fault ours = Fault::None;
    const auto give_up = [&](Fault why) {
        if (ours == Fault::None)
            ours = why;
        reply->abort();
    };
    const auto alive = [&](qint64 done, qint64 total) {
        silence.start(m_access.silence_ms);
        if (m_progress && (request.verb == Verb::Get || request.body == Body::ClosedCopy))
            m_progress(done, std::max<qint64>(total, 0));
    };
    bool enough = false;
    QObject::connect(reply.get(), &QNetworkReply::readyRead, &loop, [&] {
        if (!enough && !sink.take(*reply)) {
            enough = true;
            reply->abort();
        }
    });
    QObject::connect(reply.get(), &QNetworkReply::sslErrors, &loop,
                     [&](const QList<QSslError>& errors) { judge_certificate(reply.get(), errors); });
    QObject::connect(reply.get(), &QNetworkReply::downloadProgress, &loop, alive);
    QObject::connect(reply.get(), &QNetworkReply::uploadProgress, &loop, alive);
    QObject::connect(reply.get(), &QNetworkReply::finished, &loop, &QEventLoop::quit);
    QObject::connect(&silence, &QTimer::timeout, &loop, [&] { give_up(Fault::Timeout); });
    QObject::connect(&stop, &QTimer::timeout, &loop, [&] {
        if (m_stop)
            give_up(Fault::Cancelled);
    });
    silence.start(m_access.silence_ms);
    stop.start(kLookForStop_ms);
    if (!reply->isFinished())
        loop.exec();

    Answer answer = answer_of(*reply);
    if (enough && sink.fault() == Fault::None)
        answer.fault = Fault::None; // we stopped listening, its status stands
    if (ours != Fault::None)
        answer.fault = ours;
    if (!enough && answer.fault == Fault::None)
        sink.take(*reply);
    sink.finish(answer);
    if (sink.fault() != Fault::None && ours == Fault::None) {
        answer.fault = sink.fault();
        answer.detail = sink.problem().toStdString();
    }
    return answer;
}

Answer DavClient::answer_of(const QNetworkReply& reply) const {
    Answer answer;
    answer.status = reply.attribute(QNetworkRequest::HttpStatusCodeAttribute).toInt();
    answer.etag = header(reply, "ETag");
    answer.last_modified = header(reply, "Last-Modified");
    answer.date = header(reply, "Date");
    answer.content_type = header(reply, "Content-Type");
    answer.location = header(reply, "Location");
    answer.retry_after = header(reply, "Retry-After");
    answer.lock_token = header(reply, "Lock-Token");
    bool counted = false;
    if (const qint64 length = reply.rawHeader("Content-Length").toLongLong(&counted); counted && length >= 0)
        answer.length_bytes = length;
    if (is_of_the_connection(reply.error()) || answer.status == 0) {
        answer.fault = m_certificate_problem.isEmpty() ? fault_of(reply.error()) : Fault::Certificate;
        answer.detail = (m_certificate_problem.isEmpty() ? reply.errorString() : m_certificate_problem).toStdString();
    }
    return answer;
}

} // namespace rillmark::sync
