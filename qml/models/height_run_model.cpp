// SPDX-License-Identifier: GPL-3.0-or-later
#include "height_run_model.h"

#include "heights/tilt.h"
#include "site/height_evidence.h"
#include "site/heights.h"
#include "site/reading_doubts.h"
#include "words/words.h"

#include <algorithm>

using namespace rillmark;

namespace {

const QString kRemark = QStringLiteral("remark");
const QString kChangePoint = QStringLiteral("cp:");
const QString kBase = QStringLiteral("base");
const QString kRover = QStringLiteral("rover");
const QString kUp = QStringLiteral("up");
const QString kDown = QStringLiteral("down");
const QString kForward = QStringLiteral("forward");
const QString kBack = QStringLiteral("back");
const QString kFirstWay = QStringLiteral("first-way");
const QString kTurned = QStringLiteral("turned");
const QString kPressure = QStringLiteral("pressure");

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// A point as the page holds it: key of a station, or "cp:" and the name of a change point.
void put_point(const QString& point, std::optional<Id>& station, std::string& name) {
    if (point.startsWith(kChangePoint))
        name = point.mid(kChangePoint.size()).toStdString();
    else
        station = key_of(point);
}

QString point_of(const std::optional<Id>& station, const std::string& name) {
    return station ? key_text(*station) : kChangePoint + QString::fromStdString(name);
}

/// The field that fills a column shows the number in the unit that it is typed in.
template <class Record>
void show_in_field(const std::vector<RecordField<Record>>& fields, EntryForm& form, std::optional<double> Record::* column,
                   double si, const Formatter& formatter) {
    for (const RecordField<Record>& one : fields)
        if (const auto* at = std::get_if<std::optional<double> Record::*>(&one.column); at && *at == column && !one.slope)
            form.setTypedByKey(one.field.key, formatter.value(si, *one.field.quantity));
}

} // namespace

HeightRunModel::HeightRunModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume), m_sensor(settings) {
    connect(&m_sensor, &HeldReading::taken, this, &HeightRunModel::take);
    connect(&m_sensor, &HeldReading::changed, this, &HeightRunModel::changed);
    connect(&m_project, &OpenProject::opened, this,
            [this] { m_run = key_of(m_resume.text(QStringLiteral("levels/run"))); });
    connect(&m_project, &OpenProject::changed, this, [this] {
        if (row() == nullptr)
            m_run = 0;
        propose_points();
        emit changed();
    });
    connect(&m_settings, &SettingsModel::changed, this, &HeightRunModel::changed);
}

const HeightRunRow* HeightRunModel::row() const {
    return m_run == 0 ? nullptr : m_project.survey().height_run(m_run);
}

std::optional<HeightMethod> HeightRunModel::height_method() const {
    return row() ? height_method_from_id(row()->method) : std::nullopt;
}

const HeightRunModel::Forms* HeightRunModel::forms() const {
    const std::optional<HeightMethod> method = height_method();
    if (!method)
        return nullptr;
    const auto [found, added] = m_forms.try_emplace(*method);
    Forms& forms = found->second;
    if (added) {
        auto* self = const_cast<HeightRunModel*>(this);
        const QString id = utf8(height_method_info(*method).id);
        forms.reading_fields = reading_fields(*method);
        forms.run_fields = run_fields(*method);
        std::vector<EntryForm::Field> fields = form_fields(forms.reading_fields);
        fields.push_back({kRemark, tr("Remark"), {}, false, false});
        forms.reading = std::make_unique<EntryForm>(QStringLiteral("height/") + id, std::move(fields), m_settings, m_resume);
        connect(forms.reading.get(), &EntryForm::judged, self, &HeightRunModel::changed);
        if (!forms.run_fields.empty()) {
            forms.run = std::make_unique<EntryForm>(QStringLiteral("instrument/") + id, form_fields(forms.run_fields),
                                                    m_settings, m_resume);
            connect(forms.run.get(), &EntryForm::judged, self, &HeightRunModel::changed);
        }
    }
    return &forms;
}

const RunResult* HeightRunModel::outcome() const {
    for (const RunResult& result : m_project.estimate().heights.runs)
        if (result.run_id == m_run)
            return &result;
    return nullptr;
}

std::vector<Booked<HeightReadingRow>> HeightRunModel::booked() const {
    return m_project.survey().readings(m_run);
}

void HeightRunModel::setRun(const QString& key) {
    m_run = key_of(key);
    m_resume.setText(QStringLiteral("levels/run"), key);
    m_from.clear();
    m_to.clear();
    m_role.clear();
    m_first_way.reset();
    m_level_check.clear();
    const std::optional<HeightMethod> method = height_method();
    m_sensor.use(method == HeightMethod::Clinometer ? HeldReading::Sensor::Tilt
                 : method == HeightMethod::Barometer || method == HeightMethod::BaseAndRover ? HeldReading::Sensor::Pressure
                                                                                             : HeldReading::Sensor::None);
    load_instrument();
    propose_points();
    emit changed();
}

/// The fields of the instrument show what the run holds, in the user's units.
void HeightRunModel::load_instrument() {
    const Forms* all = forms();
    if (all == nullptr || !all->run)
        return;
    show_record(all->run_fields, *row(), *all->run, m_settings.formatter());
}

QString HeightRunModel::name() const {
    return row() ? QString::fromStdString(row()->name) : QString();
}

QString HeightRunModel::method() const {
    return row() ? QString::fromStdString(row()->method) : QString();
}

QString HeightRunModel::methodName() const {
    const std::optional<HeightMethod> method = height_method();
    return method ? Formatter::words(std::string(height_method_info(*method).name_code)) : QString();
}

QString HeightRunModel::instrument() const {
    return row() ? QString::fromStdString(row()->instrument) : QString();
}

QString HeightRunModel::advice() const {
    const std::optional<HeightMethod> method = height_method();
    return method ? Formatter::words(height_advice_code(*method)) : QString();
}

QString HeightRunModel::caution() const {
    const std::optional<HeightMethod> method = height_method();
    // not every method has one
    return method && words::find(height_caution_code(*method)) ? Formatter::words(height_caution_code(*method)) : QString();
}

QList<Choice> HeightRunModel::methods() const {
    QList<Choice> choices;
    for (const HeightMethodInfo& info : height_methods())
        choices.append({utf8(info.id), Formatter::words(std::string(info.name_code))});
    return choices;
}

EntryForm* HeightRunModel::form() const {
    const Forms* all = forms();
    return all ? all->reading.get() : nullptr;
}

EntryForm* HeightRunModel::instrumentForm() const {
    const Forms* all = forms();
    return all ? all->run.get() : nullptr;
}

int HeightRunModel::ends() const {
    const std::optional<HeightMethod> method = height_method();
    return method ? static_cast<int>(height_method_info(*method).ends) : 0;
}

QList<Choice> HeightRunModel::points() const {
    QList<Choice> choices = station_choices(m_project.survey());
    int highest = 0;
    for (const Booked<HeightReadingRow>& one : booked())
        for (const auto& [station, name] : {std::pair(one.row.from_id, one.row.from_point), std::pair(one.row.to_id, one.row.to_point)}) {
            const Choice choice{kChangePoint + QString::fromStdString(name), QString::fromStdString(name)};
            if (!station && !name.empty() && !choices.contains(choice))
                choices.append(choice);
            if (!station && name.starts_with("CP"))
                highest = std::max(highest, std::atoi(name.c_str() + 2));
        }
    if (ends() == 2) {
        const QString next = QStringLiteral("CP%1").arg(highest + 1);
        choices.append({kChangePoint + next, tr("New change point %1").arg(next)});
    }
    return choices;
}

/// The next reading begins where the last one ended.
void HeightRunModel::propose_points() {
    if (row() == nullptr || !m_from.isEmpty())
        return;
    const std::vector<Booked<HeightReadingRow>> all = booked();
    if (!all.empty() && ends() == 2)
        m_from = point_of(all.back().row.to_id, all.back().row.to_point);
    else if (const QList<Choice> choices = points(); !choices.isEmpty())
        m_from = choices.first().id;
}

QString HeightRunModel::from() const {
    return m_from;
}

void HeightRunModel::setFrom(const QString& point) {
    m_from = point;
    emit changed();
}

QString HeightRunModel::to() const {
    return m_to;
}

void HeightRunModel::setTo(const QString& point) {
    m_to = point;
    emit changed();
}

QList<Choice> HeightRunModel::roles() const {
    if (height_method() == HeightMethod::BaseAndRover)
        return {{kBase, tr("Base")}, {kRover, tr("Rover")}};
    if (height_method() == HeightMethod::HandLevel)
        return {{kUp, tr("Uphill")}, {kDown, tr("Downhill")}};
    return {};
}

QString HeightRunModel::role() const {
    const QList<Choice> all = roles();
    return all.isEmpty() ? QString() : m_role.isEmpty() ? all.first().id : m_role;
}

void HeightRunModel::setRole(const QString& role) {
    m_role = role;
    emit changed();
}

QList<Choice> HeightRunModel::holds() const {
    if (!m_sensor.available())
        return {};
    if (height_method() == HeightMethod::Clinometer)
        return {{kForward, tr("Sight forward along the phone")},
                {kBack, tr("Sight back along the phone")},
                {kFirstWay, tr("Level check, first way round")},
                {kTurned, tr("Level check, turned end for end")}};
    return {{kPressure, tr("Read the air pressure for half a minute")}};
}

QString HeightRunModel::levelCheck() const {
    return m_level_check;
}

void HeightRunModel::hold(const QString& what) {
    m_hold = what;
    m_sensor.start();
}

void HeightRunModel::take(const Estimate& reading) {
    const Forms* all = forms();
    if (all == nullptr)
        return;
    const Formatter formatter = m_settings.formatter();
    const auto show = [&](std::optional<double> HeightReadingRow::* column) {
        show_in_field(all->reading_fields, *all->reading, column, reading.value, formatter);
    };
    if (m_hold == kForward)
        show(&HeightReadingRow::angle_deg);
    else if (m_hold == kBack)
        show(&HeightReadingRow::back_angle_deg);
    else if (m_hold == kPressure)
        show(&HeightReadingRow::pressure_Pa);
    else
        check_level(reading);
    emit changed();
}

/// Two sights on one surface, the second turned end for end: half their sum is what the phone shows on the level.
void HeightRunModel::check_level(const Estimate& angle_rad) {
    if (m_hold == kFirstWay) {
        m_first_way = angle_rad;
        m_level_check = tr("First way read. Turn the phone end for end on the same spot.");
        return;
    }
    const Forms* all = forms();
    const Formatter formatter = m_settings.formatter();
    if (!m_first_way || all == nullptr || !all->run) {
        m_level_check = tr("Read the first way round before the turned one.");
        return;
    }
    const Expected<TiltIndex> index = tilt_index(*m_first_way, angle_rad);
    m_first_way.reset();
    if (!index) {
        m_level_check = formatter.finding(index.error()).sentence;
        return;
    }
    show_in_field(all->run_fields, *all->run, &HeightRunRow::index_deg, index->index_rad.value, formatter);
    show_in_field(all->run_fields, *all->run, &HeightRunRow::index_u_deg, index->index_rad.expanded(), formatter);
    m_level_check = tr("On the level it shows %1. Use it for the run.").arg(formatter.estimate(index->index_rad, Quantity::Angle));
}

bool HeightRunModel::ready() const {
    const Forms* all = forms();
    if (all == nullptr || !all->reading->complete() || m_project.project()->read_only())
        return false;
    if (ends() >= 1 && m_from.isEmpty())
        return false;
    return ends() < 2 || (!m_to.isEmpty() && m_to != m_from);
}

QString HeightRunModel::result() const {
    const RunResult* run = outcome();
    if (run == nullptr)
        return {};
    const Formatter formatter = m_settings.formatter();
    if (run->two_peg)
        return formatter.collimation(run->two_peg->collimation);
    if (!run->whole)
        return {};
    const Estimate& rise = *run->whole;
    const QString size = formatter.estimate({std::abs(rise.value), rise.standard_uncertainty}, Quantity::Length);
    return rise.value < 0.0 ? tr("Falls %1").arg(size) : tr("Rises %1").arg(size);
}

QString HeightRunModel::resultDetail() const {
    const RunResult* run = outcome();
    if (run == nullptr || !run->whole)
        return {};
    return tr("From %1 to %2").arg(QString::fromStdString(run->whole_from), QString::fromStdString(run->whole_to));
}

QList<FindingText> HeightRunModel::doubts() const {
    if (!ready())
        return {};
    return m_settings.formatter().findings(reading_doubts(m_project.survey(), m_project.estimate().heights, typed_reading()));
}

QList<FindingText> HeightRunModel::findings() const {
    const RunResult* run = outcome();
    if (run == nullptr)
        return {};
    Findings all = run->findings;
    for (const Evidence& one : evidence_of(m_project.survey(), m_project.estimate().heights))
        if (one.place == Evidence::Place::Run && one.place_id == m_run && one.slip)
            all.push_back(*one.slip);
    return m_settings.formatter().findings(all);
}

PegGuide HeightRunModel::pegGuide() const {
    if (height_method() != HeightMethod::TwoPeg)
        return {};
    int setups = 0;
    QDate tested;
    for (const Booked<HeightReadingRow>& one : booked())
        if (!one.struck) {
            ++setups;
            tested = QDate::fromString(QString::fromStdString(one.row.observed_at.substr(0, 10)), Qt::ISODate);
        }
    const RunResult* run = outcome();
    return peg_guide(setups, run ? run->two_peg : std::nullopt, tested, QDate::currentDate());
}

QList<ReadingItem> HeightRunModel::readings() const {
    QList<ReadingItem> items;
    const Formatter formatter = m_settings.formatter();
    const RunResult* run = outcome();
    const Survey& survey = m_project.survey();
    for (const Booked<HeightReadingRow>& one : booked()) {
        ReadingItem item;
        item.id = key_text(one.row.id);
        item.struck = one.struck;
        const QString from = QString::fromStdString(reading_point_name(survey, one.row, false));
        const QString to = QString::fromStdString(reading_point_name(survey, one.row, true));
        const QString typed = QString::fromStdString(one.row.typed);
        item.text = ends() == 2 ? tr("%1 to %2: %3").arg(from, to, typed) : ends() == 1 ? tr("%1: %2").arg(from, typed) : typed;
        if (one.struck)
            item.detail = QString::fromStdString(one.struck_reason);
        else if (run != nullptr)
            for (const ReadingRise& rise : run->rises)
                if (rise.reading_id == one.row.id)
                    item.detail = tr("rise %1").arg(formatter.estimate(rise.rise, Quantity::Length));
        if (!one.row.remark.empty())
            item.detail += (item.detail.isEmpty() ? QString() : QStringLiteral("; ")) + QString::fromStdString(one.row.remark);
        items.append(item);
    }
    return items;
}

void HeightRunModel::newRun(const QString& method, const QString& name, const QString& instrument) {
    const std::optional<HeightMethod> known = height_method_from_id(method.toStdString());
    if (!known)
        return;
    HeightRunRow run;
    run.method = method.toStdString();
    run.name = name.simplified().isEmpty() ? Formatter::words(std::string(height_method_info(*known).name_code)).toStdString()
                                           : name.simplified().toStdString();
    run.instrument = instrument.simplified().toStdString();
    // the instrument of the last run of this kind is most likely the one in hand
    for (const Booked<HeightRunRow>& earlier : m_project.survey().height_runs)
        if (!earlier.struck && earlier.row.method == run.method) {
            const std::string own_name = run.name;
            const std::string own_instrument = run.instrument;
            run = earlier.row;
            run.id = 0;
            run.created_at.clear();
            run.note.clear();
            run.name = own_name;
            if (!own_instrument.empty())
                run.instrument = own_instrument;
        }
    m_project.book(run, [this](Id id) { setRun(key_text(id)); });
}

void HeightRunModel::rename(const QString& name) {
    if (row() == nullptr || name.simplified().isEmpty() || name.simplified() == this->name())
        return;
    HeightRunRow run = *row();
    run.name = name.simplified().toStdString();
    m_project.change(run);
}

void HeightRunModel::setInstrument(const QString& instrument) {
    if (row() == nullptr || instrument.simplified() == this->instrument())
        return;
    HeightRunRow run = *row();
    run.instrument = instrument.simplified().toStdString();
    m_project.change(run);
}

void HeightRunModel::keepInstrument() {
    const Forms* all = forms();
    if (all == nullptr || !all->run || !all->run->complete())
        return;
    HeightRunRow run = *row();
    fill_record(all->run_fields, *all->run, run);
    m_project.change(run);
}

HeightReadingRow HeightRunModel::typed_reading() const {
    const Forms* all = forms();
    HeightReadingRow reading;
    reading.run_id = m_run;
    for (const Booked<HeightReadingRow>& one : booked())
        reading.position = std::max(reading.position, one.row.position + 1);
    reading.role = role().toStdString();
    if (ends() >= 1)
        put_point(m_from, reading.from_id, reading.from_point);
    if (ends() == 2)
        put_point(m_to, reading.to_id, reading.to_point);
    fill_record(all->reading_fields, *all->reading, reading);
    reading.typed = typed_of(all->reading_fields, *all->reading);
    reading.remark = all->reading->typed(kRemark).simplified().toStdString();
    return reading;
}

void HeightRunModel::book() {
    if (!ready())
        return;
    m_project.book(typed_reading(), [this](Id) {
        if (const Forms* shown = forms())
            shown->reading->booked();
        if (ends() == 2) {
            m_from = m_to;
            m_to.clear();
        }
        emit changed();
    });
}

void HeightRunModel::strikeReading(const QString& id, const QString& reason) {
    m_project.strike(HeightReadingRow::kTable, key_of(id), reason);
}

void HeightRunModel::restoreReading(const QString& id) {
    m_project.restore(HeightReadingRow::kTable, key_of(id), QStringLiteral("restored"));
}

void HeightRunModel::strikeRun(const QString& reason) {
    m_project.strike(HeightRunRow::kTable, m_run, reason);
    setRun({});
}
