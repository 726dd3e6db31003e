// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_source.h"

#include <QIODevice>

#include <string_view>

namespace rillmark::platform {

namespace {

// Long enough for a gap inside an epoch at 4800 baud, short enough to be unseen (own choice).
constexpr std::chrono::milliseconds kQuiet{150};

} // namespace

NmeaSource::NmeaSource(const QString& name, std::optional<double> earliest_s, QObject* parent)
    : PositionSource(name, parent), m_reader(NmeaOptions{name.toStdString(), earliest_s}) {
    m_quiet.setSingleShot(true);
    m_quiet.setInterval(kQuiet);
    connect(&m_quiet, &QTimer::timeout, this, [this] { hand_on(m_reader.flush(clock_s())); });
}

void NmeaSource::take(const QByteArray& bytes) {
    if (bytes.isEmpty())
        return;
    m_quiet.start();
    hand_on(m_reader.feed(std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())), clock_s()));
}

void NmeaSource::finishStream() {
    m_quiet.stop();
    hand_on(m_reader.finish(clock_s()));
}

void NmeaSource::restartStream() {
    m_quiet.stop();
    m_reader.reset();
}

void NmeaSource::hand_on(const std::vector<PositionFix>& fixes) {
    for (const PositionFix& fix : fixes)
        deliver(fix);
}

NmeaStreamSource::NmeaStreamSource(const QString& name, QIODevice* device, QObject* parent)
    : NmeaSource(name, kEarliestLive_s, parent), m_device(device) {}

void NmeaStreamSource::open() {
    const std::string where = name().toStdString();
    if (!m_device || !m_device->isReadable()) {
        noteFailed(refusal("position.cannot_connect", where, {{"reason", tr("not open for reading").toStdString()}}));
        return;
    }
    restartStream();
    noteConnected();
    connect(m_device, &QIODevice::readyRead, this, [this] { take(m_device->readAll()); });
    const auto ended = [this, where] {
        finishStream();
        noteDisconnected(
            warning("position.connection_lost", where, {{"reason", tr("the stream was closed").toStdString()}}));
    };
    connect(m_device, &QIODevice::aboutToClose, this, ended);
    connect(m_device, &QIODevice::readChannelFinished, this, ended);
    take(m_device->readAll());
}

void NmeaStreamSource::close() {
    if (m_device)
        disconnect(m_device, nullptr, this, nullptr);
}

} // namespace rillmark::platform
