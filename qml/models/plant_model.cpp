// SPDX-License-Identifier: GPL-3.0-or-later
#include "plant_model.h"

#include "plant_fields.h"
#include "site/machine_link.h"

#include <QQmlEngine>

#include <algorithm>

using namespace rillmark;

namespace {

const QString kIntake = QStringLiteral("intake");
const QString kTurbine = QStringLiteral("turbine");
const QString kLength = QStringLiteral("length");
const QString kCount = QStringLiteral("count");
const QString kCoefficient = QStringLiteral("k");

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

} // namespace

PlantModel::PlantModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings),
      m_section(QStringLiteral("pipesection"), {{kLength, tr("Length along the slope"), Quantity::Length, false, false}},
                settings, resume),
      m_fitting(QStringLiteral("pipefitting"),
                {{kCount, tr("How many"), Quantity::Number, false, false},
                 {kCoefficient, tr("Loss coefficient of one, where the maker gives it"), Quantity::Number, false, false}},
                settings, resume) {
    if (Expected<TurbineTables> tables = read_turbine_tables())
        m_turbines = *tables;
    for (const QString& link : plant_links()) {
        Link& made = m_links[link];
        made.fields = plant_fields(link);
        made.form = std::make_unique<EntryForm>(QStringLiteral("plant-") + link, form_fields(made.fields), settings, resume);
        // what an invokable gives back without a parent, the engine takes for its own
        QQmlEngine::setObjectOwnership(made.form.get(), QQmlEngine::CppOwnership);
    }
    connect(&m_project, &OpenProject::changed, this, &PlantModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &PlantModel::changed);
}

PlantModel::~PlantModel() = default;

AlternativeRow PlantModel::row() const {
    const AlternativeRow* alternative = m_project.survey().alternative();
    return alternative ? *alternative : AlternativeRow{};
}

/// The first choice that is made also makes the alternative that it belongs to.
void PlantModel::put(AlternativeRow row) {
    if (row.id == 0) {
        row.name = tr("Alternative 1").toStdString();
        m_project.book(row);
    } else {
        m_project.change(row);
    }
}

EntryForm* PlantModel::form(const QString& link) {
    const auto hit = m_links.find(link);
    return hit == m_links.end() ? nullptr : hit->second.form.get();
}

void PlantModel::load(const QString& link) {
    const auto hit = m_links.find(link);
    if (hit == m_links.end())
        return;
    const AlternativeRow alternative = row();
    const Formatter formatter = m_settings.formatter();
    show_record(hit->second.fields, alternative, *hit->second.form, formatter);
    for (const RecordField<AlternativeRow>& one : hit->second.fields)
        if (const auto* column = std::get_if<std::optional<Id> AlternativeRow::*>(&one.column))
            hit->second.form->setTypedByKey(one.field.key, alternative.**column ? QString::number(*(alternative.**column))
                                                                                 : QString());
}

bool PlantModel::store(const QString& link) {
    const auto hit = m_links.find(link);
    if (hit == m_links.end() || !hit->second.form->complete())
        return false;
    AlternativeRow alternative = row();
    fill_record(hit->second.fields, *hit->second.form, alternative);
    put(alternative);
    return true;
}

QList<Choice> PlantModel::lists(const QString& link) const {
    QList<Choice> lists;
    for (const PlantChoice& one : plant_choices())
        if (one.link == link)
            lists.append({one.key, one.label});
    return lists;
}

QList<Choice> PlantModel::choicesOf(const QString& key) const {
    QList<Choice> choices;
    for (const PlantChoice& one : plant_choices())
        if (one.key == key)
            choices = one.choices;
    if (key == QLatin1String("turbine_kind"))
        for (const TurbineKind& kind : m_turbines.kinds)
            choices.append({text(kind.id), text(kind.label)});
    if (key == QLatin1String("drive_id"))
        for (const EfficiencyRange& one : m_project.tables().efficiencies)
            if (one.kind == "drive")
                choices.append({text(one.id), text(one.label)});
    return choices;
}

QString PlantModel::chosenOf(const QString& key) const {
    const AlternativeRow alternative = row();
    for (const PlantChoice& one : plant_choices())
        if (one.key == key)
            return text(alternative.*one.column);
    return {};
}

void PlantModel::choose(const QString& key, const QString& id) {
    AlternativeRow alternative = row();
    for (const PlantChoice& one : plant_choices())
        if (one.key == key)
            alternative.*one.column = id.toStdString();
    put(alternative);
}

QList<Choice> PlantModel::pipes() const {
    QList<Choice> choices;
    for (const PipeSize& size : m_project.tables().pipes)
        choices.append({text(size.id), text(size.label)});
    return choices;
}

QList<Choice> PlantModel::fittingKinds() const {
    QList<Choice> choices;
    for (const Fitting& fitting : m_project.tables().fittings)
        choices.append({text(fitting.id), tr("%1, K %2").arg(text(fitting.label)).arg(fitting.k)});
    return choices;
}

QList<PartItem> PlantModel::sections() const {
    QList<PartItem> items;
    const Formatter formatter = m_settings.formatter();
    const std::vector<PipeSectionRow> rows = m_project.survey().sections(row().id);
    const std::vector<ChainPipe>& pipes = m_project.estimate().chosen.pipe.pipes;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Expected<PipeSize> size = m_project.tables().pipe(rows[i].pipe_id);
        QString detail = rows[i].length_m ? formatter.value(rows[i].length_m, Quantity::Length) : tr("what is left of the route");
        if (i < pipes.size())
            detail = tr("%1; bore %2, fittings K %3")
                         .arg(formatter.value(pipes[i].route.length_m.value, Quantity::Length),
                              formatter.value(pipes[i].bore_m.value, Quantity::Bore),
                              formatter.value(pipes[i].route.minor_k.value, Quantity::Number, 2));
        items.append({key_text(rows[i].id), size ? text(size->label) : text(rows[i].pipe_id), detail});
    }
    return items;
}

QList<PartItem> PlantModel::fittings() const {
    QList<PartItem> items;
    for (const PipeFittingRow& one : m_project.survey().fittings(row().id)) {
        const Expected<Fitting> known = m_project.tables().fitting(one.fitting_id);
        const double k = one.k.value_or(known ? known->k : 0.0);
        items.append({key_text(one.id), known ? text(known->label) : text(one.name),
                      tr("%1 pieces, K %2 each").arg(one.count).arg(m_settings.formatter().value(k, Quantity::Number, 2))});
    }
    return items;
}

QString PlantModel::currency() const {
    return text(row().currency);
}

void PlantModel::setCurrency(const QString& word) {
    AlternativeRow alternative = row();
    if (alternative.currency == word.simplified().toStdString())
        return;
    alternative.currency = word.simplified().toStdString();
    put(alternative);
}

QString PlantModel::pipeSummary() const {
    const PlantPipe& pipe = m_project.estimate().chosen.pipe;
    if (!pipe.length_m)
        return tr("The length of the pipe is not known: walk its route, or enter it.");
    return tr("True slope length %1.").arg(m_settings.formatter().estimate(*pipe.length_m, Quantity::Length));
}

void PlantModel::addSection(const QString& pipe) {
    AlternativeRow alternative = row();
    PipeSectionRow section;
    section.pipe_id = pipe.toStdString();
    section.length_m = m_section.number(kLength);
    section.position = static_cast<std::int64_t>(m_project.survey().pipe_sections.size());
    if (alternative.id == 0)
        alternative.name = tr("Alternative 1").toStdString();
    m_project.act([alternative, section](Project& project) -> Expected<void> {
        return project.together([&](Project::Batch& batch) -> Expected<void> {
            PipeSectionRow booked = section;
            booked.alternative_id = alternative.id;
            if (alternative.id == 0) {
                const Expected<Id> id = batch.book(alternative);
                if (!id)
                    return id.error();
                booked.alternative_id = *id;
            }
            const Expected<Id> id = batch.book(booked);
            return id ? Expected<void>() : Expected<void>(id.error());
        });
    });
    m_section.booked();
}

void PlantModel::addFitting(const QString& kind) {
    const AlternativeRow alternative = row();
    if (alternative.id == 0)
        return;
    PipeFittingRow fitting;
    fitting.alternative_id = alternative.id;
    fitting.fitting_id = kind.toStdString();
    fitting.count = static_cast<std::int64_t>(m_fitting.number(kCount).value_or(1.0));
    fitting.k = m_fitting.number(kCoefficient);
    fitting.position = static_cast<std::int64_t>(m_project.survey().pipe_fittings.size());
    m_project.book(fitting);
    m_fitting.booked();
}

void PlantModel::strikeSection(const QString& id, const QString& reason) {
    m_project.strike(PipeSectionRow::kTable, key_of(id), reason);
}

void PlantModel::strikeFitting(const QString& id, const QString& reason) {
    m_project.strike(PipeFittingRow::kTable, key_of(id), reason);
}

QList<FactItem> PlantModel::intakeFacts() const {
    const IntakeLink& intake = m_project.estimate().chosen.intake;
    const Formatter f = m_settings.formatter();
    QList<FactItem> facts;
    if (intake.creek_m3s)
        facts.append({tr("The creek had"), f.value(intake.creek_m3s, Quantity::Discharge)});
    if (intake.left_m3s)
        facts.append({tr("Stays in the creek"), f.value(intake.left_m3s, Quantity::Discharge)});
    if (intake.flood_m3s)
        facts.append({tr("Flood"), f.value(intake.flood_m3s, Quantity::Discharge)});
    if (intake.wall) {
        facts.append({tr("Water above the crest at design flow"), f.value(intake.wall->design_level_m, Quantity::Length)});
        facts.append({tr("Water above the crest at the flood"), f.value(intake.wall->flood_level_m, Quantity::Length)});
        facts.append({tr("Freeboard at the flood"), f.value(intake.wall->freeboard_m, Quantity::Length)});
    }
    if (intake.rack) {
        facts.append({tr("Approach speed at the rack"), f.value(intake.rack->approach_ms, Quantity::Velocity)});
        facts.append({tr("Rack loss, clean"), f.value(intake.rack->clean_m, Quantity::Length)});
        facts.append({tr("Rack loss, half clogged"), f.value(intake.rack->clogged_m, Quantity::Length)});
    }
    if (intake.screen_width_m)
        facts.append({tr("Width of the screen, half of the maker's capacity counted"), f.value(intake.screen_width_m, Quantity::Length)});
    if (intake.mouth) {
        facts.append({tr("Water wanted above the pipe's mouth"), f.value(intake.mouth->needed_m, Quantity::Length)});
        facts.append({tr("by Gordon, Hydraulic Institute, Knauss"),
                      QStringLiteral("%1, %2, %3").arg(f.value(intake.mouth->gordon_m, Quantity::Length),
                                                       f.value(intake.mouth->hydraulic_institute_m, Quantity::Length),
                                                       f.value(intake.mouth->knauss_m, Quantity::Length))});
    }
    if (intake.basin) {
        facts.append({tr("Settling basin, length"), f.value(intake.basin->length_m, Quantity::Length)});
        facts.append({tr("Settling basin, water depth"), f.value(intake.basin->depth_m, Quantity::Length)});
    }
    return facts;
}

QList<FactItem> PlantModel::turbineFacts() const {
    const AlternativeEstimate& chosen = m_project.estimate().chosen;
    const MachineLink machine = machine_link(chosen.input, chosen.result, m_turbines, row());
    const Formatter f = m_settings.formatter();
    const auto rpm = [](double value) { return tr("%1 rpm").arg(qRound(value)); };
    QList<FactItem> facts;
    QStringList fits;
    for (const TurbineOption& option : machine.options)
        if (option.fit == TurbineFit::Fits || option.fit == TurbineFit::NotChecked)
            fits.append(text(option.kind.label));
    if (!machine.options.empty())
        facts.append({tr("Kinds that suit this head"), fits.isEmpty() ? tr("none of the table") : fits.join(QStringLiteral(", "))});
    if (machine.speed_rpm)
        facts.append({tr("Speed"), rpm(*machine.speed_rpm)});
    if (machine.specific)
        facts.append({tr("Specific speed, per jet (rpm, kW, m)"), f.value(machine.specific->ns_kW, Quantity::Number, 0)});
    if (machine.runaway_rpm)
        facts.append({tr("Runaway, at most"), rpm(*machine.runaway_rpm)});
    if (machine.wheel) {
        facts.append({tr("Jet"), f.value(machine.wheel->jet_m, Quantity::Bore)});
        facts.append({tr("Wheel, pitch circle"), f.value(machine.wheel->wheel_m, Quantity::Bore)});
    }
    if (machine.chosen && machine.chosen->setting_m)
        facts.append({tr("Runner above tailwater, at most"), f.value(machine.chosen->setting_m, Quantity::Length)});
    if (machine.pump)
        facts.append({tr("Pump to look for (Sharma, unconfirmed)"),
                      tr("%1 at %2").arg(f.value(machine.pump->sharma.head_m, Quantity::Length),
                                         f.value(machine.pump->sharma.flow_m3s, Quantity::Discharge))});
    return facts;
}

QList<FactItem> PlantModel::facts(const QString& link) const {
    if (link == kIntake)
        return intakeFacts();
    return link == kTurbine ? turbineFacts() : QList<FactItem>{};
}

QList<FindingText> PlantModel::findingsOf(const QString& link) const {
    const AlternativeEstimate& chosen = m_project.estimate().chosen;
    if (link == kIntake)
        return m_settings.formatter().findings(chosen.intake.findings);
    if (link == kTurbine)
        return m_settings.formatter().findings(machine_link(chosen.input, chosen.result, m_turbines, row()).findings);
    return {};
}
