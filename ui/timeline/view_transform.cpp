// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/view_transform.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr Micros least_extent{1'000'000};
/// Beyond this a time on the screen is nonsense; it keeps every conversion inside 64 bits.
constexpr double largest_us = 4e15;

Micros to_micros(double us) {
    return Micros{std::llround(std::clamp(us, -largest_us, largest_us))};
}

double to_us(Micros time) {
    return static_cast<double>(time.count());
}

}  // namespace

double ViewTransform::largest_us_per_px() const {
    return std::max(to_us(extent_) * 4.0 / std::max(width_, 1.0), least_us_per_px);
}

double ViewTransform::x_of(Micros time) const {
    return to_us(time - offset_) / us_per_px_;
}

Micros ViewTransform::time_at(double x) const {
    return to_micros(to_us(offset_) + x * us_per_px_);
}

double ViewTransform::px_of(Micros length) const {
    return to_us(length) / us_per_px_;
}

Micros ViewTransform::length_of(double px) const {
    return to_micros(px * us_per_px_);
}

void ViewTransform::set_width(double px) {
    width_ = std::max(px, 1.0);
    clamp();
}

void ViewTransform::set_extent(Micros length) {
    extent_ = std::max(length, least_extent);
    clamp();
}

void ViewTransform::set_scale_and_offset(double us_per_px, Micros offset) {
    us_per_px_ = us_per_px;
    offset_ = offset;
    clamp();
}

void ViewTransform::zoom_about(double x, double factor) {
    const double under = to_us(offset_) + x * us_per_px_;
    const double scale = std::clamp(us_per_px_ / factor, least_us_per_px, largest_us_per_px());
    set_scale_and_offset(scale, to_micros(under - x * scale));
}

void ViewTransform::scroll_by(double px) {
    set_scale_and_offset(us_per_px_, offset_ + length_of(px));
}

void ViewTransform::place(Micros time, double x) {
    set_scale_and_offset(us_per_px_, time - length_of(x));
}

void ViewTransform::fit() {
    fit_to(Micros{0}, extent_);
}

void ViewTransform::fit_to(Micros begin, Micros end) {
    const double inner = std::max(width_ - 2 * margin_px, 1.0);
    us_per_px_ = std::clamp(to_us(end - begin) / inner, least_us_per_px, largest_us_per_px());
    const double middle = (to_us(begin) + to_us(end)) / 2;
    offset_ = to_micros(middle - width_ / 2 * us_per_px_);
    clamp();
}

bool ViewTransform::shows_just_the_whole() const {
    return std::abs(x_of(Micros{0}) - margin_px) < 1.0 &&
           std::abs(x_of(extent_) - (width_ - margin_px)) < 1.0;
}

Micros ViewTransform::least_offset() const {
    return -length_of(margin_px);
}

Micros ViewTransform::largest_offset() const {
    if (px_of(extent_) < width_ - 2 * margin_px + 1) {
        return least_offset();  // all of it is in sight
    }
    // Half a page is free after the end.
    return std::max(least_offset(), extent_ - length_of(width_ / 2));
}

void ViewTransform::clamp() {
    us_per_px_ = std::isfinite(us_per_px_) ? us_per_px_ : 10'000.0;
    us_per_px_ = std::clamp(us_per_px_, least_us_per_px, largest_us_per_px());
    offset_ = std::clamp(offset_, least_offset(), largest_offset());
}

double ViewTransform::scroll_position() const {
    return px_of(offset_ - least_offset());
}

double ViewTransform::scroll_range() const {
    return px_of(largest_offset() - least_offset());
}

void ViewTransform::scroll_to(double position) {
    set_scale_and_offset(us_per_px_, least_offset() + length_of(position));
}

}  // namespace gasp
