// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/files.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <string_view>
#include <system_error>

namespace rillmark {

namespace {

namespace fs = std::filesystem;

Finding errno_finding(int error, const fs::path& path) {
    const std::string where = path.filename().string();
    switch (error) {
    case EEXIST: return refusal("project.exists", where);
    case ENOSPC:
    case EDQUOT: return refusal("project.disk_full", where);
    case EROFS:
    case EACCES:
    case EPERM: return refusal("project.read_only", where);
    default: break;
    }
    return refusal("project.io", where, {{"detail", std::generic_category().message(error), Quantity::Number}});
}

Expected<void> sync(const fs::path& path, int flags) {
    const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0)
        return errno_finding(errno, path);
    const int failed = ::fsync(descriptor) == 0 ? 0 : errno;
    ::close(descriptor);
    if (failed != 0)
        return errno_finding(failed, path);
    return {};
}

/// Some file systems cannot sync a folder; the file itself is whole under one name or the other.
void sync_folder_of(const fs::path& path) {
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    static_cast<void>(sync(folder, O_RDONLY | O_DIRECTORY));
}

std::uint32_t big_endian(const unsigned char* bytes, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count; ++i)
        value = (value << 8U) | bytes[i];
    return value;
}

} // namespace

PassingFile::~PassingFile() {
    std::error_code ignored;
    for (const char* suffix : {"", "-journal", "-wal", "-shm"})
        fs::remove(with_suffix(m_path, suffix), ignored);
}

Expected<void> PassingFile::put_in_place(const fs::path& to) {
    if (auto synced = sync(m_path, O_RDONLY); !synced)
        return synced;
    // link() never replaces a file. Where a file system has no links (FAT), rename() after a look must do.
    if (::link(m_path.c_str(), to.c_str()) != 0) {
        const int failed = errno;
        std::error_code ignored;
        if (failed == EEXIST || fs::exists(to, ignored))
            return refusal("project.exists", to.filename().string());
        if (failed != EPERM && failed != EOPNOTSUPP && failed != ENOSYS && failed != EMLINK && failed != EACCES)
            return errno_finding(failed, to);
        if (::rename(m_path.c_str(), to.c_str()) != 0)
            return errno_finding(errno, to);
    }
    sync_folder_of(to);
    return {};
}

Expected<void> PassingFile::replace(const fs::path& to) {
    std::error_code failed;
    // Before the sync, which brings them to the disk as well. FAT has none: that is no reason to stop.
    fs::permissions(m_path, fs::status(to, failed).permissions(), failed);
    if (auto synced = sync(m_path, O_RDONLY); !synced)
        return synced;
    if (::rename(m_path.c_str(), to.c_str()) != 0)
        return errno_finding(errno, to);
    sync_folder_of(to);
    return {};
}

fs::path passing_name(const fs::path& path, std::int64_t random) {
    return path.parent_path() / ("." + path.stem().string() + "-" + std::to_string(random) + ".gpkg");
}

fs::path with_suffix(const fs::path& path, const char* suffix) {
    fs::path named = path;
    named += suffix;
    return named;
}

Expected<void> check_header(const fs::path& path) {
    const std::string where = path.filename().string();
    std::error_code failed;
    const fs::file_status status = fs::status(path, failed);
    if (!fs::exists(status))
        return refusal("project.missing", where);
    if (!fs::is_regular_file(status))
        return refusal("project.not_a_database", where);
    std::array<unsigned char, 100> header{}; // sqlite.org/fileformat2.html, 1.3 "The Database Header"
    std::ifstream file(path, std::ios::binary);
    if (!file)
        return errno_finding(errno, path);
    file.read(reinterpret_cast<char*>(header.data()), header.size());
    static constexpr std::string_view kMagic("SQLite format 3\0", 16);
    if (file.gcount() < static_cast<std::streamsize>(header.size()) ||
        std::memcmp(header.data(), kMagic.data(), kMagic.size()) != 0)
        return refusal("project.not_a_database", where);
    // The page count is only right when these two agree, and a -wal file may hold later pages.
    const bool counted = big_endian(&header[24], 4) == big_endian(&header[92], 4);
    std::uintmax_t page_bytes = big_endian(&header[16], 2);
    if (page_bytes == 1)
        page_bytes = 65536;
    if (counted && !has_side_files(path) && fs::file_size(path, failed) < page_bytes * big_endian(&header[28], 4))
        return refusal("project.damaged", where, {{"detail", std::string("file is shorter than its header says"),
                                                   Quantity::Number}});
    return {};
}

Expected<void> check_free_place(const fs::path& path) {
    std::error_code ignored;
    if (fs::exists(path, ignored))
        return refusal("project.exists", path.filename().string());
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    if (::access(folder.c_str(), W_OK) != 0)
        return errno_finding(errno, path);
    return {};
}

bool has_side_files(const fs::path& path) {
    std::error_code failed;
    const auto wal_bytes = fs::file_size(with_suffix(path, "-wal"), failed);
    return (!failed && wal_bytes > 0) || fs::exists(with_suffix(path, "-journal"), failed);
}

} // namespace rillmark
