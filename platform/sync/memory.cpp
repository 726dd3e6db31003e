// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/memory.h"

#include <QCryptographicHash>
#include <QFile>
#include <QRandomGenerator>
#include <QSaveFile>

#include <algorithm>

namespace rillmark::sync {

namespace {

namespace fs = std::filesystem;
constexpr qint64 kMost_bytes = 100'000;

QString name_of(const fs::path& file) {
    return QString::fromStdU16String(file.u16string());
}

QByteArray read_file(const fs::path& path) {
    QFile file(name_of(path));
    return file.open(QIODevice::ReadOnly) ? file.read(kMost_bytes) : QByteArray();
}

void write_file(const fs::path& path, const std::string& text) {
    QSaveFile file(name_of(path)); // whole or not at all
    if (file.open(QIODevice::WriteOnly) && file.write(text.c_str()) >= 0)
        file.commit();
}

} // namespace

Memory::Memory(fs::path folder, const ServerAddress& server, Id site_id) : m_folder(std::move(folder)) {
    std::error_code ignored;
    fs::create_directories(m_folder, ignored);
    const QByteArray url = QByteArray::fromStdString(url_of(server) + site_folder(site_id));
    m_name = QCryptographicHash::hash(url, QCryptographicHash::Sha256).toHex().left(32).toStdString() + ".json";
}

Remembered Memory::read() const {
    return remembered_of(read_file(m_folder / m_name).toStdString()).value_or(Remembered{});
}

void Memory::write(const Remembered& remembered) const {
    write_file(m_folder / m_name, to_text(remembered));
}

std::string Memory::device() const {
    const fs::path file = m_folder / "device";
    std::string name = read_file(file).trimmed().toStdString();
    const auto plain = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); };
    if (name.size() != 16 || !std::ranges::all_of(name, plain)) {
        name = QByteArray::number(QRandomGenerator::system()->generate64(), 16).rightJustified(16, '0').toStdString();
        write_file(file, name);
    }
    return name;
}

} // namespace rillmark::sync
