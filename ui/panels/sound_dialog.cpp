// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sound_dialog.hpp"

#include "core/file/output_name.hpp"
#include "core/show/edits.hpp"
#include "core/sound/ear_level.hpp"
#include "core/sound/player_lag.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/look/type.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QComboBox>
#include <QDir>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <cmath>
#include <filesystem>
#include <limits>

namespace gasp {

namespace {

constexpr double usual_target_lufs = -23.0;  // EBU R 128
enum Column { of_what, loudness, momentary, short_term, true_peak, at_ear, column_count };

QString level(const std::optional<double>& value, const QString& unit) {
    return value ? QStringLiteral("%1 %2").arg(*value, 0, 'f', 1).arg(unit) : QObject::tr("silent");
}

QTableWidgetItem* cell(const QString& text, Qt::Alignment alignment) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setTextAlignment(alignment | Qt::AlignVCenter);
    return item;
}

std::vector<std::vector<SoundClip>> clips_of(const Show& show) {
    std::vector<std::vector<SoundClip>> clips;
    for (const Sequence& sequence : show.sequences) {
        clips.push_back(sequence.clips);
    }
    return clips;
}

/// Progress of one of several equal parts.
WorkBar::Progress part_of(const WorkBar::Progress& whole, std::size_t part, std::size_t parts) {
    return [whole, part, parts](double share) {
        whole((static_cast<double>(part) + share) / static_cast<double>(parts));
    };
}

}  // namespace

SoundDialog::SoundDialog(Document& document, Settings& settings, QWidget* parent)
    : QDialog(parent),
      document_(document),
      settings_(settings),
      measure_(make_action(this, Icon::sound, tr("Measure again"), "F5",
                           tr("Measure the loudness of every clip and mix"))),
      bar_(new WorkBar(*measure_)),
      table_(new QTableWidget),
      target_(new QDoubleSpinBox),
      form_(new QComboBox),
      facts_(new QLabel),
      match_(new QPushButton(tr("&Match clips"))),
      save_(new QPushButton(tr("&Save mixes..."))),
      lag_(new QPushButton(tr("&Hear the player's lag..."))),
      find_(new QPushButton(tr("&Find missing sounds..."))) {
    setWindowTitle(tr("Sound levels and mixes"));
    setModal(false);
    resize(960, 520);
    lay_out();
    connect(bar_, &WorkBar::started, this, &SoundDialog::measure);
    connect(match_, &QPushButton::clicked, this, &SoundDialog::match);
    connect(save_, &QPushButton::clicked, this,
            [this] { choose_folder(tr("Save the mixes in"), &SoundDialog::save_to); });
    connect(find_, &QPushButton::clicked, this,
            [this] { choose_folder(tr("Look for missing sounds below"), &SoundDialog::find_below); });
    connect(lag_, &QPushButton::clicked, this, &SoundDialog::choose_recording);
    connect(&document_, &Document::changed, this, &SoundDialog::notice_change);
    connect(&document_, &Document::replaced, this, [this] {
        list({});
        notice_change();
    });
}

void SoundDialog::lay_out() {
    table_->setColumnCount(column_count);
    table_->setHorizontalHeaderLabels({tr("Sound"), tr("Loudness"), tr("Max momentary"), tr("Max short-term"),
                                       tr("True peak"), tr("At the ear")});
    table_->horizontalHeader()->setSectionResizeMode(of_what, QHeaderView::Stretch);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setAccessibleName(tr("Loudness of each mix and clip"));
    table_->horizontalHeaderItem(momentary)->setToolTip(tr("The loudest 0.4 s (EBU Tech 3341), and where"));
    table_->horizontalHeaderItem(short_term)->setToolTip(tr("The loudest 3 s (EBU Tech 3341)"));
    target_->setRange(-60.0, -5.0);
    target_->setDecimals(1);
    target_->setValue(usual_target_lufs);
    target_->setButtonSymbols(QAbstractSpinBox::NoButtons);
    target_->setAlignment(Qt::AlignRight);
    target_->setSuffix(tr(" LUFS"));
    target_->setAccessibleName(tr("Loudness to bring clips to"));
    target_->setToolTip(tr("-23 LUFS is EBU R 128's; louder leaves less room before full scale"));
    match_->setToolTip(tr("Set the gain of every clip so that it is as loud as this, in one step"));
    form_->addItems({tr("WAV"), tr("FLAC")});
    form_->setAccessibleName(tr("Form of the mixes"));
    save_->setToolTip(
        tr("A stereo file of 16 bits for each sequence with sound, its head cut by the player's lag"));
    lag_->setToolTip(tr("From a phone's recording of some starts: a click, then the first sound"));
    find_->setToolTip(tr("By what they hold, whatever they are called now"));
    facts_->setWordWrap(true);
    auto* close = new QPushButton(tr("&Close"));
    connect(close, &QPushButton::clicked, this, &QDialog::close);
    auto* tools = new QHBoxLayout;
    tools->addWidget(new QLabel(tr("All clips at")));
    tools->addWidget(target_);
    tools->addWidget(match_);
    tools->addStretch(1);
    tools->addWidget(lag_);
    tools->addWidget(find_);
    auto* buttons = new QHBoxLayout;
    buttons->addStretch(1);
    buttons->addWidget(form_);
    buttons->addWidget(save_);
    buttons->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->addWidget(bar_);
    column->addWidget(table_, 1);
    column->addLayout(tools);
    column->addWidget(facts_);
    column->addLayout(buttons);
}

void SoundDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    notice_change();
    if (!bar_->working() && measured_ != clips_of(document_.show())) {
        measure();
    }
}

void SoundDialog::forget_measured() {
    measured_.clear();
    notice_change();
}

void SoundDialog::measure() {
    if (bar_->working()) {
        return;
    }
    const auto show = document_.snapshot();
    const std::filesystem::path folder = as_path(document_.folder());
    const auto work = [show, folder](const std::atomic<bool>& cancel,
                                     const WorkBar::Progress& progress) -> Result<Rows> {
        Rows rows;
        std::size_t part = 0;
        for (const Sequence& sequence : show->sequences) {
            rows.push_back(
                {sequence.id,
                 {},
                 QString::fromStdString(sequence.name),
                 0.0,
                 report_of_mix(sequence, folder, cancel, part_of(progress, part++, show->sequences.size()))});
            for (const SoundClip& clip : sequence.clips) {
                rows.push_back({sequence.id, clip.id, QString::fromStdString(clip.file), clip.gain_db,
                                report_of_clip(clip, folder, cancel, {})});
            }
        }
        return rows;
    };
    bar_->run<Rows>(work, [this, clips = clips_of(*show)](Result<Rows> rows) {
        measured_ = clips;
        list(*rows);
        notice_change();
    });
}

void SoundDialog::list(const Rows& rows) {
    rows_ = rows;
    table_->setRowCount(static_cast<int>(rows_.size()));
    for (int i = 0; i < table_->rowCount(); ++i) {
        const Row& row = rows_[static_cast<std::size_t>(i)];
        const QString name = row.clip ? QStringLiteral("      %1").arg(row.name) : row.name;
        QTableWidgetItem* what = cell(name, Qt::AlignLeft);
        if (!row.clip) {
            QFont bold = what->font();
            bold.setBold(true);
            what->setFont(bold);
        }
        const MixReport& report = row.report;
        const QString clips = report.clipped_samples > 0 ? tr(", clips") : QString();
        const auto ear = report.loudness_lufs
                             ? level_at_ear(document_.show().rig.speaker, *report.loudness_lufs)
                             : std::nullopt;
        table_->setItem(i, of_what, what);
        table_->setItem(i, loudness,
                        cell(report.problems.empty() ? level(report.loudness_lufs, tr("LUFS"))
                             : row.clip              ? tr("missing")
                                                     : tr("incomplete"),
                             Qt::AlignRight));
        const auto& loudest = report.loudest;
        table_->setItem(i, momentary,
                        cell(loudest ? tr("%1 LUFS at %2")
                                           .arg(loudest->momentary_lufs, 0, 'f', 1)
                                           .arg(QString::fromStdString(print_time(loudest->at, 1)))
                                     : QString(),
                             Qt::AlignRight));
        table_->setItem(
            i, short_term,
            cell(loudest ? level(loudest->short_term_lufs, tr("LUFS")) : QString(), Qt::AlignRight));
        table_->setItem(i, true_peak, cell(level(report.true_peak_dbtp, tr("dBTP")) + clips, Qt::AlignRight));
        table_->setItem(i, at_ear,
                        cell(ear ? tr("about %1 dBA").arg(*ear, 0, 'f', 0) : QString(), Qt::AlignRight));
    }
    table_->resizeColumnsToContents();
    table_->horizontalHeader()->setSectionResizeMode(of_what, QHeaderView::Stretch);
}

void SoundDialog::notice_change() {
    if (!isVisible()) {
        return;  // shown, it asks again
    }
    const bool current = measured_ == clips_of(document_.show());
    match_->setEnabled(current && !rows_.empty());
    if (!bar_->working()) {
        bar_->say(current || rows_.empty() ? QString() : tr("The sound has changed since it was measured"));
    }
    show_facts();
}

void SoundDialog::show_facts() {
    const Speaker& speaker = document_.show().rig.speaker;
    QStringList lines;
    if (!speaker.player_lag_ms) {
        lines << tr("The player's lag is not known: the mixes are taken to sound at once.");
    } else if (*speaker.player_lag_ms == 0.0) {
        lines << tr("The player is heard at once: the mixes are whole.");
    } else {
        lines << tr("The player is heard %1 ms after it is started: that much is left out at the head of "
                    "each mix.")
                     .arg(*speaker.player_lag_ms, 0, 'f', 0);
    }
    const auto missing = missing_sounds(document_.show(), as_path(document_.folder()));
    QStringList names;
    for (const MissingSound& sound : missing) {
        names << QString::fromStdString(sound.file);
    }
    if (!missing.empty()) {
        lines << tr("Missing: %1.").arg(names.join(", "));
    }
    if (!found_.isEmpty()) {
        lines << found_;
    }
    facts_->setText(lines.join("\n"));
    find_->setEnabled(!missing.empty());
}

void SoundDialog::match() {
    std::vector<ClipLevel> levels;
    for (const Row& row : rows_) {
        if (row.clip && row.report.loudness_lufs) {
            levels.push_back(
                {row.sequence, *row.clip, row.gain_db + target_->value() - *row.report.loudness_lufs});
        }
    }
    Edit edit = set_clip_gains(document_.show(), levels);
    edit.sentence = "match loudness of clips";
    if (edit.empty()) {
        bar_->say(tr("Every clip is as loud as that already"));
        return;
    }
    document_.perform(edit);
    measure();
}

void SoundDialog::save_to(const QString& folder) {
    if (bar_->working()) {
        return;
    }
    const auto show = document_.snapshot();
    const std::filesystem::path from = as_path(document_.folder());
    const std::filesystem::path to = as_path(folder);
    const auto sources = files_of(*show, as_path(document_.path()), from);
    const MixDelivery delivery{form_->currentIndex() == 1 ? MixForm::flac : MixForm::wav, mix_rate,
                               player_lag(show->rig.speaker)};
    const auto work = [=](const std::atomic<bool>& cancel, const WorkBar::Progress& progress) -> Result<int> {
        int saved = 0;
        for (std::size_t i = 0; i < show->sequences.size(); ++i) {
            const Sequence& sequence = show->sequences[i];
            if (sequence.clips.empty()) {
                continue;
            }
            const auto path = to / mix_file_name(i + 1, sequence.name, delivery.form);
            if (auto named = check_output_name(path, sources); !named) {
                return tl::unexpected(named.error());
            }
            const auto written = write_mix(sequence, from, delivery, path, cancel,
                                           part_of(progress, i, show->sequences.size()));
            if (!written) {
                return tl::unexpected(written.error());
            }
            ++saved;
        }
        return saved;
    };
    bar_->run<int>(work, [this, folder](const Result<int>& saved) {
        if (saved) {
            settings_.set_last_folder(folder);
            bar_->say(tr("Saved %1 mixes in %2").arg(*saved).arg(QDir::toNativeSeparators(folder)));
        } else {
            bar_->say(sentence_of(saved.error()), true);
        }
    });
}

void SoundDialog::hear_lag(const QString& recording) {
    if (bar_->working()) {
        return;
    }
    const auto work = [file = as_path(recording)](const std::atomic<bool>&, const WorkBar::Progress&) {
        return lag_in(file, Micros{0});
    };
    bar_->run<HeardLag>(work, [this](const Result<HeardLag>& heard) {
        if (!heard) {
            bar_->say(sentence_of(heard.error()), true);
            return;
        }
        Speaker speaker = document_.show().rig.speaker;
        speaker.player_lag_ms = std::round(heard->lag_ms);
        document_.perform(set_speaker(document_.show(), speaker));
        bar_->say(tr("The player's lag is %1 ms, the middle of %2 starts, %3 ms apart")
                      .arg(heard->lag_ms, 0, 'f', 0)
                      .arg(heard->each_ms.size())
                      .arg(heard->spread_ms, 0, 'f', 0));
    });
}

void SoundDialog::find_below(const QString& folder) {
    if (bar_->working()) {
        return;
    }
    const std::filesystem::path show_folder = as_path(document_.folder());
    const auto missing = missing_sounds(document_.show(), show_folder);
    const auto work = [=, to = as_path(folder)](const std::atomic<bool>& cancel,
                                                const WorkBar::Progress& progress) {
        return find_missing(missing, show_folder, to, cancel, progress);
    };
    bar_->run<FoundSounds>(work, [this](const Result<FoundSounds>& found) {
        if (!found) {
            bar_->say(sentence_of(found.error()), true);
            return;
        }
        if (!found->moved.empty()) {
            document_.perform(set_clip_files(document_.show(), found->moved));
        }
        found_ = tr("Found %1 sounds, %2 are still missing.")
                     .arg(found->moved.size() + found->copied.size())
                     .arg(found->still_missing.size());
        measure();
        show_facts();
    });
}

void SoundDialog::choose_folder(const QString& title, void (SoundDialog::*then)(const QString&)) {
    auto* chooser = new QFileDialog(this, title);
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setFileMode(QFileDialog::Directory);
    chooser->setOption(QFileDialog::ShowDirsOnly);
    chooser->setDirectory(settings_.last_folder());
    connect(chooser, &QFileDialog::fileSelected, this, then);
    chooser->open();
}

void SoundDialog::choose_recording() {
    auto* chooser = new QFileDialog(this, tr("Recording of the player's starts"));
    chooser->setAttribute(Qt::WA_DeleteOnClose);
    chooser->setFileMode(QFileDialog::ExistingFile);
    chooser->setDirectory(settings_.last_folder());
    connect(chooser, &QFileDialog::fileSelected, this, &SoundDialog::hear_lag);
    chooser->open();
}

}  // namespace gasp
