// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#define CATCH_CONFIG_RUNNER
#include "tests/support/catch.hpp"

#include <QApplication>
#include <QStandardPaths>

/// Tests of the window: a real application, off screen unless QT_QPA_PLATFORM names another platform, whose
/// settings and caches are not the user's.
int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QStandardPaths::setTestModeEnabled(true);
    QApplication::setOrganizationName("gaspworks-tests");
    QApplication::setApplicationName("gaspworks-tests");
    int qt_argc = 1;
    const QApplication application(qt_argc, argv);
    return Catch::Session().run(argc, argv);
}
