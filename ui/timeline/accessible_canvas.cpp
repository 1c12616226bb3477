// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/accessible_canvas.hpp"

#include "core/units/time.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/canvas.hpp"

#include <QAccessibleWidget>

#include <algorithm>
#include <unordered_map>

namespace gasp {

namespace {

class AccessibleCue : public QAccessibleInterface {
  public:
    AccessibleCue(Canvas& canvas, CueId id) : canvas_(canvas), id_(id) {}

    [[nodiscard]] bool isValid() const override { return cue() != nullptr; }
    [[nodiscard]] QObject* object() const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* parent() const override {
        return QAccessible::queryAccessibleInterface(&canvas_);
    }
    [[nodiscard]] QAccessibleInterface* child(int) const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* childAt(int, int) const override { return nullptr; }
    [[nodiscard]] int childCount() const override { return 0; }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    [[nodiscard]] QAccessible::Role role() const override { return QAccessible::ListItem; }

    [[nodiscard]] QString text(QAccessible::Text which) const override {
        const Cue* found = cue();
        if (found == nullptr || which != QAccessible::Name) {
            return {};
        }
        const Document& document = canvas_.scene().document();
        const Channel* channel = find(document.show(), found->channel);
        QStringList words;
        words << (found->name.empty() ? QObject::tr("Cue") : QString::fromStdString(found->name));
        words << (channel != nullptr ? QString::fromStdString(channel->name) : QString());
        words << figures_of(document.sequence(), *found);
        return words.join(", ");
    }
    void setText(QAccessible::Text, const QString&) override {}

    [[nodiscard]] QRect rect() const override {
        const QRect box = box_of(canvas_.scene(), id_).toAlignedRect();
        return {canvas_.mapToGlobal(box.topLeft()), box.size()};
    }
    [[nodiscard]] QAccessible::State state() const override {
        QAccessible::State state;
        state.selectable = state.focusable = true;
        state.selected = state.focused = canvas_.scene().document().selection().has(id_);
        state.invalid = !isValid();
        return state;
    }

  private:
    [[nodiscard]] const Cue* cue() const { return find(canvas_.scene().document().sequence(), id_); }

    Canvas& canvas_;
    CueId id_;
};

class AccessibleCanvas : public QAccessibleWidget {
  public:
    explicit AccessibleCanvas(Canvas* canvas)
        : QAccessibleWidget(canvas, QAccessible::List), canvas_(*canvas) {}
    ~AccessibleCanvas() override {
        for (const auto& [cue, id] : children_) {
            QAccessible::deleteAccessibleInterface(id);
        }
    }

    [[nodiscard]] int childCount() const override { return static_cast<int>(cues().size()); }

    [[nodiscard]] QAccessibleInterface* child(int index) const override {
        if (index < 0 || index >= childCount()) {
            return nullptr;
        }
        const CueId cue = cues()[static_cast<std::size_t>(index)].id;
        const auto known = children_.find(cue);
        if (known != children_.end()) {
            return QAccessible::accessibleInterface(known->second);
        }
        auto* made = new AccessibleCue(canvas_, cue);
        children_[cue] = QAccessible::registerAccessibleInterface(made);
        return made;
    }

    [[nodiscard]] int indexOfChild(const QAccessibleInterface* child) const override {
        for (int i = 0; i < childCount(); ++i) {
            const auto known = children_.find(cues()[static_cast<std::size_t>(i)].id);
            if (known != children_.end() && QAccessible::accessibleInterface(known->second) == child) {
                return i;
            }
        }
        return -1;
    }

    [[nodiscard]] QAccessibleInterface* focusChild() const override {
        const auto& selected = canvas_.scene().document().selection().cues;
        const auto found = std::find_if(cues().begin(), cues().end(), [&](const Cue& cue) {
            return !selected.empty() && cue.id == selected.front();
        });
        return found == cues().end() ? nullptr : child(static_cast<int>(found - cues().begin()));
    }

  private:
    [[nodiscard]] const std::vector<Cue>& cues() const { return canvas_.scene().document().sequence().cues; }

    Canvas& canvas_;
    mutable std::unordered_map<CueId, QAccessible::Id> children_;
};

QAccessibleInterface* make(const QString&, QObject* object) {
    auto* canvas = qobject_cast<Canvas*>(object);
    return canvas != nullptr ? new AccessibleCanvas(canvas) : nullptr;
}

QString words_of_mark_or_clip(const Document& document) {
    const Selection& selection = document.selection();
    if (const Mark* mark = selection.mark ? find(document.sequence(), *selection.mark) : nullptr) {
        return QObject::tr("Mark %1, %2")
            .arg(QString::fromStdString(mark->name), QString::fromStdString(print_time(mark->time)));
    }
    if (const SoundClip* clip = selection.clip ? find(document.sequence(), *selection.clip) : nullptr) {
        return QObject::tr("Sound %1, %2")
            .arg(QString::fromStdString(clip->file), QString::fromStdString(print_time(clip->start)));
    }
    return {};
}

}  // namespace

void tell_selection(Canvas& canvas) {
    if (!canvas.hasFocus()) {
        return;
    }
    const QAccessibleInterface* lanes = QAccessible::queryAccessibleInterface(&canvas);
    QAccessibleInterface* cue = lanes != nullptr ? lanes->focusChild() : nullptr;
    canvas.setAccessibleDescription(cue != nullptr ? cue->text(QAccessible::Name)
                                                   : words_of_mark_or_clip(canvas.scene().document()));
    if (cue != nullptr) {
        QAccessibleEvent event(cue, QAccessible::Focus);
        QAccessible::updateAccessibility(&event);
    }
}

void make_canvas_accessible() {
    static const bool once = [] {
        QAccessible::installFactory(make);
        return true;
    }();
    static_cast<void>(once);
}

}  // namespace gasp
