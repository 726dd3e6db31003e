// SPDX-License-Identifier: GPL-3.0-or-later
#include "levels_model.h"

#include "levelling/sight_judgement.h"
#include "levelling/sight_observations.h"
#include "site/heights.h"

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr double kStartLevel_m = 100.0; // of a book whose first point has no height yet
constexpr double kLastDigit_m = 0.001;    // of a reading as typed
const QString kChangePoint = QStringLiteral("cp");
const QString kReading = QStringLiteral("reading");
const QString kDistance = QStringLiteral("distance");
const QString kRemark = QStringLiteral("remark");
const QString kUpper = QStringLiteral("upper");
const QString kLower = QStringLiteral("lower");
constexpr double kStadiaFactor = 100.0; // engraved on almost every instrument: common practice, no source

std::vector<EntryForm::Field> sight_fields() {
    return {{kReading, LevelsModel::tr("Staff reading"), Quantity::Length, true, false},
            {kDistance, LevelsModel::tr("Distance to the staff"), Quantity::Length, false, false},
            {kRemark, LevelsModel::tr("Remark"), {}, false, false}};
}

std::vector<EntryForm::Field> wire_fields() {
    return {{kUpper, LevelsModel::tr("Upper wire"), Quantity::Length, true, false},
            {kReading, LevelsModel::tr("Middle wire"), Quantity::Length, true, false},
            {kLower, LevelsModel::tr("Lower wire"), Quantity::Length, true, false},
            {kRemark, LevelsModel::tr("Remark"), {}, false, false}};
}

SightKind kind_of(const QString& kind) {
    if (kind == QLatin1String("backsight"))
        return SightKind::Backsight;
    return kind == QLatin1String("foresight") ? SightKind::Foresight : SightKind::Intermediate;
}

QString kind_words(const QString& kind) {
    if (kind == QLatin1String("backsight"))
        return LevelsModel::tr("Backsight");
    return kind == QLatin1String("foresight") ? LevelsModel::tr("Foresight") : LevelsModel::tr("Intermediate");
}

} // namespace

LevelsModel::LevelsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_form(QStringLiteral("sight"), sight_fields(), settings, resume),
      m_wires(QStringLiteral("wires"), wire_fields(), settings, resume) {
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

const SightRow* LevelsModel::last_sight() const {
    const SightRow* last = nullptr;
    for (const Booked<SightRow>& one : m_project.survey().page(m_book))
        if (!one.struck)
            last = &sight(one.row.id)->row;
    return last;
}

void LevelsModel::propose_next() {
    if (m_repeats != 0) {
        const Booked<SightRow>* struck = sight(m_repeats);
        if (struck != nullptr && struck->struck) {
            m_kind = QString::fromStdString(struck->row.kind);
            m_point = struck->row.station_id ? key_text(*struck->row.station_id) : kChangePoint;
            return;
        }
        m_repeats = 0;
    }
    const SightRow* last = last_sight();
    const bool needs_backsight = last == nullptr || last->kind == "foresight";
    if (needs_backsight) {
        m_kind = QStringLiteral("backsight");
        if (last != nullptr) // the staff stays where the last foresight was read
            m_point = last->station_id ? key_text(*last->station_id) : kChangePoint;
    } else if (m_kind == QLatin1String("backsight")) {
        m_kind = QStringLiteral("foresight");
        m_point = kChangePoint;
    }
    if (m_point.isEmpty()) {
        const QList<Choice> choices = points();
        m_point = choices.isEmpty() ? kChangePoint : choices.first().id;
    }
}

QList<Choice> LevelsModel::kinds() const {
    const SightRow* last = last_sight();
    if (m_repeats == 0 && (last == nullptr || last->kind == "foresight"))
        return {{QStringLiteral("backsight"), tr("Backsight")}};
    if (m_repeats != 0)
        return {{m_kind, kind_words(m_kind)}};
    return {{QStringLiteral("intermediate"), tr("Intermediate")}, {QStringLiteral("foresight"), tr("Foresight")}};
}

void LevelsModel::setKind(const QString& kind) {
    if (m_kind == kind)
        return;
    m_kind = kind;
    emit changed();
}

void LevelsModel::setPoint(const QString& point) {
    if (m_point == point)
        return;
    m_point = point;
    emit changed();
}

void LevelsModel::setInverted(bool inverted) {
    if (m_inverted == inverted)
        return;
    m_inverted = inverted;
    emit changed();
}

std::string LevelsModel::next_change_point() const {
    const SightRow* last = last_sight();
    if (m_repeats != 0 && sight(m_repeats) != nullptr)
        return sight(m_repeats)->row.point;
    if (m_kind == QLatin1String("backsight") && last != nullptr && !last->station_id)
        return last->point;
    int highest = 0;
    for (const Booked<SightRow>& one : m_project.survey().page(m_book))
        if (!one.row.station_id && one.row.point.starts_with("CP"))
            highest = std::max(highest, std::atoi(one.row.point.c_str() + 2));
    return "CP" + std::to_string(highest + 1);
}

QList<Choice> LevelsModel::points() const {
    QList<Choice> choices;
    const SightRow* last = last_sight();
    const QString change_point = tr("Change point %1").arg(QString::fromStdString(next_change_point()));
    const bool fixed_by_foresight = m_repeats == 0 && last != nullptr && last->kind == "foresight";
    if (m_repeats != 0 || fixed_by_foresight) {
        const SightRow& at = m_repeats != 0 ? sight(m_repeats)->row : *last;
        const QString name = QString::fromStdString(point_name(m_project.survey(), at));
        return {{at.station_id ? key_text(*at.station_id) : kChangePoint, name}};
    }
    if (last != nullptr)
        choices.append({kChangePoint, change_point});
    choices.append(station_choices(m_project.survey()));
    return choices;
}

bool LevelsModel::ready() const {
    return row() != nullptr && entry().complete() && (!threeWires() || typed_wires()) && !m_point.isEmpty() &&
           !m_project.project()->read_only();
}

QString LevelsModel::setup() const {
    if (!m_reduced || m_reduced->rows.empty())
        return tr("First a backsight on a point that can be found again.");
    const SightRow* last = last_sight();
    if (last->kind == "foresight")
        return tr("Move the instrument, then a backsight on %1.")
            .arg(QString::fromStdString(point_name(m_project.survey(), *last)));
    for (auto line = m_reduced->rows.rbegin(); line != m_reduced->rows.rend(); ++line)
        if (line->height_of_instrument_m)
            return tr("Set-up %1, height of instrument %2")
                .arg(m_reduced->setups)
                .arg(m_settings.formatter().value(*line->height_of_instrument_m, Quantity::Length));
    return {};
}

std::optional<Sight> LevelsModel::typed_sight() const {
    std::optional<double> reading = entry().number(kReading);
    std::optional<double> distance;
    if (threeWires()) {
        const Expected<ThreeWire> wires = typed_wires();
        reading = wires ? std::optional(wires->mean_m) : std::nullopt;
        distance = wires ? std::optional(wires->distance_m) : std::nullopt;
    } else {
        distance = m_form.number(kDistance);
    }
    if (!reading || m_point.isEmpty())
        return {};
    Sight typed;
    typed.kind = kind_of(m_kind);
    typed.point = m_point == kChangePoint ? next_change_point() : station_node(key_of(m_point));
    typed.reading_m = m_inverted ? -*reading : *reading;
    typed.distance_m = distance;
    return typed;
}

std::optional<Estimate> LevelsModel::expected_reading(const Sight& sight) const {
    const std::optional<AdjustedNetwork>& network = m_project.estimate().heights.network;
    if (!network || !m_reduced || sight.kind == SightKind::Backsight || m_point == kChangePoint || m_repeats != 0)
        return {};
    const std::string instrument = instrument_node(std::to_string(m_book), m_reduced->setups);
    const Expected<Estimate> above = network->difference(sight.point, instrument);
    if (!above)
        return {};
    const double staff_u = SightPrecision{}.staff_reading_m;
    return Estimate{above->value, std::hypot(above->standard_uncertainty, staff_u)};
}

/// Of the set-up in hand, where a foresight is to be booked.
std::optional<double> LevelsModel::backsight_in_hand() const {
    if (m_kind != QLatin1String("foresight"))
        return {};
    std::optional<double> reading_m;
    for (const Booked<SightRow>& one : m_project.survey().page(m_book))
        if (!one.struck && one.row.kind == "backsight")
            reading_m = one.row.reading_m;
    return reading_m;
}

bool LevelsModel::threeWires() const {
    return row() != nullptr && row()->stadia_factor.has_value();
}

void LevelsModel::setThreeWires(bool three) {
    if (row() == nullptr || three == threeWires())
        return;
    LevelBookRow book = *row();
    book.stadia_factor = three ? std::optional(kStadiaFactor) : std::nullopt;
    m_project.change(book);
}

Expected<ThreeWire> LevelsModel::typed_wires() const {
    const std::optional<double> upper = m_wires.number(kUpper);
    const std::optional<double> middle = m_wires.number(kReading);
    const std::optional<double> lower = m_wires.number(kLower);
    if (!upper || !middle || !lower || row() == nullptr)
        return note("levels.wires_missing");
    return three_wire({*upper, *middle, *lower, kLastDigit_m}, {row()->stadia_factor.value_or(kStadiaFactor), 0.0});
}

QList<FindingText> LevelsModel::doubts() const {
    Findings doubts;
    if (threeWires() && m_wires.complete()) {
        const Expected<ThreeWire> wires = typed_wires();
        if (wires)
            doubts.insert(doubts.end(), wires->findings.begin(), wires->findings.end());
        else
            doubts.push_back(wires.error());
    }
    if (const std::optional<Sight> typed = typed_sight()) {
        if (const std::optional<Estimate> expected = expected_reading(*typed))
            if (const std::optional<Finding> doubt = judge_sight(*typed, *expected, kLastDigit_m, backsight_in_hand()))
                doubts.push_back(*doubt);
        // what reducing a book would say of this reading alone
        Sight alone = *typed;
        alone.kind = SightKind::Backsight;
        const Expected<ReducedBook> judged = reduce({alone}, kStartLevel_m);
        if (!judged)
            doubts.push_back(judged.error());
        else
            for (const Finding& finding : judged->findings)
                if (finding.severity != Severity::Note)
                    doubts.push_back(finding);
    }
    return m_settings.formatter().findings(doubts);
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

void LevelsModel::bookSight() {
    const std::optional<Sight> typed = typed_sight();
    if (!typed || !ready())
        return;
    SightRow sight_row;
    sight_row.book_id = m_book;
    sight_row.kind = m_kind.toStdString();
    if (m_point == kChangePoint)
        sight_row.point = next_change_point();
    else
        sight_row.station_id = key_of(m_point);
    sight_row.reading_m = typed->reading_m;
    sight_row.distance_m = typed->distance_m;
    sight_row.typed = entry().typed(kReading).toStdString();
    if (threeWires()) {
        const double sign = m_inverted ? -1.0 : 1.0;
        sight_row.upper_m = sign * *m_wires.number(kUpper);
        sight_row.lower_m = sign * *m_wires.number(kLower);
        sight_row.typed = (QStringList{m_wires.typed(kUpper), m_wires.typed(kReading), m_wires.typed(kLower)}).join(QStringLiteral(" / ")).toStdString();
    }
    sight_row.remark = entry().typed(kRemark).simplified().toStdString();
    if (m_repeats != 0) {
        sight_row.position = sight(m_repeats)->row.position;
    } else {
        for (const Booked<SightRow>& one : m_project.survey().page(m_book))
            sight_row.position = std::max(sight_row.position, one.row.position + 1);
    }
    m_repeats = 0;
    m_project.book(sight_row, [this](Id) {
        form()->booked();
        setInverted(false);
    });
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
                                          .arg(kind_words(QString::fromStdString(one->row.kind)),
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

void LevelsModel::repeat(const QString& key) {
    m_repeats = key_of(key);
    propose_next();
    emit changed();
}
