// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/odd_proxy.h"

#include <QRegularExpression>

namespace rillmark::testing {

namespace {

/// The method, where these bytes begin a request. Clients wait for an answer before they begin the next one, so that a
/// request starts a chunk of its own.
QByteArray method_of(const QByteArray& bytes) {
    for (const char* method : {"GET", "HEAD", "PUT", "MOVE", "MKCOL", "LOCK", "UNLOCK", "DELETE", "PROPFIND"})
        if (bytes.startsWith(QByteArray(method) + " /"))
            return method;
    return {};
}

} // namespace

OddProxy::OddProxy(std::uint16_t server_port) : m_server_port(server_port) {
    connect(&m_listener, &QTcpServer::newConnection, this, [this] { accept(); });
    m_listener.listen(QHostAddress::LocalHost);
}

std::string OddProxy::url() const {
    return "http://127.0.0.1:" + std::to_string(m_listener.serverPort()) + "/";
}

void OddProxy::cut_after(std::optional<qint64> up_bytes, std::optional<qint64> down_bytes) {
    m_up_left = up_bytes;
    m_down_left = down_bytes;
    m_up = 0;
    m_down = 0;
}

void OddProxy::behave() {
    cut_after({}, {});
    m_once.clear();
    m_always.clear();
    m_silent = false;
    m_asked.clear();
}

QByteArray OddProxy::status(int code, const QByteArray& headers, const QByteArray& body) {
    return "HTTP/1.1 " + QByteArray::number(code) + " Odd\r\nContent-Length: " + QByteArray::number(body.size()) +
           "\r\nConnection: close\r\n" + headers + "\r\n" + body;
}

void OddProxy::accept() {
    while (QTcpSocket* client = m_listener.nextPendingConnection()) {
        auto* server = new QTcpSocket(client);
        server->connectToHost(QHostAddress(QHostAddress::LocalHost), m_server_port);
        const Pair pair{client, server};
        connect(client, &QTcpSocket::readyRead, this, [this, pair] { from_client(pair); });
        connect(server, &QTcpSocket::readyRead, this, [this, pair] { from_server(pair); });
        connect(server, &QTcpSocket::disconnected, client, &QTcpSocket::disconnectFromHost);
        connect(client, &QTcpSocket::disconnected, server, &QTcpSocket::abort);
        connect(client, &QTcpSocket::disconnected, client, &QObject::deleteLater);
    }
}

std::optional<QByteArray> OddProxy::answer_for(const QByteArray& head) {
    const QByteArray method = method_of(head);
    if (method.isEmpty())
        return std::nullopt;
    m_asked.append(method);
    if (auto once = m_once.find(method); once != m_once.end() && !once->isEmpty()) {
        const QByteArray answer = once->takeFirst();
        return answer.isEmpty() ? std::nullopt : std::optional(answer);
    }
    if (m_always.contains(method))
        return m_always.value(method);
    return m_always.contains("*") ? std::optional(m_always.value("*")) : std::nullopt;
}

void OddProxy::answer_after_body(QTcpSocket* client, qint64 came_bytes) {
    const qint64 left = client->property("left").toLongLong() - came_bytes;
    client->setProperty("left", left);
    if (left > 0)
        return;
    client->write(client->property("answer").toByteArray());
    client->disconnectFromHost();
}

void OddProxy::from_client(const Pair& pair) {
    const QByteArray bytes = pair.client->readAll();
    if (m_silent)
        return;
    if (pair.client->property("answer").isValid())
        return answer_after_body(pair.client, bytes.size());
    if (const auto answer = answer_for(bytes)) {
        static const QRegularExpression length(QStringLiteral("\r\ncontent-length: *(\\d+)"),
                                               QRegularExpression::CaseInsensitiveOption);
        const qsizetype head_bytes = bytes.indexOf("\r\n\r\n") + 4;
        const QRegularExpressionMatch found = length.match(QString::fromLatin1(bytes.left(head_bytes)));
        pair.client->setProperty("answer", *answer);
        pair.client->setProperty("left", found.captured(1).toLongLong());
        return answer_after_body(pair.client, bytes.size() - head_bytes);
    }
    pass(pair.server, bytes, m_up, m_up_left, pair);
}

void OddProxy::from_server(const Pair& pair) {
    pass(pair.client, pair.server->readAll(), m_down, m_down_left, pair);
}

void OddProxy::pass(QTcpSocket* to, QByteArray bytes, qint64& count, std::optional<qint64>& left, const Pair& pair) {
    const bool cut = left && bytes.size() >= *left;
    if (cut)
        bytes.truncate(*left);
    if (left)
        *left -= bytes.size();
    count += bytes.size();
    to->write(bytes);
    if (to->state() == QAbstractSocket::ConnectedState)
        to->flush();
    if (!cut)
        return;
    left = 0; // and every later connection at its first byte
    pair.server->disconnectFromHost();
    pair.client->disconnectFromHost();
}

} // namespace rillmark::testing
