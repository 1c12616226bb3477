// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/board_facts.hpp"
#include "ui/editor/document.hpp"

#include <QWidget>

#include <optional>
#include <string>
#include <utility>
#include <vector>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace gasp {

/// What moves the prop by hand: a button for each channel of a board, which drives it only while it is held
/// down with mouse or key, and one for each sequence, which runs it once. All of them are dead until armed.
class BoardHands : public QWidget {
    Q_OBJECT

  public:
    explicit BoardHands(Document& document, QWidget* parent = nullptr);

    /// Channels of this board and sequences of the show, as they are now; nothing happens while they are as
    /// before.
    void list(BoardId board);
    void set_armed(bool armed);
    /// Which outputs are driven, as the board says; empty: not known.
    void show_status(const std::optional<BoardStatus>& status);

    [[nodiscard]] const std::vector<QPushButton*>& channel_buttons() const { return channels_; }
    [[nodiscard]] const std::vector<QPushButton*>& sequence_buttons() const { return sequences_; }

  signals:
    void held(std::uint8_t output);  ///< counted from 0
    void let_go();
    void interrupted();                     ///< after let_go(): the focus went while one was held
    void run_asked(std::uint8_t sequence);  ///< by its index in the show

  private:
    /// All that the buttons say.
    struct Listed {
        std::vector<Channel> channels;
        std::vector<std::pair<std::string, Micros>> sequences;
        bool operator==(const Listed&) const = default;
    };
    [[nodiscard]] Listed to_list(BoardId board) const;
    void build();
    struct Light {
        QLabel* state;
        std::uint8_t output;
    };
    void add_channel(const Channel& channel);
    void add_sequence(std::uint8_t index);

    Document& document_;
    std::optional<Listed> listed_;
    QWidget* body_ = nullptr;
    QVBoxLayout* column_;
    std::vector<QPushButton*> channels_;
    std::vector<QPushButton*> sequences_;
    std::vector<Light> lights_;
    bool armed_ = false;
};

}  // namespace gasp
