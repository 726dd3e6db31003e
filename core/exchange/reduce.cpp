// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce.h"

#include "exchange/reduce_methods.h"

#include <algorithm>
#include <array>

namespace rillmark {

std::span<const ReduceMethod> reduce_methods() {
    static const std::array methods{levels_method(),        two_peg_method(),    reciprocal_method(), hand_level_method(),
                                    clinometer_method(),    zenith_method(),     water_tube_method(), hose_gauge_method(),
                                    barometer_method(),     barometer_base_method(), tape_method(), height_network_method(),
                                    container_method(),     float_method(),      velocity_area_method(), salt_slug_method(),
                                    salt_calibration_method(), constant_rate_method(), weir_method(),   flume_method(),
                                    slope_area_method(),    stage_rating_method(), daily_flow_method(),
                                    penstock_method(),      turbine_method(),    energy_method(),
                                    pipe_pressure_method(), cable_method()};
    return methods;
}

const ReduceMethod* find_reduce_method(std::string_view id) {
    const auto hit = std::ranges::find(reduce_methods(), id, &ReduceMethod::id);
    return hit == reduce_methods().end() ? nullptr : &*hit;
}

Expected<Reduction> reduce_table(const ReduceMethod& method, const CsvTable& table,
                                 const std::vector<TypedParameter>& parameters) {
    const Expected<ReduceTable> read = read_reduce_table(table, method.columns, method.parameters, parameters);
    if (!read)
        return read.error();
    Expected<Reduction> reduction = method.reduce(*read);
    if (reduction)
        reduction->method = method.id;
    return reduction;
}

} // namespace rillmark
