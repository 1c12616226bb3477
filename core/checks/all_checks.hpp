// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <vector>

namespace gasp {

// One of these stands in each file named after its check; all_checks() lists them.

std::vector<Finding> check_air_budget(const CheckInput& input);
std::vector<Finding> check_base(const CheckInput& input);
std::vector<Finding> check_board_output(const CheckInput& input);
std::vector<Finding> check_channel_dwell(const CheckInput& input);
std::vector<Finding> check_clock_drift(const CheckInput& input);
std::vector<Finding> check_coil_duty(const CheckInput& input);
std::vector<Finding> check_compressor(const CheckInput& input);
std::vector<Finding> check_contact_rating(const CheckInput& input);
std::vector<Finding> check_drop(const CheckInput& input);
std::vector<Finding> check_early_reversal(const CheckInput& input);
std::vector<Finding> check_end_of_stroke(const CheckInput& input);
std::vector<Finding> check_exclusive(const CheckInput& input);
std::vector<Finding> check_failure(const CheckInput& input);
std::vector<Finding> check_first_stroke(const CheckInput& input);
std::vector<Finding> check_flashes(const CheckInput& input);
std::vector<Finding> check_fuse(const CheckInput& input);
std::vector<Finding> check_joined_supplies(const CheckInput& input);
std::vector<Finding> check_left_on(const CheckInput& input);
std::vector<Finding> check_lockout(const CheckInput& input);
std::vector<Finding> check_mains(const CheckInput& input);
std::vector<Finding> check_noise(const CheckInput& input);
std::vector<Finding> check_outside(const CheckInput& input);
std::vector<Finding> check_overlap(const CheckInput& input);
std::vector<Finding> check_pattern(const CheckInput& input);
std::vector<Finding> check_player_lag(const CheckInput& input);
std::vector<Finding> check_rating(const CheckInput& input);
std::vector<Finding> check_rest_state(const CheckInput& input);
std::vector<Finding> check_simulated(const CheckInput& input);
std::vector<Finding> check_sound_file(const CheckInput& input);
std::vector<Finding> check_sound_level(const CheckInput& input);
std::vector<Finding> check_start_level(const CheckInput& input);
std::vector<Finding> check_starved(const CheckInput& input);
std::vector<Finding> check_strike_missed(const CheckInput& input);
std::vector<Finding> check_strike_off(const CheckInput& input);
std::vector<Finding> check_stroke(const CheckInput& input);
std::vector<Finding> check_supply(const CheckInput& input);
std::vector<Finding> check_supply_loop(const CheckInput& input);
std::vector<Finding> check_suppression(const CheckInput& input);
std::vector<Finding> check_valve_dwell(const CheckInput& input);
std::vector<Finding> check_wire_current(const CheckInput& input);
std::vector<Finding> check_wiring(const CheckInput& input);

}  // namespace gasp
