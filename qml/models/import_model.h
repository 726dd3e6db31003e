// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "settings_model.h"
#include "site/import_file.h"
#include "site/import_plan.h"
#include "station_choices.h"

#include <QObject>
#include <QThread>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <memory>
#include <optional>

/// One thing of a file and what it would become.
class ImportItem {
    Q_GADGET
    QML_VALUE_TYPE(importItem)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(QString becomes MEMBER becomes CONSTANT FINAL)
    Q_PROPERTY(bool leftOut MEMBER left_out CONSTANT FINAL)
public:
    QString name;
    QString becomes;
    bool left_out = false;
    friend bool operator==(const ImportItem&, const ImportItem&) = default;
};

/// A file of another program: what is in it, how it is taken in, and the taking in as one action. Photos likewise.
class ImportModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool working READ working NOTIFY changed)
    Q_PROPERTY(QString fileName READ fileName NOTIFY changed)   // empty: no file in hand
    Q_PROPERTY(QList<Choice> layers READ layers NOTIFY changed) // of a GeoPackage with several
    Q_PROPERTY(QString layer READ layer WRITE setLayer NOTIFY changed)
    Q_PROPERTY(QList<Choice> fields READ fields NOTIFY changed)   // the first: as the file has it
    Q_PROPERTY(QList<Choice> columns READ columns NOTIFY changed) // of a table whose position is not found
    Q_PROPERTY(QList<Choice> pointKinds READ pointKinds CONSTANT)
    Q_PROPERTY(QList<Choice> lineChoices READ lineChoices CONSTANT)
    Q_PROPERTY(QList<ImportItem> preview READ preview NOTIFY changed) // the first kMostShown
    Q_PROPERTY(QString summary READ summary NOTIFY changed)
    Q_PROPERTY(bool ready READ ready NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(QString done READ done NOTIFY changed)
public:
    ImportModel(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);
    ~ImportModel() override;

    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] QString fileName() const;
    [[nodiscard]] QList<Choice> layers() const;
    [[nodiscard]] QString layer() const { return QString::fromStdString(m_reading.layer); }
    void setLayer(const QString& layer);
    [[nodiscard]] QList<Choice> fields() const;
    [[nodiscard]] QList<Choice> columns() const;
    [[nodiscard]] QList<Choice> pointKinds() const;
    [[nodiscard]] QList<Choice> lineChoices() const;
    [[nodiscard]] QList<ImportItem> preview() const;
    [[nodiscard]] QString summary() const;
    [[nodiscard]] bool ready() const { return m_plan.has_value() && !working(); }
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] QString done() const { return m_done; }

    /// What was chosen under a name: point_kind, lines, areas, name, kind, height, longitude, latitude.
    Q_INVOKABLE [[nodiscard]] QString chosen(const QString& what) const;
    Q_INVOKABLE void choose(const QString& what, const QString& id);
    /// Reads the file behind the screen and shows what would come of it. Several files must be photos: they come in at
    /// once.
    Q_INVOKABLE void look(const QList<QUrl>& files);
    Q_INVOKABLE void takeIn();
    Q_INVOKABLE void putAway();

    static constexpr int kMostShown = 30;

signals:
    void changed();

private:
    /// What the worker brings back.
    struct Seen {
        std::string format;
        std::string digest;
        std::vector<std::string> layers;
        std::vector<std::string> columns;
        std::optional<rillmark::ImportedFile> file;
        std::vector<rillmark::PhotoData> photos;
        std::optional<rillmark::Finding> refusal;
    };
    static Seen see(const std::filesystem::path& path, const rillmark::ImportReading& reading);
    static Seen see_photos(const QStringList& paths);
    void work(std::function<Seen()> task);
    void read_again();
    void plan();

    OpenProject& m_project;
    SettingsModel& m_settings;
    QStringList m_paths;
    Seen m_seen;
    rillmark::ImportReading m_reading;
    rillmark::ImportChoice m_choice;
    std::optional<rillmark::ImportPlan> m_plan;
    std::optional<rillmark::Finding> m_refusal;
    QString m_done;
    std::unique_ptr<QThread> m_thread;
};
