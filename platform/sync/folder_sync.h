// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sync/site_sync.h"

#include <vector>

namespace rillmark::sync {

/// A folder of sites and the server that holds them.
struct FolderOrder {
    ServerAddress server;
    Access access;
    std::filesystem::path folder;
    bool send_new = false; // sites that the server does not have are sent as well
    Patience patience;
};

/// What became of one site.
struct FolderOutcome {
    Id site_id = 0;
    std::filesystem::path file;
    bool made_here = false; // the folder did not have it before
    bool only_here = false; // the server does not have it, and it was not sent
    SiteOutcome outcome;
};

struct FolderReport {
    std::optional<Finding> refusal; // the list could not be had: nothing was done
    QString fingerprint;            // of a certificate that was not believed
    std::vector<FolderOutcome> sites;
};

/// Keeps a folder of sites current: each site that is here and at the server is synced, each that is only there is
/// fetched, into a file named after it. Files here that are no project files are left alone. `about` is told the site
/// that comes next.
FolderReport sync_folder(const FolderOrder& order, const SiteHooks& hooks, const std::atomic<bool>& stop,
                         const std::function<void(const std::filesystem::path&)>& about = {});

} // namespace rillmark::sync
