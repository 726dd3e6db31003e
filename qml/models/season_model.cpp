// SPDX-License-Identifier: GPL-3.0-or-later
#include "season_model.h"

#include "record_fields.h"

#include <QDateTime>
#include <QLocale>

using namespace rillmark;

namespace {

// A yield is typed as a flow from a square kilometre, a catchment in square kilometres: the ways of hydrology's maps.
constexpr double kSquareKilometre_m2 = 1e6;
constexpr double kPlusMinus = 1.0 / kCoverageFactor; // a field typed as a +/- over the column of its standard uncertainty

// Whose numbers the forms hold, so that what is half-typed outlives the program but not the site.
const QString kShownSite = QStringLiteral("season/site");
const QString kShownSeries = QStringLiteral("season/series");

using SiteFields = std::vector<RecordField<SiteRow>>;

SiteFields zero_fields() {
    return {record_field(SeasonModel::tr("Gauge reading when the flow ceases"), Quantity::Length, &SiteRow::zero_flow_stage_m, false, true)};
}

SiteFields area_fields() {
    return {record_field(SeasonModel::tr("Catchment of the site, km²"), Quantity::Number, &SiteRow::catchment_m2, true, false,
                         kSquareKilometre_m2),
            record_field(SeasonModel::tr("± of that catchment"), Quantity::Ratio, &SiteRow::catchment_u, false, false, kPlusMinus),
            record_field(SeasonModel::tr("Power of the ratio of catchments"), Quantity::Number, &SiteRow::area_power, false)};
}

SiteFields yield_fields() {
    return {record_field(SeasonModel::tr("Catchment of the site, km²"), Quantity::Number, &SiteRow::catchment_m2, true, false,
                         kSquareKilometre_m2),
            record_field(SeasonModel::tr("± of that catchment"), Quantity::Ratio, &SiteRow::catchment_u, false, false, kPlusMinus),
            record_field(SeasonModel::tr("Mean flow from one km²"), Quantity::Discharge, &SiteRow::yield_ms, true, false,
                         1.0 / kSquareKilometre_m2),
            record_field(SeasonModel::tr("± of that flow"), Quantity::Discharge, &SiteRow::yield_u_ms, false, false,
                         kPlusMinus / kSquareKilometre_m2)};
}

std::vector<RecordField<FlowSeriesRow>> series_fields() {
    return {record_field(SeasonModel::tr("Catchment of the gauge, km²"), Quantity::Number, &FlowSeriesRow::catchment_m2, false, false,
                         kSquareKilometre_m2),
            record_field(SeasonModel::tr("± of that catchment"), Quantity::Ratio, &FlowSeriesRow::catchment_u, false, false, kPlusMinus),
            record_field(SeasonModel::tr("± of the gauge's daily flows"), Quantity::Ratio, &FlowSeriesRow::flow_u, false, false,
                         kPlusMinus)};
}

} // namespace

SeasonModel::SeasonModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_zero(QStringLiteral("season-zero"), form_fields(zero_fields()), settings, resume),
      m_series(QStringLiteral("season-series"), form_fields(series_fields()), settings, resume),
      m_area(QStringLiteral("season-area"), form_fields(area_fields()), settings, resume),
      m_yield(QStringLiteral("season-yield"), form_fields(yield_fields()), settings, resume) {
    connect(&m_project, &OpenProject::changed, this, [this] {
        show_stored();
        emit changed();
    });
    connect(&m_settings, &SettingsModel::changed, this, &SeasonModel::changed);
    for (EntryForm* form : {&m_zero, &m_series, &m_area, &m_yield})
        connect(form, &EntryForm::judged, this, &SeasonModel::changed);
}

const SiteSeason* SeasonModel::season() const {
    return m_project.estimate().season.get();
}

void SeasonModel::show_stored() {
    const Formatter formatter = m_settings.formatter();
    if (const QString here = key_text(site().id); here != m_resume.text(kShownSite)) {
        m_resume.setText(kShownSite, here);
        show_record(zero_fields(), site(), m_zero, formatter);
        show_record(area_fields(), site(), m_area, formatter);
        show_record(yield_fields(), site(), m_yield, formatter);
    }
    if (const QString series = chosenSeries(); series != m_resume.text(kShownSeries)) {
        m_resume.setText(kShownSeries, series);
        const FlowSeriesRow* row = m_project.survey().year_series();
        show_record(series_fields(), row != nullptr ? *row : FlowSeriesRow{}, m_series, formatter);
    }
}

template <class Change>
void SeasonModel::change_site(Change&& change) {
    SiteRow row = site();
    change(row);
    m_project.change(row);
}

bool SeasonModel::isOpen() const {
    return m_project.is_open() && !m_resume.text(QStringLiteral("flow/season")).isEmpty();
}

void SeasonModel::setOpen(bool open) {
    if (open == isOpen())
        return;
    m_resume.setText(QStringLiteral("flow/season"), open ? QStringLiteral("open") : QString());
    emit changed();
}

// ---- staff gauge and rating ------------------------------------------------------------------------------------------

QList<GaugeVisitItem> SeasonModel::visits() const {
    QList<GaugeVisitItem> items;
    if (season() == nullptr)
        return items;
    const Formatter formatter = m_settings.formatter();
    for (const GaugeVisit& visit : season()->inputs.gauge_visits) {
        GaugeVisitItem item;
        item.id = key_text(visit.test_id);
        item.text = tr("%1: %2 at %3").arg(QString::fromStdString(visit.name), formatter.estimate(visit.discharge_m3s, Quantity::Discharge),
                                           formatter.value(visit.stage_m, Quantity::Length));
        item.counts = visit.counts;
        item.detail = QString::fromStdString(visit.date);
        if (season()->rating) {
            const RatedFlow rated = season()->rating->at(visit.stage_m);
            if (rated.range != RatedRange::NoFlow)
                item.detail = tr("%1, against the curve %2%3")
                                  .arg(item.detail, visit.discharge_m3s.value >= rated.discharge.value ? QStringLiteral("+") : QString(),
                                       formatter.percent(visit.discharge_m3s.value / rated.discharge.value - 1.0));
        }
        if (const FlowTestRow* test = m_project.survey().test(visit.test_id); test != nullptr && !visit.counts)
            item.detail = tr("%1, left out: %2").arg(item.detail, QString::fromStdString(test->set_aside_reason));
        items.append(item);
    }
    return items;
}

QString SeasonModel::ratingText() const {
    if (season() == nullptr || !season()->rating)
        return {};
    const StageRating& rating = *season()->rating;
    const Formatter formatter = m_settings.formatter();
    return tr("Flow = %1 × (h − h₀)^%2, h − h₀ in m, h₀ = %3; gauged from %4 to %5 at %6 visits")
        .arg(formatter.value(rating.a, Quantity::Discharge), QLocale().toString(rating.b, 'f', 2),
             formatter.value(rating.h0_m, Quantity::Length), formatter.value(rating.lowest_stage_m, Quantity::Length),
             formatter.value(rating.highest_stage_m, Quantity::Length))
        .arg(rating.visits);
}

QList<FindingText> SeasonModel::ratingFindings() const {
    return season() == nullptr ? QList<FindingText>() : m_settings.formatter().findings(season()->rating_findings);
}

void SeasonModel::keepZero() {
    if (m_zero.complete())
        change_site([this](SiteRow& row) { fill_record(zero_fields(), m_zero, row); });
}

void SeasonModel::setAside(const QString& test, const QString& reason) {
    const FlowTestRow* found = m_project.survey().test(key_of(test));
    if (found == nullptr)
        return;
    FlowTestRow row = *found;
    row.set_aside_reason = reason.simplified().toStdString();
    row.counts = row.set_aside_reason.empty();
    m_project.change(row);
}

// ---- the record and its way to the site ------------------------------------------------------------------------------

QList<Choice> SeasonModel::series() const {
    QList<Choice> choices;
    for (const Booked<FlowSeriesRow>& one : m_project.survey().series)
        if (!one.struck)
            choices.append({key_text(one.row.id), one.row.kind == kStageSeries
                                                      ? tr("%1 (stage log)").arg(QString::fromStdString(one.row.name))
                                                      : tr("%1 (daily flows)").arg(QString::fromStdString(one.row.name))});
    return choices;
}

QString SeasonModel::chosenSeries() const {
    const FlowSeriesRow* series = m_project.survey().year_series();
    return series == nullptr ? QString() : key_text(series->id);
}

void SeasonModel::setChosenSeries(const QString& key) {
    if (key == chosenSeries())
        return;
    change_site([&](SiteRow& row) { row.series_id = key_of(key); });
}

bool SeasonModel::neighbour() const {
    const FlowSeriesRow* series = m_project.survey().year_series();
    return series != nullptr && series->kind != kStageSeries;
}

QString SeasonModel::seriesText() const {
    const FlowSeriesRow* series = m_project.survey().year_series();
    if (series == nullptr)
        return {};
    QString from = series->file_name.empty() ? QString::fromStdString(series->note)
                                             : tr("From %1, read in %2").arg(QString::fromStdString(series->file_name),
                                                                             Formatter::when(series->created_at));
    if (season() == nullptr || !season()->record)
        return from;
    const GaugeRecord& record = *season()->record;
    const QDate first = QDate(1970, 1, 1).addDays(record.daily.first.time_since_epoch().count());
    return tr("%1 days with a flow from %2 on, %3 full years. %4")
        .arg(QLocale().toString(static_cast<qulonglong>(record.summary.days)), QLocale().toString(first, QLocale::ShortFormat),
             QLocale().toString(static_cast<qulonglong>(record.summary.full_years)), from);
}

void SeasonModel::keepSeries() {
    const FlowSeriesRow* series = m_project.survey().year_series();
    if (series == nullptr || !m_series.complete())
        return;
    FlowSeriesRow row = *series;
    fill_record(series_fields(), m_series, row);
    m_project.change(row);
}

void SeasonModel::strikeSeries(const QString& reason) {
    if (const FlowSeriesRow* series = m_project.survey().year_series())
        m_project.strike(FlowSeriesRow::kTable, series->id, reason);
}

QList<Choice> SeasonModel::transfers() const {
    return {{QString(), tr("It is of this creek")},
            {QStringLiteral("area"), tr("By the catchments")},
            {QStringLiteral("spots"), tr("By same-day flow tests")},
            {QStringLiteral("yield"), tr("No record: mean flow of a km²")}};
}

QString SeasonModel::transfer() const {
    return QString::fromStdString(site().transfer);
}

void SeasonModel::setTransfer(const QString& way) {
    if (way != transfer())
        change_site([&](SiteRow& row) { row.transfer = way.toStdString(); });
}

EntryForm* SeasonModel::transferForm() {
    if (site().transfer == "area")
        return &m_area;
    return site().transfer == "yield" ? &m_yield : nullptr;
}

QString SeasonModel::transferText() const {
    if (season() == nullptr || !season()->site)
        return {};
    const SiteRecord& record = *season()->site;
    if (!record.ratio)
        return tr("A mean from a map may be off by half. Measure at low water, and read in a neighbour's record as soon as there is one.");
    if (site().transfer.empty())
        return {};
    return tr("The site's flow is %1 of the gauge's. Another creek is another creek: the ± below says how far off that may be.")
        .arg(m_settings.formatter().percent(*record.ratio));
}

void SeasonModel::keepTransfer() {
    EntryForm* form = transferForm();
    if (form != nullptr && form->complete())
        change_site([&](SiteRow& row) { fill_record(form == &m_area ? area_fields() : yield_fields(), *form, row); });
}

QList<FindingText> SeasonModel::findings() const {
    return season() == nullptr ? QList<FindingText>() : m_settings.formatter().findings(season()->findings);
}

// ---- what is chosen --------------------------------------------------------------------------------------------------

QList<Choice> SeasonModel::durationRules() const {
    return {{QString(), tr("r/(N+1), Weibull")}, {QStringLiteral("linear"), tr("(r−1)/(N−1)")}};
}

QString SeasonModel::durationRule() const {
    return QString::fromStdString(site().duration_rule);
}

void SeasonModel::setDurationRule(const QString& rule) {
    if (rule != durationRule())
        change_site([&](SiteRow& row) { row.duration_rule = rule.toStdString(); });
}

QList<Choice> SeasonModel::figureChoices() const {
    return {{QStringLiteral("q95"), tr("Q95")},
            {QStringLiteral("q50"), tr("Q50")},
            {QStringLiteral("mean"), tr("Mean")},
            {QStringLiteral("low7"), tr("Lowest 7 days")}};
}

QString SeasonModel::figure() const {
    return site().flow_figure.empty() ? QStringLiteral("q95") : QString::fromStdString(site().flow_figure);
}

void SeasonModel::setFigure(const QString& figure) {
    if (figure != this->figure())
        change_site([&](SiteRow& row) { row.flow_figure = figure.toStdString(); });
}

QList<Choice> SeasonModel::monthNames() const {
    QList<Choice> choices;
    for (int month = 1; month <= 12; ++month)
        choices.append({QString::number(month), QLocale().standaloneMonthName(month)});
    return choices;
}

QList<Choice> SeasonModel::monthChoices() const {
    return QList<Choice>{{QStringLiteral("0"), tr("All year")}} + monthNames();
}

QString SeasonModel::fromMonth() const {
    return QString::number(site().flow_from_month.value_or(0));
}

QString SeasonModel::toMonth() const {
    return QString::number(site().flow_to_month.value_or(0));
}

void SeasonModel::setFromMonth(const QString& month) {
    if (month != fromMonth())
        change_site([&](SiteRow& row) {
            row.flow_from_month = month.toInt() == 0 ? std::nullopt : std::optional<std::int64_t>(month.toInt());
            if (!row.flow_from_month)
                row.flow_to_month.reset();
            else if (!row.flow_to_month)
                row.flow_to_month = row.flow_from_month;
        });
}

void SeasonModel::setToMonth(const QString& month) {
    if (month != toMonth() && month.toInt() != 0)
        change_site([&](SiteRow& row) { row.flow_to_month = month.toInt(); });
}

QString SeasonModel::yearBegins() const {
    return QString::number(site().year_begins.value_or(1));
}

void SeasonModel::setYearBegins(const QString& month) {
    if (month != yearBegins() && month.toInt() != 0)
        change_site([&](SiteRow& row) { row.year_begins = month.toInt(); });
}
