// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/foreign_geometry.h"

#include <array>
#include <bit>
#include <cmath>

namespace rillmark {

namespace {

constexpr int kDeepestCollection = 8;
constexpr std::size_t kForeignHeader_bytes = 8;
constexpr std::array<std::size_t, 5> kForeignEnvelope_bytes = {0, 32, 48, 48, 64};

enum WkbType : std::uint32_t {
    kPoint = 1,
    kLine = 2,
    kPolygon = 3,
    kMultiPoint = 4,
    kMultiLine = 5,
    kMultiPolygon = 6,
    kCollection = 7
};

/// Reads WKB from the front to the back; `ok` turns false at the first thing that is wrong.
class WkbReader {
public:
    explicit WkbReader(std::span<const unsigned char> bytes) : m_bytes(bytes) {}

    bool ok = true;

    void geometry(std::vector<ForeignShape>& shapes, int depth) {
        const unsigned char order = byte();
        m_little = order == 1;
        const std::uint32_t written = number<std::uint32_t>();
        constexpr std::uint32_t kOldZ = 0x80000000U;
        constexpr std::uint32_t kOldM = 0x40000000U;
        const std::uint32_t plain = written & ~(kOldZ | kOldM);
        const std::uint32_t thousands = plain / 1000;
        m_z = (written & kOldZ) != 0 || thousands == 1 || thousands == 3;
        m_m = (written & kOldM) != 0 || thousands == 2 || thousands == 3;
        const std::uint32_t type = plain % 1000;
        if (!ok || order > 1 || thousands > 3 || type < kPoint || type > kCollection || depth > kDeepestCollection) {
            ok = false;
            return;
        }
        if (type >= kMultiPoint)
            return members(type, shapes, depth);
        ForeignShape shape;
        shape.shape = type == kPoint ? ImportShape::Point : type == kLine ? ImportShape::Line : ImportShape::Area;
        if (type == kPoint)
            point(shape);
        else if (type == kLine)
            shape.parts.push_back(vertices());
        else
            rings(shape);
        std::erase_if(shape.parts, [](const auto& part) { return part.empty(); });
        if (ok && !shape.parts.empty())
            shapes.push_back(std::move(shape));
    }

    [[nodiscard]] bool at_end() const { return m_at == m_bytes.size(); }

private:
    std::span<const unsigned char> m_bytes;
    std::size_t m_at = 0;
    bool m_little = true;
    bool m_z = false;
    bool m_m = false;

    unsigned char byte() {
        if (m_at >= m_bytes.size()) {
            ok = false;
            return 0;
        }
        return m_bytes[m_at++];
    }

    template <class Unsigned>
    Unsigned number() {
        if (m_bytes.size() - m_at < sizeof(Unsigned)) {
            ok = false;
            return 0;
        }
        Unsigned value = 0;
        for (std::size_t i = 0; i < sizeof(Unsigned); ++i) {
            const std::size_t place = m_little ? i : sizeof(Unsigned) - 1 - i;
            value |= static_cast<Unsigned>(m_bytes[m_at + i]) << (8U * place);
        }
        m_at += sizeof(Unsigned);
        return value;
    }

    double real() { return std::bit_cast<double>(number<std::uint64_t>()); }

    ForeignVertex vertex() {
        ForeignVertex one{real(), real(), {}};
        if (m_z)
            one.z = real();
        if (m_m)
            static_cast<void>(real());
        if (one.z && !std::isfinite(*one.z))
            one.z.reset();
        return one;
    }

    /// How many follow, each of `least` bytes or more; a count that cannot be is wrong.
    std::size_t count(std::size_t least) {
        const auto many = static_cast<std::size_t>(number<std::uint32_t>());
        if (!ok || many > (m_bytes.size() - m_at) / least) {
            ok = false;
            return 0;
        }
        return many;
    }

    void point(ForeignShape& shape) {
        const ForeignVertex one = vertex();
        if (std::isnan(one.x) && std::isnan(one.y)) // how an empty point is written
            return;
        ok = ok && std::isfinite(one.x) && std::isfinite(one.y);
        shape.parts.push_back({one});
    }

    std::vector<ForeignVertex> vertices() {
        const std::size_t size = 8U * (2U + (m_z ? 1U : 0U) + (m_m ? 1U : 0U));
        const std::size_t many = count(size);
        std::vector<ForeignVertex> list;
        list.reserve(many);
        for (std::size_t i = 0; i < many && ok; ++i) {
            list.push_back(vertex());
            ok = ok && std::isfinite(list.back().x) && std::isfinite(list.back().y);
        }
        return list;
    }

    void rings(ForeignShape& shape) {
        constexpr std::size_t kLeastRing_bytes = 4;
        const std::size_t many = count(kLeastRing_bytes);
        for (std::size_t i = 0; i < many && ok; ++i)
            shape.parts.push_back(vertices());
    }

    void members(std::uint32_t type, std::vector<ForeignShape>& shapes, int depth) {
        constexpr std::size_t kLeastMember_bytes = 9;
        const std::size_t many = count(kLeastMember_bytes);
        std::vector<ForeignShape> inside;
        for (std::size_t i = 0; i < many && ok; ++i)
            geometry(inside, depth + 1);
        if (type == kMultiLine && !inside.empty()) { // the pieces of one line stay together
            ForeignShape line{ImportShape::Line, {}};
            for (ForeignShape& one : inside)
                for (std::vector<ForeignVertex>& part : one.parts)
                    line.parts.push_back(std::move(part));
            inside.assign(1, std::move(line));
        }
        for (ForeignShape& one : inside)
            shapes.push_back(std::move(one));
    }
};

} // namespace

std::optional<ForeignGeometry> read_foreign_geometry(std::span<const unsigned char> blob) {
    if (blob.size() < kForeignHeader_bytes || blob[0] != 'G' || blob[1] != 'P' || blob[2] != 0)
        return std::nullopt;
    const unsigned char flags = blob[3];
    const std::size_t envelope = (flags >> 1U) & 7U;
    const bool extended = (flags & 0x20U) != 0;
    if (envelope >= kForeignEnvelope_bytes.size() || extended ||
        blob.size() < kForeignHeader_bytes + kForeignEnvelope_bytes[envelope])
        return std::nullopt;
    ForeignGeometry geometry;
    std::uint32_t system = 0;
    for (std::size_t i = 0; i < 4; ++i)
        system |= static_cast<std::uint32_t>(blob[4 + i]) << (8U * ((flags & 1U) != 0 ? i : 3 - i));
    geometry.srs_id = static_cast<std::int32_t>(system);
    WkbReader reader(blob.subspan(kForeignHeader_bytes + kForeignEnvelope_bytes[envelope]));
    reader.geometry(geometry.shapes, 0);
    if (!reader.ok || !reader.at_end())
        return std::nullopt;
    return geometry;
}

} // namespace rillmark
