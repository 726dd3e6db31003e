// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/table.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace rillmark::report {

namespace {

constexpr double kGap = 9.0;    // between columns
constexpr double kRowPad = 1.6; // above and below the text of a row
constexpr double kLeastText = 46.0;
constexpr double kMostExtra = 14.0;
constexpr double kBarHeight = 5.0;

bool figures(const Column& column) {
    return column.fit == Fit::Figures;
}

Type cell_type(const Cell& cell) {
    return type::kTable.as(cell.face).in(cell.ink);
}

std::vector<QString> cell_lines(const Column& column, const Cell& cell, double width) {
    if (cell.text.isEmpty())
        return {};
    if (figures(column))
        return {elided(cell.text, cell_type(cell), width + 0.5)};
    return lines_of(cell.text, cell_type(cell), width + 0.05);
}

std::vector<QString> head_lines(const Column& column, double width) {
    return lines_of(column.head, type::kTableHead, width + 0.05);
}

double widest_word(const QString& text, const Type& type) {
    double widest = 0.0;
    const QStringList words = text.split(QLatin1Char(' '));
    for (const QString& word : words)
        widest = std::max(widest, width_of(word, type));
    return widest;
}

double natural_width(const Table& table, std::size_t at) {
    const Column& column = table.columns[at];
    if (column.fit == Fit::Bar || column.fit == Fit::SignedBar)
        return column.width;
    const double head = width_of(column.head, type::kTableHead);
    // a head of figures takes two lines, not more
    double widest = figures(column) ? std::max(0.6 * head, widest_word(column.head, type::kTableHead)) : head;
    for (const std::vector<Cell>& row : table.rows)
        if (at < row.size())
            widest = std::max(widest, width_of(row[at].text, cell_type(row[at])));
    return widest + 0.2;
}

void draw_bar(QPainter& painter, const QRectF& box, const Column& column, const Cell& cell) {
    const double top = box.top() + 0.5 * (type::kTable.leading - kBarHeight);
    const bool both_ways = column.fit == Fit::SignedBar;
    const double origin = both_ways ? box.center().x() : box.left();
    const double span = (both_ways ? 0.5 : 1.0) * box.width();
    const double end = origin + span * std::clamp(*cell.bar, both_ways ? -1.0 : 0.0, 1.0);
    painter.fillRect(QRectF(box.left(), top, box.width(), kBarHeight), QColor::fromRgb(ink::kCard));
    painter.fillRect(QRectF(std::min(origin, end), top, std::abs(end - origin), kBarHeight), QColor::fromRgb(cell.ink));
    if (both_ways)
        draw_rule(painter, {origin, top - 1.5}, {origin, top + kBarHeight + 1.5}, ink::kRule, 0.5);
}

/// Calls draw(column, its box) for each column of a line of the table.
template <class Draw>
void along(const QRectF& box, const std::vector<double>& widths, const Draw& draw) {
    double left = box.left();
    for (std::size_t i = 0; i < widths.size(); ++i) {
        draw(i, QRectF(left, box.top() + kRowPad, widths[i], box.height() - 2.0 * kRowPad));
        left += widths[i] + kGap;
    }
}

/// Takes `over` (below zero) off the columns: narrow ones keep their width, the others share what is left.
void share_room(std::vector<double*> columns, double over) {
    double room = over;
    for (const double* one : columns)
        room += *one;
    std::ranges::sort(columns, {}, [](const double* one) { return *one; });
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const double fair = room / static_cast<double>(columns.size() - i);
        *columns[i] = std::min(*columns[i], std::max(fair, kLeastText));
        room -= *columns[i];
    }
}

} // namespace

std::vector<double> column_widths(const Table& table, double width) {
    std::vector<double> widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        widths.push_back(natural_width(table, i));
    const double gaps = kGap * static_cast<double>(widths.empty() ? 0 : widths.size() - 1);
    const double all = std::accumulate(widths.begin(), widths.end(), gaps);
    std::vector<double*> text;
    for (std::size_t i = 0; i < widths.size(); ++i)
        if (table.columns[i].fit == Fit::Text)
            text.push_back(&widths[i]);
    if (all <= width) {
        // some of what is over goes between the columns; the eye finds its row more easily where they stay close
        // together
        const double extra = std::min((width - all) / static_cast<double>(widths.size()), kMostExtra);
        for (std::size_t i = 1; i < widths.size(); ++i)
            if (figures(table.columns[i]))
                widths[i] += extra;
        return widths;
    }
    share_room(text, width - all);
    const double now = std::accumulate(widths.begin(), widths.end(), gaps);
    if (now > width) // too many figures for the page: all give way, and are elided
        for (double& one : widths)
            one *= (width - gaps) / (now - gaps);
    return widths;
}

double head_height(const Table& table, const std::vector<double>& widths) {
    if (std::ranges::all_of(table.columns, [](const Column& one) { return one.head.isEmpty(); }))
        return 0.0;
    std::size_t most = 1;
    for (std::size_t i = 0; i < widths.size(); ++i)
        most = std::max(most, head_lines(table.columns[i], widths[i]).size());
    return static_cast<double>(most) * type::kTableHead.leading + 2.0 * kRowPad + 2.0;
}

void draw_head(QPainter& painter, const QRectF& box, const Table& table, const std::vector<double>& widths) {
    along(box, widths, [&](std::size_t i, QRectF cell) {
        const std::vector<QString> lines = head_lines(table.columns[i], widths[i]);
        cell.setTop(cell.bottom() - 2.0 - static_cast<double>(lines.size()) * type::kTableHead.leading);
        for (const QString& line : lines) {
            draw_line(painter, cell, line, type::kTableHead,
                      figures(table.columns[i]) ? Qt::AlignRight : Qt::AlignLeft);
            cell.setTop(cell.top() + type::kTableHead.leading);
        }
    });
    draw_rule(painter, box.bottomLeft(), box.bottomRight(), ink::kQuiet, 0.7);
}

Table with_tall_rows_split(Table table, const std::vector<double>& widths, double tallest) {
    const auto most = static_cast<std::size_t>(std::max(1.0, (tallest - 2.0 * kRowPad) / type::kTable.leading));
    std::vector<std::vector<Cell>> rows;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const double lines = (row_height(table, row, widths) - 2.0 * kRowPad) / type::kTable.leading;
        const std::size_t parts = (static_cast<std::size_t>(std::lround(lines)) + most - 1) / most;
        if (parts <= 1) {
            rows.push_back(std::move(table.rows[row]));
            continue;
        }
        for (std::size_t part = 0; part < parts; ++part) {
            std::vector<Cell>& begun = rows.emplace_back(table.rows[row]);
            for (std::size_t i = 0; i < begun.size() && i < widths.size(); ++i) {
                const std::vector<QString> all = cell_lines(table.columns[i], table.rows[row][i], widths[i]);
                QStringList shown;
                for (std::size_t line = part * most; line < std::min(all.size(), (part + 1) * most); ++line)
                    shown.append(all[line]);
                begun[i].text = shown.join(QLatin1Char('\n'));
                if (part > 0)
                    begun[i].bar.reset();
            }
        }
    }
    table.rows = std::move(rows);
    return table;
}

double row_height(const Table& table, std::size_t row, const std::vector<double>& widths) {
    std::size_t most = 1;
    for (std::size_t i = 0; i < widths.size() && i < table.rows[row].size(); ++i)
        most = std::max(most, cell_lines(table.columns[i], table.rows[row][i], widths[i]).size());
    return static_cast<double>(most) * type::kTable.leading + 2.0 * kRowPad;
}

void draw_row(QPainter& painter, const QRectF& box, const Table& table, std::size_t row,
              const std::vector<double>& widths) {
    along(box, widths, [&](std::size_t i, QRectF at) {
        if (i >= table.rows[row].size())
            return;
        const Column& column = table.columns[i];
        const Cell& cell = table.rows[row][i];
        if (cell.bar)
            return draw_bar(painter, at, column, cell);
        const Type type = cell_type(cell);
        const Qt::Alignment side = figures(column) ? Qt::AlignRight : Qt::AlignLeft;
        for (const QString& line : cell_lines(column, cell, widths[i])) {
            draw_line(painter, at, line, type, side);
            if (cell.struck) {
                const double wide = std::min(width_of(line, type), widths[i]);
                const double left = side == Qt::AlignRight ? at.right() - wide : at.left();
                const double middle = at.top() + 0.53 * type.leading;
                draw_rule(painter, {left - 1.0, middle}, {left + wide + 1.0, middle}, ink::kDanger, 0.8);
            }
            at.setTop(at.top() + type.leading);
        }
    });
    draw_rule(painter, box.bottomLeft(), box.bottomRight(), ink::kHair, 0.4);
}

} // namespace rillmark::report
