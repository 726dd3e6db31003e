// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"

#ifdef RILLMARK_SYNC
#include "sync/folder_sync.h"

#include <QCoreApplication>

#include <termios.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <cstdlib>
#include <iostream>
#endif

namespace rillmark::desk {

#ifdef RILLMARK_SYNC

namespace {

std::atomic<bool> g_stop = false; // set by a signal, the one thing a handler may do

/// Reads up to the first line end; the descriptor may be a pipe, a file or a terminal.
std::string read_line(int descriptor) {
    constexpr std::size_t kLongest = 4096;
    std::string line;
    char one = 0;
    while (line.size() < kLongest && ::read(descriptor, &one, 1) == 1 && one != '\n')
        line += one;
    if (line.ends_with('\r'))
        line.pop_back();
    return line;
}

std::string prompt(const std::string& user) {
    std::cerr << "Password of " << user << ": " << std::flush;
    termios before{};
    const bool hidden = ::tcgetattr(STDIN_FILENO, &before) == 0;
    termios silent = before;
    silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    if (hidden)
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    std::string line = read_line(STDIN_FILENO);
    if (hidden)
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
    std::cerr << '\n';
    return line;
}

/// Never an argument: those can be read by every user of the machine.
Expected<std::string> password_of(const SyncCall& call) {
    if (call.user.empty())
        return std::string();
    if (call.password_descriptor >= 0)
        return read_line(call.password_descriptor);
    if (const char* given = std::getenv(call.password_variable.c_str()))
        return std::string(given);
    if (::isatty(STDIN_FILENO) == 0)
        return refusal("exchange.sync_no_password", {}, {{"parameter", call.password_variable}});
    return prompt(call.user);
}

Expected<sync::FolderOrder> order_of(const SyncCall& call) {
    const Expected<sync::ServerAddress> server = sync::parse_server_address(call.server, call.allow_plain);
    if (!server) {
        Finding wrong = server.error();
        wrong.args.push_back({"parameter", std::string("URL")});
        return wrong;
    }
    std::error_code ignored;
    if (!std::filesystem::is_directory(call.folder, ignored))
        return refusal("exchange.sync_no_folder", call.folder.string(), {{"parameter", std::string("FOLDER")}});
    if (Expected<void> user = sync::check_user_name(call.user); !user)
        return user.error();
    const Expected<std::string> password = password_of(call);
    if (!password)
        return password.error();
    sync::FolderOrder order;
    order.server = *server;
    order.access.user = QString::fromStdString(call.user);
    order.access.password = QString::fromStdString(*password);
    order.access.trusted_sha256 = QByteArray::fromStdString(call.trusted).replace(':', "").toLower();
    order.folder = call.folder;
    order.send_new = call.send_new;
    return order;
}

nlohmann::json json_of(const sync::FolderOutcome& one) {
    std::int64_t rows = 0;
    for (const MergeReport::Added& added : one.outcome.merged.added)
        rows += added.rows;
    Findings findings;
    if (one.outcome.refusal)
        findings.push_back(*one.outcome.refusal);
    return {{"site", one.site_id},
            {"file", one.file.string()},
            {"state", one.outcome.refusal ? "failed"
                      : one.only_here     ? "only here"
                                          : "current"},
            {"made_here", one.made_here},
            {"sent", one.outcome.sent},
            {"rows_taken_in", rows},
            {"values_taken_in", one.outcome.merged.changed_cells},
            {"conflicts", one.outcome.merged.conflicts.size()},
            {"findings", to_json(findings)}};
}

std::string said(const sync::FolderOutcome& one) {
    if (one.only_here)
        return "only here; --send-new sends it";
    std::string text = one.made_here                ? "fetched"
                       : one.outcome.merged.changed ? "what others found is taken in"
                                                    : "nothing new there";
    text += one.outcome.sent ? ", sent" : ", nothing to send";
    if (!one.outcome.merged.conflicts.empty())
        text +=
            ", said differently: " + std::to_string(one.outcome.merged.conflicts.size()) + " (settle them in the app)";
    return text;
}

void print(const sync::FolderReport& report, const Manner& manner) {
    for (const sync::FolderOutcome& one : report.sites)
        if (one.outcome.refusal)
            std::cerr << one.file.string() << ": " << sentence(*one.outcome.refusal, manner) << '\n';
        else
            std::cout << one.file.string() << ": " << said(one) << '\n';
}

bool may_pass(const Finding& finding) {
    for (const char* code :
         {"exchange.server_unknown", "exchange.server_unreachable", "exchange.server_silent", "exchange.server_cut",
          "exchange.server_locked", "exchange.server_trouble", "exchange.server_overtaken", "exchange.sync_cancelled"})
        if (finding.code == code)
            return true;
    return false;
}

int status_of(const sync::FolderReport& report) {
    int status = kDone;
    for (const sync::FolderOutcome& one : report.sites)
        if (one.outcome.refusal && status != kDataProblem)
            status = may_pass(*one.outcome.refusal) ? kTryAgain : kDataProblem;
    return status;
}

} // namespace

int sync_sites(const SyncCall& call, const Manner& manner) {
    const Expected<sync::FolderOrder> order = order_of(call);
    if (!order)
        return refuse(order.error(), manner);
    int count = 1;
    char name[] = "rillmark-desk";
    char* arguments[] = {name, nullptr};
    const QCoreApplication application(count, arguments);
    std::signal(SIGINT, [](int) { g_stop = true; });
    std::signal(SIGTERM, [](int) { g_stop = true; });

    sync::SiteHooks hooks;
    const bool terminal = isatty(STDERR_FILENO) != 0;
    if (terminal)
        hooks.doing = [](const char* code, const std::optional<Finding>&) { std::cerr << "  " << word(code) << '\n'; };
    const sync::FolderReport report =
        sync::sync_folder(*order, hooks, g_stop, [terminal](const std::filesystem::path& file) {
            if (terminal)
                std::cerr << file.string() << '\n';
        });
    if (!report.fingerprint.isEmpty())
        std::cerr << "rillmark-desk: SHA-256 of the certificate: " << report.fingerprint.toStdString() << '\n';
    if (report.refusal) {
        const int status = refuse(*report.refusal, manner);
        return may_pass(*report.refusal) ? kTryAgain : status;
    }
    if (manner.json) {
        nlohmann::json sites = nlohmann::json::array();
        for (const sync::FolderOutcome& one : report.sites)
            sites.push_back(json_of(one));
        print_json({{"server", sync::url_of(order->server)},
                    {"sites", std::move(sites)},
                    {"findings", nlohmann::json::array()}});
    } else {
        print(report, manner);
    }
    return status_of(report);
}

#else

int sync_sites(const SyncCall& call, const Manner& manner) {
    return refuse(refusal("exchange.no_sync_here", call.server), manner);
}

#endif

} // namespace rillmark::desk
