// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/output.h"
#include "export/export_files.h"

#include <filesystem>
#include <string>
#include <vector>

namespace rillmark::desk {

// What each command does; the exit status of the program is what they return. None but merge() and sync_sites()
// write to a file that they read.

int demo(const std::filesystem::path& file, const Manner& manner);
int show(const std::filesystem::path& file, const Manner& manner);
int check(const std::filesystem::path& file, const Manner& manner);
/// Only `mine` is written. Conflicts are told and no reason to fail: the merged file is whole.
int merge(const std::filesystem::path& mine, const std::vector<std::string>& others, bool other_site,
          const Manner& manner);

int export_site(const ExportOrder& order, const Manner& manner);

/// The report of a site as a PDF.
struct ReportCall {
    std::filesystem::path site;
    std::filesystem::path to;
    bool letter = false;          // else A4
    bool chosen_only = false;     // else every alternative
    bool force = false;
    std::string version;
};
int report_site(const ReportCall& call, const Manner& manner);

/// Keeps a folder of sites and a server at the same content.
struct SyncCall {
    std::string server;
    std::filesystem::path folder;
    std::string user;
    std::string password_variable = "RILLMARK_PASSWORD";
    int password_descriptor = -1;
    std::string trusted; // SHA-256 of a certificate trusted by hand
    bool allow_plain = false;
    bool send_new = false;
};
int sync_sites(const SyncCall& call, const Manner& manner);

int list_methods(const Manner& manner);
int list_columns(const std::string& method, const Manner& manner);
/// `file` "-" is standard input; `parameters` are "name=value".
int reduce(const std::string& method, const std::string& file, const std::vector<std::string>& parameters,
           const Manner& manner);

} // namespace rillmark::desk
