// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QProcess>
#include <QString>
#include <QTemporaryDir>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

namespace rillmark::testing {

/// The servers that Debian brings, started on the loopback at a free port with a configuration, a log and a folder of
/// their own. They stop with the object. User "ann", password "kolibri-4711".
class RealServer {
public:
    enum class Kind { Apache, Nginx };
    struct Manner {
        bool password = false;
        bool tls = false;  // with a certificate made for the occasion
        bool locks = true; // nginx only: Apache always has them
        bool moves = true; // nginx only
    };
    explicit RealServer(Kind kind) : RealServer(kind, Manner{}) {}
    RealServer(Kind kind, Manner manner);
    ~RealServer();
    RealServer(const RealServer&) = delete;
    RealServer& operator=(const RealServer&) = delete;

    /// Why it does not run; empty when it does.
    [[nodiscard]] const std::string& problem() const { return m_problem; }
    [[nodiscard]] bool missing() const { return m_missing; } // its package is not installed
    [[nodiscard]] std::uint16_t port() const { return m_port; }
    [[nodiscard]] std::string url() const;
    /// The folder that it shows.
    [[nodiscard]] std::filesystem::path root() const { return m_root; }
    /// SHA-256 of its certificate, hexadecimal.
    [[nodiscard]] const std::string& fingerprint() const { return m_fingerprint; }

private:
    void start_apache();
    void start_nginx();
    bool make_certificate();
    void launch(const QString& program, const QStringList& arguments);
    [[nodiscard]] QString in(const char* name) const { return m_folder.filePath(QString::fromLatin1(name)); }

    Manner m_manner;
    QTemporaryDir m_folder;
    std::filesystem::path m_root;
    QProcess m_process;
    std::uint16_t m_port = 0;
    std::string m_problem;
    bool m_missing = false;
    std::string m_fingerprint;
};

/// A port of the loopback that is free now.
[[nodiscard]] std::uint16_t free_port();

} // namespace rillmark::testing
