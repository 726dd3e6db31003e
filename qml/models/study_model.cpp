// SPDX-License-Identifier: GPL-3.0-or-later
#include "study_model.h"

#include <QTimer>

using namespace rillmark;

namespace {

// Of each draw that is made the same, so that a figure does not change from one look to the next.
constexpr std::uint64_t kSeed = 20080101;
constexpr int kProgress_ms = 100;

const std::array<const char*, 5> kTrialKeys = {"head", "flow", "length", "bore", "turbine"};

bool all_same(const QStringList& values) {
    return std::all_of(values.begin(), values.end(), [&](const QString& one) { return one == values.first(); });
}

} // namespace

StudyModel::StudyModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings),
      m_price(QStringLiteral("pipeprice"),
              {{QStringLiteral("pipe"), tr("Price of a metre of pipe"), Quantity::Number, false, false},
               {QStringLiteral("trench"), tr("Price of a metre of trench and laying"), Quantity::Number, false, false}},
              settings, resume) {
    if (Expected<TurbineTables> tables = read_turbine_tables())
        m_turbines = *tables;
    m_parts.fill(1.0);
    connect(&m_project, &OpenProject::changed, this, &StudyModel::renew);
    connect(&m_settings, &SettingsModel::changed, this, &StudyModel::renew);
}

StudyModel::~StudyModel() {
    stop();
    if (m_thread)
        m_thread->wait();
}

void StudyModel::renew() {
    stop();
    m_drawn.reset();
    m_year.reset();
    m_money.reset();
    emit changed();
    emit drawing();
    emit tried();
}

std::optional<Estimate> StudyModel::watts_of(const ChainResult& result) const {
    return result.house_W ? std::optional(result.house_W->estimate) : result.generator_W;
}

QList<FindingText> StudyModel::next() const {
    const std::optional<Budgeted>& house = chosen().result.house_W;
    const std::optional<NextStep> step = house ? next_step(*house) : std::nullopt;
    return step ? m_settings.formatter().findings({next_step_note(*step)}) : QList<FindingText>{};
}

void StudyModel::draw() {
    if (m_thread) {
        m_draw_again = m_stopped->load(); // else those under way are good
        return;
    }
    m_draw_again = false;
    m_stopped = std::make_shared<std::atomic<bool>>(false);
    m_progress = std::make_shared<std::atomic<double>>(0.0);
    auto outcome = std::make_shared<std::optional<Expected<DrawnEstimate>>>();
    const AlternativeRow* alternative = m_project.survey().alternative();
    const DriveShape drive =
        alternative == nullptr || alternative->drive_efficiency ? DriveShape::Normal : DriveShape::Range;
    m_thread.reset(QThread::create([input = chosen().input, drive, stopped = m_stopped, progress = m_progress, outcome] {
        std::mt19937_64 engine(kSeed);
        *outcome = draw_watts(input, engine, {kUsualDraws, [&](double done) {
                                                  progress->store(done);
                                                  return !stopped->load();
                                              }, {}}, drive);
    }));
    auto* ticks = new QTimer(m_thread.get());
    connect(ticks, &QTimer::timeout, this, &StudyModel::drawing);
    ticks->start(kProgress_ms);
    connect(m_thread.get(), &QThread::finished, this, [this, outcome, stopped = m_stopped] {
        if (!stopped->load()) // else the record may have changed under it
            m_drawn = *outcome;
        m_thread.release()->deleteLater();
        if (m_draw_again)
            draw();
        emit drawing();
    });
    m_thread->start();
    emit drawing();
}

void StudyModel::stop() {
    if (m_stopped)
        m_stopped->store(true);
}

QString StudyModel::drawn() const {
    const std::optional<Estimate> first = watts_of(chosen().result);
    if (!m_drawn || !first)
        return {};
    const Formatter f = m_settings.formatter();
    if (!m_drawn->ok())
        return f.finding(m_drawn->error()).sentence;
    const DrawnEstimate& drawn = **m_drawn;
    if (!first_order_differs(*first, drawn))
        return tr("%L1 draws agree with the ± shown, within 5 % of it (JCGM 101:2008).").arg(drawn.draws);
    return tr("%L1 draws tell another story than first order: 95 in 100 lie from %2 to %3, mean %4; first order gives %5. "
              "Trust the draws (JCGM 101:2008).")
        .arg(drawn.draws)
        .arg(f.value(drawn.low, Quantity::Power), f.value(drawn.high, Quantity::Power),
             f.value(drawn.estimate.value, Quantity::Power), f.estimate(*first, Quantity::Power));
}

QString StudyModel::greatest() const {
    const std::optional<GreatestPower>& greatest = chosen().result.greatest;
    const std::optional<Estimate>& net = chosen().result.net_W;
    if (!greatest || !net || greatest->more_flow_m3s <= 0.0)
        return {};
    const Formatter f = m_settings.formatter();
    return tr("The most this pipe can bring is at %1, where a third of the head is lost: %2 more water for %3 more power. "
              "Past that point more water gives less. Usual designs lose 5 to 15 % (common practice, no source).")
        .arg(f.value(greatest->flow_m3s, Quantity::Discharge),
             f.percent(greatest->more_flow_m3s / (greatest->flow_m3s - greatest->more_flow_m3s)),
             f.percent(greatest->more_W / net->value));
}

QStringList StudyModel::columns() const {
    QStringList names;
    for (const Booked<AlternativeRow>& one : m_project.survey().alternatives)
        if (!one.struck)
            names.append(QString::fromStdString(one.row.name));
    return names;
}

QList<CompareItem> StudyModel::comparison() const {
    const Formatter f = m_settings.formatter();
    QList<CompareItem> rows{{tr("Gross head"), {}, false},   {tr("Flow"), {}, false},        {tr("Pipe"), {}, false},
                            {tr("Pipe length"), {}, false},  {tr("Pipe loss"), {}, false},   {tr("Speed in the pipe"), {}, false},
                            {tr("Net head"), {}, false},     {tr("Cable loss"), {}, false},  {tr("Watts"), {}, false},
                            {tr("Warnings"), {}, false}};
    for (const Booked<AlternativeRow>& one : m_project.survey().alternatives) {
        if (one.struck)
            continue;
        const AlternativeEstimate estimate = alternative_estimate(m_project.survey(), m_project.estimate().heights,
                                                                  m_project.estimate().flow, m_project.tables(), one.row);
        const ChainResult& r = estimate.result;
        const auto shown = [&f](const std::optional<Estimate>& value, Quantity quantity) {
            return value ? f.estimate(*value, quantity) : tr("missing");
        };
        QStringList labels;
        for (const ChainPipe& pipe : estimate.pipe.pipes)
            labels.append(QString::fromStdString(pipe.label));
        const auto warnings = std::count_if(r.findings.begin(), r.findings.end(),
                                            [](const Finding& w) { return w.severity != Severity::Note; });
        const std::optional<Estimate> loss =
            r.friction_loss_m && r.minor_loss_m
                ? std::optional(Estimate{r.friction_loss_m->value + r.minor_loss_m->value,
                                         r.friction_loss_m->standard_uncertainty + r.minor_loss_m->standard_uncertainty})
                : std::nullopt;
        const QStringList column{shown(r.gross_head_m, Quantity::Length),
                                 shown(r.flow_m3s, Quantity::Discharge),
                                 labels.isEmpty() ? tr("missing") : labels.join(QStringLiteral(" + ")),
                                 shown(estimate.pipe.length_m, Quantity::Length),
                                 shown(loss, Quantity::Length),
                                 shown(r.pipe_speed_ms, Quantity::Velocity),
                                 shown(r.net_head_m, Quantity::Length),
                                 shown(r.cable_loss_W, Quantity::Power),
                                 shown(watts_of(r), Quantity::Power),
                                 QString::number(warnings)};
        for (qsizetype i = 0; i < rows.size(); ++i)
            rows[i].values.append(column[i]);
    }
    for (CompareItem& row : rows)
        row.differs = !row.values.isEmpty() && !all_same(row.values);
    return rows;
}

ChainInput StudyModel::trial() const {
    ChainInput input = chosen().input;
    const auto scale = [](Estimate& estimate, double part) {
        estimate.value *= part;
        estimate.standard_uncertainty *= part;
    };
    if (input.gross_head_m)
        scale(*input.gross_head_m, m_parts[0]);
    if (input.flow_m3s)
        scale(*input.flow_m3s, m_parts[1]);
    for (ChainPipe& pipe : input.pipes) {
        scale(pipe.route.length_m, m_parts[2]);
        scale(pipe.bore_m, m_parts[3]);
    }
    scale(input.turbine_efficiency, m_parts[4]);
    return input;
}

QList<TrialItem> StudyModel::trials() const {
    const ChainInput input = trial();
    const Formatter f = m_settings.formatter();
    const bool piped = !input.pipes.empty();
    const auto value = [&f](const std::optional<Estimate>& e, Quantity quantity) {
        return e ? f.value(e->value, quantity) : tr("missing");
    };
    std::optional<Estimate> length;
    for (const ChainPipe& pipe : input.pipes)
        length = Estimate{(length ? length->value : 0.0) + pipe.route.length_m.value, 0.0};
    const std::array<std::pair<QString, QString>, kTrials> shown = {
        {{tr("Gross head"), value(input.gross_head_m, Quantity::Length)},
         {tr("Flow"), value(input.flow_m3s, Quantity::Discharge)},
         {tr("Pipe length"), value(length, Quantity::Length)},
         {tr("Bore"), value(piped ? std::optional(input.pipes.front().bore_m) : std::nullopt, Quantity::Bore)},
         {tr("Turbine efficiency"), value(input.turbine_efficiency, Quantity::Ratio)}}};
    QList<TrialItem> items;
    for (std::size_t i = 0; i < kTrials; ++i)
        items.append({QString::fromLatin1(kTrialKeys[i]), shown[i].first, shown[i].second, m_parts[i]});
    return items;
}

QString StudyModel::trialWatts() const {
    const ChainResult result = water_to_wire(trial());
    const std::optional<Estimate> watts = watts_of(result);
    return watts ? m_settings.formatter().estimate(*watts, Quantity::Power) : tr("no watts");
}

QString StudyModel::trialChange() const {
    const std::optional<Estimate> tried = watts_of(water_to_wire(trial()));
    const std::optional<Estimate> recorded = watts_of(chosen().result);
    if (!tried || !recorded || recorded->value <= 0.0)
        return {};
    const double change = tried->value / recorded->value - 1.0;
    return change >= 0.0 ? tr("%1 more than recorded").arg(m_settings.formatter().percent(change))
                         : tr("%1 less than recorded").arg(m_settings.formatter().percent(-change));
}

void StudyModel::tryPart(const QString& key, double part) {
    for (std::size_t i = 0; i < kTrials; ++i)
        if (key == QLatin1String(kTrialKeys[i]))
            m_parts[i] = std::clamp(part, 0.5, 1.5);
    emit tried();
}

void StudyModel::tryNothing() {
    m_parts.fill(1.0);
    emit tried();
}
