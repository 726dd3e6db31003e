// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kOwn = "our own choice";

// The place in the file (file, line, column) is said in front of these sentences.
constexpr Word kWords[] = {
    {"exchange.line_too_long",
     RILLMARK_TR(
         "A line here is longer than any logger writes. Look at how the letters are written (UTF-8, UTF-16), or choose "
         "another file."),
     kOwn},
    {"exchange.logger_column_not_chosen",
     RILLMARK_TR("No column is chosen for: {where}. Choose one, or another separator."), ""},
    {"exchange.logger_no_rows",
     RILLMARK_TR("There is no reading from line {first_line} on. Choose the first line of readings and the separator."),
     ""},
    {"exchange.logger_row_short",
     RILLMARK_TR("This line has {cells} cells, fewer than the columns chosen. Look at the separator, choose a later "
                 "first line, or "
                 "let lines that cannot be read be left out."),
     ""},
    {"exchange.logger_time_unreadable",
     RILLMARK_TR("\"{cell}\" is not a time in the way chosen. Look at the column of the time and the order of the "
                 "date, or let lines "
                 "that cannot be read be left out."),
     ""},
    {"exchange.logger_not_a_number",
     RILLMARK_TR("\"{cell}\" is not a number. Look at the decimal mark, or let lines that cannot be read be left out."),
     ""},
    {"exchange.logger_time_twice",
     RILLMARK_TR("The time {cell} stands on line {before_line} too. Export the file with seconds, or take one of the "
                 "lines out."),
     ""},
    {"exchange.logger_time_backwards",
     RILLMARK_TR("The clock runs back by {back} from line {before_line} to {cell}. Was it set, or did summer time end? "
                 "Divide the "
                 "file there; look at the order of the date, too."),
     ""},
    {"exchange.logger_too_many_rows",
     RILLMARK_TR("This file has more than {limit} readings. Cut it to the time that you need."), kOwn},
    {"exchange.logger_cancelled", RILLMARK_TR("The reading of {where} was ended. Nothing was taken from it."), ""},
    {"exchange.logger_lines_left_out",
     RILLMARK_TR("{count} lines could not be read and are left out, the first of them here."), ""},
    {"exchange.logger_missing",
     RILLMARK_TR("{count} cells are empty or say that there is no value; they are taken as missing."), ""},
    {"exchange.logger_midnight",
     RILLMARK_TR("The clock runs over midnight {count} times, first here; the times go on."), ""},
    {"exchange.logger_gaps",
     RILLMARK_TR("{count} gaps: steps longer than the usual {step}, the longest of {longest} before this line."),
     "common practice, no source"},
    {"exchange.logger_uneven", RILLMARK_TR("The steps are unequal: from {shortest} on, {step} for most."),
     "common practice, no source"},
};

} // namespace

std::span<const Word> logger_words() {
    return kWords;
}

} // namespace rillmark::words
