// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sequence_bar.hpp"

#include "tests/support/catch.hpp"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

template <class T>
T& named(QWidget& parent, const char* name) {
    for (T* child : parent.findChildren<T*>()) {
        if (child->accessibleName() == name) {
            return *child;
        }
    }
    FAIL("no such part of the bar");
    return *parent.findChild<T*>();
}

void type(QLineEdit& edit, const QString& text) {
    edit.selectAll();
    QTest::keyClicks(&edit, text);
    QTest::keyClick(&edit, Qt::Key_Return);
}

}  // namespace

TEST_CASE("sequences are added, renamed, given a kind and a length, and removed") {
    Document document;
    SequenceBar bar(document);
    bar.show();
    bar.sequence_actions()[0]->trigger();
    REQUIRE(document.show().sequences.size() == 2);
    CHECK(document.sequence_id() == document.show().sequences[1].id);

    type(named<QLineEdit>(bar, "Name of the sequence"), "tide");
    CHECK(document.sequence().name == "tide");
    type(named<QLineEdit>(bar, "Length of the sequence"), "1:02.5");
    CHECK(document.sequence().length == 62500ms);
    auto& kind = named<QComboBox>(bar, "What starts the sequence");
    QTest::keyClick(&kind, Qt::Key_Down);
    CHECK(document.sequence().kind == SequenceKind::idle);

    document.undo_stack().undo();
    CHECK(kind.currentIndex() == 0);
    bar.sequence_actions()[1]->trigger();
    CHECK(document.show().sequences.size() == 1);
    CHECK_FALSE(bar.sequence_actions()[1]->isEnabled());
}

TEST_CASE("a wrong name or length is said and changes nothing") {
    Document document;
    SequenceBar bar(document);
    bar.show();
    bar.sequence_actions()[0]->trigger();
    const Show before = document.show();
    type(named<QLineEdit>(bar, "Name of the sequence"),
         QString::fromStdString(document.show().sequences.front().name));
    CHECK(document.show() == before);
    for (const char* wrong : {"0", "-1", "25:00:00", "long"}) {
        type(named<QLineEdit>(bar, "Length of the sequence"), wrong);
        CHECK(document.show() == before);
    }
}

TEST_CASE("Return takes a name and Escape takes it back, and both leave the field to the timeline") {
    Document document;
    SequenceBar bar(document);
    bar.show();
    const QSignalSpy left(&bar, &SequenceBar::left);
    auto& name = named<QLineEdit>(bar, "Name of the sequence");
    const std::string before = document.sequence().name;
    QTest::keyClicks(&name, "fog");
    QTest::keyClick(&name, Qt::Key_Escape);
    CHECK(left.size() == 1);
    CHECK(name.text().toStdString() == before);
    CHECK(document.sequence().name == before);
    type(name, "fog");
    CHECK(left.size() == 2);
    CHECK(document.sequence().name == "fog");
    name.selectAll();
    QTest::keyClick(&name, Qt::Key_Delete);
    QTest::keyClick(&name, Qt::Key_Return);
    CHECK(left.size() == 2);  // it says what is wrong and stays
}
