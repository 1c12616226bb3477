// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_answers.hpp"

#include "core/air/night/night_player.hpp"
#include "core/show/fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <thread>

namespace gasp {
namespace {

constexpr std::array<NightQuestion, night_questions> questions{
    NightQuestion::most_groups, NightQuestion::least_receiver, NightQuestion::least_delivery,
    NightQuestion::lowest_regulation};
constexpr int trials_a_question = 14;  // about: for the progress

struct Range {
    double least = 0.0;
    double most = 0.0;
};

Range range_of(std::string_view key) {
    for (const FigureField<AirPlant>& field : fields<AirPlant>().figures) {
        if (field.key == key) {
            return {field.least, field.most};
        }
    }
    return {};
}

bool over_duty(const Night& night, const AirPlant& plant) {
    return plant.duty_percent && 100.0 * night.duty > *plant.duty_percent;
}

bool over_starts(const Night& night, const AirPlant& plant) {
    return plant.starts_per_h && night.starts_in_an_hour > *plant.starts_per_h;
}

/// A show and its terms with one figure changed.
struct Variant {
    Show show;
    NightTerms terms;
};

class Answering {
  public:
    Answering(const Show& show, std::span<const NightSequence> sequences, const NightTerms& terms,
              const NightWork& options, UnitSystem units, const std::atomic<bool>& cancel,
              const std::function<void(double)>& progress)
        : show_(show),
          sequences_(sequences),
          terms_(terms),
          options_(options),
          units_(units),
          cancel_(cancel),
          progress_(progress) {}

    Result<std::vector<NightAnswer>> all() {
        std::vector<NightAnswer> answers;
        for (const NightQuestion question : questions) {
            tell(answers.size(), 0);
            asked_ = answers.size();
            trials_ = 0;
            spent_ = 0;
            stopped_ = false;
            Result<NightAnswer> answer = ask(question);
            if (cancel_) {
                return answers;
            }
            if (!answer) {
                return tl::unexpected(answer.error());
            }
            if (stopped_) {
                answer = NightAnswer{{}, {}, stop_reason()};
            }
            answer->question = question;
            answers.push_back(std::move(*answer));
        }
        tell(answers.size(), 0);
        return answers;
    }

  private:
    Result<NightAnswer> ask(NightQuestion question) {
        Result<std::unique_ptr<NightStage>> made = NightStage::make(show_, sequences_);
        if (!made) {
            return tl::unexpected(made.error());
        }
        present_ = std::move(*made);
        if (present_->strikes().empty()) {
            return NightAnswer{question, {}, "There is no simulated strike to judge by."};
        }
        switch (question) {
            case NightQuestion::most_groups:
                return most_groups();
            case NightQuestion::least_receiver:
                return least_receiver();
            case NightQuestion::least_delivery:
                return least_delivery();
            case NightQuestion::lowest_regulation:
                break;
        }
        return lowest_regulation();
    }

    /// Whether enough nights pass well.
    Result<bool> serves(const NightStage& stage, const NightTerms& terms, const AirPlant& plant) {
        const int allowed = static_cast<int>(std::floor((1.0 - nights_served) * terms.runs + 1e-9));
        std::atomic<int> next{0};
        std::atomic<int> bad{0};
        std::atomic<bool> failed{false};
        std::optional<Error> trouble;
        const std::size_t before = stage.cache().simulated_strokes();
        std::atomic<bool> stopped{false};
        const auto work = [&] {
            NightPlayer player(stage, terms, options_.cached, cancel_);
            for (int night = next++; night < terms.runs && bad <= allowed && !cancel_ && !failed;
                 night = next++) {
                if (spent_ + stage.cache().simulated_strokes() - before > most_strokes_a_question) {
                    stopped = true;
                    return;
                }
                const Result<Night> played = player.play(seed_of_night(terms.seed, night), nullptr);
                if (!played) {
                    if (!failed.exchange(true)) {
                        trouble = played.error();
                    }
                    return;
                }
                bad += played->weak > 0 || over_duty(*played, plant) || over_starts(*played, plant) ? 1 : 0;
            }
        };
        {
            std::vector<std::jthread> helpers;
            for (int i = 1; i < std::min(threads_of(options_), terms.runs); ++i) {
                helpers.emplace_back(work);
            }
            work();
        }
        spent_ += stage.cache().simulated_strokes() - before;
        stopped_ = stopped_ || (stopped && bad <= allowed);
        tell(asked_, ++trials_);
        return trouble ? Result<bool>(tl::unexpected(*trouble)) : Result<bool>(bad <= allowed);
    }

    /// The same of a variant, its strikes judged by the usual moments of the show as it is.
    Result<bool> serves(const Variant& variant) {
        Result<std::unique_ptr<NightStage>> stage = NightStage::make(variant.show, sequences_);
        if (!stage) {
            return tl::unexpected(stage.error());
        }
        (*stage)->take_usual_moments(*present_);
        return serves(**stage, variant.terms, variant.show.rig.air_plant);
    }

    /// The end of (fails, works) that works, to the accuracy that `near` asks for. Empty on an error, which
    /// is noted.
    template <class Works, class Middle, class Near>
    Result<double> border(double fails, double works, const Works& try_out, const Middle& middle,
                          const Near& near) {
        while (!near(fails, works) && !cancel_ && !stopped_) {
            const double between = middle(fails, works);
            const Result<bool> served = try_out(between);
            if (!served) {
                return tl::unexpected(served.error());
            }
            (*served ? works : fails) = between;
        }
        return works;
    }

    static double geometric(double a, double b) { return std::sqrt(a * b); }
    static bool within_percent(double a, double b) { return std::abs(a - b) <= 0.01 * std::max(a, b); }

    [[nodiscard]] std::string print(Quantity quantity, double value) const {
        return print_quantity(quantity, value, units_);
    }

    static std::string stop_reason() {
        return fmt::format(
            "Not answered: stopped after {} simulated strokes, since on this plant few strokes are "
            "alike. Ask for fewer nights or a shorter one.",
            most_strokes_a_question);
    }

    /// How nights go: for the reasons.
    Result<std::string> told(const Variant& variant) {
        if (stopped_) {
            return std::string();
        }
        NightWork bounded = options_;
        bounded.unfavourable = false;
        bounded.most_strokes = most_strokes_a_question;
        const Result<NightForecast> forecast =
            forecast_night(variant.show, sequences_, variant.terms, bounded, cancel_, {});
        if (!forecast) {
            return tl::unexpected(forecast.error());
        }
        if (forecast->nights.empty()) {
            return "a night takes too many strokes to tell more";
        }
        std::string text = fmt::format("{:.0f} % of the nights have a weak scare",
                                       100.0 * (1.0 - forecast->share_without_weak));
        const AirPlant& plant = variant.show.rig.air_plant;
        const auto share_of = [&](auto over) {
            const auto count = std::ranges::count_if(forecast->nights,
                                                     [&](const Night& night) { return over(night, plant); });
            return 100.0 * static_cast<double>(count) / static_cast<double>(forecast->nights.size());
        };
        if (const double share = share_of(over_duty); share > 0.0) {
            text += fmt::format(", in {:.0f} % the compressor runs for more than its duty of {:g} %", share,
                                *plant.duty_percent);
        }
        if (const double share = share_of(over_starts); share > 0.0) {
            text += fmt::format(", in {:.0f} % it starts more than {:g} times in an hour", share,
                                *plant.starts_per_h);
        }
        if (forecast->lowest_kpa_gauge) {
            text += fmt::format(", the receiver falls to {}",
                                print(Quantity::gauge_pressure, std::round(forecast->lowest_kpa_gauge->p50)));
        }
        return text + fmt::format(" and the compressor runs {:.0f} % of the worst ten minutes",
                                  100.0 * forecast->duty_of_10_min.p50);
    }

    Result<NightAnswer> most_groups() {
        double busy_s = 0.0;
        for (const NightSequence& sequence : sequences_) {
            if (sequence.kind == SequenceKind::triggered) {
                busy_s = std::max({busy_s, to_s(sequence.length), sequence.lockout_s});
            }
        }
        constexpr double full = 20.0;  // so many times the lockout's rate: it is busy 95 % of the time
        const double most = std::floor(std::min(most_groups_per_h, full * 3600.0 / busy_s));
        const auto at = [&](double rate) {
            Variant variant{show_, terms_};
            variant.terms.groups_by_hour = {rate};
            variant.terms.arrivals_s.clear();
            return variant;
        };
        const auto try_out = [&](double rate) {
            return serves(*present_, at(rate).terms, show_.rig.air_plant);
        };
        const Result<bool> unlimited = try_out(most);
        if (!unlimited) {
            return tl::unexpected(unlimited.error());
        }
        if (*unlimited) {
            return NightAnswer{NightQuestion::most_groups, std::floor(3600.0 / busy_s),
                               fmt::format("The air serves every scare that a run and its lockout of {:g} s "
                                           "let through, however many groups come.",
                                           busy_s)};
        }
        const Result<double> rate = border(
            most, 0.0, try_out, [](double a, double b) { return std::floor(0.5 * (a + b)); },
            [](double a, double b) { return a - b <= 1.0; });
        if (!rate) {
            return tl::unexpected(rate.error());
        }
        return because(*rate, at(*rate + 1.0), fmt::format("At {:.0f} an hour", *rate + 1.0));
    }

    Result<NightAnswer> least_receiver() {
        const auto at = [&](double litres) {
            Variant variant{show_, terms_};
            variant.show.rig.air_plant.receiver_l = litres;
            return variant;
        };
        return least(at, range_of("receiver_l"), Quantity::volume, "receiver");
    }

    Result<NightAnswer> least_delivery() {
        const AirPlant& plant = show_.rig.air_plant;
        if (!plant.cut_in_kpa_gauge || !plant.cut_out_kpa_gauge) {
            return NightAnswer{
                NightQuestion::least_delivery, {}, "There is no cut-in and cut-out to run a compressor by."};
        }
        const auto at = [&](double delivery) {
            Variant variant{show_, terms_};
            AirPlant& other = variant.show.rig.air_plant;
            if (other.second_delivery_l_min && other.delivery_l_min.value_or(0.0) > 0.0) {
                *other.second_delivery_l_min *= delivery / *other.delivery_l_min;
            }
            other.delivery_l_min = delivery;
            return variant;
        };
        return least(at, range_of("delivery_l_min"), Quantity::free_air_flow, "free-air delivery");
    }

    template <class At>
    Result<NightAnswer> least(const At& at, Range range, Quantity quantity, std::string_view name) {
        constexpr double smallest = 0.1;
        range.least = std::max(range.least, smallest);
        const auto try_out = [&](double value) { return serves(at(value)); };
        for (const double end : {range.most, range.least}) {
            const Result<bool> served = try_out(end);
            if (!served) {
                return tl::unexpected(served.error());
            }
            if (end == range.most && !*served) {
                return because({}, at(end), fmt::format("Even with a {} of {}", name, print(quantity, end)));
            }
            if (end == range.least && *served) {
                return NightAnswer{
                    {}, end, fmt::format("Even a {} of {} serves.", name, print(quantity, end))};
            }
        }
        const Result<double> value = border(range.least, range.most, try_out, geometric, within_percent);
        if (!value) {
            return tl::unexpected(value.error());
        }
        const double less = 0.95 * *value;
        return because(*value, at(less), fmt::format("With 5 % less, {},", print(quantity, less)));
    }

    Result<NightAnswer> lowest_regulation() {
        const Figure& set = show_.rig.air_plant.regulator_kpa_gauge;
        const auto at = [&](double kpa) {
            Variant variant{show_, terms_};
            variant.show.rig.air_plant.regulator_kpa_gauge = kpa;
            return variant;
        };
        const auto try_out = [&](double kpa) { return serves(at(kpa)); };
        const Result<bool> now = try_out(*set);
        if (!now) {
            return tl::unexpected(now.error());
        }
        if (!*now) {
            return because({}, at(*set), fmt::format("Already at {}", print(Quantity::gauge_pressure, *set)));
        }
        constexpr double near_kpa = 2.0;
        const Result<double> kpa = border(
            std::max(range_of("regulator_kpa_gauge").least, 1.0), *set, try_out,
            [](double a, double b) { return 0.5 * (a + b); },
            [](double a, double b) { return b - a <= near_kpa; });
        if (!kpa) {
            return tl::unexpected(kpa.error());
        }
        const double less = *kpa - 2.0 * near_kpa;
        return NightAnswer{
            NightQuestion::lowest_regulation, *kpa,
            fmt::format("At {} a figure strikes more than {:.0f} ms after it does now, at {}, in "
                        "more than {:.0f} % of the nights.",
                        print(Quantity::gauge_pressure, less), terms_.weak_s * 1e3,
                        print(Quantity::gauge_pressure, *set), 100.0 * (1.0 - nights_served))};
    }

    Result<NightAnswer> because(std::optional<double> value, const Variant& variant,
                                const std::string& when) {
        Result<std::string> how = told(variant);
        if (!how) {
            return tl::unexpected(how.error());
        }
        return NightAnswer{{}, value, when + " " + *how + "."};
    }

    void tell(std::size_t questions_done, int trials_done) const {
        if (progress_) {
            const double part = std::min(trials_done, trials_a_question) / (trials_a_question + 1.0);
            progress_((static_cast<double>(questions_done) + part) / static_cast<double>(questions.size()));
        }
    }

    const Show& show_;
    std::span<const NightSequence> sequences_;
    const NightTerms& terms_;
    const NightWork& options_;
    const UnitSystem units_;
    const std::atomic<bool>& cancel_;
    const std::function<void(double)>& progress_;
    std::unique_ptr<NightStage> present_;
    std::size_t asked_ = 0;
    std::size_t spent_ = 0;  ///< strokes simulated for the question
    bool stopped_ = false;   ///< since they were too many
    int trials_ = 0;
};

}  // namespace

Quantity quantity_of(NightQuestion question) {
    switch (question) {
        case NightQuestion::most_groups:
            return Quantity::number;
        case NightQuestion::least_receiver:
            return Quantity::volume;
        case NightQuestion::least_delivery:
            return Quantity::free_air_flow;
        case NightQuestion::lowest_regulation:
            break;
    }
    return Quantity::gauge_pressure;
}

Result<std::vector<NightAnswer>> night_answers(const Show& show, std::span<const NightSequence> sequences,
                                               const NightTerms& terms, const NightWork& options,
                                               UnitSystem units, const std::atomic<bool>& cancel,
                                               const std::function<void(double)>& progress) {
    if (const Result<void> good = check(terms); !good) {
        return tl::unexpected(good.error());
    }
    if (const Result<void> good = check(sequences, terms.hours); !good) {
        return tl::unexpected(good.error());
    }
    return Answering(show, sequences, terms, options, units, cancel, progress).all();
}

}  // namespace gasp
