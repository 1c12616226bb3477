// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/command_line.hpp"
#include "app/gasp/terminal.hpp"
#include "app/gasp/verbs.hpp"
#include "core/file/atomic_write.hpp"
#include "core/file/output_name.hpp"

#include <csignal>

namespace {

using namespace gasp;

int unusable(const Error& error) {
    say(error.text());
    return static_cast<int>(ExitCode::unusable);
}

/// The path of -o for what a verb prints; pictures, pages and a fitted show are files of their own.
std::string output_of(const Command& command) {
    return std::holds_alternative<PictureOptions>(command) || std::holds_alternative<SheetOptions>(command) ||
                   std::holds_alternative<FitOptions>(command)
               ? std::string()
               : std::visit([](const auto& options) { return options.output; }, command);
}

Result<void> write_file(const Outcome& outcome, const std::filesystem::path& path, std::string_view text) {
    return check_output_name(path, outcome.sources).and_then([&] { return atomic_write(path, text); });
}

Result<void> write(const Outcome& outcome, const std::string& output) {
    for (const auto& [path, text] : outcome.files) {
        if (Result<void> written = write_file(outcome, path, text); !written) {
            return written;
        }
    }
    return output.empty() || !outcome.files.empty() ? write_to_standard_output(outcome.text)
                                                    : write_file(outcome, output, outcome.text);
}

int run_and_print(const Command& command) {
    const Result<Outcome> outcome = std::visit([](const auto& options) { return run(options); }, command);
    if (!outcome) {
        return unusable(outcome.error());
    }
    const Result<void> written = write(*outcome, output_of(command));
    for (const std::string& message : outcome->messages) {
        say(message);
    }
    return written ? static_cast<int>(outcome->code) : unusable(written.error());
}

}  // namespace

int main(int argc, char** argv) {
    std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is then an error of write(), and no sudden end
    const std::variant<Command, Answer> asked = read_command_line(argc, argv);
    if (const auto* answer = std::get_if<Answer>(&asked)) {
        if (!answer->error.empty()) {
            return unusable({answer->error, {}, {}});
        }
        const Result<void> written = write_to_standard_output(answer->text);
        return written ? 0 : unusable(written.error());
    }
    return run_and_print(std::get<Command>(asked));
}
