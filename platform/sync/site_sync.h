// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/merge.h"
#include "sync/dav_client.h"
#include "sync/patience.h"
#include "sync/server_address.h"

#include <QString>

#include <atomic>
#include <filesystem>
#include <functional>

namespace rillmark::sync {

/// One site and its server.
struct SiteOrder {
    ServerAddress server;
    Access access;
    Id site_id = 0;
    std::filesystem::path site;   // the project file here; made from the server's where it is missing
    std::filesystem::path memory; // folder where what is known of the server is kept between rounds; made when missing
    Patience patience;
};

/// How the driver reports, and what may be done differently from a plain call. All are called on its thread.
struct SiteHooks {
    /// Merges the checked file into the site. Without one: merge_into(). The app closes the site for it.
    std::function<Expected<MergeReport>(const std::filesystem::path& fetched)> take_in;
    /// The state as a code, and why when it waits.
    std::function<void(const char* code, const std::optional<Finding>& why)> doing;
    TransferProgress progress;
};

/// What one round came to.
struct SiteOutcome {
    std::optional<Finding> refusal; // none: both sides hold the same
    bool sent = false;
    MergeReport merged;  // what was taken in
    QString fingerprint; // of a certificate that was not believed
};

/// Brings the site here and at the server to the same content (see Round). Blocks; for a worker's thread. When it
/// returns, however it ends, both sides hold a whole file.
SiteOutcome sync_site(const SiteOrder& order, const SiteHooks& hooks, const std::atomic<bool>& stop);

} // namespace rillmark::sync
