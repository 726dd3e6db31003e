// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

/// As much of JSON Schema (draft 2020-12) as docs/desk.schema.json uses: type, enum, required, properties,
/// additionalProperties, items and $ref within the document.
class JsonSchema {
public:
    explicit JsonSchema(nlohmann::json document) : m_document(std::move(document)) {}

    /// What is wrong with a value, each with its place; empty when it fits. `definition` is a key of $defs.
    [[nodiscard]] std::vector<std::string> faults(const std::string& definition, const nlohmann::json& value) const {
        std::vector<std::string> found;
        check(m_document.at("$defs").at(definition), value, definition, found);
        return found;
    }

private:
    nlohmann::json m_document;

    static bool is(const std::string& type, const nlohmann::json& value) {
        return type == "object"    ? value.is_object()
               : type == "array"   ? value.is_array()
               : type == "string"  ? value.is_string()
               : type == "integer" ? value.is_number_integer()
               : type == "number"  ? value.is_number()
               : type == "boolean" ? value.is_boolean()
                                   : type == "null" && value.is_null();
    }

    static bool fits(const nlohmann::json& types, const nlohmann::json& value) {
        if (types.is_string())
            return is(types.get<std::string>(), value);
        for (const nlohmann::json& one : types)
            if (is(one.get<std::string>(), value))
                return true;
        return false;
    }

    void check(const nlohmann::json& schema, const nlohmann::json& value, const std::string& place,
               std::vector<std::string>& found) const {
        if (schema.contains("$ref")) {
            const std::string pointer = schema.at("$ref").get<std::string>().substr(1);
            return check(m_document.at(nlohmann::json::json_pointer(pointer)), value, place, found);
        }
        if (schema.contains("type") && !fits(schema.at("type"), value))
            found.push_back(place + " is no " + schema.at("type").dump());
        if (schema.contains("enum") &&
            std::find(schema.at("enum").begin(), schema.at("enum").end(), value) == schema.at("enum").end())
            found.push_back(place + " is none of " + schema.at("enum").dump());
        if (value.is_array() && schema.contains("items"))
            for (std::size_t i = 0; i < value.size(); ++i)
                check(schema.at("items"), value[i], place + "[" + std::to_string(i) + "]", found);
        if (value.is_object())
            check_members(schema, value, place, found);
    }

    void check_members(const nlohmann::json& schema, const nlohmann::json& value, const std::string& place,
                       std::vector<std::string>& found) const {
        for (const nlohmann::json& name : schema.value("required", nlohmann::json::array()))
            if (!value.contains(name.get<std::string>()))
                found.push_back(place + " has no " + name.get<std::string>());
        const nlohmann::json known = schema.value("properties", nlohmann::json::object());
        const nlohmann::json others = schema.value("additionalProperties", nlohmann::json(true));
        for (const auto& [name, member] : value.items()) {
            if (known.contains(name))
                check(known.at(name), member, place + "." + name, found);
            else if (others.is_object())
                check(others, member, place + "." + name, found);
            else if (!others.get<bool>())
                found.push_back(place + " has an unknown " + name);
        }
    }
};
