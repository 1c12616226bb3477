// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/byte_stream.hpp"

#include <deque>
#include <random>
#include <vector>

namespace gasp::testing {

/// A line between two streams on which every now and then, both ways, a bit flips, a byte is lost, doubled or
/// put in, or everything that is on its way is lost or comes twice.
class NoisyStream : public ByteStream {
  public:
    NoisyStream(ByteStream& line, double chance, unsigned seed)
        : line_(line), chance_(chance), random_(seed) {}

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline until) override {
        if (waiting_.empty()) {
            std::vector<std::uint8_t> bytes(into.size());
            const Result<std::size_t> count = line_.read(bytes, until);
            if (!count || *count == 0) {
                return count;
            }
            bytes.resize(*count);
            const auto worse = worsen(bytes);
            waiting_.assign(worse.begin(), worse.end());
        }
        const std::size_t count = std::min(into.size(), waiting_.size());
        std::copy_n(waiting_.begin(), count, into.begin());
        waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count));
        return count;
    }
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline until) override {
        return line_.write(worsen(bytes), until);
    }
    [[nodiscard]] const std::string& name() const override { return line_.name(); }
    [[nodiscard]] std::size_t corruptions() const { return corruptions_; }

  private:
    bool happens(double chance) { return std::bernoulli_distribution(chance)(random_); }
    unsigned below(unsigned count) { return std::uniform_int_distribution<unsigned>(0, count - 1)(random_); }

    std::vector<std::uint8_t> worsen(std::span<const std::uint8_t> bytes) {
        std::vector<std::uint8_t> out;
        for (const std::uint8_t byte : bytes) {
            out.push_back(byte);
            if (!happens(chance_)) {
                continue;
            }
            ++corruptions_;
            switch (below(4)) {
                case 0:
                    out.back() = static_cast<std::uint8_t>(byte ^ 1U << below(8));
                    break;
                case 1:
                    out.pop_back();
                    break;
                case 2:
                    out.push_back(byte);
                    break;
                default:
                    out.push_back(static_cast<std::uint8_t>(below(256)));
            }
        }
        if (happens(chance_ * 10)) {
            ++corruptions_;
            const std::vector<std::uint8_t> once = out;
            out.clear();
            for (unsigned times = 2 * below(2); times > 0; --times) {
                out.insert(out.end(), once.begin(), once.end());
            }
        }
        return out;
    }

    ByteStream& line_;
    double chance_;
    std::mt19937 random_;
    std::deque<std::uint8_t> waiting_;
    std::size_t corruptions_ = 0;
};

}  // namespace gasp::testing
