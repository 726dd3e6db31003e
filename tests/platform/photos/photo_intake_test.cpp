// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/photo_intake.h"

#include "pictures.h"
#include "words/words.h"

#include <QFile>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <limits>

namespace rillmark {
namespace {

using pictures::Bytes;

PhotoContext at_the_intake() {
    return {.latitude_deg = -33.856784,
            .longitude_deg = 151.215297,
            .height_msl_m = 123.456,
            .direction_deg = 271.25,
            .time_utc = "2026-05-04T03:02:01.500Z",
            .title = "Intake",
            .source = "camera"};
}

QString written(const QTemporaryDir& folder, const QString& name, const Bytes& bytes) {
    QFile file(folder.filePath(name));
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<qint64>(bytes.size()));
    return file.fileName();
}

std::string code_of(const Expected<PhotoData>& outcome) {
    return outcome ? "no refusal" : outcome.error().code;
}

TEST(PhotoIntake, WritesPositionDirectionAndTimeWhereTheyAreAbsent) {
    const Bytes before = pictures::encoded(pictures::red_and_blue(640, 480), "JPEG");
    const auto photo = prepare_photo(before, at_the_intake());
    ASSERT_TRUE(photo) << photo.error().code;
    EXPECT_EQ(photo->row.title, "Intake");
    EXPECT_EQ(photo->row.source, "camera");
    EXPECT_EQ(photo->row.content_type, "image/jpeg");
    EXPECT_EQ(photo->row.observed_at, "2026-05-04T03:02:01.500Z");

    const Exiv2::ExifData exif = pictures::exif_of(photo->picture);
    const auto text = [&exif](const char* key) {
        const auto at = exif.findKey(Exiv2::ExifKey(key));
        return at == exif.end() ? std::string("absent") : at->toString();
    };
    // 33.856784 deg = 33 deg 51' 24.4224"; 151.215297 deg = 151 deg 12' 55.0692": by hand.
    EXPECT_EQ(text("Exif.GPSInfo.GPSLatitudeRef"), "S");
    EXPECT_EQ(text("Exif.GPSInfo.GPSLatitude"), "33/1 51/1 2442240/100000");
    EXPECT_EQ(text("Exif.GPSInfo.GPSLongitudeRef"), "E");
    EXPECT_EQ(text("Exif.GPSInfo.GPSLongitude"), "151/1 12/1 5506920/100000");
    EXPECT_EQ(text("Exif.GPSInfo.GPSAltitude"), "123456/1000");
    EXPECT_EQ(text("Exif.GPSInfo.GPSImgDirectionRef"), "T");
    EXPECT_EQ(text("Exif.GPSInfo.GPSImgDirection"), "27125/100");
    EXPECT_EQ(text("Exif.Photo.DateTimeOriginal"), "2026:05:04 03:02:01");
    EXPECT_EQ(text("Exif.Photo.OffsetTimeOriginal"), "+00:00");
}

TEST(PhotoIntake, TheExiv2CommandReadsTheSame) {
    const QString command = QStandardPaths::findExecutable(QStringLiteral("exiv2"));
    if (command.isEmpty())
        GTEST_SKIP() << "the exiv2 command is not installed";
    const auto photo = prepare_photo(pictures::encoded(pictures::red_and_blue(64, 48), "JPEG"), at_the_intake());
    ASSERT_TRUE(photo);
    const QTemporaryDir folder;
    QProcess process;
    process.start(command, {QStringLiteral("-PEkt"), written(folder, QStringLiteral("photo.jpg"), photo->picture)});
    ASSERT_TRUE(process.waitForFinished());
    const QString said = QString::fromUtf8(process.readAllStandardOutput()).simplified();
    EXPECT_TRUE(said.contains(QStringLiteral("GPSLatitudeRef South"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("GPSLatitude 33deg 51' 24"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("GPSLongitude 151deg 12' 55"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("DateTimeOriginal 2026:05:04 03:02:01"))) << said.toStdString();
}

TEST(PhotoIntake, NeverTouchesThePixels) {
    for (const char* format : {"JPEG", "PNG"}) {
        const Bytes before = pictures::encoded(pictures::like_a_photo(400, 300), format);
        const auto photo = prepare_photo(before, at_the_intake());
        ASSERT_TRUE(photo) << format;
        EXPECT_NE(photo->picture, before) << format;
        EXPECT_EQ(pictures::decoded(photo->picture), pictures::decoded(before)) << format;
    }
    const Bytes before = pictures::encoded(pictures::like_a_photo(400, 300), "JPEG");
    const auto photo = prepare_photo(before, at_the_intake());
    ASSERT_TRUE(photo);
    EXPECT_EQ(pictures::pixels_as_encoded(photo->picture), pictures::pixels_as_encoded(before));
}

TEST(PhotoIntake, WithoutAContextThePictureStaysByteForByte) {
    const Bytes before = pictures::encoded(pictures::red_and_blue(64, 48), "JPEG");
    const auto photo = prepare_photo(before, PhotoContext{});
    ASSERT_TRUE(photo);
    EXPECT_EQ(photo->picture, before);
    EXPECT_FALSE(photo->row.latitude_deg || photo->row.longitude_deg || photo->row.direction_deg);
    EXPECT_EQ(photo->row.observed_at, "");
}

TEST(PhotoIntake, WhatItWroteItReadsBack) {
    std::mt19937 random(4711);
    std::uniform_real_distribution<double> latitude(-90.0, 90.0), longitude(-180.0, 180.0), direction(0.0, 359.99);
    const Bytes plain = pictures::encoded(pictures::red_and_blue(16, 16), "JPEG");
    for (int i = 0; i < 200; ++i) {
        PhotoContext context{.latitude_deg = latitude(random),
                             .longitude_deg = longitude(random),
                             .direction_deg = direction(random),
                             .time_utc = "2025-02-28T23:59:59.000Z"};
        const auto photo = prepare_photo(plain, context);
        ASSERT_TRUE(photo);
        const auto again = prepare_photo(photo->picture, PhotoContext{});
        ASSERT_TRUE(again);
        ASSERT_TRUE(again->row.latitude_deg && again->row.longitude_deg && again->row.direction_deg);
        // Half a step of 1e-5 arc second.
        EXPECT_NEAR(*again->row.latitude_deg, *context.latitude_deg, 0.51e-5 / 3600.0);
        EXPECT_NEAR(*again->row.longitude_deg, *context.longitude_deg, 0.51e-5 / 3600.0);
        EXPECT_NEAR(*again->row.direction_deg, *context.direction_deg, 0.0051);
        EXPECT_EQ(again->row.observed_at, context.time_utc);
    }
}

TEST(PhotoIntake, ASecondNeverReachesSixty) {
    const Bytes plain = pictures::encoded(pictures::red_and_blue(16, 16), "JPEG");
    const auto photo = prepare_photo(plain, {.latitude_deg = 45.0 - 1e-13, .longitude_deg = -180.0});
    ASSERT_TRUE(photo);
    const Exiv2::ExifData exif = pictures::exif_of(photo->picture);
    EXPECT_EQ(exif.findKey(Exiv2::ExifKey("Exif.GPSInfo.GPSLatitude"))->toString(), "45/1 0/1 0/100000");
    EXPECT_EQ(exif.findKey(Exiv2::ExifKey("Exif.GPSInfo.GPSLongitudeRef"))->toString(), "W");
}

TEST(PhotoIntake, KeepsWhatThePictureSaysOfItself) {
    const Bytes plain = pictures::encoded(pictures::red_and_blue(16, 16), "JPEG");
    const auto first = prepare_photo(plain, at_the_intake());
    ASSERT_TRUE(first);
    const auto again = prepare_photo(
        first->picture,
        {.latitude_deg = 10.0, .longitude_deg = 20.0, .direction_deg = 30.0, .time_utc = "2030-01-01T00:00:00.000Z"});
    ASSERT_TRUE(again);
    EXPECT_EQ(again->picture, first->picture);
    EXPECT_EQ(again->row.latitude_deg, 10.0); // the row goes by our own context
    EXPECT_EQ(again->row.observed_at, "2030-01-01T00:00:00.000Z");
}

TEST(PhotoIntake, ReadsTheTimeWithItsOffset) {
    const Bytes bytes = pictures::with_exif(pictures::encoded(pictures::red_and_blue(16, 16), "JPEG"), [](auto& exif) {
        exif["Exif.Photo.DateTimeOriginal"] = std::string("2026:01:01 00:30:00");
        exif["Exif.Photo.OffsetTimeOriginal"] = std::string("+02:00");
    });
    const auto photo = prepare_photo(bytes, PhotoContext{});
    ASSERT_TRUE(photo);
    EXPECT_EQ(photo->row.observed_at, "2025-12-31T22:30:00.000Z");
}

TEST(PhotoIntake, DoesNotBelieveImpossibleExif) {
    using Edit = void (*)(Exiv2::ExifData&);
    const Edit edits[] = {
        [](Exiv2::ExifData& e) { // no fix
            e["Exif.GPSInfo.GPSLatitude"] = std::string("0/1 0/1 0/1");
            e["Exif.GPSInfo.GPSLongitude"] = std::string("0/1 0/1 0/1");
        },
        [](Exiv2::ExifData& e) { // beyond the pole
            e["Exif.GPSInfo.GPSLatitude"] = std::string("91/1 0/1 0/1");
            e["Exif.GPSInfo.GPSLongitude"] = std::string("5/1 0/1 0/1");
        },
        [](Exiv2::ExifData& e) { // over zero
            e["Exif.GPSInfo.GPSLatitude"] = std::string("45/0 0/1 0/1");
            e["Exif.GPSInfo.GPSLongitude"] = std::string("5/1 0/1 0/1");
        },
        [](Exiv2::ExifData& e) { e["Exif.GPSInfo.GPSLatitude"] = std::string("45/1 0/1 0/1"); }, // half of it
    };
    for (const Edit edit : edits) {
        const Bytes bytes =
            pictures::with_exif(pictures::encoded(pictures::red_and_blue(16, 16), "JPEG"), [edit](auto& exif) {
                edit(exif);
                exif["Exif.GPSInfo.GPSLatitudeRef"] = std::string("N");
                exif["Exif.GPSInfo.GPSLongitudeRef"] = std::string("E");
                exif["Exif.GPSInfo.GPSImgDirection"] = std::string("90/1");
                exif["Exif.GPSInfo.GPSImgDirectionRef"] = std::string("M"); // magnetic
                exif["Exif.Photo.DateTimeOriginal"] = std::string("0000:00:00 00:00:00");
            });
        const auto photo = prepare_photo(bytes, PhotoContext{});
        ASSERT_TRUE(photo);
        EXPECT_FALSE(photo->row.latitude_deg || photo->row.longitude_deg);
        EXPECT_FALSE(photo->row.direction_deg);
        EXPECT_EQ(photo->row.observed_at, "");
    }
}

TEST(PhotoIntake, AContextOutOfItsRangeCountsAsUnknown) {
    const Bytes plain = pictures::encoded(pictures::red_and_blue(16, 16), "JPEG");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const PhotoContext& bad :
         {PhotoContext{.latitude_deg = nan, .longitude_deg = 5.0},
          PhotoContext{.latitude_deg = 5.0, .longitude_deg = 181.0},
          PhotoContext{.latitude_deg = inf, .longitude_deg = 5.0, .direction_deg = inf},
          PhotoContext{.latitude_deg = 5.0}, PhotoContext{.direction_deg = nan, .time_utc = "yesterday"}}) {
        const auto photo = prepare_photo(plain, bad);
        ASSERT_TRUE(photo);
        EXPECT_EQ(photo->picture, plain);
        EXPECT_FALSE(photo->row.latitude_deg || photo->row.longitude_deg || photo->row.direction_deg);
        EXPECT_EQ(photo->row.observed_at, "");
    }
    const auto turned = prepare_photo(plain, {.direction_deg = -90.0});
    ASSERT_TRUE(turned);
    EXPECT_EQ(turned->row.direction_deg, 270.0);
}

TEST(PhotoIntake, TheThumbnailIsSmallAndInProportion) {
    const auto photo = prepare_photo(pictures::encoded(pictures::red_and_blue(1600, 1200), "JPEG"), PhotoContext{});
    ASSERT_TRUE(photo);
    EXPECT_EQ(pictures::decoded(photo->thumbnail).size(), QSize(320, 240));
    const auto tiny = prepare_photo(pictures::encoded(pictures::red_and_blue(40, 20), "PNG"), PhotoContext{});
    ASSERT_TRUE(tiny);
    EXPECT_EQ(pictures::decoded(tiny->thumbnail).size(), QSize(40, 20));
    const auto strip = prepare_photo(pictures::encoded(pictures::red_and_blue(4000, 2), "PNG"), PhotoContext{});
    ASSERT_TRUE(strip);
    EXPECT_EQ(pictures::decoded(strip->thumbnail).size(), QSize(320, 1));
}

TEST(PhotoIntake, TheThumbnailStandsUpright) {
    const Bytes plain = pictures::encoded(pictures::red_and_blue(640, 480), "JPEG");
    const struct {
        const char* orientation;
        QSize size;
        QPoint red; // a point that must be red, and below the one that must be blue
        QPoint blue;
    } cases[] = {{"1", {320, 240}, {40, 120}, {280, 120}},
                 {"3", {320, 240}, {280, 120}, {40, 120}},
                 {"6", {240, 320}, {120, 40}, {120, 280}},
                 {"8", {240, 320}, {120, 280}, {120, 40}}};
    for (const auto& c : cases) {
        const Bytes bytes = pictures::with_exif(plain, [&c](auto& exif) {
            exif["Exif.Image.Orientation"] = static_cast<std::uint16_t>(std::stoi(c.orientation));
        });
        const auto photo = prepare_photo(bytes, at_the_intake());
        ASSERT_TRUE(photo);
        const QImage thumbnail = pictures::decoded(photo->thumbnail);
        ASSERT_EQ(thumbnail.size(), c.size) << c.orientation;
        EXPECT_GT(thumbnail.pixelColor(c.red).red(), 200) << c.orientation;
        EXPECT_GT(thumbnail.pixelColor(c.blue).blue(), 200) << c.orientation;
        // The picture itself keeps its mark and is turned by whoever shows it.
        EXPECT_EQ(pictures::exif_of(photo->picture).findKey(Exiv2::ExifKey("Exif.Image.Orientation"))->toString(),
                  c.orientation);
    }
}

TEST(PhotoIntake, WhatShowsThroughATransparentPngIsWhite) {
    QImage clear(64, 64, QImage::Format_ARGB32);
    clear.fill(Qt::transparent);
    const auto photo = prepare_photo(pictures::encoded(clear, "PNG"), PhotoContext{});
    ASSERT_TRUE(photo);
    EXPECT_EQ(photo->row.content_type, "image/png");
    EXPECT_EQ(pictures::decoded(photo->thumbnail).pixelColor(30, 30), QColor(Qt::white));
}

TEST(PhotoIntake, RefusesWhatIsNoPicture) {
    EXPECT_EQ(code_of(prepare_photo(Bytes{}, PhotoContext{})), "photo.empty");
    const std::string text = "Intake: 36 ft";
    EXPECT_EQ(code_of(prepare_photo(Bytes(text.begin(), text.end()), PhotoContext{})), "photo.not_a_picture");
    EXPECT_EQ(code_of(prepare_photo(pictures::encoded(pictures::red_and_blue(8, 8), "BMP"), PhotoContext{})),
              "photo.not_a_picture");
    EXPECT_EQ(code_of(prepare_photo(Bytes{0xFF, 0xD8, 0xFF}, PhotoContext{})), "photo.cut_short");
    EXPECT_EQ(code_of(prepare_photo(Bytes{0xFF, 0xD8, 0xFF, 0xD9}, PhotoContext{})), "photo.damaged");
    EXPECT_EQ(code_of(prepare_photo(Bytes(static_cast<std::size_t>(kMaxPhoto_bytes) + 1, 0xFF), PhotoContext{})),
              "photo.too_many_bytes");
}

TEST(PhotoIntake, RefusesAPictureCutAtAnyPlace) {
    for (const char* format : {"JPEG", "PNG"}) {
        const Bytes whole = pictures::encoded(pictures::like_a_photo(160, 120), format);
        ASSERT_TRUE(prepare_photo(whole, PhotoContext{}));
        // A PNG may miss its last twelve bytes, the end chunk: all its pixels are there.
        const std::size_t spare = format[0] == 'P' ? 12 : 0;
        for (std::size_t length = 1; length + spare < whole.size(); length += 97) {
            const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
            EXPECT_FALSE(prepare_photo(cut, PhotoContext{})) << format << " cut to " << length;
        }
    }
}

TEST(PhotoIntake, ACutPictureIsSaidToBeCut) {
    Bytes jpeg = pictures::encoded(pictures::like_a_photo(160, 120), "JPEG");
    jpeg.resize(jpeg.size() / 2);
    EXPECT_EQ(code_of(prepare_photo(jpeg, PhotoContext{})), "photo.cut_short");
}

TEST(PhotoIntake, TakesBytesAfterTheEndOfAJpeg) {
    Bytes jpeg = pictures::encoded(pictures::red_and_blue(64, 48), "JPEG");
    jpeg.insert(jpeg.end(), 5000, 0x00); // some cameras pad their files
    EXPECT_TRUE(prepare_photo(jpeg, at_the_intake()));
}

/// A small PNG whose header claims another size, with a checksum that agrees (ISO/IEC 15948, annex D).
Bytes claiming(std::uint32_t width, std::uint32_t height) {
    Bytes png = pictures::encoded(pictures::red_and_blue(64, 48), "PNG");
    const auto put = [&png](std::size_t at, std::uint32_t value) {
        for (std::size_t i = 0; i < 4; ++i)
            png[at + i] = static_cast<unsigned char>(value >> (24 - 8 * i));
    };
    put(16, width);
    put(20, height);
    std::uint32_t crc = 0xFFFFFFFFU;
    for (std::size_t at = 12; at < 29; ++at) {
        crc ^= png[at];
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc & 1U) != 0U ? 0xEDB88320U ^ (crc >> 1U) : crc >> 1U;
    }
    put(29, crc ^ 0xFFFFFFFFU);
    return png;
}

TEST(PhotoIntake, RefusesAHeaderThatClaimsAHugePicture) {
    Bytes jpeg = pictures::encoded(pictures::red_and_blue(64, 48), "JPEG");
    const Bytes frame{0xFF, 0xC0};
    const auto at = std::search(jpeg.begin(), jpeg.end(), frame.begin(), frame.end());
    ASSERT_NE(at, jpeg.end());
    std::fill(at + 5, at + 9, static_cast<unsigned char>(0xEA)); // height and width: 60138
    EXPECT_EQ(code_of(prepare_photo(jpeg, PhotoContext{})), "photo.too_many_pixels");

    EXPECT_EQ(code_of(prepare_photo(claiming(20000, 5000), PhotoContext{})), "photo.too_many_pixels");
    // Within the limit, but the data of twelve megapixels are not there.
    EXPECT_EQ(code_of(prepare_photo(claiming(4000, 3000), PhotoContext{})), "photo.damaged");
    EXPECT_TRUE(prepare_photo(claiming(64, 48), PhotoContext{}));
}

TEST(PhotoIntake, RefusesAJpegOfVeryManyScans) {
    Bytes jpeg{0xFF, 0xD8};
    for (int i = 0; i <= kMaxScans; ++i)
        jpeg.insert(jpeg.end(), {0xFF, 0xDA, 0x00, 0x02});
    jpeg.insert(jpeg.end(), {0xFF, 0xD9});
    EXPECT_EQ(code_of(prepare_photo(jpeg, PhotoContext{})), "photo.too_many_scans");
}

TEST(PhotoIntake, NoFlippedByteDoesMoreThanBeRefused) {
    std::mt19937 random(815);
    const auto base = prepare_photo(pictures::encoded(pictures::red_and_blue(48, 32), "JPEG"), at_the_intake());
    ASSERT_TRUE(base);
    int refused = 0;
    for (int i = 0; i < 1500; ++i) {
        Bytes bytes = base->picture;
        for (int flips = 0; flips < 3; ++flips)
            bytes[random() % bytes.size()] = static_cast<unsigned char>(random());
        const auto outcome = prepare_photo(bytes, at_the_intake());
        if (!outcome)
            ++refused;
        else
            EXPECT_FALSE(outcome->thumbnail.empty());
    }
    EXPECT_GT(refused, 0);
}

TEST(PhotoIntake, ReadsFilesAndNamesThoseItCannot) {
    const QTemporaryDir folder;
    const Bytes jpeg = pictures::encoded(pictures::red_and_blue(64, 48), "JPEG");
    EXPECT_TRUE(prepare_photo(written(folder, QStringLiteral("Intäke 1.jpg"), jpeg), at_the_intake()));
    const auto missing = prepare_photo(folder.filePath(QStringLiteral("missing.jpg")), at_the_intake());
    EXPECT_EQ(code_of(missing), "photo.unreadable_file");
    EXPECT_NE(missing.error().where.find("missing.jpg"), std::string::npos);
    EXPECT_EQ(code_of(prepare_photo(folder.path(), PhotoContext{})), "photo.unreadable_file");
    EXPECT_EQ(code_of(prepare_photo(QStringLiteral("/dev/zero"), PhotoContext{})), "photo.unreadable_file");
}

TEST(PhotoIntake, EveryRefusalHasItsWords) {
    for (const char* code : {"photo.empty", "photo.unreadable_file", "photo.too_many_bytes", "photo.not_a_picture",
                             "photo.cut_short", "photo.damaged", "photo.too_many_pixels", "photo.too_many_scans",
                             "photo.no_camera", "photo.camera_denied", "photo.camera_failed", "photo.camera_not_ready"})
        EXPECT_NE(words::find(code), nullptr) << code;
}

} // namespace
} // namespace rillmark
