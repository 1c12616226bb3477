// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/findings_panel.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QComboBox>
#include <QElapsedTimer>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include <array>
#include <chrono>
#include <string>
#include <vector>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// A show with findings: a lamp without an output and a cue that ends after its sequence.
struct Desk {
    Desk() {
        Channel channel;
        channel.name = "lamp";
        document.perform(add_channel(document.show(), channel));
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 9s;
        cue.length = 5s;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
        panel.resize(900, 200);
        panel.show();
        result = analysis.wait();
    }
    Document document;
    Analysis analysis{document};
    Settings settings;
    FindingsPanel panel{document, analysis, settings};
    std::shared_ptr<const AnalysisResult> result;
};

}  // namespace

TEST_CASE("the list shows every finding, and those of a kind when asked") {
    Desk desk;
    auto* model = desk.panel.table().model();
    CHECK(model->rowCount() == static_cast<int>(desk.result->findings.size()));
    const FindingCounts counts = count(desk.result->findings);
    const std::array expected{desk.result->findings.size(), counts.stop, counts.warn, counts.note,
                              counts.not_checked};
    auto* filter = desk.panel.findChildren<QComboBox*>()[0];
    for (QComboBox* box : desk.panel.findChildren<QComboBox*>()) {
        if (box->count() == 5) {
            filter = box;
        }
    }
    for (int i = 0; i < 5; ++i) {
        filter->setCurrentIndex(i);
        CHECK(model->rowCount() == static_cast<int>(expected[static_cast<std::size_t>(i)]));
    }
}

TEST_CASE("the findings of every sequence stay while an edit is checked") {
    Desk desk;
    desk.document.perform(add_sequence(desk.document.show(), "quiet", SequenceKind::by_hand, 10s));
    const SequenceId first = desk.document.sequence_id();
    for (const Sequence& sequence : desk.document.show().sequences) {
        if (sequence.id != first) {
            desk.document.look_at(sequence.id);
        }
    }
    for (QComboBox* box : desk.panel.findChildren<QComboBox*>()) {
        if (box->count() == 2) {
            box->setCurrentIndex(1);
        }
    }
    const auto lists_outside = [&] {
        const auto* model = desk.panel.table().model();
        for (int row = 0; row < model->rowCount(); ++row) {
            if (model->index(row, 2).data().toString().contains("sequence")) {
                return true;
            }
        }
        return false;
    };
    desk.analysis.wait();
    REQUIRE(lists_outside());
    int heard = 0;
    bool always = true;
    QObject::connect(&desk.analysis, &Analysis::ready, &desk.panel, [&] {
        ++heard;
        always = always && lists_outside();
    });
    for (int i = 0; i < 5; ++i) {
        Cue cue;
        cue.channel = desk.document.show().rig.channels.front().id;
        cue.at = Micros{1s} * i;
        cue.length = 500ms;
        desk.document.perform(add_cues(desk.document.show(), desk.document.sequence_id(), {cue}));
        REQUIRE(QTest::qWaitFor([&] { return desk.analysis.checked(); }, 20'000));
    }
    CHECK(heard >= 5);
    CHECK(always);
}

TEST_CASE("Enter and a double click ask for the place of a finding") {
    Desk desk;
    QSignalSpy chosen(&desk.panel, &FindingsPanel::chosen);
    QTableView& table = desk.panel.table();
    table.selectRow(0);
    QTest::keyClick(&table, Qt::Key_Return);
    REQUIRE(chosen.count() == 1);
    CHECK(chosen[0][0].value<Finding>() == desk.result->findings.front());
    const QPoint middle = table.visualRect(table.model()->index(0, 2)).center();
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, middle);
    QTest::mouseDClick(table.viewport(), Qt::LeftButton, {}, middle);
    CHECK(chosen.count() == 2);
}

TEST_CASE("the rows can be sorted by severity and back") {
    Desk desk;
    auto* model = desk.panel.table().model();
    model->sort(FindingsModel::severity_column, Qt::DescendingOrder);
    int last = 99;
    for (int row = 0; row < model->rowCount(); ++row) {
        const int now = model->index(row, 0).data(FindingsModel::sort_role).toInt();
        CHECK(now <= last);
        last = now;
    }
}

TEST_CASE("an empty list says what was checked and claims nothing more") {
    Document document;
    Analysis analysis(document);
    const Settings settings;
    FindingsPanel panel(document, analysis, settings);
    analysis.wait();
    const QString text = panel.empty_text();
    CHECK(text.contains("Checked:"));
    CHECK(text.contains("Not checked:"));
    CHECK_FALSE(text.contains("safe", Qt::CaseInsensitive));
}

TEST_CASE("ten thousand findings are a list like any other") {
    Desk desk;
    std::vector<Finding> many;
    for (int i = 0; i < 10000; ++i) {
        Finding finding = desk.result->findings.front();
        finding.what = "finding " + std::to_string(i);
        many.push_back(finding);
    }
    FindingsModel model;
    QTableView table;
    table.setModel(&model);
    table.show();
    QElapsedTimer timer;
    timer.start();
    model.set(many, desk.document.show());
    QTest::qWait(0);
    table.grab();
    CHECK(model.rowCount() == 10000);
    CHECK(timer.elapsed() < 2000);
}
