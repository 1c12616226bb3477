// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <charconv>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace gasp {

/// JSON text that grows at its end. Figures are the shortest text that reads back to the same number.
class JsonText {
  public:
    void put(std::string_view text) {
        std::memcpy(room(text.size()), text.data(), text.size());
        end_ += text.size();
    }

    template <class Number>
    void number(Number value) {
        constexpr std::size_t longest = 32;  // of any int64_t or shortest double
        char* first = room(longest);
        end_ += static_cast<std::size_t>(std::to_chars(first, first + longest, value).ptr - first);
    }

    void string(std::string_view text);

    /// The text; nothing may be put after it.
    [[nodiscard]] std::string take() {
        text_.resize(end_);
        return std::move(text_);
    }

  private:
    /// Where the next bytes go, with room for so many.
    char* room(std::size_t bytes) {
        if (text_.size() - end_ < bytes) {
            text_.resize(text_.size() * 2 + bytes + 4096);
        }
        return text_.data() + end_;
    }

    std::string text_;
    std::size_t end_ = 0;
};

/// How an object or a list is laid out: what stands before its first item, between two, and after the last.
struct Layout {
    std::string_view opening;
    std::string_view between;
    std::string_view closing;
};

inline constexpr Layout object_in_a_line{"{", ", ", "}"};
inline constexpr Layout list_in_a_line{"[", ", ", "]"};

/// The items of one object or list, from its opening to its closing.
class JsonItems {
  public:
    JsonItems(JsonText& text, const Layout& layout) : text_(text), layout_(layout) {}

    /// What must be called before each item of a list; its text is then put by the caller.
    void next() {
        text_.put(empty_ ? layout_.opening : layout_.between);
        empty_ = false;
    }

    /// The same for a member of an object.
    void key(std::string_view key) {
        next();
        text_.put("\"");
        text_.put(key);
        text_.put("\": ");
    }

    void number(std::string_view name, double value) { key(name), text_.number(value); }
    void integer(std::string_view name, std::int64_t value) { key(name), text_.number(value); }
    void truth(std::string_view name, bool value) { key(name), text_.put(value ? "true" : "false"); }
    void string(std::string_view name, std::string_view value) { key(name), text_.string(value); }

    /// Members that are JSON text already.
    void extra(std::string_view members) {
        if (!members.empty()) {
            next();
            text_.put(members);
        }
    }

    void close() {
        if (empty_) {
            text_.put(layout_.opening.substr(0, 1));
            text_.put(layout_.closing.substr(layout_.closing.size() - 1));
        } else {
            text_.put(layout_.closing);
        }
    }

  private:
    JsonText& text_;
    const Layout& layout_;
    bool empty_ = true;
};

}  // namespace gasp
