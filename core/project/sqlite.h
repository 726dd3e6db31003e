// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <exception>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

/// SQLite for core/project alone. These classes throw SqliteError; Project turns it into a Finding (sqlite_finding.h).
namespace rillmark::sqlite {

class SqliteError : public std::exception {
public:
    SqliteError(int extended_code, std::string message) : m_code(extended_code), m_message(std::move(message)) {}
    [[nodiscard]] int extended_code() const { return m_code; }
    [[nodiscard]] int code() const { return m_code & 0xff; }
    [[nodiscard]] const char* what() const noexcept override { return m_message.c_str(); }

private:
    int m_code;
    std::string m_message;
};

enum class Access {
    Look,      // read only, nothing is written beside the file; only sound while no side file lies beside it
    Read,      // read only, sees what is in the -wal file
    Write,     // an existing file
    Create,    // a new file
    Memory,    // no file
};

/// A prepared statement of the database's cache, lent out for one use: reset when it goes out of scope, so that no
/// read lock stays behind.
class Run {
public:
    explicit Run(sqlite3_stmt* statement) : m_statement(statement) {}
    Run(const Run&) = delete;
    Run& operator=(const Run&) = delete;
    ~Run();

    // Parameters count from 1. An empty optional is NULL.
    Run& bind(int index, std::int64_t value);
    Run& bind(int index, double value);
    Run& bind(int index, std::string_view value);
    Run& bind(int index, std::span<const unsigned char> blob); // not copied: must live as long as the run
    Run& bind_null(int index);
    template <class T>
    Run& bind(int index, const std::optional<T>& value) {
        return value ? bind(index, *value) : bind_null(index);
    }

    /// True while there is a row.
    bool step();

    // Columns count from 0. A value of another type than asked for means a damaged file: they throw SQLITE_MISMATCH.
    [[nodiscard]] bool null(int column) const;
    [[nodiscard]] std::int64_t integer(int column) const;
    [[nodiscard]] double real(int column) const;
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::string text_or_empty(int column) const; // NULL as ""
    [[nodiscard]] std::span<const unsigned char> blob(int column) const; // until the next step; NULL as empty

private:
    sqlite3_stmt* m_statement;
    [[noreturn]] void fail(int code) const;
    [[noreturn]] void mismatch(int column) const;
};

/// One connection, hardened against what a foreign file may hold. Not for use from two threads at once.
class Database {
public:
    Database(const std::filesystem::path& path, Access access);

    /// A statement of the cache, prepared on first use.
    [[nodiscard]] Run run(const std::string& sql);
    /// Runs one or more statements without results.
    void execute(const std::string& sql);
    /// The first column of the first row; refuses a statement without a row.
    [[nodiscard]] std::int64_t integer(const std::string& sql);
    [[nodiscard]] std::string text(const std::string& sql);

    /// Reads the schema, so that a file that cannot be read shows itself now.
    void touch();

    [[nodiscard]] bool in_transaction() const;
    [[nodiscard]] bool read_only() const;
    /// Allows the one attached database that VACUUM INTO needs.
    void allow_attach(bool allow);

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    // The statements go before the connection: members are destroyed in reverse order.
    std::unique_ptr<sqlite3, Close> m_handle;
    std::map<std::string, std::unique_ptr<sqlite3_stmt, Finalize>, std::less<>> m_statements;

    void harden();
};

/// BEGIN IMMEDIATE; rolled back when it goes out of scope without commit().
class Transaction {
public:
    explicit Transaction(Database& database);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

private:
    Database& m_database;
    bool m_open = true;
};

} // namespace rillmark::sqlite
