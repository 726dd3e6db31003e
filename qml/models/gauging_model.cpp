// SPDX-License-Identifier: GPL-3.0-or-later
#include "gauging_model.h"

#include "gauging_fields.h"
#include "site/flow_tests.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

using namespace rillmark;
using namespace gauging_fields;

namespace {

const QString kPointKey = QStringLiteral("gauging/point");
const QString kEdgeKey = QStringLiteral("gauging/edge");
const QString kGoalKey = QStringLiteral("gauging/goal");
const QString kSignalKey = QStringLiteral("gauging/signal");
const QString kOwnKey = QStringLiteral("gauging/own-rating");

// What a half-done section is refused for: no news to who is about to read on.
constexpr std::array kNotDoneYet{"flow.no_width", "flow.no_velocity", "flow.part_of_one", "flow.part_without_velocity",
                                 "flow.bank_inside"};

double degrees(double rad) {
    return rad * 180.0 / std::numbers::pi;
}

bool is_about_row(const Finding& finding, std::int64_t row) {
    return std::any_of(finding.args.begin(), finding.args.end(), [row](const Arg& arg) {
        const auto* number = std::get_if<std::int64_t>(&arg.value);
        return arg.name == "row" && number != nullptr && *number == row;
    });
}

} // namespace

GaugingModel::GaugingModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_vertical(QStringLiteral("vertical"), gauging_fields::vertical(), settings, resume),
      m_meter_form(QStringLiteral("meter"), gauging_fields::meter(), settings, resume) {
    for (const QString& fraction : kFractions) {
        m_by_revolutions.push_back(std::make_unique<EntryForm>(
            kRevolutions + fraction, gauging_fields::revolutions(fraction), settings, resume));
        m_by_velocity.push_back(
            std::make_unique<EntryForm>(kVelocity + fraction, gauging_fields::velocity(fraction), settings, resume));
    }
    connect(&m_project, &OpenProject::changed, this, &GaugingModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &GaugingModel::changed);
    for (EntryForm* form : {&m_vertical, &m_meter_form})
        connect(form, &EntryForm::judged, this, &GaugingModel::changed);
    for (const auto* forms : {&m_by_revolutions, &m_by_velocity})
        for (const std::unique_ptr<EntryForm>& form : *forms)
            connect(form.get(), &EntryForm::judged, this, &GaugingModel::changed);
}

void GaugingModel::setTest(const QString& key) {
    if (key_of(key) == m_test)
        return;
    m_test = key_of(key);
    emit changed();
}

const FlowTestRow* GaugingModel::row() const {
    return m_test == 0 ? nullptr : m_project.survey().test(m_test);
}

const MeterRow* GaugingModel::meter_row() const {
    return row() && row()->meter_id ? m_project.survey().meter(*row()->meter_id) : nullptr;
}

const VelocityAreaResult* GaugingModel::gauging() const {
    for (const TestResult& result : m_project.estimate().flow.tests)
        if (result.test_id == m_test)
            return result.gauging ? &*result.gauging : nullptr;
    return nullptr;
}

QList<Choice> GaugingModel::points() const {
    return gauging_fields::points();
}

QString GaugingModel::point() const {
    return m_resume.text(kPointKey, QStringLiteral("0.6"));
}

void GaugingModel::setPoint(const QString& point) {
    m_resume.setText(kPointKey, point);
    emit changed();
}

QString GaugingModel::edge() const {
    return m_resume.text(kEdgeKey);
}

void GaugingModel::setEdge(const QString& edge) {
    m_resume.setText(kEdgeKey, edge);
    if (edge == QLatin1String("water-edge"))
        m_vertical.setTypedByKey(kDepth, QStringLiteral("0"));
    emit changed();
}

QStringList GaugingModel::fractions() const {
    return edge().isEmpty() ? point().split(QLatin1Char(' ')) : QStringList{};
}

QList<EntryForm*> GaugingModel::velocityForms() const {
    QList<EntryForm*> forms;
    for (const QString& fraction : fractions())
        if (const qsizetype at = kFractions.indexOf(fraction); at >= 0)
            forms.append((counting() ? m_by_revolutions : m_by_velocity)[static_cast<std::size_t>(at)].get());
    return forms;
}

bool GaugingModel::ready() const {
    const QList<EntryForm*> forms = velocityForms();
    return m_vertical.complete() &&
           std::all_of(forms.begin(), forms.end(), [](const EntryForm* f) { return f->complete(); });
}

VerticalRow GaugingModel::typed_vertical() const {
    VerticalRow vertical;
    vertical.test_id = m_test;
    vertical.distance_m = *m_vertical.number(kDistance);
    vertical.depth_m = *m_vertical.number(kDepth);
    vertical.edge = edge().toStdString();
    if (const std::optional<double> angle = m_vertical.number(kAngle))
        vertical.angle_deg = degrees(*angle);
    vertical.typed = (m_vertical.typed(kDistance) + QStringLiteral(" / ") + m_vertical.typed(kDepth)).toStdString();
    return vertical;
}

std::vector<VelocityRow> GaugingModel::typed_velocities() const {
    std::vector<VelocityRow> velocities;
    const QStringList shares = fractions();
    const QList<EntryForm*> forms = velocityForms();
    for (qsizetype i = 0; i < forms.size(); ++i) {
        VelocityRow velocity;
        velocity.depth_fraction = shares[i].toDouble();
        velocity.time_s = forms[i]->number(kTime);
        if (counting())
            velocity.revolutions = forms[i]->number(kRevolutions);
        else
            velocity.velocity_ms = forms[i]->number(kVelocity);
        velocity.meter_id = row()->meter_id;
        velocity.typed = (forms[i]->typedAt(0) + QStringLiteral(" / ") + forms[i]->typedAt(1)).toStdString();
        velocities.push_back(velocity);
    }
    return velocities;
}

Expected<VelocityAreaResult> GaugingModel::with_typed() const {
    std::vector<Vertical> verticals = verticals_of(m_project.survey(), m_test);
    verticals.push_back(vertical_of(typed_vertical()));
    for (const VelocityRow& velocity : typed_velocities())
        verticals.back().points.push_back(reading_of(velocity, nullptr));
    return velocity_area(verticals, velocity_area_options(m_project.survey(), *row()));
}

QString GaugingModel::preview() const {
    if (row() == nullptr || !ready())
        return {};
    const Expected<VelocityAreaResult> with = with_typed();
    if (!with)
        return {};
    const Formatter formatter = m_settings.formatter();
    const auto mine = std::find_if(with->panels.begin(), with->panels.end(),
                                   [](const Panel& panel) { return panel.vertical_id == 0; });
    return tr("With this vertical: %1, of which it has %2; mean velocity in it %3.")
        .arg(formatter.estimate(with->flow.discharge.estimate, Quantity::Discharge), formatter.percent(mine->share),
             formatter.value(mine->velocity_ms, Quantity::Velocity));
}

QList<FindingText> GaugingModel::previewFindings() const {
    if (row() == nullptr || !ready())
        return {};
    const Formatter formatter = m_settings.formatter();
    const Expected<VelocityAreaResult> with = with_typed();
    if (!with) {
        const bool not_done = std::find(kNotDoneYet.begin(), kNotDoneYet.end(), with.error().code) != kNotDoneYet.end();
        return not_done ? QList<FindingText>{} : QList<FindingText>{formatter.finding(with.error())};
    }
    const auto place = static_cast<std::int64_t>(verticals_of(m_project.survey(), m_test).size() + 1);
    Findings about_it;
    for (const Finding& finding : with->flow.findings)
        if (is_about_row(finding, place) && finding.code != "flow.bank_missing") // the bank may be the next to be read
            about_it.push_back(finding);
    return formatter.findings(about_it);
}

bool GaugingModel::counting() const {
    return meter_row() != nullptr && meter_row()->slope_m > 0.0;
}

qsizetype GaugingModel::counted_form() const {
    const QList<EntryForm*> forms = velocityForms();
    const auto open = std::find_if(forms.begin(), forms.end(),
                                   [](const EntryForm* form) { return form->typed(kRevolutions).isEmpty(); });
    return open == forms.end() ? -1 : open - forms.begin();
}

QString GaugingModel::counted() const {
    if (!counting() || fractions().isEmpty())
        return {};
    const qsizetype at = counted_form();
    return at < 0 ? tr("All points of this vertical are counted. Book it, or empty a field to count again.")
                  : tr("The next count is for the velocity %1.").arg(place(fractions()[at]));
}

QList<Choice> GaugingModel::goals() const {
    return {{QStringLiteral("40 s"), tr("40 s")},
            {QStringLiteral("60 s"), tr("60 s")},
            {QStringLiteral("120 s"), tr("120 s")},
            {QStringLiteral("20"), tr("20 taps")},
            {QStringLiteral("50"), tr("50 taps")}};
}

QString GaugingModel::goal() const {
    return m_resume.text(kGoalKey, QStringLiteral("60 s"));
}

void GaugingModel::setGoal(const QString& goal) {
    m_resume.setText(kGoalKey, goal);
    emit changed();
}

QList<Choice> GaugingModel::signalChoices() const {
    return {{QStringLiteral("1"), tr("every revolution")},
            {QStringLiteral("5"), tr("every 5th")},
            {QStringLiteral("10"), tr("every 10th")}};
}

QString GaugingModel::perSignal() const {
    return m_resume.text(kSignalKey, QStringLiteral("1"));
}

void GaugingModel::setPerSignal(const QString& revolutions) {
    m_resume.setText(kSignalKey, revolutions);
    emit changed();
}

void GaugingModel::takeCount(int signal_count, double seconds) {
    const qsizetype at = counted_form();
    if (at < 0)
        return;
    EntryForm* form = velocityForms()[at];
    const QChar mark = QLatin1Char(m_settings.formatter().options().number.decimal);
    form->setTypedByKey(kTime, QString::number(seconds, 'f', 1).replace(QLatin1Char('.'), mark) + QStringLiteral(" s"));
    form->setTypedByKey(kRevolutions, QString::number(signal_count * perSignal().toInt()));
}

QList<Choice> GaugingModel::meters() const {
    QList<Choice> choices{{QStringLiteral("0"), tr("Meter that shows the velocity")}};
    for (const Booked<MeterRow>& meter : m_project.survey().meters)
        if (!meter.struck)
            choices.append({key_text(meter.row.id), QString::fromStdString(meter.row.name)});
    return choices;
}

QString GaugingModel::meter() const {
    return key_text(row() && row()->meter_id ? *row()->meter_id : 0);
}

void GaugingModel::setMeter(const QString& key) {
    if (row() == nullptr || key == meter())
        return;
    FlowTestRow test = *row();
    test.meter_id = key_of(key) == 0 ? std::nullopt : std::optional(key_of(key));
    m_project.change(test);
}

QString GaugingModel::meterText() const {
    const MeterRow* meter = meter_row();
    if (meter == nullptr)
        return {};
    const Formatter formatter = m_settings.formatter();
    QStringList words;
    const auto range = [&](double a, double b) {
        return tr("v = %1 n %2 %3")
            .arg(formatter.value(a, Quantity::Length, 4), b < 0.0 ? QStringLiteral("−") : QStringLiteral("+"),
                 formatter.value(std::abs(b), Quantity::Velocity, 4));
    };
    const MeterRating rating = rating_of(*meter);
    for (const RatingRange& one : rating.ranges)
        words.append(one.above_rev_per_s == 0.0
                         ? range(one.a_m, one.b_ms)
                         : tr("above %1 rev/s %2")
                               .arg(formatter.value(one.above_rev_per_s, Quantity::Number), range(one.a_m, one.b_ms)));
    if (meter->min_velocity_ms)
        words.append(tr("rated from %1").arg(formatter.value(*meter->min_velocity_ms, Quantity::Velocity)));
    if (meter->max_velocity_ms)
        words.append(tr("rated to %1").arg(formatter.value(*meter->max_velocity_ms, Quantity::Velocity)));
    words.append(meter->individual_rating ? tr("rated by itself") : tr("rating of its type"));
    return QStringLiteral("%1: %2.").arg(QString::fromStdString(meter->name), words.join(QStringLiteral(", ")));
}

bool GaugingModel::ownRating() const {
    return m_resume.text(kOwnKey, QStringLiteral("yes")) == QLatin1String("yes");
}

void GaugingModel::setOwnRating(bool own) {
    m_resume.setText(kOwnKey, own ? QStringLiteral("yes") : QStringLiteral("no"));
    emit changed();
}

void GaugingModel::addMeter() {
    if (!m_meter_form.complete())
        return;
    MeterRow meter;
    meter.name = m_meter_form.typed(QStringLiteral("name")).simplified().toStdString();
    meter.slope_m = m_meter_form.number(QStringLiteral("a")).value_or(0.0);
    meter.intercept_ms = m_meter_form.number(QStringLiteral("b")).value_or(0.0);
    meter.limit_rev_s = m_meter_form.number(QStringLiteral("limit"));
    meter.upper_slope_m = m_meter_form.number(QStringLiteral("a2"));
    meter.upper_intercept_ms = m_meter_form.number(QStringLiteral("b2"));
    meter.third_limit_rev_s = m_meter_form.number(QStringLiteral("limit2"));
    meter.third_slope_m = m_meter_form.number(QStringLiteral("a3"));
    meter.third_intercept_ms = m_meter_form.number(QStringLiteral("b3"));
    meter.min_velocity_ms = m_meter_form.number(QStringLiteral("from"));
    meter.max_velocity_ms = m_meter_form.number(QStringLiteral("to"));
    meter.individual_rating = ownRating();
    const Expected<Findings> rating = check_meter(meter);
    if (!rating) {
        emit refused(m_settings.formatter().finding(rating.error()));
        return;
    }
    m_project.book(meter, [this](Id id) {
        m_meter_form.clear();
        setMeter(key_text(id));
    });
}

void GaugingModel::bookVertical() {
    if (row() == nullptr || !ready())
        return;
    const auto book_all = [vertical = typed_vertical(), velocities = typed_velocities()](Project& project) {
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
    m_project.act(book_all, [this, forms = velocityForms()] {
        m_vertical.booked();
        for (EntryForm* form : forms)
            form->booked();
        setEdge({});
    });
}
