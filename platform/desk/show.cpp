// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/commands.h"
#include "project/project.h"
#include "site/readiness.h"
#include "site/site_estimate.h"

#include <algorithm>
#include <iostream>

namespace rillmark::desk {

namespace {

/// All that is known of one site.
struct Site {
    Survey survey;
    SiteEstimate estimate;
};

struct Link {
    const char* name;
    const char* label;
    Quantity quantity;
    std::optional<Estimate> value;
};

std::vector<Link> links_of(const ChainResult& chain) {
    std::optional<Estimate> house;
    if (chain.house_W)
        house = chain.house_W->estimate;
    return {{"gross_head", "gross head", Quantity::Length, chain.gross_head_m},
            {"flow", "flow", Quantity::Discharge, chain.flow_m3s},
            {"pipe_speed", "speed in the pipe", Quantity::Velocity, chain.pipe_speed_ms},
            {"friction_loss", "friction loss", Quantity::Length, chain.friction_loss_m},
            {"minor_loss", "minor losses", Quantity::Length, chain.minor_loss_m},
            {"net_head", "net head", Quantity::Length, chain.net_head_m},
            {"gross_power", "water power of the gross head", Quantity::Power, chain.gross_W},
            {"net_power", "water power at the turbine", Quantity::Power, chain.net_W},
            {"shaft_power", "shaft", Quantity::Power, chain.shaft_W},
            {"generator_power", "generator", Quantity::Power, chain.generator_W},
            {"cable_loss", "lost in the cable", Quantity::Power, chain.cable_loss_W},
            {"cable_drop", "voltage drop", Quantity::Voltage, chain.cable_drop_V},
            {"house_power", "watts at the house", Quantity::Power, house}};
}

std::optional<Estimate> of_station(const std::map<Id, Estimate>& known, Id station) {
    const auto hit = known.find(station);
    return hit == known.end() ? std::nullopt : std::optional(hit->second);
}

std::optional<Estimate> discharge_of(const TestResult& test) {
    return test.discharge ? std::optional(test.discharge->estimate) : std::nullopt;
}

std::string method_name(const FlowTestRow& test) {
    const std::optional<FlowMethod> method = flow_method_from_id(test.method);
    return method ? word(flow_method_info(*method).name_code) : test.method;
}

std::string day_of(const std::string& time) {
    return time.substr(0, time.find('T'));
}

/// What the estimate as a whole has to say, what stands under several of its parts once.
Findings findings_of(const Site& site) {
    Findings all;
    const auto add = [&](const Findings& findings) {
        for (const Finding& finding : findings) {
            const bool known = std::any_of(all.begin(), all.end(), [&](const Finding& one) {
                return one.code == finding.code && one.where == finding.where;
            });
            if (!known)
                all.push_back(finding);
        }
    };
    add(site.estimate.heights.findings);
    add(site.estimate.head_doubts);
    add(site.estimate.flow.findings);
    add(site.estimate.chosen.findings);
    add(site.estimate.chosen.result.findings);
    return all;
}

nlohmann::json readiness_json(const Site& site) {
    nlohmann::json list = nlohmann::json::array();
    for (const ReadinessItem& item : readiness(site.survey, site.estimate)) {
        nlohmann::json answer = nullptr;
        if (item.answer)
            answer = {{"verdict", item.answer->verdict}, {"text", item.answer->text}, {"at", item.answer->observed_at}};
        list.push_back({{"key", item.ask.key},
                        {"state", readiness_id(item.state)},
                        {"what", word(item.code)},
                        {"why", item.why.empty() ? "" : word(item.why)},
                        {"answer", std::move(answer)}});
    }
    return list;
}

nlohmann::json site_json(const Site& site) {
    const Survey& survey = site.survey;
    const SiteEstimate& estimate = site.estimate;
    nlohmann::json json{
        {"site", {{"name", survey.site.name}, {"owner", survey.site.owner}, {"note", survey.site.note}}}};
    json["stations"] = nlohmann::json::array();
    for (const Booked<StationRow>& one : survey.stations) {
        if (one.struck)
            continue;
        nlohmann::json station{{"name", one.row.name}, {"kind", one.row.kind}};
        if (one.row.latitude_deg && one.row.longitude_deg) {
            station["latitude_deg"] = *one.row.latitude_deg;
            station["longitude_deg"] = *one.row.longitude_deg;
        }
        station["height"] = to_json(of_station(estimate.heights.height, one.row.id), Quantity::Length);
        station["fall_below_intake"] = to_json(of_station(estimate.heights.fall, one.row.id), Quantity::Length);
        json["stations"].push_back(std::move(station));
    }
    if (const std::optional<RunningHead>& head = estimate.heights.running_head) {
        json["head"] = to_json(head->head.estimate, Quantity::Length);
        json["head"].update({{"from", head->from}, {"to", head->to}, {"checked", head->checked}});
    } else {
        json["head"] = nullptr;
    }
    json["flow_tests"] = nlohmann::json::array();
    for (const TestResult& test : estimate.flow.tests) {
        const FlowTestRow* row = survey.test(test.test_id);
        json["flow_tests"].push_back({{"name", row->name},
                                      {"method", row->method},
                                      {"date", day_of(row->created_at)},
                                      {"counts", row->counts},
                                      {"discharge", to_json(discharge_of(test), Quantity::Discharge)},
                                      {"findings", to_json(test.findings)}});
    }
    json["flow_to_use"] = nullptr;
    if (estimate.flow.to_use)
        json["flow_to_use"] = to_json(estimate.flow.to_use->discharge.estimate, Quantity::Discharge);
    const AlternativeRow* alternative = survey.alternative();
    json["alternative"] = alternative == nullptr ? nlohmann::json(nullptr) : nlohmann::json(alternative->name);
    for (const Link& link : links_of(estimate.chosen.result))
        json["chain"][link.name] = to_json(link.value, link.quantity);
    json["readiness"] = readiness_json(site);
    json["findings"] = to_json(findings_of(site));
    return json;
}

void print_stations(const Site& site, const Manner& manner) {
    std::vector<std::vector<std::string>> rows{{"station", "kind", "height", "fall below the intake"}};
    for (const Booked<StationRow>& one : site.survey.stations)
        if (!one.struck)
            rows.push_back({one.row.name, one.row.kind,
                            shown(of_station(site.estimate.heights.height, one.row.id), Quantity::Length, manner),
                            shown(of_station(site.estimate.heights.fall, one.row.id), Quantity::Length, manner)});
    std::cout << "\nStations (" << rows.size() - 1 << ")\n";
    if (rows.size() > 1)
        print_table(rows);
}

void print_head(const Site& site, const Manner& manner) {
    std::cout << "\nHead\n";
    const std::optional<RunningHead>& head = site.estimate.heights.running_head;
    if (!head)
        std::cout << "  –\n";
    else
        print_table({{head->from + " to " + head->to, shown(head->head.estimate, Quantity::Length, manner),
                      head->checked ? "checked" : "unchecked"}});
}

void print_flow(const Site& site, const Manner& manner) {
    std::cout << "\nFlow\n";
    std::vector<std::vector<std::string>> rows;
    for (const TestResult& test : site.estimate.flow.tests) {
        const FlowTestRow* row = site.survey.test(test.test_id);
        rows.push_back({row->name, shown(discharge_of(test), Quantity::Discharge, manner), day_of(row->created_at),
                        method_name(*row)});
    }
    std::optional<Estimate> to_use;
    if (site.estimate.flow.to_use)
        to_use = site.estimate.flow.to_use->discharge.estimate;
    rows.push_back({"flow to use", shown(to_use, Quantity::Discharge, manner)});
    print_table(rows);
}

void print_power(const Site& site, const Manner& manner) {
    const AlternativeRow* alternative = site.survey.alternative();
    std::cout << "\nWater to wire" << (alternative == nullptr ? "" : ": " + alternative->name) << '\n';
    std::vector<std::vector<std::string>> rows;
    for (const Link& link : links_of(site.estimate.chosen.result))
        rows.push_back({link.label, shown(link.value, link.quantity, manner)});
    print_table(rows);
}

void print_readiness(const Site& site) {
    const std::vector<ReadinessItem> items = readiness(site.survey, site.estimate);
    const ReadinessTally count = tally(items);
    std::cout << "\nReady for the designer? " << count.done << " of " << count.asked() << " done, " << count.thin
              << " thin\n";
    std::vector<std::vector<std::string>> rows;
    for (const ReadinessItem& item : items) {
        std::string detail = item.answer ? item.answer->text : std::string();
        if (!item.why.empty())
            detail = word(item.why) + (detail.empty() ? "" : " (" + detail + ")");
        rows.push_back({readiness_id(item.state), word(item.code), detail});
    }
    print_table(rows);
}

} // namespace

int show(const std::filesystem::path& file, const Manner& manner) {
    const Expected<Project> project = Project::open(file, OpenMode::ReadOnly);
    if (!project)
        return refuse(project.error(), manner);
    const Expected<Survey> survey = load_survey(*project);
    if (!survey)
        return refuse(survey.error(), manner);
    const Expected<PowerTables> tables = read_power_tables();
    if (!tables)
        return refuse(tables.error(), manner);
    const Site site{*survey, site_estimate(*survey, *tables)};
    if (manner.json) {
        print_json(site_json(site));
        return kDone;
    }
    std::cout << site.survey.site.name << '\n';
    if (!site.survey.site.owner.empty())
        std::cout << "  owner " << site.survey.site.owner << '\n';
    print_stations(site, manner);
    print_head(site, manner);
    print_flow(site, manner);
    print_power(site, manner);
    print_readiness(site);
    print_findings(findings_of(site), manner);
    for (const TestResult& test : site.estimate.flow.tests)
        print_findings(test.findings, manner, "To know of " + site.survey.test(test.test_id)->name);
    return kDone;
}

} // namespace rillmark::desk
