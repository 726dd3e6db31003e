// SPDX-License-Identifier: GPL-3.0-or-later
// Wiring only: builds the objects, joins them, loads the UI.
#include "app_model.h"
#include "photo_provider.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QFileInfo>
#include <QIcon>
#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QStandardPaths>

#include <cstdlib>

int main(int argc, char* argv[]) {
    // Qt Charts draws through widgets' graphics view, which wants a QApplication
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("rillmark"));
    QCoreApplication::setApplicationName(QStringLiteral("rillmark"));
    QCoreApplication::setApplicationVersion(QStringLiteral(RILLMARK_VERSION));
    QGuiApplication::setWindowIcon(QIcon(QStringLiteral(":/icons/rillmark.svg")));

    QCommandLineParser arguments;
    arguments.setApplicationDescription(
        QCoreApplication::translate("main", "Surveys a creek for small hydropower: head, flow and watts on the spot."));
    arguments.addHelpOption();
    arguments.addVersionOption();
    arguments.addPositionalArgument(QStringLiteral("file"), QCoreApplication::translate("main", "A project file to open."));
    const QCommandLineOption data_folder(
        QStringLiteral("data-folder"), QCoreApplication::translate("main", "Where new sites and the app's state are kept."),
        QStringLiteral("folder"), QStandardPaths::writableLocation(QStandardPaths::AppDataLocation));
    const QCommandLineOption self_test(QStringLiteral("self-test"),
                                       QCoreApplication::translate("main", "Load every page, then quit: 0 when none complains."));
    const QCommandLineOption first_frame(QStringLiteral("first-frame"),
                                         QCoreApplication::translate("main", "End at the first frame: for measuring the start."));
    arguments.addOptions({data_folder, self_test, first_frame});
    arguments.process(application);

    AppModel app(arguments.value(data_folder));
    if (const QStringList files = arguments.positionalArguments(); !files.isEmpty())
        app.openFile(QFileInfo(files.first()).absoluteFilePath());
    else
        app.resumeLast();
    QObject::connect(&application, &QGuiApplication::applicationStateChanged, &app, [&app](Qt::ApplicationState state) {
        if (state != Qt::ApplicationActive)
            app.resume()->flush();
    });

    QQmlApplicationEngine engine;
    bool complained = false;
    QObject::connect(&engine, &QQmlEngine::warnings, &engine, [&complained](const QList<QQmlError>& warnings) {
        complained = complained || !warnings.isEmpty();
    });
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    engine.addImageProvider(QStringLiteral("photos"), new PhotoProvider(app.project())); // the engine owns it
    engine.setInitialProperties({{QStringLiteral("app"), QVariant::fromValue(&app)},
                                 {QStringLiteral("selfTest"), arguments.isSet(self_test)}});
    engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Rillmark/Ui/Main.qml")));
    if (engine.rootObjects().isEmpty())
        return 1;
    if (auto* window = qobject_cast<QQuickWindow*>(engine.rootObjects().first()); window && arguments.isSet(first_frame))
        // at once: the measure is the start, not what comes after it
        QObject::connect(window, &QQuickWindow::frameSwapped, window, [] { std::_Exit(0); }, Qt::DirectConnection);
    const int status = QApplication::exec();
    return arguments.isSet(self_test) && complained ? 1 : status;
}
