// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "ui/sheet/pack/pack_content.hpp"
#include "ui/sheet/pack/pack_flow.hpp"

#include <QString>

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <vector>

class QPainter;

namespace gasp {

struct PackStyle {
    Paper paper = Paper::a4;
    QString date;  ///< as printed: "2026-10-31"
};

/// The build pack: what stage manager, fitter and electrician take along, laid out on pages. Made once, then
/// painted by any thread, on the screen, a printer or a file.
class Pack {
  public:
    /// Requires: a QGuiApplication and its fonts.
    Pack(std::shared_ptr<const PackContent> content, PackStyle style);

    [[nodiscard]] int page_count() const { return static_cast<int>(pages_.size()); }
    [[nodiscard]] bool landscape(int page) const;
    /// In tenths of a millimetre, as it is held to be read.
    [[nodiscard]] QSizeF page_size(int page) const;
    [[nodiscard]] const std::vector<PackSection>& sections() const { return *sections_; }
    [[nodiscard]] const PackContent& content() const { return *content_; }
    [[nodiscard]] const PackStyle& style() const { return style_; }
    [[nodiscard]] const std::vector<PackPage>& pages() const { return pages_; }

    /// One page, from 0, its top left corner at the origin, a tenth of a millimetre to the unit. Leaves the
    /// painter as it was.
    void paint(QPainter& painter, int page) const;

  private:
    void add_frames(PrintMeasure& measure);

    std::shared_ptr<const PackContent> content_;
    PackStyle style_;
    std::vector<PackPage> pages_;
    std::shared_ptr<std::vector<PackSection>> sections_;
};

/// The bytes of a PDF file: vectors, and words that can be searched. `progress` (may be empty) gets the share
/// done; the work stops soon after `cancel` becomes true. Error: no fonts; cancelled.
[[nodiscard]] Result<std::string> pdf_of(const Pack& pack, const std::atomic<bool>& cancel,
                                         const std::function<void(double)>& progress);

}  // namespace gasp
