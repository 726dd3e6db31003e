// SPDX-License-Identifier: GPL-3.0-or-later
#include "level_page_model.h"

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

void LevelPageModel::show(const std::vector<BookPageLine>& page, const Formatter& formatter) {
    const int before = count();
    beginResetModel();
    m_lines.clear();
    for (const BookPageLine& one : page)
        m_lines.push_back({QString::fromStdString(one.point), reading(one.backsight_m, formatter),
                           reading(one.intermediate_m, formatter), reading(one.foresight_m, formatter),
                           reading(one.rise_m, formatter), reading(one.fall_m, formatter), reading(one.level_m, formatter),
                           QString::fromStdString(one.remark), one.struck, one.sights});
    endResetModel();
    if (before != count())
        emit countChanged();
}
