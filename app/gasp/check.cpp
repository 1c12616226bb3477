// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/check.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/stop_findings.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/checks/sound_shelf.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

std::size_t count(const std::vector<Finding>& findings, Severity severity) {
    return static_cast<std::size_t>(std::ranges::count(findings, severity, &Finding::severity));
}

std::size_t count_not_checked(const std::vector<Finding>& findings) {
    return static_cast<std::size_t>(std::ranges::count(findings, true, &Finding::not_checked));
}

/// The name of what a place names, or nothing.
template <class Id>
std::string name_at(const Show& show, const std::optional<Id>& id) {
    const auto* thing = id ? find(show, *id) : nullptr;
    return thing == nullptr ? std::string() : thing->name;
}

template <class Id>
void put_name(Json& json, const char* key, const Show& show, const std::optional<Id>& id) {
    if (id) {
        json[key] = name_at(show, id);
    }
}

Json json_of(const Show& show, const Finding& finding) {
    Json json{
        {"check", finding.check}, {"severity", word(finding.severity)}, {"not_checked", finding.not_checked}};
    const Place& place = finding.place;
    put_name(json, "sequence", show, place.sequence);
    if (place.time) {
        json["time_us"] = place.time->count();
    }
    put_name(json, "channel", show, place.channel);
    put_name(json, "actuator", show, place.actuator);
    put_name(json, "board", show, place.board);
    put_name(json, "supply", show, place.supply);
    for (const auto& [key, cue] :
         {std::pair("cue_id", place.cue), std::pair("other_cue_id", place.other_cue)}) {
        if (cue) {
            json[key] = cue->value;
        }
    }
    if (!place.field.empty()) {
        json["field"] = place.field;
    }
    json["what"] = finding.what;
    json["figure"] = finding.figure;
    json["limit"] = finding.limit;
    json["remedy"] = finding.remedy;
    return json;
}

std::string json_of(const OpenShow& open, const std::vector<Finding>& findings) {
    Json json{{"show", open.show.name}, {"sequences", Json::array()}};
    for (const Sequence* sequence : open.sequences) {
        json["sequences"].push_back(sequence->name);
    }
    for (const Severity severity : {Severity::stop, Severity::warn, Severity::note}) {
        json["counts"][std::string(word(severity))] = count(findings, severity);
    }
    json["counts"]["not_checked"] = count_not_checked(findings);
    json["findings"] = Json::array();
    for (const Finding& finding : findings) {
        json["findings"].push_back(json_of(open.show, finding));
    }
    return json_text(json);
}

std::string figure_and_limit(const Finding& finding) {
    if (finding.not_checked || (finding.figure.empty() && finding.limit.empty())) {
        return {};
    }
    return fmt::format("{}{}{}{}", finding.figure,
                       finding.figure.empty() || finding.limit.empty() ? "" : ", ",
                       finding.limit.empty() ? "" : "limit ", finding.limit);
}

std::string text_of(const OpenShow& open, const std::vector<Finding>& findings) {
    using enum TextGrid::Align;
    TextGrid grid({left, left, right, left});
    for (const Finding& finding : findings) {
        grid.add({std::string(word(finding.severity)), name_at(open.show, finding.place.sequence),
                  finding.place.time ? print_time(*finding.place.time) : std::string(), finding.what});
        if (const std::string figures = figure_and_limit(finding); !figures.empty()) {
            grid.add({"", "", "", "  " + figures});
        }
        grid.add({"", "", "", "  " + finding.remedy});
    }
    std::string text = grid.text();
    text +=
        fmt::format("{}{} stop, {} warn, {} note", text.empty() ? "" : "\n", count(findings, Severity::stop),
                    count(findings, Severity::warn), count(findings, Severity::note));
    if (const std::size_t unknown = count_not_checked(findings); unknown > 0) {
        text += fmt::format("; {} of them not checked for want of a figure", unknown);
    }
    return text + "\n";
}

}  // namespace

Result<Outcome> run(const CheckOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    SoundShelf sounds(open->folder);
    const CheckSetting setting{.units = options.units, .sounds = &sounds};
    const std::vector<Finding> findings = findings_of(*open, options, setting);
    Outcome outcome;
    outcome.sources = open->files;
    outcome.text = options.json ? json_of(*open, findings) : text_of(*open, findings);
    outcome.code = count(findings, Severity::stop) > 0 ? ExitCode::stop_findings : ExitCode::clean;
    return outcome;
}

}  // namespace gasp
