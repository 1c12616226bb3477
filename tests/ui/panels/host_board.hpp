// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/support/catch.hpp"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

namespace gasp {

/// The board player itself in a process of its own, on a pseudo-terminal; as it was delivered, with no table.
class HostBoard {
  public:
    HostBoard() { plug_in(); }
    ~HostBoard() { unplug(); }

    void plug_in() {
        process_.start(GASPWORKS_HOST_BOARD, {"--pty", port(), "--keep", folder_.filePath("memory"),
                                              "--trace", folder_.filePath("trace")});
        REQUIRE(QTest::qWaitFor([&] { return QFile::exists(port()); }, 5000));
    }
    void unplug() {
        process_.kill();
        process_.waitForFinished();
        QFile::remove(port());
    }
    [[nodiscard]] QString port() const { return folder_.filePath("port"); }
    /// A line for each change of its pins: clock in us, levels in hexadecimal.
    [[nodiscard]] QList<QByteArray> trace() const {
        QFile file(folder_.filePath("trace"));
        return file.open(QIODevice::ReadOnly) ? file.readAll().split('\n') : QList<QByteArray>{};
    }
    [[nodiscard]] bool drove(const QByteArray& levels) const {
        for (const QByteArray& line : trace()) {
            if (line.endsWith(" " + levels)) {
                return true;
            }
        }
        return false;
    }

  private:
    QTemporaryDir folder_;
    QProcess process_;
};

}  // namespace gasp
