// SPDX-License-Identifier: GPL-3.0-or-later
#include "sensors/tilt_source.h"

#include "fake_sensor.h"
#include "platform/position/waiting.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

namespace rillmark::platform {

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

struct TiltSourceTest : ::testing::Test {
    FakeSensor<QAccelerometerReading> fake{QAccelerometer::sensorType, "test.accelerometer"};

    void hold(double elevation_rad, int count = 40) {
        for (int i = 0; i < count; ++i)
            fake.backend().deliver([&](QAccelerometerReading& reading) {
                const double angle = elevation_rad + (i % 2 == 0 ? 0.2 : -0.2) * kDegree;
                reading.setX(0.0);
                reading.setY(9.81 * std::sin(angle));
                reading.setZ(9.81 * std::cos(angle));
            });
    }
};

} // namespace

TEST(TiltSourceWithout, ADeskComputerHasNoTilt) {
    // where Qt's stand-in for a desk computer is installed it is passed over; where it is not there is none at all
    TiltSource source;
    EXPECT_FALSE(source.available());
    EXPECT_EQ(source.start(kSightHold_s).error().code, "levels.no_tilt_sensor");
    EXPECT_FALSE(source.running());
    EXPECT_EQ(source.held().error().code, "levels.tilt_too_few");
}

TEST(TiltSourceWithout, AStandInIsPassedOver) {
    const FakeSensor<QAccelerometerReading> stand_in(QAccelerometer::sensorType, "dummy.test");
    const TiltSource source;
    EXPECT_FALSE(source.available());
}

TEST_F(TiltSourceTest, AveragesWhatIsHeld) {
    TiltSource source;
    ASSERT_TRUE(source.available());
    EXPECT_FALSE(fake.backend().started); // no drain on the battery before it is needed
    EXPECT_FALSE(source.elevation_now_rad());
    int sampled = 0;
    QObject::connect(&source, &HeldSensor::sampled, &source, [&] { ++sampled; });
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    EXPECT_TRUE(source.running());
    EXPECT_TRUE(fake.backend().started);
    hold(12.0 * kDegree);
    source.stop();
    EXPECT_FALSE(fake.backend().started);
    EXPECT_EQ(sampled, 40);
    EXPECT_EQ(source.count(), 40u);
    const Expected<AveragedTilt> tilt = source.held();
    ASSERT_TRUE(tilt.ok());
    EXPECT_NEAR(tilt->elevation_rad.value, 12.0 * kDegree, 1e-6);
    EXPECT_NEAR(tilt->scatter_rad, 0.2 * kDegree, 0.01 * kDegree);
    EXPECT_NEAR(*source.elevation_now_rad(), 11.8 * kDegree, 1e-6);
}

TEST_F(TiltSourceTest, AsksForTheNearestRate) {
    const TiltSource source;
    EXPECT_EQ(fake.backend().sensor()->dataRate(), 60); // 50 lies between what the fake can do
}

TEST_F(TiltSourceTest, StartingAgainForgets) {
    TiltSource source;
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    hold(5.0 * kDegree);
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    EXPECT_EQ(source.count(), 0u);
    hold(-3.0 * kDegree);
    EXPECT_NEAR(source.held()->elevation_rad.value, -3.0 * kDegree, 1e-6);
}

TEST_F(TiltSourceTest, NothingIsTakenAfterTheEnd) {
    TiltSource source;
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    source.stop();
    hold(5.0 * kDegree);
    EXPECT_EQ(source.count(), 0u);
}

TEST_F(TiltSourceTest, StopsByItselfWhenTheTimeHasPassed) {
    TiltSource source;
    bool finished = false;
    QObject::connect(&source, &HeldSensor::finished, &source, [&] { finished = true; });
    ASSERT_TRUE(source.start(0.1).ok());
    EXPECT_TRUE(wait_until([&] { return finished; }));
    EXPECT_FALSE(source.running());
    EXPECT_FALSE(fake.backend().started);
}

TEST_F(TiltSourceTest, AMovingDeviceIsRefused) {
    TiltSource source;
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    for (int i = 0; i < 40; ++i)
        fake.backend().deliver([&](QAccelerometerReading& reading) { reading.setZ(i % 2 == 0 ? 9.0 : 10.6); });
    EXPECT_EQ(source.held().error().code, "levels.tilt_moving");
}

TEST_F(TiltSourceTest, ATabletMayHaveItsLongEdgeAcross) {
    EXPECT_EQ(long_edge(Qt::PortraitOrientation), SightAxis::TowardsTop);
    EXPECT_EQ(long_edge(Qt::PrimaryOrientation), SightAxis::TowardsTop);
    TiltSource source(long_edge(Qt::LandscapeOrientation));
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    fake.backend().deliver([](QAccelerometerReading& reading) {
        reading.setX(3.0);
        reading.setZ(4.0);
    });
    EXPECT_NEAR(*source.elevation_now_rad(), std::asin(0.6), 1e-12);
}

TEST_F(TiltSourceTest, ASensorThatHaltsUnsaidEndsInTime) {
    TiltSource source;
    bool finished = false;
    QObject::connect(&source, &HeldSensor::finished, &source, [&] { finished = true; });
    ASSERT_TRUE(source.start(0.1).ok());
    hold(6.0 * kDegree);
    fake.backend().halt();
    EXPECT_TRUE(wait_until([&] { return finished; }));
    EXPECT_FALSE(source.running());
    EXPECT_TRUE(source.held().ok());
}

TEST_F(TiltSourceTest, FailingIsToldAndKeepsTheSamples) {
    TiltSource source;
    std::vector<std::string> told;
    QObject::connect(&source, &HeldSensor::failed, &source, [&](const Finding& why) { told.push_back(why.code); });
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    hold(5.0 * kDegree);
    fake.backend().fail(7);
    EXPECT_FALSE(source.running());
    EXPECT_TRUE(source.held().ok());
    EXPECT_EQ(told, std::vector<std::string>{"levels.sensor_failed"});
    EXPECT_TRUE(source.start(kSightHold_s).ok()); // may be allowed meanwhile
    source.stop();
    fake.backend().refuses = true;
    EXPECT_EQ(source.start(kSightHold_s).error().code, "levels.sensor_failed");
    EXPECT_FALSE(source.running());
    fake.backend().refuses = false;
    fake.backend().fails_at_once = true;
    EXPECT_EQ(source.start(kSightHold_s).error().code, "levels.sensor_failed");
    EXPECT_FALSE(fake.backend().started);
    EXPECT_EQ(told.size(), 1u); // a refused start is told by its result alone
}

TEST(TiltSourceComingAndGoing, SaysSo) {
    TiltSource source;
    std::vector<bool> told;
    QObject::connect(&source, &HeldSensor::availableChanged, &source, [&](bool there) { told.push_back(there); });
    FakeSensor<QAccelerometerReading> fake(QAccelerometer::sensorType, "test.accelerometer");
    EXPECT_TRUE(source.available());
    ASSERT_TRUE(source.start(kSightHold_s).ok());
    fake.unplug();
    EXPECT_FALSE(source.available());
    EXPECT_FALSE(source.running());
    EXPECT_EQ(told, (std::vector<bool>{true, false}));
}

} // namespace rillmark::platform
