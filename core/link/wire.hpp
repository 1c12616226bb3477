// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace gasp {

using LinkBytes = std::vector<std::uint8_t>;

/// Appends numbers, little endian.
class WireWriter {
  public:
    WireWriter& u8(std::uint32_t value) { return put(1, value); }
    WireWriter& u16(std::uint32_t value) { return put(2, value); }
    WireWriter& u32(std::uint32_t value) { return put(4, value); }
    WireWriter& raw(std::span<const std::uint8_t> more) {
        bytes_.insert(bytes_.end(), more.begin(), more.end());
        return *this;
    }
    [[nodiscard]] const LinkBytes& bytes() const { return bytes_; }

  private:
    WireWriter& put(std::size_t size, std::uint32_t value) {
        for (std::size_t byte = 0; byte < size; ++byte) {
            bytes_.push_back(static_cast<std::uint8_t>(value >> (8 * byte)));
        }
        return *this;
    }

    LinkBytes bytes_;
};

/// Takes numbers from the front. Beyond the end it gives zeros, and is no longer good().
class WireReader {
  public:
    explicit WireReader(std::span<const std::uint8_t> bytes) : bytes_(bytes) {}

    std::uint8_t u8() { return static_cast<std::uint8_t>(get(1)); }
    std::uint16_t u16() { return static_cast<std::uint16_t>(get(2)); }
    std::uint32_t u32() { return get(4); }
    std::span<const std::uint8_t> raw(std::size_t size) {
        good_ = good_ && size <= bytes_.size();
        const auto taken = bytes_.first(good_ ? size : 0);
        bytes_ = bytes_.subspan(taken.size());
        return taken;
    }
    /// ASCII, up to a 0; what is not printable becomes '?'.
    std::string text(std::size_t size) {
        std::string result;
        for (const std::uint8_t byte : raw(size)) {
            if (byte == 0) {
                break;
            }
            result += byte >= ' ' && byte <= '~' ? static_cast<char>(byte) : '?';
        }
        return result;
    }
    [[nodiscard]] std::span<const std::uint8_t> rest() const { return bytes_; }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool at_end() const { return good_ && bytes_.empty(); }

  private:
    std::uint32_t get(std::size_t size) {
        std::uint32_t value = 0;
        const auto taken = raw(size);
        for (std::size_t byte = taken.size(); byte-- > 0;) {
            value = value << 8U | taken[byte];
        }
        return value;
    }

    std::span<const std::uint8_t> bytes_;
    bool good_ = true;
};

}  // namespace gasp
