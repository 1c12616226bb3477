// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack.hpp"

#include "core/checks/check.hpp"
#include "core/schedule/supply_use.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/recorded_page.hpp"
#include "ui/sheet/pack/checklists.hpp"
#include "ui/sheet/pack/pack_words.hpp"
#include "ui/sheet/pack/parts_list.hpp"

#include <QRegularExpression>
#include <QStringList>

#include <algorithm>

using namespace gasp;
using for_tests::RecordedPage;
using for_tests::RecordedWords;

namespace {

constexpr Micros s{1'000'000};
const std::atomic<bool> never{false};

/// Every kind of thing a rig has, once or more, with names made by `name`.
template <class Name>
Show show_with(Name name, int figures) {
    Show show;
    std::uint32_t id = 0;
    show.name = name("show");
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 24;
    plant.cut_in_kpa_gauge = 550;
    plant.cut_out_kpa_gauge = 800;
    plant.delivery_l_min = 90;
    plant.regulator_kpa_gauge = 420;
    Supply& supply = show.rig.supplies.emplace_back();
    supply.id = {++id};
    supply.name = name("supply");
    supply.volts = 12;
    supply.rated_a = 10;
    supply.fuse_a = 10;
    supply.feed_mm2 = 2.5;
    supply.feed_length_m = 1;
    supply.return_mm2 = 2.5;
    supply.return_length_m = 1.5;
    Board& board = show.rig.boards.emplace_back();
    board.id = {++id};
    board.name = name("board");
    board.outputs = 16;
    const auto channel = [&](const char* what, ChannelKind kind, LoadKind load) -> Channel& {
        Channel& one = show.rig.channels.emplace_back();
        one.id = {++id};
        one.name = name(what) + std::to_string(id);
        one.kind = kind;
        one.board = board.id;
        one.output = static_cast<std::uint32_t>(show.rig.channels.size());
        one.load_current_a = 0.5;
        one.circuit.supply = supply.id;
        one.circuit.load = load;
        one.circuit.volts = 12;
        one.circuit.suppression = load == LoadKind::coil ? Suppression::diode : Suppression::not_stated;
        one.circuit.wire_mm2 = 0.75;
        one.circuit.wire_length_m = 8;
        one.circuit.wire_colour = name("colour");
        one.circuit.route = name("route");
        one.circuit.fuse_a = 1;
        return one;
    };
    for (int i = 0; i < figures; ++i) {
        Actuator& actuator = show.rig.actuators.emplace_back();
        actuator.id = {++id};
        actuator.name = name("figure") + std::to_string(i);
        actuator.cylinder = {};
        actuator.cylinder.action = static_cast<CylinderAction>(i % 3);
        actuator.cylinder.bore_mm = 40;
        actuator.cylinder.rod_mm = 16;
        actuator.cylinder.stroke_mm = 250;
        actuator.cylinder.cushion_mm = 15;
        actuator.valve.kind = static_cast<ValveKind>(i % 3);
        actuator.valve.least_kpa_gauge = 150;
        actuator.valve.supply_c_l_s_bar = 4;
        actuator.flow_controls.place = static_cast<ControlPlace>(i % 2);
        actuator.flow_controls.in_c_l_s_bar = 1.25;
        actuator.flow_controls.out_c_l_s_bar = 1.1;
        actuator.flow_controls.quick_exhaust_c_l_s_bar = 6;
        actuator.flow_controls.silencer_c_l_s_bar = 5;
        actuator.feed = {10.0, 8.0, 2.0, {}};
        actuator.tube = {2.5, 5.5, {}};
        actuator.load.mass_kg = 9;
        actuator.base.mass_kg = 90;
        channel("valve", ChannelKind::valve, LoadKind::coil).actuator = actuator.id;
        if (actuator.valve.kind == ValveKind::five_two_two_coils) {
            Channel& back = channel("valve back", ChannelKind::valve, LoadKind::coil);
            back.actuator = actuator.id;
            back.coil = Coil::back;
        }
    }
    channel("lamp", ChannelKind::lamp, LoadKind::lamp).contact = Contact::normally_closed;
    Channel& motor = channel("motor", ChannelKind::motor, LoadKind::motor);
    motor.circuit.return_path = ReturnPath::shared_return;
    motor.circuit.switched_by = SwitchedBy::transistor;
    motor.circuit.suppression = Suppression::varistor;
    Sequence& sequence = show.sequences.emplace_back();
    sequence.id = {++id};
    sequence.name = name("sequence");
    sequence.length = 50 * s;
    sequence.marks = {{{++id}, name("mark"), 2 * s, {}}, {{++id}, name("word"), 3 * s, {}}};
    for (int i = 0; i < 30; ++i) {
        Cue cue;
        cue.id = {++id};
        cue.channel = show.rig.channels[static_cast<std::size_t>(i) % show.rig.channels.size()].id;
        cue.at = i * s + s;
        cue.length = s / 2;
        cue.name = name("cue") + std::to_string(i);
        if (i % 5 == 0) {
            cue.flashes = Flashes{3.0, 50.0};
        }
        sequence.cues.push_back(cue);
    }
    show.next_id = id + 1;
    return show;
}

std::string plain(const char* what) {
    return what;
}

Pack pack_of(const Show& show, UnitSystem units = UnitSystem::metric, Paper paper = Paper::a4) {
    PackWish wish;
    wish.units = units;
    wish.nights = 1;
    return {work_out_pack(show, wish, never, {}), {paper, "2026-10-31"}};
}

std::vector<RecordedWords> recorded(const Pack& pack, int page) {
    RecordedPage result;
    QPainter painter(&result);
    pack.paint(painter, page);
    painter.end();
    return std::move(result.words);
}

/// The first two pieces of writing on a page that lie on each other, and what leaves the page.
QStringList faults_of(const Pack& pack, int page) {
    QStringList faults;
    const std::vector<RecordedWords> all = recorded(pack, page);
    const QRectF paper(QPointF(0, 0), pack.page_size(page));
    for (std::size_t i = 0; i < all.size(); ++i) {
        const QRectF one = all[i].box();
        if (!paper.contains(one)) {
            faults << QStringLiteral("page %1: \"%2\" leaves the page").arg(page + 1).arg(all[i].text);
        }
        for (std::size_t k = i + 1; k < all.size(); ++k) {
            const QRectF both = one & all[k].box();
            if (both.width() > 1.5 && both.height() > 1.5) {
                faults << QStringLiteral("page %1: \"%2\" on \"%3\"")
                              .arg(page + 1)
                              .arg(all[i].text, all[k].text);
            }
        }
    }
    return faults;
}

std::string first_fault(const Pack& pack) {
    for (int page = 0; page < pack.page_count(); ++page) {
        if (const QStringList faults = faults_of(pack, page); !faults.isEmpty()) {
            return faults.mid(0, 4).join("; ").toStdString();
        }
    }
    return {};
}

QStringList words_of(const Pack& pack, const QString& section) {
    QStringList words;
    for (int page = 0; page < pack.page_count(); ++page) {
        if (pack.sections()[pack.pages()[static_cast<std::size_t>(page)].section].title == section) {
            for (const RecordedWords& one : recorded(pack, page)) {
                words << one.text;
            }
        }
    }
    return words;
}

}  // namespace

TEST_CASE("nothing on a page overprints or leaves it") {
    for (const int figures : {1, 3, 7}) {
        const Show show = show_with(plain, figures);
        CHECK(first_fault(pack_of(show)) == "");
        CHECK(first_fault(pack_of(show, UnitSystem::us, Paper::letter)) == "");
    }
}

TEST_CASE("names in any script and of any length keep to their places, cut with a mark") {
    const char* const names[] = {
        "\xCE\xA6\xCE\xAC\xCF\x81\xCE\xBF\xCF\x82 ",                      // Greek
        "\xE7\x81\xAF\xE5\x8F\xB0\xE3\x81\xAE\xE7\x95\xAA\xE4\xBA\xBA ",  // Japanese
        "\xD8\xAD\xD8\xA7\xD8\xB1\xD8\xB3 "
        "\xD8\xA7\xD9\x84\xD9\x85\xD9\x86\xD8\xA7\xD8\xB1\xD8\xA9 ",  // Arabic
        "\xF0\x9F\x94\xA6\xF0\x9F\x92\xA8 ",                          // emoji
    };
    for (const char* const one : names) {
        const Show show = show_with([one](const char* what) { return std::string(one) + what; }, 2);
        CHECK(first_fault(pack_of(show)) == "");
    }
    const Show endless = show_with([](const char* what) { return what + std::string(400, 'W'); }, 2);
    const Pack pack = pack_of(endless);
    CHECK(first_fault(pack) == "");
    const QStringList words = words_of(pack, pack.sections()[1].title);
    CHECK(std::ranges::any_of(words, [](const QString& text) { return text.endsWith(QChar(0x2026)); }));
}

TEST_CASE("the contents name every section, or say how many more there are") {
    Show show = show_with(plain, 1);
    const auto copies = [&](std::size_t count) {
        while (show.sequences.size() < count) {
            show.sequences.push_back(show.sequences[0]);
            Sequence& added = show.sequences.back();
            added.cues.resize(1);
            added.marks.clear();
            added.id = {20'000 + static_cast<std::uint32_t>(show.sequences.size())};
            added.name = "copy " + std::to_string(show.sequences.size());
        }
        return pack_of(show);
    };
    const QStringList all = words_of(copies(12), "Cover");
    CHECK(all.contains("Cue sheet: copy 12"));
    CHECK(all.contains("Notices to post"));
    const Pack many = copies(60);
    CHECK(first_fault(many) == "");
    CHECK(words_of(many, "Cover").contains(QStringLiteral("and %1 more").arg(many.sections().size() - 99)));
}

TEST_CASE("an empty show has a pack that says so") {
    const Pack pack = pack_of(empty_show());
    CHECK(first_fault(pack) == "");
    CHECK(pack.sections().front().title == "Cover");
    CHECK(words_of(pack, pack.sections()[1].title).contains("It has no cues."));
    CHECK(words_of(pack, "Cover").contains("Nothing was checked: there are no cues yet."));
}

TEST_CASE("the cue sheet has every cue once, in order of time") {
    const Show show = show_with(plain, 2);
    const Pack pack = pack_of(show);
    const QStringList words = words_of(pack, "Cue sheet: sequence");
    qsizetype last = -1;
    for (const Cue& cue : show.sequences[0].cues) {
        const QString name = QString::fromStdString(cue.name);
        CHECK(words.count(name) == 1);
        CHECK(words.indexOf(name) > last);
        last = words.indexOf(name);
    }
}

TEST_CASE("the wiring chart has every circuit once, and so has the drawing") {
    const Show show = show_with(plain, 2);
    const QStringList words = words_of(pack_of(show), "Wiring");
    for (const Channel& channel : show.rig.channels) {
        CHECK(words.count(QString::fromStdString(channel.name)) == 2);
    }
    for (std::size_t i = 1; i <= show.rig.channels.size(); ++i) {
        CHECK(words.count(QStringLiteral("X%1").arg(2 * i)) == 1);
        CHECK(words.count(QStringLiteral("X%1, X%2").arg(2 * i - 1).arg(2 * i)) == 1);
    }
}

TEST_CASE("the power pages have each supply, sequence and circuit, with the figures of the panel") {
    Show show = show_with(plain, 2);
    show.rig.supplies[0].standing_a = 0.2;
    const Pack pack = pack_of(show);
    const QStringList words = words_of(pack, "Power");
    for (const Channel& channel : show.rig.channels) {
        CHECK(words.count(QString::fromStdString(channel.name)) == 1);
    }
    const PackSequence& one = pack.content().sequences[0];
    const SupplyUse use = supply_use(show, show.sequences[0], one.run.power, 0);
    CHECK(words.contains(
        QStringLiteral("%1 at %2")
            .arg(rounded_text(Quantity::current, use.peak_a, UnitSystem::metric), time_text(use.peak_at))));
    CHECK(words.contains(QStringLiteral("%1 %").arg(*use.margin_percent, 0, 'f', 0)));
    CHECK(words.count("Current of supply over sequence") == 1);
    CHECK(words.contains("Not checked: no hours of the night, or no groups in its plan."));
    CHECK_FALSE(words.contains("Sequences at once"));
    show.sequences.push_back(show.sequences[0]);
    show.sequences.back().id = {9999};
    show.night.hours = 4;
    show.night.groups_per_h = 20;
    const QStringList two = words_of(pack_of(show), "Power");
    CHECK(two.contains("Sequences at once"));
    CHECK(two.filter(", the others at once").size() == static_cast<int>(show.rig.channels.size()));
    CHECK(two.contains("Charge taken"));
    CHECK(two.count("Current of supply over sequence") == 2);
}

TEST_CASE("however long a board's name is, the drawing of the wiring tells the output") {
    Show show = show_with(plain, 1);
    show.rig.channels[0].output = 731;
    CHECK(words_of(pack_of(show), "Wiring").contains("board 731"));
    show.rig.boards[0].name = "the board behind the third door of the boiler house at the far end";
    CHECK(words_of(pack_of(show), "Wiring").contains("731"));
}

TEST_CASE("a rig without supplies has a power page that says so") {
    Show show = show_with(plain, 1);
    show.rig.supplies.clear();
    CHECK(words_of(pack_of(show), "Power")
              .contains("Not checked: no power supply in the rig, so no currents, wires and fuses."));
}

TEST_CASE("the air circuit numbers the ports as ISO 11727 has them") {
    Show show = show_with(plain, 1);
    const auto ports = [&](ValveKind kind) {
        show.rig.actuators[0].valve.kind = kind;
        show.rig.actuators[0].flow_controls.quick_exhaust_c_l_s_bar.reset();
        QStringList numbers =
            words_of(pack_of(show), "Air circuit").filter(QRegularExpression(QStringLiteral("^[1-5]$")));
        numbers.sort();
        return numbers.join(' ');
    };
    // The shut-off valve by hand is a 3/2 as well: 1, 2 and 3.
    CHECK(ports(ValveKind::three_two) == "1 1 2 2 3 3");
    CHECK(ports(ValveKind::five_two_one_coil) == "1 1 2 2 3 3 4 5");
}

TEST_CASE("alike parts are one line of the list, lengths added up") {
    Show show = show_with(plain, 2);
    show.rig.actuators[1] = show.rig.actuators[0];
    show.rig.actuators[1].id = {900};
    show.rig.actuators[1].name = "twin";
    const auto groups = parts_of(show, UnitSystem::metric);
    const auto figures = std::ranges::find(groups, QString("Figures"), &PartsGroup::title);
    REQUIRE(figures != groups.end());
    const auto cylinders = std::ranges::count(figures->parts, QString("Cylinder"), &Part::name);
    CHECK(cylinders == 1);
    const auto cylinder = std::ranges::find(figures->parts, QString("Cylinder"), &Part::name);
    CHECK(cylinder->quantity == 2.0);
    CHECK(cylinder->used_for == QStringList{"figure0", "twin"});
    double tube = 0.0;
    for (const Part& part : figures->parts) {
        tube += part.length ? part.quantity : 0.0;
    }
    CHECK(tube == Approx(2 * (2.5 + 10.0)));  // single-acting: one tube each, and its feed
}

TEST_CASE("checklists ask for what this rig has") {
    Show show = show_with(plain, 1);
    PackWish wish;
    wish.nights = 1;
    const auto said = [&] {
        QString text;
        for (const Checklist& list : checklists_of(*work_out_pack(show, wish, never, {}))) {
            text += list.items.join('\n');
        }
        return text;
    };
    CHECK(said().contains("Reservoir of \"figure0\" (2 L) is empty."));
    CHECK(said().contains("flashing lights"));
    CHECK_FALSE(said().contains("switches mains"));
    show.rig.supplies[0].kind = SupplyKind::mains;
    show.rig.actuators[0].feed.reservoir_l.reset();
    for (Cue& cue : show.sequences[0].cues) {
        cue.flashes.reset();
    }
    CHECK(said().contains("switches mains"));
    CHECK_FALSE(said().contains("Reservoir of"));
    CHECK_FALSE(said().contains("flashing lights"));
}

TEST_CASE("the findings of a pack are those of the show, a table too large for its board among them") {
    Show show = show_with(plain, 1);
    show.rig.boards.front().table_bytes = 60;
    const auto content = work_out_pack(show, {}, never, {});
    CHECK(content->findings == check(show));
    CHECK(std::ranges::count(content->findings, "table_room", &Finding::check) == 1);
}

TEST_CASE("what is cancelled gives nothing") {
    const std::atomic<bool> cancelled{true};
    CHECK(work_out_pack(show_with(plain, 1), {}, cancelled, {}) == nullptr);
    CHECK_FALSE(pdf_of(pack_of(show_with(plain, 1)), cancelled, {}));
}
