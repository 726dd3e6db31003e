// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QHash>
#include <QList>
#include <QTcpServer>
#include <QTcpSocket>

#include <optional>
#include <string>

namespace rillmark::testing {

/// Stands between a client and a server on the loopback, and misbehaves as told. It lives in the client's event loop.
class OddProxy : public QObject {
public:
    explicit OddProxy(std::uint16_t server_port);

    [[nodiscard]] std::string url() const;

    /// Breaks every connection after so many more bytes towards the server, or from it.
    void cut_after(std::optional<qint64> up_bytes, std::optional<qint64> down_bytes);
    /// Bytes that went each way since the last cut_after().
    [[nodiscard]] qint64 up() const { return m_up; }
    [[nodiscard]] qint64 down() const { return m_down; }

    /// Answers the next request of a method in place of the server; an empty text passes it on. Once they are used up
    /// the request goes to the server.
    void instead(const QByteArray& method, const QList<QByteArray>& answers) { m_once[method] = answers; }
    /// The same for every request of the method; "*" for every request.
    void always(const QByteArray& method, const QByteArray& answer) { m_always[method] = answer; }
    /// Takes requests and never answers.
    void fall_silent() { m_silent = true; }
    void behave();
    /// The methods asked for, in order.
    [[nodiscard]] const QList<QByteArray>& asked() const { return m_asked; }

    /// A whole answer without a body, or with one.
    static QByteArray status(int code, const QByteArray& headers = {}, const QByteArray& body = {});

private:
    struct Pair {
        QTcpSocket* client = nullptr;
        QTcpSocket* server = nullptr;
    };
    void accept();
    void from_client(const Pair& pair);
    void from_server(const Pair& pair);
    /// Answers in place of the server once the whole body has come; sooner, the answer could be lost with the
    /// connection.
    static void answer_after_body(QTcpSocket* client, qint64 came_bytes);
    [[nodiscard]] std::optional<QByteArray> answer_for(const QByteArray& head);
    void pass(QTcpSocket* to, QByteArray bytes, qint64& count, std::optional<qint64>& left, const Pair& pair);

    QTcpServer m_listener;
    std::uint16_t m_server_port = 0;
    QHash<QByteArray, QList<QByteArray>> m_once;
    QHash<QByteArray, QByteArray> m_always;
    QList<QByteArray> m_asked;
    std::optional<qint64> m_up_left;
    std::optional<qint64> m_down_left;
    qint64 m_up = 0;
    qint64 m_down = 0;
    bool m_silent = false;
};

} // namespace rillmark::testing
