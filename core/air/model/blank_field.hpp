// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/error.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// A field of the rig that a computation needs and does not have.
struct BlankField {
    std::string key;    ///< as in the file: "air_plant.receiver_l", "cylinder.bore_mm"
    std::string label;  ///< as people say it: "receiver of the air plant", "bore of \"Keeper\""
    std::optional<ActuatorId> actuator;
    bool operator==(const BlankField&) const = default;
};

/// A field of an actuator, or of the air plant where that is null.
[[nodiscard]] BlankField blank_field(const Actuator* actuator, std::string_view key, std::string_view label);

/// What to say where the computation has to do without it.
[[nodiscard]] Error blank_error(const BlankField& blank);

/// Collects the blank ones among the figures that a computation needs.
class BlankFields {
  public:
    /// Of an actuator, or of the air plant where that is null.
    explicit BlankFields(const Actuator* actuator) : actuator_(actuator) {}

    void need(const Figure& figure, std::string_view key, std::string_view label) {
        if (!figure) {
            blanks_.push_back(blank_field(actuator_, key, label));
        }
    }
    [[nodiscard]] std::vector<BlankField> take() { return std::move(blanks_); }

  private:
    const Actuator* actuator_;
    std::vector<BlankField> blanks_;
};

/// The blank fields without which a receiver is one without limit, or is never filled again.
[[nodiscard]] std::vector<BlankField> blanks_of_receiver(const AirPlant& plant);

}  // namespace gasp
