// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> uncertainty_words() {
    static constexpr Word table[] = {
        {"uncertainty.not_finite", RILLMARK_TR("This cannot be worked out: {where} gives no number."), ""},
        {"uncertainty.negative", RILLMARK_TR("The uncertainty of {where} is negative. Enter zero or more."), ""},
        {"uncertainty.bad_correlation", RILLMARK_TR("A correlation must lie between -1 and 1."), ""},
        {"uncertainty.nothing_to_average", RILLMARK_TR("There is nothing to average yet."), ""},
        {"uncertainty.bad_draws", RILLMARK_TR("{draws} draws cannot be made; choose {lowest} to {highest}."), ""},
        {"uncertainty.draw_without_result",
         RILLMARK_TR("One of the draws gave no number, so the draws say nothing. The +/- by first order stands."), ""},
        {"uncertainty.cancelled", RILLMARK_TR("The draws were stopped."), ""},
        {"uncertainty.no_weight", RILLMARK_TR("A value without uncertainty cannot be weighed against others."), ""},
    };
    return table;
}

} // namespace rillmark::words
