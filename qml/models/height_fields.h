// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/height_method.h"
#include "record_fields.h"

#include <vector>

/// What a method reads, one reading at a time.
[[nodiscard]] std::vector<RecordField<rillmark::HeightReadingRow>> reading_fields(rillmark::HeightMethod method);
/// What all readings of a run share: the instrument.
[[nodiscard]] std::vector<RecordField<rillmark::HeightRunRow>> run_fields(rillmark::HeightMethod method);
