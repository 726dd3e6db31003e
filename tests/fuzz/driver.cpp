// SPDX-License-Identifier: GPL-3.0-or-later
// Runs a target over its seeds and a fixed number of changes of each, always the same: what CI does without libFuzzer.
// Arguments: the number of changes of a seed, then files and folders.
#include "fuzz_target.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

namespace {

using Bytes = std::vector<std::uint8_t>;

void run(const Bytes& bytes) {
    // a copy of its own length, so that the sanitizer sees a read behind the end
    const std::vector<std::uint8_t> exact(bytes.begin(), bytes.end());
    LLVMFuzzerTestOneInput(exact.data(), exact.size());
}

Bytes changed(Bytes bytes, std::mt19937& random) {
    const auto below = [&](std::size_t limit) { return limit == 0 ? 0 : random() % limit; };
    const std::size_t changes = 1 + below(8);
    for (std::size_t i = 0; i < changes; ++i) {
        const std::size_t at = below(bytes.size() + 1);
        const auto place = bytes.begin() + static_cast<std::ptrdiff_t>(std::min(at, bytes.size()));
        switch (below(5)) {
        case 0:
            if (place != bytes.end())
                *place = static_cast<std::uint8_t>(random());
            break;
        case 1:
            bytes.insert(place, static_cast<std::uint8_t>(random()));
            break;
        case 2:
            bytes.erase(place,
                        place + static_cast<std::ptrdiff_t>(below(std::min<std::size_t>(16, bytes.size() - at) + 1)));
            break;
        case 3: { // a piece twice
            const Bytes piece(
                place, place + static_cast<std::ptrdiff_t>(below(std::min<std::size_t>(64, bytes.size() - at) + 1)));
            bytes.insert(bytes.begin() + static_cast<std::ptrdiff_t>(at), piece.begin(), piece.end());
            break;
        }
        default:
            bytes.resize(at);
            break;
        }
    }
    return bytes;
}

} // namespace

int main(int argc, char** argv) {
    if (argc < 3) {
        std::cerr << "usage: target CHANGES SEED...\n";
        return 2;
    }
    const unsigned long changes = std::stoul(argv[1]);
    std::vector<std::filesystem::path> files;
    for (int i = 2; i < argc; ++i) {
        if (std::filesystem::is_directory(argv[i]))
            for (const auto& entry : std::filesystem::directory_iterator(argv[i]))
                files.push_back(entry.path());
        else
            files.emplace_back(argv[i]);
    }
    std::ranges::sort(files);
    if (files.empty()) {
        std::cerr << "no seeds\n";
        return 2;
    }
    std::mt19937 random(20261125);
    for (const std::filesystem::path& file : files) {
        std::ifstream stream(file, std::ios::binary);
        const Bytes seed{std::istreambuf_iterator<char>(stream), {}};
        run(seed);
        for (unsigned long i = 0; i < changes; ++i)
            run(changed(seed, random));
    }
    std::cout << files.size() << " seeds, " << changes << " changes of each\n";
    return 0;
}
