// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_source.h"

#include <QTcpSocket>

namespace rillmark::platform {

/// A receiver that sends NMEA over TCP, on the same network (a receiver's own access point, another phone). Connects
/// again by itself when the connection breaks or the receiver falls silent.
class NmeaTcpSource : public NmeaSource {
    Q_OBJECT
public:
    NmeaTcpSource(const QString& host, quint16 port, const Backoff& backoff = {}, QObject* parent = nullptr);
    ~NmeaTcpSource() override;

protected:
    void open() override;
    void close() override;

private:
    void attempt();
    void broken(const QString& reason);

    QString m_host;
    quint16 m_port;
    Backoff m_backoff;
    std::chrono::milliseconds m_wait;
    QTcpSocket m_socket;
    QTimer m_retry;
    QTimer m_silence; // a dead network often leaves the socket open for hours
};

} // namespace rillmark::platform
