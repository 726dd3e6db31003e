// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace rillmark {

/// Counts the signals of a current meter by taps: the first starts the clock and counts as 0, each further one is a
/// count, and the time is that from the first to the last. So no part of a revolution is lost at either end, as it
/// would be with a clock that stops by itself. Common practice, no source.
///
/// Ends with the first tap at or after `goal_s`, or with the tap that makes the count `goal_count`, whichever is set.
class RevolutionCount {
public:
    struct Goal {
        std::optional<double> seconds; // > 0
        std::optional<int> count;      // > 0
    };
    struct Result {
        int count = 0;
        double time_s = 0.0;
    };
    // Taps closer than this are one tap of an unsteady hand (our own choice: no rotor is counted by hand at 15 a
    // second).
    static constexpr double kShortest_s = 0.065;

    explicit RevolutionCount(Goal goal = {}) : m_goal(goal) {}

    /// A tap at a time of any steady clock [s]. The result when it was the last one.
    std::optional<Result> tap(double now_s);
    /// The count so far: up to the last tap, or, with none after the first, 0 over the time until now (the rotor
    /// stands).
    std::optional<Result> stop(double now_s);

    [[nodiscard]] bool running() const { return m_start_s.has_value(); }
    [[nodiscard]] int count() const { return m_count; }
    /// Since the first tap; 0 before it.
    [[nodiscard]] double elapsed_s(double now_s) const { return m_start_s ? now_s - *m_start_s : 0.0; }

private:
    std::optional<Result> finish(double time_s);

    Goal m_goal;
    std::optional<double> m_start_s;
    double m_last_s = 0.0;
    int m_count = 0;
};

} // namespace rillmark
