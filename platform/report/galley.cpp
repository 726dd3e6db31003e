// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/galley.h"

namespace rillmark::report {

namespace {

constexpr double kIndent = 11.0;
constexpr double kMark = 4.2;
constexpr QRgb kNoMark = 0;
constexpr double kBeforeTable = 6.0;
constexpr double kTallestRow = 240.0;
constexpr std::size_t kShortTable = 9; // rows
constexpr double kBeforeChapter = 30.0;

} // namespace

void Galley::add(Piece piece) {
    piece.space_before = std::max(piece.space_before, m_space);
    m_space = 0.0;
    m_pieces.push_back(std::move(piece));
}

void Galley::space(double height) {
    m_space = height;
}

void Galley::append(const Galley& other) {
    m_pieces.insert(m_pieces.end(), other.m_pieces.begin(), other.m_pieces.end());
}

void Galley::chapter(const QString& title) {
    Piece piece;
    piece.height = type::kChapter.leading + 8.0;
    piece.space_before = kBeforeChapter;
    piece.with_next = true;
    piece.chapter = title;
    piece.draw = [title](QPainter& painter, const QRectF& box) {
        draw_line(painter, box, title, type::kChapter);
        draw_rule(painter, box.bottomLeft() - QPointF(0.0, 4.0), box.bottomRight() - QPointF(0.0, 4.0), ink::kInk, 1.2);
    };
    add(std::move(piece));
}

void Galley::heading(const QString& title) {
    subheading(title);
    m_pieces[m_pieces.size() - lines_of(title, type::kHeading, m_width).size()].bookmark = title;
}

void Galley::subheading(const QString& title) {
    double before = 15.0;
    for (const QString& line : lines_of(title, type::kHeading, m_width)) {
        Piece piece;
        piece.height = type::kHeading.leading;
        piece.with_next = true;
        piece.space_before = before;
        piece.draw = [line](QPainter& painter, const QRectF& box) { draw_line(painter, box, line, type::kHeading); };
        add(std::move(piece));
        before = 0.0;
    }
}

void Galley::add_lines(const std::vector<QString>& lines, const Type& type, double indent, double space_before,
                       QRgb mark) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Piece piece;
        piece.height = type.leading;
        piece.space_before = i == 0 ? space_before : 0.0;
        // no single first or last line on a page
        piece.with_next = lines.size() > 1 && (i == 0 || i + 2 == lines.size());
        piece.draw = [line = lines[i], type, indent, mark, first = i == 0](QPainter& painter, const QRectF& box) {
            if (first && mark != kNoMark)
                painter.fillRect(QRectF(box.left(), box.top() + 0.5 * (box.height() - kMark), kMark, kMark),
                                 QColor::fromRgb(mark));
            draw_line(painter, box.adjusted(indent, 0.0, 0.0, 0.0), line, type);
        };
        add(std::move(piece));
    }
}

void Galley::text(const QString& text, const Type& type, double space_before) {
    if (!text.isEmpty())
        add_lines(lines_of(text, type, m_width), type, 0.0, space_before, kNoMark);
}

void Galley::item(const QString& text, QRgb mark, const QString& source) {
    add_lines(lines_of(text, type::kBody, m_width - kIndent), type::kBody, kIndent, 3.0, mark);
    if (source.isEmpty())
        return;
    m_pieces.back().with_next = true;
    add_lines(lines_of(source, type::kSmall, m_width - kIndent), type::kSmall, kIndent, 0.0, kNoMark);
}

void Galley::table(Table table) {
    const auto widths = std::make_shared<const std::vector<double>>(column_widths(table, m_width));
    const auto shared = std::make_shared<const Table>(with_tall_rows_split(std::move(table), *widths, kTallestRow));
    const auto head = std::make_shared<Piece>();
    head->height = head_height(*shared, *widths);
    head->with_next = true;
    head->draw = [shared, widths](QPainter& painter, const QRectF& box) { draw_head(painter, box, *shared, *widths); };
    m_space = std::max(m_space, kBeforeTable);
    if (head->height > 0.0)
        add(*head);
    for (std::size_t row = 0; row < shared->rows.size(); ++row) {
        Piece piece;
        piece.height = row_height(*shared, row, *widths);
        piece.again = row > 0 && head->height > 0.0 ? head : nullptr;
        // a short table stays whole; of a long one no single row stands apart
        const std::size_t rows = shared->rows.size();
        piece.with_next = row + 1 < rows && (rows <= kShortTable || row == 0 || row + 2 == rows);
        piece.draw = [shared, widths, row](QPainter& painter, const QRectF& box) {
            draw_row(painter, box, *shared, row, *widths);
        };
        add(std::move(piece));
    }
}

void Galley::figure(double height, Draw draw, double space_before) {
    Piece piece;
    piece.height = height;
    piece.space_before = space_before;
    piece.draw = std::move(draw);
    add(std::move(piece));
}

} // namespace rillmark::report
