// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_table.h"

#include <QJsonObject>

#include <span>

/// A layout as it is kept in the settings, and back. What does not fit the fields is taken as not chosen.
[[nodiscard]] QJsonObject layout_to_json(const rillmark::LoggerLayout& layout);
[[nodiscard]] rillmark::LoggerLayout layout_from_json(const QJsonObject& json,
                                                      std::span<const rillmark::LoggerField> fields);
