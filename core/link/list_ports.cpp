// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/serial_port.hpp"

#include <algorithm>
#include <fstream>
#include <map>
#include <system_error>
#include <tuple>

namespace gasp {

namespace {

namespace fs = std::filesystem;

/// Whether the system knows a device behind a port: it lists ports of chips that are not there, of type 0.
bool is_there(const fs::path& port) {
    std::error_code error;
    if (!fs::exists(port / "device", error)) {
        return false;
    }
    std::ifstream file(port / "type");
    int type = 1;
    return !(file >> type) || type != 0;
}

/// A file's name made fit for a line of text.
std::string label_of(const fs::path& link) {
    std::string label = link.filename().string();
    std::ranges::replace_if(
        label, [](char c) { return c < ' ' || c > '~' || c == '_'; }, ' ');
    return label;
}

/// What hangs on each port, by the port's name.
std::map<std::string, std::string> labels(const fs::path& by_id) {
    std::map<std::string, std::string> found;
    std::error_code error;
    for (const fs::directory_entry& link : fs::directory_iterator(by_id, error)) {
        const fs::path target = fs::read_symlink(link.path(), error);
        if (!error) {
            found[target.filename().string()] = label_of(link.path());
        }
    }
    return found;
}

}  // namespace

std::vector<PortInfo> list_ports(const fs::path& root) {
    const std::map<std::string, std::string> known = labels(root / "dev/serial/by-id");
    std::vector<PortInfo> ports;
    std::error_code error;
    for (const fs::directory_entry& port : fs::directory_iterator(root / "sys/class/tty", error)) {
        const std::string name = port.path().filename().string();
        if (is_there(port.path())) {
            const auto label = known.find(name);
            ports.push_back({(root / "dev" / name).string(), label == known.end() ? "" : label->second});
        }
    }
    std::ranges::sort(ports, {}, [](const PortInfo& port) {
        return std::tuple(port.label.empty(), port.path.size(), port.path);
    });
    return ports;
}

}  // namespace gasp
