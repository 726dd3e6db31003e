// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

namespace fs = std::filesystem;

inline std::string read(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
    [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(out); }
};

/// The built command in a folder of its own.
class Desk : public testing::Test {
protected:
    void SetUp() override {
        m_folder = fs::temp_directory_path() / ("rillmark-desk-" + std::to_string(::getpid()));
        fs::create_directories(m_folder);
    }
    void TearDown() override { fs::remove_all(m_folder); }

    [[nodiscard]] Ran run(const std::string& arguments) const {
        const std::string command =
            "cd '" + m_folder.string() + "' && '" RILLMARK_DESK "' " + arguments + " >out 2>err";
        const int status = std::system(command.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(m_folder / "out"), read(m_folder / "err")};
    }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(m_folder / name, std::ios::binary) << text;
    }
    /// A file that is refused: status 1, the place on standard error, nothing but JSON on standard output.
    void expect_refused(const std::string& method, const std::string& csv, const std::string& place) const {
        write("f.csv", csv);
        const Ran plain = run("reduce " + method + " f.csv");
        EXPECT_EQ(plain.status, 1) << csv;
        EXPECT_EQ(plain.out, "");
        EXPECT_NE(plain.err.find("rillmark-desk: f.csv:" + place + ": "), std::string::npos) << plain.err;
        const Ran json = run("--json reduce " + method + " f.csv");
        EXPECT_EQ(json.status, 1);
        EXPECT_EQ(json.json().at("findings").at(0).at("severity"), "refusal");
        EXPECT_EQ(json.json().at("findings").at(0).at("args").at("file"), "f.csv");
    }

    fs::path m_folder;
};
