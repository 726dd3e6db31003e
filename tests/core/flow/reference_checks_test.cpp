// SPDX-License-Identifier: GPL-3.0-or-later
// Nothing of the reference of measuring flow is passed over in silence.
#include "words/words.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>

namespace rillmark {
namespace {

namespace fs = std::filesystem;

std::set<std::string> ids_in(const fs::path& path) {
    std::set<std::string> ids;
    std::ifstream file(path);
    for (const nlohmann::json& check : nlohmann::json::parse(file))
        ids.insert(check.at("id"));
    return ids;
}

TEST(ReferenceChecks, EachIsATestOrIsLeftOutForAReason) {
    const std::map<std::string, std::string> left_out{
        {"unc-herschy-20",
         "an older form of the budget, from memory, than that of ISO 748 which is taken; the numbers of "
         "both are of one table, which the entries of the taken form test"},
        {"wading-pfd", "a policy, not a figure: the words of the wading warnings, tested below"}};
    const fs::path reference = fs::path(RILLMARK_REFERENCE_DIR) / "flow" / "checks.json";
    if (!fs::exists(reference))
        GTEST_SKIP() << "no reference data";
    std::set<std::string> tested;
    for (const fs::directory_entry& table : fs::directory_iterator(RILLMARK_CHECKS_DIR))
        if (table.path().extension() == ".json")
            tested.merge(ids_in(table.path()));
    for (const std::string& id : ids_in(reference))
        EXPECT_NE(tested.contains(id), left_out.contains(id)) << id;
}

TEST(Cautions, EachStandsAtItsStep) {
    const std::multimap<std::string, std::string> said{{"flow.wading_near_limit", "flotation device"},
                                                       {"flow.wading_beyond_limit", "flotation device"},
                                                       {"flow.caution_float", "never alone"},
                                                       {"flow.caution_float", "rising water"},
                                                       {"flow.caution_float", "cold water"},
                                                       {"flow.caution_float", "nets"},
                                                       {"flow.caution_salt_slug", "permit"},
                                                       {"flow.caution_salt_slug", "chloride limits"},
                                                       {"flow.caution_salt_slug", "cold"},
                                                       {"flow.caution_constant_rate", "permit"},
                                                       {"flow.caution_constant_rate", "chloride"},
                                                       {"flow.caution_constant_rate_dye", "permit"},
                                                       {"flow.caution_weir", "slippery"},
                                                       {"flow.caution_weir", "rack"},
                                                       {"flow.caution_flume", "slippery"},
                                                       {"flow.caution_slope_area", "Undercut banks"}};
    for (const auto& [code, words_of_it] : said) {
        const words::Word* const word = words::find(code);
        ASSERT_NE(word, nullptr) << code;
        EXPECT_NE(std::string(word->text).find(words_of_it), std::string::npos) << code << ": " << words_of_it;
    }
}

// The source that asks for it: USGS Water Resources Division policy memorandum 99.32.
TEST(Cautions, TheFlotationDeviceHasItsSource) {
    for (const char* code : {"flow.wading_near_limit", "flow.wading_beyond_limit"})
        EXPECT_NE(std::string(words::find(code)->source).find("99.32"), std::string::npos) << code;
}

} // namespace
} // namespace rillmark
