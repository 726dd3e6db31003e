// SPDX-License-Identifier: GPL-3.0-or-later
// Opening a project of 5,000 stations and 100,000 fixes to a usable screen, and the cost of panning its plan.
#include "big_site.h"

#include "app_model.h"
#include "photo_provider.h"
#include "plan_item.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QEventLoop>
#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QTimer>

#include <cstdio>
#include <ctime>
#include <functional>
#include <utility>

namespace {

constexpr int kFrames = 200;

void wait_for_frame(QQuickWindow* window) {
    QEventLoop loop;
    QObject::connect(window, &QQuickWindow::frameSwapped, &loop, &QEventLoop::quit, Qt::QueuedConnection);
    window->update();
    loop.exec();
}

double process_cpu_ms() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

double thread_cpu_ms() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

} // namespace

int main(int argc, char* argv[]) {
    using namespace rillmark;
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("rillmark-bench"));
    const bench::Scratch scratch;
    const std::filesystem::path file = scratch.path() / "big.gpkg";
    {
        Project project = bench::must(Project::create(file, "Bench"));
        bench::add_walk(project, 5000, 100000);
    }
    AppModel app(QString::fromStdString(scratch.path().string()));
    QQmlApplicationEngine engine;
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    engine.addImageProvider(QStringLiteral("photos"), new PhotoProvider(app.project()));
    engine.setInitialProperties({{QStringLiteral("app"), QVariant::fromValue(&app)}});
    engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Rillmark/Ui/Main.qml")));
    auto* window = qobject_cast<QQuickWindow*>(engine.rootObjects().value(0));
    if (window == nullptr)
        return 1;
    wait_for_frame(window);

    QElapsedTimer clock;
    clock.start();
    app.openFile(QString::fromStdString(file.string()));
    wait_for_frame(window);
    std::printf("open 5000 stations, 100000 fixes, to the first frame: %lld ms\n", static_cast<long long>(clock.elapsed()));

    auto* plan = window->findChild<PlanItem*>();
    if (plan == nullptr)
        return 1;
    QEventLoop settle; // the track comes from a thread of its own
    QTimer::singleShot(3000, &settle, &QEventLoop::quit);
    settle.exec();
    const auto frames = [window](const std::function<void(int)>& before_each) {
        const double process_before = process_cpu_ms();
        const double thread_before = thread_cpu_ms();
        for (int frame = 0; frame < kFrames; ++frame) {
            before_each(frame);
            wait_for_frame(window);
        }
        return std::pair((thread_cpu_ms() - thread_before) / kFrames, (process_cpu_ms() - process_before) / kFrames);
    };
    const auto [still_ui, still_all] = frames([](int) {});
    const auto [pan_ui, pan_all] = frames([plan](int frame) { plan->panBy(frame % 2 == 0 ? 3.0 : -2.0, 1.0); });
    std::printf("a frame that repeats itself: %.2f ms CPU of the UI thread, %.2f ms of the process\n", still_ui, still_all);
    std::printf("a frame of a pan:            %.2f ms CPU of the UI thread, %.2f ms of the process\n", pan_ui, pan_all);
    std::printf("(without a graphics processor the rasteriser's own threads count in the process)\n");
    return 0;
}
