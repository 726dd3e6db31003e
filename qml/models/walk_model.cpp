// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk_model.h"

#include "position/station_kind.h"
#include "site/position_rows.h"
#include "site/station_position.h"
#include "site_plan.h"

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr int kAveragingTick_ms = 250;

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QString kind_words(const std::string& id) {
    return Formatter::words("position.kind_" + id);
}

/// The station moved to a new mean position.
StationRow placed(StationRow station, const AveragedPosition& mean) {
    station.longitude_deg = mean.longitude_deg;
    station.latitude_deg = mean.latitude_deg;
    return station;
}

} // namespace

WalkModel::WalkModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume), m_feed(settings) {
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_photo_worker.reset(); // it writes to the file that was open
        m_station = key_of(m_resume.text(QStringLiteral("walk/station")));
        m_track.clear();
        m_track_on_plan.clear();
        cancelLogging();
        read_track();
    });
    connect(&m_project, &OpenProject::changed, this, [this] {
        fill_plan();
        emit changed();
    });
    connect(&m_settings, &SettingsModel::changed, this, &WalkModel::changed);
    connect(&m_feed, &PositionFeed::stateChanged, this, &WalkModel::positionChanged);
    connect(&m_feed, &PositionFeed::fixReceived, this, [this](const PositionFix& fix) {
        if (m_plan && m_frame)
            m_plan->setOwnPosition(m_frame->to_local({fix.latitude_deg, fix.longitude_deg}), claimed_uncertainty(fix).east_m);
        if (m_tracking && m_project.is_open()) {
            m_track.push_back({fix.latitude_deg, fix.longitude_deg});
            if (m_plan && m_frame) {
                m_track_on_plan.push_back(m_frame->to_local(m_track.back()));
                m_plan->appendTrack(m_track_on_plan.back());
            } else {
                fill_plan(); // the first fix of a site without stations
            }
            m_project.book_track(fix_row(fix, {}));
        }
    });
    m_averaging_tick.setInterval(kAveragingTick_ms);
    connect(&m_averaging_tick, &QTimer::timeout, this, &WalkModel::loggingChanged);
}

WalkModel::~WalkModel() {
    if (m_track_reader)
        m_track_reader->wait();
}

const StationRow* WalkModel::row() const {
    return m_station == 0 ? nullptr : m_project.survey().station(m_station);
}

QList<StationItem> WalkModel::stations() const {
    const Survey& survey = m_project.survey();
    const SiteHeights& heights = m_project.estimate().heights;
    const Formatter formatter = m_settings.formatter();
    std::map<Id, double> chainage;
    const SiteLine pipe = site_line(survey, heights, StationLine::Pipe);
    for (std::size_t i = 0; i < pipe.stations.size(); ++i)
        chainage.emplace(pipe.stations[i], pipe.chainage_m[i]);
    std::map<Id, int> photos;
    for (const Project::PhotoLink& link : survey.photo_links)
        ++photos[link.station_id];

    QList<StationItem> items;
    for (const Booked<StationRow>& station : survey.stations) {
        StationItem item;
        item.id = key_text(station.row.id);
        item.name = QString::fromStdString(station.row.name);
        item.kind = kind_words(station.row.kind);
        item.struck = station.struck;
        QStringList detail{item.kind};
        if (const auto at = chainage.find(station.row.id); at != chainage.end())
            detail.append(tr("chainage %1").arg(formatter.value(at->second, Quantity::Length, 0)));
        if (const auto fall = heights.fall.find(station.row.id);
            fall != heights.fall.end() && fall->second.standard_uncertainty > 0.0) // the intake is its own reference
            detail.append(formatter.against_intake(fall->second));
        if (const int count = photos[station.row.id]; count > 0)
            detail.append(tr("photos: %1").arg(count));
        if (!station.row.longitude_deg)
            detail.append(tr("no position"));
        item.detail = detail.join(QStringLiteral(", "));
        items.append(item);
    }
    return items;
}

QList<Choice> WalkModel::kinds() const {
    QList<Choice> choices;
    for (const StationKindEntry& kind : station_kinds())
        choices.append({utf8(kind.id), kind_words(std::string(kind.id))});
    return choices;
}

double WalkModel::progress() const {
    if (!m_logging)
        return 0.0;
    return std::min(1.0, static_cast<double>(m_averaging_since.elapsed()) / (1000.0 * m_settings.averagingSeconds()));
}

QString WalkModel::averageText() const {
    const Expected<AveragedPosition> mean = m_feed.average();
    if (!mean)
        return tr("No fix yet");
    const Formatter formatter = m_settings.formatter();
    const double across = std::hypot(mean->u_east_m, mean->u_north_m) / std::sqrt(2.0);
    QString text = tr("Fixes: %1, ± %2 across")
                       .arg(mean->n)
                       .arg(formatter.value(kCoverageFactor * across, Quantity::Length, 1));
    if (mean->u_up_m)
        text += tr(", ± %1 in height").arg(formatter.value(kCoverageFactor * *mean->u_up_m, Quantity::Length, 1));
    return text;
}

QList<FindingText> WalkModel::averageFindings() const {
    const Expected<AveragedPosition> mean = m_feed.average();
    return mean ? m_settings.formatter().findings(mean->findings) : QList<FindingText>{};
}

QList<QPointF> WalkModel::scatter() const {
    const Expected<AveragedPosition> mean = m_feed.average();
    QList<QPointF> points;
    if (!mean)
        return points;
    const Expected<LocalFrame> about = LocalFrame::make({mean->latitude_deg, mean->longitude_deg});
    if (!about)
        return points;
    double widest = 1e-3;
    for (const PositionFix& fix : m_feed.collected()) {
        const LocalPoint at = about->to_local({fix.latitude_deg, fix.longitude_deg});
        points.append({at.east_m, -at.north_m});
        widest = std::max(widest, std::hypot(at.east_m, at.north_m));
    }
    for (QPointF& point : points)
        point /= widest;
    return points;
}

void WalkModel::setStation(const QString& key) {
    if (key == station())
        return;
    m_station = key_of(key);
    m_resume.setText(QStringLiteral("walk/station"), key);
    emit changed();
}

QString WalkModel::stationName() const {
    return row() ? QString::fromStdString(row()->name) : QString();
}

QString WalkModel::stationKind() const {
    return row() ? QString::fromStdString(row()->kind) : QString();
}

QString WalkModel::stationPosition() const {
    if (!row() || !row()->latitude_deg || !row()->longitude_deg)
        return tr("No position yet");
    const Formatter formatter = m_settings.formatter();
    const double latitude = *row()->latitude_deg;
    const double longitude = *row()->longitude_deg;
    QString text = QStringLiteral("%1° %2, %3° %4")
                       .arg(formatter.value(std::abs(latitude), Quantity::Number, 6), latitude < 0 ? tr("S") : tr("N"),
                            formatter.value(std::abs(longitude), Quantity::Number, 6), longitude < 0 ? tr("W") : tr("E"));
    if (const Expected<UtmPosition> grid = utm({latitude, longitude}))
        text += tr("\nUTM %1%2 %3 E %4 N")
                    .arg(grid->zone)
                    .arg(grid->north ? tr("N") : tr("S"))
                    .arg(grid->easting_m, 0, 'f', 0)
                    .arg(grid->northing_m, 0, 'f', 0);
    for (const Booked<OccupationRow>& stay : m_project.survey().occupations)
        if (!stay.struck && stay.row.station_id == m_station)
            text += tr("\n%1: %2 fixes in %3, ± %4 across, %5")
                        .arg(Formatter::when(stay.row.observed_at))
                        .arg(stay.row.fixes)
                        .arg(formatter.value(stay.row.seconds, Quantity::Time, 0),
                             formatter.value(kCoverageFactor * stay.row.u_east_m, Quantity::Length, 1),
                             Formatter::words("position.quality_" + stay.row.quality));
    return text;
}

QList<MemoItem> WalkModel::notes() const {
    QList<MemoItem> items;
    for (const Booked<NoteRow>& note : m_project.survey().notes)
        if (note.row.station_id == m_station)
            items.append({key_text(note.row.id), QString::fromStdString(note.row.text), Formatter::when(note.row.observed_at),
                          note.struck});
    return items;
}

QList<MemoItem> WalkModel::photos() const {
    QList<MemoItem> items;
    for (const Project::PhotoLink& link : m_project.survey().photo_links) {
        if (link.station_id != m_station)
            continue;
        for (const Booked<PhotoRow>& photo : m_project.survey().photos)
            if (photo.row.id == link.photo_id)
                items.append({key_text(photo.row.id), QString::fromStdString(photo.row.title),
                              Formatter::when(photo.row.observed_at), photo.struck});
    }
    return items;
}

void WalkModel::setNoteDraft(const QString& text) {
    if (text == noteDraft())
        return;
    m_resume.setText(QStringLiteral("walk/note"), text);
    emit noteDraftChanged();
}

void WalkModel::setTracking(bool tracking) {
    if (m_tracking == tracking)
        return;
    m_tracking = tracking;
    emit trackingChanged();
}

void WalkModel::showOn(PlanItem* plan) {
    m_plan = plan;
    fill_plan();
}

void WalkModel::read_track() {
    if (!m_project.is_open())
        return;
    if (m_track_reader)
        m_track_reader->wait();
    const std::filesystem::path path = m_project.project()->path();
    auto track = std::make_shared<std::vector<GeoPoint>>();
    m_track_reader.reset(QThread::create([path, track] {
        const Expected<Project> project = Project::open(path, OpenMode::ReadOnly);
        if (!project)
            return;
        const Expected<std::vector<Booked<FixRow>>> fixes = project->all<FixRow>();
        if (!fixes)
            return;
        for (const Booked<FixRow>& fix : *fixes)
            if (!fix.row.occupation_id && !fix.struck)
                track->push_back({fix.row.latitude_deg, fix.row.longitude_deg});
    }));
    connect(m_track_reader.get(), &QThread::finished, this, [this, track, path] {
        if (m_project.is_open() && m_project.project()->path() == path) {
            m_track = std::move(*track);
            m_track_on_plan.clear();
            fill_plan();
        }
    });
    m_track_reader->start();
}

/// The plan's origin is the first station that has a position; the track is brought into its metres only once.
void WalkModel::place_origin() {
    std::optional<GeoPoint> origin;
    for (const Booked<StationRow>& station : m_project.survey().stations)
        if (!origin && station.row.latitude_deg && station.row.longitude_deg)
            origin = GeoPoint{*station.row.latitude_deg, *station.row.longitude_deg};
    if (!origin && !m_track.empty())
        origin = m_track.front();
    const bool same = m_frame && origin && m_frame->origin().latitude_deg == origin->latitude_deg &&
                      m_frame->origin().longitude_deg == origin->longitude_deg;
    if (!same) {
        m_frame.reset();
        m_track_on_plan.clear();
        if (origin)
            if (const Expected<LocalFrame> frame = LocalFrame::make(*origin))
                m_frame = *frame;
    }
    for (std::size_t i = m_track_on_plan.size(); m_frame && i < m_track.size(); ++i)
        m_track_on_plan.push_back(m_frame->to_local(m_track[i]));
}

void WalkModel::fill_plan() {
    if (!m_plan)
        return;
    place_origin();
    if (m_frame)
        m_plan->setScene(site_plan(m_project.survey(), m_project.estimate().heights, *m_frame, m_track_on_plan));
    else
        m_plan->setScene({});
}

void WalkModel::startLogging() {
    m_feed.beginAveraging();
    m_averaging_since.start();
    m_averaging_tick.start();
    m_logging = true;
    emit loggingChanged();
}

void WalkModel::cancelLogging() {
    m_feed.endAveraging();
    m_averaging_tick.stop();
    m_logging = false;
    emit loggingChanged();
}

QString WalkModel::proposedName(const QString& kind) const {
    const QString base = kind_words(kind.toStdString());
    const auto taken = [this](const QString& name) {
        const auto& stations = m_project.survey().stations;
        return std::any_of(stations.begin(), stations.end(),
                           [&name](const auto& one) { return QString::fromStdString(one.row.name) == name; });
    };
    QString name = base;
    for (int n = 2; taken(name); ++n)
        name = QStringLiteral("%1 %2").arg(base).arg(n);
    return name;
}

void WalkModel::logStation(const QString& kind, const QString& name) {
    StationRow station;
    station.kind = kind.toStdString();
    station.name = name.simplified().isEmpty() ? proposedName(kind).toStdString() : name.simplified().toStdString();
    const Expected<AveragedPosition> mean = m_feed.average();
    const std::vector<PositionFix> fixes = m_feed.collected();
    auto id = std::make_shared<Id>(0);
    const auto book_all = [station, mean, fixes, id](Project& project) {
        return project.together([&](Project::Batch& batch) -> Expected<void> {
            const Expected<Id> station_id = batch.book(mean ? placed(station, *mean) : station);
            if (!station_id)
                return station_id.error();
            *id = *station_id;
            if (!mean)
                return {};
            const Expected<Id> stay = batch.book(occupation_row(*mean, *station_id));
            if (!stay)
                return stay.error();
            for (const PositionFix& fix : fixes)
                if (const Expected<Id> booked = batch.book(fix_row(fix, *stay)); !booked)
                    return booked.error();
            return {};
        });
    };
    cancelLogging();
    m_project.act(book_all, [this, id] {
        setStation(key_text(*id));
        emit stationLogged();
    });
}

void WalkModel::logAgain() {
    const Expected<AveragedPosition> mean = m_feed.average();
    if (!mean || row() == nullptr)
        return;
    std::vector<OccupationRow> stays{occupation_row(*mean, m_station)};
    for (const Booked<OccupationRow>& stay : m_project.survey().occupations)
        if (!stay.struck && stay.row.station_id == m_station)
            stays.push_back(stay.row);
    StationRow station = *row();
    if (const std::optional<GeoPoint> at = position_of_stays(stays)) {
        station.latitude_deg = at->latitude_deg;
        station.longitude_deg = at->longitude_deg;
    }
    const std::vector<PositionFix> fixes = m_feed.collected();
    cancelLogging();
    m_project.act([station, mean, fixes](Project& project) {
        const Expected<void> booked = project.together([&](Project::Batch& batch) -> Expected<void> {
            const Expected<Id> stay = batch.book(occupation_row(*mean, station.id));
            if (!stay)
                return stay.error();
            for (const PositionFix& fix : fixes)
                if (const Expected<Id> one = batch.book(fix_row(fix, *stay)); !one)
                    return one.error();
            return {};
        });
        return booked ? project.change(station) : booked;
    });
}

void WalkModel::renameStation(const QString& name) {
    if (!row() || name.simplified().isEmpty() || name.simplified() == stationName())
        return;
    StationRow station = *row();
    station.name = name.simplified().toStdString();
    m_project.change(station);
}

void WalkModel::setKind(const QString& kind) {
    if (!row() || kind == stationKind())
        return;
    StationRow station = *row();
    station.kind = kind.toStdString();
    m_project.change(station);
}

void WalkModel::strikeStation(const QString& reason) {
    m_project.strike(StationRow::kTable, m_station, reason);
    setStation({});
}

void WalkModel::restoreStation(const QString& key) {
    m_project.restore(StationRow::kTable, key_of(key), QStringLiteral("restored"));
}

void WalkModel::addNote(const QString& text) {
    if (text.simplified().isEmpty())
        return;
    NoteRow note;
    note.text = text.trimmed().toStdString();
    if (m_station != 0)
        note.station_id = m_station;
    m_project.book(note, [this](Id) { setNoteDraft({}); });
}

void WalkModel::strikeMemo(const QString& table, const QString& id, const QString& reason) {
    m_project.strike(table == QLatin1String("photo") ? PhotoRow::kTable : NoteRow::kTable, key_of(id), reason);
}

PhotoContext WalkModel::photo_context() const {
    PhotoContext context;
    if (m_feed.fresh()) {
        context.latitude_deg = m_feed.latest()->latitude_deg;
        context.longitude_deg = m_feed.latest()->longitude_deg;
        context.height_msl_m = m_feed.latest()->height_msl_m;
    } else if (row() != nullptr) {
        context.latitude_deg = row()->latitude_deg;
        context.longitude_deg = row()->longitude_deg;
    }
    context.title = stationName().toStdString();
    return context;
}

rillmark::PhotoWorker& WalkModel::photo_worker() {
    if (!m_photo_worker) {
        m_photo_worker = std::make_unique<PhotoWorker>(store_in_project(m_project.project()->path(), {}));
        connect(m_photo_worker.get(), &PhotoWorker::pendingChanged, this, &WalkModel::photosChanged);
        connect(m_photo_worker.get(), &PhotoWorker::stored, &m_project, &OpenProject::reload);
        connect(m_photo_worker.get(), &PhotoWorker::failed, this, [this](qint64, const Finding& why) {
            emit photoFailed(m_settings.formatter().finding(why));
        });
    }
    return *m_photo_worker;
}

void WalkModel::addPhoto(const QUrl& file) {
    if (!m_project.is_open())
        return;
    PhotoContext context = photo_context();
    context.latitude_deg.reset(); // a picture from disk was not taken here: its own EXIF position counts
    context.longitude_deg.reset();
    context.height_msl_m.reset();
    photo_worker().add(file.isLocalFile() ? file.toLocalFile() : file.toString(), context, m_station);
}

void WalkModel::addPictureFrom(CameraModel* camera) {
    if (!m_project.is_open())
        return;
    PhotoContext context = photo_context();
    context.source = "camera";
    photo_worker().add(camera->picture(), context, m_station);
}

QString WalkModel::thumbnailUrl(const QString& photo) const {
    return QStringLiteral("image://photos/") + photo;
}

QString WalkModel::lengthText(double metres) const {
    return m_settings.formatter().value(metres, Quantity::Length, 0);
}
