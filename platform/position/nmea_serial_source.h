// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_source.h"

#include <QSerialPort>

namespace rillmark::platform {

/// A receiver on a serial port (USB, or a paired radio link that the system shows as a port), 8 data bits, no parity.
/// Opens the port again by itself when the cable was pulled.
class NmeaSerialSource : public NmeaSource {
    Q_OBJECT
public:
    /// Common speeds are 4800 (the standard's), 9600, 38400 and 115200.
    NmeaSerialSource(const QString& port, qint32 baud, const Backoff& backoff = {}, QObject* parent = nullptr);
    ~NmeaSerialSource() override;

protected:
    void open() override;
    void close() override;

private:
    void attempt();
    void broken(const Finding& why);

    QSerialPort m_port;
    Backoff m_backoff;
    std::chrono::milliseconds m_wait;
    QTimer m_retry;
};

} // namespace rillmark::platform
