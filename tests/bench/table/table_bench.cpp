// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <vector>

// A table of a million rows from memory to a file, against one write(2) of the same bytes. Both timed in
// turn.

namespace {

using namespace gasp;

constexpr int channels = 50;
constexpr int changes = 1'000'000 - 2 * channels;
constexpr int rounds = 11;
constexpr double bar = 3.5;

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

}  // namespace

int main() {
    const std::vector<EventTable> tables{million_rows()};
    const std::string bytes = write_csv(tables);
    const ScratchFile file;
    std::vector<double> ours;
    std::vector<double> plain;
    for (int round = 0; round <= rounds; ++round) {  // the first warms up
        const double export_s = seconds([&] { file.write(write_csv(tables)); });
        const double write_s = seconds([&] { file.write(bytes); });
        if (round > 0) {
            ours.push_back(export_s);
            plain.push_back(write_s);
        }
    }
    const double ratio = median(ours) / median(plain);
    fmt::print(stderr, "table of {} rows, {} bytes: {:.1f} ms, one write {:.1f} ms\n", tables[0].rows.size(),
               bytes.size(), median(ours) * 1e3, median(plain) * 1e3);
    fmt::print("bench table_to_file = {:.2f} (bar {:.2f}) {}\n", ratio, bar, ratio <= bar ? "ok" : "short");
    return ratio <= bar ? 0 : 1;
}
