// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/stop_findings.hpp"

#include <fmt/format.h>

namespace gasp {

namespace {

constexpr std::size_t most_named = 3;

}  // namespace

std::vector<Finding> findings_of(const OpenShow& open, const ShowOptions& options,
                                 const CheckSetting& setting) {
    return options.sequence ? check(open.show, *open.sequences.front(), setting) : check(open.show, setting);
}

std::string stops_against_table(const OpenShow& open, const ShowOptions& options) {
    std::size_t stops = 0;
    std::string named;
    for (const Finding& finding : findings_of(open, options, {})) {
        if (finding.severity == Severity::stop && stops++ < most_named) {
            named += fmt::format("{}{}", named.empty() ? "" : "; ", finding.what);
        }
    }
    if (stops == 0) {
        return {};
    }
    return fmt::format("{}: {} of severity stop stand{} against this table: {}{}. See gasp check.",
                       options.show, stops == 1 ? "1 finding" : fmt::format("{} findings", stops),
                       stops == 1 ? "s" : "", named,
                       stops > most_named ? fmt::format("; and {} more", stops - most_named) : "");
}

}  // namespace gasp
