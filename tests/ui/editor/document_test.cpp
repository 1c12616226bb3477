// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/document.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QSignalSpy>

#include <array>
#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// A document with one channel and a cue of 500 ms at 1 s.
struct WithCue {
    WithCue() {
        Channel channel;
        channel.name = "lamp";
        document.perform(add_channel(document.show(), channel));
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 1s;
        cue.length = 500ms;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
    }
    [[nodiscard]] const Cue& cue() const { return document.sequence().cues.front(); }
    [[nodiscard]] Edit moved(Micros by) const {
        const std::array ids{cue().id};
        return move_cues(document.show(), document.sequence_id(), ids, by);
    }

    Document document;
};

}  // namespace

TEST_CASE("an edit is one step to undo, under its own sentence") {
    WithCue with;
    const Show before = with.document.show();
    const auto revision = with.document.revision();
    const Edit edit = with.moved(250ms);
    QSignalSpy changed(&with.document, &Document::changed);

    with.document.perform(edit);

    CHECK(with.cue().at == 1250ms);
    CHECK(with.document.revision() > revision);
    CHECK(changed.count() == 1);
    CHECK(with.document.modified());
    CHECK(with.document.undo_stack().undoText().toStdString() == edit.sentence);
    with.document.undo_stack().undo();
    CHECK(with.document.show() == before);
    CHECK(changed.count() == 2);
    with.document.undo_stack().redo();
    CHECK(with.cue().at == 1250ms);
}

TEST_CASE("an edit that changes nothing leaves no step") {
    WithCue with;
    const int steps = with.document.undo_stack().count();
    with.document.perform(with.moved(0ms));
    CHECK(with.document.undo_stack().count() == steps);
}

TEST_CASE("held keys become one step") {
    WithCue with;
    const int steps = with.document.undo_stack().count();
    for (int i = 0; i < 5; ++i) {
        with.document.perform(with.moved(10ms), 7);
    }
    CHECK(with.cue().at == 1050ms);
    CHECK(with.document.undo_stack().count() == steps + 1);
    with.document.undo_stack().undo();
    CHECK(with.cue().at == 1s);
}

TEST_CASE("a drag shows each position and leaves one step") {
    WithCue with;
    const int steps = with.document.undo_stack().count();
    for (const Micros by : {100ms, 300ms, 200ms}) {
        with.document.preview([&](const Show& show) {
            const std::array ids{with.document.sequence().cues.front().id};
            return move_cues(show, with.document.sequence_id(), ids, by);
        });
        CHECK(with.cue().at == 1s + by);
        CHECK(with.document.undo_stack().count() == steps);
    }
    with.document.commit_preview();
    CHECK(with.cue().at == 1200ms);
    CHECK(with.document.undo_stack().count() == steps + 1);
    with.document.undo_stack().undo();
    CHECK(with.cue().at == 1s);
}

TEST_CASE("a drag that is given up, or interrupted by undo, leaves nothing of itself") {
    WithCue with;
    const Show before = with.document.show();
    with.document.preview(with.moved(100ms));
    with.document.cancel_preview();
    CHECK(with.document.show() == before);

    with.document.preview(with.moved(100ms));
    with.document.undo_stack().undo();
    CHECK(with.document.sequence().cues.empty());
    CHECK_FALSE(with.document.previewing());
    with.document.undo_stack().redo();
    CHECK(with.document.show() == before);
}

TEST_CASE("what is gone is no longer selected") {
    WithCue with;
    Selection selection;
    selection.cues = {with.cue().id};
    with.document.select(selection);
    const std::array ids{with.cue().id};
    with.document.perform(remove_cues(with.document.show(), with.document.sequence_id(), ids));
    CHECK(with.document.selection().cues.empty());
}

TEST_CASE("taking away the sequence looked at looks at another") {
    Document document;
    document.perform(add_sequence(document.show(), "second", SequenceKind::idle, 5s));
    document.look_at(document.show().sequences.back().id);
    REQUIRE(document.sequence().name == "second");
    QSignalSpy replaced(&document, &Document::replaced);
    document.undo_stack().undo();
    CHECK(replaced.count() == 1);
    CHECK(document.sequence_id() == document.show().sequences.front().id);
}

TEST_CASE("whether it is saved follows the undo stack") {
    WithCue with;
    with.document.mark_saved("/somewhere/show.gasp");
    CHECK_FALSE(with.document.modified());
    with.document.perform(with.moved(1ms));
    CHECK(with.document.modified());
    with.document.undo_stack().undo();
    CHECK_FALSE(with.document.modified());
    with.document.mark_unsaved();
    CHECK(with.document.modified());
}

TEST_CASE("a snapshot is made once a revision and does not change with the document") {
    WithCue with;
    const auto first = with.document.snapshot();
    CHECK(with.document.snapshot() == first);
    with.document.perform(with.moved(1ms));
    CHECK(first->sequences.front().cues.front().at == 1s);
    CHECK(with.document.snapshot()->sequences.front().cues.front().at == 1001ms);
}
