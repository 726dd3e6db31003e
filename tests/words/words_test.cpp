// SPDX-License-Identifier: GPL-3.0-or-later
// Every code of core and platform has its sentence, and every sentence shows the arguments it speaks of.
#include "words/words.h"

#include "units/format_quantity.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

namespace {

using namespace rillmark;

std::set<std::string> codes_in_sources() {
    static const std::regex code(R"rx("((?:uncertainty|units|position|levels|flow|power|project|exchange|site|photo)\.[a-z0-9_]+)")rx");
    std::set<std::string> codes;
    for (const char* folder : {"core", "platform/position", "platform/photos", "platform/sensors", "platform/desk",
                               "platform/report", "platform/sync", "platform/share", "platform/android", "qml/models"}) {
        for (const auto& entry : std::filesystem::recursive_directory_iterator(std::string(RILLMARK_SOURCE_DIR) + "/" + folder)) {
            if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h")
                continue;
            std::ifstream file(entry.path());
            std::stringstream text;
            text << file.rdbuf();
            const std::string all = text.str();
            for (auto hit = std::sregex_iterator(all.begin(), all.end(), code); hit != std::sregex_iterator(); ++hit)
                if (!(*hit)[1].str().ends_with("gpkg") && !(*hit)[1].str().ends_with("csv") && !(*hit)[1].str().ends_with("jpg"))
                    codes.insert((*hit)[1].str());
        }
    }
    return codes;
}

} // namespace

TEST(Words, EveryCodeHasASentence) {
    const std::set<std::string> codes = codes_in_sources();
    ASSERT_GT(codes.size(), 100u); // the search itself works
    for (const std::string& code : codes) {
        if (code.ends_with('_')) // the stem of a family of codes
            continue;
        EXPECT_NE(words::find(code), nullptr) << code;
    }
}

TEST(Words, ArgumentsAreShownInTheUsersUnits) {
    const Finding finding =
        warning("levels.long_staff", "CP1", {{"reading", 6.0, Quantity::Length}, {"limit", 5.0, Quantity::Length}, {"row", std::int64_t{3}}});
    const auto in_feet = [](const Arg& arg) {
        if (const double* number = std::get_if<double>(&arg.value))
            return format_value(*number, arg.quantity, {UnitSystem::UsCustomary, {}});
        if (const std::int64_t* whole = std::get_if<std::int64_t>(&arg.value))
            return std::to_string(*whole);
        return std::get<std::string>(arg.value);
    };
    const std::string unknown = words::sentence(warning("no.such_code", "", {{"n", std::int64_t{4}}}), in_feet);
    EXPECT_EQ(unknown, "no.such_code n=4");
    EXPECT_FALSE(words::sentence(finding, in_feet).empty());
    const std::string translated =
        words::sentence(refusal("units.negative", "Depth"), in_feet, [](const char*) { return std::string("{where}?"); });
    EXPECT_EQ(translated, "Depth?");
}
