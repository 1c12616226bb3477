// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/file/recovery.hpp"
#include "ui/editor/document.hpp"

#include <QFuture>
#include <QObject>
#include <QTimer>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <vector>

namespace gasp {

/// Keeps what is not saved where a crash cannot take it, and offers what an earlier crash left. Writing is
/// done in the background. Window thread.
class RecoveryKeeper : public QObject {
    Q_OBJECT

  public:
    /// How much of the user's time a crash may cost is this and the time of one write: at most 10 s.
    static constexpr std::chrono::seconds interval{5};

    /// `folder`: where recoveries of this user are kept.
    RecoveryKeeper(Document& document, std::filesystem::path folder, QObject* parent = nullptr);
    /// A window that closes in good order leaves nothing behind.
    ~RecoveryKeeper() override;

    /// The place for it on this system.
    [[nodiscard]] static std::filesystem::path usual_folder();

    /// What editors that no longer run have left, the latest first.
    [[nodiscard]] std::vector<Recovery> offers() const;
    /// Opens one in place of the open show, as not saved.
    [[nodiscard]] Result<void> take(const Recovery& recovery);

    /// Writes now if anything changed since the last time, and waits for it.
    void keep_now();

  signals:
    void failed(const gasp::Error& error);  ///< once, until it works again
    void works_again();

  private:
    void keep();
    void forget_if_saved();

    Document& document_;
    std::filesystem::path folder_;
    QTimer timer_;
    QFuture<Result<void>> writing_;
    std::uint64_t kept_revision_ = 0;
    bool kept_ = false;
    bool failing_ = false;
};

}  // namespace gasp
