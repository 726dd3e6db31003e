// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of the real app on a project file: pictures FILE FOLDER. Run it by pictures.sh.
#include "journey.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QDir>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <cstdio>

namespace {

struct Look {
    QSize size;
    bool metric;
    const char* theme;
};

void show_place(Journey& journey, const QString& place) {
    journey.app().setPlace(place);
    QTest::qWait(700); // plots and the track come a moment later
}

void save(Journey& journey, const QString& folder, const QString& name) {
    const QString file = QDir(folder).filePath(name + QStringLiteral(".png"));
    if (!journey.window()->grabWindow().save(file))
        std::fprintf(stderr, "could not write %s\n", qPrintable(file));
}

} // namespace

int main(int argc, char* argv[]) {
    QTemporaryDir settings;
    qputenv("XDG_CONFIG_HOME", settings.path().toUtf8());
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("rillmark-pictures"));
    ::testing::InitGoogleTest(&argc, argv);
    const QStringList words = QCoreApplication::arguments();
    if (words.size() != 3)
        return 2;
    QDir().mkpath(words[2]);
    const Look looks[] = {{{412, 892}, true, "day"},  {{412, 892}, false, "night"},  {{892, 412}, false, "day"},
                          {{1280, 800}, true, "day"}, {{1280, 800}, false, "night"}};
    for (const Look& look : looks) {
        QTemporaryDir folder;
        const QString file = folder.filePath(QStringLiteral("site.gpkg"));
        QFile::copy(words[1], file);
        Journey journey(folder.path(), look.size);
        if (journey.window() == nullptr)
            return 1;
        journey.app().settings()->setMetric(look.metric);
        journey.app().settings()->setTheme(QString::fromLatin1(look.theme));
        const QString stem = QStringLiteral("%1x%2-%3-%4-").arg(look.size.width()).arg(look.size.height()).arg(look.metric ? "metric" : "us", look.theme);
        show_place(journey, {});
        save(journey, words[2], stem + QStringLiteral("sites"));
        journey.app().openFile(file);
        for (const char* place : {"walk", "levels", "flow", "power", "handover"}) {
            show_place(journey, QString::fromLatin1(place));
            save(journey, words[2], stem + QString::fromLatin1(place));
        }
        for (const char* view : {"ways", "evidence", "profile"}) {
            journey.app().falls()->setView(QString::fromLatin1(view));
            show_place(journey, QStringLiteral("levels"));
            save(journey, words[2], stem + QStringLiteral("levels-") + QString::fromLatin1(view));
        }
        journey.app().falls()->setView(QStringLiteral("run"));
        for (const FallItem& fall : journey.app().falls()->falls()) {
            if (fall.book)
                continue;
            journey.app().heightRun()->setRun(fall.id);
            show_place(journey, QStringLiteral("levels"));
            save(journey, words[2], stem + QStringLiteral("levels-") + journey.app().heightRun()->method());
        }
        journey.app().setPlace(QStringLiteral("walk"));
        journey.app().walk()->setStation(journey.app().walk()->stations().first().id);
        show_place(journey, QStringLiteral("walk"));
        save(journey, words[2], stem + QStringLiteral("station"));
        for (const FlowTestItem& test : journey.app().flow()->tests()) {
            journey.app().flow()->setTest(test.id);
            show_place(journey, QStringLiteral("flow"));
            save(journey, words[2], stem + QStringLiteral("flow-") + journey.app().flow()->method());
        }
        for (const QString& complaint : journey.complaints())
            std::fprintf(stderr, "%s\n", qPrintable(complaint));
    }
    return 0;
}
