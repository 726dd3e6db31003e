// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/typography.h"

#include <optional>
#include <vector>

namespace rillmark::report {

/// One cell of a table: text, or a bar.
struct Cell {
    QString text;
    bool struck = false; // legible under a line, as in a paper book
    Face face = Face::Regular;
    QRgb ink = ink::kInk;
    std::optional<double> bar; // 0..1 of the column, or -1..1 about its middle

    Cell() = default;
    Cell(QString shown) : text(std::move(shown)) {}
    static Cell of_bar(double part, QRgb colour) {
        Cell cell;
        cell.bar = part;
        cell.ink = colour;
        return cell;
    }
    [[nodiscard]] Cell bold() const {
        Cell cell = *this;
        cell.face = Face::Bold;
        return cell;
    }
    [[nodiscard]] Cell in(QRgb colour) const {
        Cell cell = *this;
        cell.ink = colour;
        return cell;
    }
};

enum class Fit { Figures, Text, Bar, SignedBar };

/// Figures stand on one line, to the right, as wide as the widest; text wraps and shares what is left; a bar has a
/// width.
struct Column {
    QString head;
    Fit fit = Fit::Text;
    double width = 70.0; // of a bar
};

struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;
};

/// The widths of the columns, so that they and the gaps between them find room in `width`.
[[nodiscard]] std::vector<double> column_widths(const Table& table, double width);
/// None for a table without heads.
[[nodiscard]] double head_height(const Table& table, const std::vector<double>& widths);
void draw_head(QPainter& painter, const QRectF& box, const Table& table, const std::vector<double>& widths);
/// The same table where rows that would stand higher than `tallest` go on in rows below them.
[[nodiscard]] Table with_tall_rows_split(Table table, const std::vector<double>& widths, double tallest);
[[nodiscard]] double row_height(const Table& table, std::size_t row, const std::vector<double>& widths);
void draw_row(QPainter& painter, const QRectF& box, const Table& table, std::size_t row,
              const std::vector<double>& widths);

} // namespace rillmark::report
