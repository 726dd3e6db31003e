// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/two_peg.h"

#include <QDate>
#include <QObject>
#include <QtQml/qqmlregistration.h>

/// Where a two-peg test stands: which set-up is next, and the verdict once both are read.
class PegGuide {
    Q_GADGET
    QML_VALUE_TYPE(pegGuide)
    Q_PROPERTY(int setup MEMBER setup CONSTANT FINAL)
    Q_PROPERTY(QString verdict MEMBER verdict CONSTANT FINAL)
    Q_PROPERTY(QString until MEMBER until CONSTANT FINAL)
    Q_PROPERTY(bool good MEMBER good CONSTANT FINAL)
public:
    int setup = 0;   // 1 or 2: the set-up to be read next; 3: both are read; 0: this is no two-peg test
    QString verdict; // empty before there is one
    QString until;   // how long it holds, or since when it does not
    bool good = false;
    friend bool operator==(const PegGuide&, const PegGuide&) = default;
};

/// `setups`: how many are booked; `result`: nothing where they are refused; `tested` on that day.
[[nodiscard]] PegGuide peg_guide(int setups, const std::optional<rillmark::TwoPegResult>& result, const QDate& tested,
                                 const QDate& today);
