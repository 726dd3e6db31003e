// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/system_position_source.h"

#include "waiting.h"

#include <QDateTime>
#include <QGeoCoordinate>

#include <gtest/gtest.h>

#include <limits>

namespace rillmark::platform {

namespace {

/// A position service that says what the test wants.
class FakeService : public QGeoPositionInfoSource {
public:
    FakeService() : QGeoPositionInfoSource(nullptr) {}
    [[nodiscard]] QGeoPositionInfo lastKnownPosition(bool /*satellites_only*/) const override { return {}; }
    [[nodiscard]] PositioningMethods supportedPositioningMethods() const override { return AllPositioningMethods; }
    [[nodiscard]] int minimumUpdateInterval() const override { return 0; }
    [[nodiscard]] Error error() const override { return NoError; }
    void startUpdates() override { started = true; }
    void stopUpdates() override { started = false; }
    void requestUpdate(int /*timeout*/) override {}
    bool started = false;
};

QGeoPositionInfo info(const QDateTime& time) {
    QGeoPositionInfo info(QGeoCoordinate(44.73, -119.6, 1042.0), time);
    info.setAttribute(QGeoPositionInfo::HorizontalAccuracy, 4.53);
    info.setAttribute(QGeoPositionInfo::VerticalAccuracy, 6.0);
    return info;
}

TEST(SystemPositionSource, TurnsARadiusToOneAxis) {
    const PositionFix fix = fix_from_system(info(QDateTime::fromMSecsSinceEpoch(1500, Qt::UTC)), "device", false);
    EXPECT_EQ(fix.time_utc, "1970-01-01T00:00:01.500Z");
    EXPECT_NEAR(*fix.u_east_m, 3.0, 0.01); // 68 % radius = 1.51 sigma
    EXPECT_EQ(fix.u_up_m, 6.0);
    EXPECT_EQ(fix.height_msl_m, 1042.0);
    EXPECT_FALSE(fix.height_ellipsoid_m);
    EXPECT_EQ(fix.quality, FixQuality::Unknown);
    const PositionFix ellipsoidal = fix_from_system(info(QDateTime::currentDateTimeUtc()), "device", true);
    EXPECT_EQ(ellipsoidal.height_ellipsoid_m, 1042.0);
    const PositionFix flat = fix_from_system(
        QGeoPositionInfo(QGeoCoordinate(44.73, -119.6), QDateTime::currentDateTimeUtc()), "device", true);
    EXPECT_FALSE(flat.height_ellipsoid_m);
    EXPECT_FALSE(flat.u_east_m);
    EXPECT_FALSE(plausible(fix_from_system({}, "device", true)).ok());
}

TEST(SystemPositionSource, OldAndRepeatedPositionsAreNotFixes) {
    auto* service = new FakeService; // the source takes it over
    SystemPositionSource source(service, nullptr);
    Listener listener(source);
    source.start();
    EXPECT_TRUE(service->started);
    EXPECT_EQ(source.state().status, ReceiverStatus::Searching);
    const QDateTime now = QDateTime::currentDateTimeUtc();
    emit service->positionUpdated(info(now.addSecs(-3600))); // the last known one
    EXPECT_TRUE(listener.fixes.empty());
    emit service->positionUpdated(info(now));
    emit service->positionUpdated(info(now));
    EXPECT_EQ(listener.fixes.size(), 1u);
    EXPECT_EQ(source.state().status, ReceiverStatus::Fixing);
    source.stop();
    EXPECT_FALSE(service->started);
}

TEST(SystemPositionSource, SaysWhatIsWrong) {
    auto* service = new FakeService;
    SystemPositionSource source(service, nullptr);
    source.start();
    emit service->errorOccurred(QGeoPositionInfoSource::AccessError);
    EXPECT_EQ(source.state().status, ReceiverStatus::Error);
    EXPECT_EQ(source.state().finding.code, "position.not_permitted");
    emit service->positionUpdated(info(QDateTime::currentDateTimeUtc())); // allowed meanwhile
    EXPECT_EQ(source.state().status, ReceiverStatus::Fixing);
    emit service->errorOccurred(QGeoPositionInfoSource::ClosedError);
    EXPECT_EQ(source.state().finding.code, "position.service_off");
}

TEST(SystemPositionSource, ADeviceWithoutAServiceSaysSo) {
    SystemPositionSource source(nullptr, nullptr);
    source.start();
    EXPECT_EQ(source.state().status, ReceiverStatus::NoReceiver);
    EXPECT_EQ(source.state().finding.code, "position.no_system_service");
}

} // namespace

} // namespace rillmark::platform
