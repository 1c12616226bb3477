// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/settings.hpp"
#include "ui/look/look.hpp"
#include "ui/window/main_window.hpp"

#include <QApplication>
#include <QCommandLineParser>
#include <QIcon>
#include <QTimer>

#include <chrono>
#include <cstdio>

namespace {

/// A show that takes longer to read than this is read behind an empty window.
constexpr std::chrono::milliseconds longest_wait{250};

void name_application() {
    QApplication::setOrganizationName("gaspworks");
    QApplication::setApplicationName("gaspworks");
    QApplication::setApplicationDisplayName("Gaspworks");
    QApplication::setApplicationVersion(GASPWORKS_VERSION);
    QApplication::setDesktopFileName("gaspworks");
}

/// Shows the window with the file it reads, so that nobody sees an empty one flash by.
void show_when_read(gasp::MainWindow& window) {
    if (window.files().busy().isEmpty()) {
        window.show();
        return;
    }
    const auto show_if_read = [&window] {
        if (window.files().busy().isEmpty()) {
            window.show();
        }
    };
    // Queued: when the files are no longer busy, the show is about to be put into the document.
    QObject::connect(&window.files(), &gasp::ShowFiles::busy_changed, &window, show_if_read,
                     Qt::QueuedConnection);
    QTimer::singleShot(longest_wait, &window, &QWidget::show);
}

}  // namespace

int main(int argc, char** argv) {
    const QApplication application(argc, argv);
    name_application();
    QCommandLineParser arguments;
    arguments.setApplicationDescription(
        "Plans, checks and auditions the timed sequence of a pneumatic prop.");
    arguments.addPositionalArgument("file", "A show (.gasp), or a sound to begin one with.", "[file]");
    const QCommandLineOption time_paint(
        "quit-after-first-paint",
        "Print \"painted\" once the lanes of the show were painted, and quit: to time it.");
    arguments.addOption(time_paint);
    arguments.addHelpOption();
    arguments.addVersionOption();
    arguments.process(application);

    gasp::Settings settings;
    gasp::set_theme(settings.light_theme() ? gasp::Theme::light : gasp::Theme::dark);
    gasp::MainWindow window(settings, arguments.positionalArguments().value(0));
    // What the first picture need not wait for.
    QObject::connect(&window, &gasp::MainWindow::painted, &window, [&] {
        if (arguments.isSet(time_paint)) {
            std::puts("painted");
            std::fflush(stdout);
            QApplication::quit();
            return;
        }
        QApplication::setWindowIcon(QIcon(":/gaspworks.svg"));
        window.offer_recovery();
    });
    show_when_read(window);
    return QApplication::exec();
}
