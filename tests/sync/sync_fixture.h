// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/project/merge_fixture.h"
#include "sync/site_sync.h"

namespace rillmark::testing {

/// Devices with their own copy of one site and their own memory of the server.
class SyncTest : public MergeTest {
protected:
    struct Device {
        std::string name;
        fs::path site;
        std::atomic<bool> stop = false;
    };

    /// The site as the first device makes it.
    void make_site(const std::string& name) {
        auto made = Project::create(file_of(name), "Two Forks Creek", device(name));
        ASSERT_TRUE(made) << made.error().code;
        site_id = made->site()->id;
    }
    [[nodiscard]] fs::path file_of(const std::string& name) const { return folder / (name + ".gpkg"); }
    /// Another device gets the site as it is now.
    void give(const std::string& from, const std::string& to) {
        ASSERT_TRUE(open_as(from, file_of(from)).save_copy(file_of(to)));
    }
    void add_station(const std::string& name, const std::string& station_name) {
        clock_ms += 1000;
        ASSERT_TRUE(open_as(name, file_of(name)).book(station(station_name)));
    }
    [[nodiscard]] sync::SiteOrder order(const std::string& name, const std::string& url) const {
        sync::SiteOrder order;
        order.server = sync::parse_server_address(url).value();
        order.access.silence_ms = 15'000; // a busy machine is slow
        order.site_id = site_id;
        order.site = file_of(name);
        order.memory = folder / ("memory-" + name);
        order.patience.first = sync::Milliseconds(20);
        order.patience.longest = sync::Milliseconds(200);
        return order;
    }
    sync::SiteOutcome synced(const sync::SiteOrder& what) { return sync::sync_site(what, {}, never); }
    sync::SiteOutcome synced(const std::string& name, const std::string& url) { return synced(order(name, url)); }

    static std::string why(const sync::SiteOutcome& outcome) {
        if (!outcome.refusal)
            return {};
        std::string text = outcome.refusal->code;
        for (const Arg& arg : outcome.refusal->args)
            if (const auto* value = std::get_if<std::string>(&arg.value))
                text += " " + arg.name + "=" + *value;
            else if (const auto* number = std::get_if<std::int64_t>(&arg.value))
                text += " " + arg.name + "=" + std::to_string(*number);
        return text;
    }
    /// The content of the site at a server's root folder, "" when there is none.
    [[nodiscard]] fs::path at_server(const fs::path& root) const {
        return root / sync::site_folder(site_id) / "site.gpkg";
    }

    Id site_id = 0;
    std::atomic<bool> never = false;
};

} // namespace rillmark::testing
