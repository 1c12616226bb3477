// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#define CATCH_CONFIG_RUNNER
#include "tests/support/catch.hpp"

#include <QApplication>
#include <QTemporaryDir>

/// Tests of the window: a real application, off screen unless QT_QPA_PLATFORM names another platform, whose
/// settings and caches are not the user's but in a folder of this process's own: tests run side by side.
int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    const QTemporaryDir home;
    for (const char* folder : {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"}) {
        qputenv(folder, home.filePath(folder).toUtf8());
    }
    QApplication::setOrganizationName("gaspworks-tests");
    QApplication::setApplicationName("gaspworks-tests");
    int qt_argc = 1;
    const QApplication application(qt_argc, argv);
    return Catch::Session().run(argc, argv);
}
