// SPDX-License-Identifier: GPL-3.0-or-later
#include "peg_guide.h"

#include <QCoreApplication>

#include <algorithm>

using namespace rillmark;

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("PegGuide", text);
}

bool told(const TwoPegResult& result, std::string_view code) {
    return std::ranges::find(result.findings, code, &Finding::code) != result.findings.end();
}

QString holds(const QDate& tested, const QDate& today) {
    const QDate last = tested.addDays(kTwoPegValidDays);
    if (!last.isValid())
        return {};
    return (today > last ? tr("The test ran out on %1: repeat it.")
                         : tr("The test holds until %1, or until the level is knocked or shaken."))
        .arg(last.toString(Qt::ISODate));
}

} // namespace

PegGuide peg_guide(int setups, const std::optional<TwoPegResult>& result, const QDate& tested, const QDate& today) {
    PegGuide guide;
    guide.setup = std::clamp(setups + 1, 1, 3);
    if (setups < 2)
        return guide;
    if (!result) {
        guide.verdict =
            tr("No verdict: the readings contradict each other. Strike the wrong one out and read it again.");
        return guide;
    }
    guide.until = holds(tested, today);
    if (told(*result, "levels.peg_setups_disagree"))
        guide.verdict = tr("No verdict: the set-ups disagree. Read one again.");
    else if (told(*result, "levels.peg_test_weak"))
        guide.verdict = tr(
            "Not shown good or bad: the ± is larger than the limit. Set the pegs farther apart, or read more set-ups.");
    else if (result->within) {
        guide.good = true;
        guide.verdict = tr("The level is good.");
    } else
        guide.verdict = tr("Have the level adjusted. Until then its error is taken out of every sight whose distance "
                           "is booked; keep sights of equal length.");
    return guide;
}
