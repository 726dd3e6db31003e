// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <fstream>
#include <stdexcept>
#include <string>

namespace rillmark::checks {

/// The entry `id` of tests/checks/<topic>.json: an array of objects with id, topic, inputs, expected, tolerance,
/// source and provenance ("seen" in the source, "computed" independently, or "memory": unconfirmed).
inline nlohmann::json entry(const std::string& topic, const std::string& id) {
    std::ifstream file(std::string(RILLMARK_CHECKS_DIR) + "/" + topic + ".json");
    if (!file)
        throw std::runtime_error("no table tests/checks/" + topic + ".json");
    for (const nlohmann::json& check : nlohmann::json::parse(file))
        if (check.at("id") == id)
            return check;
    throw std::runtime_error("tests/checks/" + topic + ".json has no entry " + id);
}

} // namespace rillmark::checks
