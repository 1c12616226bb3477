// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/support/catch.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/findings_panel.hpp"
#include "ui/panels/rig_panel.hpp"
#include "ui/timeline/timeline_view.hpp"
#include "ui/window/main_window.hpp"
#include "ui/window/message_bar.hpp"

#include <QApplication>
#include <QDir>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFile>
#include <QLineEdit>
#include <QMimeData>
#include <QSettings>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>
#include <string_view>

namespace gasp {

/// A recorded voice of Debian's alsa-utils: "Front, center".
inline const QString recorded_voice = "/usr/share/sounds/alsa/Front_Center.wav";

/// The whole window on a desk of its own: no settings, no recoveries, a folder for files.
struct OpenWindow {
    OpenWindow() {
        QSettings().clear();
        QDir(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation)).removeRecursively();
        set_theme(Theme::dark);
        settings.set_units(UnitSystem::metric);
        QSignalSpy painted(&window, &MainWindow::painted);
        window.show();
        window.activateWindow();
        REQUIRE(QTest::qWaitForWindowExposed(&window));
        REQUIRE(QTest::qWaitFor([&painted] { return !painted.isEmpty(); }));
    }

    [[nodiscard]] QString voice() const {
        const QString path = folder.filePath("voice.wav");
        QFile::copy(recorded_voice, path);
        return path;
    }
    [[nodiscard]] bool idle() {
        return QTest::qWaitFor([this] { return window.files().busy().isEmpty(); }, 20000);
    }
    void drop(const QString& file) {
        QMimeData data;
        data.setUrls({QUrl::fromLocalFile(file)});
        const QPoint middle(window.width() / 2, window.height() / 2);
        QDragEnterEvent enter(middle, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&window, &enter);
        REQUIRE(enter.isAccepted());
        QDropEvent drop_event(middle, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&window, &drop_event);
        REQUIRE(idle());
    }
    template <class T = QWidget>
    T& named(const QString& name) {
        for (T* widget : window.findChildren<T*>()) {
            if (widget->accessibleName() == name) {
                return *widget;
            }
        }
        FAIL("nothing is called " << name.toStdString());
        return *window.findChild<T*>();
    }
    QAction& action(const QString& text) {
        for (QAction* each : window.findChildren<QAction*>()) {
            if (each->text().remove('&') == text) {
                return *each;
            }
        }
        FAIL("no action is called " << text.toStdString());
        return *window.findChild<QAction*>();
    }
    FormRow& row(std::string_view key) {
        const auto& rows = window.rig().form().rows();
        const auto it =
            std::find_if(rows.begin(), rows.end(), [&](const FormRow* r) { return r->key() == key; });
        REQUIRE(it != rows.end());
        return **it;
    }
    void type(std::string_view key, const QString& text) {
        auto* edit = qobject_cast<QLineEdit*>(row(key).editor());
        REQUIRE(edit != nullptr);
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, text);
        QTest::keyClick(edit, Qt::Key_Return);
    }

    QTemporaryDir folder;
    Settings settings;
    MainWindow window{settings};
};

}  // namespace gasp
