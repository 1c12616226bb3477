// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/settings.hpp"

#include <QFileInfo>
#include <QLocale>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace gasp {
namespace {

constexpr qsizetype most_recent = 10;
constexpr qsizetype most_grids = 50;
/// Raised when docks or toolbars are renamed, so that an old layout is not put on a new window.
constexpr int layout_version = 1;

/// Kept as words and numbers; the order of the rates is not.
constexpr std::array<std::pair<const char*, FrameRate>, 5> rate_words{
    {{"24", FrameRate::fps_24},
     {"25", FrameRate::fps_25},
     {"29.97 drop", FrameRate::fps_2997_drop},
     {"29.97", FrameRate::fps_2997},
     {"30", FrameRate::fps_30}}};

constexpr std::array<std::pair<const char*, Grid::Kind>, 3> grid_words{
    {{"seconds", Grid::Kind::seconds}, {"frames", Grid::Kind::frames}, {"beats", Grid::Kind::beats}}};

template <class Words>
auto value_of(const Words& words, const QVariant& word) {
    const auto found =
        std::ranges::find_if(words, [&](const auto& each) { return word.toString() == each.first; });
    return found == words.end() ? decltype(found->second){} : found->second;
}

template <class Words, class Value>
const char* word_of(const Words& words, Value value) {
    return std::ranges::find(words, value, &Words::value_type::second)->first;
}

QVariantMap kept(const QString& show, SequenceId sequence, const Grid& grid) {
    return {{"show", show},
            {"sequence", sequence.value},
            {"grid", word_of(grid_words, grid.kind)},
            {"rate", word_of(rate_words, grid.rate)},
            {"beats_a_minute", grid.beats_a_minute},
            {"beats_a_bar", grid.beats_a_bar},
            {"first_beat_us", static_cast<qlonglong>(grid.first_beat.count())}};
}

Grid grid_of(const QVariantMap& kept) {
    Grid grid;
    grid.kind = value_of(grid_words, kept.value("grid"));
    grid.rate = value_of(rate_words, kept.value("rate"));
    grid.beats_a_minute = kept.value("beats_a_minute").toDouble();
    grid.beats_a_bar = kept.value("beats_a_bar").toInt();
    grid.first_beat = Micros{kept.value("first_beat_us").toLongLong()};
    return valid(grid) ? grid : Grid{};
}

QString layout_key() {
    return QStringLiteral("window/layout_%1").arg(layout_version);
}

}  // namespace

UnitSystem Settings::units() const {
    const bool us = QLocale::system().measurementSystem() == QLocale::ImperialUSSystem;
    const QString word = store_.value("units", us ? "us" : "metric").toString();
    return word == "us" ? UnitSystem::us : UnitSystem::metric;
}

void Settings::set_units(UnitSystem units) {
    store_.setValue("units", units == UnitSystem::us ? "us" : "metric");
    emit units_changed();
}

bool Settings::light_theme() const {
    return store_.value("theme").toString() == "light";
}

void Settings::set_light_theme(bool light) {
    store_.setValue("theme", light ? "light" : "dark");
}

LaneHeight Settings::lane_height() const {
    const QString word = store_.value("lane_height").toString();
    return word == "compact" ? LaneHeight::compact : word == "tall" ? LaneHeight::tall : LaneHeight::normal;
}

void Settings::set_lane_height(LaneHeight height) {
    const char* word = height == LaneHeight::compact ? "compact"
                       : height == LaneHeight::tall  ? "tall"
                                                     : "normal";
    store_.setValue("lane_height", word);
}

Grid Settings::grid(const QString& show, SequenceId sequence) const {
    std::optional<Grid> of_show;
    for (const QVariant& each : store_.value("grids").toList()) {
        const QVariantMap kept = each.toMap();
        if (kept.value("show").toString() != show) {
            continue;
        }
        if (kept.value("sequence").toUInt() == sequence.value) {
            return grid_of(kept);
        }
        of_show = of_show ? of_show : grid_of(kept);
    }
    return of_show.value_or(Grid{});
}

void Settings::set_grid(const QString& show, SequenceId sequence, const Grid& grid) {
    QVariantList all = store_.value("grids").toList();
    all.removeIf([&](const QVariant& each) {
        const QVariantMap kept = each.toMap();
        return kept.value("show").toString() == show && kept.value("sequence").toUInt() == sequence.value;
    });
    all.prepend(kept(show, sequence, grid));
    store_.setValue("grids", all.mid(0, most_grids));
}

Paper Settings::paper() const {
    const QString word = store_.value("paper").toString();
    if (word != "a4" && word != "letter") {
        return usual_paper(QLocale::system());
    }
    return word == "letter" ? Paper::letter : Paper::a4;
}

void Settings::set_paper(Paper paper) {
    store_.setValue("paper", paper == Paper::letter ? "letter" : "a4");
}

double Settings::volume() const {
    bool is_number = false;
    const double volume = store_.value("volume", 1.0).toDouble(&is_number);
    return is_number && volume >= 0.0 && volume <= 1.0 ? volume : 1.0;
}

void Settings::set_volume(double volume) {
    store_.setValue("volume", volume);
}

bool Settings::scrub_sounds() const {
    return store_.value("scrub_sounds", true).toBool();
}

void Settings::set_scrub_sounds(bool on) {
    store_.setValue("scrub_sounds", on);
}

QStringList Settings::recent() const {
    return store_.value("recent").toStringList().mid(0, most_recent);
}

void Settings::add_recent(const QString& path) {
    QStringList list = recent();
    const QString absolute = QFileInfo(path).absoluteFilePath();
    list.removeAll(absolute);
    list.prepend(absolute);
    if (list != recent()) {  // a write waits for the disk
        store_.setValue("recent", list.mid(0, most_recent));
        emit recent_changed();
    }
}

void Settings::forget_recent() {
    store_.remove("recent");
    emit recent_changed();
}

QString Settings::last_folder() const {
    return store_.value("last_folder").toString();
}

void Settings::set_last_folder(const QString& folder) {
    if (folder != last_folder()) {
        store_.setValue("last_folder", folder);
    }
}

QVariantMap Settings::sizing_task() const {
    return store_.value("sizing_task").toMap();
}

void Settings::set_sizing_task(const QVariantMap& task) {
    store_.setValue("sizing_task", task);
}

MomentOptions Settings::moments() const {
    MomentOptions kept;
    const auto read = [this](const char* key, double& figure) {
        bool is_number = false;
        const double value = store_.value(key).toDouble(&is_number);
        figure = is_number ? value : figure;
    };
    read("moments/word_below_db", kept.words.open_db);
    read("moments/pause_below_db", kept.words.close_db);
    read("moments/pause_ms", kept.words.shortest_pause_ms);
    read("moments/onset_threshold", kept.onsets.threshold);
    read("moments/onset_gap_ms", kept.onsets.least_gap_ms);
    read("moments/jaw_below_db", kept.jaw.open_db);
    read("moments/jaw_lead_ms", kept.jaw.open_lead_ms);
    kept.jaw.close_db = kept.jaw.open_db + jaw_hysteresis_db;
    kept.jaw.close_lead_ms = kept.jaw.open_lead_ms;
    kept.shown = store_.value("moments/shown", true).toBool();
    const bool make_sense = valid(kept.words) && valid(kept.onsets) && valid(kept.jaw);
    return make_sense ? kept : MomentOptions{};
}

void Settings::set_moments(const MomentOptions& options) {
    store_.setValue("moments/word_below_db", options.words.open_db);
    store_.setValue("moments/pause_below_db", options.words.close_db);
    store_.setValue("moments/pause_ms", options.words.shortest_pause_ms);
    store_.setValue("moments/onset_threshold", options.onsets.threshold);
    store_.setValue("moments/onset_gap_ms", options.onsets.least_gap_ms);
    store_.setValue("moments/jaw_below_db", options.jaw.open_db);
    store_.setValue("moments/jaw_lead_ms", options.jaw.open_lead_ms);
    store_.setValue("moments/shown", options.shown);
}

QByteArray Settings::geometry() const {
    return store_.value("window/geometry").toByteArray();
}

QByteArray Settings::layout() const {
    return store_.value(layout_key()).toByteArray();
}

void Settings::set_window(const QByteArray& geometry, const QByteArray& layout) {
    store_.setValue("window/geometry", geometry);
    store_.setValue(layout_key(), layout);
}

void Settings::forget_layout() {
    store_.remove("window");
}

}  // namespace gasp
