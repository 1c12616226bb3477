// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/analysis.hpp"

#include "core/checks/check.hpp"
#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QSignalSpy>
#include <QTest>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <vector>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

void add_lamp_and_cue(Document& document) {
    Channel channel;
    channel.name = "lamp";
    document.perform(add_channel(document.show(), channel));
    Cue cue;
    cue.channel = document.show().rig.channels.front().id;
    cue.length = 500ms;
    document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
}

}  // namespace

TEST_CASE("the result is what core says of the document") {
    Document document;
    Analysis analysis(document);
    add_lamp_and_cue(document);
    const auto result = analysis.wait();
    CHECK(result->revision == document.revision());
    CHECK(result->schedule == resolve(document.show(), document.sequence()));
    CHECK(result->findings == check(document.show(), document.sequence()));
    CHECK(result->all_findings == check(document.show()));
    CHECK_FALSE(result->findings.empty());
}

TEST_CASE("a table too large for its board stands in the list of each sequence, and goes when it fits") {
    Document document;
    Analysis analysis(document);
    add_lamp_and_cue(document);
    Board board;
    board.name = "quay";
    board.outputs = 1;
    board.table_bytes = 100;
    document.perform(add_board(document.show(), board));
    Channel lamp = document.show().rig.channels.front();
    lamp.board = document.show().rig.boards.front().id;
    lamp.output = 1;
    document.perform(set_channel(document.show(), lamp));
    const auto too_large = [&] {
        const auto result = analysis.wait();
        const auto is_it = [](const Finding& finding) { return finding.check == "table_room"; };
        CHECK(std::ranges::count_if(result->all_findings, is_it) ==
              std::ranges::count_if(result->findings, is_it));
        return std::ranges::count_if(result->findings, is_it);
    };
    CHECK(too_large() == 1);
    document.perform(add_sequence(document.show(), "second", SequenceKind::idle, 3s));
    document.look_at(document.show().sequences.back().id);
    CHECK(too_large() == 1);
    board = document.show().rig.boards.front();
    board.table_bytes = 1000;
    document.perform(set_board(document.show(), board));
    CHECK(too_large() == 0);
}

TEST_CASE("the event loop brings the newest result without waiting for it") {
    Document document;
    Analysis analysis(document);
    add_lamp_and_cue(document);
    REQUIRE(QTest::qWaitFor([&] { return analysis.up_to_date() && analysis.result()->complete; }, 10000));
    for (int i = 0; i < 50; ++i) {
        const std::array ids{document.sequence().cues.front().id};
        document.perform(move_cues(document.show(), document.sequence_id(), ids, 10ms), 3);
        QTest::qWait(0);
    }
    REQUIRE(QTest::qWaitFor([&] { return analysis.up_to_date(); }, 10000));
    CHECK(analysis.result()->schedule == resolve(document.show(), document.sequence()));
}

TEST_CASE("looking at another sequence is another analysis") {
    Document document;
    Analysis analysis(document);
    document.perform(add_sequence(document.show(), "second", SequenceKind::idle, 3s));
    document.look_at(document.show().sequences.back().id);
    const auto result = analysis.wait();
    CHECK(result->sequence == document.sequence_id());
    CHECK(result->schedule.length == 3s);
}

TEST_CASE("an analysis can end while its worker works") {
    Document document;
    add_lamp_and_cue(document);
    for (int i = 0; i < 20; ++i) {
        const Analysis analysis(document);
        QTest::qWait(0);
    }
    SUCCEED("no hang and no crash");
}

TEST_CASE("before a show has been checked there is no answer, not even that of the show before") {
    Document document;
    Analysis analysis(document);
    CHECK(analysis.lingers());
    add_lamp_and_cue(document);
    static_cast<void>(analysis.wait());
    CHECK(analysis.checked());
    CHECK_FALSE(analysis.lingers());
    REQUIRE_FALSE(analysis.result()->findings.empty());

    const QSignalSpy lingering(&analysis, &Analysis::lingering);
    std::vector<std::size_t> seen;
    QObject::connect(&analysis, &Analysis::ready, &document, [&] {
        if (!analysis.checked()) {
            seen.push_back(analysis.result()->findings.size());
        }
    });
    document.reset(empty_show(), {});
    CHECK(lingering.size() == 1);
    CHECK(analysis.lingers());
    REQUIRE(QTest::qWaitFor([&] { return analysis.checked(); }, 10000));
    CHECK_FALSE(analysis.lingers());
    CHECK(std::ranges::all_of(seen, [](std::size_t findings) { return findings == 0; }));
}
