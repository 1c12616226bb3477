// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/listening.hpp"

#include "core/sound/sound_file.hpp"

#include <aubio/aubio.h>
#include <dlfcn.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <memory>
#include <span>
#include <utility>

namespace gasp {

namespace {

constexpr std::size_t block_frames = 8192;

/// The RMS of 10 ms around each step of 5 ms: of the two half steps before it and the two behind.
class EnvelopeMeter {
  public:
    /// With room for as many frames as the file says it has, so that hours of them are not copied to grow.
    EnvelopeMeter(int rate, int channels, std::int64_t frames)
        : rate_(rate), channels_(static_cast<std::size_t>(channels)) {
        constexpr std::int64_t steps_a_second = 1'000'000 / Envelope::step.count();
        const std::int64_t steps = std::min(frames / rate_ * steps_a_second, most_room);
        envelope_.dbfs.reserve(static_cast<std::size_t>(steps + steps_a_second));
    }

    void add(std::span<const float> samples) {
        for (std::size_t i = 0; i < samples.size(); i += channels_) {
            for (std::size_t channel = 0; channel < channels_; ++channel) {
                const double sample = samples[i + channel];
                last_.squares += sample * sample;
            }
            ++last_.frames;
            if (++frames_ >= end_of_half_) {
                end_half();
            }
        }
    }

    [[nodiscard]] Envelope envelope() {
        if (last_.frames > 0) {
            end_half();
        }
        if (halves_ % 2 == 1) {
            end_half();  // the last step's two halves are then full, or empty
        }
        return std::move(envelope_);
    }

  private:
    static constexpr std::int64_t most_room = 24 * 3600 * 200;  ///< a day; what a header says may be a lie

    struct Half {
        double squares = 0.0;
        std::int64_t frames = 0;
    };

    void end_half() {
        around_ = {around_[1], around_[2], around_[3], std::exchange(last_, {})};
        ++halves_;
        end_of_half_ = (halves_ + 1) * rate_ * Envelope::step.count() / 2'000'000;
        if (halves_ % 2 == 0) {
            envelope_.dbfs.push_back(level());
        }
    }

    [[nodiscard]] float level() const {
        Half sum;
        for (const Half& half : around_) {
            sum.squares += half.squares;
            sum.frames += half.frames;
        }
        const double samples = static_cast<double>(sum.frames) * static_cast<double>(channels_);
        return sum.squares > 0.0
                   ? std::max(static_cast<float>(10.0 * std::log10(sum.squares / samples)), Envelope::silence)
                   : Envelope::silence;
    }

    std::int64_t rate_;
    std::size_t channels_;
    std::int64_t frames_ = 0;
    std::int64_t halves_ = 0;
    std::int64_t end_of_half_ = rate_ * Envelope::step.count() / 2'000'000;
    Half last_;
    std::array<Half, 4> around_{};
    Envelope envelope_;
};

/// aubio, loaded when the first sound is listened to: Debian's brings some eighty other libraries along,
/// which would double the time of every start.
struct Aubio {
    /// Null where it is not installed.
    static const Aubio* get() {
        static const Aubio aubio;
        return aubio.complete ? &aubio : nullptr;
    }

    decltype(&::new_aubio_onset) new_onset = nullptr;
    decltype(&::del_aubio_onset) delete_onset = nullptr;
    decltype(&::new_fvec) new_vector = nullptr;
    decltype(&::del_fvec) delete_vector = nullptr;
    decltype(&::aubio_onset_do) find = nullptr;
    decltype(&::aubio_onset_get_last) last = nullptr;
    decltype(&::aubio_onset_set_threshold) set_threshold = nullptr;
    decltype(&::aubio_onset_set_silence) set_silence = nullptr;
    decltype(&::aubio_onset_set_minioi_ms) set_least_gap_ms = nullptr;
    bool complete = false;

  private:
    Aubio() {
        void* const library = dlopen("libaubio.so.5", RTLD_NOW | RTLD_LOCAL);
        complete = library != nullptr && load(library, "new_aubio_onset", new_onset) &&
                   load(library, "del_aubio_onset", delete_onset) && load(library, "new_fvec", new_vector) &&
                   load(library, "del_fvec", delete_vector) && load(library, "aubio_onset_do", find) &&
                   load(library, "aubio_onset_get_last", last) &&
                   load(library, "aubio_onset_set_threshold", set_threshold) &&
                   load(library, "aubio_onset_set_silence", set_silence) &&
                   load(library, "aubio_onset_set_minioi_ms", set_least_gap_ms);
    }

    template <class Function>
    static bool load(void* library, const char* name, Function& function) {
        function = reinterpret_cast<Function>(dlsym(library, name));
        return function != nullptr;
    }
};

struct DeleteOnset {
    void operator()(aubio_onset_t* onset) const { Aubio::get()->delete_onset(onset); }
};
struct DeleteVector {
    void operator()(fvec_t* vector) const { Aubio::get()->delete_vector(vector); }
};

/// Feeds aubio's detector with mono.
class OnsetFinder {
  public:
    /// About 6 ms, the hop aubio's defaults are made for at 44.1 kHz, at any rate.
    static unsigned hop_at(int rate) {
        return std::bit_ceil(std::max(static_cast<unsigned>(rate) / 230U, 16U));
    }

    OnsetFinder(const Aubio& aubio, int rate, int channels, const OnsetOptions& options)
        : aubio_(aubio),
          rate_(rate),
          channels_(static_cast<std::size_t>(channels)),
          hop_(hop_at(rate)),
          onset_(aubio.new_onset("hfc", 4 * hop_, hop_, static_cast<unsigned>(rate))),
          input_(aubio.new_vector(hop_)),
          found_(aubio.new_vector(1)) {
        if (onset_) {
            aubio.set_threshold(onset_.get(), static_cast<float>(options.threshold));
            aubio.set_silence(onset_.get(), static_cast<float>(options.silence_dbfs));
            aubio.set_least_gap_ms(onset_.get(), static_cast<float>(options.least_gap_ms));
        }
    }

    [[nodiscard]] bool ready() const { return onset_ && input_ && found_; }

    void add(std::span<const float> samples) {
        for (std::size_t i = 0; i < samples.size(); i += channels_) {
            float sum = 0.0F;
            for (std::size_t channel = 0; channel < channels_; ++channel) {
                sum += samples[i + channel];
            }
            add(sum / static_cast<float>(channels_));
        }
    }

    /// The detector looks some hops ahead: silence behind the end lets it see the last onset.
    [[nodiscard]] std::vector<Micros> onsets() {
        const std::int64_t end = frames_;
        for (unsigned i = 0; i < 8 * hop_; ++i) {
            add(0.0F);
        }
        std::erase_if(onsets_, [&](Micros onset) { return onset >= time_of(end); });
        return std::move(onsets_);
    }

  private:
    [[nodiscard]] Micros time_of(std::int64_t frame) const { return Micros{frame * 1'000'000 / rate_}; }

    void add(float sample) {
        input_->data[filled_++] = sample;
        ++frames_;
        if (filled_ < hop_) {
            return;
        }
        filled_ = 0;
        aubio_.find(onset_.get(), input_.get(), found_.get());
        if (found_->data[0] > 0.0F) {
            const Micros onset = time_of(aubio_.last(onset_.get()));
            if (onsets_.empty() || onsets_.back() < onset) {
                onsets_.push_back(onset);
            }
        }
    }

    const Aubio& aubio_;
    std::int64_t rate_;
    std::size_t channels_;
    unsigned hop_;
    std::unique_ptr<aubio_onset_t, DeleteOnset> onset_;
    std::unique_ptr<fvec_t, DeleteVector> input_;
    std::unique_ptr<fvec_t, DeleteVector> found_;
    unsigned filled_ = 0;
    std::int64_t frames_ = 0;
    std::vector<Micros> onsets_;
};

}  // namespace

Result<void> valid(const OnsetOptions& options) {
    const auto bad = [](std::string_view what, double value, std::string_view range) {
        return fail(fmt::format("the {} is {}", what, value), "onsets", fmt::format("Take {}", range));
    };
    if (!(options.threshold > 0.0 && options.threshold <= 10.0)) {
        return bad("threshold", options.threshold, "one above 0 and up to 10");
    }
    if (!(options.silence_dbfs >= -120.0 && options.silence_dbfs <= 0.0)) {
        return bad("level of silence", options.silence_dbfs, "-120 to 0 dBFS");
    }
    if (!(options.least_gap_ms >= 0.0 && options.least_gap_ms <= 10'000.0)) {
        return bad("least gap", options.least_gap_ms, "0 to 10 000 ms");
    }
    return {};
}

Result<Heard> listen(const std::filesystem::path& path, const OnsetOptions& options,
                     const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    if (auto good = valid(options); !good) {
        return tl::unexpected(good.error());
    }
    Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    const SoundInfo info = file->info();
    EnvelopeMeter meter(info.rate, info.channels, info.frames);
    const Aubio* aubio = Aubio::get();
    if (aubio == nullptr) {
        return fail("the library that finds onsets is missing", {}, "Install the package libaubio5");
    }
    OnsetFinder finder(*aubio, info.rate, info.channels, options);
    if (!finder.ready()) {
        return fail(fmt::format("onsets cannot be found at {} frames a second", info.rate), path.string(),
                    "Convert it to 44.1 or 48 kHz");
    }
    std::vector<float> block(block_frames * static_cast<std::size_t>(info.channels));
    std::int64_t done = 0;
    while (const std::int64_t got = file->read(block)) {
        if (cancel) {
            return fail("stopped before its end", path.string(), "Start it again");
        }
        const std::span samples = std::span(block).first(static_cast<std::size_t>(got * info.channels));
        meter.add(samples);
        finder.add(samples);
        done += got;
        if (progress) {
            progress(std::min(
                static_cast<double>(done) / static_cast<double>(std::max<std::int64_t>(info.frames, 1)),
                1.0));
        }
    }
    return Heard{meter.envelope(), finder.onsets()};
}

}  // namespace gasp
