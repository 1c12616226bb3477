// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "core/show/validity.hpp"
#include "tests/core/show/lighthouse.hpp"
#include "tests/support/catch.hpp"

#include <set>

using namespace gasp;
using namespace gasp::testing;

TEST_CASE("things are found by their ids") {
    const Show show = lighthouse();
    CHECK(find(show, ChannelId{4})->name == "Lamp");
    CHECK(find(show, ActuatorId{1})->name == "Keeper");
    CHECK(find(show, BoardId{2})->name == "Box");
    CHECK(find(show, SequenceId{9})->name == "Idle");
    CHECK(find(show, ChannelId{1}) == nullptr);
    CHECK(find(show.sequences[0], CueId{8})->channel == ChannelId{3});
    CHECK(find(show.sequences[0], CueId{10}) == nullptr);
}

TEST_CASE("the tick is the board's, or 1 ms") {
    Show show = lighthouse();
    CHECK(tick_of(show, show.rig.channels[0]) == 1ms);
    show.rig.boards[0].tick_ms = 0.5;
    CHECK(tick_of(show, show.rig.channels[0]) == 500us);
    CHECK(tick_of(show, show.rig.channels[1]) == 1ms);
}

TEST_CASE("an actuator's channels are valve channels, by their coil") {
    Show show = lighthouse();
    CHECK(gasp::channel_of(show, ActuatorId{1}, Coil::out) == &show.rig.channels[0]);
    CHECK(gasp::channel_of(show, ActuatorId{1}, Coil::back) == nullptr);
    show.rig.channels[0].kind = ChannelKind::lamp;
    CHECK(gasp::channel_of(show, ActuatorId{1}, Coil::out) == nullptr);
}

TEST_CASE("a cue tied to a mark that is gone begins at its offset") {
    Sequence sequence = lighthouse().sequences[0];
    sequence.marks.clear();
    CHECK(start_of(sequence, sequence.cues[1]) == -500ms);
}

TEST_CASE("a new show is valid and empty") {
    const Show show = empty_show();
    CHECK(breaches(show).empty());
    CHECK(show.sequences.size() == 1);
    CHECK(show.sequences[0].length == 10s);
    CHECK(end_of_sound(show.sequences[0]) == 0s);
}

namespace {

/// Keys are unique, ranges can be met, and a choice set is the choice got.
template <class T>
void check_fields() {
    std::set<std::string_view> keys;
    for (const FigureField<T>& field : fields<T>().figures) {
        INFO(field.key);
        CHECK(keys.insert(field.key).second);
        CHECK(field.least < field.most);
        CHECK_FALSE(field.label.empty());
        CHECK(field.help.ends_with('.'));
    }
    for (const ChoiceField<T>& field : fields<T>().choices) {
        INFO(field.key);
        CHECK(keys.insert(field.key).second);
        REQUIRE(field.keys.size() == field.labels.size());
        T part;
        for (std::size_t word = 0; word < field.keys.size(); ++word) {
            field.set(part, word);
            CHECK(field.get(part) == word);
        }
    }
}

}  // namespace

TEST_CASE("the fields of every part hold together") {
    check_fields<AirPlant>();
    for_each_actuator_part([]<class T>(auto, auto, T Actuator::*) { check_fields<T>(); });
    check_fields<Channel>();
    check_fields<Circuit>();
    check_fields<Board>();
    check_fields<Supply>();
    check_fields<Sensor>();
    check_fields<Speaker>();
}
