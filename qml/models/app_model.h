// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export_model.h"
#include "falls_model.h"
#include "flow_model.h"
#include "flow_run_model.h"
#include "formatter.h"
#include "gauging_model.h"
#include "handover_model.h"
#include "height_run_model.h"
#include "import_model.h"
#include "levels_model.h"
#include "merge_model.h"
#include "open_project.h"
#include "plant_model.h"
#include "power_model.h"
#include "pressure_model.h"
#include "readout_model.h"
#include "report_model.h"
#include "resume_state.h"
#include "season_model.h"
#include "series_import.h"
#include "settings_model.h"
#include "study_model.h"
#include "sync_model.h"
#include "walk_model.h"

#include <QObject>
#include <QStringList>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

/// The frame: which file is open, which place is shown, whether all is saved. Owns the presenters of the places.
class AppModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(SettingsModel* settings READ settings CONSTANT)
    Q_PROPERTY(ReadoutModel* readout READ readout CONSTANT)
    Q_PROPERTY(WalkModel* walk READ walk CONSTANT)
    Q_PROPERTY(LevelsModel* levels READ levels CONSTANT)
    Q_PROPERTY(FallsModel* falls READ falls CONSTANT)
    Q_PROPERTY(HeightRunModel* heightRun READ heightRun CONSTANT)
    Q_PROPERTY(FlowRunModel* flowRun READ flowRun CONSTANT)
    Q_PROPERTY(FlowModel* flow READ flow CONSTANT)
    Q_PROPERTY(SeasonModel* season READ season CONSTANT)
    Q_PROPERTY(SeriesImport* seriesImport READ seriesImport CONSTANT)
    Q_PROPERTY(GaugingModel* gauging READ gauging CONSTANT)
    Q_PROPERTY(PowerModel* power READ power CONSTANT)
    Q_PROPERTY(PlantModel* plant READ plant CONSTANT)
    Q_PROPERTY(PressureModel* pressure READ pressure CONSTANT)
    Q_PROPERTY(StudyModel* study READ study CONSTANT)
    Q_PROPERTY(HandoverModel* handover READ handover CONSTANT)
    Q_PROPERTY(ExportModel* files READ files CONSTANT)
    Q_PROPERTY(ImportModel* imports READ imports CONSTANT)
    Q_PROPERTY(MergeModel* merge READ merge CONSTANT)
    Q_PROPERTY(ReportModel* report READ report CONSTANT)
    Q_PROPERTY(SyncModel* sync READ sync CONSTANT)
    Q_PROPERTY(ResumeState* resume READ resume CONSTANT)
    Q_PROPERTY(bool open READ isOpen NOTIFY siteChanged)
    Q_PROPERTY(QString siteName READ siteName NOTIFY siteChanged)
    Q_PROPERTY(bool readOnly READ readOnly NOTIFY siteChanged)
    Q_PROPERTY(QString fileName READ fileName NOTIFY siteChanged)
    Q_PROPERTY(QString place READ place WRITE setPlace NOTIFY placeChanged)
    Q_PROPERTY(QString savedText READ savedText NOTIFY savingChanged)
    Q_PROPERTY(bool saved READ saved NOTIFY savingChanged)
    Q_PROPERTY(QString undoText READ undoText NOTIFY siteChanged)
    Q_PROPERTY(QStringList recentFiles READ recentFiles NOTIFY siteChanged)
public:
    AppModel(const QString& data_folder, QObject* parent = nullptr);

    [[nodiscard]] SettingsModel* settings() { return &m_settings; }
    [[nodiscard]] ReadoutModel* readout() { return &m_readout; }
    [[nodiscard]] WalkModel* walk() { return &m_walk; }
    [[nodiscard]] LevelsModel* levels() { return &m_levels; }
    [[nodiscard]] FallsModel* falls() { return &m_falls; }
    [[nodiscard]] HeightRunModel* heightRun() { return &m_height_run; }
    [[nodiscard]] FlowRunModel* flowRun() { return &m_flow_run; }
    [[nodiscard]] FlowModel* flow() { return &m_flow; }
    [[nodiscard]] SeasonModel* season() { return &m_season; }
    [[nodiscard]] SeriesImport* seriesImport() { return &m_series_import; }
    [[nodiscard]] GaugingModel* gauging() { return &m_gauging; }
    [[nodiscard]] PowerModel* power() { return &m_power; }
    [[nodiscard]] PlantModel* plant() { return &m_plant; }
    [[nodiscard]] PressureModel* pressure() { return &m_pressure; }
    [[nodiscard]] StudyModel* study() { return &m_study; }
    [[nodiscard]] HandoverModel* handover() { return &m_handover; }
    [[nodiscard]] ExportModel* files() { return &m_files; }
    [[nodiscard]] ImportModel* imports() { return &m_imports; }
    [[nodiscard]] MergeModel* merge() { return &m_merge; }
    [[nodiscard]] ReportModel* report() { return &m_report; }
    [[nodiscard]] SyncModel* sync() { return &m_sync; }
    [[nodiscard]] OpenProject& project() { return m_project; }
    [[nodiscard]] ResumeState* resume() { return &m_resume; }

    [[nodiscard]] bool isOpen() const { return m_project.is_open(); }
    [[nodiscard]] QString siteName() const;
    [[nodiscard]] bool readOnly() const;
    [[nodiscard]] QString fileName() const;
    [[nodiscard]] QString place() const;
    void setPlace(const QString& place);
    [[nodiscard]] QString savedText() const;
    [[nodiscard]] bool saved() const;
    [[nodiscard]] QString undoText() const;
    [[nodiscard]] QStringList recentFiles() const;

    /// Opens the file that was open when the app ended, where it still is there.
    void resumeLast();
    Q_INVOKABLE bool openFile(const QString& path);
    Q_INVOKABLE bool openUrl(const QUrl& url);
    /// Makes a new site in the app's own folder.
    Q_INVOKABLE bool newSite(const QString& name);
    Q_INVOKABLE void closeSite();
    Q_INVOKABLE void renameSite(const QString& name);
    Q_INVOKABLE void undo();
    Q_INVOKABLE QString folder() const { return m_data_folder; }

signals:
    void siteChanged();
    void placeChanged();
    void savingChanged();
    /// Something to tell the person that belongs to no field: a file that cannot be opened, an action that was refused.
    void told(const FindingText& what);

private:
    void tell(const rillmark::Finding& finding);
    void remember(const QString& path);

    QString m_data_folder;
    SettingsModel m_settings;
    ResumeState m_resume;
    OpenProject m_project;
    ReadoutModel m_readout;
    WalkModel m_walk;
    LevelsModel m_levels;
    FallsModel m_falls;
    HeightRunModel m_height_run;
    FlowModel m_flow;
    FlowRunModel m_flow_run;
    SeasonModel m_season;
    SeriesImport m_series_import;
    GaugingModel m_gauging;
    PowerModel m_power;
    PlantModel m_plant;
    PressureModel m_pressure;
    StudyModel m_study;
    HandoverModel m_handover;
    ExportModel m_files;
    ImportModel m_imports;
    MergeModel m_merge;
    ReportModel m_report;
    SyncModel m_sync;
};
