// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/recorded_page.hpp"
#include "ui/sheet/pack/pack.hpp"

#include <QApplication>
#include <QBuffer>
#include <QPdfWriter>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

// The pages of a build pack of 2000 cues laid out and written, against QPdfWriter putting the same words and
// lines on the same pages. Timed in turn.

namespace {

using namespace gasp;

constexpr int cues = 2000;
constexpr int lamps = 14;
constexpr int rounds = 5;
constexpr double time_bar = 3.0;
constexpr double size_bar_mb = 2.0;
constexpr Micros second{1'000'000};

Show show_of_2000() {
    Show show;
    show.name = "bench";
    std::uint32_t id = 0;
    Actuator keeper;
    keeper.id = {++id};
    keeper.name = "Keeper";
    keeper.motion.out_ms = 400;
    keeper.motion.back_ms = 900;
    show.rig.actuators = {keeper};
    for (int i = 0; i <= lamps; ++i) {
        Channel channel;
        channel.id = {++id};
        channel.name = i == 0 ? "Keeper valve" : fmt::format("Lamp {} on the gallery", i);
        channel.kind = i == 0 ? ChannelKind::valve : ChannelKind::lamp;
        channel.output = static_cast<std::uint32_t>(i + 1);
        if (i == 0) {
            channel.actuator = keeper.id;
        }
        show.rig.channels.push_back(channel);
    }
    Sequence sequence;
    sequence.id = {++id};
    sequence.name = "Watch";
    sequence.kind = SequenceKind::by_hand;
    sequence.length = cues * second;
    for (int i = 0; i < cues; ++i) {
        Cue cue;
        cue.id = {++id};
        cue.channel = show.rig.channels[static_cast<std::size_t>(i % (lamps + 1))].id;
        cue.at = i * second;
        cue.length = second / 2;
        cue.name = fmt::format("turn {} of the lantern", i + 1);
        sequence.cues.push_back(cue);
    }
    show.sequences = {sequence};
    show.next_id = id + 1;
    return show;
}

const std::atomic<bool> never{false};

std::string pack_written(const std::shared_ptr<const PackContent>& content) {
    const Pack pack(content, {Paper::a4, "2026-10-31"});
    const Result<std::string> bytes = pdf_of(pack, never, {});
    if (!bytes) {
        fmt::print(stderr, "bench_sheet: {}\n", bytes.error().text());
        std::exit(1);
    }
    return *bytes;
}

struct PlainPage {
    QPageLayout layout;
    std::vector<for_tests::RecordedWords> words;
    std::vector<for_tests::RecordedShape> shapes;
};

std::vector<PlainPage> pages_of(const Pack& pack) {
    std::vector<PlainPage> pages;
    for (int page = 0; page < pack.page_count(); ++page) {
        for_tests::RecordedPage recorded;
        QPainter painter(&recorded);
        pack.paint(painter, page);
        painter.end();
        pages.push_back(
            {QPageLayout(QPageSize(QPageSize::A4),
                         pack.landscape(page) ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF()),
             std::move(recorded.words), std::move(recorded.shapes)});
    }
    return pages;
}

/// Words, lines and shapes as they were taken down, one after the other.
void write_plainly(const std::vector<PlainPage>& pages) {
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    writer.setResolution(254);
    writer.setPageLayout(pages.front().layout);
    QPainter painter(&writer);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        if (page > 0) {
            writer.setPageLayout(pages[page].layout);
            writer.newPage();
        }
        for (const auto& shape : pages[page].shapes) {
            painter.setTransform(shape.transform);
            painter.setPen(shape.pen);
            painter.setBrush(shape.brush);
            painter.drawPath(shape.path);
        }
        for (const auto& words : pages[page].words) {
            painter.setTransform(words.transform);
            painter.setFont(words.font);
            painter.setPen(words.colour);
            painter.drawText(words.at, words.text);
        }
    }
    painter.end();
}

template <class Do>
double seconds_of(Do work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

bool tell(const char* name, double value, double bar) {
    const bool good = value <= bar;
    fmt::print("bench {} = {:.2f} (bar {:.2f}) {}\n", name, value, bar, good ? "ok" : "short");
    return good;
}

}  // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    const auto content = work_out_pack(show_of_2000(), {}, never, {});
    const std::string bytes = pack_written(content);
    const std::vector<PlainPage> pages = pages_of(Pack(content, {Paper::a4, "2026-10-31"}));
    double pack = 1e9;
    double plain = 1e9;
    for (int round = 0; round < rounds; ++round) {
        pack = std::min(pack, seconds_of([&] { pack_written(content); }));
        plain = std::min(plain, seconds_of([&] { write_plainly(pages); }));
    }
    fmt::print("{} pages, pack {:.0f} ms, plainly {:.0f} ms\n", pages.size(), pack * 1e3, plain * 1e3);
    const bool fast = tell("build_pack_of_2000_cues_vs_plain_pdf", pack / plain, time_bar);
    const bool small =
        tell("build_pack_of_2000_cues_mb", static_cast<double>(bytes.size()) / 1e6, size_bar_mb);
    return fast && small ? 0 : 1;
}
