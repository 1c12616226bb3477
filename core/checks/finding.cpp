// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/finding.hpp"

namespace gasp {

std::string_view word(Severity severity) {
    switch (severity) {
        case Severity::stop:
            return "stop";
        case Severity::warn:
            return "warn";
        case Severity::note:
            break;
    }
    return "note";
}

std::string text(const Finding& finding) {
    std::string line(word(finding.severity));
    if (finding.place.time) {
        line += ": " + print_time(*finding.place.time);
    }
    line += ": " + finding.what;
    if (!finding.figure.empty()) {
        line += ": " + finding.figure;
    }
    if (!finding.limit.empty()) {
        line += ", limit " + finding.limit;
    }
    line += ".";
    if (!finding.remedy.empty()) {
        line += " " + finding.remedy + ".";
    }
    return line;
}

}  // namespace gasp
