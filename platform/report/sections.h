// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/context.h"
#include "report/galley.h"

#include <span>

namespace rillmark::report {

/// Adds its chapter to the galley, or nothing where the site has nothing for it.
using Section = void (*)(const Context& context, Galley& galley);

/// Page one, without a chapter title.
void owner_page(const Context& context, Galley& galley);

void ready_section(const Context& context, Galley& galley);
void plan_section(const Context& context, Galley& galley);
void profile_section(const Context& context, Galley& galley);
void power_section(const Context& context, Galley& galley);
void flow_section(const Context& context, Galley& galley);
void heights_section(const Context& context, Galley& galley);
void books_section(const Context& context, Galley& galley);
void notes_section(const Context& context, Galley& galley);
void photos_section(const Context& context, Galley& galley);
void cautions_section(const Context& context, Galley& galley);
void sources_section(const Context& context, Galley& galley);
void file_section(const Context& context, Galley& galley);

/// The chapters behind page one, in their order. A new one is a file of its own and one line of this table.
[[nodiscard]] std::span<const Section> sections();

// What several sections set alike.

/// A table of what made an uncertainty, largest share first; small ones in one line.
void add_budget(const Context& context, Galley& galley, const Budgeted& result, Quantity quantity);
/// Each finding with the source of its limit, worst first.
void add_findings(const Context& context, Galley& galley, const Findings& findings);

} // namespace rillmark::report
