// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/logger_guess.h"

#include "units/lower_case.h"
#include "units/typed_text.h"

#include <algorithm>
#include <cctype>

namespace rillmark {

namespace {

constexpr char kSeparators[] = {';', '\t', ',', '|', ' '};
// Our own choice.
constexpr std::size_t kLookedAt = 200;  // lines of the head
constexpr std::size_t kNamesWithin = 3; // lines above the readings in which names and units are sought
constexpr std::string_view kBetweenWords = " ()[]{},;:\t";

using Cells = std::vector<std::string_view>;

struct Word {
    Quantity quantity;
    std::string_view begins; // a word of the name, in small letters
};
// Common words of loggers' headers in English, German, French and Spanish.
constexpr Word kWords[] = {
    {Quantity::Conductivity, "cond"},  {Quantity::Conductivity, "ec"},
    {Quantity::Conductivity, "leitf"}, {Quantity::Conductivity, "lf"},
    {Quantity::Conductivity, "sc"},    {Quantity::Conductivity, "specific"},
    {Quantity::Temperature, "temp"},   {Quantity::Temperature, "wassertemp"},
    {Quantity::Pressure, "press"},     {Quantity::Pressure, "druck"},
    {Quantity::Pressure, "pres"},      {Quantity::Length, "level"},
    {Quantity::Length, "stage"},       {Quantity::Length, "depth"},
    {Quantity::Length, "water"},       {Quantity::Length, "pegel"},
    {Quantity::Length, "wasserstand"}, {Quantity::Length, "niveau"},
    {Quantity::Length, "nivel"},       {Quantity::Length, "hauteur"},
    {Quantity::Discharge, "flow"},     {Quantity::Discharge, "discharge"},
    {Quantity::Discharge, "q"},        {Quantity::Discharge, "abfluss"},
    {Quantity::Discharge, "debit"},    {Quantity::Discharge, "caudal"},
};
constexpr std::string_view kTimeWords[] = {"time", "zeit", "uhrzeit", "heure", "hora", "elapsed", "seconds", "t"};

std::vector<std::string> words_of(std::string_view name) {
    std::vector<std::string> words;
    const std::string plain = plain_text(name).text;
    for (std::size_t at = 0; at < plain.size();) {
        const std::size_t begin = plain.find_first_not_of(kBetweenWords, at);
        if (begin == std::string::npos)
            break;
        const std::size_t end = std::min(plain.find_first_of(kBetweenWords, begin), plain.size());
        words.push_back(plain.substr(begin, end - begin));
        at = end;
    }
    return words;
}

bool is_time_text(std::string_view cell) {
    const bool letters_only_of_clock = cell.find(':') != std::string_view::npos ||
                                       date_s(cell, DateOrder::DayMonthYear) || date_s(cell, DateOrder::MonthDayYear);
    return letters_only_of_clock && !cell.empty() && std::isdigit(static_cast<unsigned char>(cell.front())) != 0;
}

bool is_number(std::string_view cell) {
    return logger_number(cell, '.') || logger_number(cell, ',');
}

/// Whether a line holds readings: most of its cells are times, numbers or empty, two at least are not empty, and one of
/// them is the first or second cell.
bool is_reading(const Cells& cells) {
    const auto tells = [](std::string_view cell) { return is_time_text(cell) || is_number(cell); };
    const auto telling = std::ranges::count_if(cells, tells);
    const auto empty = std::ranges::count_if(cells, &std::string_view::empty);
    return telling >= 2 && 2 * (telling + empty) >= std::ssize(cells) && (tells(cells[0]) || tells(cells[1]));
}

/// The longest run of lines that look like rows of one table under a separator.
struct Run {
    std::size_t first = 0;
    std::size_t length = 0;
    std::size_t cells = 0;
};

Run longest_run(const std::vector<std::string>& lines, char separator) {
    Run best;
    Run now;
    Cells cells;
    for (std::size_t i = 0; i < std::min(lines.size(), kLookedAt); ++i) {
        if (lines[i].find_first_not_of(" \t") == std::string::npos)
            continue;
        split_logger_line(lines[i], separator, cells);
        const bool goes_on = now.length > 0 && now.cells == cells.size();
        // a time without its reading is a gap in the run and does not end it
        if (!is_reading(cells) && !(goes_on && is_time_text(cells[0])))
            now = {};
        else if (goes_on)
            ++now.length;
        else
            now = {i, 1, cells.size()};
        if (now.length > best.length || (now.length == best.length && now.cells > best.cells))
            best = now;
    }
    return best;
}

Run choose_separator(const std::vector<std::string>& lines, LoggerLayout& layout) {
    Run best;
    for (const char separator : kSeparators) {
        const Run run = longest_run(lines, separator);
        // a comma may be a decimal mark, a space may stand between date and time: the earlier in the list has
        // preference
        if (run.cells >= 2 && (best.length == 0 || run.length > 2 * best.length)) {
            best = run;
            layout.separator = separator;
        }
    }
    layout.first_line = static_cast<std::int64_t>(best.first) + 1;
    return best;
}

std::vector<Cells> rows_of(const std::vector<std::string>& lines, const LoggerLayout& layout) {
    std::vector<Cells> rows;
    for (std::size_t i = static_cast<std::size_t>(layout.first_line - 1); i < std::min(lines.size(), kLookedAt); ++i) {
        rows.emplace_back();
        split_logger_line(lines[i], layout.separator, rows.back());
    }
    return rows;
}

void choose_decimal(const std::vector<Cells>& rows, LoggerLayout& layout) {
    for (const Cells& row : rows)
        for (const std::string_view cell : row)
            if (cell.find(',') != std::string_view::npos && logger_number(cell, ',')) {
                layout.decimal = ',';
                return;
            }
}

/// Whether every date of a column reads so.
bool all_dates_read(const std::vector<Cells>& rows, std::size_t column, DateOrder order) {
    return std::ranges::all_of(rows, [&](const Cells& row) {
        return column >= row.size() || date_s(row[column].substr(0, row[column].find_first_of(" T")), order);
    });
}

void choose_time(const std::vector<Cells>& rows, const std::vector<std::string>& names, LoggerLayout& layout) {
    const Cells& first = rows.front();
    std::optional<std::size_t> date;
    std::optional<std::size_t> clock;
    for (std::size_t i = 0; i < first.size(); ++i) {
        if (!is_time_text(first[i]))
            continue;
        const bool has_clock = first[i].find(':') != std::string_view::npos;
        if (has_clock && !clock)
            clock = i;
        else if (!has_clock && !date)
            date = i;
    }
    if (!clock && !date) { // numbers since the start
        for (std::size_t i = 0; i < std::min(names.size(), first.size()); ++i)
            for (const std::string& word : words_of(names[i]))
                if (std::ranges::any_of(kTimeWords, [&](std::string_view known) {
                        return lower_case(word).starts_with(known) &&
                               (known.size() > 1 || word.size() == 1 || word[1] == '_');
                    })) {
                    layout.time_column = i;
                    layout.time_unit =
                        unit_in_name(names[i], Quantity::Time).value_or(entry_unit(Quantity::Time, UnitSystem::Metric));
                    return;
                }
        layout.time_unit = entry_unit(Quantity::Time, UnitSystem::Metric);
        return;
    }
    layout.time_column = clock.value_or(date.value_or(0));
    const bool dated_already =
        clock && first[*clock].substr(0, first[*clock].find_first_of(" T")).find(':') == std::string_view::npos;
    if (clock && date && !dated_already)
        layout.date_column = date;
    const std::size_t dates = layout.date_column.value_or(layout.time_column);
    if (!dated_already && !date)
        return;
    layout.date_order = DateOrder::DayMonthYear;
    for (const DateOrder order : {DateOrder::DayMonthYear, DateOrder::MonthDayYear})
        if (all_dates_read(rows, dates, order)) {
            layout.date_order = order;
            return;
        }
}

int score(std::string_view name, Quantity quantity) {
    int points = quantity != Quantity::Number && unit_in_name(name, quantity) ? 2 : 0;
    for (const std::string& word : words_of(name))
        for (const Word& known : kWords)
            if (known.quantity == quantity && lower_case(word).starts_with(known.begins)) {
                points += 2;
                break;
            }
    return points;
}

void choose_values(const std::vector<Cells>& rows, const std::vector<std::string>& names,
                   std::span<const LoggerField> fields, LoggerLayout& layout) {
    std::vector<bool> taken(names.size(), false);
    for (const std::size_t one : {layout.time_column, layout.date_column.value_or(layout.time_column)})
        if (one < taken.size())
            taken[one] = true;
    const auto numeric = [&](std::size_t column) {
        return std::ranges::any_of(rows, [&](const Cells& row) {
            return column < row.size() && logger_number(row[column], layout.decimal).has_value();
        });
    };
    const bool nameless = std::ranges::all_of(names, [](const std::string& name) { return name.empty(); });
    layout.values.assign(fields.size(), std::nullopt);
    for (std::size_t f = 0; f < fields.size(); ++f) {
        std::optional<std::size_t> best;
        int most = 0;
        for (std::size_t i = 0; i < names.size(); ++i) {
            const int points = nameless ? (fields[f].required ? 1 : 0) : score(names[i], fields[f].quantity);
            if (!taken[i] && points > most && numeric(i)) {
                best = i;
                most = points;
            }
        }
        if (!best)
            continue;
        taken[*best] = true;
        const Unit plain = entry_unit(fields[f].quantity, UnitSystem::Metric);
        layout.values[f] = LoggerColumn{*best, unit_in_name(names[*best], fields[f].quantity).value_or(plain)};
    }
}

} // namespace

std::vector<std::string> logger_head(std::string_view head, TextEncoding encoding) {
    std::size_t given = 0;
    TextLines reader(
        [&](char* room, std::size_t size) -> std::optional<std::size_t> {
            const std::size_t count = std::min(size, head.size() - given);
            head.copy(room, count, given);
            given += count;
            return count;
        },
        encoding, {});
    std::vector<std::string> lines;
    std::string line;
    while (true) {
        const Expected<bool> more = reader.next(line);
        if (!more || !*more)
            break;
        lines.push_back(line);
    }
    const bool cut = head.size() >= kLoggerHead_bytes && !head.ends_with('\n');
    if (cut && lines.size() > 1)
        lines.pop_back();
    return lines;
}

std::optional<Unit> unit_in_name(std::string_view name, Quantity quantity) {
    if (quantity == Quantity::Number)
        return {};
    const std::vector<std::string> words = words_of(name);
    for (std::size_t i = 0; i < words.size(); ++i) {
        std::string spelled = words[i];
        // a bare letter is a unit only behind the name: "T C", not "C"
        if (const std::optional<Unit> unit = find_unit(quantity, spelled); unit && (i > 0 || spelled.size() > 1))
            return unit;
        for (std::size_t at = spelled.find('_'); at != std::string::npos; at = spelled.find('_', at + 1)) {
            std::string rest = spelled.substr(at + 1);
            std::replace(rest.begin(), rest.end(), '_', '/');
            if (const std::optional<Unit> unit = find_unit(quantity, rest))
                return unit;
        }
    }
    return {};
}

std::vector<std::string> logger_column_names(const std::vector<std::string>& lines, const LoggerLayout& layout) {
    const auto first = static_cast<std::size_t>(std::max<std::int64_t>(layout.first_line, 1) - 1);
    Cells row;
    if (first < lines.size())
        split_logger_line(lines[first], layout.separator, row);
    std::vector<std::string> names(row.size());
    Cells above;
    std::size_t found = 0;
    for (std::size_t back = 1; back <= kNamesWithin && back <= first; ++back) {
        split_logger_line(lines[first - back], layout.separator, above);
        if (above.size() < 2 || above.size() > row.size() + 1 || above.size() + 1 < row.size() || is_reading(above))
            continue;
        for (std::size_t i = 0; i < std::min(names.size(), above.size()); ++i)
            if (!above[i].empty())
                names[i] = names[i].empty() ? std::string(above[i]) : std::string(above[i]) + ' ' + names[i];
        if (++found == 2)
            break;
    }
    return names;
}

LoggerLayout guess_logger_layout(const std::vector<std::string>& lines, TextEncoding encoding,
                                 std::span<const LoggerField> fields) {
    LoggerLayout layout;
    layout.encoding = encoding;
    layout.values.assign(fields.size(), std::nullopt);
    const Run run = choose_separator(lines, layout);
    if (run.length == 0)
        return layout;
    const std::vector<Cells> rows = rows_of(lines, layout);
    const std::vector<std::string> names = logger_column_names(lines, layout);
    choose_decimal(rows, layout);
    choose_time(rows, names, layout);
    choose_values(rows, names, fields, layout);
    return layout;
}

} // namespace rillmark
