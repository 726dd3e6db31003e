// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>

namespace rillmark::words {

namespace {

constexpr std::array kWords = std::to_array<Word>({
    {"project.other_site",
     RILLMARK_TR("{where} is of another site ({other}) than this file ({mine}). Nothing was merged. If it is the same "
                 "creek, say that the other site is meant; this file then keeps its own site page."),
     ""},
    {"project.merge_itself",
     RILLMARK_TR("{where} is the file that it should be merged into. Nothing was merged. Choose another file."), ""},
    {"project.row_differs",
     RILLMARK_TR("{where} and this file have a row of {table} under the same key ({id}) that does not say the same. One of "
                 "them was changed by another program or is damaged. Nothing was merged. Use an untouched copy."),
     ""},
    {"project.merge_failed",
     RILLMARK_TR("The merged file did not pass its check ({detail}), so {where} was left as it was. Run the check on each "
                 "of the files to see what is wrong."),
     ""},
});

} // namespace

std::span<const Word> merge_words() {
    return kWords;
}

} // namespace rillmark::words
