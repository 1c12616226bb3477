// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/audition/monitor.hpp"

#include <pulse/pulseaudio.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace gasp::bench {

namespace {

constexpr pa_sample_spec spec{PA_SAMPLE_S16LE, 48'000, 2};
constexpr std::uint32_t fragment_bytes = 48'000 * 4 / 50;  // 20 ms

std::int64_t steady_us() {
    return std::chrono::duration_cast<std::chrono::microseconds>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

[[noreturn]] void give_up(const char* why) {
    std::fprintf(stderr, "the recorder of the benchmark: %s\n", why);
    std::exit(2);
}

}  // namespace

struct Monitor::Stream {
    pa_threaded_mainloop* loop = pa_threaded_mainloop_new();
    pa_context* context = pa_context_new(pa_threaded_mainloop_get_api(loop), "benchmark");
    pa_stream* stream = nullptr;
    Recording recording;

    static void wake(pa_context*, void* self) {
        pa_threaded_mainloop_signal(static_cast<Stream*>(self)->loop, 0);
    }
    static void wake(pa_stream*, void* self) {
        pa_threaded_mainloop_signal(static_cast<Stream*>(self)->loop, 0);
    }
    static void take(pa_stream*, std::size_t, void* self) { static_cast<Stream*>(self)->take(); }

    template <class State>
    void wait_until(State state, int wanted, const char* why) {
        while (state() != wanted) {
            if (pa_context_get_state(context) == PA_CONTEXT_FAILED) {
                give_up(why);
            }
            pa_threaded_mainloop_wait(loop);
        }
    }

    void take();
};

/// Every stamp says how long ago the first frame not taken yet was heard. A monitor's latency is negative
/// where the sink has not yet played what it has rendered.
void Monitor::Stream::take() {
    pa_usec_t latency = 0;
    int negative = 0;
    if (pa_stream_get_latency(stream, &latency, &negative) == 0) {
        const auto frame = static_cast<std::int64_t>(recording.stereo.size() / 2);
        const auto ago = static_cast<std::int64_t>(latency) * (negative != 0 ? -1 : 1);
        recording.stamps.push_back({frame, steady_us() - ago});
    }
    const void* data = nullptr;
    std::size_t bytes = 0;
    while (pa_stream_peek(stream, &data, &bytes) == 0 && bytes > 0) {
        const std::size_t before = recording.stereo.size();
        recording.stereo.resize(before + bytes / sizeof(std::int16_t));  // zero where there is a hole
        if (data != nullptr) {
            std::memcpy(recording.stereo.data() + before, data, bytes);
        }
        pa_stream_drop(stream);
    }
}

Monitor::Monitor(int minutes) : stream_(std::make_unique<Stream>()) {
    Stream& it = *stream_;
    const auto seconds = static_cast<std::size_t>(60 * minutes + 30);
    it.recording.stereo.reserve(seconds * spec.rate * spec.channels);
    it.recording.stamps.reserve(seconds * 400);
    pa_context_set_state_callback(it.context, Stream::wake, &it);
    pa_threaded_mainloop_lock(it.loop);
    pa_threaded_mainloop_start(it.loop);
    pa_context_connect(it.context, nullptr, PA_CONTEXT_NOAUTOSPAWN, nullptr);
    it.wait_until([&] { return static_cast<int>(pa_context_get_state(it.context)); }, PA_CONTEXT_READY,
                  "the server does not answer");
    it.stream = pa_stream_new(it.context, "monitor", &spec, nullptr);
    pa_stream_set_state_callback(it.stream, Stream::wake, &it);
    pa_stream_set_read_callback(it.stream, Stream::take, &it);
    const pa_buffer_attr buffer{4 * 48'000 * 60, 0, 0, 0, fragment_bytes};
    const auto flags = static_cast<pa_stream_flags_t>(
        PA_STREAM_INTERPOLATE_TIMING | PA_STREAM_AUTO_TIMING_UPDATE | PA_STREAM_ADJUST_LATENCY);
    if (pa_stream_connect_record(it.stream, "lab.monitor", &buffer, flags) != 0) {
        give_up("the sink has no monitor");
    }
    it.wait_until([&] { return static_cast<int>(pa_stream_get_state(it.stream)); }, PA_STREAM_READY,
                  "the monitor does not record");
    pa_threaded_mainloop_unlock(it.loop);
}

Recording Monitor::stop() {
    Stream& it = *stream_;
    pa_threaded_mainloop_lock(it.loop);
    pa_stream_set_read_callback(it.stream, nullptr, nullptr);
    Recording recording = std::move(it.recording);
    pa_threaded_mainloop_unlock(it.loop);
    return recording;
}

Monitor::~Monitor() {
    Stream& it = *stream_;
    pa_threaded_mainloop_lock(it.loop);
    pa_stream_disconnect(it.stream);
    pa_stream_unref(it.stream);
    pa_context_disconnect(it.context);
    pa_context_unref(it.context);
    pa_threaded_mainloop_unlock(it.loop);
    pa_threaded_mainloop_stop(it.loop);
    pa_threaded_mainloop_free(it.loop);
}

}  // namespace gasp::bench
