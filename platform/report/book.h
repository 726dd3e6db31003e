// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/galley.h"

#include <QMarginsF>
#include <QSizeF>

namespace rillmark::report {

/// The page and the area that is set on it.
struct PageForm {
    QSizeF size;
    QMarginsF margins;
    [[nodiscard]] QRectF area() const { return QRectF(QPointF(), size).marginsRemoved(margins); }
};

struct Placed {
    const Piece* piece = nullptr;
    double top = 0.0; // on the page
};

struct Bookmark {
    QString title;
    int level = 0; // 0: chapter
    int page = 0;  // from 0
    double top = 0.0;
};

/// The galley cut into pages.
struct Book {
    std::vector<std::vector<Placed>> pages;
    std::vector<Bookmark> bookmarks;
    double top = 0.0; // where pages begin
};
[[nodiscard]] Book cut_into_pages(const Galley& galley, const PageForm& form);

/// What stands on every page but for its pieces.
struct RunningHead {
    QString site;
    QString date;
    QString program;
};
/// Head, pieces and page number of one page.
void draw_page(QPainter& painter, const Book& book, int page, const PageForm& form, const RunningHead& head);

} // namespace rillmark::report
