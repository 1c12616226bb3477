// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/pack_dialog.hpp"

#include "core/file/atomic_write.hpp"
#include "core/table/table_form.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/editor/output_name.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/pack_view.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QComboBox>
#include <QDate>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace gasp {

namespace {

using Made = std::shared_ptr<const Pack>;

/// Pages on whatever paper the printer has, as large as they fit.
Result<int> print_pages(const Pack& pack, QPrinter& printer, const std::atomic<bool>& cancel,
                        const WorkBar::Progress& progress) {
    const int first = printer.fromPage() > 0 ? printer.fromPage() - 1 : 0;
    const int last = printer.toPage() > 0 ? std::min(printer.toPage(), pack.page_count()) : pack.page_count();
    QPainter painter;
    for (int page = first; page < last && !cancel; ++page) {
        printer.setPageOrientation(pack.landscape(page) ? QPageLayout::Landscape : QPageLayout::Portrait);
        if (page == first ? !painter.begin(&printer) : !printer.newPage()) {
            return fail("the printer did not take the page", printer.printerName().toStdString(),
                        "See that it is on, or save the pack as a PDF");
        }
        const QSizeF size = pack.page_size(page);
        const QRectF paper = printer.paperRect(QPrinter::DevicePixel);
        const double scale = std::min(paper.width() / size.width(), paper.height() / size.height());
        painter.save();
        painter.scale(scale, scale);
        pack.paint(painter, page);
        painter.restore();
        progress((page - first + 1.0) / (last - first));
    }
    return last - first;
}

}  // namespace

PackDialog::PackDialog(Document& document, Settings& settings, QWidget* parent)
    : QDialog(parent),
      document_(document),
      settings_(settings),
      action_(new QAction("&Make it again", this)),
      work_(nullptr),
      paper_(new QComboBox),
      sections_(new QComboBox),
      facts_(new QLabel),
      view_(new PackView),
      save_(new QPushButton("&Save as PDF...")),
      print_(new QPushButton("&Print...")) {
    setWindowTitle("Build pack");
    setModal(false);
    action_->setToolTip("Make the pages anew from the show as it is now (F5)");
    action_->setShortcut(QKeySequence(Qt::Key_F5));
    addAction(action_);
    work_ = new WorkBar(*action_);
    paper_->addItem("A4", static_cast<int>(Paper::a4));
    paper_->addItem("US Letter", static_cast<int>(Paper::letter));
    set_paper(settings_.paper());
    paper_->setAccessibleName("Paper");
    sections_->setAccessibleName("Go to a section");
    sections_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    sections_->setMinimumContentsLength(24);
    lay_out();
    connect(work_, &WorkBar::started, this, &PackDialog::make);
    connect(work_, &WorkBar::cancelled, this, [this] { work_->say("Given up; nothing was written.", true); });
    connect(paper_, &QComboBox::currentIndexChanged, this, [this] {
        settings_.set_paper(this->paper());
        make();
    });
    connect(sections_, &QComboBox::activated, this,
            [this](int index) { view_->show_page(sections_->itemData(index).toInt()); });
    connect(view_, &PackView::page_changed, this, &PackDialog::show_facts);
    connect(save_, &QPushButton::clicked, this, &PackDialog::choose_file);
    connect(print_, &QPushButton::clicked, this, &PackDialog::choose_printer);
    connect(&document_, &Document::changed, this, [this] {
        stale_ = true;
        show_facts();
    });
    connect(&settings_, &Settings::units_changed, this, [this] {
        stale_ = true;
        show_facts();
    });
    save_->setEnabled(false);
    print_->setEnabled(false);
}

void PackDialog::lay_out() {
    auto* head = new QHBoxLayout;
    head->setSpacing(grid_px);
    auto* paper_label = new QLabel("P&aper");
    paper_label->setBuddy(paper_);
    auto* section_label = new QLabel("&Go to");
    section_label->setBuddy(sections_);
    head->addWidget(paper_label);
    head->addWidget(paper_);
    head->addSpacing(grid_px);
    head->addWidget(section_label);
    head->addWidget(sections_);
    head->addStretch(1);
    head->addWidget(facts_);
    auto* close = new QPushButton("&Close");
    auto* foot = new QHBoxLayout;
    foot->setSpacing(grid_px);
    foot->addWidget(work_, 1);
    foot->addWidget(print_);
    foot->addWidget(save_);
    foot->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->addLayout(head);
    column->addWidget(view_, 1);
    column->addLayout(foot);
    save_->setDefault(true);
    connect(close, &QPushButton::clicked, this, &QDialog::close);
    resize(860, 640);
}

Paper PackDialog::paper() const {
    return static_cast<Paper>(paper_->currentData().toInt());
}

void PackDialog::set_paper(Paper paper) {
    paper_->setCurrentIndex(paper_->findData(static_cast<int>(paper)));
}

QString PackDialog::state() const {
    return work_->said();
}

bool PackDialog::working() const {
    return work_->working();
}

void PackDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    if (pack_ == nullptr || stale_) {
        make();
    }
}

void PackDialog::make() {
    if (work_->working()) {
        stale_ = true;
        return;
    }
    stale_ = false;
    PackWish wish;
    wish.units = settings_.units();
    wish.folder = as_path(document_.folder());
    const PackStyle style{paper(), QDate::currentDate().toString(Qt::ISODate)};
    work_->run<Made>(
        [show = document_.show(), wish, style](const std::atomic<bool>& cancel,
                                               const WorkBar::Progress& progress) -> Result<Made> {
            const auto content = work_out_pack(show, wish, cancel, progress);
            return content == nullptr ? Made() : std::make_shared<const Pack>(content, style);
        },
        [this](Result<Made> pack) { take(std::move(pack)); });
    show_facts();
}

void PackDialog::take(Result<Made> pack) {
    if (!pack || *pack == nullptr) {
        return;
    }
    pack_ = std::move(*pack);
    view_->set_pack(pack_);
    fill_sections();
    save_->setEnabled(true);
    print_->setEnabled(true);
    QStringList trouble;
    for (const std::string& message : pack_->content().messages) {
        trouble << QString::fromStdString(message);
    }
    work_->say(trouble.join(' '), !trouble.isEmpty());
    show_facts();
    emit made();
    if (paper() != pack_->style().paper) {
        make();
    }
}

void PackDialog::fill_sections() {
    const QSignalBlocker quiet(sections_);
    sections_->clear();
    for (const PackSection& section : pack_->sections()) {
        sections_->addItem(QStringLiteral("%1  %2").arg(section.first_page).arg(section.title),
                           section.first_page - 1);
    }
}

void PackDialog::show_facts() {
    if (pack_ == nullptr) {
        facts_->setText(work_->working() ? "Being made..." : "");
        return;
    }
    QString text = QStringLiteral("page %1 of %2, revision %3")
                       .arg(view_->page() + 1)
                       .arg(pack_->page_count())
                       .arg(QString::fromStdString(pack_->content().revision));
    if (stale_) {
        text += ", the show has changed since: F5";
    }
    facts_->setText(text);
}

void PackDialog::choose_file() {
    auto* chooser = new QFileDialog(this, "Save build pack");
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    chooser->setNameFilter("Pages (*.pdf)");
    chooser->setDefaultSuffix("pdf");
    chooser->setDirectory(document_.folder().isEmpty() ? settings_.last_folder() : document_.folder());
    const std::string& name = document_.show().name;
    chooser->selectFile(QString::fromStdString(file_name_of((name.empty() ? "show" : name) + " build pack")) +
                        ".pdf");
    connect(chooser, &QFileDialog::fileSelected, this, &PackDialog::save_to);
    chooser->open();
}

void PackDialog::save_to(const QString& path) {
    if (pack_ == nullptr || work_->working()) {
        return;
    }
    if (const auto named = check_output_name(document_, path); !named) {
        work_->say(QString::fromStdString(named.error().text()), true);
        return;
    }
    work_->run<std::string>(
        [pack = pack_](const std::atomic<bool>& cancel, const WorkBar::Progress& progress) {
            return pdf_of(*pack, cancel, progress);
        },
        [this, path](const Result<std::string>& bytes) {
            const Result<void> written =
                bytes ? atomic_write(as_path(path), *bytes) : Result<void>(tl::unexpected(bytes.error()));
            if (written) {
                settings_.set_last_folder(QFileInfo(path).absolutePath());
                work_->say(QStringLiteral("Saved %1").arg(path));
            } else {
                work_->say(QString::fromStdString(written.error().text()), true);
            }
            emit saved();
        });
}

void PackDialog::choose_printer() {
    auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setFullPage(true);
    printer->setPageSize(QPageSize(paper() == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
    printer->setDocName(QString::fromStdString(document_.show().name));
    auto* chooser = new QPrintDialog(printer.get(), this);
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setOption(QAbstractPrintDialog::PrintPageRange);
    chooser->setMinMax(1, pack_->page_count());
    connect(chooser, &QDialog::accepted, this, [this, printer] { print_to(printer); });
    chooser->open();
}

void PackDialog::print_to(std::shared_ptr<QPrinter> printer) {
    if (pack_ == nullptr || work_->working()) {
        return;
    }
    work_->run<int>(
        [pack = pack_, printer](const std::atomic<bool>& cancel, const WorkBar::Progress& progress) {
            return print_pages(*pack, *printer, cancel, progress);
        },
        [this](const Result<int>& pages) {
            if (pages) {
                work_->say(QStringLiteral("Printed %1 pages").arg(*pages));
            } else {
                work_->say(QString::fromStdString(pages.error().text()), true);
            }
            emit saved();
        });
}

}  // namespace gasp
