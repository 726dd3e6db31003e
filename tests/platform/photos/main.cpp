// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGuiApplication>
#include <QLoggingCategory>

#include <gtest/gtest.h>

int main(int argc, char** argv) {
    testing::InitGoogleTest(&argc, argv);
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication app(argc, argv);                                     // event loop, image formats
    QLoggingCategory::setFilterRules(QStringLiteral("qt.gui.imageio*=false")); // damaged pictures on purpose
    return RUN_ALL_TESTS();
}
