// SPDX-License-Identifier: GPL-3.0-or-later
#include "sensors/pressure_source.h"

#include "fake_sensor.h"
#include "platform/position/waiting.h"

#include <gtest/gtest.h>

namespace rillmark::platform {

namespace {

struct PressureSourceTest : ::testing::Test {
    FakeSensor<QPressureReading> fake{QPressureSensor::sensorType, "test.barometer"};

    void deliver(double pressure_pa, double temperature_c = 0.0) {
        fake.backend().deliver([&](QPressureReading& reading) {
            reading.setPressure(pressure_pa);
            reading.setTemperature(temperature_c);
        });
    }
};

} // namespace

TEST(PressureSourceWithout, SaysThatThereIsNone) {
    PressureSource source;
    EXPECT_FALSE(source.available());
    EXPECT_EQ(source.start(kAdvisedPressureTime_s).error().code, "levels.no_pressure_sensor");
    EXPECT_EQ(source.averaged().error().code, "levels.pressure_too_few");
}

TEST_F(PressureSourceTest, AveragesOverTheTime) {
    PressureSource source;
    ASSERT_TRUE(source.available());
    EXPECT_FALSE(fake.backend().started);
    EXPECT_EQ(fake.backend().sensor()->dataRate(), 5);
    bool finished = false;
    QObject::connect(&source, &HeldSensor::finished, &source, [&] { finished = true; });
    ASSERT_TRUE(source.start(0.3).ok());
    EXPECT_TRUE(fake.backend().started);
    deliver(89998.0, 20.0);
    EXPECT_TRUE(wait_until([&] { return finished; }));
    EXPECT_FALSE(fake.backend().started);
    deliver(50000.0); // late: not taken
    EXPECT_EQ(source.count(), 1u);
    const Expected<AveragedPressure> pressure = source.averaged();
    ASSERT_TRUE(pressure.ok());
    EXPECT_EQ(pressure->pressure_pa.value, 89998.0);
    EXPECT_FALSE(pressure->temperature_c); // the sensor has no thermometer, its 20 degrees mean nothing
}

TEST_F(PressureSourceTest, MeanScatterAndUncertainty) {
    PressureSource source;
    ASSERT_TRUE(source.start(kAdvisedPressureTime_s).ok());
    for (int i = 0; i < 50; ++i)
        deliver(i % 2 == 0 ? 90001.0 : 89999.0);
    const Expected<AveragedPressure> pressure = source.averaged();
    EXPECT_NEAR(pressure->pressure_pa.value, 90000.0, 1e-9);
    EXPECT_EQ(pressure->pressure_pa.standard_uncertainty, kPressureNoise_pa);
    EXPECT_NEAR(pressure->scatter_pa, 1.0, 0.02);
    EXPECT_GE(pressure->seconds, 0.0);
    EXPECT_NEAR(source.averaged(0.01)->pressure_pa.standard_uncertainty, 1.0 / 7.0, 1e-3);
}

TEST_F(PressureSourceTest, TheSensorsOwnTemperatureWhereItHasOne) {
    PressureSource source;
    fake.backend().thermometer = true;
    ASSERT_TRUE(source.start(kAdvisedPressureTime_s).ok());
    deliver(90000.0, 21.0);
    deliver(90000.0, 22.0);
    EXPECT_NEAR(*source.averaged()->temperature_c, 21.5, 1e-12);
}

TEST_F(PressureSourceTest, ASilentSensorEndsWithNoReading) {
    PressureSource source;
    bool finished = false;
    QObject::connect(&source, &HeldSensor::finished, &source, [&] { finished = true; });
    ASSERT_TRUE(source.start(-1.0).ok()); // clamped
    EXPECT_TRUE(wait_until([&] { return finished; }));
    EXPECT_EQ(source.averaged().error().code, "levels.pressure_too_few");
}

} // namespace rillmark::platform
