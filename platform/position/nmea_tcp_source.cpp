// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_tcp_source.h"

#include <algorithm>

namespace rillmark::platform {

namespace {

// Receivers send at least once in some seconds even without a fix; after this long the connection is given up and made
// anew, and an attempt that has not succeeded is given up as well (own choice).
constexpr std::chrono::milliseconds kSilence{20000};

} // namespace

NmeaTcpSource::NmeaTcpSource(const QString& host, quint16 port, const Backoff& backoff, QObject* parent)
    : NmeaSource(QStringLiteral("%1:%2").arg(host).arg(port), kEarliestLive_s, parent), m_host(host), m_port(port),
      m_backoff(backoff), m_wait(backoff.first) {
    m_retry.setSingleShot(true);
    m_silence.setSingleShot(true);
    m_silence.setInterval(kSilence);
    connect(&m_retry, &QTimer::timeout, this, &NmeaTcpSource::attempt);
    connect(&m_silence, &QTimer::timeout, this, [this] { broken(tr("nothing was heard for a while")); });
    connect(&m_socket, &QTcpSocket::connected, this, [this] {
        restartStream();
        noteConnected();
    });
    connect(&m_socket, &QTcpSocket::readyRead, this, [this] {
        m_wait = m_backoff.first;
        m_silence.start();
        take(m_socket.readAll());
    });
    connect(&m_socket, &QTcpSocket::errorOccurred, this, [this] { broken(m_socket.errorString()); });
}

NmeaTcpSource::~NmeaTcpSource() {
    m_socket.disconnect(this); // closing the socket must not call a half-destroyed object
}

void NmeaTcpSource::open() {
    m_wait = m_backoff.first;
    attempt();
}

void NmeaTcpSource::close() {
    m_retry.stop();
    m_silence.stop();
    m_socket.abort();
}

void NmeaTcpSource::attempt() {
    m_socket.abort();
    m_silence.start();
    m_socket.connectToHost(m_host, m_port);
}

void NmeaTcpSource::broken(const QString& reason) {
    if (!running() || m_retry.isActive())
        return;
    const bool was_connected = state().status != ReceiverStatus::NoReceiver;
    m_silence.stop();
    finishStream();
    if (!running())
        return; // stopped by whoever got the last fix
    noteDisconnected(warning(was_connected ? "position.connection_lost" : "position.cannot_connect",
                             name().toStdString(), {{"reason", reason.toStdString()}}));
    m_retry.start(m_wait);
    m_wait = std::min(m_wait * 2, m_backoff.longest);
}

} // namespace rillmark::platform
