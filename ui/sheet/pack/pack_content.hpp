// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/checks/finding.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/sound/peaks.hpp"
#include "core/units/quantity.hpp"

#include <atomic>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// What is asked of a build pack.
struct PackWish {
    UnitSystem units = UnitSystem::metric;
    std::filesystem::path folder;        ///< of the show, where its sounds are
    std::optional<SequenceId> sequence;  ///< cue sheet and timeline of this one alone
    int nights = 20;                     ///< at most, of the forecast
};

struct PackSequence {
    SequenceId id;
    SequenceRun run;
    std::vector<Finding> findings;  ///< of the sequence, and of the parts of the rig it uses
    std::map<ClipId, std::shared_ptr<const PeakPyramid>> peaks;
};

/// Everything the pages say, worked out; nothing in it changes any more.
struct PackContent {
    Show show;
    UnitSystem units = UnitSystem::metric;
    std::string revision;  ///< eight hexadecimal digits: the same for the same show, whatever the file's name
    std::vector<PackSequence> sequences;
    std::vector<Finding> findings;          ///< of all of them
    std::optional<PowerTogether> together;  ///< of those that run at once
    AirModel model;                         ///< of the rig, fitted
    std::optional<NightForecast> night;
    std::string no_night;               ///< why there is no forecast, a sentence; else empty
    std::vector<std::string> messages;  ///< what could not be read or painted
};

[[nodiscard]] std::vector<PowerRun> power_runs(const std::vector<PackSequence>& sequences);

/// "5f0c13aa": of the text the show is saved as. FNV-1a of 64 bits (Fowler, Noll and Vo), its halves folded.
[[nodiscard]] std::string revision_of(const Show& show);

/// Works the show out: every sequence with its findings, its sounds' peaks, a short forecast of the night.
/// `progress` (may be empty) gets the share done, 0..1; the work stops soon after `cancel` becomes true and
/// gives null then. Requires: a QGuiApplication.
[[nodiscard]] std::shared_ptr<const PackContent> work_out_pack(Show show, const PackWish& wish,
                                                               const std::atomic<bool>& cancel,
                                                               const std::function<void(double)>& progress);

}  // namespace gasp
