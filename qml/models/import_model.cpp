// SPDX-License-Identifier: GPL-3.0-or-later
#include "import_model.h"

#include "exchange/csv.h"
#include "exchange/sha256.h"
#include "photos/photo_intake.h"
#include "position/station_kind.h"
#include "project/foreign_geopackage.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

using namespace rillmark;

namespace {

QList<Choice> choices_of(const std::vector<std::string>& names) {
    QList<Choice> list;
    for (const std::string& name : names)
        list.append({QString::fromStdString(name), QString::fromStdString(name)});
    return list;
}

std::filesystem::path path_of(const QString& path) {
    return {path.toStdU16String()};
}

} // namespace

ImportModel::ImportModel(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings) {
    connect(&m_settings, &SettingsModel::changed, this, &ImportModel::changed);
    connect(&m_project, &OpenProject::opened, this, &ImportModel::putAway);
}

ImportModel::~ImportModel() {
    if (m_thread)
        m_thread->wait();
}

QString ImportModel::fileName() const {
    if (m_paths.size() > 1)
        return tr("%n photos", nullptr, static_cast<int>(m_paths.size()));
    return m_paths.isEmpty() ? QString() : QFileInfo(m_paths.front()).fileName();
}

QList<Choice> ImportModel::layers() const {
    return m_seen.layers.size() > 1 ? choices_of(m_seen.layers) : QList<Choice>{};
}

void ImportModel::setLayer(const QString& layer) {
    m_reading.layer = layer.toStdString();
    read_again();
}

QList<Choice> ImportModel::fields() const {
    QList<Choice> list{{QString(), tr("as the file has it")}};
    std::vector<std::string> names;
    if (m_seen.file)
        for (const ImportFeature& feature : m_seen.file->features)
            for (const auto& [name, value] : feature.fields)
                if (std::ranges::find(names, name) == names.end())
                    names.push_back(name);
    return names.empty() ? QList<Choice>{} : list + choices_of(names);
}

QList<Choice> ImportModel::columns() const {
    return choices_of(m_seen.columns);
}

QList<Choice> ImportModel::pointKinds() const {
    QList<Choice> list;
    for (const StationKindEntry& kind : station_kinds())
        list.append({QString::fromUtf8(kind.id.data(), static_cast<qsizetype>(kind.id.size())),
                     Formatter::words("position.kind_" + std::string(kind.id))});
    return list;
}

QList<Choice> ImportModel::lineChoices() const {
    return {{QStringLiteral("track"), tr("track walked")},
            {QStringLiteral("pipe"), tr("pipe route")},
            {QStringLiteral("cable"), tr("cable route")},
            {QStringLiteral("boundary"), tr("boundary")},
            {QStringLiteral("none"), tr("left out")}};
}

QList<ImportItem> ImportModel::preview() const {
    QList<ImportItem> list;
    if (!m_plan)
        return list;
    for (const ImportPreview& one : m_plan->preview) {
        if (list.size() == kMostShown)
            break;
        const QString name = one.name.empty() ? tr("without a name") : QString::fromStdString(one.name);
        const QString kind = one.becomes.empty()      ? tr("left out")
                             : one.becomes == "track" ? tr("track walked")
                                                      : Formatter::words("position.kind_" + one.becomes);
        list.append({name, one.points > 1 ? tr("%1, %n points", nullptr, static_cast<int>(one.points)).arg(kind) : kind,
                     one.becomes.empty()});
    }
    return list;
}

QString ImportModel::summary() const {
    if (!m_seen.photos.empty())
        return tr("%n photos would come in", nullptr, static_cast<int>(m_seen.photos.size()));
    if (!m_plan)
        return {};
    return tr("%1 stations and %2 points of a track would come in")
        .arg(m_plan->stations.size())
        .arg(m_plan->fixes.size());
}

QList<FindingText> ImportModel::findings() const {
    Findings all = m_plan ? m_plan->notes : Findings{};
    if (m_refusal)
        all.push_back(*m_refusal);
    return m_settings.formatter().findings(all);
}

QString ImportModel::chosen(const QString& what) const {
    if (what == QLatin1String("lines"))
        return QString::fromLatin1(import_lines_id(m_choice.lines));
    if (what == QLatin1String("areas"))
        return m_choice.areas_are_boundary ? QStringLiteral("boundary") : QStringLiteral("none");
    const std::string& value = what == QLatin1String("point_kind")  ? m_choice.point_kind
                               : what == QLatin1String("name")      ? m_choice.name_field
                               : what == QLatin1String("kind")      ? m_choice.kind_field
                               : what == QLatin1String("height")    ? m_choice.height_field
                               : what == QLatin1String("longitude") ? m_reading.positions.longitude
                                                                    : m_reading.positions.latitude;
    return QString::fromStdString(value);
}

void ImportModel::choose(const QString& what, const QString& id) {
    const std::string text = id.toStdString();
    if (what == QLatin1String("lines"))
        m_choice.lines = import_lines_from_id(text).value_or(m_choice.lines);
    else if (what == QLatin1String("areas"))
        m_choice.areas_are_boundary = text == "boundary";
    else if (what == QLatin1String("point_kind"))
        m_choice.point_kind = text;
    else if (what == QLatin1String("name"))
        m_choice.name_field = text;
    else if (what == QLatin1String("kind"))
        m_choice.kind_field = text;
    else if (what == QLatin1String("height"))
        m_choice.height_field = text;
    else if (what == QLatin1String("longitude"))
        m_reading.positions.longitude = text;
    else
        m_reading.positions.latitude = text;
    const PositionColumns& columns = m_reading.positions;
    if (what == QLatin1String("longitude") || what == QLatin1String("latitude")) {
        if (!columns.longitude.empty() && !columns.latitude.empty())
            return read_again();
    } else {
        plan();
    }
    emit changed();
}

ImportModel::Seen ImportModel::see(const std::filesystem::path& path, const ImportReading& reading) {
    Seen seen;
    const Expected<std::string> bytes = import_bytes(path);
    if (!bytes) {
        seen.refusal = bytes.error();
        return seen;
    }
    seen.format = import_format(*bytes);
    seen.digest = sha256_hex(*bytes);
    if (seen.format == "geopackage")
        if (const Expected<std::vector<ForeignLayer>> layers = foreign_layers(path))
            for (const ForeignLayer& layer : *layers)
                seen.layers.push_back(layer.name);
    if (seen.layers.size() > 1 && reading.layer.empty())
        return seen; // which one is asked first
    Expected<ImportedFile> file = read_import_file(path, *bytes, reading);
    if (file)
        seen.file = std::move(file).value();
    else
        seen.refusal = file.error();
    if (seen.refusal && seen.refusal->code == "exchange.import_column_missing")
        if (const Expected<CsvTable> table = read_csv(*bytes, path.filename().string()))
            seen.columns = table->header;
    return seen;
}

ImportModel::Seen ImportModel::see_photos(const QStringList& paths) {
    Seen seen;
    seen.format = "jpeg";
    std::string digests;
    for (const QString& path : paths) {
        PhotoContext context;
        context.title = QFileInfo(path).completeBaseName().toStdString();
        Expected<PhotoData> photo = prepare_photo(path, context);
        if (!photo) {
            seen.refusal = photo.error();
            seen.photos.clear();
            return seen;
        }
        const std::string_view bytes(reinterpret_cast<const char*>(photo->picture.data()), photo->picture.size());
        digests += sha256_hex(bytes);
        seen.photos.push_back(std::move(photo).value());
    }
    seen.digest = sha256_hex(digests);
    return seen;
}

void ImportModel::work(std::function<Seen()> task) {
    auto seen = std::make_shared<Seen>();
    m_thread.reset(QThread::create([task = std::move(task), seen] { *seen = task(); }));
    connect(m_thread.get(), &QThread::finished, this, [this, seen] {
        m_seen = std::move(*seen);
        m_refusal = m_seen.refusal;
        m_thread.release()->deleteLater();
        plan();
        emit changed();
    });
    m_plan.reset();
    m_refusal.reset();
    m_done.clear();
    m_thread->start();
    emit changed();
}

void ImportModel::look(const QList<QUrl>& files) {
    if (m_thread || files.isEmpty() || !m_project.is_open())
        return;
    putAway();
    for (const QUrl& file : files)
        m_paths.append(file.isLocalFile() ? file.toLocalFile() : file.toString());
    QFile head(m_paths.front());
    const bool picture = head.open(QIODevice::ReadOnly) && import_format(head.read(64).toStdString()) == "jpeg";
    if (picture || m_paths.size() > 1)
        work([paths = m_paths] { return see_photos(paths); });
    else
        read_again();
}

void ImportModel::read_again() {
    if (m_thread || m_paths.isEmpty())
        return;
    work([path = path_of(m_paths.front()), reading = m_reading] { return see(path, reading); });
}

void ImportModel::plan() {
    if (!m_seen.photos.empty()) {
        m_plan = ImportPlan{};
    } else if (m_seen.file) {
        Expected<ImportPlan> planned = plan_import(*m_seen.file, m_choice, fileName().toStdString());
        m_refusal.reset();
        m_plan.reset();
        if (planned)
            m_plan = std::move(planned).value();
        else
            m_refusal = planned.error();
    }
    if (!m_plan || m_project.project() == nullptr)
        return;
    if (const std::optional<ImportRow> before = earlier_import(*m_project.project(), m_seen.digest))
        m_plan->notes.push_back(warning("site.import_again", fileName().toStdString(), {{"at", before->observed_at}}));
}

void ImportModel::takeIn() {
    if (!ready() || !m_project.is_open())
        return;
    ImportSource source{m_seen.format, fileName().toStdString(), m_seen.digest, m_reading.layer,
                        m_seen.photos.empty() ? mapping_text(m_choice) : std::string()};
    auto photos = std::make_shared<std::vector<PhotoData>>(std::move(m_seen.photos));
    auto outcome = std::make_shared<ImportOutcome>();
    m_project.act(
        [plan = *m_plan, source, photos, outcome](Project& project) -> Expected<void> {
            const Expected<ImportOutcome> booked = book_import(project, plan, source, *photos);
            if (!booked)
                return booked.error();
            *outcome = *booked;
            return {};
        },
        [this, outcome, name = fileName()] {
            putAway();
            m_done = tr("%1 was taken in: %2 stations, %3 points of a track, %4 photos. One undo takes it back.")
                         .arg(name)
                         .arg(outcome->stations)
                         .arg(outcome->fixes)
                         .arg(outcome->photos);
            emit changed();
        });
}

void ImportModel::putAway() {
    if (m_thread)
        return;
    m_paths.clear();
    m_seen = {};
    m_reading = {};
    m_choice = {};
    m_plan.reset();
    m_refusal.reset();
    m_done.clear();
    emit changed();
}
