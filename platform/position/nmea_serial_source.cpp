// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_serial_source.h"

#include <algorithm>

namespace rillmark::platform {

NmeaSerialSource::NmeaSerialSource(const QString& port, qint32 baud, const Backoff& backoff, QObject* parent)
    : NmeaSource(port, kEarliestLive_s, parent), m_backoff(backoff), m_wait(backoff.first) {
    m_port.setPortName(port);
    m_port.setBaudRate(baud);
    m_retry.setSingleShot(true);
    connect(&m_retry, &QTimer::timeout, this, &NmeaSerialSource::attempt);
    connect(&m_port, &QSerialPort::readyRead, this, [this] {
        m_wait = m_backoff.first;
        take(m_port.readAll());
    });
    connect(&m_port, &QSerialPort::errorOccurred, this, [this](QSerialPort::SerialPortError error) {
        // Framing and parity errors come with a wrong speed or a bad cable; the checksums deal with them.
        if (error == QSerialPort::ResourceError || error == QSerialPort::ReadError)
            broken(warning("position.connection_lost", name().toStdString(),
                           {{"reason", m_port.errorString().toStdString()}}));
    });
}

NmeaSerialSource::~NmeaSerialSource() {
    m_port.disconnect(this);
}

void NmeaSerialSource::open() {
    m_wait = m_backoff.first;
    attempt();
}

void NmeaSerialSource::close() {
    m_retry.stop();
    m_port.close();
}

void NmeaSerialSource::attempt() {
    if (m_port.open(QIODevice::ReadOnly)) {
        restartStream();
        noteConnected();
        return;
    }
    broken(warning("position.cannot_connect", name().toStdString(), {{"reason", m_port.errorString().toStdString()}}));
}

void NmeaSerialSource::broken(const Finding& why) {
    if (!running() || m_retry.isActive())
        return;
    m_retry.start(m_wait);
    m_wait = std::min(m_wait * 2, m_backoff.longest);
    if (m_port.isOpen()) {
        finishStream();
        m_port.close();
    }
    if (!running())
        return; // stopped by whoever got the last fix
    noteDisconnected(why);
}

} // namespace rillmark::platform
