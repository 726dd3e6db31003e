// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/book.h"

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr double kHeadGap = 14.0;      // from the running head to the area
constexpr double kChapterAbove = 0.55; // of the area's height

/// The pieces from one on that must stand on one page.
struct Group {
    std::size_t end = 0;
    double height = 0.0;
};

Group group_from(const std::vector<Piece>& pieces, std::size_t first) {
    Group group{first, 0.0};
    for (bool more = true; more && group.end < pieces.size(); ++group.end) {
        const Piece& piece = pieces[group.end];
        group.height += piece.height + (group.end == first ? 0.0 : piece.space_before);
        more = piece.with_next && group.end + 1 < pieces.size();
    }
    return group;
}

class Cutter {
public:
    Cutter(const std::vector<Piece>& pieces, const PageForm& form) : m_pieces(pieces), m_area(form.area()) {
        m_book.top = m_area.top();
    }

    Book cut() {
        for (std::size_t i = 0; i < m_pieces.size();) {
            const Group group = group_from(m_pieces, i);
            // a chapter does not begin low on a page, and none on page one
            const bool low = !m_pieces[i].chapter.isEmpty() &&
                             (m_book.pages.size() == 1 || m_top > m_area.top() + kChapterAbove * m_area.height());
            const bool full = m_top + m_pieces[i].space_before + group.height > m_area.bottom() + 0.01;
            if (m_book.pages.empty() || (!m_fresh && (full || low)))
                turn();
            for (; i < group.end; ++i) {
                // a group that is longer than a page
                if (!m_fresh && m_top + m_pieces[i].space_before + m_pieces[i].height > m_area.bottom() + 0.01)
                    turn();
                if (m_fresh && m_pieces[i].again)
                    place(*m_pieces[i].again);
                mark(m_pieces[i]);
                place(m_pieces[i]);
            }
        }
        if (m_book.pages.empty())
            turn();
        return std::move(m_book);
    }

private:
    void turn() {
        m_book.pages.emplace_back();
        m_top = m_area.top();
        m_fresh = true;
    }
    void place(const Piece& piece) {
        if (!m_fresh)
            m_top += piece.space_before;
        m_book.pages.back().push_back({&piece, m_top});
        m_top += piece.height;
        m_fresh = false;
    }
    void mark(const Piece& piece) {
        const int page = static_cast<int>(m_book.pages.size()) - 1;
        const double top = m_top + (m_fresh ? 0.0 : piece.space_before);
        if (!piece.chapter.isEmpty())
            m_book.bookmarks.push_back({piece.chapter, 0, page, top});
        else if (!piece.bookmark.isEmpty())
            m_book.bookmarks.push_back({piece.bookmark, 1, page, top});
    }

    const std::vector<Piece>& m_pieces;
    QRectF m_area;
    double m_top = 0.0;
    bool m_fresh = true; // nothing on the page yet
    Book m_book;
};

/// The chapter that a page begins in, or begins.
QString chapter_of(const Book& book, int page) {
    QString chapter;
    for (const Bookmark& one : book.bookmarks)
        if (one.level == 0 && (one.page < page || (one.page == page && one.top <= book.top + 0.01)))
            chapter = one.title;
    return chapter;
}

} // namespace

Book cut_into_pages(const Galley& galley, const PageForm& form) {
    return Cutter(galley.pieces(), form).cut();
}

void draw_page(QPainter& painter, const Book& book, int page, const PageForm& form, const RunningHead& head) {
    const QRectF area = form.area();
    if (page > 0) {
        const double top = area.top() - kHeadGap - type::kSmall.leading;
        const double third = area.width() / 3.0;
        draw_line(painter, {area.left(), top, 1.35 * third, 0.0}, head.site, type::kSmall.as(Face::Bold));
        draw_line(painter, {area.left() + 1.4 * third, top, 1.0 * third, 0.0}, chapter_of(book, page), type::kSmall);
        draw_line(painter, {area.right() - 0.6 * third, top, 0.6 * third, 0.0}, head.date, type::kSmall,
                  Qt::AlignRight);
        draw_rule(painter, {area.left(), top + 12.0}, {area.right(), top + 12.0}, ink::kRule, 0.4);
    }
    for (const Placed& one : book.pages[static_cast<std::size_t>(page)])
        one.piece->draw(painter, {area.left(), one.top, area.width(), one.piece->height});
    const double foot = area.bottom() + 14.0;
    draw_line(painter, {area.left(), foot, 0.7 * area.width(), 0.0}, head.program, type::kSmall);
    draw_line(painter, {area.left(), foot, area.width(), 0.0},
              Report::tr("%1 of %2").arg(page + 1).arg(book.pages.size()), type::kSmall.in(ink::kInk), Qt::AlignRight);
}

} // namespace rillmark::report
