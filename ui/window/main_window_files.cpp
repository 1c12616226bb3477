// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// What the window asks about files: where to save, what to open, and whether what is not saved may go.
#include "core/file/atomic_write.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/editor/moments.hpp"
#include "ui/editor/output_name.hpp"
#include "ui/editor/sound_import.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/export_dialog.hpp"
#include "ui/panels/pack_dialog.hpp"
#include "ui/panels/sound_dialog.hpp"
#include "ui/sheet/circuit/circuit_picture.hpp"
#include "ui/sheet/picture_file.hpp"
#include "ui/timeline/timeline_view.hpp"
#include "ui/timeline/waveforms.hpp"
#include "ui/window/main_window.hpp"
#include "ui/window/message_bar.hpp"

#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <QMessageBox>
#include <QMimeData>
#include <QUrl>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace gasp {
namespace {

QStringList local_files(const QMimeData& data) {
    QStringList files;
    for (const QUrl& url : data.urls()) {
        if (url.isLocalFile()) {
            files << url.toLocalFile();
        }
    }
    return files;
}

constexpr const char* show_filter = "Show (*.gasp)";

/// A chooser that does not stop the rest of the program.
QFileDialog* make_chooser(QWidget* parent, const QString& title, const QString& filter,
                          const QString& folder) {
    auto* chooser = new QFileDialog(parent, title, folder, filter);
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    return chooser;
}

}  // namespace

void MainWindow::leave_then(std::function<void()> then) {
    if (!document_.modified()) {
        then();
        return;
    }
    auto* box = new QMessageBox(this);
    box->setAttribute(Qt::WA_DeleteOnClose);
    box->setWindowTitle("Gaspworks");
    box->setIcon(QMessageBox::Question);
    box->setText(QStringLiteral("\"%1\" has changes that are not saved.").arg(shown_name()));
    box->setStandardButtons(QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel);
    box->setDefaultButton(QMessageBox::Save);
    connect(box, &QMessageBox::finished, this, [this, then = std::move(then)](int answer) {
        if (answer == QMessageBox::Save) {
            save_then(then);
        } else if (answer == QMessageBox::Discard) {
            then();
        }
    });
    box->open();
}

void MainWindow::save_then(std::function<void()> then) {
    if (document_.path().isEmpty()) {
        choose_save_path(std::move(then));
    } else if (files_.save()) {
        then();
    }
}

void MainWindow::choose_save_path(std::function<void()> then) {
    const QString folder = document_.path().isEmpty() ? settings_.last_folder() : document_.folder();
    QFileDialog* chooser = make_chooser(this, "Save show as", show_filter, folder);
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    chooser->setDefaultSuffix("gasp");
    const QString name = QString::fromStdString(document_.show().name);
    chooser->selectFile((name.isEmpty() ? QString("show") : name) + ".gasp");
    connect(chooser, &QFileDialog::fileSelected, this, [this, then = std::move(then)](const QString& path) {
        if (files_.save_as(path)) {
            then();
        }
    });
    chooser->open();
}

void MainWindow::offer_to_save_over(const QString& path) {
    messages_->add_offer(
        QStringLiteral(
            "Not saved: another program has changed %1 since it was read or saved here. Keep both by "
            "saving under another name, or lose what the other one wrote")
            .arg(QFileInfo(path).fileName()),
        {{"Save as...", [this] { choose_save_path([] {}); }},
         {"Save over it", [this] { files_.save(ShowFiles::Over::anything); }}},
        MessageBar::About::saving);
}

void MainWindow::choose_open() {
    QFileDialog* chooser = make_chooser(
        this, "Open", QStringLiteral("%1;;%2").arg(show_filter, sound_filter()), settings_.last_folder());
    chooser->setFileMode(QFileDialog::ExistingFile);
    connect(chooser, &QFileDialog::fileSelected, this, &MainWindow::open);
    chooser->open();
}

void MainWindow::choose_sounds() {
    const QString folder = document_.folder().isEmpty() ? settings_.last_folder() : document_.folder();
    QFileDialog* chooser = make_chooser(this, "Add sound", sound_filter(), folder);
    chooser->setFileMode(QFileDialog::ExistingFiles);
    connect(chooser, &QFileDialog::filesSelected, this, [this](const QStringList& files) {
        files_.add_sounds(files, document_.sequence().clips.empty() ? Micros{0} : timeline_->playhead());
    });
    chooser->open();
}

void MainWindow::choose_sound_file(ClipId id) {
    const SoundClip* clip = gasp::find(document_.sequence(), id);
    if (clip == nullptr) {
        return;
    }
    QFileDialog* chooser =
        make_chooser(this, QStringLiteral("Choose the file of %1").arg(QString::fromStdString(clip->file)),
                     sound_filter(), document_.folder());
    chooser->setFileMode(QFileDialog::ExistingFile);
    connect(chooser, &QFileDialog::fileSelected, this,
            [this, file = clip->file](const QString& path) { files_.choose_sound_file(file, path); });
    chooser->open();
}

void MainWindow::choose_picture() {
    QFileDialog* chooser =
        make_chooser(this, "Save picture of the timeline", "Picture (*.png *.svg)", document_.folder());
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    chooser->setDefaultSuffix("png");
    connect(chooser, &QFileDialog::fileSelected, this, &MainWindow::save_picture);
    chooser->open();
}

void MainWindow::save_picture(const QString& path) {
    const auto result = analysis_.wait();
    const Sequence& sequence = result->played(document_.sequence());
    PictureContent content{.show = document_.show(),
                           .sequence = sequence,
                           .schedule = result->schedule,
                           .air = result->air,
                           .findings = result->findings,
                           .peaks = {}};
    for (const SoundClip& clip : sequence.clips) {
        if (auto peaks = timeline_->waveforms().peaks(clip)) {
            content.peaks.emplace(clip.id, std::move(peaks));
        }
    }
    PictureStyle style;
    style.units = settings_.units();
    style.grid = settings_.grid(document_.path(), document_.sequence_id());
    const TimelinePicture picture(std::move(content), style);
    constexpr int width_px = 1920;
    save_bytes(path, [&](bool svg) {
        return svg ? svg_of(picture, {width_px, 0}) : png_of(picture, {width_px, 0});
    });
}

void MainWindow::save_bytes(const QString& path, const std::function<Result<std::string>(bool svg)>& make) {
    if (const auto named = check_output_name(document_, path); !named) {
        messages_->add_error(named.error());
        return;
    }
    const QString ending = QFileInfo(path).suffix().toLower();
    if (ending != "png" && ending != "svg") {
        messages_->add_error({"the picture's file must end in .png or .svg", path.toStdString(),
                              "Give it one of these names"});
        return;
    }
    const Result<std::string> bytes = make(ending == "svg");
    if (!bytes) {
        messages_->add_error(bytes.error());
        return;
    }
    if (const auto written = atomic_write(as_path(path), *bytes); !written) {
        messages_->add_error(written.error());
        return;
    }
    say(QStringLiteral("Saved %1").arg(QFileInfo(path).fileName()));
}

void MainWindow::choose_circuit_picture(bool wiring) {
    QFileDialog* chooser =
        make_chooser(this, wiring ? "Save picture of the wiring" : "Save picture of the air circuit",
                     "Picture (*.png *.svg)", document_.folder());
    chooser->setAcceptMode(QFileDialog::AcceptSave);
    chooser->setDefaultSuffix("svg");
    connect(chooser, &QFileDialog::fileSelected, this,
            [this, wiring](const QString& path) { save_circuit_picture(wiring, path); });
    chooser->open();
}

void MainWindow::save_circuit_picture(bool wiring, const QString& path) {
    const Show& show = document_.show();
    const auto picture =
        wiring ? wiring_picture(show, settings_.units()) : air_picture(show, settings_.units());
    if (!picture) {
        messages_->add_error(picture.error());
        return;
    }
    constexpr int width_px = 1920;
    save_bytes(path, [&](bool svg) { return svg ? svg_of(*picture, width_px) : png_of(*picture, width_px); });
}

void MainWindow::show_pack() {
    if (pack_ == nullptr) {
        pack_ = new PackDialog(document_, settings_, this);
    }
    pack_->show();
    pack_->raise();
    pack_->activateWindow();
}

void MainWindow::revert() {
    const QString path = document_.path();
    messages_->add_offer(QStringLiteral("Go back to %1 as it was last saved? Changes since then are lost.")
                             .arg(QFileInfo(path).fileName()),
                         {{"Go back", [this, path] { files_.open(path); }}});
}

void MainWindow::show_recent() {
    recent_->clear();
    int number = 0;
    for (const QString& path : settings_.recent()) {
        const QString text = QStringLiteral("&%1  %2").arg(++number).arg(QFileInfo(path).fileName());
        QAction* action = recent_->addAction(text, this, [this, path] { open(path); });
        action->setToolTip(path);
        action->setStatusTip(path);
    }
    recent_->addSeparator();
    recent_->addAction("Forget these", this, [this] { settings_.forget_recent(); })->setEnabled(number > 0);
}

void MainWindow::show_export() {
    if (export_ == nullptr) {
        export_ = new ExportDialog(document_, analysis_, settings_, this);
    }
    export_->show();
    export_->raise();
    export_->activateWindow();
}

void MainWindow::tell_missing_sounds() {
    QStringList names;
    for (const MissingSound& sound : missing_sounds(document_.show(), as_path(document_.folder()))) {
        names << QString::fromStdString(sound.file);
    }
    if (!names.isEmpty()) {
        messages_->add_offer(QStringLiteral("Missing sounds: %1").arg(names.join(", ")),
                             {{"Find them...", [this] { show_sound(); }}});
    }
}

void MainWindow::read_sounds_anew(const QStringList& files) {
    for (const QString& file : files) {
        timeline_->waveforms().read_anew(file);
        timeline_->moments().listen_anew(file);
    }
    audition_.reopen_sounds();
    analysis_.ask();
    if (sound_ != nullptr) {
        sound_->forget_measured();
    }
    say(QStringLiteral("Changed on the disk and read again: %1").arg(files.join(", ")));
}

void MainWindow::show_sound() {
    if (sound_ == nullptr) {
        sound_ = new SoundDialog(document_, settings_, this);
    }
    sound_->show();
    sound_->raise();
    sound_->activateWindow();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const QStringList files = local_files(*event->mimeData());
    const auto takes = [](const QString& file) {
        return looks_like_sound(file) || QFileInfo(file).suffix().toLower() == "gasp";
    };
    if (std::any_of(files.begin(), files.end(), takes)) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    QStringList sounds;
    for (const QString& file : local_files(*event->mimeData())) {
        if (QFileInfo(file).suffix().toLower() == "gasp") {
            event->acceptProposedAction();
            open(file);
            return;
        }
        if (looks_like_sound(file)) {
            sounds << file;
        }
    }
    if (!sounds.isEmpty()) {
        event->acceptProposedAction();
        files_.add_sounds(sounds, document_.sequence().clips.empty() ? Micros{0} : timeline_->playhead());
    }
}

}  // namespace gasp
