// SPDX-License-Identifier: GPL-3.0-or-later
#include "power_model.h"

#include "units/units.h"

#include <algorithm>
#include <set>

using namespace rillmark;

namespace {

const QString kLength = QStringLiteral("length");
const QString kMinor = QStringLiteral("minor");
const QString kVoltage = QStringLiteral("voltage");
const QString kPowerFactor = QStringLiteral("powerfactor");
const QString kConductorTemperature = QStringLiteral("conductor-temperature");
const QString kFlow = QStringLiteral("flow");
const QString kTurbineAxis = QStringLiteral("turbine-axis");
const QString kTailwater = QStringLiteral("tailwater");
const QString kTemperature = QStringLiteral("temperature");

std::vector<EntryForm::Field> cable_fields() {
    return {{kLength, PowerModel::tr("Cable length, one way"), Quantity::Length, false, false},
            {kVoltage, PowerModel::tr("Voltage at the generator"), Quantity::Voltage, false, false},
            {kPowerFactor, PowerModel::tr("Power factor"), Quantity::Number, false, false},
            {kConductorTemperature, PowerModel::tr("Conductor at work; empty: 40 °C, buried or shaded"), Quantity::Temperature, false,
             true}};
}

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

} // namespace

PowerModel::PowerModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings),
      m_pipe(QStringLiteral("pipe"),
             {{kLength, tr("Pipe length"), Quantity::Length, false, false},
              {kMinor, tr("Sum of fitting losses, K"), Quantity::Number, false, false}},
             settings, resume),
      m_cable(QStringLiteral("cable"), cable_fields(), settings, resume),
      m_loss(QStringLiteral("cableloss"),
             {{QStringLiteral("loss"), tr("Loss that you would accept, %"), Quantity::Ratio, false, false}}, settings, resume),
      m_flow(QStringLiteral("designflow"), {{kFlow, tr("Design flow"), Quantity::Discharge, false, false}}, settings, resume),
      m_water(QStringLiteral("water"), {{kTemperature, tr("Water temperature"), Quantity::Temperature, false, false}}, settings,
              resume) {
    connect(&m_project, &OpenProject::changed, this, &PowerModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &PowerModel::changed);
    connect(&m_loss, &EntryForm::judged, this, &PowerModel::changed);
}

AlternativeRow PowerModel::row() const {
    const AlternativeRow* alternative = m_project.survey().alternative();
    return alternative ? *alternative : AlternativeRow{};
}

const ChainResult& PowerModel::result() const {
    return m_project.estimate().chosen.result;
}

/// The first choice that is made also makes the alternative that it belongs to.
void PowerModel::put(AlternativeRow row) {
    if (row.id == 0) {
        row.name = tr("Alternative 1").toStdString();
        m_project.book(row);
    } else {
        m_project.change(row);
    }
}

QList<Choice> PowerModel::alternatives() const {
    QList<Choice> choices;
    for (const Booked<AlternativeRow>& one : m_project.survey().alternatives)
        if (!one.struck)
            choices.append({key_text(one.row.id), QString::fromStdString(one.row.name)});
    return choices;
}

QString PowerModel::alternative() const {
    return key_text(row().id);
}

void PowerModel::setAlternative(const QString& key) {
    SiteRow site = m_project.survey().site;
    if (site.alternative_id == key_of(key))
        return;
    site.alternative_id = key_of(key);
    m_project.change(site);
}

QString PowerModel::name() const {
    return QString::fromStdString(row().name);
}

QList<LinkItem> PowerModel::links() const {
    const Formatter formatter = m_settings.formatter();
    const ChainResult& chain = result();
    const AlternativeRow alternative = row();
    const ChainInput& input = m_project.estimate().chosen.input;
    const auto shown = [&formatter](const std::optional<Estimate>& value, Quantity quantity) {
        return value ? formatter.estimate(*value, quantity) : QString();
    };
    QString cable_label = tr("not chosen");
    if (const Expected<Conductor> conductor = m_project.tables().conductor(alternative.cable_id))
        cable_label = QString::fromStdString(conductor->label);
    const QString losses =
        chain.friction_loss_m && chain.minor_loss_m
            ? tr("speed %1, friction %2, fittings %3")
                  .arg(shown(chain.pipe_speed_ms, Quantity::Velocity), shown(chain.friction_loss_m, Quantity::Length),
                       shown(chain.minor_loss_m, Quantity::Length))
            : QString();
    const std::optional<Estimate> house = chain.house_W ? std::optional(chain.house_W->estimate) : std::nullopt;
    QList<LinkItem> links;
    const auto add = [&links](QString key, QString label, QString value, QString detail, bool opens) {
        const bool missing = value.isEmpty();
        links.append({std::move(key), std::move(label), std::move(value), std::move(detail), missing, opens, !missing});
    };
    const SiteEstimate& site = m_project.estimate();
    add(QStringLiteral("head"), tr("Gross head"), shown(chain.gross_head_m, Quantity::Length),
        tr("water power %1").arg(shown(chain.gross_W, Quantity::Power)), true);
    add(QStringLiteral("flow"), tr("Flow through the turbine"), shown(chain.flow_m3s, Quantity::Discharge),
        alternative.design_flow_m3s ? tr("design flow as entered") : tr("the flow to use"), true);
    const IntakeLink& intake = m_project.estimate().chosen.intake;
    add(QStringLiteral("intake"), tr("Diversion and intake"),
        chain.intake_loss_m ? tr("loses %1").arg(shown(chain.intake_loss_m, Quantity::Length)) : tr("no loss entered"),
        intake.left_m3s ? tr("%1 stay in the creek").arg(formatter.value(intake.left_m3s, Quantity::Discharge)) : QString(),
        true);
    QStringList sizes;
    for (const ChainPipe& one : input.pipes)
        sizes.append(QString::fromStdString(one.label));
    add(QStringLiteral("pipe"), tr("Pipe"), sizes.join(QStringLiteral(" + ")), losses, true);
    add(QStringLiteral("net-head"), tr("Net head"), shown(chain.net_head_m, Quantity::Length),
        tr("water power at the turbine %1").arg(shown(chain.net_W, Quantity::Power)), false);
    add(QStringLiteral("turbine"), tr("Turbine"), shown(chain.shaft_W, Quantity::Power),
        tr("efficiency %1").arg(shown(input.turbine_efficiency, Quantity::Ratio)), true);
    if (chain.drive_W)
        add(QStringLiteral("drive"), tr("Drive"), shown(chain.drive_W, Quantity::Power),
            tr("efficiency %1").arg(shown(input.drive_efficiency, Quantity::Ratio)), true);
    add(QStringLiteral("generator"), input.drive_efficiency ? tr("Generator") : tr("Drive and generator"),
        shown(chain.generator_W, Quantity::Power),
        tr("efficiency %1").arg(shown(input.generator_efficiency, Quantity::Ratio)), true);
    add(QStringLiteral("cable"), tr("Cable"), input.cable ? cable_label : QString(),
        chain.cable_loss_W ? tr("loses %1, drop %2")
                                 .arg(shown(chain.cable_loss_W, Quantity::Power), shown(chain.cable_drop_V, Quantity::Voltage))
                           : QString(),
        true);
    add(QStringLiteral("house"), tr("At the house"), shown(house, Quantity::Power), QString(), false);
    for (LinkItem& link : links) { // what was typed has no readings behind it
        if (link.key == QLatin1String("head"))
            link.known = site.heights.running_head && !alternative.intake_id;
        if (link.key == QLatin1String("flow"))
            link.known = site.flow.usable && !alternative.design_flow_m3s;
        if (link.key == QLatin1String("intake"))
            link.known = chain.intake_loss_m.has_value();
    }
    return links;
}

QList<FindingText> PowerModel::findings() const {
    Findings all = m_project.estimate().chosen.findings;
    all.insert(all.end(), result().findings.begin(), result().findings.end());
    return m_settings.formatter().findings(all);
}

QList<Choice> PowerModel::materials() const {
    QList<Choice> choices;
    std::set<std::string> seen;
    for (const PipeSize& size : m_project.tables().pipes)
        if (seen.insert(size.material).second)
            choices.append({QString::fromStdString(size.material), QString::fromStdString(size.material).toUpper()});
    return choices;
}

QString PowerModel::material() const {
    if (!m_material.isEmpty())
        return m_material;
    if (const Expected<PipeSize> pipe = m_project.tables().pipe(row().pipe_id))
        return QString::fromStdString(pipe->material);
    const QList<Choice> all = materials();
    return all.isEmpty() ? QString() : all.first().id;
}

void PowerModel::setMaterial(const QString& material) {
    m_material = material;
    emit changed();
}

QList<SizeItem> PowerModel::sizes() const {
    QList<SizeItem> items;
    const ChainInput& input = m_project.estimate().chosen.input;
    PipeRoute route;
    if (!input.pipes.empty())
        route = input.pipes.front().route;
    else if (const std::optional<Estimate>& length = m_project.estimate().chosen.pipe.length_m)
        route = {*length, {kDefaultMinorK, kMinorKUncertainty_rel * kDefaultMinorK}};
    else
        return items;
    std::vector<PipeSize> chosen_material;
    for (const PipeSize& size : m_project.tables().pipes)
        if (size.material == material().toStdString())
            chosen_material.push_back(size);
    const Formatter formatter = m_settings.formatter();
    const std::string chosen = row().pipe_id;
    for (const SizeRow& one : over_pipe_sizes(input, route, chosen_material)) {
        SizeItem item;
        item.id = QString::fromStdString(one.size.id);
        item.label = QString::fromStdString(one.size.label);
        item.chosen = one.size.id == chosen;
        const ChainResult& chain = one.result;
        if (chain.pipe_speed_ms)
            item.speed = formatter.value(chain.pipe_speed_ms->value, Quantity::Velocity);
        if (chain.friction_loss_m && chain.minor_loss_m)
            item.loss = formatter.value(chain.friction_loss_m->value + chain.minor_loss_m->value, Quantity::Length, 1);
        if (chain.house_W)
            item.watts = formatter.estimate(chain.house_W->estimate, Quantity::Power);
        else if (chain.generator_W)
            item.watts = formatter.estimate(*chain.generator_W, Quantity::Power);
        for (const Finding& finding : chain.findings)
            if (finding.severity == Severity::Warning && !finding.code.starts_with("power.missing_") && item.note.isEmpty())
                item.note = formatter.finding(finding).sentence;
        items.append(item);
    }
    return items;
}

QString PowerModel::pipeSource() const {
    const Expected<PipeSize> pipe = m_project.tables().pipe(row().pipe_id);
    if (!pipe)
        return {};
    return tr("Bore %1, roughness %2, rated %3. Source: %4 (%5)")
        .arg(m_settings.formatter().value(pipe->bore_m, Quantity::Bore), m_settings.formatter().value(pipe->roughness_m, Quantity::Bore),
             m_settings.formatter().value(pipe->pressure_rating_Pa, Quantity::Pressure), QString::fromStdString(pipe->source),
             QString::fromStdString(pipe->provenance));
}

QList<Choice> PowerModel::conductors() const {
    QList<Choice> choices{{QString(), tr("No cable chosen")}};
    for (const Conductor& one : m_project.tables().conductors)
        choices.append({QString::fromStdString(one.id), QString::fromStdString(one.label)});
    return choices;
}

QString PowerModel::conductor() const {
    return QString::fromStdString(row().cable_id);
}

void PowerModel::setConductor(const QString& id) {
    AlternativeRow alternative = row();
    alternative.cable_id = id.toStdString();
    put(alternative);
}

QString PowerModel::system() const {
    const std::string stored = row().cable_system;
    return stored.empty() ? QStringLiteral("single-phase") : QString::fromStdString(stored);
}

void PowerModel::setSystem(const QString& system) {
    AlternativeRow alternative = row();
    alternative.cable_system = system.toStdString();
    put(alternative);
}

QList<Choice> PowerModel::stations() const {
    QList<Choice> choices{{QStringLiteral("0"), tr("The first of its kind")}};
    choices.append(station_choices(m_project.survey()));
    return choices;
}

QString PowerModel::intake() const {
    return key_text(row().intake_id.value_or(0));
}

void PowerModel::setIntake(const QString& key) {
    AlternativeRow alternative = row();
    alternative.intake_id = key_of(key) == 0 ? std::nullopt : std::optional(key_of(key));
    put(alternative);
}

QList<Choice> PowerModel::lowerEnds() const {
    return {{kTurbineAxis, tr("Turbine axis (impulse wheel)")}, {kTailwater, tr("Tailwater (reaction turbine, draft tube)")}};
}

QString PowerModel::lowerEnd() const {
    return row().lower_end == "tailwater" ? kTailwater : kTurbineAxis;
}

void PowerModel::setLowerEnd(const QString& end) {
    if (end == lowerEnd())
        return;
    AlternativeRow alternative = row();
    alternative.lower_end = end.toStdString();
    put(alternative);
}

QString PowerModel::powerhouse() const {
    return key_text(row().powerhouse_id.value_or(0));
}

void PowerModel::setPowerhouse(const QString& key) {
    AlternativeRow alternative = row();
    alternative.powerhouse_id = key_of(key) == 0 ? std::nullopt : std::optional(key_of(key));
    put(alternative);
}

QString PowerModel::lengthUnit() const {
    return utf8(entry_unit(Quantity::Length, m_settings.formatter().options().system).symbol);
}

QList<QPointF> PowerModel::ground() const {
    QList<QPointF> points;
    const SiteHeights& heights = m_project.estimate().heights;
    const SiteLine line = site_line(m_project.survey(), heights, StationLine::Pipe);
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    for (std::size_t i = 0; i < line.stations.size(); ++i)
        if (const auto fall = heights.fall.find(line.stations[i]); fall != heights.fall.end())
            points.append({from_si(unit, line.chainage_m[i]), -from_si(unit, fall->second.value)});
    return points;
}

QList<QPointF> PowerModel::gradeLine() const {
    const ChainResult& chain = result();
    const QList<QPointF> along = ground();
    if (along.size() < 2 || !chain.friction_loss_m || !chain.minor_loss_m)
        return {};
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    const double lost = from_si(unit, chain.friction_loss_m->value + chain.minor_loss_m->value);
    return {{along.first().x(), 0.0}, {along.last().x(), -lost}};
}

void PowerModel::addAlternative(const QString& name) {
    const QString called =
        name.simplified().isEmpty() ? tr("Alternative %1").arg(alternatives().size() + 1) : name.simplified();
    const Id from = row().id;
    auto made = std::make_shared<Id>(0);
    m_project.act(
        [this, from, called, made](Project& project) -> Expected<void> {
            const Expected<Id> id = copy_alternative(project, m_project.survey(), from, called.toStdString());
            if (!id)
                return id.error();
            *made = *id;
            return {};
        },
        [this, made] { setAlternative(key_text(*made)); });
}

void PowerModel::rename(const QString& name) {
    AlternativeRow alternative = row();
    if (alternative.id == 0 || name.simplified().isEmpty() || alternative.name == name.simplified().toStdString())
        return;
    alternative.name = name.simplified().toStdString();
    put(alternative);
}

void PowerModel::strikeAlternative(const QString& reason) {
    if (row().id != 0)
        m_project.strike(AlternativeRow::kTable, row().id, reason);
}

void PowerModel::choosePipe(const QString& id) {
    AlternativeRow alternative = row();
    alternative.pipe_id = id.toStdString();
    put(alternative);
}

void PowerModel::load() {
    const AlternativeRow alternative = row();
    const Formatter formatter = m_settings.formatter();
    const auto fill = [&formatter](EntryForm& form, const QString& key, const std::optional<double>& value, Quantity quantity) {
        form.setTypedByKey(key, formatter.value(value, quantity));
    };
    fill(m_pipe, kLength, alternative.pipe_length_m, Quantity::Length);
    fill(m_pipe, kMinor, alternative.minor_k, Quantity::Number);
    fill(m_cable, kLength, alternative.cable_length_m, Quantity::Length);
    fill(m_cable, kVoltage, alternative.voltage_V, Quantity::Voltage);
    fill(m_cable, kPowerFactor, alternative.power_factor, Quantity::Number);
    fill(m_cable, kConductorTemperature, alternative.conductor_temperature_C, Quantity::Temperature);
    fill(m_flow, kFlow, alternative.design_flow_m3s, Quantity::Discharge);
    fill(m_water, kTemperature, m_project.survey().site.water_temperature_C, Quantity::Temperature);
}

bool PowerModel::store() {
    for (const EntryForm* form : {&m_pipe, &m_cable, &m_flow, &m_water})
        if (!form->complete())
            return false;
    AlternativeRow alternative = row();
    alternative.pipe_length_m = m_pipe.number(kLength);
    alternative.minor_k = m_pipe.number(kMinor);
    alternative.cable_length_m = m_cable.number(kLength);
    alternative.voltage_V = m_cable.number(kVoltage);
    alternative.power_factor = m_cable.number(kPowerFactor);
    alternative.conductor_temperature_C = m_cable.number(kConductorTemperature);
    alternative.design_flow_m3s = m_flow.number(kFlow);
    put(alternative);
    SiteRow site = m_project.survey().site;
    site.water_temperature_C = m_water.number(kTemperature);
    m_project.change(site);
    return true;
}
