// SPDX-License-Identifier: GPL-3.0-or-later
#include "position_feed.h"

#include "position/nmea_serial_source.h"
#include "position/nmea_tcp_source.h"
#include "position/replay_source.h"
#include "position/system_position_source.h"

#include <QTimer>

#include <cmath>

using namespace rillmark;
using namespace rillmark::platform;

namespace {

constexpr int kStart_ms = 400;
constexpr quint16 kNmeaPort = 10110;    // registered with IANA for NMEA 0183 sentences
constexpr qint32 kNmeaSpeed_baud = 4800; // of the standard

std::unique_ptr<PositionSource> source_for(const QString& receiver, const QString& address) {
    if (receiver == QLatin1String("tcp")) {
        const qsizetype colon = address.lastIndexOf(QLatin1Char(':'));
        const quint16 port = colon < 0 ? kNmeaPort : address.mid(colon + 1).toUShort();
        return std::make_unique<NmeaTcpSource>(address.left(colon), port);
    }
    if (receiver == QLatin1String("serial")) {
        const qsizetype at = address.lastIndexOf(QLatin1Char('@'));
        const qint32 speed = at < 0 ? kNmeaSpeed_baud : address.mid(at + 1).toInt();
        return std::make_unique<NmeaSerialSource>(address.left(at), speed);
    }
    if (receiver == QLatin1String("replay"))
        return std::make_unique<ReplaySource>(address, ReplayOptions{.speed = 1.0, .loop = true});
    return std::make_unique<SystemPositionSource>();
}

} // namespace

PositionFeed::PositionFeed(SettingsModel& settings, QObject* parent) : QObject(parent), m_settings(settings) {
    connect(&m_settings, &SettingsModel::changed, this, [this] {
        take_source();
        emit stateChanged();
    });
    // the first frame does not wait for the system's position service
    QTimer::singleShot(kStart_ms, this, &PositionFeed::take_source);
}

PositionFeed::~PositionFeed() = default;

void PositionFeed::take_source() {
    const QString wanted = m_settings.receiver() + QLatin1Char(' ') + m_settings.receiverAddress();
    if (wanted == m_taken)
        return;
    m_taken = wanted;
    m_latest.reset();
    m_source = source_for(m_settings.receiver(), m_settings.receiverAddress());
    connect(m_source.get(), &PositionSource::stateChanged, this, &PositionFeed::stateChanged);
    connect(m_source.get(), &PositionSource::fixReceived, this, [this](const PositionFix& fix) {
        m_latest = fix;
        if (m_averaging)
            m_collected.push_back(fix);
        emit fixReceived(fix);
        emit stateChanged();
    });
    m_source->start();
}

QString PositionFeed::state() const {
    if (!m_source)
        return tr("No position");
    const Formatter formatter = m_settings.formatter();
    const ReceiverState state = m_source->state();
    if (state.status != ReceiverStatus::Fixing) {
        const QString why = state.finding.code.empty() ? QString() : formatter.finding(state.finding).sentence;
        return why.isEmpty() ? tr("No position") : why;
    }
    const QString quality = Formatter::words("position.quality_" + std::string(fix_quality_id(state.quality)));
    const QString source = QString::fromStdString(state.source);
    if (!state.accuracy_m)
        return tr("%1: %2, %3 s old").arg(source, quality).arg(std::floor(state.age_s.value_or(0.0)));
    return tr("%1, ± %2, %3 s old, %4")
        .arg(quality, formatter.value(kCoverageFactor * *state.accuracy_m, Quantity::Length, 1))
        .arg(std::floor(state.age_s.value_or(0.0)))
        .arg(source);
}

bool PositionFeed::fresh() const {
    return m_latest && m_source && m_source->state().status == ReceiverStatus::Fixing;
}

void PositionFeed::beginAveraging() {
    m_collected.clear();
    m_averaging = true;
}

void PositionFeed::endAveraging() {
    m_averaging = false;
}

Expected<AveragedPosition> PositionFeed::average() const {
    return average_position(m_collected);
}
