// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QCoreApplication>
#include <QFont>
#include <QPainter>
#include <QString>

#include <vector>

/// How the report is set. All lengths are in points (1/72 in), y downwards.
namespace rillmark::report {

/// What lupdate collects the report's own sentences under.
struct Report {
    Q_DECLARE_TR_FUNCTIONS(Report)
};

namespace ink {
inline constexpr QRgb kInk = 0xff15181c;
inline constexpr QRgb kQuiet = 0xff4b5158;
inline constexpr QRgb kRule = 0xffb3b0a4;
inline constexpr QRgb kHair = 0xffdcd9cf;
inline constexpr QRgb kCard = 0xfff4f2eb;
inline constexpr QRgb kWater = 0xff0a4370;
inline constexpr QRgb kPaleWater = 0xffd3e3f0;
inline constexpr QRgb kAction = 0xff0a4a38;
inline constexpr QRgb kWarning = 0xff8a4300;
inline constexpr QRgb kDanger = 0xff861022;
} // namespace ink

enum class Face { Regular, Bold, Italic };

/// A kind of text.
struct Type {
    Face face = Face::Regular;
    double size = 9.0;
    double leading = 12.6; // from line to line
    QRgb ink = ink::kInk;
    [[nodiscard]] Type in(QRgb other) const { return {face, size, leading, other}; }
    [[nodiscard]] Type as(Face other) const { return {other, size, leading, ink}; }
};

namespace type {
inline constexpr Type kBody{};
inline constexpr Type kQuiet{Face::Regular, 8.5, 11.6, ink::kQuiet};
inline constexpr Type kTable{Face::Regular, 8.0, 10.6};
inline constexpr Type kTableHead{Face::Bold, 7.5, 9.6, ink::kQuiet};
inline constexpr Type kSmall{Face::Regular, 7.5, 10.0, ink::kQuiet};
inline constexpr Type kTitle{Face::Bold, 26.0, 31.0};
inline constexpr Type kChapter{Face::Bold, 17.0, 22.0};
inline constexpr Type kHeading{Face::Bold, 11.0, 14.6};
inline constexpr Type kLead{Face::Regular, 10.5, 15.0};
inline constexpr Type kFigure{Face::Bold, 34.0, 40.0, ink::kAction};
inline constexpr Type kMidFigure{Face::Bold, 15.0, 19.0};
inline constexpr Type kPlot{Face::Regular, 7.0, 9.0, ink::kQuiet};
} // namespace type

/// Makes the report's fonts known, once a program.
void load_fonts();

/// Width of a line of text.
[[nodiscard]] double width_of(const QString& text, const Type& type);
/// The text, cut with an ellipsis where it is wider.
[[nodiscard]] QString elided(const QString& text, const Type& type, double width);
/// Draws one line inside the box, its first line's height from the top; too long a text is elided.
void draw_line(QPainter& painter, const QRectF& box, const QString& text, const Type& type,
               Qt::Alignment alignment = Qt::AlignLeft);
/// Draws one line that ends at, or begins at, or stands around a point of its base line; never elided.
void draw_at(QPainter& painter, const QPointF& point, const QString& text, const Type& type,
             Qt::Alignment alignment = Qt::AlignLeft);

/// The lines of a paragraph at a width, at most that many: the last is then cut with an ellipsis. Words longer than a
/// line are broken.
[[nodiscard]] std::vector<QString> lines_of(const QString& text, const Type& type, double width,
                                            std::size_t most = 100000);

void draw_rule(QPainter& painter, const QPointF& from, const QPointF& to, QRgb ink, double width);

} // namespace rillmark::report
