// SPDX-License-Identifier: GPL-3.0-or-later
// The yardstick of the start: an empty Material ApplicationWindow of the same Qt, which ends at its first frame.
#include <QGuiApplication>
#include <QQmlApplicationEngine>
#include <QQuickWindow>

#include <cstdlib>

int main(int argc, char* argv[]) {
    QGuiApplication application(argc, argv);
    QQmlApplicationEngine engine;
    engine.loadData("import QtQuick\nimport QtQuick.Controls.Material\nApplicationWindow { width: 412; height: 892; visible: true }");
    auto* window = qobject_cast<QQuickWindow*>(engine.rootObjects().value(0));
    if (window == nullptr)
        return 1;
    QObject::connect(window, &QQuickWindow::frameSwapped, window, [] { std::_Exit(0); }, Qt::DirectConnection);
    return QGuiApplication::exec();
}
