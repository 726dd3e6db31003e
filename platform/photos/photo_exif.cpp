// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/photo_exif.h"

#include <QDateTime>
#include <QTimeZone>

#include <exiv2/exiv2.hpp>

#include <cmath>
#include <cstdint>
#include <mutex>

namespace rillmark {

namespace {

// The library keeps its XMP and message state in globals, so only one picture at a time goes through it.
std::mutex& library() {
    static std::mutex lock;
    return lock;
}

auto open_picture(std::span<const unsigned char> picture) {
    Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute); // a damaged block is no news for the person
    auto image = Exiv2::ImageFactory::open(picture.data(), static_cast<long>(picture.size()));
    image->readMetadata();
    return image;
}

std::string text_of(const Exiv2::ExifData& data, const char* key) {
    const auto at = data.findKey(Exiv2::ExifKey(key));
    return at == data.end() ? std::string() : at->toString();
}

std::optional<double> number_of(const Exiv2::Exifdatum& datum, long n) {
    if (n >= static_cast<long>(datum.count()))
        return std::nullopt;
    const Exiv2::Rational r = datum.toRational(n);
    if (r.second == 0)
        return std::nullopt;
    return static_cast<double>(r.first) / static_cast<double>(r.second);
}

std::optional<double> number_of(const Exiv2::ExifData& data, const char* key) {
    const auto at = data.findKey(Exiv2::ExifKey(key));
    return at == data.end() ? std::nullopt : number_of(*at, 0);
}

struct AngleKeys {
    const char* value;
    const char* reference;
    const char* negative; // the reference letter that makes the angle negative
    double limit_deg;
};
constexpr AngleKeys kLatitude{"Exif.GPSInfo.GPSLatitude", "Exif.GPSInfo.GPSLatitudeRef", "S", 90.0};
constexpr AngleKeys kLongitude{"Exif.GPSInfo.GPSLongitude", "Exif.GPSInfo.GPSLongitudeRef", "W", 180.0};

std::optional<double> angle_of(const Exiv2::ExifData& data, const AngleKeys& keys) {
    const auto at = data.findKey(Exiv2::ExifKey(keys.value));
    const std::string reference = text_of(data, keys.reference);
    if (at == data.end() || reference.empty())
        return std::nullopt;
    const auto degrees = number_of(*at, 0);
    if (!degrees)
        return std::nullopt;
    const double angle_deg =
        *degrees + number_of(*at, 1).value_or(0.0) / 60.0 + number_of(*at, 2).value_or(0.0) / 3600.0;
    if (!(angle_deg >= 0.0 && angle_deg <= keys.limit_deg))
        return std::nullopt;
    return reference.substr(0, 1) == keys.negative ? -angle_deg : angle_deg;
}

std::string iso(const QDateTime& time) {
    return time.isValid() ? time.toUTC().toString(Qt::ISODateWithMs).toStdString() : std::string();
}

QDateTime original_time(const Exiv2::ExifData& data) {
    return QDateTime::fromString(QString::fromStdString(text_of(data, "Exif.Photo.DateTimeOriginal")),
                                 QStringLiteral("yyyy:MM:dd HH:mm:ss"));
}

// "+02:00" as seconds east of UTC.
std::optional<int> offset_s(const std::string& text) {
    if (text.size() < 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':')
        return std::nullopt;
    const QTime clock = QTime::fromString(QString::fromStdString(text.substr(1, 5)), QStringLiteral("HH:mm"));
    if (!clock.isValid())
        return std::nullopt;
    const int seconds = QTime(0, 0).secsTo(clock);
    return text[0] == '-' ? -seconds : seconds;
}

std::string gps_time(const Exiv2::ExifData& data) {
    const QDate date = QDate::fromString(QString::fromStdString(text_of(data, "Exif.GPSInfo.GPSDateStamp")),
                                         QStringLiteral("yyyy:MM:dd"));
    const auto at = data.findKey(Exiv2::ExifKey("Exif.GPSInfo.GPSTimeStamp"));
    if (!date.isValid() || at == data.end())
        return {};
    const auto hours = number_of(*at, 0);
    const auto minutes = number_of(*at, 1);
    const auto seconds = number_of(*at, 2);
    if (!hours || !minutes || !seconds)
        return {};
    const double ms = (*hours * 3600.0 + *minutes * 60.0 + *seconds) * 1000.0;
    if (!(ms >= 0.0 && ms < 86'400'000.0))
        return {};
    return iso(QDateTime(date, QTime::fromMSecsSinceStartOfDay(static_cast<int>(ms)), Qt::UTC));
}

std::string time_of(const Exiv2::ExifData& data) {
    QDateTime original = original_time(data);
    if (const auto offset = offset_s(text_of(data, "Exif.Photo.OffsetTimeOriginal")); original.isValid() && offset) {
        original.setTimeSpec(Qt::UTC);
        return iso(original.addSecs(-*offset));
    }
    const std::string by_gps = gps_time(data);
    return by_gps.empty() ? iso(original) : by_gps;
}

bool lacks(const Exiv2::ExifData& data, const char* key) {
    return data.findKey(Exiv2::ExifKey(key)) == data.end();
}

Exiv2::URationalValue fractions(std::initializer_list<std::pair<double, std::uint32_t>> parts) {
    Exiv2::URationalValue value;
    for (const auto& [number, denominator] : parts)
        value.value_.emplace_back(static_cast<std::uint32_t>(std::llround(number * denominator)), denominator);
    return value;
}

void add_angle(Exiv2::ExifData& data, const AngleKeys& keys, double angle_deg) {
    constexpr std::uint32_t kSecondParts = 100'000;
    // Whole parts first, so that 59.999999" never becomes 60".
    const auto parts = static_cast<std::uint64_t>(std::llround(std::abs(angle_deg) * 3600.0 * kSecondParts));
    const std::uint64_t per_minute = std::uint64_t{60} * kSecondParts;
    const auto seconds = static_cast<double>(parts % per_minute) / kSecondParts;
    const Exiv2::URationalValue value = fractions({{static_cast<double>(parts / per_minute / 60), 1},
                                                   {static_cast<double>(parts / per_minute % 60), 1},
                                                   {seconds, kSecondParts}});
    data[keys.value].setValue(&value);
    const bool north_south = keys.negative[0] == 'S';
    data[keys.reference] = std::string(std::signbit(angle_deg) ? keys.negative : (north_south ? "N" : "E"));
}

void add_position(Exiv2::ExifData& data, const ExifFacts& facts) {
    data["Exif.GPSInfo.GPSVersionID"] = std::string("2 3 0 0");
    data["Exif.GPSInfo.GPSMapDatum"] = std::string("WGS-84");
    add_angle(data, kLatitude, *facts.latitude_deg);
    add_angle(data, kLongitude, *facts.longitude_deg);
    if (!facts.height_msl_m)
        return;
    const Exiv2::URationalValue height = fractions({{std::abs(*facts.height_msl_m), 1000}});
    data["Exif.GPSInfo.GPSAltitudeRef"] = std::string(*facts.height_msl_m < 0.0 ? "1" : "0");
    data["Exif.GPSInfo.GPSAltitude"].setValue(&height);
}

void add_time(Exiv2::ExifData& data, const QDateTime& utc) {
    data["Exif.Photo.DateTimeOriginal"] = utc.toString(QStringLiteral("yyyy:MM:dd HH:mm:ss")).toStdString();
    data["Exif.Photo.OffsetTimeOriginal"] = std::string("+00:00");
}

void add_missing(Exiv2::ExifData& data, const ExifFacts& facts) {
    const bool unplaced = lacks(data, kLatitude.value) && lacks(data, kLongitude.value);
    if (unplaced && facts.latitude_deg && facts.longitude_deg)
        add_position(data, facts);
    if (facts.direction_deg && lacks(data, "Exif.GPSInfo.GPSImgDirection")) {
        const Exiv2::URationalValue direction = fractions({{*facts.direction_deg, 100}});
        data["Exif.GPSInfo.GPSImgDirectionRef"] = std::string("T");
        data["Exif.GPSInfo.GPSImgDirection"].setValue(&direction);
    }
    const QDateTime time = QDateTime::fromString(QString::fromStdString(facts.time_utc), Qt::ISODateWithMs);
    if (time.isValid() && lacks(data, "Exif.Photo.DateTimeOriginal"))
        add_time(data, time.toUTC());
}

} // namespace

ExifFacts read_exif(std::span<const unsigned char> picture) {
    const std::lock_guard lock(library());
    ExifFacts facts;
    try {
        const auto image = open_picture(picture);
        const Exiv2::ExifData& data = image->exifData();
        const auto latitude = angle_of(data, kLatitude);
        const auto longitude = angle_of(data, kLongitude);
        // A camera without a fix writes 0/0.
        if (latitude && longitude && (*latitude != 0.0 || *longitude != 0.0)) {
            facts.latitude_deg = latitude;
            facts.longitude_deg = longitude;
            facts.height_msl_m = number_of(data, "Exif.GPSInfo.GPSAltitude");
            const auto below = data.findKey(Exiv2::ExifKey("Exif.GPSInfo.GPSAltitudeRef"));
            if (facts.height_msl_m && below != data.end() && below->toLong() == 1)
                facts.height_msl_m = -*facts.height_msl_m;
        }
        const auto direction = number_of(data, "Exif.GPSInfo.GPSImgDirection");
        const bool true_north = text_of(data, "Exif.GPSInfo.GPSImgDirectionRef").substr(0, 1) == "T";
        if (direction && true_north && *direction >= 0.0 && *direction <= 360.0)
            facts.direction_deg = std::fmod(*direction, 360.0);
        facts.time_utc = time_of(data);
    } catch (const std::exception&) {
        return {};
    }
    return facts;
}

std::vector<unsigned char> with_missing_exif(std::span<const unsigned char> picture, const ExifFacts& facts) {
    const std::lock_guard lock(library());
    try {
        const auto image = open_picture(picture);
        Exiv2::ExifData& data = image->exifData();
        const auto count_before = data.count();
        add_missing(data, facts);
        if (data.count() == count_before)
            return {picture.begin(), picture.end()};
        image->writeMetadata();
        Exiv2::BasicIo& io = image->io();
        std::vector<unsigned char> written(static_cast<std::size_t>(io.size()));
        if (io.open() == 0 &&
            io.read(written.data(), static_cast<long>(written.size())) == static_cast<long>(written.size()))
            return written;
    } catch (const std::exception&) {
        // The row of the photo carries the same facts; the picture is kept as it came.
    }
    return {picture.begin(), picture.end()};
}

} // namespace rillmark
