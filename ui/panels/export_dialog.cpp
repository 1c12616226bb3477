// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_dialog.hpp"

#include "core/file/atomic_write.hpp"
#include "core/file/output_name.hpp"
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
#include <QVBoxLayout>
#include <QtConcurrentRun>

#include <algorithm>
#include <filesystem>

namespace gasp {
namespace {

enum Scope { this_sequence, every_sequence };

/// So much of a table is laid out; more makes a text view slow and nobody reads it.
constexpr qsizetype most_shown_bytes = 512 * 1024;
constexpr int most_named_stops = 3;

QString utf8(const std::string& text) {
    return QString::fromStdString(text);
}

QString shown_part(const std::string& csv) {
    const auto bytes = static_cast<qsizetype>(csv.size());
    QString text = QString::fromUtf8(csv.data(), std::min(bytes, most_shown_bytes));
    text.remove('\r');
    if (bytes > most_shown_bytes) {
        text.truncate(text.lastIndexOf('\n') + 1);
        text += QStringLiteral("\n(The rest is not shown here; it is saved and copied.)");
    }
    return text;
}

}  // namespace

ExportDialog::ExportDialog(Document& document, Analysis& analysis, Settings& settings, QWidget* parent)
    : QDialog(parent),
      document_(document),
      analysis_(analysis),
      settings_(settings),
      scope_(new QComboBox),
      comments_(new QCheckBox("With a head of &comments")),
      preview_(new QPlainTextEdit),
      facts_(new QLabel),
      stops_(new QLabel),
      state_(new QLabel),
      save_(new QPushButton("&Save as...")),
      copy_(new QPushButton("Copy &to clipboard")) {
    setWindowTitle("Export event table");
    setModal(false);
    resize(720, 520);
    scope_->addItems({"This sequence", "Every sequence"});
    scope_->setAccessibleName("Which sequences are exported");
    comments_->setChecked(true);
    comments_->setToolTip("Lines that begin with # and tell what the columns mean; RFC 4180 itself has none");
    preview_->setReadOnly(true);
    preview_->setFont(QFontDatabase::systemFont(QFontDatabase::FixedFont));
    preview_->setLineWrapMode(QPlainTextEdit::NoWrap);
    preview_->setAccessibleName("The event table as it will be written");
    stops_->setWordWrap(true);
    state_->setWordWrap(true);
    save_->setDefault(true);
    auto* close = new QPushButton("&Close");

    auto* options = new QHBoxLayout;
    options->addWidget(scope_);
    options->addWidget(comments_);
    options->addStretch(1);
    options->addWidget(facts_);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(state_, 1);
    buttons->addWidget(copy_);
    buttons->addWidget(save_);
    buttons->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->addLayout(options);
    column->addWidget(preview_, 1);
    column->addWidget(stops_);
    column->addLayout(buttons);

    connect(scope_, &QComboBox::currentIndexChanged, this, &ExportDialog::refresh);
    connect(comments_, &QCheckBox::toggled, this, &ExportDialog::refresh);
    connect(save_, &QPushButton::clicked, this, &ExportDialog::choose_file);
    connect(copy_, &QPushButton::clicked, this, &ExportDialog::copy);
    connect(close, &QPushButton::clicked, this, &QDialog::close);
    connect(&document_, &Document::changed, this, &ExportDialog::refresh);
    connect(&document_, &Document::replaced, this, &ExportDialog::refresh);
    connect(&analysis_, &Analysis::ready, this, &ExportDialog::show_findings);
    connect(&making_, &QFutureWatcherBase::finished, this, &ExportDialog::show_made);
}

ExportDialog::~ExportDialog() {
    making_.waitForFinished();
}

void ExportDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    refresh();
    show_findings();
}

std::optional<SequenceId> ExportDialog::only() const {
    return scope_->currentIndex() == this_sequence ? std::optional(document_.sequence().id) : std::nullopt;
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
    making_.setFuture(QtConcurrent::run(
        [show = document_.snapshot(), which = only(), comments = comments_->isChecked()]() -> Made {
            return std::make_shared<const ExportText>(export_text(*show, which, comments));
        }));
}

void ExportDialog::show_made() {
    if (stale_) {
        refresh();
        return;
    }
    const Made made = making_.result();
    preview_->setPlainText(shown_part(made->csv));
    QString facts = QStringLiteral("%L1 rows; largest rounding to a tick %2")
                        .arg(made->rows)
                        .arg(utf8(print_duration(made->largest_rounding)));
    if (made->lost_in_tick > 0) {
        facts += QStringLiteral("; %L1 too short for the tick and lost").arg(made->lost_in_tick);
    }
    facts_->setText(facts);
}

void ExportDialog::show_findings() {
    const auto& result = *analysis_.result();
    const auto& findings =
        scope_->currentIndex() == every_sequence && result.complete ? result.all_findings : result.findings;
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
    QPalette colours = stops_->palette();
    colours.setColor(QPalette::WindowText, look().stop_text);
    stops_->setPalette(colours);
    stops_->setText(text);
    stops_->setVisible(count > 0);
}

QByteArray ExportDialog::text() const {
    const ExportText now = export_text(document_.show(), only(), comments_->isChecked());
    return QByteArray::fromStdString(now.csv);
}

bool ExportDialog::save_to(const QString& path) {
    const QByteArray bytes = text();
    const std::filesystem::path file(path.toStdU16String());
    const auto written =
        check_output_name(file, files_of(document_.show(), document_.path().toStdU16String(),
                                         document_.folder().toStdU16String()))
            .and_then([&] {
                return atomic_write(file, {bytes.constData(), static_cast<std::size_t>(bytes.size())});
            });
    if (!written) {
        show_state(utf8(written.error().text()), true);
        return false;
    }
    settings_.set_last_folder(QFileInfo(path).absolutePath());
    show_state(QStringLiteral("Saved %1").arg(path), false);
    return true;
}

QString ExportDialog::state() const {
    return state_->text();
}

void ExportDialog::choose_file() {
    auto* chooser = new QFileDialog(this, "Save event table");
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    chooser->setNameFilter("Event table (*.csv)");
    chooser->setDefaultSuffix("csv");
    chooser->setDirectory(document_.folder().isEmpty() ? settings_.last_folder() : document_.folder());
    chooser->selectFile(utf8(document_.show().name.empty() ? std::string("events") : document_.show().name) +
                        ".csv");
    connect(chooser, &QFileDialog::fileSelected, this, &ExportDialog::save_to);
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
