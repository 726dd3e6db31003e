// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/typography.h"

#include <QFontDatabase>
#include <QFontMetricsF>
#include <QTextLayout>

#include <mutex>

namespace rillmark::report {

namespace {

/// Fonts are measured and drawn at this many pixels a point, so that rounding to whole pixels does not show.
constexpr double kFine = 20.0;
constexpr double kNoLigatures = 1.0 / 64.0; // the smallest spacing that Qt keeps, in those pixels

QFont font_of(const Type& type) {
    QFont font(QStringLiteral("Open Sans"));
    font.setPixelSize(qRound(type.size * kFine));
    font.setWeight(type.face == Face::Bold ? QFont::DemiBold : QFont::Normal);
    font.setItalic(type.face == Face::Italic);
    font.setHintingPreference(QFont::PreferNoHinting);
    // any spacing at all keeps ligatures out, which a search for "flow" would not find
    font.setLetterSpacing(QFont::AbsoluteSpacing, kNoLigatures);
    return font;
}

/// From the top of a line to its base line.
double rise_of(const Type& type) {
    return 0.5 * (type.leading + 0.72 * type.size); // capitals of the face stand 0.72 of its size high
}

} // namespace

void load_fonts() {
    static std::once_flag once;
    std::call_once(once, [] {
        for (const char* file :
             {":/fonts/OpenSans-Regular.ttf", ":/fonts/OpenSans-Semibold.ttf", ":/fonts/OpenSans-Italic.ttf"})
            QFontDatabase::addApplicationFont(QString::fromLatin1(file));
    });
}

double width_of(const QString& text, const Type& type) {
    return QFontMetricsF(font_of(type)).horizontalAdvance(text) / kFine;
}

QString elided(const QString& text, const Type& type, double width) {
    return QFontMetricsF(font_of(type)).elidedText(text, Qt::ElideRight, width * kFine);
}

void draw_at(QPainter& painter, const QPointF& point, const QString& text, const Type& type, Qt::Alignment alignment) {
    if (text.isEmpty())
        return;
    double left = point.x();
    if (alignment & Qt::AlignRight)
        left -= width_of(text, type);
    else if (alignment & Qt::AlignHCenter)
        left -= 0.5 * width_of(text, type);
    painter.save();
    painter.setPen(QColor::fromRgb(type.ink));
    painter.setFont(font_of(type));
    painter.scale(1.0 / kFine, 1.0 / kFine);
    painter.drawText(QPointF(left, point.y()) * kFine, text);
    painter.restore();
}

void draw_line(QPainter& painter, const QRectF& box, const QString& text, const Type& type, Qt::Alignment alignment) {
    const double x = alignment & Qt::AlignRight     ? box.right()
                     : alignment & Qt::AlignHCenter ? box.center().x()
                                                    : box.left();
    draw_at(painter, {x, box.top() + rise_of(type)}, elided(text, type, box.width() + 0.05), type, alignment);
}

std::vector<QString> lines_of(const QString& text, const Type& type, double width, std::size_t most) {
    std::vector<QString> lines;
    const QStringList paragraphs = text.split(QLatin1Char('\n'));
    for (const QString& paragraph : paragraphs) {
        QTextLayout layout(paragraph, font_of(type));
        QTextOption option;
        option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
        layout.setTextOption(option);
        layout.beginLayout();
        for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
            line.setLineWidth(width * kFine);
            lines.push_back(paragraph.mid(line.textStart(), line.textLength()).trimmed());
        }
        layout.endLayout();
        if (paragraph.isEmpty())
            lines.emplace_back();
    }
    if (lines.size() > most) {
        lines.resize(most);
        lines.back() = elided(lines.back() + QStringLiteral(" …………"), type, width);
    }
    return lines;
}

void draw_rule(QPainter& painter, const QPointF& from, const QPointF& to, QRgb ink, double width) {
    QPen pen(QColor::fromRgb(ink), width);
    pen.setCapStyle(Qt::FlatCap);
    painter.setPen(pen);
    painter.drawLine(from, to);
}

} // namespace rillmark::report
