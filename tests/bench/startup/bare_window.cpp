// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The least a window of Qt Widgets can be: what the editor's start is held against.
#include <QApplication>
#include <QMainWindow>
#include <QTimer>

#include <cstdio>

namespace {

class BareWindow : public QMainWindow {
  protected:
    void paintEvent(QPaintEvent* event) override {
        QMainWindow::paintEvent(event);
        QTimer::singleShot(0, this, [] {
            std::puts("painted");
            std::fflush(stdout);
            QApplication::quit();
        });
    }
};

}  // namespace

int main(int argc, char** argv) {
    const QApplication application(argc, argv);
    BareWindow window;
    window.resize(1280, 720);
    window.show();
    return QApplication::exec();
}
