// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/position_source.h"

#include <QGeoPositionInfo>
#include <QGeoPositionInfoSource>

namespace rillmark::platform {

/// The fix that a device's position service means. It gives no quality (Unknown); its accuracy figure is taken as the
/// radius, or half height, that holds 68 % (what phones document; from memory, unconfirmed). Its altitude is taken for
/// a height above the ellipsoid or the sea as `altitude_is_ellipsoidal` says, because systems differ.
[[nodiscard]] PositionFix fix_from_system(const QGeoPositionInfo& info, const QString& source,
                                          bool altitude_is_ellipsoidal);

/// The device's own position service (Qt Positioning). Where there is none the state says so and the rest of the app
/// works on.
class SystemPositionSource : public PositionSource {
    Q_OBJECT
public:
    explicit SystemPositionSource(QObject* parent = nullptr);
    /// With a service given, for tests and for systems with several; takes it over.
    SystemPositionSource(QGeoPositionInfoSource* service, QObject* parent);

protected:
    void open() override;
    void close() override;

private:
    void take(const QGeoPositionInfo& info);
    void trouble(QGeoPositionInfoSource::Error error);

    QGeoPositionInfoSource* m_service; // owned as a child; may be null
    std::optional<double> m_last_time_s;
};

} // namespace rillmark::platform
