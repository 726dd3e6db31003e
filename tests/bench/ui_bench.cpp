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

#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <tuple>

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

/// CPU time of the threads of Mesa's software rasteriser, which stand in for a graphics processor: the first number of
/// /proc/self/task/*/schedstat, in nanoseconds.
double rasteriser_cpu_ms() {
    double sum_ms = 0.0;
    for (const auto& task : std::filesystem::directory_iterator("/proc/self/task")) {
        std::string name;
        std::getline(std::ifstream(task.path() / "comm"), name);
        double nanoseconds = 0.0;
        if (name.find("llvmpipe") != std::string::npos && std::ifstream(task.path() / "schedstat") >> nanoseconds)
            sum_ms += nanoseconds * 1e-6;
    }
    return sum_ms;
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
        const double rasteriser_before = rasteriser_cpu_ms();
        const double thread_before = thread_cpu_ms();
        for (int frame = 0; frame < kFrames; ++frame) {
            before_each(frame);
            wait_for_frame(window);
        }
        const double ui_ms = thread_cpu_ms() - thread_before;
        const double rasteriser_ms = rasteriser_cpu_ms() - rasteriser_before;
        return std::array{ui_ms / kFrames, (process_cpu_ms() - process_before - rasteriser_ms) / kFrames, rasteriser_ms / kFrames};
    };
    const auto [still_ui, still_own, still_raster] = frames([](int) {});
    const auto [pan_ui, pan_own, pan_raster] = frames([plan](int frame) { plan->panBy(frame % 2 == 0 ? 3.0 : -2.0, 1.0); });
    for (const auto& [what, ui, own, raster] : {std::tuple("a frame that repeats itself", still_ui, still_own, still_raster),
                                                std::tuple("a frame of a pan", pan_ui, pan_own, pan_raster)})
        std::printf("%s: %.2f ms CPU of the UI thread, %.2f ms of all threads but the software rasteriser's, %.2f ms of those\n",
                    what, ui, own, raster);
    return 0;
}
