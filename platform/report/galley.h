// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/table.h"
#include "report/typography.h"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace rillmark::report {

using Draw = std::function<void(QPainter&, const QRectF&)>;

/// Something that is not broken over two pages.
struct Piece {
    double height = 0.0;
    Draw draw;
    double space_before = 0.0; // not at the top of a page
    bool with_next = false;    // never the last on its page
    std::shared_ptr<Piece>
        again;        // drawn first where this one begins a page that its neighbours did not: a table's head
    QString chapter;  // begins one
    QString bookmark; // within a chapter
};

/// What the sections fill, top to bottom; the book cuts it into pages.
class Galley {
public:
    explicit Galley(double width) : m_width(width) {}
    [[nodiscard]] double width() const { return m_width; }
    [[nodiscard]] const std::vector<Piece>& pieces() const { return m_pieces; }

    /// On a new page where little room is left on this one; with a bookmark.
    void chapter(const QString& title);
    /// With a bookmark below that of its chapter.
    void heading(const QString& title);
    /// Without a bookmark.
    void subheading(const QString& title);
    void text(const QString& text, const Type& type = type::kBody, double space_before = 4.0);
    /// A sentence behind a mark; `source` in small type below it.
    void item(const QString& text, QRgb mark, const QString& source = {});
    void table(Table table);
    void figure(double height, Draw draw, double space_before = 8.0);
    /// At least that much before what comes next, but not at the top of a page.
    void space(double height);
    void append(const Galley& other);

private:
    void add(Piece piece);
    void add_lines(const std::vector<QString>& lines, const Type& type, double indent, double space_before, QRgb mark);

    double m_width;
    double m_space = 0.0;
    std::vector<Piece> m_pieces;
};

} // namespace rillmark::report
