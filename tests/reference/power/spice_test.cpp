// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The network of a demo rig with a shared return, at the worst moment of each of its loads, solved by
// ngspice. The netlist is written from the rig's figures and from what the schedule has on at that moment;
// only the resistance of a metre of wire is taken from us, which wire_test.cpp holds against the tables.
#include "core/file/show_file.hpp"
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/sequence_run.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

using namespace gasp;

namespace {

double ohm(const Figure& mm2, const Figure& length_m) {
    return copper_ohm_per_m(mm2.value()) * length_m.value();
}

/// What a channel's load draws at a moment: asked of the schedule's events alone.
double current_at(const Channel& channel, const Schedule& schedule, Micros time) {
    bool driven = false;
    Micros since{-1'000'000'000};
    for (const SwitchEvent& event : schedule.events) {
        if (event.channel == channel.id && event.time <= time) {
            driven = event.driven;
            since = event.time;
        }
    }
    if (!load_on(channel.contact, driven)) {
        return 0.0;
    }
    const Circuit& circuit = channel.circuit;
    const bool surging = circuit.inrush_a && time < since + from_ms(circuit.inrush_ms.value());
    return surging ? *circuit.inrush_a : channel.load_current_a.value();
}

/// What each channel's load draws.
using Currents = std::map<std::uint32_t, double>;

Currents currents_at(const Show& show, const Schedule& schedule, Micros time) {
    Currents currents;
    for (const Channel& channel : show.rig.channels) {
        currents[channel.id.value] = current_at(channel, schedule, time);
    }
    return currents;
}

enum class LoadsAs { currents, resistances };

/// Nodes: p, n the supply's terminals; d where the circuits part, r where the shared returns meet; a<id>,
/// b<id> the load's terminals.
std::string netlist(const Show& show, const Currents& currents, LoadsAs as) {
    const Supply& supply = show.rig.supplies.at(0);
    std::ostringstream text;
    text.precision(12);
    text << "* circuits of a rig\nV1 p n DC " << *supply.volts << "\nVground n 0 DC 0\n";
    text << "Rfeed p d " << ohm(supply.feed_mm2, supply.feed_length_m) << '\n';
    text << "Rback r n " << ohm(supply.return_mm2, supply.return_length_m) << '\n';
    // Boards and player hang where the circuits part, and return with the loads.
    text << "Istanding d r DC " << *supply.standing_a << '\n';
    std::string prints;
    for (const Channel& channel : show.rig.channels) {
        const std::string id = std::to_string(channel.id.value);
        const double wire = ohm(channel.circuit.wire_mm2, channel.circuit.wire_length_m);
        const double current = currents.at(channel.id.value);
        const bool shared = channel.circuit.return_path == ReturnPath::shared_return;
        const std::string end = shared ? "r" : "b" + id;
        text << "Rw" << id << " d a" << id << ' ' << wire << '\n';
        if (!shared) {
            text << "Rb" << id << ' ' << end << " n " << wire << '\n';
        }
        if (as == LoadsAs::currents || current == 0.0) {
            text << "I" << id << " a" << id << ' ' << end << " DC " << current << '\n';
        } else {
            text << "R" << id << " a" << id << ' ' << end << ' ' << *supply.volts / current << '\n';
        }
        prints += "print v(a" + id + "," + end + ")\n";
    }
    text << ".control\nset numdgt=10\nop\n" << prints << ".endc\n.end\n";
    return text.str();
}

/// The voltage at each load, by channel.
std::map<std::uint32_t, double> solved(const std::string& netlist) {
    const testing::TemporaryFolder folder;
    const std::string path = (folder.path() / "rig.cir").string();
    std::ofstream(path) << netlist;
    std::FILE* const pipe = popen(("ngspice -b '" + path + "' 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::map<std::uint32_t, double> volts;
    std::array<char, 512> line{};
    std::string all;
    while (std::fgets(line.data(), static_cast<int>(line.size()), pipe) != nullptr) {
        unsigned a = 0;
        double value = 0.0;
        all += line.data();
        if (std::sscanf(line.data(), "v(a%u,%*[a-z0-9]) = %lf", &a, &value) == 2) {
            volts[a] = value;
        }
    }
    pclose(pipe);  // 1 where it plots nothing, whatever it solved: what it printed counts
    INFO(all);
    REQUIRE_FALSE(volts.empty());
    return volts;
}

Show demo(const char* name) {
    return load_show(std::string(GASPWORKS_SOURCE_DIR "/demo-shows/") + name).value();
}

}  // namespace

TEST_CASE("drops of the demo rigs are those ngspice finds at the same moments") {
    for (const char* name : {"boiler-deck.gasp", "keepers-locker.gasp"}) {
        INFO(name);
        const Show show = demo(name);
        AirMemo memo;
        const SequenceRun run = work_out(show, show.sequences[0], memo);
        std::size_t compared = 0;
        for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
            const auto& drop = run.power.circuits[i].drop;
            REQUIRE(drop);
            for (const Drop& moment : {drop->worst, drop->starting}) {
                const std::uint32_t id = show.rig.channels[i].id.value;
                INFO("channel " << id << " at " << moment.at.count() << " us");
                const double volts = *show.rig.supplies[0].volts;
                const Currents currents = currents_at(show, run.schedule, moment.at);
                const auto by_currents = solved(netlist(show, currents, LoadsAs::currents));
                CHECK(volts - by_currents.at(id) == Approx(moment.volts).margin(1e-5));
                // Loads that draw less as they get less: never worse than reckoned.
                const auto by_resistances = solved(netlist(show, currents, LoadsAs::resistances));
                CHECK(volts - by_resistances.at(id) <= moment.volts + 1e-5);
                ++compared;
            }
        }
        CHECK(compared == 2 * show.rig.channels.size());
    }
}

TEST_CASE("drops of two sequences at once are those ngspice finds where their worst moments meet") {
    // The demo's loads shared out between two sequences with triggers of their own.
    Show show = demo("boiler-deck.gasp");
    show.sequences.push_back(show.sequences[0]);
    show.sequences[1].id = {9001};
    const auto is_odd = [&](ChannelId id) {
        const auto place = std::ranges::find(show.rig.channels, id, &Channel::id) - show.rig.channels.begin();
        return place % 2 == 1;
    };
    std::erase_if(show.sequences[0].cues, [&](const Cue& cue) { return is_odd(cue.channel); });
    std::erase_if(show.sequences[1].cues, [&](const Cue& cue) { return !is_odd(cue.channel); });
    AirMemo memo;
    const std::array<SequenceRun, 2> ran{work_out(show, show.sequences[0], memo),
                                         work_out(show, show.sequences[1], memo)};
    const std::array<PowerRun, 2> runs{
        {{show.sequences[0].id, &ran[0].power}, {show.sequences[1].id, &ran[1].power}}};
    const auto together = power_together(show, runs);
    REQUIRE(together);
    const double volts = *show.rig.supplies[0].volts;
    double gained = 0.0;
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const std::size_t own = is_odd(show.rig.channels[i].id) ? 1 : 0;
        const std::uint32_t id = show.rig.channels[i].id.value;
        INFO("channel " << id);
        REQUIRE(together->circuits[i].sequence == show.sequences[own].id);
        REQUIRE(together->circuits[i].use.drop);
        const SequencePower& other = ran[1 - own].power;
        const SharedWays& wires = other.model.ways[*other.model.circuits[i].load].shared;
        const Micros meets = std::ranges::find(other.shared, wires, &SharedLoss::wires)->most.at;
        const WorstDrop& drop = *together->circuits[i].use.drop;
        for (const Drop& moment : {drop.worst, drop.starting}) {
            Currents currents = currents_at(show, ran[own].schedule, moment.at);
            for (const auto& [channel, current] : currents_at(show, ran[1 - own].schedule, meets)) {
                if (is_odd({channel}) != (own == 1)) {
                    currents[channel] = current;
                }
            }
            const auto found = solved(netlist(show, currents, LoadsAs::currents));
            CHECK(volts - found.at(id) == Approx(moment.volts).margin(1e-5));
        }
        gained = std::max(gained, drop.worst.volts - ran[own].power.circuits[i].drop->worst.volts);
    }
    CHECK(gained > 0.1);  // else nothing met
}
