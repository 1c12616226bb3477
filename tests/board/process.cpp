// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/process.hpp"

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <stdexcept>

namespace gasp::board_test {

Process::Process(const std::vector<std::string>& command) {
    int in[2];
    int out[2];
    if (pipe(in) != 0 || pipe(out) != 0) {
        throw std::runtime_error("no pipe");
    }
    std::vector<char*> arguments;
    for (const std::string& word : command) {
        arguments.push_back(const_cast<char*>(word.c_str()));
    }
    arguments.push_back(nullptr);
    pid_ = fork();
    if (pid_ == 0) {
        dup2(in[0], 0);
        dup2(out[1], 1);
        for (const int end : {in[0], in[1], out[0], out[1]}) {
            close(end);
        }
        execvp(arguments[0], arguments.data());
        _exit(127);
    }
    close(in[0]);
    close(out[1]);
    in_ = in[1];
    out_ = out[0];
}

Process::~Process() {
    close(in_);
    close(out_);
    kill(pid_, SIGTERM);
    waitpid(pid_, nullptr, 0);
}

void Process::write(const std::vector<unsigned char>& bytes) const {
    if (::write(in_, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size())) {
        throw std::runtime_error("the program takes nothing");
    }
}

std::vector<unsigned char> Process::read(int most_ms) const {
    pollfd waiting{out_, POLLIN, 0};
    std::vector<unsigned char> bytes(4096);
    const ssize_t count = poll(&waiting, 1, most_ms) > 0 ? ::read(out_, bytes.data(), bytes.size()) : 0;
    bytes.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
    return bytes;
}

std::string Process::output() const {
    std::string all;
    for (;;) {
        const auto bytes = read(60'000);
        if (bytes.empty()) {
            return all;
        }
        all.append(bytes.begin(), bytes.end());
    }
}

}  // namespace gasp::board_test
