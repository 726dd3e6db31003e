// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/remembered.h"

#include <nlohmann/json.hpp>

namespace rillmark::sync {

namespace {

constexpr const char* kGuards[] = {"unknown", "condition", "lock"};

std::string text_at(const nlohmann::json& json, const char* key) {
    const auto hit = json.find(key);
    return hit != json.end() && hit->is_string() ? hit->get<std::string>() : std::string();
}

} // namespace

std::string to_text(const Remembered& remembered) {
    return nlohmann::json{{"etag", remembered.etag},
                          {"server_sha256", remembered.server_sha256},
                          {"here_sha256", remembered.here_sha256},
                          {"guard", kGuards[static_cast<int>(remembered.guard)]},
                          {"moves", remembered.moves}}
        .dump(2, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::optional<Remembered> remembered_of(std::string_view text) {
    const nlohmann::json json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_object())
        return std::nullopt;
    Remembered remembered{text_at(json, "etag"), text_at(json, "server_sha256"), text_at(json, "here_sha256")};
    const std::string guard = text_at(json, "guard");
    if (guard == kGuards[1])
        remembered.guard = Guard::Condition;
    else if (guard == kGuards[2])
        remembered.guard = Guard::Lock;
    const auto moves = json.find("moves");
    remembered.moves = moves == json.end() || !moves->is_boolean() || moves->get<bool>();
    return remembered;
}

} // namespace rillmark::sync
