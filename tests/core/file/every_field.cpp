// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/file/every_field.hpp"

#include "core/show/fields.hpp"

namespace gasp::testing {
namespace {

template <class T>
void fill(T& part) {
    for (const ChoiceField<T>& field : fields<T>().choices) {
        field.set(part, field.keys.size() - 1);
    }
    for (const FigureField<T>& field : fields<T>().figures) {
        part.*field.member = field.least + (field.most - field.least) / 3;
    }
    for (const TextField<T>& field : fields<T>().texts) {
        part.*field.member = "slate \u00e9";
    }
    part.extra = R"("x_note": "a later word")";
}

Actuator actuator() {
    Actuator it;
    it.id.value = 1;
    it.name = "keeper";
    for_each_actuator_part([&it](auto, auto, auto member) { fill(it.*member); });
    it.fit.out_ms = {412.5, 431};
    it.fit.back_ms = {900};
    it.linkage.points = {{0.0, -20.5}, {40.25, 12.0}, {100.0, 60.0}};
    it.extra = R"("x_hinge": [1, 2, {"deep": null}])";
    return it;
}

Channel channel(std::uint32_t id, std::string name, std::uint32_t excluded) {
    Channel it;
    fill(it);
    it.id.value = id;
    it.name = std::move(name);
    it.kind = ChannelKind::valve;
    it.board = BoardId{4};
    it.output = id;
    it.actuator = ActuatorId{1};
    it.coil = id == 2 ? Coil::out : Coil::back;
    it.excludes = {ChannelId{excluded}};
    fill(it.circuit);
    it.circuit.supply = SupplyId{10};
    it.circuit.returns_to = SupplyId{11};
    return it;
}

Board board() {
    Board it;
    fill(it);
    it.id.value = 4;
    it.name = "locker board";
    it.outputs = 8;
    return it;
}

Supply supply(std::uint32_t id, std::string name, std::optional<SupplyId> fed_from) {
    Supply it;
    fill(it);
    it.id.value = id;
    it.name = std::move(name);
    it.fed_from = fed_from;
    return it;
}

Sequence sequence() {
    Sequence it;
    it.id.value = 5;
    it.name = "lunge";
    it.kind = SequenceKind::by_hand;
    it.length = Micros(12'000'000);
    it.trigger_after_s = 2.5;
    it.clips = {{ClipId{6}, "sound/keeper \u00e9.flac", "fnv1a64:0123456789abcdef", Micros(9'000'000),
                 Micros(250'000), Micros(100'000), Micros(8'000'000), -3.5, 2, Micros(20'000),
                 Micros(1'500'000), R"("x_take": 2)"}};
    it.marks = {{MarkId{7}, "light", Micros(7'420'000), R"("x_colour": "bone")"}};
    it.cues = {
        {CueId{8}, ChannelId{2}, std::nullopt, Micros(1'000'000), Micros(500'000), std::nullopt, true, true,
         Micros(250'000), "", ""},
        {CueId{9}, ChannelId{3}, MarkId{7}, Micros(-150'000), Micros(400'000), Flashes{7.5, 33.25}, false,
         false, Micros(0), "back \"in\"", R"("x_why": "\u0041 reason", "x_empty": {}, "x_none": [])"},
    };
    it.extra = R"("x_group": "night")";
    return it;
}

}  // namespace

Show every_field() {
    Show show;
    show.name = "The Keeper's Locker";
    fill(show.rig.air_plant);
    show.rig.actuators = {actuator()};
    show.rig.channels = {channel(2, "out", 3), channel(3, "back", 2)};
    show.rig.boards = {board()};
    show.rig.supplies = {supply(10, "locker 12 V", SupplyId{11}), supply(11, "shed 24 V", std::nullopt)};
    fill(show.rig.sensor);
    fill(show.rig.speaker);
    show.rig.extra = R"("x_site": "saltmarsh")";
    show.sequences = {sequence()};
    fill(show.night);
    show.night.groups_by_hour = {10, 22.5, 8};
    show.night.arrivals_s = {0, 61.5, 3000};
    show.next_id = 20;
    show.extra = R"("x_first": 1e3, "x_second": true)";
    return show;
}

}  // namespace gasp::testing
