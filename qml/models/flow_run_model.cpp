// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow_run_model.h"

#include "site/flow_readings.h"
#include "words/words.h"

#include <algorithm>
#include <tuple>

using namespace rillmark;

namespace {

const QString kRemark = QStringLiteral("remark");
constexpr int kMostParts = 3;
const QString kGroup = QStringLiteral("group/"); // id of a logger's readings in the list
constexpr std::ptrdiff_t kListed = 30; // more readings of a wave than these are listed as one

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

/// The readings of a wave that came together: from one logger, or typed by one person without a remark.
using WaveGroup = std::tuple<std::int64_t, std::string, bool>; // part, remark, struck

WaveGroup group_of(const Booked<FlowReadingRow>& one) {
    return {one.row.part, one.row.remark, one.struck};
}

std::map<WaveGroup, std::ptrdiff_t> wave_groups(const std::vector<Booked<FlowReadingRow>>& readings) {
    std::map<WaveGroup, std::ptrdiff_t> groups;
    for (const Booked<FlowReadingRow>& one : readings)
        if (one.row.role == flow_role::kTrace)
            ++groups[group_of(one)];
    return groups;
}

} // namespace

FlowRunModel::FlowRunModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume), m_logged(project, settings), m_clock(resume),
      m_salt_plan(settings, resume) {
    connect(&m_logged, &LoggedTrace::refused, this, &FlowRunModel::refused);
    connect(&m_clock, &TraceClock::due, this, [this](double seconds) {
        // what is typed half belongs to the time that stands with it
        if (role() == QLatin1String(flow_role::kTrace) && !form()->complete())
            fill_field(&FlowReadingRow::time_s, QString::number(seconds, 'f', 1));
    });
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
    const auto [found, added] = m_forms.try_emplace({*method, dye()});
    Forms& forms = found->second;
    if (added) {
        auto* self = const_cast<FlowRunModel*>(this);
        const QString id = utf8(flow_method_info(*method).id) + (dye() ? QStringLiteral("-dye") : QString());
        forms.setup_fields = setup_fields(*method, dye());
        forms.setup = std::make_unique<EntryForm>(QStringLiteral("flow-setup/") + id, form_fields(forms.setup_fields), m_settings, m_resume);
        connect(forms.setup.get(), &EntryForm::judged, self, &FlowRunModel::changed);
        forms.roles = reading_roles(*method, dye());
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
    m_clock.setTest(test());
    m_salt_plan.setSteady(flow_method() == FlowMethod::ConstantRate);
    show_setup();
    emit changed();
}

void FlowRunModel::show_setup() {
    if (const Forms* all = forms())
        show_record(all->setup_fields, *row(), *all->setup, m_settings.formatter());
}

bool FlowRunModel::dye() const {
    return row() != nullptr && row()->tracer == kDyeTracer;
}

bool FlowRunModel::plansSalt() const {
    return flow_method() == FlowMethod::SaltSlug || (flow_method() == FlowMethod::ConstantRate && !dye());
}

QString FlowRunModel::methodName() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? Formatter::words(std::string(flow_method_info(*method).name_code)) : QString();
}

QString FlowRunModel::advice() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? words_if_any("flow.advice_" + underscored(flow_method_info(*method).id) + (dye() ? "_dye" : "")) : QString();
}

QString FlowRunModel::caution() const {
    const std::optional<FlowMethod> method = flow_method();
    return method ? words_if_any("flow.caution_" + underscored(flow_method_info(*method).id) + (dye() ? "_dye" : "")) : QString();
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
    show_setup(); // another tracer asks for other numbers
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
    const std::vector<Booked<FlowReadingRow>> booked = m_project.survey().test_readings(m_test);
    const std::map<WaveGroup, std::ptrdiff_t> groups = wave_groups(booked);
    for (const auto& [group, count] : groups) {
        const auto& [part, remark, struck] = group;
        if (count > kListed)
            items.append({kGroup + QStringLiteral("%1/%2").arg(part).arg(QString::fromStdString(remark)),
                          tr("Wave, probe %1: %2 readings").arg(part + 1).arg(count), QString::fromStdString(remark), 0.0, {}, struck});
    }
    for (const Booked<FlowReadingRow>& one : booked) {
        if (const auto group = groups.find(group_of(one)); one.row.role == flow_role::kTrace && group->second > kListed)
            continue;
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
    if (id.startsWith(kGroup))
        return strike_group(id, reason);
    m_project.strike(FlowReadingRow::kTable, key_of(id), reason);
}

void FlowRunModel::restoreReading(const QString& id) {
    if (id.startsWith(kGroup))
        return strike_group(id, {});
    m_project.restore(FlowReadingRow::kTable, key_of(id), QStringLiteral("restored"));
}

void FlowRunModel::strike_group(const QString& id, const QString& reason) {
    const bool strike = !reason.isEmpty();
    const std::int64_t part = id.section(QLatin1Char('/'), 1, 1).toLongLong();
    const std::string remark = id.section(QLatin1Char('/'), 2).toStdString();
    std::vector<Id> readings;
    for (const Booked<FlowReadingRow>& one : m_project.survey().test_readings(m_test))
        if (one.row.role == flow_role::kTrace && group_of(one) == WaveGroup(part, remark, !strike))
            readings.push_back(one.row.id);
    m_logged.write_behind([readings, strike, why = reason.toStdString()](Project& project) {
        return strike ? project.strike(FlowReadingRow::kTable, readings, why)
                      : project.restore(FlowReadingRow::kTable, readings, "restored");
    });
}
