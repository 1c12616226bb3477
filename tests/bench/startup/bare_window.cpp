// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// A bare program of Qt Widgets' QMainWindow: what the editor's start is held against. It has a menu, a
// toolbar, a dock and a status line with a word in each, and does nothing. With "--empty" it has none of them
// and not a word to draw, so that it does not even look for a font.
#include <QApplication>
#include <QDockWidget>
#include <QLabel>
#include <QMainWindow>
#include <QMenuBar>
#include <QStatusBar>
#include <QTimer>
#include <QToolBar>

#include <cstdio>

namespace {

class BareWindow : public QMainWindow {
  public:
    void furnish() {
        menuBar()->addMenu("File")->addAction("Open");
        addToolBar("Transport")->addAction("Play");
        auto* dock = new QDockWidget("Rig", this);
        dock->setWidget(new QLabel("Channels", dock));
        addDockWidget(Qt::LeftDockWidgetArea, dock);
        statusBar()->showMessage("Ready");
    }

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
    if (!QApplication::arguments().contains("--empty")) {
        window.furnish();
    }
    window.resize(1280, 720);
    window.show();
    return QApplication::exec();
}
