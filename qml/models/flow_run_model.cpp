// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow_run_model.h"

#include "exchange/reduce_table.h"
#include "site/flow_readings.h"
#include "units/units.h"
#include "words/words.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

using namespace rillmark;

namespace {

const QString kRemark = QStringLiteral("remark");
constexpr int kMostParts = 3;
constexpr double kMicrosiemensPerCm = 1e4; // of one S/m, for the axis of the plot

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

std::string underscored(std::string_view id) {
    std::string text(id);
    std::replace(text.begin(), text.end(), '-', '_');
    return text;
}

/// The words for a code, or nothing where there are none.
QString words_if_any(const std::string& code) {
    return words::find(code) != nullptr ? Formatter::words(code) : QString();
}

constexpr ReduceField kWaveColumns[] = {
    {"time", Quantity::Time, true}, {"conductivity", Quantity::Conductivity, true}, {"temperature", Quantity::Temperature}};

} // namespace

FlowRunModel::FlowRunModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume) {
    connect(&m_project, &OpenProject::changed, this, &FlowRunModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &FlowRunModel::changed);
}

const FlowTestRow* FlowRunModel::row() const {
    return m_test == 0 ? nullptr : m_project.survey().test(m_test);
}

std::optional<FlowMethod> FlowRunModel::flow_method() const {
    return row() ? flow_method_from_id(row()->method) : std::nullopt;
}

const FlowRunModel::Forms* FlowRunModel::forms() const {
    const std::optional<FlowMethod> method = flow_method();
    if (!method)
        return nullptr;
    const auto [found, added] = m_forms.try_emplace(*method);
    Forms& forms = found->second;
    if (added) {
        auto* self = const_cast<FlowRunModel*>(this);
        const QString id = utf8(flow_method_info(*method).id);
        forms.setup_fields = setup_fields(*method);
        forms.setup = std::make_unique<EntryForm>(QStringLiteral("flow-setup/") + id, form_fields(forms.setup_fields), m_settings, m_resume);
        connect(forms.setup.get(), &EntryForm::judged, self, &FlowRunModel::changed);
        forms.roles = reading_roles(*method);
        for (const ReadingRole& role : forms.roles) {
            std::vector<EntryForm::Field> fields = form_fields(role.fields);
            fields.push_back({kRemark, tr("Remark"), {}, false, false});
            forms.readings.push_back(std::make_unique<EntryForm>(
                QStringLiteral("flow/%1/%2").arg(id, QString::fromStdString(role.role)), std::move(fields), m_settings, m_resume));
            connect(forms.readings.back().get(), &EntryForm::judged, self, &FlowRunModel::changed);
        }
    }
    return &forms;
}

const ReadingRole* FlowRunModel::reading_role() const {
    const Forms* all = forms();
    return all != nullptr && m_role < all->roles.size() ? &all->roles[m_role] : nullptr;
}

const TestResult* FlowRunModel::outcome() const {
    for (const TestResult& result : m_project.estimate().flow.tests)
        if (result.test_id == m_test)
            return &result;
    return nullptr;
}

const SlugTrace* FlowRunModel::slug() const {
    const TestResult* result = outcome();
    const auto probe = static_cast<std::size_t>(m_part);
    return result != nullptr && probe < result->traces.size() ? &result->traces[probe] : nullptr;
}

void FlowRunModel::setTest(const QString& key) {
    if (key == test())
        return;
    m_test = key_of(key);
    m_role = 0;
    m_part = 0;
    if (const Forms* all = forms())
        show_record(all->setup_fields, *row(), *all->setup, m_settings.formatter());
    emit changed();
}

QString FlowRunModel::methodName() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? Formatter::words(std::string(flow_method_info(*method).name_code)) : QString();
}

QString FlowRunModel::advice() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? words_if_any("flow.advice_" + underscored(flow_method_info(*method).id)) : QString();
}

QString FlowRunModel::caution() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? words_if_any("flow.caution_" + underscored(flow_method_info(*method).id)) : QString();
}

EntryForm* FlowRunModel::setup() const {
    const Forms* all = forms();
    return all ? all->setup.get() : nullptr;
}

QList<SetupChoiceItem> FlowRunModel::setupChoices() const {
    QList<SetupChoiceItem> items;
    const std::optional<FlowMethod> method = flow_method();
    if (!method)
        return items;
    for (const SetupChoice& choice : setup_choices(*method))
        items.append({choice.label, choice.choices, QString::fromStdString(row()->*choice.column)});
    return items;
}

void FlowRunModel::choose(int which, const QString& id) {
    const std::optional<FlowMethod> method = flow_method();
    if (!method)
        return;
    const std::vector<SetupChoice> choices = setup_choices(*method);
    FlowTestRow test = *row();
    test.*choices.at(static_cast<std::size_t>(which)).column = id.toStdString();
    m_project.change(test);
}

void FlowRunModel::keepSetup() {
    const Forms* all = forms();
    if (all == nullptr || !all->setup->complete())
        return;
    FlowTestRow test = *row();
    fill_record(all->setup_fields, *all->setup, test);
    m_project.change(test);
}

QList<Choice> FlowRunModel::roles() const {
    QList<Choice> choices;
    if (const Forms* all = forms())
        for (const ReadingRole& one : all->roles)
            choices.append({QString::fromStdString(one.role), one.label});
    return choices;
}

QString FlowRunModel::role() const {
    const ReadingRole* one = reading_role();
    return one ? QString::fromStdString(one->role) : QString();
}

void FlowRunModel::setRole(const QString& role) {
    const QList<Choice> all = roles();
    for (qsizetype i = 0; i < all.size(); ++i)
        if (all[i].id == role)
            m_role = static_cast<std::size_t>(i);
    emit changed();
}

QString FlowRunModel::partLabel() const {
    const ReadingRole* one = reading_role();
    return one ? one->part_label : QString();
}

QList<Choice> FlowRunModel::parts() const {
    QList<Choice> choices;
    for (int i = 0; i < kMostParts; ++i)
        choices.append({QString::number(i), tr("%1 %2").arg(partLabel()).arg(i + 1)});
    return choices;
}

void FlowRunModel::setPart(const QString& part) {
    m_part = std::clamp(part.toInt(), 0, kMostParts - 1);
    emit changed();
}

EntryForm* FlowRunModel::form() const {
    const Forms* all = forms();
    return all != nullptr && m_role < all->readings.size() ? all->readings[m_role].get() : nullptr;
}

bool FlowRunModel::timed() const {
    return role() == QLatin1String(flow_role::kRun);
}

void FlowRunModel::takeTime(double seconds) {
    const ReadingRole* one = reading_role();
    if (one != nullptr && timed())
        form()->setTypedByKey(one->fields.front().field.key, m_settings.formatter().value(seconds, Quantity::Time, 2));
}

QList<ReadingItem> FlowRunModel::readings() const {
    QList<ReadingItem> items;
    const Forms* all = forms();
    if (all == nullptr)
        return items;
    for (const Booked<FlowReadingRow>& one : m_project.survey().test_readings(m_test)) {
        ReadingItem item;
        item.id = key_text(one.row.id);
        item.struck = one.struck;
        QString label = QString::fromStdString(one.row.role);
        for (const ReadingRole& role : all->roles)
            if (role.role == one.row.role)
                label = role.part_label.isEmpty() ? role.label : tr("%1, %2 %3").arg(role.label, role.part_label).arg(one.row.part + 1);
        item.text = tr("%1: %2").arg(label, QString::fromStdString(one.row.typed));
        item.detail = QString::fromStdString(one.struck ? one.struck_reason : one.row.remark);
        items.append(item);
    }
    return items;
}

QStringList FlowRunModel::details() const {
    QStringList lines;
    if (const TestResult* result = outcome())
        for (const FlowDetail& one : result->details)
            lines.append(tr("%1: %2").arg(Formatter::words(one.code), m_settings.formatter().estimate(one.value, one.quantity)));
    return lines;
}

QList<QPointF> FlowRunModel::wave() const {
    QList<QPointF> points;
    if (const SlugTrace* trace = slug())
        for (std::size_t i = 0; i < trace->prepared.time_s.size(); ++i)
            points.append({trace->prepared.time_s[i], kMicrosiemensPerCm * trace->prepared.ec_Sm[i]});
    return points;
}

double FlowRunModel::waveFrom() const {
    return slug() ? slug()->windows.start_s : 0.0;
}

double FlowRunModel::waveTo() const {
    return slug() ? slug()->windows.end_s : 0.0;
}

void FlowRunModel::setWave(double from_s, double to_s) {
    if (row() == nullptr || !(from_s < to_s))
        return;
    FlowTestRow test = *row();
    test.trace_from_s = from_s;
    test.trace_to_s = to_s;
    m_project.change(test);
}

std::int64_t FlowRunModel::next_position() const {
    std::int64_t position = 0;
    for (const Booked<FlowReadingRow>& one : m_project.survey().test_readings(m_test))
        position = std::max(position, one.row.position + 1);
    return position;
}

void FlowRunModel::book() {
    const ReadingRole* one = reading_role();
    if (one == nullptr || !form()->complete())
        return;
    FlowReadingRow reading;
    reading.test_id = m_test;
    reading.position = next_position();
    reading.role = one->role;
    reading.part = one->part_label.isEmpty() ? 0 : m_part;
    fill_record(one->fields, *form(), reading);
    reading.typed = typed_of(one->fields, *form());
    reading.remark = form()->typed(kRemark).simplified().toStdString();
    m_project.book(reading, [this](Id) {
        if (EntryForm* shown = form())
            shown->booked();
        emit changed();
    });
}

void FlowRunModel::strikeReading(const QString& id, const QString& reason) {
    m_project.strike(FlowReadingRow::kTable, key_of(id), reason);
}

void FlowRunModel::restoreReading(const QString& id) {
    m_project.restore(FlowReadingRow::kTable, key_of(id), QStringLiteral("restored"));
}

void FlowRunModel::importWave(const QUrl& file) {
    const auto tell = [this](const Finding& why) { emit refused(m_settings.formatter().finding(why)); };
    QFile opened(file.toLocalFile());
    const std::string name = QFileInfo(opened).fileName().toStdString();
    if (opened.size() > static_cast<qint64>(kCsvLargestFile_bytes) || !opened.open(QIODevice::ReadOnly))
        return tell(refusal("exchange.file_unreadable", name));
    const QByteArray bytes = opened.readAll();
    const Expected<CsvTable> table = read_csv({bytes.constData(), static_cast<std::size_t>(bytes.size())}, name);
    if (!table)
        return tell(table.error());
    const Expected<ReduceTable> rows = read_reduce_table(*table, kWaveColumns, {}, {});
    if (!rows)
        return tell(rows.error());
    std::vector<FlowReadingRow> wave;
    std::int64_t position = next_position();
    for (std::size_t i = 0; i < rows->size(); ++i) {
        FlowReadingRow reading;
        reading.test_id = m_test;
        reading.position = position++;
        reading.role = flow_role::kTrace;
        reading.part = m_part;
        reading.time_s = rows->number(i, "time");
        reading.conductivity_Sm = rows->number(i, "conductivity");
        reading.temperature_C = rows->number(i, "temperature");
        reading.typed = rows->text(i, "time") + ", " + rows->text(i, "conductivity");
        reading.remark = name;
        wave.push_back(std::move(reading));
    }
    m_project.act([wave = std::move(wave)](Project& project) {
        return project.together([&wave](Project::Batch& batch) -> Expected<void> {
            for (const FlowReadingRow& reading : wave)
                if (const Expected<Id> booked = batch.book(reading); !booked)
                    return booked.error();
            return {};
        });
    });
}
