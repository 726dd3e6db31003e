// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/sqlite.h"

#include <sqlite3.h>

#include <array>
#include <limits>

namespace rillmark::sqlite {

namespace {

// Short enough not to be felt at the touch screen; the caller asks again.
constexpr int kBusyTimeout_ms = 50;

// Limits for files from elsewhere, well above what we write ourselves: common practice, no source.
constexpr int kMaxValueBytes = 256 * 1024 * 1024; // a photo
constexpr int kMaxStatementBytes = 1'000'000;
constexpr int kMaxColumns = 100;
constexpr int kMaxExpressionDepth = 50;
constexpr int kMaxTriggerDepth = 5;

std::string uri(const std::filesystem::path& path, Access access) {
    static constexpr char kHex[] = "0123456789ABCDEF";
    std::string text = "file:";
    for (const char character : path.string()) {
        const auto byte = static_cast<unsigned char>(character);
        const bool plain = (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z') ||
                           byte == '/' || byte == '.' || byte == '-' || byte == '_';
        if (plain)
            text += character;
        else
            text += {'%', kHex[byte >> 4U], kHex[byte & 15U]};
    }
    switch (access) {
    case Access::Look: return text + "?mode=ro&immutable=1";
    case Access::Read: return text + "?mode=ro";
    case Access::Write: return text + "?mode=rw";
    case Access::Create: return text + "?mode=rwc";
    case Access::Memory: break;
    }
    return ":memory:";
}

int flags(Access access) {
    // NOMUTEX: a connection is used by one thread.
    constexpr int common = SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
    switch (access) {
    case Access::Look:
    case Access::Read: return common | SQLITE_OPEN_READONLY;
    case Access::Write: return common | SQLITE_OPEN_READWRITE;
    case Access::Create:
    case Access::Memory: break;
    }
    return common | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
}

void check(sqlite3* handle, int code) {
    if (code != SQLITE_OK)
        throw SqliteError(handle ? sqlite3_extended_errcode(handle) : code,
                          handle ? sqlite3_errmsg(handle) : sqlite3_errstr(code));
}

} // namespace

// ---- Run ---------------------------------------------------------------------------------------------------------

Run::~Run() {
    sqlite3_reset(m_statement);
    sqlite3_clear_bindings(m_statement);
}

void Run::fail(int code) const {
    sqlite3* handle = sqlite3_db_handle(m_statement);
    throw SqliteError(code, sqlite3_errmsg(handle));
}

void Run::mismatch(int column) const {
    const char* name = sqlite3_column_name(m_statement, column);
    throw SqliteError(SQLITE_MISMATCH, name ? name : "");
}

Run& Run::bind(int index, std::int64_t value) {
    if (const int code = sqlite3_bind_int64(m_statement, index, value); code != SQLITE_OK)
        fail(code);
    return *this;
}

Run& Run::bind(int index, double value) {
    if (const int code = sqlite3_bind_double(m_statement, index, value); code != SQLITE_OK)
        fail(code);
    return *this;
}

Run& Run::bind(int index, std::string_view value) {
    const int code = sqlite3_bind_text64(m_statement, index, value.data() ? value.data() : "", value.size(),
                                         SQLITE_TRANSIENT, SQLITE_UTF8);
    if (code != SQLITE_OK)
        fail(code);
    return *this;
}

Run& Run::bind(int index, std::span<const unsigned char> blob) {
    // A null pointer would bind NULL instead of an empty blob.
    const void* data = blob.empty() ? static_cast<const void*>("") : static_cast<const void*>(blob.data());
    if (const int code = sqlite3_bind_blob64(m_statement, index, data, blob.size(), SQLITE_STATIC);
        code != SQLITE_OK)
        fail(code);
    return *this;
}

Run& Run::bind_null(int index) {
    if (const int code = sqlite3_bind_null(m_statement, index); code != SQLITE_OK)
        fail(code);
    return *this;
}

bool Run::step() {
    const int code = sqlite3_step(m_statement);
    if (code == SQLITE_ROW)
        return true;
    if (code != SQLITE_DONE)
        fail(code);
    return false;
}

bool Run::null(int column) const {
    return sqlite3_column_type(m_statement, column) == SQLITE_NULL;
}

std::int64_t Run::integer(int column) const {
    if (sqlite3_column_type(m_statement, column) != SQLITE_INTEGER)
        mismatch(column);
    return sqlite3_column_int64(m_statement, column);
}

double Run::real(int column) const {
    const int type = sqlite3_column_type(m_statement, column);
    if (type != SQLITE_FLOAT && type != SQLITE_INTEGER)
        mismatch(column);
    return sqlite3_column_double(m_statement, column);
}

std::string Run::text(int column) const {
    if (sqlite3_column_type(m_statement, column) != SQLITE_TEXT)
        mismatch(column);
    const void* bytes = sqlite3_column_text(m_statement, column);
    if (!bytes)
        fail(SQLITE_NOMEM);
    return {static_cast<const char*>(bytes), static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column))};
}

std::string Run::text_or_empty(int column) const {
    return null(column) ? std::string() : text(column);
}

std::span<const unsigned char> Run::blob(int column) const {
    const int type = sqlite3_column_type(m_statement, column);
    if (type == SQLITE_NULL)
        return {};
    if (type != SQLITE_BLOB)
        mismatch(column);
    const void* bytes = sqlite3_column_blob(m_statement, column);
    return {static_cast<const unsigned char*>(bytes),
            bytes ? static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column)) : 0};
}

// ---- Database ----------------------------------------------------------------------------------------------------

void Database::Close::operator()(sqlite3* handle) const {
    sqlite3_close_v2(handle);
}

void Database::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

Database::Database(const std::filesystem::path& path, Access access) {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(uri(path, access).c_str(), &handle, flags(access), nullptr);
    m_handle.reset(handle); // SQLite gives a handle to close even when it could not open the file
    check(handle, code);
    harden();
}

void Database::harden() {
    sqlite3* handle = m_handle.get();
    static constexpr std::array<std::array<int, 2>, 9> kConfig = {{
        {SQLITE_DBCONFIG_DEFENSIVE, 1},
        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
        {SQLITE_DBCONFIG_ENABLE_VIEW, 0},
        {SQLITE_DBCONFIG_ENABLE_TRIGGER, 1},
        {SQLITE_DBCONFIG_ENABLE_FKEY, 1},
        {SQLITE_DBCONFIG_WRITABLE_SCHEMA, 0},
        {SQLITE_DBCONFIG_DQS_DML, 0},
        {SQLITE_DBCONFIG_DQS_DDL, 0},
    }};
    for (const auto& [option, value] : kConfig)
        check(handle, sqlite3_db_config(handle, option, value, nullptr));
    static constexpr std::array<std::array<int, 2>, 7> kLimits = {{
        {SQLITE_LIMIT_LENGTH, kMaxValueBytes},
        {SQLITE_LIMIT_SQL_LENGTH, kMaxStatementBytes},
        {SQLITE_LIMIT_COLUMN, kMaxColumns},
        {SQLITE_LIMIT_EXPR_DEPTH, kMaxExpressionDepth},
        {SQLITE_LIMIT_TRIGGER_DEPTH, kMaxTriggerDepth},
        {SQLITE_LIMIT_ATTACHED, 0},
        {SQLITE_LIMIT_WORKER_THREADS, 0},
    }};
    for (const auto& [limit, value] : kLimits)
        sqlite3_limit(handle, limit, value);
    check(handle, sqlite3_busy_timeout(handle, kBusyTimeout_ms));
    // Random keys touch pages all over a table: a cache below the size of a day's track would write them again and again.
    execute("PRAGMA cache_size = -16000;");
    execute("PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0; PRAGMA temp_store = MEMORY; PRAGMA synchronous = FULL;");
}

Run Database::run(const std::string& sql) {
    auto found = m_statements.find(sql);
    if (found == m_statements.end()) {
        sqlite3_stmt* statement = nullptr;
        check(m_handle.get(), sqlite3_prepare_v3(m_handle.get(), sql.c_str(), static_cast<int>(sql.size()) + 1,
                                                 SQLITE_PREPARE_PERSISTENT, &statement, nullptr));
        found = m_statements.emplace(sql, statement).first;
    }
    return Run(found->second.get());
}

void Database::execute(const std::string& sql) {
    check(m_handle.get(), sqlite3_exec(m_handle.get(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::integer(const std::string& sql) {
    Run query = run(sql);
    if (!query.step())
        throw SqliteError(SQLITE_CORRUPT, sql);
    return query.integer(0);
}

std::string Database::text(const std::string& sql) {
    Run query = run(sql);
    if (!query.step())
        throw SqliteError(SQLITE_CORRUPT, sql);
    return query.text(0);
}

void Database::touch() {
    run("SELECT count(*) FROM sqlite_schema").step();
}

bool Database::in_transaction() const {
    return sqlite3_get_autocommit(m_handle.get()) == 0;
}

bool Database::read_only() const {
    return sqlite3_db_readonly(m_handle.get(), "main") == 1;
}

void Database::allow_attach(bool allow) {
    sqlite3_limit(m_handle.get(), SQLITE_LIMIT_ATTACHED, allow ? 1 : 0);
}

// ---- Transaction -------------------------------------------------------------------------------------------------

Transaction::Transaction(Database& database) : m_database(database) {
    m_database.run("BEGIN IMMEDIATE").step();
}

Transaction::~Transaction() {
    // SQLite may have rolled back by itself already (full disk, I/O error).
    if (!m_open || !m_database.in_transaction())
        return;
    try {
        m_database.run("ROLLBACK").step();
    } catch (const SqliteError&) {
        // Nothing was committed, and the connection rolls back when it closes.
    }
}

void Transaction::commit() {
    m_database.run("COMMIT").step();
    m_open = false;
}

} // namespace rillmark::sqlite
