// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/sqlite.h"

#include <string>
#include <utility>

namespace rillmark {

/// Carries a refusal out of a transaction, which it rolls back on its way. Never leaves core/project.
struct Refused {
    Finding finding;
};

/// What SQLite's error means to a person. `where` is the file or table.
[[nodiscard]] Finding sqlite_finding(const sqlite::SqliteError& error, const std::string& where);
/// The same for a failed write to `table`: names the table and column whose limit was broken.
[[nodiscard]] Finding write_finding(const sqlite::SqliteError& error, const std::string& table);

/// Runs work() and turns what it throws into a refusal.
template <class Work>
auto guarded(const std::string& where, Work&& work) -> Expected<decltype(work())> {
    try {
        if constexpr (std::is_void_v<decltype(work())>) {
            work();
            return {};
        } else {
            return work();
        }
    } catch (const sqlite::SqliteError& error) {
        return sqlite_finding(error, where);
    } catch (const Refused& refused) {
        return refused.finding;
    }
}

} // namespace rillmark
