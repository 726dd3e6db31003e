// SPDX-License-Identifier: GPL-3.0-or-later
#include "level_page_model.h"

#include "site/heights.h"

#include <unordered_map>

using namespace rillmark;

namespace {

QString reading(const std::optional<double>& reading_m, const Formatter& formatter) {
    return reading_m ? formatter.plain(*reading_m, Quantity::Length).value : QString();
}

} // namespace

int LevelPageModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> LevelPageModel::roleNames() const {
    return {{PointRole, "point"}, {BacksightRole, "backsight"}, {IntermediateRole, "intermediate"}, {ForesightRole, "foresight"},
            {RiseRole, "rise"},   {FallRole, "fall"},           {LevelRole, "level"},               {RemarkRole, "remark"},
            {StruckRole, "struck"}, {SpokenRole, "spoken"}};
}

QVariant LevelPageModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Line& line = m_lines[static_cast<std::size_t>(index.row())];
    switch (role) {
    case PointRole: return line.point;
    case BacksightRole: return line.backsight;
    case IntermediateRole: return line.intermediate;
    case ForesightRole: return line.foresight;
    case RiseRole: return line.rise;
    case FallRole: return line.fall;
    case LevelRole: return line.level;
    case RemarkRole: return line.remark;
    case StruckRole: return line.struck;
    case SpokenRole: {
        QString spoken = tr("Line %1, %2").arg(index.row() + 1).arg(line.point);
        const std::pair<QString, QString> cells[] = {{tr("backsight"), line.backsight}, {tr("intermediate"), line.intermediate},
                                                     {tr("foresight"), line.foresight}, {tr("level"), line.level}};
        for (const auto& [name, value] : cells)
            if (!value.isEmpty())
                spoken += QStringLiteral(", %1 %2").arg(name, value);
        return line.struck ? tr("%1, struck out").arg(spoken) : spoken;
    }
    default: return {};
    }
}

LevelPageModel::Line LevelPageModel::sight_line(const Survey& survey, const Booked<SightRow>& sight, const Formatter& formatter) {
    Line line;
    line.point = QString::fromStdString(point_name(survey, sight.row));
    QString& cell = sight.row.kind == "backsight" ? line.backsight
                    : sight.row.kind == "foresight" ? line.foresight
                                                    : line.intermediate;
    cell = reading(sight.row.reading_m, formatter);
    line.struck = sight.struck;
    line.remark = QString::fromStdString(sight.struck ? sight.struck_reason : sight.row.remark);
    line.sights = {sight.row.id};
    return line;
}

void LevelPageModel::show(const Survey& survey, const std::vector<Booked<SightRow>>& page, const ReducedBook* book,
                          const Formatter& formatter) {
    const int before = count();
    beginResetModel();
    m_lines.clear();
    std::unordered_map<Id, const BookRow*> row_of;
    if (book != nullptr)
        for (const BookRow& row : book->rows)
            for (const Id sight : row.sights)
                row_of.emplace(sight, &row);
    const BookRow* last_row = nullptr;
    for (const Booked<SightRow>& sight : page) {
        const auto found = row_of.find(sight.row.id);
        if (found == row_of.end()) {
            m_lines.push_back(sight_line(survey, sight, formatter));
            continue;
        }
        const BookRow& row = *found->second;
        if (&row == last_row && !m_lines.empty()) { // the backsight of a change point stands on the line of its foresight
            Line& line = m_lines.back();
            line.backsight = reading(row.backsight_m, formatter);
            line.sights.push_back(sight.row.id);
            if (!sight.row.remark.empty())
                line.remark += (line.remark.isEmpty() ? "" : "; ") + QString::fromStdString(sight.row.remark);
            continue;
        }
        last_row = &row;
        Line line = sight_line(survey, sight, formatter);
        line.rise = reading(row.rise_m, formatter);
        line.fall = reading(row.fall_m, formatter);
        // with the closing error shared out where that is chosen
        line.level = reading(row.adjusted_level_m.value_or(row.reduced_level_m), formatter);
        m_lines.push_back(std::move(line));
    }
    endResetModel();
    if (before != count())
        emit countChanged();
}
