// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow_model.h"

#include "units/units.h"

#include <QLocale>

#include <algorithm>
#include <array>
#include <numbers>

using namespace rillmark;

namespace {

const QString kVolume = QStringLiteral("volume");
const QString kTime = QStringLiteral("time");
const QString kDistance = QStringLiteral("distance");
const QString kDepth = QStringLiteral("depth");
const QString kAngle = QStringLiteral("angle");
const QString kRevolutions = QStringLiteral("revolutions");
const QString kVelocity = QStringLiteral("velocity");
const std::array<QString, 3> kFractions{QStringLiteral("0.2"), QStringLiteral("0.6"), QStringLiteral("0.8")};

std::vector<EntryForm::Field> fill_fields() {
    return {{kVolume, FlowModel::tr("Volume caught"), Quantity::Volume, true, false},
            {kTime, FlowModel::tr("Time to fill"), Quantity::Time, true, false}};
}

std::vector<EntryForm::Field> vertical_fields() {
    return {{kDistance, FlowModel::tr("Distance along the tape"), Quantity::Length, true, true},
            {kDepth, FlowModel::tr("Depth"), Quantity::Length, true, false},
            {kAngle, FlowModel::tr("Angle of the flow"), Quantity::Angle, false, true}};
}

std::vector<EntryForm::Field> meter_fields() {
    return {{QStringLiteral("name"), FlowModel::tr("Meter and its number"), {}, true, false},
            {QStringLiteral("a"), FlowModel::tr("a, per revolution"), Quantity::Length, true, false},
            {QStringLiteral("b"), FlowModel::tr("b"), Quantity::Velocity, true, true},
            {QStringLiteral("limit"), FlowModel::tr("Second range above (rev/s)"), Quantity::Number, false, false},
            {QStringLiteral("a2"), FlowModel::tr("a of the second range"), Quantity::Length, false, false},
            {QStringLiteral("b2"), FlowModel::tr("b of the second range"), Quantity::Velocity, false, true}};
}

std::vector<EntryForm::Field> month_fields() {
    std::vector<EntryForm::Field> fields;
    for (int month = 1; month <= 12; ++month)
        fields.push_back({QString::number(month), QLocale().standaloneMonthName(month), Quantity::Discharge, true, false});
    return fields;
}

std::vector<EntryForm::Field> revolution_fields(const QString& fraction) {
    return {{kRevolutions, FlowModel::tr("Revolutions at %1 of the depth").arg(fraction), Quantity::Number, true, false},
            {kTime, FlowModel::tr("Exposure at %1").arg(fraction), Quantity::Time, true, false}};
}

std::vector<EntryForm::Field> velocity_fields(const QString& fraction) {
    return {{kVelocity, FlowModel::tr("Velocity at %1 of the depth").arg(fraction), Quantity::Velocity, true, true},
            {kTime, FlowModel::tr("Exposure at %1").arg(fraction), Quantity::Time, false, false}};
}

double degrees(double rad) {
    return rad * 180.0 / std::numbers::pi;
}

QString method_words(const std::string& id) {
    const std::optional<FlowMethod> method = flow_method_from_id(id);
    return method ? Formatter::words(std::string(flow_method_info(*method).name_code)) : QString::fromStdString(id);
}

} // namespace

FlowModel::FlowModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_fill(QStringLiteral("fill"), fill_fields(), settings, resume),
      m_vertical(QStringLiteral("vertical"), vertical_fields(), settings, resume),
      m_meter_form(QStringLiteral("meter"), meter_fields(), settings, resume),
      m_leave_flow(QStringLiteral("leave-flow"), {{QString::fromLatin1(kLeave), tr("Flow to leave"), Quantity::Discharge, true, false}}, settings, resume),
      m_leave_share(QStringLiteral("leave-share"), {{QString::fromLatin1(kLeave), tr("Share to leave"), Quantity::Ratio, true, false}}, settings, resume),
      m_leave_q95(QStringLiteral("leave-q95"), {{QString::fromLatin1(kLeave), tr("Share of Q95 to leave"), Quantity::Ratio, true, false}}, settings, resume),
      m_leave_months(QStringLiteral("leave-months"), month_fields(), settings, resume),
      m_stage(QStringLiteral("flow-stage"), {{QString::fromLatin1(kStage), tr("Staff gauge reading"), Quantity::Length, true, true}}, settings, resume) {
    for (const QString& fraction : kFractions) {
        m_by_revolutions.push_back(std::make_unique<EntryForm>(QStringLiteral("revolutions") + fraction,
                                                               revolution_fields(fraction), settings, resume));
        m_by_velocity.push_back(
            std::make_unique<EntryForm>(QStringLiteral("velocity") + fraction, velocity_fields(fraction), settings, resume));
    }
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_test = key_of(m_resume.text(QStringLiteral("flow/test")));
        show_leave_months();
    });
    connect(&m_project, &OpenProject::changed, this, &FlowModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &FlowModel::changed);
    for (EntryForm* form : {&m_fill, &m_vertical, &m_meter_form, &m_leave_flow, &m_leave_share, &m_leave_q95, &m_leave_months, &m_stage})
        connect(form, &EntryForm::judged, this, &FlowModel::changed);
    for (const auto* forms : {&m_by_revolutions, &m_by_velocity})
        for (const std::unique_ptr<EntryForm>& form : *forms)
            connect(form.get(), &EntryForm::judged, this, &FlowModel::changed);
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
    for (const Booked<VerticalRow>& vertical : m_project.survey().verticals) {
        if (vertical.row.test_id != m_test)
            continue;
        ReadingItem item;
        item.id = key_text(vertical.row.id);
        item.text = tr("At %1: depth %2").arg(formatter.value(vertical.row.distance_m, Quantity::Length),
                                             formatter.value(vertical.row.depth_m, Quantity::Length));
        if (vertical.row.edge == "water-edge")
            item.text += tr(", water's edge");
        else if (vertical.row.edge == "vertical-bank")
            item.text += tr(", vertical bank");
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

QList<Choice> FlowModel::points() const {
    return {{QStringLiteral("0.6"), tr("One: 0.6")},
            {QStringLiteral("0.2 0.8"), tr("Two: 0.2, 0.8")},
            {QStringLiteral("0.2 0.6 0.8"), tr("Three")}};
}

void FlowModel::setPoint(const QString& point) {
    m_point = point;
    emit changed();
}

void FlowModel::setEdge(const QString& edge) {
    m_edge = edge;
    if (edge == QLatin1String("water-edge"))
        m_vertical.setTypedByKey(kDepth, QStringLiteral("0"));
    emit changed();
}

QList<Choice> FlowModel::meters() const {
    QList<Choice> choices{{QStringLiteral("0"), tr("Meter that shows the velocity")}};
    for (const Booked<MeterRow>& meter : m_project.survey().meters)
        if (!meter.struck)
            choices.append({key_text(meter.row.id), QString::fromStdString(meter.row.name)});
    return choices;
}

QString FlowModel::meter() const {
    return key_text(row() && row()->meter_id ? *row()->meter_id : 0);
}

void FlowModel::setMeter(const QString& key) {
    if (row() == nullptr || key == meter())
        return;
    FlowTestRow test = *row();
    test.meter_id = key_of(key) == 0 ? std::nullopt : std::optional(key_of(key));
    m_project.change(test);
}

bool FlowModel::by_revolutions() const {
    return row() && row()->meter_id.has_value();
}

QList<EntryForm*> FlowModel::velocityForms() const {
    QList<EntryForm*> forms;
    if (!m_edge.isEmpty())
        return forms;
    const auto& all = by_revolutions() ? m_by_revolutions : m_by_velocity;
    for (std::size_t i = 0; i < kFractions.size(); ++i)
        if (m_point.split(QLatin1Char(' ')).contains(kFractions[i]))
            forms.append(all[i].get());
    return forms;
}

bool FlowModel::verticalReady() const {
    const QList<EntryForm*> forms = velocityForms();
    return m_vertical.complete() && std::all_of(forms.begin(), forms.end(), [](const EntryForm* f) { return f->complete(); });
}

QString FlowModel::lengthUnit() const {
    const std::string_view symbol = entry_unit(Quantity::Length, m_settings.formatter().options().system).symbol;
    return QString::fromUtf8(symbol.data(), static_cast<qsizetype>(symbol.size()));
}

QString FlowModel::velocityUnit() const {
    const std::string_view symbol = entry_unit(Quantity::Velocity, m_settings.formatter().options().system).symbol;
    return QString::fromUtf8(symbol.data(), static_cast<qsizetype>(symbol.size()));
}

QList<QPointF> FlowModel::bed() const {
    QList<QPointF> points;
    const TestResult* result = outcome(m_test);
    if (result == nullptr || !result->gauging)
        return points;
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    for (const Panel& panel : result->gauging->panels)
        points.append({from_si(unit, panel.distance_m), -from_si(unit, panel.depth_m)});
    return points;
}

QList<QPointF> FlowModel::speeds() const {
    QList<QPointF> points;
    const TestResult* result = outcome(m_test);
    if (result == nullptr || !result->gauging)
        return points;
    const UnitSystem system = m_settings.formatter().options().system;
    for (const Panel& panel : result->gauging->panels)
        points.append({from_si(entry_unit(Quantity::Length, system), panel.distance_m),
                       from_si(entry_unit(Quantity::Velocity, system), panel.velocity_ms)});
    return points;
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

void FlowModel::takeTime(EntryForm* form, double seconds) {
    const QChar mark = QLatin1Char(m_settings.formatter().options().number.decimal);
    form->setTypedByKey(kTime, QString::number(seconds, 'f', 1).replace(QLatin1Char('.'), mark) + QStringLiteral(" s"));
}

void FlowModel::bookFill() {
    if (row() == nullptr || !m_fill.complete())
        return;
    FillRow fill;
    fill.test_id = m_test;
    fill.volume_m3 = *m_fill.number(kVolume);
    fill.time_s = *m_fill.number(kTime);
    fill.typed = (m_fill.typed(kVolume) + QStringLiteral(" / ") + m_fill.typed(kTime)).toStdString();
    const QString volume = m_fill.typed(kVolume);
    m_project.book(fill, [this, volume](Id) {
        m_fill.booked();
        m_fill.setTypedByKey(kVolume, volume); // the next fill is of the same container
    });
}

void FlowModel::bookVertical() {
    if (row() == nullptr || !verticalReady())
        return;
    VerticalRow vertical;
    vertical.test_id = m_test;
    vertical.distance_m = *m_vertical.number(kDistance);
    vertical.depth_m = *m_vertical.number(kDepth);
    vertical.edge = m_edge.toStdString();
    if (const std::optional<double> angle = m_vertical.number(kAngle))
        vertical.angle_deg = degrees(*angle);
    vertical.typed = (m_vertical.typed(kDistance) + QStringLiteral(" / ") + m_vertical.typed(kDepth)).toStdString();
    std::vector<VelocityRow> velocities;
    const QStringList fractions = m_point.split(QLatin1Char(' '));
    const QList<EntryForm*> forms = velocityForms();
    for (qsizetype i = 0; i < forms.size(); ++i) {
        VelocityRow velocity;
        velocity.depth_fraction = fractions[i].toDouble();
        velocity.time_s = forms[i]->number(kTime);
        if (by_revolutions())
            velocity.revolutions = forms[i]->number(kRevolutions);
        else
            velocity.velocity_ms = forms[i]->number(kVelocity);
        velocity.typed = (forms[i]->typedAt(0) + QStringLiteral(" / ") + forms[i]->typedAt(1)).toStdString();
        velocities.push_back(velocity);
    }
    const auto book_all = [vertical, velocities](Project& project) {
        return project.together([&](Project::Batch& batch) -> Expected<void> {
            const Expected<Id> id = batch.book(vertical);
            if (!id)
                return id.error();
            for (VelocityRow velocity : velocities) {
                velocity.vertical_id = *id;
                if (const Expected<Id> booked = batch.book(velocity); !booked)
                    return booked.error();
            }
            return {};
        });
    };
    m_project.act(book_all, [this, forms] {
        m_vertical.booked();
        for (EntryForm* form : forms)
            form->booked();
        setEdge({});
    });
}

void FlowModel::addMeter() {
    if (!m_meter_form.complete())
        return;
    MeterRow meter;
    meter.name = m_meter_form.typed(QStringLiteral("name")).simplified().toStdString();
    meter.slope_m = *m_meter_form.number(QStringLiteral("a"));
    meter.intercept_ms = *m_meter_form.number(QStringLiteral("b"));
    meter.limit_rev_s = m_meter_form.number(QStringLiteral("limit"));
    meter.upper_slope_m = m_meter_form.number(QStringLiteral("a2"));
    meter.upper_intercept_ms = m_meter_form.number(QStringLiteral("b2"));
    m_project.book(meter, [this](Id id) {
        m_meter_form.clear();
        setMeter(key_text(id));
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
