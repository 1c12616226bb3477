// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <QString>
#include <QWidget>

#include <functional>
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

    /// What an error kept from being done; once that is done its lines close.
    enum class About { anything, saving, keeping };
    /// The same error twice is one line.
    void add_error(const Error& error, About about = About::anything);
    void close_errors(About about);
    void add_offer(const QString& text, const std::vector<Choice>& choices);
    [[nodiscard]] QStringList texts() const;
    void close_all();

  private:
    QWidget* add(const QString& text, bool error, const std::vector<Choice>& choices);

    QVBoxLayout* lines_;
};

}  // namespace gasp
