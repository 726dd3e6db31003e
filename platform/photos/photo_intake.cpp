// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/photo_intake.h"

#include "photos/photo_exif.h"

#include <QBuffer>
#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

namespace rillmark {

namespace {

using Bytes = std::span<const unsigned char>;

constexpr std::int64_t kBytesPerMiB = std::int64_t{1024} * 1024;
constexpr double kPixelsPerMegapixel = 1e6;
constexpr int kThumbnailQuality = 80; // of 100; our choice

struct JpegShape {
    bool whole = false; // its end marker was reached
    bool progressive = false;
    int scans = 0;
};

// Walks the markers of a JPEG (ITU-T T.81, annex B), because the decoder fills what is missing with grey and is
// content.
JpegShape walk_jpeg(Bytes bytes) {
    JpegShape shape;
    std::size_t at = 2;
    while (at + 1 < bytes.size()) {
        const void* found = std::memchr(bytes.data() + at, 0xFF, bytes.size() - at - 1);
        if (found == nullptr)
            return shape;
        at = static_cast<std::size_t>(static_cast<const unsigned char*>(found) - bytes.data()) + 1;
        const unsigned char marker = bytes[at];
        if (marker == 0xFF) // fill byte: the marker is still to come
            continue;
        ++at;
        if (marker == 0xD9) { // end of image
            shape.whole = true;
            return shape;
        }
        if (marker <= 0x01 || (marker >= 0xD0 && marker <= 0xD8)) // data, restart, start: no length follows
            continue;
        shape.progressive |= marker == 0xC2 || marker == 0xC6 || marker == 0xCA || marker == 0xCE;
        shape.scans += marker == 0xDA ? 1 : 0;
        if (at + 2 > bytes.size())
            return shape;
        at += std::max<std::size_t>(2, static_cast<std::size_t>(bytes[at]) * 256 + bytes[at + 1]);
    }
    return shape;
}

bool starts_with(Bytes bytes, std::initializer_list<unsigned char> signature) {
    return bytes.size() >= signature.size() && std::equal(signature.begin(), signature.end(), bytes.begin());
}

Finding too_many_bytes(const std::string& where, std::int64_t bytes) {
    return refusal(
        "photo.too_many_bytes", where,
        {{"size_MiB", (bytes + kBytesPerMiB - 1) / kBytesPerMiB}, {"limit_MiB", kMaxPhoto_bytes / kBytesPerMiB}});
}

Expected<void> check_pixels(QSize size, std::int64_t limit, const std::string& where) {
    const std::int64_t pixels = std::int64_t{size.width()} * size.height();
    if (pixels > limit)
        return refusal("photo.too_many_pixels", where,
                       {{"width", std::int64_t{size.width()}},
                        {"height", std::int64_t{size.height()}},
                        {"limit_megapixel", static_cast<double>(limit) / kPixelsPerMegapixel}});
    return {};
}

std::vector<unsigned char> encoded_thumbnail(const QImage& image) {
    QImage opaque(image.size(), QImage::Format_RGB32);
    opaque.fill(Qt::white); // what shows through a transparent picture
    QPainter(&opaque).drawImage(0, 0, image);
    QBuffer out;
    out.open(QIODevice::WriteOnly);
    opaque.save(&out, "JPEG", kThumbnailQuality);
    return {out.data().begin(), out.data().end()};
}

// Decoding at the small size is what makes it quick: a JPEG is read at an eighth of its size.
Expected<std::vector<unsigned char>> thumbnail_of(Bytes picture, const char* format, const std::string& where) {
    QByteArray data =
        QByteArray::fromRawData(reinterpret_cast<const char*>(picture.data()), static_cast<qsizetype>(picture.size()));
    const bool jpeg = qstrcmp(format, "jpeg") == 0;
    const JpegShape shape = jpeg ? walk_jpeg(picture) : JpegShape{.whole = true};
    const std::int64_t limit = !jpeg ? kMaxPng_pixels : shape.progressive ? kMaxProgressive_pixels : kMaxPhoto_pixels;
    if (!shape.whole)
        return refusal("photo.cut_short", where);
    if (shape.scans > kMaxScans)
        return refusal("photo.too_many_scans", where, {{"limit", std::int64_t{kMaxScans}}});
    QBuffer buffer(&data);
    buffer.open(QIODevice::ReadOnly);
    QImageReader reader(&buffer, format);
    reader.setAutoDetectImageFormat(false);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isEmpty())
        return refusal("photo.damaged", where);
    if (const auto fits = check_pixels(size, limit, where); !fits)
        return fits.error();
    if (std::max(size.width(), size.height()) > kThumbnail_px)
        reader.setScaledSize(size.scaled(kThumbnail_px, kThumbnail_px, Qt::KeepAspectRatio).expandedTo({1, 1}));
    const QImage image = reader.read();
    if (image.isNull())
        return refusal("photo.damaged", where);
    return encoded_thumbnail(image);
}

bool within(const std::optional<double>& value, double limit) {
    return value && std::abs(*value) <= limit; // false for NaN as well
}

ExifFacts facts_of(const PhotoContext& context) {
    ExifFacts facts;
    if (within(context.latitude_deg, 90.0) && within(context.longitude_deg, 180.0)) {
        facts.latitude_deg = context.latitude_deg;
        facts.longitude_deg = context.longitude_deg;
        // The bounds of a height are wide: they only keep it within what an EXIF fraction can hold.
        if (within(context.height_msl_m, 100'000.0))
            facts.height_msl_m = context.height_msl_m;
    }
    if (context.direction_deg && std::isfinite(*context.direction_deg)) {
        const double turn_deg = std::fmod(*context.direction_deg, 360.0);
        facts.direction_deg = turn_deg < 0.0 ? turn_deg + 360.0 : turn_deg;
    }
    const QDateTime time = QDateTime::fromString(QString::fromStdString(context.time_utc), Qt::ISODateWithMs);
    if (time.isValid())
        facts.time_utc = time.toUTC().toString(Qt::ISODateWithMs).toStdString();
    return facts;
}

PhotoRow row_of(const PhotoContext& context, const ExifFacts& ours, const ExifFacts& exif) {
    PhotoRow row;
    row.title = context.title;
    row.source = context.source;
    const ExifFacts& place = ours.latitude_deg ? ours : exif;
    row.latitude_deg = place.latitude_deg;
    row.longitude_deg = place.longitude_deg;
    row.direction_deg = ours.direction_deg ? ours.direction_deg : exif.direction_deg;
    row.observed_at = ours.time_utc.empty() ? exif.time_utc : ours.time_utc;
    return row;
}

Expected<PhotoData> prepare(Bytes picture, const PhotoContext& context, const std::string& where) {
    if (picture.empty())
        return refusal("photo.empty", where);
    const auto size = static_cast<std::int64_t>(picture.size());
    if (size > kMaxPhoto_bytes)
        return too_many_bytes(where, size);
    const bool jpeg = starts_with(picture, {0xFF, 0xD8, 0xFF});
    if (!jpeg && !starts_with(picture, {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}))
        return refusal("photo.not_a_picture", where);
    auto thumbnail = thumbnail_of(picture, jpeg ? "jpeg" : "png", where);
    if (!thumbnail)
        return thumbnail.error();
    const ExifFacts ours = facts_of(context);
    PhotoData photo;
    photo.row = row_of(context, ours, read_exif(picture));
    photo.row.content_type = jpeg ? "image/jpeg" : "image/png";
    photo.picture = with_missing_exif(picture, ours);
    photo.thumbnail = std::move(*thumbnail);
    return photo;
}

} // namespace

Expected<PhotoData> prepare_photo(Bytes picture, const PhotoContext& context) {
    return prepare(picture, context, context.title);
}

Expected<PhotoData> prepare_photo(const QString& file, const PhotoContext& context) {
    const std::string name = file.toStdString();
    // Opening a pipe or a device would wait for ever; a content address has no file information.
    const bool content_address = file.startsWith(QLatin1String("content:"));
    QFile in(file);
    if ((!content_address && !QFileInfo(file).isFile()) || !in.open(QIODevice::ReadOnly))
        return refusal("photo.unreadable_file", name);
    const QByteArray bytes = in.read(kMaxPhoto_bytes + 1);
    if (in.error() != QFileDevice::NoError)
        return refusal("photo.unreadable_file", name);
    if (bytes.size() > kMaxPhoto_bytes)
        return too_many_bytes(name, std::max<std::int64_t>(in.size(), bytes.size()));
    return prepare({reinterpret_cast<const unsigned char*>(bytes.constData()), static_cast<std::size_t>(bytes.size())},
                   context, name);
}

} // namespace rillmark
