// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow_model.h"

#include "units/units.h"

#include <QLocale>

#include <algorithm>
#include <numbers>
#include <vector>

using namespace rillmark;

namespace {

const QString kVolume = QStringLiteral("volume");
const QString kTime = QStringLiteral("time");
const QString kFull = QStringLiteral("full");
const QString kEmpty = QStringLiteral("empty");
const QString kTemperature = QStringLiteral("temperature");
const QString kByWeight = QStringLiteral("weight");
const QString kVolumeBy = QStringLiteral("flow/volume-by");

std::vector<EntryForm::Field> fill_fields() {
    return {{kVolume, FlowModel::tr("Volume caught"), Quantity::Volume, true, false},
            {kTime, FlowModel::tr("Time to fill"), Quantity::Time, true, false}};
}

std::vector<EntryForm::Field> month_fields() {
    std::vector<EntryForm::Field> fields;
    for (int month = 1; month <= 12; ++month)
        fields.push_back({QString::number(month), QLocale().standaloneMonthName(month), Quantity::Discharge, true, false});
    return fields;
}

std::vector<EntryForm::Field> weighed_fields() {
    return {{kFull, FlowModel::tr("Weight, full"), Quantity::Mass, true, false},
            {kEmpty, FlowModel::tr("Weight, empty"), Quantity::Mass, true, false},
            {kTemperature, FlowModel::tr("Water temperature"), Quantity::Temperature, false, false},
            {kTime, FlowModel::tr("Time to fill"), Quantity::Time, true, false}};
}

QString method_words(const std::string& id) {
    const std::optional<FlowMethod> method = flow_method_from_id(id);
    return method ? Formatter::words(std::string(flow_method_info(*method).name_code)) : QString::fromStdString(id);
}

} // namespace

FlowModel::FlowModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_fill(QStringLiteral("fill"), fill_fields(), settings, resume),
      m_weighed(QStringLiteral("weighed-fill"), weighed_fields(), settings, resume),
      m_leave_flow(QStringLiteral("leave-flow"), {{QString::fromLatin1(kLeave), tr("Flow to leave"), Quantity::Discharge, true, false}}, settings, resume),
      m_leave_share(QStringLiteral("leave-share"), {{QString::fromLatin1(kLeave), tr("Share to leave"), Quantity::Ratio, true, false}}, settings, resume),
      m_leave_q95(QStringLiteral("leave-q95"), {{QString::fromLatin1(kLeave), tr("Share of Q95 to leave"), Quantity::Ratio, true, false}}, settings, resume),
      m_leave_months(QStringLiteral("leave-months"), month_fields(), settings, resume),
      m_stage(QStringLiteral("flow-stage"), {{QString::fromLatin1(kStage), tr("Staff gauge reading"), Quantity::Length, true, true}}, settings, resume) {
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_test = key_of(m_resume.text(QStringLiteral("flow/test")));
        show_leave_months();
    });
    connect(&m_project, &OpenProject::changed, this, &FlowModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &FlowModel::changed);
    for (EntryForm* form : {&m_fill, &m_weighed, &m_leave_flow, &m_leave_share, &m_leave_q95, &m_leave_months, &m_stage})
        connect(form, &EntryForm::judged, this, &FlowModel::changed);
}

const FlowTestRow* FlowModel::row() const {
    return m_test == 0 ? nullptr : m_project.survey().test(m_test);
}

const TestResult* FlowModel::outcome(Id test) const {
    for (const TestResult& result : m_project.estimate().flow.tests)
        if (result.test_id == test)
            return &result;
    return nullptr;
}

QList<FlowTestItem> FlowModel::tests() const {
    QList<FlowTestItem> items;
    const Formatter formatter = m_settings.formatter();
    for (const Booked<FlowTestRow>& test : m_project.survey().tests) {
        FlowTestItem item;
        item.id = key_text(test.row.id);
        item.name = QString::fromStdString(test.row.name);
        item.method = method_words(test.row.method);
        item.when = Formatter::when(test.row.created_at);
        item.counts = test.row.counts;
        item.struck = test.struck;
        const TestResult* result = outcome(test.row.id);
        item.result = result && result->discharge ? formatter.estimate(result->discharge->estimate, Quantity::Discharge)
                                                  : tr("no result yet");
        items.append(item);
    }
    return items;
}

QList<Choice> FlowModel::methods() const {
    QList<Choice> choices;
    for (const FlowMethodInfo& info : flow_methods())
        choices.append({QString::fromUtf8(info.id.data(), static_cast<qsizetype>(info.id.size())),
                        Formatter::words(std::string(info.name_code))});
    return choices;
}

QString FlowModel::choice() const {
    return QString::fromStdString(m_project.survey().site.flow_choice);
}

void FlowModel::setChoice(const QString& choice) {
    SiteRow site = m_project.survey().site;
    if (site.flow_choice == choice.toStdString())
        return;
    site.flow_choice = choice.toStdString();
    if (choice == QLatin1String("chosen-test") && !site.flow_test_id && m_test != 0)
        site.flow_test_id = m_test;
    m_project.change(site);
}

void FlowModel::chooseTest(const QString& test) {
    SiteRow site = m_project.survey().site;
    site.flow_choice = "chosen-test";
    site.flow_test_id = key_of(test);
    m_project.change(site);
}

FigureText FlowModel::toUse() const {
    const std::optional<FlowToUse>& flow = m_project.estimate().flow.to_use;
    return flow ? m_settings.formatter().figure(flow->discharge.estimate, Quantity::Discharge) : FigureText{};
}

QList<FindingText> FlowModel::findings() const {
    return m_settings.formatter().findings(m_project.estimate().flow.findings);
}

void FlowModel::setTest(const QString& key) {
    if (key == test())
        return;
    m_test = key_of(key);
    m_resume.setText(QStringLiteral("flow/test"), key);
    emit changed();
}

QString FlowModel::testName() const {
    return row() ? QString::fromStdString(row()->name) : QString();
}

QString FlowModel::method() const {
    return row() ? QString::fromStdString(row()->method) : QString();
}

FigureText FlowModel::result() const {
    const TestResult* result = outcome(m_test);
    return result && result->discharge ? m_settings.formatter().figure(result->discharge->estimate, Quantity::Discharge)
                                       : FigureText{};
}

QString FlowModel::resultDetail() const {
    const TestResult* result = outcome(m_test);
    if (result == nullptr || !result->gauging)
        return {};
    const Formatter formatter = m_settings.formatter();
    const VelocityAreaResult& gauging = *result->gauging;
    return tr("Area %1, mean velocity %2; by mean-section %3")
        .arg(formatter.value(gauging.area_m2, Quantity::Area), formatter.value(gauging.mean_velocity_ms, Quantity::Velocity),
             formatter.value(gauging.mean_section_m3s, Quantity::Discharge));
}

QList<FindingText> FlowModel::testFindings() const {
    const TestResult* result = outcome(m_test);
    return result ? m_settings.formatter().findings(result->findings) : QList<FindingText>{};
}

QList<ReadingItem> FlowModel::fills() const {
    QList<ReadingItem> items;
    const Formatter formatter = m_settings.formatter();
    for (const Booked<FillRow>& fill : m_project.survey().fills) {
        if (fill.row.test_id != m_test)
            continue;
        ReadingItem item;
        item.id = key_text(fill.row.id);
        item.text = tr("%1 in %2").arg(formatter.value(fill.row.volume_m3, Quantity::Volume),
                                       formatter.value(fill.row.time_s, Quantity::Time));
        if (fill.row.full_kg)
            item.text += tr(", weighed");
        item.detail = fill.struck ? QString::fromStdString(fill.struck_reason)
                                  : formatter.value(fill.row.volume_m3 / fill.row.time_s, Quantity::Discharge);
        item.struck = fill.struck;
        items.append(item);
    }
    return items;
}

QList<ReadingItem> FlowModel::verticals() const {
    QList<ReadingItem> items;
    const Formatter formatter = m_settings.formatter();
    const TestResult* result = outcome(m_test);
    std::vector<Booked<VerticalRow>> along; // as verticals_of() gives them to the method
    for (const Booked<VerticalRow>& vertical : m_project.survey().verticals)
        if (vertical.row.test_id == m_test)
            along.push_back(vertical);
    std::stable_sort(along.begin(), along.end(), [](const auto& a, const auto& b) { return a.row.distance_m < b.row.distance_m; });
    for (const Booked<VerticalRow>& vertical : along) {
        ReadingItem item;
        item.id = key_text(vertical.row.id);
        item.text = tr("At %1: depth %2").arg(formatter.value(vertical.row.distance_m, Quantity::Length),
                                             formatter.value(vertical.row.depth_m, Quantity::Length));
        if (vertical.row.edge == "water-edge")
            item.text += tr(", water's edge");
        else if (vertical.row.edge == "vertical-bank")
            item.text += tr(", vertical bank");
        if (vertical.row.angle_deg)
            item.text += tr(", flow at an angle of %1").arg(formatter.value(*vertical.row.angle_deg * std::numbers::pi / 180.0, Quantity::Angle));
        item.struck = vertical.struck;
        if (vertical.struck)
            item.detail = QString::fromStdString(vertical.struck_reason);
        else if (result && result->gauging)
            for (const Panel& panel : result->gauging->panels)
                if (panel.vertical_id == vertical.row.id) {
                    item.detail = tr("mean %1").arg(formatter.value(panel.velocity_ms, Quantity::Velocity));
                    item.share = std::clamp(panel.share, 0.0, 1.0);
                    item.percent = formatter.percent(panel.share);
                }
        items.append(item);
    }
    return items;
}

QList<ReadingItem> FlowModel::readings() const {
    return method() == QLatin1String("velocity-area") ? verticals() : fills();
}

QString FlowModel::volumeBy() const {
    return m_resume.text(kVolumeBy, QStringLiteral("mark"));
}

void FlowModel::setVolumeBy(const QString& by) {
    m_resume.setText(kVolumeBy, by);
    emit changed();
}

EntryForm* FlowModel::fillForm() {
    return volumeBy() == kByWeight ? &m_weighed : &m_fill;
}

void FlowModel::newTest(const QString& method, const QString& name) {
    FlowTestRow test;
    test.method = method.toStdString();
    test.name = name.simplified().isEmpty() ? tr("Flow test %1").arg(m_project.survey().tests.size() + 1).toStdString()
                                            : name.simplified().toStdString();
    m_project.book(test, [this](Id id) { setTest(key_text(id)); });
}

void FlowModel::renameTest(const QString& name) {
    if (row() == nullptr || name.simplified().isEmpty() || name.simplified() == testName())
        return;
    FlowTestRow test = *row();
    test.name = name.simplified().toStdString();
    m_project.change(test);
}

void FlowModel::setCounts(const QString& key, bool counts) {
    const FlowTestRow* found = m_project.survey().test(key_of(key));
    if (found == nullptr)
        return;
    FlowTestRow test = *found;
    test.counts = counts;
    m_project.change(test);
}

void FlowModel::strikeTest(const QString& key, const QString& reason) {
    m_project.strike(FlowTestRow::kTable, key_of(key), reason);
    setTest({});
}

void FlowModel::takeTime(double seconds) {
    const QChar mark = QLatin1Char(m_settings.formatter().options().number.decimal);
    fillForm()->setTypedByKey(kTime, QString::number(seconds, 'f', 1).replace(QLatin1Char('.'), mark) + QStringLiteral(" s"));
}

void FlowModel::bookFill() {
    EntryForm* form = fillForm();
    if (row() == nullptr || !form->complete())
        return;
    FillRow fill;
    fill.test_id = m_test;
    fill.time_s = *form->number(kTime);
    const QString again = volumeBy() == kByWeight ? kEmpty : kVolume; // the next fill is of the same container
    if (volumeBy() == kByWeight) {
        fill.full_kg = form->number(kFull);
        fill.empty_kg = form->number(kEmpty);
        fill.temperature_C = form->number(kTemperature);
        const Expected<double> volume = weighed_volume_m3(*fill.full_kg, *fill.empty_kg, fill.temperature_C.value_or(kAssumedWater_C));
        if (!volume) {
            emit refused(m_settings.formatter().finding(volume.error()));
            return;
        }
        fill.volume_m3 = *volume;
        fill.typed = QStringLiteral("%1 - %2 / %3").arg(form->typed(kFull), form->typed(kEmpty), form->typed(kTime)).toStdString();
    } else {
        fill.volume_m3 = *form->number(kVolume);
        fill.typed = (form->typed(kVolume) + QStringLiteral(" / ") + form->typed(kTime)).toStdString();
    }
    m_project.book(fill, [form, again, text = form->typed(again)](Id) {
        form->booked();
        form->setTypedByKey(again, text);
    });
}

const char* FlowModel::reading_table() const {
    return method() == QLatin1String("velocity-area") ? VerticalRow::kTable : FillRow::kTable;
}

void FlowModel::strikeReading(const QString& id, const QString& reason) {
    m_project.strike(reading_table(), key_of(id), reason);
}

void FlowModel::restoreReading(const QString& id) {
    m_project.restore(reading_table(), key_of(id), QStringLiteral("restored"));
}
