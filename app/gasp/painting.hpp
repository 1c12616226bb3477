// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QGuiApplication>

#include <optional>

namespace gasp {

/// What Qt needs to paint: pictures and pages are the same with and without a display.
class Painting {
  public:
    Painting() {
        // What Qt has to tell is for those who write programs; ours are the messages of this one.
        qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {});
        if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
            qputenv("QT_QPA_PLATFORM", "offscreen");
        }
        application_.emplace(count_, arguments_);
    }

  private:
    int count_ = 1;
    char name_[5] = "gasp";
    char* arguments_[2] = {name_, nullptr};
    std::optional<QGuiApplication> application_;
};

}  // namespace gasp
