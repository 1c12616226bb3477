// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_dialog.hpp"

#include "core/file/atomic_write.hpp"
#include "core/table/image_listing.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/editor/output_name.hpp"
#include "ui/look/look.hpp"

#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QFontDatabase>
#include <QGuiApplication>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSet>
#include <QVBoxLayout>
#include <QtConcurrentRun>

#include <algorithm>

namespace gasp {
namespace {

enum Scope { this_sequence, every_sequence };

/// So much of a table is laid out; more makes a text view slow and nobody reads it.
constexpr qsizetype most_shown_bytes = 512 * 1024;
constexpr int most_named_stops = 3;

QString utf8(const std::string& text) {
    return QString::fromStdString(text);
}

QString shown_part(const std::string& whole) {
    const auto bytes = static_cast<qsizetype>(whole.size());
    QString text = QString::fromUtf8(whole.data(), std::min(bytes, most_shown_bytes));
    text.remove('\r');
    if (bytes > most_shown_bytes) {
        text.truncate(text.lastIndexOf('\n') + 1);
        text += QStringLiteral("\n(The rest is not shown here; it is saved and copied.)");
    }
    return text;
}

QString preview_of(const ExportText& made, TableForm form) {
    if (made.error) {
        return utf8(made.error->text());
    }
    return info_of(form).text ? shown_part(made.bytes) : utf8(image_listing(made.bytes, most_shown_bytes));
}

}  // namespace

ExportDialog::ExportDialog(Document& document, Analysis& analysis, Settings& settings, QWidget* parent)
    : QDialog(parent),
      document_(document),
      analysis_(analysis),
      settings_(settings),
      form_(new QComboBox),
      scope_(new QComboBox),
      board_(new QComboBox),
      comments_(new QCheckBox("With a head of &comments")),
      preview_(new QPlainTextEdit),
      facts_(new QLabel),
      stops_(new QLabel),
      state_(new QLabel),
      save_(new QPushButton("&Save as...")),
      save_each_(new QPushButton("Save &each board...")),
      copy_(new QPushButton("Copy &to clipboard")) {
    setWindowTitle("Export event table");
    setModal(false);
    resize(760, 560);
    for (const FormInfo& info : table_forms()) {
        form_->addItem(utf8(std::string(info.label)), static_cast<int>(info.form));
    }
    form_->setAccessibleName("Form of the export");
    form_->setToolTip(
        "CSV for any program, C header for flash, board image for the board player, waveform for "
        "viewers, JSON for scripts");
    scope_->addItems({"This sequence", "Every sequence"});
    scope_->setAccessibleName("Which sequences are exported");
    board_->setAccessibleName("Which boards are exported");
    comments_->setChecked(true);
    comments_->setToolTip("Lines that begin with # and tell what the columns mean; RFC 4180 itself has none");
    save_each_->setToolTip("A file for each board of the show, in a folder");
    lay_out();
    connect(form_, &QComboBox::currentIndexChanged, this, &ExportDialog::refresh);
    connect(scope_, &QComboBox::currentIndexChanged, this, &ExportDialog::refresh);
    connect(board_, &QComboBox::activated, this, &ExportDialog::refresh);
    connect(comments_, &QCheckBox::toggled, this, &ExportDialog::refresh);
    connect(save_, &QPushButton::clicked, this, &ExportDialog::choose_file);
    connect(save_each_, &QPushButton::clicked, this, &ExportDialog::choose_folder);
    connect(copy_, &QPushButton::clicked, this, &ExportDialog::copy);
    connect(&document_, &Document::changed, this, &ExportDialog::refresh);
    connect(&document_, &Document::replaced, this, &ExportDialog::refresh);
    connect(&analysis_, &Analysis::ready, this, &ExportDialog::show_findings);
    connect(&making_, &QFutureWatcherBase::finished, this, &ExportDialog::show_made);
}

void ExportDialog::lay_out() {
    preview_->setReadOnly(true);
    preview_->setFont(QFontDatabase::systemFont(QFontDatabase::FixedFont));
    preview_->setLineWrapMode(QPlainTextEdit::NoWrap);
    preview_->setAccessibleName("The event table as it will be written");
    facts_->setWordWrap(true);
    stops_->setWordWrap(true);
    state_->setWordWrap(true);
    save_->setDefault(true);
    auto* close = new QPushButton("&Close");
    connect(close, &QPushButton::clicked, this, &QDialog::close);
    auto* options = new QHBoxLayout;
    for (QWidget* each : {static_cast<QWidget*>(form_), static_cast<QWidget*>(scope_),
                          static_cast<QWidget*>(board_), static_cast<QWidget*>(comments_)}) {
        options->addWidget(each);
    }
    options->addStretch(1);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(state_, 1);
    for (QPushButton* each : {copy_, save_each_, save_, close}) {
        buttons->addWidget(each);
    }
    auto* column = new QVBoxLayout(this);
    column->addLayout(options);
    column->addWidget(facts_);
    column->addWidget(preview_, 1);
    column->addWidget(stops_);
    column->addLayout(buttons);
}

ExportDialog::~ExportDialog() {
    making_.waitForFinished();
}

void ExportDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    refresh();
    show_findings();
}

TableForm ExportDialog::form() const {
    return static_cast<TableForm>(form_->currentData().toInt());
}

void ExportDialog::choose_form(TableForm form) {
    form_->setCurrentIndex(form_->findData(static_cast<int>(form)));
}

ExportChoice ExportDialog::choice() const {
    ExportChoice choice;
    choice.form = form();
    choice.comments = comments_->isChecked();
    if (scope_->currentIndex() == this_sequence) {
        choice.sequence = document_.sequence().id;
    }
    if (const QVariant board = board_->currentData(); board.isValid()) {
        choice.board = BoardId{board.toUInt()};
    }
    return choice;
}

/// The boards of the show; a form of one board offers no other choice.
void ExportDialog::fill_boards() {
    const QVariant chosen = board_->currentData();
    const auto& boards = document_.show().rig.boards;
    board_->clear();
    if (!info_of(form()).one_board || boards.empty()) {
        board_->addItem("Every board");
    }
    for (const Board& board : boards) {
        board_->addItem(utf8(board.name), board.id.value);
    }
    board_->setCurrentIndex(std::max(0, chosen.isValid() ? board_->findData(chosen) : 0));
    board_->setVisible(boards.size() > 1);
    save_each_->setVisible(boards.size() > 1);
    comments_->setVisible(form() == TableForm::csv);
    copy_->setVisible(info_of(form()).text);
}

void ExportDialog::refresh() {
    if (making_.isRunning()) {
        stale_ = true;
        return;
    }
    if (!isVisible()) {
        return;
    }
    stale_ = false;
    fill_boards();
    making_.setFuture(QtConcurrent::run([show = document_.snapshot(), what = choice()]() -> Made {
        ExportText text = export_text(*show, what);
        QString preview = preview_of(text, what.form);
        return std::make_shared<const MadeExport>(MadeExport{std::move(text), std::move(preview)});
    }));
}

void ExportDialog::show_made() {
    if (stale_) {
        refresh();
        return;
    }
    const Made made = making_.result();
    preview_->setPlainText(made->preview);
    QString facts = QStringLiteral("%L1 rows, %L2 bytes; largest rounding to a tick %3")
                        .arg(made->text.rows)
                        .arg(made->text.bytes.size())
                        .arg(utf8(print_duration(made->text.largest_rounding)));
    if (made->text.lost_in_tick > 0) {
        facts += QStringLiteral("; %L1 too short for the tick and lost").arg(made->text.lost_in_tick);
    }
    if (made->text.drift_ms) {
        facts += QStringLiteral("; boards may drift %1 ms apart").arg(*made->text.drift_ms, 0, 'g', 3);
    }
    facts_->setText(made->text.error ? QString("Cannot be exported like this") : facts);
    save_->setEnabled(!made->text.error);
    copy_->setEnabled(!made->text.error);
}

void ExportDialog::show_findings() {
    const auto& result = *analysis_.result();
    const bool every = scope_->currentIndex() == every_sequence;
    const auto& findings = every ? result.all_findings : result.findings;
    QStringList stops;
    int count = 0;
    for (const Finding& finding : findings) {
        if (finding.severity == Severity::stop && !finding.not_checked && count++ < most_named_stops) {
            stops << utf8(finding.what);
        }
    }
    QString text;
    if (count > 0) {
        text = QStringLiteral("Open stop findings: %1. %2.").arg(count).arg(stops.join("; "));
    }
    if (count > most_named_stops) {
        text += QStringLiteral(" And %1 more.").arg(count - most_named_stops);
    }
    if (every && !result.complete) {
        text += (text.isEmpty() ? "" : " ") + QStringLiteral("Not all sequences are checked yet.");
    }
    QPalette colours = stops_->palette();
    colours.setColor(QPalette::WindowText, look().stop_text);
    stops_->setPalette(colours);
    stops_->setText(text);
    stops_->setVisible(!text.isEmpty());
}

QByteArray ExportDialog::text() const {
    return QByteArray::fromStdString(export_text(document_.show(), choice()).bytes);
}

bool ExportDialog::write(const QString& path, const std::string& bytes) {
    const auto written =
        check_output_name(document_, path).and_then([&] { return atomic_write(as_path(path), bytes); });
    if (!written) {
        show_state(utf8(written.error().text()), true);
    }
    return written.has_value();
}

bool ExportDialog::save_to(const QString& path) {
    const ExportText now = export_text(document_.show(), choice());
    if (now.error) {
        show_state(utf8(now.error->text()), true);
        return false;
    }
    if (!write(path, now.bytes)) {
        return false;
    }
    settings_.set_last_folder(QFileInfo(path).absolutePath());
    show_state(QStringLiteral("Saved %1").arg(path), false);
    return true;
}

bool ExportDialog::save_each_to(const QString& folder) {
    ExportChoice each = choice();
    QSet<QString> names;
    for (const Board& board : document_.show().rig.boards) {
        each.board = board.id;
        const ExportText now = export_text(document_.show(), each);
        if (now.error) {
            show_state(utf8(now.error->text()), true);
            return false;
        }
        const QString base = utf8(file_name_of(board.name));
        QString name = base;
        for (int number = 2; names.contains(name); ++number) {
            name = QStringLiteral("%1_%2").arg(base).arg(number);
        }
        names.insert(name);
        if (!write(QDir(folder).filePath(name + utf8(std::string(info_of(each.form).suffix))), now.bytes)) {
            return false;
        }
    }
    settings_.set_last_folder(folder);
    show_state(QStringLiteral("Saved %1 files in %2").arg(names.size()).arg(folder), false);
    return true;
}

QString ExportDialog::state() const {
    return state_->text();
}

void ExportDialog::choose_file() {
    auto* chooser = new QFileDialog(this, "Save event table");
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    const FormInfo& info = info_of(form());
    const QString suffix = utf8(std::string(info.suffix));
    chooser->setNameFilter(QStringLiteral("%1 (*%2)").arg(utf8(std::string(info.label)), suffix));
    chooser->setDefaultSuffix(suffix.mid(1));
    chooser->setDirectory(document_.folder().isEmpty() ? settings_.last_folder() : document_.folder());
    const std::string& show = document_.show().name;
    const QString board = choice().board ? "-" + board_->currentText() : QString();
    chooser->selectFile(utf8(file_name_of((show.empty() ? "events" : show) + board.toStdString())) + suffix);
    connect(chooser, &QFileDialog::fileSelected, this, &ExportDialog::save_to);
    chooser->open();
}

void ExportDialog::choose_folder() {
    auto* chooser = new QFileDialog(this, "Save a file for each board");
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setFileMode(QFileDialog::Directory);
    chooser->setDirectory(document_.folder().isEmpty() ? settings_.last_folder() : document_.folder());
    connect(chooser, &QFileDialog::fileSelected, this, &ExportDialog::save_each_to);
    chooser->open();
}

void ExportDialog::copy() {
    QGuiApplication::clipboard()->setText(QString::fromUtf8(text()));
    show_state("Copied", false);
}

void ExportDialog::show_state(const QString& text, bool error) {
    QPalette colours = state_->palette();
    colours.setColor(QPalette::WindowText, error ? look().stop_text : look().text_soft);
    state_->setPalette(colours);
    state_->setText(text);
}

}  // namespace gasp
