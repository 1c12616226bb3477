// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/air_facts.hpp"
#include "core/checks/finding.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/units/quantity.hpp"
#include "ui/editor/document.hpp"

#include <QObject>
#include <QTimer>

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace gasp {

/// What follows from one revision of the show, for the sequence looked at. What moves comes first; the bands
/// and the findings of that revision follow a little later, until then the findings are those before; those
/// of all sequences together come last.
struct AnalysisResult : SequenceRun {
    std::uint64_t revision = 0;
    std::uint64_t request = 0;  ///< counts what was asked for, so that one revision can be worked out again
    SequenceId sequence;
    std::vector<std::vector<Dwell>> dwells;  ///< of each of schedule.channels
    std::shared_ptr<const AirFacts> facts;   ///< null until bands and findings are there
    std::vector<Finding> findings;           ///< of the sequence looked at, of the rig, and of all together
    /// Of every sequence; they follow later still, until then they are those before.
    std::vector<Finding> all_findings;
    std::optional<PowerTogether> together;  ///< of the sequences that run at once; likewise
    bool complete = false;                  ///< both are of this revision
};

/// Works out schedule, pressures and findings in the background, one revision at a time: on a change the
/// newest snapshot is taken as soon as the worker is free, and a result of an older revision is dropped if a
/// newer one is already there.
class Analysis : public QObject {
    Q_OBJECT

  public:
    explicit Analysis(Document& document, QObject* parent = nullptr);
    ~Analysis() override;

    /// The newest result; never null, empty at first. Its revision may lag behind the document's.
    [[nodiscard]] std::shared_ptr<const AnalysisResult> result() const { return result_; }
    [[nodiscard]] bool up_to_date() const;
    /// Whether the findings are those of the document's revision.
    [[nodiscard]] bool checked() const;
    /// Findings are waited for so long that those at hand, or none, must not be taken for the answer: of a
    /// show just opened at once, of an edited one after a moment.
    [[nodiscard]] bool lingers() const { return lingers_; }
    /// Blocks until the result is complete and of the document's revision: for tests and for exports.
    std::shared_ptr<const AnalysisResult> wait();

    /// Units in which findings print.
    void set_units(UnitSystem units);
    /// Works everything out again, as after something changed on the disk.
    void ask();

  signals:
    void ready();
    void lingering();  ///< lingers() has become true

  private:
    struct Job;
    struct Worker;
    [[nodiscard]] Job next_job();
    void start();
    void take();
    void fetch();
    void linger();

    Document& document_;
    std::shared_ptr<const AnalysisResult> result_;
    QTimer settle_;
    QTimer slow_;
    bool lingers_ = true;
    bool other_show_ = false;
    UnitSystem units_ = UnitSystem::metric;
    QString folder_;  ///< of the last job
    std::uint64_t request_ = 0;
    bool waiting_ = false;  ///< the worker was not given the last request yet
    std::unique_ptr<Worker> worker_;
};

}  // namespace gasp
