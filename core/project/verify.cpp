// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/verify.h"

#include "embedded_text.h"
#include "project/geometry.h"
#include "project/open_checks.h"
#include "project/sqlite_finding.h"
#include "project/tables.h"

#include <set>

namespace rillmark {

namespace {

using sqlite::Database;
using sqlite::Run;

// Enough to see what is wrong; a broken file can hold one fault a row.
constexpr int kMostFindings = 100;

class Inspection {
public:
    Inspection(Database& database, std::string where) : m_database(database), m_where(std::move(where)) {}

    Findings run() {
        for (const auto part : {&Inspection::pages, &Inspection::references, &Inspection::schema,
                                &Inspection::registration, &Inspection::descriptions, &Inspection::geometries,
                                &Inspection::strike_outs}) {
            const auto done = guarded(m_where, [&] { (this->*part)(); });
            if (!done)
                add(done.error());
        }
        return std::move(m_findings);
    }

private:
    Database& m_database;
    std::string m_where;
    Findings m_findings;

    void add(Finding finding) {
        if (m_findings.size() < kMostFindings)
            m_findings.push_back(std::move(finding));
    }

    void pages() {
        Run run = m_database.run("PRAGMA integrity_check(" + std::to_string(kMostFindings) + ")");
        while (run.step())
            if (const std::string line = run.text(0); line != "ok")
                add(refusal("project.damaged", m_where, {{"detail", line, Quantity::Number}}));
    }

    void references() {
        Run run = m_database.run("PRAGMA foreign_key_check");
        while (run.step())
            add(refusal("project.broken_reference", run.text(0),
                        {{"table", run.text(0), Quantity::Number},
                         {"id", run.null(1) ? Id{0} : run.integer(1), Quantity::Number},
                         {"parent", run.text(2), Quantity::Number}}));
    }

    void schema() {
        if (const auto state = check_schema(m_database, migration_steps(schema_texts()), m_where); !state)
            add(state.error());
    }

    void registration() {
        std::set<std::string> features;
        std::set<std::string> registered;
        {
            Run run = m_database.run("SELECT table_name, data_type FROM gpkg_contents");
            while (run.step()) {
                registered.insert(run.text(0));
                if (run.text(1) == "features")
                    features.insert(run.text(0));
            }
        }
        {
            Run run = m_database.run("SELECT table_name FROM gpkg_extensions WHERE extension_name = 'related_tables' "
                                     "AND table_name IN (SELECT mapping_table_name FROM gpkgext_relations)");
            while (run.step())
                registered.insert(run.text(0));
        }
        std::set<std::string> with_geometry;
        {
            Run run = m_database.run("SELECT table_name FROM gpkg_geometry_columns WHERE column_name = 'geom' AND "
                                     "geometry_type_name = 'POINT' AND srs_id = 4326");
            while (run.step())
                with_geometry.insert(run.text(0));
        }
        for (const Table& table : tables())
            if (!registered.contains(table.name) || features.contains(table.name) != table.geometry ||
                with_geometry.contains(table.name) != table.geometry)
                add(refusal("project.not_registered", table.name, {{"table", table.name, Quantity::Number}}));
    }

    void descriptions() {
        std::set<std::pair<std::string, std::string>> described;
        {
            Run run = m_database.run("SELECT table_name, column_name FROM gpkg_data_columns "
                                     "WHERE title <> '' AND description <> ''");
            while (run.step())
                described.emplace(run.text(0), run.text(1));
        }
        for (const Table& table : tables())
            for (const TableColumn& column : table.columns)
                if (!described.contains({table.name, column.name}))
                    add(refusal("project.not_described", table.name + "." + column.name,
                                {{"table", table.name, Quantity::Number}, {"column", column.name, Quantity::Number}}));
    }

    void geometries() {
        for (const Table& table : tables()) {
            if (!table.geometry)
                continue;
            Run run = m_database.run("SELECT id, geom, longitude_deg, latitude_deg FROM " + table.name);
            while (run.step())
                if (!geometry_agrees(run))
                    add(refusal("project.geometry_differs", table.name,
                                {{"table", table.name, Quantity::Number}, {"id", run.integer(0), Quantity::Number}}));
        }
    }

    static bool geometry_agrees(const Run& run) {
        if (run.null(1) || run.null(2) || run.null(3))
            return run.null(1) && run.null(2) && run.null(3);
        const auto point = read_point_blob(run.blob(1));
        return point && point->longitude_deg == run.real(2) && point->latitude_deg == run.real(3);
    }

    /// strike_out names its row by table and key, which no foreign key can guard.
    void strike_outs() {
        std::set<std::pair<std::string, Id>> struck;
        {
            Run run = m_database.run("SELECT struck_table, struck_id FROM strike_out");
            while (run.step())
                struck.emplace(run.text(0), run.integer(1));
        }
        for (const auto& [name, id] : struck) {
            bool found = false;
            if (const Table* table = find_table(name); table && table->sort != Table::Sort::Bookkeeping) {
                Run run = m_database.run("SELECT 1 FROM " + name + " WHERE id = ?");
                found = run.bind(1, id).step();
            }
            if (!found)
                add(refusal("project.broken_reference", "strike_out",
                            {{"table", std::string("strike_out"), Quantity::Number},
                             {"id", id, Quantity::Number},
                             {"parent", name, Quantity::Number}}));
        }
    }
};

} // namespace

Findings verify_database(Database& database, const std::string& where) {
    return Inspection(database, where).run();
}

} // namespace rillmark
