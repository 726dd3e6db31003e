// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "levelling/level_book.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace rillmark {

/// Rules for the misclosure that is allowed, for the user to choose from.
enum class AllowanceId {
    SiteRule,
    Streamgage,
    FirstOrderI,
    FirstOrderII,
    SecondOrderI,
    SecondOrderII,
    ThirdOrder,
    FirstOrderIFeet,
    FirstOrderIIFeet,
    SecondOrderIFeet,
    SecondOrderIIFeet,
    ThirdOrderFeet,
    FourthOrderFeet,
    ArmyClassII,
    BuildingFine,
    BuildingPlain,
    SectionFirstOrderI,
    SectionFirstOrderII,
    SectionSecondOrderI,
    SectionSecondOrderII,
    SectionThirdOrder,
};

enum class AllowanceForm { PerRootSetup, PerRootKilometre };

/// allowed = factor x sqrt(set-ups or kilometres), never above the cap.
struct Allowance {
    AllowanceId id = AllowanceId::SiteRule;
    std::string_view code; // stable name for the project file; the UI words it as "levels.allowance." + code
    AllowanceForm form = AllowanceForm::PerRootSetup;
    double factor_m = 0.0; // m per sqrt(set-up) or per sqrt(km)
    std::optional<double> cap_m;
    std::string_view source;
    std::string_view provenance; // "seen" in the source, or "memory": unconfirmed
};

/// All rules, the one for site work first: a head survey has short sights and many set-ups, which the set-up form
/// suits.
[[nodiscard]] std::span<const Allowance> allowances();
/// Rules for a section that is levelled forth and back: the difference of the two runs, by the length of the section one
/// way.
[[nodiscard]] std::span<const Allowance> section_allowances();
/// From either table.
[[nodiscard]] const Allowance& allowance(AllowanceId id);
/// nullptr for a code that is not in allowances().
[[nodiscard]] const Allowance* find_allowance(std::string_view code);

/// Allowed misclosure (m, >= 0) for a number of set-ups and a length of line or loop in km. Refuses a rule by length
/// without a length above zero (`levels.no_length`), and a rule by set-ups with none (`levels.book_empty`).
[[nodiscard]] Expected<double> allowed_misclosure_m(const Allowance& rule, std::size_t setups,
                                                    std::optional<double> length_km);

/// How a line closed on a point of known level.
struct Closure {
    double misclosure_m = 0.0; // measured - known; the correction has the opposite sign
    double allowed_m = 0.0;
    bool within = false;
    AllowanceId rule = AllowanceId::SiteRule;
};

/// Compares the last level of the book with a known one. `length_km` is needed for rules by length where the book has
/// not all its distances. Refuses a known level that is not finite (`levels.known_level_impossible`), an open book
/// (`levels.book_not_closed`) and what allowed_misclosure_m refuses.
[[nodiscard]] Expected<Closure> closure(const ReducedBook& book, double known_end_level_m, AllowanceId rule,
                                        std::optional<double> length_km = std::nullopt);

/// A line levelled forth and back.
struct DoubleRun {
    double rise_m = 0.0;       // from the start of the forward run: mean of both
    double difference_m = 0.0; // forward rise + back rise, which should be 0
    double allowed_m = 0.0;
    bool within = false;
    AllowanceId rule = AllowanceId::SectionThirdOrder;
    Findings findings; // `levels.double_run_differs`, a warning
};

/// Compares the two runs of a line and takes their mean.
/// A section rule goes by the length one way, `length_km` or the mean of both books. The pair is also a loop that returns
/// to its start, so the other rules go by the set-ups of both or by twice that length.
/// Source: FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5 (section and loop
/// misclosures). Refuses an empty book (`levels.book_empty`), an open one (`levels.book_not_closed`), a back run that does
/// not lead from the end of the forward run to its start (`levels.runs_do_not_meet`) and what allowed_misclosure_m refuses.
[[nodiscard]] Expected<DoubleRun> double_run(const ReducedBook& forward, const ReducedBook& back, AllowanceId rule,
                                             std::optional<double> length_km = std::nullopt);

enum class DistributeBy { Setup, Distance };
enum class AboveAllowance { Refuse, DistributeAnyway };

/// Corrections, opposite to the misclosure, in proportion to `along` (set-ups or length from the start, the last being
/// the whole). All zeros where the whole is not above zero.
[[nodiscard]] std::vector<double> corrections_m(double misclosure_m, std::span<const double> along);

/// The book with adjusted levels. Every foresight and intermediate sight takes the cumulative correction of its set-up,
/// in proportion to the number of set-ups or to the length of backsights and foresights up to it.
/// Refuses: a misclosure above the allowance, which is to be re-observed and not shared out, unless told otherwise
/// (`levels.misclosure_too_large`; if told, a warning of that code stays in the findings); by distance without all
/// distances (`levels.no_length`); an open book (`levels.book_not_closed`).
/// Practice differs for intermediate sights (correction of the set-up, or none): they take it, as in tests/checks
/// lev-hpc-usm.
[[nodiscard]] Expected<ReducedBook> distribute(ReducedBook book, const Closure& closure, DistributeBy by,
                                               AboveAllowance above = AboveAllowance::Refuse);

} // namespace rillmark
