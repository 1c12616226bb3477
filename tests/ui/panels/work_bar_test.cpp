// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/work_bar.hpp"

#include "tests/support/catch.hpp"

#include <QAction>
#include <QElapsedTimer>
#include <QProgressBar>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

#include <chrono>
#include <memory>
#include <thread>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Desk {
    Desk() {
        bar->show();
        QObject::connect(bar.get(), &WorkBar::started, [this] {
            bar->run<int>(
                [this](const std::atomic<bool>& cancel, const WorkBar::Progress& progress) -> Result<int> {
                    while (!cancel && !release) {
                        progress(0.5);
                        std::this_thread::sleep_for(1ms);
                    }
                    return 42;
                },
                [this](Result<int> number) { result = *number; });
        });
    }
    QAction action{"Count"};
    std::atomic<bool> release = false;
    int result = 0;
    std::unique_ptr<WorkBar> bar = std::make_unique<WorkBar>(action);
};

}  // namespace

TEST_CASE("work runs beside the window, says how far it is, and hands over its result") {
    Desk desk;
    QTest::mouseClick(&desk.bar->start_button(), Qt::LeftButton);
    CHECK(desk.bar->working());
    CHECK_FALSE(desk.bar->start_button().isVisible());
    CHECK(desk.bar->cancel_button().isVisible());
    auto* progress = desk.bar->findChild<QProgressBar*>();
    CHECK(QTest::qWaitFor([progress] { return progress->value() == progress->maximum() / 2; }));
    desk.action.trigger();  // asked for again meanwhile: it goes on
    CHECK(desk.result == 0);
    desk.release = true;
    CHECK(QTest::qWaitFor([&desk] { return !desk.bar->working(); }));
    CHECK(desk.result == 42);
    CHECK(desk.bar->start_button().isVisible());
}

TEST_CASE("work that is given up hands over nothing and can be begun again") {
    Desk desk;
    QSignalSpy cancelled(desk.bar.get(), &WorkBar::cancelled);
    desk.action.trigger();
    QTest::mouseClick(&desk.bar->cancel_button(), Qt::LeftButton);
    CHECK(desk.bar->said() == "Stopping...");
    CHECK(QTest::qWaitFor([&cancelled] { return cancelled.count() == 1; }));
    CHECK(desk.result == 0);
    desk.release = true;
    desk.action.trigger();
    CHECK(QTest::qWaitFor([&desk] { return desk.result == 42; }));
}

TEST_CASE("closing the panel ends its work") {
    Desk desk;
    desk.action.trigger();
    QElapsedTimer time;
    time.start();
    desk.bar.reset();
    CHECK(time.elapsed() < 2000);
    QCoreApplication::processEvents();
    CHECK(desk.result == 0);
}
