// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "sync/round.h"

#include <filesystem>

namespace rillmark::sync {

/// SHA-256 (hexadecimal) and size of a file. Refuses `project.io`.
Expected<ClosedCopy> hash_of(const std::filesystem::path& file);

/// Writes "<hash>  <name>" into NAME.sha256 beside the file, as sha256sum -c reads it. Refuses `project.io`.
Expected<void> write_checksum_beside(const std::filesystem::path& file);

} // namespace rillmark::sync
