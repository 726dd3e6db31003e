// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/logger_guess.h"
#include "exchange/logger_table.h"
#include "fuzz_target.h"

#include <algorithm>
#include <array>
#include <cstring>

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace rillmark;
    static const std::array fields{LoggerField{"exchange.logger_time", Quantity::Length, true},
                                   LoggerField{"exchange.logger_time", Quantity::Temperature, false}};
    const std::string_view bytes = fuzz::text_of(data, size);
    const TextEncoding encoding = guess_encoding(bytes.substr(0, kLoggerHead_bytes));
    const std::vector<std::string> head = logger_head(bytes.substr(0, kLoggerHead_bytes), encoding);
    const LoggerLayout layout = guess_logger_layout(head, encoding, fields);
    static_cast<void>(logger_column_names(head, layout));
    std::size_t at = 0;
    const ByteSource source = [&](char* room, std::size_t space) -> std::optional<std::size_t> {
        const std::size_t count = std::min(space, bytes.size() - at);
        std::memcpy(room, bytes.data() + at, count);
        at += count;
        return count;
    };
    if (const Expected<LoggerTable> table =
            read_logger_table(source, "f.csv", layout, fields, [](std::uint64_t) { return true; }))
        for (std::size_t row = 1; row < table->size(); ++row)
            fuzz::require(table->time_s(row) > table->time_s(row - 1), "times rise");
    return 0;
}
