// SPDX-License-Identifier: GPL-3.0-or-later
#include "levels_model.h"

#include "sight_form.h"
#include "site/heights.h"

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr double kStartLevel_m = 100.0; // of a book whose first point has no height yet

} // namespace

LevelsModel::LevelsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_form(QStringLiteral("sight"), sight_form::one_wire(), settings, resume),
      m_wires(QStringLiteral("wires"), sight_form::three_wires(), settings, resume) {
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_book = key_of(m_resume.text(QStringLiteral("levels/book")));
        m_point.clear();
        m_repeats = 0;
    });
    connect(&m_project, &OpenProject::changed, this, &LevelsModel::refresh);
    connect(&m_settings, &SettingsModel::changed, this, &LevelsModel::refresh);
    for (EntryForm* form : {&m_form, &m_wires})
        connect(form, &EntryForm::judged, this, &LevelsModel::changed);
}

const LevelBookRow* LevelsModel::row() const {
    return m_project.survey().book(m_book);
}

const Booked<SightRow>* LevelsModel::sight(Id id) const {
    const auto& sights = m_project.survey().sights;
    const auto hit = std::find_if(sights.begin(), sights.end(), [id](const auto& one) { return one.row.id == id; });
    return hit == sights.end() ? nullptr : &*hit;
}

QList<Choice> LevelsModel::books() const {
    QList<Choice> choices;
    for (const Booked<LevelBookRow>& one : m_project.survey().books)
        if (!one.struck)
            choices.append({key_text(one.row.id), QString::fromStdString(one.row.name)});
    return choices;
}

void LevelsModel::setBook(const QString& key) {
    m_book = key_of(key);
    m_resume.setText(QStringLiteral("levels/book"), key);
    m_point.clear();
    m_repeats = 0;
    refresh();
}

QString LevelsModel::bookName() const {
    return row() ? QString::fromStdString(row()->name) : QString();
}

QString LevelsModel::instrument() const {
    return row() ? QString::fromStdString(row()->instrument) : QString();
}

void LevelsModel::refresh() {
    if (row() == nullptr) {
        const QList<Choice> all = books();
        m_book = all.isEmpty() ? 0 : key_of(all.last().id);
    }
    const Survey& survey = m_project.survey();
    const std::vector<Booked<SightRow>> page = survey.page(m_book);
    m_reduced.reset();
    m_not_reduced.reset();
    m_closure.reset();
    m_no_closure.reset();
    const std::vector<Sight> sights = sights_of(survey, m_book);
    const bool any = std::any_of(sights.begin(), sights.end(), [](const Sight& one) { return !one.struck; });
    if (any) {
        Expected<ReducedBook> reduced = reduce(sights, kStartLevel_m);
        if (reduced)
            m_reduced = std::move(reduced).value();
        else
            m_not_reduced = reduced.error();
    }
    if (m_reduced && !m_reduced->open && row() != nullptr)
        close_book();
    m_page.show(survey, page, m_reduced ? &*m_reduced : nullptr, m_settings.formatter());
    propose_next();
    emit changed();
}

/// A book that ends on a point it has been at before checks itself there; one between two points of known height checks
/// itself against them.
void LevelsModel::close_book() {
    const BookRow& last = m_reduced->rows.back();
    const auto first_visit = std::find_if(m_reduced->rows.begin(), m_reduced->rows.end() - 1,
                                          [&last](const BookRow& one) { return one.point == last.point; });
    std::optional<double> known_level_m;
    if (first_visit != m_reduced->rows.end() - 1)
        known_level_m = first_visit->reduced_level_m;
    else if (const std::optional<double> rise_m = known_rise_m(m_project.estimate().heights, m_reduced->rows.front().point, last.point))
        known_level_m = m_reduced->rows.front().reduced_level_m + *rise_m;
    if (!known_level_m)
        return;
    const Allowance* rule = find_allowance(row()->allowance);
    const std::optional<double> length_km = row()->length_m ? std::optional(*row()->length_m / 1000.0) : std::nullopt;
    const Expected<rillmark::Closure> closed = rillmark::closure(
        *m_reduced, *known_level_m, rule != nullptr ? rule->id : AllowanceId::SiteRule, length_km);
    if (!closed) {
        m_no_closure = closed.error();
        return;
    }
    m_closure = *closed;
    const QString how = shareOut();
    if (how.isEmpty())
        return;
    const Expected<ReducedBook> shared =
        distribute(*m_reduced, *m_closure, how.startsWith(QLatin1String("setup")) ? DistributeBy::Setup : DistributeBy::Distance,
                   how.endsWith(QLatin1String("anyway")) ? AboveAllowance::DistributeAnyway : AboveAllowance::Refuse);
    if (shared)
        m_reduced = *shared;
    else
        m_no_closure = shared.error();
}

QList<Choice> LevelsModel::shareOuts() const {
    return {{QString(), tr("Not shared out")},
            {QStringLiteral("setup"), tr("By set-up")},
            {QStringLiteral("distance"), tr("By distance")},
            {QStringLiteral("setup-anyway"), tr("By set-up, though it is too large")},
            {QStringLiteral("distance-anyway"), tr("By distance, though it is too large")}};
}

QString LevelsModel::shareOut() const {
    return row() ? QString::fromStdString(row()->share_out) : QString();
}

void LevelsModel::setShareOut(const QString& how) {
    if (row() == nullptr || how == shareOut())
        return;
    LevelBookRow book = *row();
    book.share_out = how.toStdString();
    m_project.change(book);
}

QList<FindingText> LevelsModel::findings() const {
    Findings all;
    if (m_not_reduced)
        all.push_back(*m_not_reduced);
    if (m_reduced)
        all.insert(all.end(), m_reduced->findings.begin(), m_reduced->findings.end());
    if (m_no_closure)
        all.push_back(*m_no_closure);
    const Findings& network = m_project.estimate().heights.findings;
    all.insert(all.end(), network.begin(), network.end());
    return m_settings.formatter().findings(all);
}

QList<Choice> LevelsModel::allowances() const {
    QList<Choice> choices;
    for (const Allowance& one : rillmark::allowances())
        choices.append({QString::fromUtf8(one.code.data(), static_cast<qsizetype>(one.code.size())),
                        Formatter::words("levels.allowance." + std::string(one.code))});
    return choices;
}

QString LevelsModel::allowance() const {
    const Allowance* rule = row() ? find_allowance(row()->allowance) : nullptr;
    const std::string_view code = rule ? rule->code : rillmark::allowance(AllowanceId::SiteRule).code;
    return QString::fromUtf8(code.data(), static_cast<qsizetype>(code.size()));
}

void LevelsModel::setAllowance(const QString& code) {
    if (row() == nullptr || code == allowance())
        return;
    LevelBookRow book = *row();
    book.allowance = code.toStdString();
    m_project.change(book);
}

QString LevelsModel::closure() const {
    if (!m_closure)
        return {};
    const Formatter formatter = m_settings.formatter();
    return tr("Closing error %1, allowed %2")
        .arg(formatter.value(m_closure->misclosure_m, Quantity::Length, 3), formatter.value(m_closure->allowed_m, Quantity::Length, 3));
}

double LevelsModel::closureShare() const {
    return m_closure && m_closure->allowed_m > 0.0 ? std::abs(m_closure->misclosure_m) / m_closure->allowed_m : 0.0;
}

QList<HeightItem> LevelsModel::heights() const {
    QList<HeightItem> items;
    const Formatter formatter = m_settings.formatter();
    const SiteHeights& heights = m_project.estimate().heights;
    for (const Booked<StationRow>& station : m_project.survey().stations) {
        const auto height = heights.height.find(station.row.id);
        if (station.struck || height == heights.height.end())
            continue;
        HeightItem item;
        item.name = QString::fromStdString(station.row.name);
        item.height = formatter.estimate(height->second, Quantity::Length);
        if (const auto fall = heights.fall.find(station.row.id); fall != heights.fall.end())
            item.fall = formatter.estimate(fall->second, Quantity::Length);
        items.append(item);
    }
    return items;
}

void LevelsModel::newBook(const QString& name, const QString& instrument) {
    LevelBookRow book;
    book.name = name.simplified().isEmpty() ? tr("Level book %1").arg(books().size() + 1).toStdString()
                                            : name.simplified().toStdString();
    book.instrument = instrument.simplified().toStdString();
    book.observer = m_settings.observer().toStdString();
    book.allowance = rillmark::allowance(AllowanceId::SiteRule).code;
    m_project.book(book, [this](Id id) { setBook(key_text(id)); });
}

void LevelsModel::renameBook(const QString& name) {
    if (row() == nullptr || name.simplified().isEmpty() || name.simplified() == bookName())
        return;
    LevelBookRow book = *row();
    book.name = name.simplified().toStdString();
    m_project.change(book);
}

void LevelsModel::setInstrument(const QString& instrument) {
    if (row() == nullptr || instrument.simplified() == this->instrument())
        return;
    LevelBookRow book = *row();
    book.instrument = instrument.simplified().toStdString();
    m_project.change(book);
}

QList<Choice> LevelsModel::sightsOfLine(int line) const {
    QList<Choice> choices;
    if (line < 0 || line >= m_page.count())
        return choices;
    for (const Id id : m_page.sights(line)) {
        const Booked<SightRow>* one = sight(id);
        if (one == nullptr)
            continue;
        choices.append({key_text(id), tr("%1 %2 on %3, typed %4")
                                          .arg(sight_form::kind_words(QString::fromStdString(one->row.kind)),
                                               m_settings.formatter().value(one->row.reading_m, Quantity::Length),
                                               QString::fromStdString(point_name(m_project.survey(), one->row)),
                                               QString::fromStdString(one->row.typed))});
    }
    return choices;
}

bool LevelsModel::isStruck(const QString& key) const {
    const Booked<SightRow>* one = sight(key_of(key));
    return one != nullptr && one->struck;
}

void LevelsModel::strike(const QString& key, const QString& reason) {
    m_project.strike(SightRow::kTable, key_of(key), reason);
}

void LevelsModel::restore(const QString& key) {
    m_project.restore(SightRow::kTable, key_of(key), QStringLiteral("restored"));
}
