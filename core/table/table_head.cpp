// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/table_head.hpp"

#include "core/table/csv_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

namespace gasp {

namespace {

constexpr std::string_view first_line = "Gaspworks event table form ";
constexpr unsigned known_form = 1;

/// The low byte of a character from U+2000 to U+207F at the front that is not seen but turns or parts the
/// text around it: marks of direction, joiners, line and paragraph separators. None where there is none.
std::optional<unsigned> unseen_mark(std::string_view text) {
    if (text.size() < 3 || text[0] != '\xe2' || (text[1] != '\x80' && text[1] != '\x81')) {
        return std::nullopt;
    }
    const unsigned low = (text[1] == '\x81' ? 0x40U : 0U) + (static_cast<unsigned char>(text[2]) & 0x3fU);
    const bool unseen =
        (low >= 0x0b && low <= 0x0f) || (low >= 0x28 && low <= 0x2e) || (low >= 0x60 && low <= 0x6f);
    return unseen ? std::optional(low) : std::nullopt;
}

/// The code of a control character from U+0080 to U+009F at the front: two bytes, and some terminals obey it.
std::optional<unsigned> late_control(std::string_view text) {
    const bool control = text.size() > 1 && text[0] == '\xc2' &&
                         static_cast<unsigned char>(text[1]) >= 0x80 &&
                         static_cast<unsigned char>(text[1]) < 0xa0;
    return control ? std::optional<unsigned>(static_cast<unsigned char>(text[1])) : std::nullopt;
}

/// In double quotes, with what would end the comment, the quotes or a cell (comma, semicolon) as \u00XX, and
/// unseen marks as \u20XX: what is read is what stands there.
std::string quoted(std::string_view name, std::string_view also_escaped) {
    std::string result = "\"";
    for (std::size_t i = 0; i < name.size(); ++i) {
        if (const auto mark = unseen_mark(name.substr(i))) {
            result += fmt::format("\\u20{:02x}", *mark);
            i += 2;
            continue;
        }
        if (const auto control = late_control(name.substr(i))) {
            result += fmt::format("\\u{:04x}", *control);
            i += 1;
            continue;
        }
        const char c = name[i];
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x20 || byte == 0x7f || c == '"' || c == '\\' || c == ',' || c == ';' ||
            also_escaped.find(c) != std::string_view::npos) {
            result += fmt::format("\\u{:04x}", byte);
        } else {
            result += c;
        }
    }
    return result + '"';
}

std::string ms(Micros time) {
    char text[longest_ms];
    return {text, write_ms(text, time)};
}

std::string channel_line(const TableChannel& channel, std::string_view also_escaped) {
    return fmt::format("channel {} id {} board {} output {} contact {} tick_ms {} at rest load {}",
                       quoted(channel.name, also_escaped), channel.id.value,
                       channel.board.empty() ? "none" : quoted(channel.board, also_escaped),
                       channel.output ? fmt::to_string(*channel.output) : "none",
                       channel.contact == Contact::normally_open ? "NO" : "NC", ms(channel.tick),
                       load_on(channel.contact, false) ? 1 : 0);
}

/// One line of the head, taken from its front. What does not fit makes it bad for good.
class Scanner {
  public:
    explicit Scanner(std::string_view line) : rest_(line) {}

    [[nodiscard]] bool good() const { return good_; }

    bool take(std::string_view word) {
        const bool found = rest_.starts_with(word);
        rest_.remove_prefix(found ? word.size() : 0);
        return found;
    }

    void expect(std::string_view word) { good_ = take(word) && good_; }

    std::string name() {
        expect("\"");
        std::string result;
        while (good_ && !take("\"")) {
            if (take("\\u20")) {
                const unsigned low = low_byte();
                result +=
                    {'\xe2', static_cast<char>(0x80 + (low >> 6)), static_cast<char>(0x80 + (low & 0x3f))};
            } else if (take("\\u00")) {
                const unsigned byte = low_byte();
                if (byte < 0x80) {
                    result += static_cast<char>(byte);
                } else {
                    result +=
                        {static_cast<char>(0xc0 | (byte >> 6)), static_cast<char>(0x80 | (byte & 0x3f))};
                }
            } else {
                result += plain();
            }
        }
        return result;
    }

    std::uint32_t number() {
        std::uint32_t value = 0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        good_ = good_ && error == std::errc{};
        rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
        return value;
    }

    Micros time() {
        const std::string_view word = rest_.substr(0, rest_.find(' '));
        const std::optional<Micros> time = read_ms(word);
        good_ = good_ && time;
        rest_.remove_prefix(word.size());
        return time.value_or(Micros{0});
    }

    void end() { good_ = good_ && rest_.empty(); }

  private:
    char plain() {
        good_ = good_ && !rest_.empty();
        const char c = good_ ? rest_.front() : '\0';
        rest_.remove_prefix(good_ ? 1 : 0);
        return c;
    }

    unsigned low_byte() {
        unsigned byte = 0;
        const std::string_view digits = rest_.substr(0, 2);
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), byte, 16);
        good_ = good_ && error == std::errc{} && end == digits.data() + 2;
        rest_.remove_prefix(digits.size());
        return byte;
    }

    std::string_view rest_;
    bool good_ = true;
};

TableChannel read_channel(Scanner& line) {
    TableChannel channel;
    channel.name = line.name();
    line.expect(" id ");
    channel.id.value = line.number();
    line.expect(" board ");
    channel.board = line.take("none") ? "" : line.name();
    line.expect(" output ");
    channel.output = line.take("none") ? std::nullopt : std::optional(line.number());
    line.expect(" contact ");
    channel.contact = line.take("NC") ? Contact::normally_closed : Contact::normally_open;
    if (channel.contact == Contact::normally_open) {
        line.expect("NO");
    }
    line.expect(" tick_ms ");
    channel.tick = line.time();
    line.expect(load_on(channel.contact, false) ? " at rest load 1" : " at rest load 0");
    return channel;
}

/// False where the line says something the head does not have, or says it badly.
bool read_line(Scanner line, TableHead& head) {
    if (line.take("show ")) {
        head.show = line.name();
        if (!head.tables.empty()) {
            return false;
        }
    } else if (line.take("sequence ")) {
        EventTable table;
        table.show = head.show;
        table.sequence = line.name();
        line.expect(" id ");
        table.sequence_id.value = line.number();
        line.expect(" length_ms ");
        table.length = line.time();
        if (std::ranges::find(head.tables, table.sequence, &EventTable::sequence) != head.tables.end()) {
            return false;
        }
        head.tables.push_back(std::move(table));
    } else if (line.take("channel ")) {
        TableChannel channel = read_channel(line);
        if (head.tables.empty() || channel.tick <= Micros{0}) {
            return false;
        }
        head.tables.back().channels.push_back(std::move(channel));
    } else {
        return true;
    }
    line.end();
    return line.good();
}

}  // namespace

std::vector<std::string> head_lines(std::span<const EventTable> tables, std::string_view also_escaped) {
    std::vector<std::string> lines{
        fmt::format("{}{}", first_line, known_form),
        "show " + quoted(tables.empty() ? "" : tables.front().show, also_escaped),
        "Times count from the start of the sequence.",
        "Output 1 is driven: away from its rest. Load 1 has power.",
    };
    for (const EventTable& table : tables) {
        lines.push_back(fmt::format("sequence {} id {} length_ms {}", quoted(table.sequence, also_escaped),
                                    table.sequence_id.value, ms(table.length)));
        for (const TableChannel& channel : table.channels) {
            lines.push_back(channel_line(channel, also_escaped));
        }
    }
    return lines;
}

Result<void> read_head_line(TableHead& head, std::string_view text, std::string_view where) {
    Scanner line(text);
    if (line.take(first_line)) {
        head.ours = true;
        if (line.number() != known_form || !line.good()) {
            return fail("the head is of a form this version does not know", std::string(where),
                        "Read it with a newer version, or remove the head: the rows say enough");
        }
    } else if (head.ours && !read_line(line, head)) {
        return fail("this line of the head is damaged", std::string(where),
                    "Mend it, or remove the whole head: the rows say enough");
    }
    return {};
}

}  // namespace gasp
