// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce.h"

namespace rillmark {

// One a file of the same name; each doc comment says what the method takes beyond its table of fields.

/// A level book, one line of its page a row: a change point has its foresight and its backsight on one row. Reduced by
/// rise and fall and adjusted as a height network (level_book.h, height_network.h).
///
/// The first level is `start_level`, else the known height of the first row, else 0. The line closes on the known height
/// of its last row, or on its first point if it returns there; then the misclosure is held against `allowance`, and within
/// it the heights are adjusted to both ends. `distance` is that of the foresight or intermediate sight (of the backsight
/// on the first row), `backsight_distance` that of a change point's backsight.
/// Refuses a row without a reading (`exchange.no_reading`), a known height between the ends (`exchange.known_height_inside`),
/// an allowance that is not in the table (`exchange.allowance_unknown`), and what reduce() and closure() refuse.
[[nodiscard]] const ReduceMethod& levels_method();

/// Timed fills of a container, one a row (container.h).
[[nodiscard]] const ReduceMethod& container_method();

/// A gauged section, one reading of the meter a row (velocity_area.h). Rows of one distance are the points of one
/// vertical; depth, edge and angle are given on its first row and may be left empty, or repeated, on the others.
/// Refuses an edge of another name (`exchange.edge_unknown`), a vertical that differs from row to row
/// (`exchange.vertical_differs`), a vertical without depth (`exchange.cell_empty`), a rating of which a part is missing
/// (`exchange.rating_incomplete`), and what velocity_area refuses.
[[nodiscard]] const ReduceMethod& velocity_area_method();

/// The losses of a penstock and the water power at both its ends, one case a row (water_to_wire.h). What is left out:
/// no minor losses, water and place as ChainInput has them; an uncertainty that is left out is zero.
/// Refuses what check_chain refuses.
[[nodiscard]] const ReduceMethod& penstock_method();

} // namespace rillmark
