// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "camera_model.h"
#include "entry_form.h"
#include "open_project.h"
#include "photos/photo_worker.h"
#include "plan_item.h"
#include "position_feed.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QThread>
#include <QTimer>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <memory>

/// One station in the list.
class StationItem {
    Q_GADGET
    QML_VALUE_TYPE(stationItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(QString kind MEMBER kind CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL) // chainage, fall below the intake, photos
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id, name, kind, detail;
    bool struck = false;
    friend bool operator==(const StationItem&, const StationItem&) = default;
};

/// A photo or note of a station.
class MemoItem {
    Q_GADGET
    QML_VALUE_TYPE(memoItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
    Q_PROPERTY(QString when MEMBER when CONSTANT FINAL)
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id, text, when;
    bool struck = false;
    friend bool operator==(const MemoItem&, const MemoItem&) = default;
};

/// Stations, positions, notes and photos: what is logged while walking the creek.
class WalkModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString positionState READ positionState NOTIFY positionChanged)
    Q_PROPERTY(bool hasPosition READ hasPosition NOTIFY positionChanged)
    Q_PROPERTY(QList<StationItem> stations READ stations NOTIFY changed)
    Q_PROPERTY(QList<Choice> kinds READ kinds CONSTANT)
    // logging a station
    Q_PROPERTY(bool logging READ logging NOTIFY loggingChanged)
    Q_PROPERTY(double progress READ progress NOTIFY loggingChanged)      // of the averaging time
    Q_PROPERTY(QString averageText READ averageText NOTIFY loggingChanged)
    Q_PROPERTY(QList<FindingText> averageFindings READ averageFindings NOTIFY loggingChanged)
    Q_PROPERTY(QList<QPointF> scatter READ scatter NOTIFY loggingChanged) // fixes about their mean, in units of the widest
    // the station in hand
    Q_PROPERTY(QString station READ station WRITE setStation NOTIFY changed) // empty: none
    Q_PROPERTY(QString stationName READ stationName NOTIFY changed)
    Q_PROPERTY(QString stationKind READ stationKind NOTIFY changed)
    Q_PROPERTY(QString stationPosition READ stationPosition NOTIFY changed)
    Q_PROPERTY(QList<MemoItem> notes READ notes NOTIFY changed)
    Q_PROPERTY(QList<MemoItem> photos READ photos NOTIFY changed)
    Q_PROPERTY(QString noteDraft READ noteDraft WRITE setNoteDraft NOTIFY noteDraftChanged) // half-typed, survives a kill
    Q_PROPERTY(int photosInWork READ photosInWork NOTIFY photosChanged)
    Q_PROPERTY(bool tracking READ tracking WRITE setTracking NOTIFY trackingChanged)
public:
    WalkModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~WalkModel() override;

    [[nodiscard]] QString positionState() const { return m_feed.state(); }
    [[nodiscard]] bool hasPosition() const { return m_feed.fresh(); }
    [[nodiscard]] QList<StationItem> stations() const;
    [[nodiscard]] QList<Choice> kinds() const;

    [[nodiscard]] bool logging() const { return m_logging; }
    [[nodiscard]] double progress() const;
    [[nodiscard]] QString averageText() const;
    [[nodiscard]] QList<FindingText> averageFindings() const;
    [[nodiscard]] QList<QPointF> scatter() const;

    [[nodiscard]] QString station() const { return m_station == 0 ? QString() : key_text(m_station); }
    void setStation(const QString& key);
    [[nodiscard]] QString stationName() const;
    [[nodiscard]] QString stationKind() const;
    [[nodiscard]] QString stationPosition() const;
    [[nodiscard]] QList<MemoItem> notes() const;
    [[nodiscard]] QList<MemoItem> photos() const;
    [[nodiscard]] QString noteDraft() const { return m_resume.text(QStringLiteral("walk/note")); }
    void setNoteDraft(const QString& text);
    [[nodiscard]] int photosInWork() const { return m_photo_worker ? m_photo_worker->pending() : 0; }
    [[nodiscard]] bool tracking() const { return m_tracking; }
    void setTracking(bool tracking);

    /// The plan of the page shows this site from now on.
    Q_INVOKABLE void showOn(PlanItem* plan);

    /// Begins to average the position; of a new station, or of the one in hand visited again.
    Q_INVOKABLE void startLogging();
    Q_INVOKABLE void cancelLogging();
    /// A name that is not taken: "Route point 4".
    Q_INVOKABLE QString proposedName(const QString& kind) const;
    /// Books the new station with the fixes collected so far; without any it has no position yet.
    Q_INVOKABLE void logStation(const QString& kind, const QString& name);
    /// Books the stay at the station in hand.
    Q_INVOKABLE void logAgain();

    Q_INVOKABLE void renameStation(const QString& name);
    Q_INVOKABLE void setKind(const QString& kind);
    Q_INVOKABLE void strikeStation(const QString& reason);
    Q_INVOKABLE void restoreStation(const QString& key);
    Q_INVOKABLE void addNote(const QString& text);
    Q_INVOKABLE void strikeMemo(const QString& table, const QString& id, const QString& reason);
    Q_INVOKABLE void addPhoto(const QUrl& file);
    /// Address of the small picture for an Image.
    Q_INVOKABLE QString thumbnailUrl(const QString& photo) const;

    /// The photo that the camera has just taken.
    Q_INVOKABLE void addPictureFrom(CameraModel* camera);
    Q_INVOKABLE QString lengthText(double metres) const;

signals:
    void changed();
    void positionChanged();
    void loggingChanged();
    void noteDraftChanged();
    void photosChanged();
    void trackingChanged();
    void stationLogged();
    void photoFailed(const FindingText& why);

private:
    [[nodiscard]] const rillmark::StationRow* row() const;
    void place_origin();
    void fill_plan();
    void read_track();
    [[nodiscard]] rillmark::PhotoContext photo_context() const;
    rillmark::PhotoWorker& photo_worker();

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    PositionFeed m_feed;
    QTimer m_averaging_tick;
    QElapsedTimer m_averaging_since;
    bool m_logging = false;
    bool m_tracking = false;
    rillmark::Id m_station = 0;
    QPointer<PlanItem> m_plan;
    std::optional<rillmark::LocalFrame> m_frame;
    std::vector<rillmark::GeoPoint> m_track;
    std::vector<rillmark::LocalPoint> m_track_on_plan; // as far as it has been brought into the plan's metres
    std::unique_ptr<QThread> m_track_reader;
    std::unique_ptr<rillmark::PhotoWorker> m_photo_worker;
};
