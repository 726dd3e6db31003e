// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/chain_input.h"
#include "power/pipe_flow.h"
#include "uncertainty/propagate.h"

#include <limits>
#include <span>
#include <vector>

namespace rillmark {

/// The links as plain numbers; what lacks an input stays not-a-number and is never asked for.
struct Links {
    static constexpr double kNotComputed = std::numeric_limits<double>::quiet_NaN();
    double speed_ms = kNotComputed; // the fastest section
    double intake_m = 0.0;
    double friction_m = kNotComputed;
    double minor_m = kNotComputed;
    double net_head_m = kNotComputed;
    double gross_W = kNotComputed;
    double net_W = kNotComputed;
    double shaft_W = kNotComputed;
    double drive_W = kNotComputed; // behind the drive
    double generator_W = kNotComputed;
    double cable_loss_W = kNotComputed;
    double cable_drop_V = kNotComputed;
    double house_W = kNotComputed;
};

/// The chain from water to wire as one model of its inputs, for the law of propagation and for drawing.
///
/// What several sections have in common is one input: the error of their lengths, since one route gave them; the error
/// of their coefficients, since one method did; bore and roughness of all sections of one label. So a pipe cut into
/// pieces on paper has the uncertainty of the whole.
class ChainModel {
public:
    /// `chain` must outlive the model.
    explicit ChainModel(const CheckedChain& chain);

    [[nodiscard]] const std::vector<ModelInput>& inputs() const { return m_inputs; }
    [[nodiscard]] const std::vector<double>& central() const { return m_central; }
    /// The whole chain for one set of inputs. It is also asked for inputs one uncertainty or more away, so losses
    /// change sign with the flow and watts may come out below zero; whether a link is to be shown is decided from the
    /// central values.
    [[nodiscard]] Links at(std::span<const double> x) const;
    /// The sections at those inputs, of one of the parallel pipes.
    [[nodiscard]] std::vector<PipeRun> sections(std::span<const double> x) const;
    [[nodiscard]] PipeWater water(double temperature_C) const;
    /// Intake loss and all the pipe's at a flow through the turbine, m; not-a-number where it cannot be computed.
    [[nodiscard]] double loss_m(double flow_m3s) const;

private:
    /// What a section loses a metre and in all its fittings of a coefficient of one.
    struct Gradient {
        double friction = Links::kNotComputed;
        double velocity_head_m = Links::kNotComputed;
        double speed_ms = Links::kNotComputed;
    };
    /// What a gradient depends on.
    struct Conditions {
        double bore_m = 0.0;
        double roughness_m = 0.0;
        double flow_m3s = 0.0;
        double temperature_C = 0.0;
        friend bool operator==(const Conditions&, const Conditions&) = default;
    };
    struct Known {
        Conditions at;
        Gradient gradient;
    };

    void add_pipe_inputs();
    void add_pipe_losses(std::span<const double> x, double temperature_C, Links& links) const;
    [[nodiscard]] double intake_loss_m(std::span<const double> x) const;
    [[nodiscard]] Conditions conditions(std::size_t section, std::span<const double> x, double temperature_C) const;
    [[nodiscard]] Gradient gradient(const Conditions& at) const;

    const CheckedChain& m_chain;
    std::vector<ModelInput> m_inputs;
    std::vector<double> m_central;
    std::vector<std::size_t> m_bore_of; // index of the bore of each section; its roughness comes next
    std::vector<Known> m_known; // at the central values: a section is asked anew only where its own inputs moved
};

} // namespace rillmark
