// SPDX-License-Identifier: GPL-3.0-or-later
// Two photos beside each other, each read and scaled only while it is drawn.
#include "report/sections.h"

#include <QBuffer>
#include <QImageReader>

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr double kGap = 18.0;
constexpr double kShape = 0.75; // height of the box to its width: cameras' 4 : 3
constexpr double kDotsAPoint = 200.0 / 72.0;

/// The picture at the size at which it is printed; empty where it cannot be read.
QImage scaled_picture(const Project& project, Id photo, const QSizeF& box) {
    Expected<std::vector<unsigned char>> picture = project.picture(photo);
    if (!picture || picture->empty())
        return {};
    // no copy: the buffer only looks at the bytes
    QByteArray bytes = QByteArray::fromRawData(reinterpret_cast<const char*>(picture->data()),
                                               static_cast<qsizetype>(picture->size()));
    QBuffer buffer(&bytes);
    QImageReader reader(&buffer);
    reader.setAutoTransform(true);
    QSize size = reader.size();
    if (size.isValid()) {
        if (reader.transformation() & QImageIOHandler::TransformationRotate90)
            size.transpose();
        QSize wanted = size.scaled((box * kDotsAPoint).toSize(), Qt::KeepAspectRatio).boundedTo(size);
        if (reader.transformation() & QImageIOHandler::TransformationRotate90)
            wanted.transpose(); // the reader scales before it turns
        reader.setScaledSize(wanted.expandedTo({1, 1}));
    }
    return reader.read().convertToFormat(QImage::Format_RGB32);
}

std::vector<QString> title_lines(const QString& title, double width) {
    constexpr std::size_t kMost = 4;
    return lines_of(title, type::kTable.as(Face::Bold), width, kMost);
}

struct Photo {
    Id id = 0;
    QString title;
    QStringList below;
};

void draw_photo(QPainter& painter, const QRectF& box, const Project& project, const Photo& photo) {
    const QRectF room(box.left(), box.top(), box.width(), box.width() * kShape);
    const QImage image = scaled_picture(project, photo.id, room.size());
    if (image.isNull()) {
        painter.fillRect(room, QColor::fromRgb(ink::kCard));
        draw_at(painter, room.center(), Report::tr("This picture cannot be read."), type::kSmall, Qt::AlignHCenter);
    } else {
        const QSizeF size = QSizeF(image.size()).scaled(room.size(), Qt::KeepAspectRatio);
        painter.drawImage(QRectF(QPointF(room.left(), room.bottom() - size.height()), size), image);
    }
    double top = room.bottom() + 4.0;
    for (const QString& line : title_lines(photo.title, box.width())) {
        draw_line(painter, {box.left(), top, box.width(), 0.0}, line, type::kTable.as(Face::Bold));
        top += type::kTable.leading;
    }
    for (const QString& line : photo.below) {
        draw_line(painter, {box.left(), top, box.width(), 0.0}, line, type::kSmall);
        top += type::kSmall.leading;
    }
}

double height_of(const Photo& photo, double width) {
    return width * kShape + 4.0 + type::kTable.leading * static_cast<double>(title_lines(photo.title, width).size()) +
           type::kSmall.leading * static_cast<double>(photo.below.size());
}

Photo photo_of(const Context& context, const Booked<PhotoRow>& row) {
    Photo photo{row.row.id, text_of(row.row.title), {}};
    QStringList where;
    for (const Project::PhotoLink& link : context.survey.photo_links)
        if (link.photo_id == row.row.id)
            if (const StationRow* station = context.survey.station(link.station_id))
                where.append(text_of(station->name));
    if (row.row.direction_deg)
        where.append(Report::tr("looking %1°").arg(qRound(*row.row.direction_deg)));
    if (!where.isEmpty())
        photo.below.append(where.join(QStringLiteral(" · ")));
    QStringList when{Wording::when(row.row.observed_at)};
    if (row.row.latitude_deg && row.row.longitude_deg)
        when.append(QStringLiteral("%1, %2").arg(context.wording.value(row.row.latitude_deg, Quantity::Coordinate),
                                                 context.wording.value(row.row.longitude_deg, Quantity::Coordinate)));
    else
        when.append(Report::tr("position not known"));
    photo.below.append(when.join(QStringLiteral(" · ")));
    return photo;
}

} // namespace

void photos_section(const Context& context, Galley& galley) {
    std::vector<Photo> photos;
    for (const Booked<PhotoRow>& one : context.survey.photos)
        if (!one.struck)
            photos.push_back(photo_of(context, one));
    if (photos.empty())
        return;
    galley.chapter(Report::tr("Photos"));
    const double width = 0.5 * (galley.width() - kGap);
    for (std::size_t i = 0; i < photos.size(); i += 2) {
        const std::vector<Photo> pair(photos.begin() + static_cast<std::ptrdiff_t>(i),
                                      photos.begin() + static_cast<std::ptrdiff_t>(std::min(i + 2, photos.size())));
        double height = 0.0;
        for (const Photo& one : pair)
            height = std::max(height, height_of(one, width));
        galley.figure(
            height,
            [pair, width, &project = context.project](QPainter& painter, const QRectF& box) {
                for (std::size_t side = 0; side < pair.size(); ++side)
                    draw_photo(
                        painter,
                        {box.left() + static_cast<double>(side) * (width + kGap), box.top(), width, box.height()},
                        project, pair[side]);
            },
            14.0);
    }
}

} // namespace rillmark::report
