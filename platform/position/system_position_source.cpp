// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/system_position_source.h"

#include "position/accuracy.h"

#include <QGeoCoordinate>

#include <cmath>

namespace rillmark::platform {

namespace {

constexpr int kUpdateEvery_ms = 1000;
constexpr double kServiceProbability = 0.68;

// Android's location gives heights above the WGS 84 ellipsoid; the others give heights above sea level (from memory of
// their documentation, unconfirmed).
#ifdef Q_OS_ANDROID
constexpr bool kAltitudeIsEllipsoidal = true;
#else
constexpr bool kAltitudeIsEllipsoidal = false;
#endif

} // namespace

PositionFix fix_from_system(const QGeoPositionInfo& info, const QString& source, bool altitude_is_ellipsoidal) {
    const QGeoCoordinate place = info.coordinate();
    PositionFix fix;
    fix.source = source.toStdString();
    constexpr double kMillisecondsPerSecond = 1000.0;
    fix.time_s = static_cast<double>(info.timestamp().toMSecsSinceEpoch()) / kMillisecondsPerSecond;
    fix.time_utc = iso_utc(fix.time_s);
    fix.quality = info.isValid() ? FixQuality::Unknown : FixQuality::None;
    fix.latitude_deg = place.latitude();
    fix.longitude_deg = place.longitude();
    if (place.type() == QGeoCoordinate::Coordinate3D)
        (altitude_is_ellipsoidal ? fix.height_ellipsoid_m : fix.height_msl_m) = place.altitude();
    if (info.hasAttribute(QGeoPositionInfo::HorizontalAccuracy))
        fix.u_east_m = fix.u_north_m =
            axis_from_radius(info.attribute(QGeoPositionInfo::HorizontalAccuracy), kServiceProbability);
    if (info.hasAttribute(QGeoPositionInfo::VerticalAccuracy))
        fix.u_up_m = info.attribute(QGeoPositionInfo::VerticalAccuracy); // 68 % of one axis is one sigma
    return fix;
}

SystemPositionSource::SystemPositionSource(QObject* parent)
    : SystemPositionSource(QGeoPositionInfoSource::createDefaultSource(nullptr), parent) {}

SystemPositionSource::SystemPositionSource(QGeoPositionInfoSource* service, QObject* parent)
    : PositionSource(tr("This device"), parent), m_service(service) {
    if (m_service == nullptr)
        return;
    m_service->setParent(this);
    m_service->setUpdateInterval(kUpdateEvery_ms);
    m_service->setPreferredPositioningMethods(QGeoPositionInfoSource::SatellitePositioningMethods);
    connect(m_service, &QGeoPositionInfoSource::positionUpdated, this, &SystemPositionSource::take);
    connect(m_service, &QGeoPositionInfoSource::errorOccurred, this, &SystemPositionSource::trouble);
}

void SystemPositionSource::open() {
    if (m_service == nullptr) {
        noteDisconnected(note("position.no_system_service"));
        return;
    }
    m_last_time_s.reset();
    noteConnected();
    m_service->startUpdates();
}

void SystemPositionSource::close() {
    if (m_service != nullptr)
        m_service->stopUpdates();
}

void SystemPositionSource::take(const QGeoPositionInfo& info) {
    const PositionFix fix = fix_from_system(info, name(), kAltitudeIsEllipsoidal);
    // Some services send the last known position at once, and again: only a new time is a new fix.
    if (m_last_time_s && fix.time_s <= *m_last_time_s)
        return;
    if (clock_s() - fix.time_s > kLostAfter_s)
        return;
    m_last_time_s = fix.time_s;
    deliver(fix);
}

void SystemPositionSource::trouble(QGeoPositionInfoSource::Error error) {
    const std::string where = name().toStdString();
    switch (error) {
    case QGeoPositionInfoSource::AccessError: noteFailed(refusal("position.not_permitted", where)); return;
    case QGeoPositionInfoSource::ClosedError:
    case QGeoPositionInfoSource::UnknownSourceError: noteFailed(refusal("position.service_off", where)); return;
    case QGeoPositionInfoSource::UpdateTimeoutError: // the watch sees the silence by itself
    case QGeoPositionInfoSource::NoError: return;
    }
}

} // namespace rillmark::platform
