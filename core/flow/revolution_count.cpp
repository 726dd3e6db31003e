// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/revolution_count.h"

namespace rillmark {

std::optional<RevolutionCount::Result> RevolutionCount::finish(double time_s) {
    const Result result{m_count, time_s};
    m_start_s.reset();
    return result;
}

std::optional<RevolutionCount::Result> RevolutionCount::tap(double now_s) {
    if (!m_start_s) {
        m_start_s = m_last_s = now_s;
        m_count = 0;
        return std::nullopt;
    }
    if (now_s - m_last_s < kShortest_s)
        return std::nullopt;
    m_last_s = now_s;
    ++m_count;
    const double elapsed = elapsed_s(now_s);
    if ((m_goal.seconds && elapsed >= *m_goal.seconds) || (m_goal.count && m_count >= *m_goal.count))
        return finish(elapsed);
    return std::nullopt;
}

std::optional<RevolutionCount::Result> RevolutionCount::stop(double now_s) {
    if (!m_start_s)
        return std::nullopt;
    return finish(m_count > 0 ? m_last_s - *m_start_s : elapsed_s(now_s));
}

} // namespace rillmark
