// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <QString>
#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

class QVBoxLayout;

namespace gasp {

/// What went wrong, or what is offered, in lines above the timeline that stay until they are closed. Nothing
/// here blocks anything.
class MessageBar : public QWidget {
    Q_OBJECT

  public:
    struct Choice {
        QString text;
        std::function<void()> action;  ///< the line closes first
    };

    explicit MessageBar(QWidget* parent = nullptr);

    /// What a line says was not done; once that is done the line closes.
    enum class About { anything, saving, keeping };
    /// The same error twice is one line.
    void add_error(const Error& error, About about = About::anything);
    void close_lines(About about);
    /// The same offer twice is one line. With `about`, its line closes once that is done.
    void add_offer(const QString& text, const std::vector<Choice>& choices, std::optional<About> about = {});
    [[nodiscard]] QStringList texts() const;
    void close_all();

  private:
    QWidget* add(const QString& text, bool error, const std::vector<Choice>& choices);

    QVBoxLayout* lines_;
};

}  // namespace gasp
