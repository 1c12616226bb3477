// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/chip_stream.hpp"

#include <algorithm>

namespace gasp::board_test {

Result<std::size_t> ChipStream::read(std::span<std::uint8_t> into, Deadline until) {
    if (waiting_.empty()) {
        const std::chrono::duration<double, std::micro> left = until - LinkClock::now();
        chip_.run_until_frame(std::max(left.count(), 1000.0));
        waiting_ = chip_.received();
    }
    const std::size_t count = std::min(into.size(), waiting_.size());
    std::copy_n(waiting_.begin(), count, into.begin());
    waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count));
    return count;
}

Result<void> ChipStream::write(std::span<const std::uint8_t> bytes, Deadline /*until*/) {
    chip_.send({bytes.begin(), bytes.end()});
    return {};
}

}  // namespace gasp::board_test
