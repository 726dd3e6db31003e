// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_sentence.h"
#include "position/position_source.h"

#include <QByteArray>
#include <QCoreApplication>
#include <QElapsedTimer>
#include <QThread>

#include <fmt/format.h>

#include <functional>
#include <string>
#include <vector>

namespace rillmark::platform {

inline constexpr int kPatience_ms = 20000; // generous: the machine may be busy

/// Runs the event loop until `done` or out of patience; whether it is done.
inline bool wait_until(const std::function<bool()>& done, int patience_ms = kPatience_ms) {
    QElapsedTimer timer;
    timer.start();
    while (!done()) {
        if (timer.elapsed() > patience_ms)
            return false;
        QCoreApplication::processEvents(QEventLoop::AllEvents, 20);
        QThread::msleep(1);
    }
    return true;
}

/// One epoch of a receiver at an invented place, `second` after noon.
inline QByteArray epoch(int second) {
    const std::string body = fmt::format("GPGGA,1200{:02}.00,4443.875,N,11936.150,W,1,09,0.9,1042.0,M,-19.6,M,,", second);
    return QByteArray::fromStdString(fmt::format("${}*{:02X}\r\n", body, nmea_checksum(body)));
}

/// Keeps what a source says.
struct Listener {
    explicit Listener(PositionSource& source) {
        QObject::connect(&source, &PositionSource::fixReceived, &source,
                         [this](const PositionFix& fix) { fixes.push_back(fix); });
        QObject::connect(&source, &PositionSource::stateChanged, &source,
                         [this](const ReceiverState& state) { states.push_back(state); });
    }
    [[nodiscard]] bool saw(ReceiverStatus status) const {
        for (const ReceiverState& state : states)
            if (state.status == status)
                return true;
        return false;
    }
    std::vector<PositionFix> fixes;
    std::vector<ReceiverState> states;
};

} // namespace rillmark::platform
