// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/edit_actions.hpp"
#include "ui/timeline/strikes.hpp"

#include <algorithm>
#include <array>

// How cues are placed, how free they are, how they flash.

namespace gasp {

namespace {

constexpr Micros freedom_step{50'000};
constexpr std::array rates_hz{0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 16.0};
/// Held keys become one step to undo; see edit_actions.cpp for the other kinds of change.
constexpr int freeing = 103;

}  // namespace

std::vector<CueLead> EditActions::selected_leads() const {
    std::vector<CueLead> leads;
    for (const CueId id : selected()) {
        if (const auto strike = seen_strike(scene_, id)) {
            leads.push_back({id, strike->lead});
        }
    }
    return leads;
}

void EditActions::place_by_strike() {
    const std::vector<CueLead> leads = selected_leads();
    if (leads.empty()) {
        emit said(tr("No selected cue sends a figure to a strike that is known"));
        return;
    }
    Document& document = scene_.document();
    scene_.know_leads(leads);
    document.perform(set_strikes(document.show(), document.sequence_id(), leads, true));
}

void EditActions::place_by_start() {
    Document& document = scene_.document();
    document.perform(set_strikes(document.show(), document.sequence_id(), selected_leads(), false));
}

void EditActions::more_freedom() {
    change_freedom(freedom_step);
}

void EditActions::less_freedom() {
    change_freedom(-freedom_step);
}

/// All selected cues get the freedom of the first, changed.
void EditActions::change_freedom(Micros by) {
    Document& document = scene_.document();
    const Cue* first = find(document.sequence(), selected().front());
    if (first == nullptr) {
        return;
    }
    const Micros freedom = std::clamp(first->freedom + by, Micros{0}, most_freedom);
    document.perform(set_freedom(document.show(), document.sequence_id(), selected(), freedom), freeing);
    emit said(
        freedom > Micros{0}
            ? tr("May be staggered by %1 either way").arg(QString::fromStdString(print_duration(freedom)))
            : tr("Stays where it is when cues are staggered"));
}

void EditActions::flash() {
    Document& document = scene_.document();
    document.perform(set_flashes(document.show(), document.sequence_id(), selected(), Flashes{}));
}

void EditActions::steady() {
    Document& document = scene_.document();
    document.perform(set_flashes(document.show(), document.sequence_id(), selected(), std::nullopt));
}

void EditActions::faster() {
    change_rate(1);
}
void EditActions::slower() {
    change_rate(-1);
}

void EditActions::change_rate(int way) {
    Document& document = scene_.document();
    const Cue* first = selected().empty() ? nullptr : find(document.sequence(), selected().front());
    if (first == nullptr) {
        return;
    }
    Flashes flashes = first->flashes.value_or(Flashes{});
    const auto next = way > 0 ? std::upper_bound(rates_hz.begin(), rates_hz.end(), flashes.rate_hz)
                              : std::lower_bound(rates_hz.begin(), rates_hz.end(), flashes.rate_hz);
    if (way > 0 && next != rates_hz.end()) {
        flashes.rate_hz = *next;
    } else if (way < 0 && next != rates_hz.begin()) {
        flashes.rate_hz = *std::prev(next);
    }
    document.perform(set_flashes(document.show(), document.sequence_id(), selected(), flashes));
}

// Moving
// --------------------------------------------------------------------------------------------------------------

}  // namespace gasp
