// SPDX-License-Identifier: GPL-3.0-or-later
// The part of LevelsModel that is about the sight to be booked next.
#include "levels_model.h"

#include "levelling/sight_judgement.h"
#include "levelling/sight_observations.h"
#include "sight_form.h"
#include "site/heights.h"

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr double kLastDigit_m = 0.001;  // of a reading as typed
constexpr double kStadiaFactor = 100.0; // engraved on almost every instrument: common practice, no source

} // namespace

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
            m_point = struck->row.station_id ? key_text(*struck->row.station_id) : sight_form::kChangePoint;
            return;
        }
        m_repeats = 0;
    }
    const SightRow* last = last_sight();
    const bool needs_backsight = last == nullptr || last->kind == "foresight";
    if (needs_backsight) {
        m_kind = QStringLiteral("backsight");
        if (last != nullptr) // the staff stays where the last foresight was read
            m_point = last->station_id ? key_text(*last->station_id) : sight_form::kChangePoint;
    } else if (m_kind == QLatin1String("backsight")) {
        m_kind = QStringLiteral("foresight");
        m_point = sight_form::kChangePoint;
    }
    if (m_point.isEmpty()) {
        const QList<Choice> choices = points();
        m_point = choices.isEmpty() ? sight_form::kChangePoint : choices.first().id;
    }
}

QList<Choice> LevelsModel::kinds() const {
    const SightRow* last = last_sight();
    if (m_repeats == 0 && (last == nullptr || last->kind == "foresight"))
        return {{QStringLiteral("backsight"), tr("Backsight")}};
    if (m_repeats != 0)
        return {{m_kind, sight_form::kind_words(m_kind)}};
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
        return {{at.station_id ? key_text(*at.station_id) : sight_form::kChangePoint, name}};
    }
    if (last != nullptr)
        choices.append({sight_form::kChangePoint, change_point});
    choices.append(station_choices(m_project.survey()));
    return choices;
}

bool LevelsModel::ready() const {
    return row() != nullptr && entry().complete() && (!threeWires() || typed_wires()) && !m_point.isEmpty() &&
           !m_project.project()->read_only();
}

QString LevelsModel::setup() const {
    if (!m_sheet.reduced || m_sheet.reduced->rows.empty())
        return tr("First a backsight on a point that can be found again.");
    const SightRow* last = last_sight();
    if (last->kind == "foresight")
        return tr("Move the instrument, then a backsight on %1.")
            .arg(QString::fromStdString(point_name(m_project.survey(), *last)));
    for (auto line = m_sheet.reduced->rows.rbegin(); line != m_sheet.reduced->rows.rend(); ++line)
        if (line->height_of_instrument_m)
            return tr("Set-up %1, height of instrument %2")
                .arg(m_sheet.reduced->setups)
                .arg(m_settings.formatter().value(*line->height_of_instrument_m, Quantity::Length));
    return {};
}

std::optional<Sight> LevelsModel::typed_sight() const {
    std::optional<double> reading = entry().number(sight_form::kReading);
    std::optional<double> distance;
    if (threeWires()) {
        const Expected<ThreeWire> wires = typed_wires();
        reading = wires ? std::optional(wires->mean_m) : std::nullopt;
        distance = wires ? std::optional(wires->distance_m) : std::nullopt;
    } else {
        distance = m_form.number(sight_form::kDistance);
    }
    if (!reading || m_point.isEmpty())
        return {};
    Sight typed;
    typed.kind = sight_form::kind_of(m_kind);
    typed.point = m_point == sight_form::kChangePoint ? next_change_point() : station_node(key_of(m_point));
    typed.reading_m = m_inverted ? -*reading : *reading;
    typed.distance_m = distance;
    return typed;
}

std::optional<Estimate> LevelsModel::expected_reading(const Sight& sight) const {
    const std::optional<AdjustedNetwork>& network = m_project.estimate().heights.network;
    if (!network || !m_sheet.reduced || sight.kind == SightKind::Backsight || m_point == sight_form::kChangePoint || m_repeats != 0)
        return {};
    const std::string instrument = instrument_node(std::to_string(m_book), m_sheet.reduced->setups);
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
    const std::optional<double> upper = m_wires.number(sight_form::kUpper);
    const std::optional<double> middle = m_wires.number(sight_form::kReading);
    const std::optional<double> lower = m_wires.number(sight_form::kLower);
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
        const Expected<ReducedBook> judged = reduce({alone}, 0.0);
        if (!judged)
            doubts.push_back(judged.error());
        else
            for (const Finding& finding : judged->findings)
                if (finding.severity != Severity::Note)
                    doubts.push_back(finding);
    }
    return m_settings.formatter().findings(doubts);
}

void LevelsModel::bookSight() {
    const std::optional<Sight> typed = typed_sight();
    if (!typed || !ready())
        return;
    SightRow sight_row;
    sight_row.book_id = m_book;
    sight_row.kind = m_kind.toStdString();
    if (m_point == sight_form::kChangePoint)
        sight_row.point = next_change_point();
    else
        sight_row.station_id = key_of(m_point);
    sight_row.reading_m = typed->reading_m;
    sight_row.distance_m = typed->distance_m;
    sight_row.typed = entry().typed(sight_form::kReading).toStdString();
    if (threeWires()) {
        const double sign = m_inverted ? -1.0 : 1.0;
        sight_row.upper_m = sign * *m_wires.number(sight_form::kUpper);
        sight_row.lower_m = sign * *m_wires.number(sight_form::kLower);
        sight_row.typed = (QStringList{m_wires.typed(sight_form::kUpper), m_wires.typed(sight_form::kReading), m_wires.typed(sight_form::kLower)}).join(QStringLiteral(" / ")).toStdString();
    }
    sight_row.remark = entry().typed(sight_form::kRemark).simplified().toStdString();
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

void LevelsModel::repeat(const QString& key) {
    m_repeats = key_of(key);
    propose_next();
    emit changed();
}
