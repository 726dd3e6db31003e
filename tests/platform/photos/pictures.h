// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QBuffer>
#include <QImage>

#include <exiv2/exiv2.hpp>

#include <algorithm>
#include <functional>
#include <random>
#include <span>
#include <vector>

/// Pictures for the tests, made on the spot.
namespace rillmark::pictures {

using Bytes = std::vector<unsigned char>;

inline Bytes encoded(const QImage& image, const char* format, int quality = 90) {
    QBuffer out;
    out.open(QIODevice::WriteOnly);
    image.save(&out, format, quality);
    return {out.data().begin(), out.data().end()};
}

/// Left half red, right half blue, so that a turn of the picture shows.
inline QImage red_and_blue(int width, int height) {
    QImage image(width, height, QImage::Format_RGB32);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            image.setPixelColor(x, y, x < width / 2 ? Qt::red : Qt::blue);
    return image;
}

/// Noise over a gradient, so that the encoded picture is about as large as a camera's.
inline QImage like_a_photo(int width, int height) {
    std::mt19937 random(20260713);
    QImage image(width, height, QImage::Format_RGB32);
    for (int y = 0; y < height; ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < width; ++x) {
            const auto noise = static_cast<int>(random() % 24);
            line[x] = qRgb(x * 200 / width + noise, y * 200 / height + noise, 80 + noise);
        }
    }
    return image;
}

inline QImage decoded(const Bytes& bytes) {
    return QImage::fromData(bytes.data(), static_cast<int>(bytes.size()));
}

/// The picture after its EXIF block was edited with the library itself.
inline Bytes with_exif(const Bytes& bytes, const std::function<void(Exiv2::ExifData&)>& edit) {
    auto image = Exiv2::ImageFactory::open(bytes.data(), static_cast<long>(bytes.size()));
    image->readMetadata();
    edit(image->exifData());
    image->writeMetadata();
    Bytes out(static_cast<std::size_t>(image->io().size()));
    image->io().open();
    image->io().read(out.data(), static_cast<long>(out.size()));
    return out;
}

inline Exiv2::ExifData exif_of(const Bytes& bytes) {
    auto image = Exiv2::ImageFactory::open(bytes.data(), static_cast<long>(bytes.size()));
    image->readMetadata();
    return image->exifData();
}

/// What follows the first start-of-scan marker: the pixels as encoded.
inline Bytes pixels_as_encoded(const Bytes& jpeg) {
    const Bytes scan{0xFF, 0xDA};
    return {std::find_end(jpeg.begin(), jpeg.end(), scan.begin(), scan.end()), jpeg.end()};
}

} // namespace rillmark::pictures
