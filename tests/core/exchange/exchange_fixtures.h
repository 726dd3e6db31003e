// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace rillmark::exchange_fixtures {

/// The last argument of that name, as text; empty where there is none.
inline std::string argument(const Finding& finding, const std::string& name) {
    std::string text;
    for (const Arg& arg : finding.args) {
        if (arg.name != name)
            continue;
        if (const auto* whole = std::get_if<std::int64_t>(&arg.value))
            text = std::to_string(*whole);
        else if (const auto* words = std::get_if<std::string>(&arg.value))
            text = *words;
    }
    return text;
}

inline Expected<Reduction> reduce(const std::string& method, const std::string& csv,
                                  const std::vector<TypedParameter>& parameters = {}) {
    const Expected<CsvTable> table = read_csv(csv, "f.csv");
    if (!table)
        return table.error();
    return reduce_table(*find_reduce_method(method), *table, parameters);
}

inline Reduction reduced(const std::string& method, const std::string& csv,
                         const std::vector<TypedParameter>& parameters = {}) {
    const Expected<Reduction> reduction = reduce(method, csv, parameters);
    EXPECT_TRUE(reduction.ok()) << (reduction ? "" : reduction.error().code) << " in\n" << csv;
    return reduction.value_or({});
}

inline Estimate result(const Reduction& reduction, const std::string& name) {
    const auto hit = std::ranges::find(reduction.results, "exchange.result." + name, &NamedResult::code);
    EXPECT_NE(hit, reduction.results.end()) << name;
    return hit == reduction.results.end() ? Estimate{} : hit->estimate;
}

/// Expects a refusal of the code at that line and column.
inline void expect_refused(const Expected<Reduction>& reduction, const std::string& code, int line,
                           const std::string& column) {
    ASSERT_FALSE(reduction.ok()) << code;
    EXPECT_EQ(reduction.error().code, code);
    EXPECT_EQ(argument(reduction.error(), "line"), std::to_string(line)) << code;
    EXPECT_EQ(argument(reduction.error(), "column"), column) << code;
}

} // namespace rillmark::exchange_fixtures
