// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/csv.h"

#include "exchange_fixtures.h"

#include <gtest/gtest.h>

#include <random>

namespace rillmark {
namespace {

using exchange_fixtures::argument;

CsvTable read(const std::string& bytes) {
    const Expected<CsvTable> table = read_csv(bytes, "f.csv");
    EXPECT_TRUE(table.ok()) << (table ? "" : table.error().code);
    return table.value_or({});
}

TEST(Csv, LineEndsOfAllKindsGiveTheSameRows) {
    for (const char* end : {"\n", "\r\n", "\r"}) {
        const std::string e = end;
        const CsvTable table = read("# remark" + e + e + "a,b" + e + "1,2" + e + e + "3,4" + e);
        ASSERT_EQ(table.size(), 2u);
        EXPECT_EQ(table.header_line, 3);
        EXPECT_EQ(table.line(0), 4);
        EXPECT_EQ(table.line(1), 6);
        EXPECT_EQ(table.cell(1, 0), "3");
        EXPECT_EQ(table.cell(1, 1), "4");
    }
}

TEST(Csv, ByteOrderMarkIsPassed) {
    EXPECT_EQ(read("\xEF\xBB\xBF"
                   "depth,time\n1,2")
                  .header[0],
              "depth");
}

TEST(Csv, SeparatorIsTheOneTheHeaderHasMostOf) {
    EXPECT_EQ(read("a;b\n1,5;2\n").cell(0, 0), "1,5");
    EXPECT_EQ(read("a\tb\n1\t2\n").separator, '\t');
    EXPECT_EQ(read("\"a,x,y\";b;c\n1;2;3\n").separator, ';');
    EXPECT_EQ(read("alone\n1\n").cell(0, 0), "1");
}

TEST(Csv, QuotesByRfc4180) {
    const CsvTable table = read("a,b\n\"x, \"\"y\"\"\nz\" , 12\"\nlast,\n");
    EXPECT_EQ(table.cell(0, 0), "x, \"y\"\nz");
    EXPECT_EQ(table.cell(0, 1), "12\"");
    EXPECT_EQ(table.line(1), 4);
    EXPECT_EQ(table.cell(1, 1), "");
}

struct Refused {
    const char* name;
    std::string bytes;
    const char* code;
    int line;
    const char* column; // nullptr: none
};

class CsvRefusal : public testing::TestWithParam<Refused> {};

TEST_P(CsvRefusal, NamesThePlace) {
    const Refused& one = GetParam();
    const Expected<CsvTable> table = read_csv(one.bytes, "f.csv");
    ASSERT_FALSE(table.ok());
    EXPECT_EQ(table.error().code, one.code);
    EXPECT_EQ(argument(table.error(), "file"), "f.csv");
    EXPECT_EQ(argument(table.error(), "line"), std::to_string(one.line));
    EXPECT_EQ(argument(table.error(), "column"), one.column == nullptr ? "" : one.column);
}

std::string wide(std::size_t cells) {
    return std::string(cells - 1, ',') + "\n";
}

INSTANTIATE_TEST_SUITE_P(
    All, CsvRefusal,
    testing::Values(Refused{"empty", "", "exchange.csv_empty", 1, nullptr},
                    Refused{"only_remarks", "# a\n\n", "exchange.csv_empty", 3, nullptr},
                    Refused{"utf16_le",
                            std::string("\xFF\xFE"
                                        "a\0",
                                        4),
                            "exchange.csv_utf16", 1, nullptr},
                    Refused{"utf16_be", std::string("\xFE\xFF\0a", 4), "exchange.csv_utf16", 1, nullptr},
                    Refused{"nul", std::string("a,b\n1,\0\n", 8), "exchange.csv_nul", 2, nullptr},
                    Refused{"latin1", "a,b\n1,2\n\xE9,3\n", "exchange.csv_not_utf8", 3, nullptr},
                    Refused{"quote_open", "a,b\n1,2\n3,\"x\n4,5\n", "exchange.csv_quote_open", 3, "b"},
                    Refused{"after_quote", "a,b\n\"1\"x,2\n", "exchange.csv_after_quote", 2, "a"},
                    Refused{"header_empty", "a,,c\n1,2,3\n", "exchange.csv_header_empty", 1, "2"},
                    Refused{"header_twice", "a,b,A\n1,2,3\n", "exchange.csv_header_twice", 1, "3"},
                    Refused{"no_rows", "# x\na,b\n\n", "exchange.csv_no_rows", 2, nullptr},
                    Refused{"too_few", "a,b,c\n1,2,3\n1,2\n", "exchange.csv_row_width", 3, "c"},
                    Refused{"too_many", "a,b\n1,2,3\n", "exchange.csv_row_width", 2, "3"},
                    Refused{"row_empty", "a,b\n1,2\n , \n", "exchange.csv_row_empty", 3, nullptr},
                    Refused{"columns", wide(kCsvMostColumns + 1), "exchange.csv_too_many_columns", 1, nullptr}),
    [](const auto& one) { return std::string(one.param.name); });

TEST(Csv, LimitsOfSizeAndRows) {
    const std::string large(kCsvLargestFile_bytes + 1, 'a');
    EXPECT_EQ(read_csv(large, "f").error().code, "exchange.csv_too_large");
    std::string rows = "a\n";
    for (std::size_t i = 0; i <= kCsvMostRows; ++i)
        rows += "1\n";
    EXPECT_EQ(read_csv(rows, "f").error().code, "exchange.csv_too_many_rows");
}

// Any bytes give a table whose every cell can be read, or a refusal.
TEST(Csv, RandomBytesNeverBreakThePromise) {
    std::mt19937 random(20260514);
    const std::string letters = "a1,;\t\"\n\r# \xEF\xBB\xBF\xE9";
    for (int i = 0; i < 20000; ++i) {
        std::string bytes(random() % 40, 'a');
        for (char& c : bytes)
            c = letters[random() % letters.size()];
        const Expected<CsvTable> table = read_csv(bytes, "f");
        if (!table)
            continue;
        ASSERT_GT(table->size(), 0u);
        std::size_t letters_read = 0;
        for (std::size_t row = 0; row < table->size(); ++row)
            for (std::size_t column = 0; column < table->header.size(); ++column)
                letters_read += table->cell(row, column).size();
        ASSERT_LT(letters_read, bytes.size()) << bytes;
    }
}

} // namespace
} // namespace rillmark
