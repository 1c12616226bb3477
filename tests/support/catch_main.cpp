// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#define CATCH_CONFIG_RUNNER
#include "tests/support/catch.hpp"

int main(int argc, char** argv) {
    return Catch::Session().run(argc, argv);
}
