// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/json_trouble.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <simdjson.h>

#include <algorithm>

namespace gasp {
namespace {

constexpr std::string_view mend = "Mend the text there, or go back to an earlier copy of the file";

/// Takes every event of a parse, keeps none, and remembers why it stopped.
class Judge final : public nlohmann::json_sax<nlohmann::json> {
  public:
    explicit Judge(std::string_view json) : json_(json) {}

    std::optional<JsonTrouble> trouble;

    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t&) override { return true; }
    bool string(string_t&) override { return true; }
    bool binary(binary_t&) override { return true; }
    bool key(string_t&) override { return true; }
    bool start_object(std::size_t) override { return enter(); }
    bool start_array(std::size_t) override { return enter(); }
    bool end_object() override { return leave(); }
    bool end_array() override { return leave(); }

    bool parse_error(std::size_t position, const std::string&,
                     const nlohmann::json::exception& error) override {
        const std::size_t at = std::min(position > 0 ? position - 1 : 0, json_.size());
        const std::string_view text = error.what();
        const auto says = [text](std::string_view words) {
            return text.find(words) != std::string_view::npos;
        };
        if (at + 1 >= json_.size() && (says("unexpected end of input") || says("missing closing quote"))) {
            trouble = {at, "the text ends in the middle",
                       "The file was cut short; go back to an earlier copy"};
        } else if (error.id == 406) {
            trouble = {at, "a number is too large for any figure", "Correct the number"};
        } else {
            trouble = {at, "this is not JSON: " + reason(text), std::string(mend)};
        }
        return false;
    }

  private:
    bool enter() {
        if (++depth_ > deepest_nesting) {
            trouble = {std::nullopt,
                       fmt::format("objects and lists are nested deeper than {}", deepest_nesting),
                       "Take the innermost ones out"};
        }
        return !trouble;
    }

    bool leave() {
        --depth_;
        return true;
    }

    /// The library's own words without its name, number and place before them.
    static std::string reason(std::string_view text) {
        const std::string_view place = "column ";
        const std::size_t column = text.find(place);
        const std::size_t colon = column == std::string_view::npos ? column : text.find(": ", column);
        return std::string(colon == std::string_view::npos ? text : text.substr(colon + 2));
    }

    std::string_view json_;
    std::size_t depth_ = 0;
};

/// The first byte that is not part of a UTF-8 character. Requires: there is one.
std::size_t first_broken_utf8(std::string_view text) {
    std::size_t good = 0;
    std::size_t bad = text.size();
    // The longest good beginning, to within the character it ends in.
    while (bad - good > 1) {
        const std::size_t middle = good + (bad - good) / 2;
        std::size_t cut = middle;  // never within a character
        while (cut > good && (static_cast<unsigned char>(text[cut]) & 0xC0U) == 0x80U) {
            --cut;
        }
        if (cut == good) {
            break;
        }
        (simdjson::validate_utf8(text.data() + good, cut - good) ? good : bad) = cut;
    }
    return good;
}

}  // namespace

std::optional<JsonTrouble> trouble_in(std::string_view json) {
    if (json.starts_with("\xEF\xBB\xBF")) {
        return JsonTrouble{0, "the text begins with a byte order mark", "Save it as UTF-8 without one"};
    }
    if (!simdjson::validate_utf8(json.data(), json.size())) {
        return JsonTrouble{first_broken_utf8(json), "the text is not UTF-8", "Save it as UTF-8"};
    }
    if (const std::size_t nul = json.find('\0'); nul != std::string_view::npos) {
        return JsonTrouble{nul, "the text holds a NUL byte", "Save it as UTF-8 text"};
    }
    Judge judge(json);
    nlohmann::json::sax_parse(json.begin(), json.end(), &judge);
    return judge.trouble;
}

}  // namespace gasp
