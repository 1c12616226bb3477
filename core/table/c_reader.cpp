// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/validity.hpp"
#include "core/table/c_header.hpp"
#include "core/table/table_fault.hpp"
#include "core/table/table_head.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace gasp {

namespace {

constexpr std::string_view remedy = "Write the header again from the show";

/// Takes a header apart line by line. What it does not look at is compared afterwards.
class HeaderReader {
  public:
    HeaderReader(std::string_view text, std::string_view name) : rest_(text), name_(name) {}
    Result<std::vector<EventTable>> read();

  private:
    [[nodiscard]] std::string where() const { return fmt::format("{}:{}", name_, line_number_); }
    [[nodiscard]] tl::unexpected<Error> refuse(std::string what) const {
        return fail(std::move(what), where(), std::string(remedy));
    }
    void next_line();
    bool take(std::string_view word);
    bool number(std::int64_t& value);
    Result<void> read_line();
    Result<void> read_row();
    Result<void> check(EventTable& table) const;

    std::string_view rest_;
    std::string_view name_;
    std::string_view line_;
    std::size_t line_number_ = 0;
    TableHead head_;
    std::int64_t step_ = 1;
    std::size_t begun_ = 0;  ///< tables whose rows have begun
};

void HeaderReader::next_line() {
    const std::size_t end = rest_.find('\n');
    line_ = rest_.substr(0, end);
    line_.remove_suffix(line_.ends_with('\r') ? 1 : 0);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    ++line_number_;
}

bool HeaderReader::take(std::string_view word) {
    const bool found = line_.starts_with(word);
    line_.remove_prefix(found ? word.size() : 0);
    return found;
}

bool HeaderReader::number(std::int64_t& value) {
    const auto [end, error] = std::from_chars(line_.data(), line_.data() + line_.size(), value);
    line_.remove_prefix(static_cast<std::size_t>(end - line_.data()));
    return error == std::errc{} && take("u");
}

Result<void> HeaderReader::read_line() {
    if (take("/* ") && line_.ends_with(" */")) {
        if (begun_ > 0) {
            return refuse("a comment stands among the events");  // it could add channels that have no rest
        }
        return read_head_line(head_, line_.substr(0, line_.size() - 3), where());
    }
    if (take("#define GASPWORKS_STEP_US_")) {
        line_.remove_prefix(std::min(line_.find(' '), line_.size()));
        if (!take(" ") || !number(step_) || step_ < 1 || step_ > longest_sequence.count()) {
            return refuse("the step is damaged");
        }
    } else if (take("static const gaspworks_event ")) {
        if (begun_ == head_.tables.size()) {
            return refuse("the comments do not tell of these events");
        }
        add_rest(head_.tables[begun_++], Micros{0});
    } else if (begun_ > 0 && take("    {") && !line_.starts_with("GASPWORKS_LENGTH_")) {
        return read_row();
    }
    return {};
}

Result<void> HeaderReader::read_row() {
    EventTable& table = head_.tables[begun_ - 1];
    std::int64_t steps = 0;
    std::int64_t channel = 0;
    std::int64_t driven = 0;
    if (!number(steps) || !take(", ") || !number(channel) || !take(", ") || !number(driven) ||
        line_ != "},") {
        return refuse("the event is damaged");
    }
    if (steps < 0 || steps > longest_sequence.count() / step_ || channel < 0 ||
        channel >= static_cast<std::int64_t>(table.channels.size()) || driven < 0 || driven > 1) {
        return refuse("the event is beyond the sequence or its channels");
    }
    table.rows.push_back({Micros{steps * step_}, static_cast<std::uint32_t>(channel), driven == 1});
    return {};
}

Result<void> HeaderReader::check(EventTable& table) const {
    add_rest(table, table.length);
    if (const auto fault = change_fault(table)) {
        return fail(fmt::format("sequence \"{}\": {}", table.sequence, fault->what), std::string(name_),
                    std::string(remedy));
    }
    return {};
}

Result<std::vector<EventTable>> HeaderReader::read() {
    while (!rest_.empty()) {
        next_line();
        if (Result<void> done = read_line(); !done) {
            return tl::unexpected(done.error());
        }
    }
    if (!head_.ours || begun_ != head_.tables.size()) {
        return refuse("this is no event table of Gaspworks, or part of it is missing");
    }
    for (EventTable& table : head_.tables) {
        if (Result<void> done = check(table); !done) {
            return tl::unexpected(done.error());
        }
    }
    return std::move(head_.tables);
}

/// The first line in which two texts differ, line ends aside; 0 when there is none.
std::size_t first_difference(std::string_view a, std::string_view b) {
    for (std::size_t line = 1; !a.empty() || !b.empty(); ++line) {
        const auto take_line = [](std::string_view& text) {
            const std::size_t end = text.find('\n');
            std::string_view first = text.substr(0, end);
            first.remove_suffix(first.ends_with('\r') ? 1 : 0);
            text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
            return first;
        };
        if (take_line(a) != take_line(b)) {
            return line;
        }
    }
    return 0;
}

}  // namespace

Result<std::vector<EventTable>> read_c_header(std::string_view text, std::string_view name) {
    Result<std::vector<EventTable>> tables = HeaderReader(text, name).read();
    if (!tables) {
        return tables;
    }
    const Result<std::string> again = write_c_header(*tables);
    if (!again) {
        return fail(again.error().what, std::string(name), std::string(remedy));
    }
    if (const std::size_t line = first_difference(text, *again); line > 0) {
        return fail("the line is not as it was written", fmt::format("{}:{}", name, line),
                    std::string(remedy));
    }
    return tables;
}

}  // namespace gasp
