// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/night_lists.hpp"

#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "core/units/time.hpp"
#include "ui/panels/part_edits.hpp"

#include <utility>

namespace gasp {

ListEntry by_hour_entry() {
    ListEntry entry{
        .key = "groups_by_hour",
        .label = "Groups in each hour",
        .help =
            "Of the first hour, the second and so on, in place of one figure for all: 20 45 60 45. "
            "The last holds for the hours that follow.",
        .unit = {},
        .get = [](const Show& show) { return show.night.groups_by_hour; },
        .read =
            [](const std::string& word) {
                return parse_quantity(Quantity::number, word, UnitSystem::metric);
            },
        .print = [](double each) { return QString::number(each); },
        .trouble = {},
        .set = {}};
    entry.trouble = [](const std::vector<double>& list) {
        return hourly_allowed(list) ? QString()
                                    : QStringLiteral("at most %1 hours of 0 to %2 groups each")
                                          .arg(longest_night_h)
                                          .arg(most_groups_per_h);
    };
    entry.set = [](const Show& show, std::vector<double> list) {
        NightPlan night = show.night;
        night.groups_by_hour = std::move(list);
        return named_after(set_night(show, std::move(night)), "groups in each hour", "the night");
    };
    return entry;
}

ListEntry arrivals_entry() {
    ListEntry entry{.key = "arrivals_s",
                    .label = "Arrivals",
                    .help =
                        "When groups came, after the doors opened, in place of chance: 0:40 2:05 1:10:30. A "
                        "column can be pasted.",
                    .unit = "min:s",
                    .get = [](const Show& show) { return show.night.arrivals_s; },
                    .read = [](const std::string& word) { return parse_time(word).map(&to_s); },
                    .print = {},
                    .trouble = {},
                    .set = {}};
    entry.print = [](double seconds) {
        const Micros time = from_ms(seconds * 1000.0);
        const bool whole = time.count() % 1'000'000 == 0;
        return QString::fromStdString(print_time(time, whole ? 0 : 3));
    };
    entry.trouble = [](const std::vector<double>& list) {
        return arrivals_allowed(list)
                   ? QString()
                   : QStringLiteral("at most %1 arrivals, each after the one before, within %2 h")
                         .arg(most_arrivals)
                         .arg(longest_night_h);
    };
    entry.set = [](const Show& show, std::vector<double> list) {
        NightPlan night = show.night;
        night.arrivals_s = std::move(list);
        return named_after(set_night(show, std::move(night)), "arrivals", "the night");
    };
    return entry;
}

}  // namespace gasp
