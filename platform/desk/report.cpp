// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"

#ifdef RILLMARK_REPORT
#include "report/report.h"

#include <QGuiApplication>
#include <QLoggingCategory>

#include <cstdlib>
#include <iostream>
#include <unistd.h>
#endif

namespace rillmark::desk {

#ifdef RILLMARK_REPORT

namespace {

Expected<report::Made> make_report(const ReportCall& call, const Manner& manner) {
    std::error_code ignored;
    const Expected<Project> project = Project::open(call.site, OpenMode::ReadOnly);
    if (!project)
        return project.error();
    if (std::filesystem::equivalent(call.to, call.site, ignored))
        return refusal("exchange.onto_site", call.to.string());
    if (!call.force && std::filesystem::exists(std::filesystem::symlink_status(call.to, ignored)))
        return refusal("exchange.file_exists", call.to.string());
    // fonts need a gui application, this one needs no screen
    setenv("QT_QPA_PLATFORM", "offscreen", 1);
    QLoggingCategory::setFilterRules(QStringLiteral("default.warning=false")); // what matters comes as a finding
    int count = 1;
    char name[] = "rillmark-desk";
    char* arguments[] = {name, nullptr};
    const QGuiApplication application(count, arguments);

    report::Options options;
    options.paper = call.letter ? report::Paper::Letter : report::Paper::A4;
    options.display = manner.units;
    options.all_alternatives = !call.chosen_only;
    options.version = QString::fromStdString(call.version);
    options.now = QDateTime::currentDateTime();
    const bool terminal = isatty(STDERR_FILENO) != 0;
    return report::write_report(*project, options, call.to, [terminal](int done, int total) {
        if (terminal)
            std::cerr << "\rpage " << done << " of " << total << (done == total ? "\n" : "") << std::flush;
        return true;
    });
}

} // namespace

int report_site(const ReportCall& call, const Manner& manner) {
    const Expected<report::Made> made = make_report(call, manner);
    if (!made)
        return refuse(made.error(), manner);
    if (manner.json)
        print_json({{"file", call.to.string()}, {"pages", made->pages}, {"findings", nlohmann::json::array()}});
    else
        std::cout << call.to.string() << '\n';
    return kDone;
}

#else

int report_site(const ReportCall& call, const Manner& manner) {
    return refuse(refusal("exchange.no_report_here", call.site.string()), manner);
}

#endif

} // namespace rillmark::desk
