// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/file_hash.h"

#include <QCryptographicHash>
#include <QFile>
#include <QSaveFile>

namespace rillmark::sync {

namespace {

Finding io(const QFileDevice& file, const std::filesystem::path& path) {
    return refusal("project.io", path.filename().string(), {{"detail", file.errorString().toStdString()}});
}

} // namespace

Expected<ClosedCopy> hash_of(const std::filesystem::path& path) {
    QFile file(QString::fromStdU16String(path.u16string()));
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (!file.open(QIODevice::ReadOnly) || !hash.addData(&file))
        return io(file, path);
    return ClosedCopy{hash.result().toHex().toStdString(), file.size()};
}

Expected<void> write_checksum_beside(const std::filesystem::path& path) {
    const Expected<ClosedCopy> hashed = hash_of(path);
    if (!hashed)
        return hashed.error();
    QSaveFile beside(QString::fromStdU16String(path.u16string()) + QStringLiteral(".sha256"));
    const std::string line = hashed->sha256 + "  " + path.filename().string() + "\n";
    if (!beside.open(QIODevice::WriteOnly) || beside.write(line.c_str()) < 0 || !beside.commit())
        return io(beside, path);
    return {};
}

} // namespace rillmark::sync
