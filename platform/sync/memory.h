// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/records.h"
#include "sync/remembered.h"
#include "sync/server_address.h"

#include <filesystem>
#include <string>

namespace rillmark::sync {

/// What this device remembers between rounds, as small files in a folder: one for each site at each server, and the
/// name of this device's passing files. No password, no user name. Whatever cannot be read or written counts as
/// forgotten, which costs a download and nothing else.
class Memory {
public:
    Memory(std::filesystem::path folder, const ServerAddress& server, Id site_id);

    [[nodiscard]] Remembered read() const;
    void write(const Remembered& remembered) const;
    /// Letters and digits; made at random once.
    [[nodiscard]] std::string device() const;

private:
    std::filesystem::path m_folder;
    std::string m_name;
};

} // namespace rillmark::sync
