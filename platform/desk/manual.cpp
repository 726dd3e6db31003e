// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/manual.h"

#include <CLI/CLI.hpp>

#include <sstream>

namespace rillmark::desk {

namespace {

/// What groff would take for its own: backslashes, hyphens of options, and a point or quote that begins a line.
std::string roff(const std::string& text) {
    std::string safe;
    bool line_begins = true;
    for (const char letter : text) {
        if (line_begins && (letter == '.' || letter == '\''))
            safe += "\\&";
        if (letter == '\\')
            safe += "\\e";
        else if (letter == '-')
            safe += "\\-";
        else
            safe += letter;
        line_begins = letter == '\n';
    }
    return safe;
}

/// "--to TEXT" or "FILE".
std::string spelled(const CLI::Option& option) {
    if (option.get_positional())
        return option.get_name(true);
    std::string text = option.get_name(false, true);
    if (option.get_expected_max() > 0 && !option.get_type_name().empty())
        text += " " + option.get_type_name();
    return text;
}

std::string synopsis(const CLI::App& command) {
    std::string line;
    for (const CLI::Option* option : command.get_options()) {
        if (!option->get_positional())
            continue;
        const std::string name = option->get_name(true) + (option->get_expected_max() > 1 ? "..." : "");
        line += option->get_required() ? " " + name : " [" + name + "]";
    }
    return line;
}

void write_options(std::ostream& out, const CLI::App& command) {
    for (const CLI::Option* option : command.get_options())
        out << ".TP\n.B " << roff(spelled(*option)) << '\n' << roff(option->get_description()) << '\n';
}

void write_paragraphs(std::ostream& out, const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        out << (line.empty() ? ".PP" : roff(line)) << '\n' << (line.starts_with(' ') ? ".br\n" : "");
}

/// The choices in the type of an option, "TEXT:{a,b}", as words.
std::string choices(const CLI::Option& option) {
    const std::string type = option.get_type_name();
    const std::size_t from = type.find('{');
    const std::size_t to = type.rfind('}');
    if (from == std::string::npos || to == std::string::npos || to < from)
        return {};
    std::string words = type.substr(from + 1, to - from - 1);
    for (char& letter : words)
        if (letter == ',')
            letter = ' ';
    return words;
}

std::string option_words(const CLI::App& command) {
    std::string words;
    for (const CLI::Option* option : command.get_options())
        for (const std::string& name : option->get_lnames())
            words += (words.empty() ? "--" : " --") + name;
    return words;
}

} // namespace

std::string manual_page(const CLI::App& app, const std::string& version) {
    std::ostringstream out;
    out << ".\\\" SPDX-License-Identifier: GPL-3.0-or-later\n.\\\" Made by rillmark-desk --manual; do not edit.\n"
        << ".TH RILLMARK\\-DESK 1 \"\" \"rillmark " << roff(version) << "\" \"User Commands\"\n.SH NAME\n"
        << "rillmark\\-desk \\- work on project files of creek surveys\n.SH SYNOPSIS\n";
    for (const CLI::App* command : app.get_subcommands(nullptr))
        out << ".B rillmark\\-desk " << roff(command->get_name()) << "\n.RI " << '"' << "[options]"
            << roff(synopsis(*command)) << "\"\n.br\n";
    out << ".SH DESCRIPTION\n";
    write_paragraphs(out, app.get_description());
    out << ".SH OPTIONS\nThese may stand before or behind the command.\n";
    write_options(out, app);
    out << ".SH COMMANDS\n";
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        out << ".SS \"" << roff(command->get_name() + synopsis(*command)) << "\"\n";
        write_paragraphs(out, command->get_description());
        write_options(out, *command);
        if (const std::string footer = command->get_footer(); !footer.empty()) {
            out << ".PP\n";
            write_paragraphs(out, footer);
        }
    }
    out << ".SH EXIT STATUS\n";
    write_paragraphs(out, app.get_footer());
    return out.str();
}

std::string bash_completion(const CLI::App& app) {
    std::ostringstream out;
    std::string names;
    for (const CLI::App* command : app.get_subcommands(nullptr))
        names += (names.empty() ? "" : " ") + command->get_name();
    out << "# SPDX-License-Identifier: GPL-3.0-or-later\n# Made by rillmark-desk --completion; do not edit.\n"
        << "_rillmark_desk() {\n"
        << "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= one words= values=\n"
        << "    for one in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
        << "        case $one in -*) ;; *) command=$one; break ;; esac\n    done\n    case $command in\n"
        << "        '') words='" << names << " " << option_words(app) << "' ;;\n";
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        out << "        " << command->get_name() << ")\n            words='" << option_words(*command) << " "
            << option_words(app) << "'\n";
        for (const CLI::Option* option : command->get_options()) {
            const std::string taken = choices(*option);
            if (taken.empty())
                continue;
            if (option->get_positional())
                out << "            [ \"$before\" = " << command->get_name() << " ] && values='" << taken << "'\n";
            else
                out << "            [ \"$before\" = --" << option->get_lnames().front() << " ] && values='" << taken
                    << "'\n";
        }
        out << "            ;;\n";
    }
    out << "    esac\n    COMPREPLY=()\n    if [ -n \"$values\" ]; then\n"
        << "        mapfile -t COMPREPLY < <(compgen -W \"$values\" -- \"$word\")\n"
        << "    elif [ -z \"$command\" ] || [ \"${word:0:1}\" = - ]; then\n"
        << "        mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
        << "    else\n        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n    fi\n}\n"
        << "complete -o filenames -F _rillmark_desk rillmark-desk\n";
    return out.str();
}

} // namespace rillmark::desk
