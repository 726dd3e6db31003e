// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce.h"

namespace rillmark {

// One a file of the same name (the two of the barometer share one); each doc comment says what the method takes beyond its table of fields.

/// A level book, one line of its page a row: a change point has its foresight and its backsight on one row. Reduced by
/// rise and fall and adjusted as a height network (level_book.h, height_network.h).
///
/// The first level is `start_level`, else the known height of the first row, else 0. The line closes on the known height
/// of its last row, or on its first point if it returns there; then the misclosure is held against `allowance`, and within
/// it the heights are adjusted to both ends. `distance` is that of the foresight or intermediate sight (of the backsight
/// on the first row), `backsight_distance` that of a change point's backsight.
/// With `upper` and `lower` a reading is the mean of three wires (three_wire.h), the reading's own column being the middle
/// one, and they give the distance where none is typed; `backsight_upper` and `backsight_lower` are those of a change
/// point's backsight. `collimation` and `curvature` correct the readings by their distances (sight_correction.h); readings
/// then have the doubt of the collimation in common, in place of that of an untested level.
/// Refuses one wire without the other (`exchange.wire_missing`), an answer that is neither yes nor no
/// (`exchange.answer_unknown`), a row without a reading (`exchange.no_reading`), a known height between the ends (`exchange.known_height_inside`),
/// an allowance that is not in the table (`exchange.allowance_unknown`), and what reduce(), closure(),
/// three_wire() and correct_sights() refuse.
[[nodiscard]] const ReduceMethod& levels_method();

/// Distances by tape or laser, one stretch a row (taped_distance.h), and their sum. With both distances of a stretch each
/// counts as measured and the rise judges them. What of the +/- goes with the length is common to the whole line.
/// Refuses a row without a distance (`exchange.no_distance`), a count that is not whole (`exchange.not_whole`), and what
/// taped_distance() refuses.
[[nodiscard]] const ReduceMethod& tape_method();

/// Height differences and known heights of any origin, adjusted together (height_network.h): a row with `rise` is a
/// difference from `from` to `to`, a row with `height` a known height of `to` (`fixed` yes: part of the datum). Rows with
/// the same `cause` share one error, of which `cause_effect` is what one standard uncertainty adds to the rise.
/// Refuses a row with both or neither (`exchange.rise_or_height`), and what adjust() refuses.
[[nodiscard]] const ReduceMethod& height_network_method();

/// The test of a level over two pegs, one set-up a row (two_peg.h). `known_rise`, from A to B, takes the place of one
/// set-up. Refuses what two_peg() refuses, and `exchange.answer_unknown`.
[[nodiscard]] const ReduceMethod& two_peg_method();

/// Levelling across a gully from both its banks, one crossing a row (reciprocal.h). Refuses what reciprocal() refuses.
[[nodiscard]] const ReduceMethod& reciprocal_method();

/// Timed fills of a container, one a row (container.h).
[[nodiscard]] const ReduceMethod& container_method();

/// A gauged section, one reading of the meter a row (velocity_area.h). Rows of one distance are the points of one
/// vertical; depth, edge and angle are given on its first row and may be left empty, or repeated, on the others.
/// Refuses an edge of another name (`exchange.edge_unknown`), a vertical that differs from row to row
/// (`exchange.vertical_differs`), a vertical without depth (`exchange.cell_empty`), a rating of which a part is missing
/// (`exchange.rating_incomplete`), and what velocity_area refuses.
[[nodiscard]] const ReduceMethod& velocity_area_method();

/// The losses of a penstock and the water power at both its ends, one case a row (water_to_wire.h). What is left out:
/// no minor losses, water and place as ChainInput has them; an uncertainty that is left out is zero. With a `material`
/// the loss by Hazen and Williams stands beside (pipe_ageing.h), and after `years` its wall has roughened.
/// Refuses years without a material (`exchange.cell_empty`), what check_chain and what wall_ageing refuse.
[[nodiscard]] const ReduceMethod& penstock_method();

/// Loss and voltage drop of cables, one a row (cable.h): of the `conductor` named, or of the thinnest of the `material`
/// (copper where empty) that loses no more than `largest_loss` (cable_size.h). Refuses a row with neither
/// (`exchange.conductor_or_loss`), another kind of current (`exchange.current_unknown`) and what those refuse.
[[nodiscard]] const ReduceMethod& cable_method();

// Height differences, one stretch a row with `from` and `to`; each gives the rise of every row and their sum (reduce_rises.h).

/// Stepping by eye height (hand_level.h). Rows of one `observer` share the eye height and its uncertainty.
/// Refuses a number of sights that is not whole (`exchange.not_whole`), a direction other than up, down or empty
/// (`exchange.direction_unknown`), and what hand_level refuses.
[[nodiscard]] const ReduceMethod& hand_level_method();

/// Sights by clinometer (clinometer.h); all rows share instrument, observer and pole. A reading is an angle or a slope.
/// Refuses a row without exactly one of the distances (`exchange.one_distance`), and what clinometer refuses.
[[nodiscard]] const ReduceMethod& clinometer_method();

/// Sights by zenith angle (zenith.h), both ways where `reverse_zenith` is filled; all rows share the instrument.
/// Refuses `exchange.one_distance` as above, a reverse sight without its heights (`exchange.cell_empty`), and what
/// zenith_line refuses.
[[nodiscard]] const ReduceMethod& zenith_method();

/// Set-ups of a water tube, one a row (water_tube.h). The legs take all of height and both temperatures, or none
/// (`exchange.cell_empty`). Refuses what water_tube refuses.
[[nodiscard]] const ReduceMethod& water_tube_method();

/// Stretches of hose with a pressure gauge at the lower end (hose_gauge.h). Rows of one `gauge` share its class and zero;
/// all rows share the temperature of the water. Refuses `exchange.direction_unknown` as above, and what hose_gauge refuses.
[[nodiscard]] const ReduceMethod& hose_gauge_method();

/// One barometer carried from a base to the points and back, one reading a row (barometer.h). The base is that of the
/// parameter, else of the first row. Times as clock_time_s() takes them (clock_time.h).
/// Refuses a time it cannot read (`exchange.time_unreadable`) and what barometer_with_returns refuses.
[[nodiscard]] const ReduceMethod& barometer_method();

/// Two barometers, the `role` of a row being `base` or `rover` (barometer.h); the rows of each in order of time. A row
/// of the base without a point stands for the base's.
/// Refuses another role (`exchange.role_unknown`) and what barometer_base_and_rover refuses.
[[nodiscard]] const ReduceMethod& barometer_base_method();

/// Floats (float_gauging.h). A row with a time is a run; a row with a distance and depth is a sounding of the section that
/// it names, the sections in the order in which they appear. Without soundings `width` and `mean_depth` are the section.
/// Refuses a row that is neither or both (`exchange.float_row_unclear`), a word for bed, wind or surface that is not known
/// (`exchange.word_unknown`), and what float_gauging refuses.
[[nodiscard]] const ReduceMethod& float_method();

/// A slug of salt, one reading a row, of one probe or two (salt_trace.h, salt_slug.h). Windows that are not given are those
/// of suggest_windows; a start or end that is given bounds its background too. Without a factor it is the generic one.
/// Refuses a word for the correction that is not known (`exchange.word_unknown`), a window of the background of which one end is missing
/// (`exchange.parameter_missing`), and what the computations refuse.
[[nodiscard]] const ReduceMethod& salt_slug_method();

/// A stepwise salt calibration, one reading a row, the volumes added so far in all (salt_calibration.h).
/// Refuses a missing sample or solution (`exchange.parameter_missing`), and what salt_calibration refuses.
[[nodiscard]] const ReduceMethod& salt_calibration_method();

/// Constant-rate injection (constant_rate.h): a row has a reading of the background, of the plateau, or of both, as concentrations
/// or as conductivities. Conductivities take the generic factor unless one is given.
/// Refuses a missing injection or tracer (`exchange.parameter_missing`), concentrations and conductivities in one file
/// (`exchange.readings_mixed`), and what constant_rate refuses.
[[nodiscard]] const ReduceMethod& constant_rate_method();

/// A thin-plate weir, one reading of its head gauge a row (thin_plate_weir.h). Refuses a shape of another name
/// (`exchange.shape_unknown`) and what thin_plate_weir refuses.
[[nodiscard]] const ReduceMethod& weir_method();

/// A Parshall flume, one reading of its upstream gauge a row (parshall_flume.h). Refuses what parshall_flume refuses.
[[nodiscard]] const ReduceMethod& flume_method();

/// A flood by its marks, one surveyed point a row: with an offset it belongs to the section at that distance, without
/// one it is a high-water mark (slope_area.h). Roughness is `n`, else that of `channel` in the table.
/// Refuses neither of them (`exchange.roughness_missing`), and what channel_roughness and slope_area refuse.
[[nodiscard]] const ReduceMethod& slope_area_method();

/// A stage-discharge relation, one visit a row (stage_rating.h); `at` gives the flow at one stage. A row without a flow
/// is one of the gauge's log: it gets the flow of its stage, with a mark of where that stands against the gauged ones.
/// Refuses what fit_stage_rating refuses.
[[nodiscard]] const ReduceMethod& stage_rating_method();

/// A record of daily flows, one day a row (daily_flow.h, flow_duration.h, low_flow.h). Refuses a plotting rule of another
/// name (`exchange.plotting_unknown`), and what daily_record and daily_summary refuse.
[[nodiscard]] const ReduceMethod& daily_flow_method();

/// The kinds of turbine at a net head and flow, one case a row (turbine.h).
/// Refuses what turbine_options refuses.
[[nodiscard]] const ReduceMethod& turbine_method();

/// The year of energy from daily flows, one day a row (energy.h). `net_head` is that at the design flow and `loss` what is
/// lost of the head there; the loss goes with the square of the flow. `turbine` is a kind of turbines.csv; without one the
/// `efficiency` is that of the whole plant at any flow, with one that of all behind the turbine. The curve over design
/// flows keeps that pipe.
/// Refuses a date that is none or there twice (`exchange.date_unreadable`, `exchange.date_twice`), a missing design flow or net
/// head (`exchange.parameter_missing`), and what energy_of_days refuses.
[[nodiscard]] const ReduceMethod& energy_method();

/// The pressures along a pipe, one point of its line a row, from the intake down (pressure_profile.h). The pipe is given
/// on the first row, as a `pipe` of pipes.csv or as bore, wall, roughness and material; a later row with any of them, or
/// with a rating, begins a new section there, and what it leaves empty is as above it. `intake_level` is in the datum of
/// the elevations. `anchoring` is joints, one-end or throughout. Bends without a block are not in the table of bends.
/// Refuses a first row that does not give the pipe (`exchange.pipe_incomplete`), an anchoring of another name
/// (`exchange.anchoring_unknown`), a missing intake level or flow (`exchange.parameter_missing`), and what
/// pipe_material and pressure_profile refuse.
[[nodiscard]] const ReduceMethod& pipe_pressure_method();

} // namespace rillmark
