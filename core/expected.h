// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"

#include <cassert>
#include <type_traits>
#include <utility>
#include <variant>

namespace rillmark {

/// A value, or the finding that says why there is none. Nothing in core throws across its API.
///
/// Reading value() of a refusal, or error() of a value, is a programming error and asserts.
template <class T>
class [[nodiscard]] Expected {
public:
    Expected(T value) : m_state(std::in_place_index<0>, std::move(value)) {}
    Expected(Finding refusal) : m_state(std::in_place_index<1>, std::move(refusal)) {}

    [[nodiscard]] bool ok() const { return m_state.index() == 0; }
    explicit operator bool() const { return ok(); }

    [[nodiscard]] const T& value() const& { return std::get<0>(m_state); }
    [[nodiscard]] T& value() & { return std::get<0>(m_state); }
    // by value, so that `for (x : *call())` has something that lives as long as the loop
    [[nodiscard]] T value() && { return std::get<0>(std::move(m_state)); }
    [[nodiscard]] T value_or(T fallback) const { return ok() ? value() : std::move(fallback); }
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    T operator*() && { return std::move(*this).value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

    [[nodiscard]] const Finding& error() const { return std::get<1>(m_state); }

private:
    std::variant<T, Finding> m_state;
};

/// Success without a value, or the finding that says why not.
template <>
class [[nodiscard]] Expected<void> {
public:
    Expected() : m_state(std::monostate{}) {}
    Expected(Finding refusal) : m_state(std::move(refusal)) {}

    [[nodiscard]] bool ok() const { return m_state.index() == 0; }
    explicit operator bool() const { return ok(); }
    [[nodiscard]] const Finding& error() const { return std::get<1>(m_state); }

private:
    std::variant<std::monostate, Finding> m_state;
};

} // namespace rillmark
