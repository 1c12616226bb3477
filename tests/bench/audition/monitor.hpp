// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

namespace gasp::bench {

/// When a recorded frame was heard, by the sound server's own count of its latencies.
struct HeardAt {
    std::int64_t frame = 0;    ///< of the recording
    std::int64_t time_us = 0;  ///< of the steady clock
};

struct Recording {
    std::vector<std::int16_t> stereo;  ///< at 48 kHz
    std::vector<HeardAt> stamps;       ///< rising
};

/// Records what the null sink of the benchmark's server plays, from the start to the end of its life.
class Monitor {
  public:
    /// With room for so long: the thread that records must not be held up by copying.
    explicit Monitor(int minutes);
    ~Monitor();
    Monitor(const Monitor&) = delete;
    Monitor& operator=(const Monitor&) = delete;

    /// Ends it.
    [[nodiscard]] Recording stop();

  private:
    struct Stream;
    std::unique_ptr<Stream> stream_;
};

}  // namespace gasp::bench
