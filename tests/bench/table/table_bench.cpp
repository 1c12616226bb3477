// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"

#include <fcntl.h>
#include <fmt/compile.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <iterator>
#include <utility>
#include <vector>

// A table of a million rows from memory to a file, against one write(2) of the same bytes; and into memory,
// against fmt putting the same bytes there. Each pair timed in turn.

namespace {

using namespace gasp;

constexpr int channels = 50;
constexpr int changes = 1'000'000 - 2 * channels;
constexpr int rounds = 11;
constexpr double file_bar = 3.5;
constexpr double memory_bar = 4.0;

EventTable million_rows() {
    EventTable table;
    table.show = "bench";
    table.sequence = "night";
    for (std::uint32_t index = 0; index < channels; ++index) {
        TableChannel channel;
        channel.id.value = index + 1;
        channel.name = fmt::format("lamp {}", index + 1);
        channel.contact = index % 3 == 0 ? Contact::normally_closed : Contact::normally_open;
        table.channels.push_back(channel);
    }
    const auto rest = [&](Micros time) {
        for (std::uint32_t index = 0; index < channels; ++index) {
            table.rows.push_back({time, index, false});
        }
    };
    rest(Micros{0});
    for (int change = 0; change < changes; ++change) {
        table.rows.push_back({Micros{std::int64_t{change} * 1000},
                              static_cast<std::uint32_t>(change % channels), change / channels % 2 == 0});
    }
    table.length = Micros{std::int64_t{changes} * 1000};
    rest(table.length);
    return table;
}

class ScratchFile {
  public:
    ScratchFile() : file_(::mkstemp(name_)) {
        if (file_ < 0) {
            std::perror("bench_table: no scratch file");
            std::exit(1);
        }
    }
    ~ScratchFile() {
        ::close(file_);
        ::unlink(name_);
    }
    ScratchFile(const ScratchFile&) = delete;
    ScratchFile& operator=(const ScratchFile&) = delete;

    void write(std::string_view text) const {
        if (::lseek(file_, 0, SEEK_SET) != 0 || ::ftruncate(file_, 0) != 0 ||
            ::write(file_, text.data(), text.size()) != static_cast<ssize_t>(text.size())) {
            std::perror("bench_table: write");
            std::exit(1);
        }
    }

  private:
    char name_[32] = "/tmp/gaspworks-bench-XXXXXX";
    int file_;
};

template <class Work>
double seconds(const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

/// The same bytes, a row at a time, by the plainest use of fmt.
std::string formatted(const EventTable& table) {
    std::string text = "sequence,time_ms,channel,output,load\r\n";
    for (const EventRow& row : table.rows) {
        const TableChannel& channel = table.channels[row.channel];
        fmt::format_to(std::back_inserter(text), FMT_COMPILE("{},{},{},{},{}\r\n"), table.sequence,
                       row.time.count() / 1000, channel.name, row.driven ? 1 : 0,
                       load_on(channel.contact, row.driven) ? 1 : 0);
    }
    return text;
}

/// Medians of `ours` and `theirs` in seconds, timed in turn; the first round warms up.
template <class Ours, class Theirs>
std::pair<double, double> in_turn(const Ours& ours, const Theirs& theirs) {
    std::vector<double> our_s;
    std::vector<double> their_s;
    for (int round = 0; round <= rounds; ++round) {
        const double one = seconds(ours);
        const double other = seconds(theirs);
        if (round > 0) {
            our_s.push_back(one);
            their_s.push_back(other);
        }
    }
    return {median(our_s), median(their_s)};
}

bool report(std::string_view name, std::pair<double, double> times, double bar) {
    const double ratio = times.first / times.second;
    fmt::print(stderr, "{}: {:.1f} ms against {:.1f} ms\n", name, times.first * 1e3, times.second * 1e3);
    fmt::print("bench {} = {:.2f} (bar {:.2f}) {}\n", name, ratio, bar, ratio <= bar ? "ok" : "short");
    return ratio <= bar;
}

}  // namespace

int main() {
    const std::vector<EventTable> tables{million_rows()};
    const std::string bytes = write_csv(tables);
    if (write_csv(tables, {.comments = false}) != formatted(tables[0])) {
        fmt::print(stderr, "bench_table: fmt writes other bytes\n");
        return 1;
    }
    const ScratchFile file;
    const auto to_file = in_turn([&] { file.write(write_csv(tables)); }, [&] { file.write(bytes); });
    std::size_t written = 0;
    const auto to_memory = in_turn([&] { written += write_csv(tables, {.comments = false}).size(); },
                                   [&] { written += formatted(tables[0]).size(); });
    const bool file_ok = report("table_to_file", to_file, file_bar);
    const bool memory_ok = report("table_to_memory", to_memory, memory_bar);
    return file_ok && memory_ok && written > 0 ? 0 : 1;
}
