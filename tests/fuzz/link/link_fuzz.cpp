// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <vector>

namespace {

using namespace gasp;

/// A peer that gives what the fuzzer says: each piece, of the length its first byte tells, is the payload of
/// a good answer to what was just asked, or with the highest bit set raw bytes.
class Peer : public ByteStream {
  public:
    Peer(const std::uint8_t* data, std::size_t size) : script_(data, size) {}

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline) override {
        const std::size_t count = std::min(into.size(), waiting_.size());
        std::copy_n(waiting_.begin(), count, into.begin());
        waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count));
        return count;
    }
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline) override {
        gb_frame frame{};
        gb_frame_begin(&frame);
        for (const std::uint8_t byte : bytes.subspan(1)) {  // behind the 0 that ends noise
            if (gb_frame_take(&frame, byte) && gb_frame_open(&frame)) {
                answer(frame);
            }
        }
        return {};
    }
    [[nodiscard]] const std::string& name() const override { return name_; }

  private:
    void answer(gb_frame& frame) {
        if (script_.empty()) {
            return;
        }
        const std::uint8_t head = script_.front();
        script_ = script_.subspan(1);
        const auto piece = script_.first(std::min<std::size_t>(head & 0x7FU, script_.size()));
        script_ = script_.subspan(piece.size());
        if ((head & 0x80U) != 0) {
            waiting_.assign(piece.begin(), piece.end());
            return;
        }
        frame.bytes[gb_frame_type] |= answer_bit;
        std::ranges::copy(piece, frame.bytes + gb_frame_payload);
        frame.count = static_cast<std::uint8_t>(piece.size());
        gb_frame_close(&frame);
        waiting_.insert(waiting_.end(), frame.bytes, frame.bytes + frame.count);
    }

    std::span<const std::uint8_t> script_;
    std::vector<std::uint8_t> waiting_;
    std::string name_ = "fuzz";
};

}  // namespace

// Whatever a board says, every call ends and says what is wrong.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Peer peer(data, size);
    Conversation board(peer);
    const auto identity = board.identify();
    const auto status = board.status();
    const auto log = board.read_log();
    if (log) {
        for (const LogEntry& entry : *log) {
            (void)words(entry);
        }
    }
    if (status) {
        (void)words(status->state);
    }
    (void)board.arm();
    (void)board.hold(1);
    (void)board.read_image_back();
    (void)board.measure_latency(2);
    if (!identity && identity.error().what.empty()) {
        std::abort();
    }
    return 0;
}
