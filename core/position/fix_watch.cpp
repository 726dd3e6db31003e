// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/fix_watch.h"

#include <algorithm>
#include <utility>

namespace rillmark {

bool ReceiverState::operator==(const ReceiverState& other) const {
    return status == other.status && finding.code == other.finding.code && source == other.source &&
           accuracy_m == other.accuracy_m && age_s == other.age_s && quality == other.quality;
}

FixWatch::FixWatch(std::string source) : m_source(std::move(source)) {}

void FixWatch::connected() {
    m_link = Link::Up;
    m_refused.reset();
}

void FixWatch::disconnected(const Finding& why) {
    if (m_link != Link::Never) // a receiver that was never there is not lost: it is off, or its address is wrong
        m_link = Link::Down;
    m_reason = why;
}

void FixWatch::failed(const Finding& why) {
    m_link = Link::Failed;
    m_reason = why;
}

void FixWatch::stopped() {
    m_link = Link::Never;
    m_reason = note("position.stopped", m_source);
    m_last.reset();
    m_refused.reset();
}

bool FixWatch::arrived(const PositionFix& fix, double now_s) {
    m_link = Link::Up;
    const Expected<void> usable = plausible(fix);
    if (!usable) {
        m_refused = usable.error();
        return false;
    }
    m_refused.reset();
    m_last = fix;
    m_last_s = now_s;
    return true;
}

ReceiverState FixWatch::state(double now_s) const {
    ReceiverState state;
    state.source = m_source;
    if (m_last) {
        const FixUncertainty claimed = claimed_uncertainty(*m_last);
        state.accuracy_m = std::max(claimed.east_m, claimed.north_m);
        state.age_s = std::max(0.0, now_s - m_last_s);
        state.quality = m_last->quality;
    }
    const std::vector<Arg> age{{"age", state.age_s.value_or(0.0), Quantity::Time}};
    switch (m_link) {
    case Link::Never:
        state.status = ReceiverStatus::NoReceiver;
        state.finding = m_reason.code.empty() ? note("position.no_receiver", m_source) : m_reason;
        return state;
    case Link::Failed: state.status = ReceiverStatus::Error; state.finding = m_reason; return state;
    case Link::Down: state.status = ReceiverStatus::Lost; state.finding = m_reason; return state;
    case Link::Up: break;
    }
    if (!m_last) {
        state.status = ReceiverStatus::Searching;
        state.finding = m_refused.value_or(note("position.searching", m_source));
    } else if (*state.age_s > kLostAfter_s) {
        state.status = ReceiverStatus::Lost;
        state.finding = m_refused.value_or(warning("position.signal_lost", m_source, age));
    } else if (*state.age_s > kStaleAfter_s) {
        state.status = ReceiverStatus::Stale;
        state.finding = m_refused.value_or(warning("position.fix_stale", m_source, age));
    } else {
        state.status = ReceiverStatus::Fixing;
        state.finding = note("position.fixing", m_source);
    }
    return state;
}

} // namespace rillmark
