// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/task_rows.hpp"

#include <QString>

#include <utility>

namespace gasp {
namespace {

QString text(std::string_view view) {
    return QString::fromUtf8(view.data(), static_cast<qsizetype>(view.size()));
}

using Task = std::shared_ptr<SizingTask>;

class TaskFigureRow : public FigureRow {
  public:
    TaskFigureRow(Document& document, const Settings& settings, FigureEntry entry,
                  std::function<void(Figure)> put, QWidget* parent)
        : FigureRow(document, settings, std::move(entry), parent), put_(std::move(put)) {}

  protected:
    void keep(Figure figure) override { put_(figure); }

  private:
    std::function<void(Figure)> put_;
};

class TaskChoiceRow : public ChoiceRow {
  public:
    TaskChoiceRow(Document& document, ChoiceEntry entry, std::function<void(int)> put, QWidget* parent)
        : ChoiceRow(document, std::move(entry), parent), put_(std::move(put)) {}

  protected:
    void keep(int index) override { put_(index); }

  private:
    std::function<void(int)> put_;
};

FigureEntry entry_of(const FigureField<SizingTask>& field, const Task& task) {
    return {.key = std::string(field.key),
            .label = text(field.label),
            .help = text(field.help),
            .quantity = field.quantity,
            .least = field.least,
            .most = field.most,
            .whole = false,
            .get = [task, member = field.member](const Show&) { return (*task).*member; },
            .set = {}};
}

ChoiceEntry entry_of(const ChoiceField<SizingTask>& field, const Task& task) {
    QStringList words;
    for (const std::string_view label : field.labels) {
        words << text(label);
    }
    return {.key = std::string(field.key),
            .label = text(field.label),
            .help = text(field.help),
            .words = [words](const Show&) { return words; },
            .get = [task, get = field.get](const Show&) { return static_cast<int>(get(*task)); },
            .set = {}};
}

}  // namespace

std::vector<FormRow*> make_task_rows(Document& document, const Settings& settings,
                                     const std::shared_ptr<SizingTask>& task,
                                     const std::function<void()>& changed, QWidget* parent) {
    std::vector<FormRow*> rows;
    for (const auto& field : fields<SizingTask>().choices) {
        const auto put = [task, changed, set = field.set](int index) {
            set(*task, static_cast<std::size_t>(index));
            changed();
        };
        rows.push_back(new TaskChoiceRow(document, entry_of(field, task), put, parent));
    }
    for (const auto& field : fields<SizingTask>().figures) {
        const auto put = [task, changed, member = field.member](Figure figure) {
            (*task).*member = figure;
            changed();
        };
        rows.push_back(new TaskFigureRow(document, settings, entry_of(field, task), put, parent));
    }
    return rows;
}

}  // namespace gasp
