// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "position/position_fix.h"

#include <optional>
#include <string>

namespace rillmark {

enum class ReceiverStatus {
    NoReceiver, // nothing to listen to
    Searching,  // it talks, but has had no usable fix yet
    Fixing,     // the last usable fix is fresh
    Stale,      // the last usable fix is older than kStaleAfter_s
    Lost,       // older than kLostAfter_s, or the connection broke
    Error,      // needs the person: no permission, a wrong port
};

// A receiver gives a fix a second or more; after this long a fix is no longer where the person stands (own choice).
inline constexpr double kStaleAfter_s = 5.0;
inline constexpr double kLostAfter_s = 30.0;

/// What the strip and the receiver page show of a source.
struct ReceiverState {
    ReceiverStatus status = ReceiverStatus::NoReceiver;
    Finding finding; // why: a code of position_words, with its numbers
    std::string source;
    std::optional<double> accuracy_m; // claimed horizontal standard uncertainty of one axis, the larger
    std::optional<double> age_s;      // of the last usable fix
    FixQuality quality = FixQuality::None;

    [[nodiscard]] bool operator==(const ReceiverState& other) const;
};

/// Turns what arrives from a receiver into its state. The clock is passed in and must not run backwards (a monotonic one).
class FixWatch {
public:
    explicit FixWatch(std::string source);

    void connected();
    /// `why` is a warning or refusal; before the first connection it is shown as no receiver, later as lost.
    void disconnected(const Finding& why);
    void failed(const Finding& why);
    /// The person has switched the source off: forgets the last fix.
    void stopped();
    /// A fix has arrived, so whatever was wrong with the connection is over. Returns whether it is usable; if not, the reason stands in state().
    bool arrived(const PositionFix& fix, double now_s);
    [[nodiscard]] ReceiverState state(double now_s) const;

private:
    enum class Link { Never, Up, Down, Failed };
    std::string m_source;
    Link m_link = Link::Never;
    Finding m_reason;
    std::optional<Finding> m_refused; // why the latest fix was not usable
    std::optional<PositionFix> m_last;
    double m_last_s = 0.0;
};

} // namespace rillmark
