// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace rillmark {

/// By how much the standard uncertainty of a mean of few readings is enlarged so that k = 2 still covers 95 %: half of
/// Student's t for a probability of 95.45 %.
///
/// @param degrees of freedom, 1 and more (less counts as 1)
/// Source: JCGM 100:2008, table G.2 (1 to 10 degrees); above, the series of Student's t in 1/degrees to its second
/// term, within 0.2 % of the table. Practice differs: many budgets leave it out, which with three readings covers about
/// 80 %.
[[nodiscard]] double student_factor(int degrees);

/// The factor for a result of which one part alone was found from few readings: student_factor of the effective degrees
/// of freedom, degrees x (whole / part)^2 (Welch and Satterthwaite, JCGM 100:2008, G.4.1). 1 where the part is 0.
/// @param degrees of freedom of the part, above 0; part, whole: variances, part <= whole
[[nodiscard]] double student_factor_of_part(double degrees, double part, double whole);

} // namespace rillmark
