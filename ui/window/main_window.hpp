// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/recovery_keeper.hpp"
#include "ui/editor/settings.hpp"
#include "ui/editor/show_files.hpp"
#include "ui/editor/sound_watch.hpp"
#include "ui/stage/audition.hpp"

#include <QList>
#include <QMainWindow>

#include <functional>

class QLabel;
class QMenu;
class QPushButton;

namespace gasp {

class BoardPanel;
class ExportDialog;
class FindingsPanel;
class FittingPanel;
class ForecastPanel;
class MessageBar;
class MomentsPanel;
class PackDialog;
class PowerPanel;
class RigPanel;
class SequenceBar;
class SizingPanel;
class SoundDialog;
class TimelineView;
class TransportBar;
class WiringPanel;

/// The window: it owns the open show and everything that looks at it, and joins them. What each part does
/// stands in its own folder; here are the menus, the docks, and the care for what is not saved.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    /// `file`: the show or sound to begin with; it is read while the window is made.
    explicit MainWindow(Settings& settings, const QString& file = {});
    ~MainWindow() override;

    /// A show or a sound file; asks first if something is not saved.
    void open(const QString& path);
    /// Offers what a crash left. Not done by the constructor, for the first picture should not wait for it.
    void offer_recovery();

    [[nodiscard]] Document& document() { return document_; }
    [[nodiscard]] Analysis& analysis() { return analysis_; }
    [[nodiscard]] Audition& audition() { return audition_; }
    [[nodiscard]] TimelineView& timeline() { return *timeline_; }
    [[nodiscard]] RigPanel& rig();
    [[nodiscard]] FindingsPanel& findings();
    [[nodiscard]] ForecastPanel& forecast();
    [[nodiscard]] SizingPanel& sizing();
    [[nodiscard]] FittingPanel& fitting();
    [[nodiscard]] MomentsPanel& moments();
    [[nodiscard]] BoardPanel& board();
    [[nodiscard]] PowerPanel& power();
    [[nodiscard]] WiringPanel& wiring();
    [[nodiscard]] MessageBar& messages() { return *messages_; }
    [[nodiscard]] ShowFiles& files() { return files_; }

  signals:
    /// Once: the lanes of the first show are on the screen. A file being opened is waited for.
    void painted();

  protected:
    bool event(QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void make_centre();
    void make_docks();
    /// What is in the docks is made right after the first picture, which need not wait for it.
    void fill_docks();
    void fill_air_docks();
    void fill_moments_dock();
    void fill_board_dock();
    void fill_power_docks();
    /// In front of those it is stacked with, and high enough to be read.
    void bring_up(QDockWidget* dock);
    [[nodiscard]] QList<QDockWidget*> docks() const;
    void lay_docks_as_at_first();
    void canvas_paints();
    void make_status();
    void make_menus();
    void make_file_menu();
    void make_edit_menu();
    void make_view_menu();
    void make_help_menu();
    void connect_parts();
    void connect_timeline();
    void restore_window();
    QDockWidget* make_dock(const QString& title, const char* name, Qt::DockWidgetArea area);
    QAction* add_action(QMenu* menu, int sign, const QString& text, const QKeySequence& key,
                        const QString& tip, std::function<void()> does);

    /// What is typed in the field with the focus counts for a key that saves, works out or closes, as if the
    /// field had been left.
    void finish_typing() const;
    /// Calls `then` once nothing would be lost by it: at once, or after the user saved or chose not to.
    void leave_then(std::function<void()> then);
    void save_then(std::function<void()> then);
    void choose_save_path(std::function<void()> then);
    void offer_to_save_over(const QString& path);
    void choose_open();
    void choose_sounds();
    void choose_sound_file(ClipId id);
    void choose_picture();
    void save_picture(const QString& path);
    /// Of a picture, by the ending of the path; an error goes to the message bar.
    void save_bytes(const QString& path, const std::function<Result<std::string>(bool svg)>& make);
    void choose_circuit_picture(bool wiring);
    void save_circuit_picture(bool wiring, const QString& path);
    void revert();
    void show_recent();
    [[nodiscard]] QString shown_name() const;
    void show_title();
    void show_busy();
    void show_finding(const struct Finding& finding);
    void select_sound(const Place& place);
    void show_export();
    void show_sound();
    /// Once for all of them, with a way to find them.
    void tell_missing_sounds();
    /// What of the window was made of these files is made anew.
    void read_sounds_anew(const QStringList& files);
    void show_pack();
    void set_loop(bool on);
    void toggle_theme();
    void say(const QString& sentence);

    Settings& settings_;
    Document document_;
    Analysis analysis_;
    Audition audition_;
    SoundWatch sound_watch_;
    ShowFiles files_;
    RecoveryKeeper keeper_;
    MessageBar* messages_ = nullptr;
    SequenceBar* sequences_ = nullptr;
    TimelineView* timeline_ = nullptr;
    TransportBar* transport_ = nullptr;
    RigPanel* rig_ = nullptr;
    FindingsPanel* findings_ = nullptr;
    ForecastPanel* forecast_ = nullptr;
    SizingPanel* sizing_ = nullptr;
    FittingPanel* fitting_ = nullptr;
    MomentsPanel* moments_ = nullptr;
    BoardPanel* board_ = nullptr;
    PowerPanel* power_ = nullptr;
    WiringPanel* wiring_ = nullptr;
    QDockWidget* rig_dock_ = nullptr;
    QDockWidget* stage_dock_ = nullptr;
    QDockWidget* findings_dock_ = nullptr;
    QDockWidget* forecast_dock_ = nullptr;
    QDockWidget* sizing_dock_ = nullptr;
    QDockWidget* fitting_dock_ = nullptr;
    QDockWidget* moments_dock_ = nullptr;
    QDockWidget* board_dock_ = nullptr;
    QDockWidget* power_dock_ = nullptr;
    QDockWidget* wiring_dock_ = nullptr;
    ExportDialog* export_ = nullptr;
    SoundDialog* sound_ = nullptr;
    PackDialog* pack_ = nullptr;
    QMenu* recent_ = nullptr;
    QMenu* rig_menu_ = nullptr;
    QMenu* air_menu_ = nullptr;
    QMenu* sound_menu_ = nullptr;
    QMenu* board_menu_ = nullptr;
    QLabel* busy_ = nullptr;
    QPushButton* cancel_ = nullptr;
    bool leaving_ = false;
    bool painted_ = false;
};

}  // namespace gasp
