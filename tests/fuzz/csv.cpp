// SPDX-License-Identifier: GPL-3.0-or-later
// A table for `reduce` and for places. The first byte chooses the method.
#include "exchange/import_csv.h"
#include "exchange/reduce.h"
#include "fuzz_target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rillmark;
    if (size == 0)
        return 0;
    const std::string_view bytes = fuzz::text_of(data + 1, size - 1);
    if (const Expected<CsvTable> table = read_csv(bytes, "f.csv")) {
        for (std::size_t row = 0; row < table->size(); ++row)
            for (std::size_t column = 0; column < table->header.size(); ++column)
                static_cast<void>(table->cell(row, column));
        const auto methods = reduce_methods();
        static_cast<void>(reduce_table(methods[data[0] % methods.size()], *table));
    }
    static_cast<void>(read_place_table(bytes, "f.csv"));
    return 0;
}
