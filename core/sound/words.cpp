// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace gasp {

namespace {

std::size_t steps(double ms) {
    return static_cast<std::size_t>(ms * 1000.0 / static_cast<double>(Envelope::step.count()) + 0.5);
}

Micros time_of(std::size_t step) {
    return Envelope::step * static_cast<Micros::rep>(step);
}

}  // namespace

Result<void> valid(const WordOptions& options) {
    const auto bad = [](std::string_view what, double value, std::string_view range) {
        return fail(fmt::format("the {} is {}", what, value), "words", fmt::format("Take {}", range));
    };
    if (!(options.open_db > 0.0 && options.open_db <= 100.0)) {
        return bad("opening level", options.open_db, "one above 0 and up to 100 dB below the loudest moment");
    }
    if (!(options.close_db >= options.open_db && options.close_db <= 110.0)) {
        return bad("closing level", options.close_db,
                   "the opening level up to 110 dB below the loudest moment");
    }
    for (const double ms : {options.shortest_word_ms, options.shortest_pause_ms}) {
        if (!(ms >= 0.0 && ms <= 60'000.0)) {
            return bad("shortest word or pause", ms, "0 to 60 000 ms");
        }
    }
    return {};
}

std::optional<LoudMoment> loudest_of(const Envelope& envelope) {
    const auto loudest = std::ranges::max_element(envelope.dbfs);
    if (loudest == envelope.dbfs.end() || *loudest <= Envelope::silence) {
        return std::nullopt;
    }
    return LoudMoment{time_of(static_cast<std::size_t>(loudest - envelope.dbfs.begin())), *loudest};
}

Result<std::vector<Word>> words_of(const Envelope& envelope, const WordOptions& options) {
    if (auto good = valid(options); !good) {
        return tl::unexpected(good.error());
    }
    std::vector<Word> words;
    const auto loudest = loudest_of(envelope);
    if (!loudest) {
        return words;
    }
    const auto opens = static_cast<float>(loudest->dbfs - options.open_db);
    const auto closes = std::max(static_cast<float>(loudest->dbfs - options.close_db), Envelope::silence);
    const std::vector<float>& level = envelope.dbfs;
    const std::size_t pause = std::max<std::size_t>(steps(options.shortest_pause_ms), 1);
    std::size_t heard_until = 0;  // the end of the word before
    for (std::size_t i = 0; i < level.size(); ++i) {
        if (level[i] < opens) {
            continue;
        }
        std::size_t begin = i;
        while (begin > heard_until && level[begin - 1] > closes) {
            --begin;
        }
        std::size_t end = i + 1;
        for (std::size_t j = end; j < level.size() && j < end + pause; ++j) {
            end = level[j] > closes ? j + 1 : end;
        }
        if (end - begin >= steps(options.shortest_word_ms)) {
            const auto top = std::max_element(level.begin() + static_cast<std::ptrdiff_t>(begin),
                                              level.begin() + static_cast<std::ptrdiff_t>(end));
            words.push_back({time_of(begin), time_of(end), *top});
        }
        heard_until = end;
        i = end;
    }
    return words;
}

}  // namespace gasp
