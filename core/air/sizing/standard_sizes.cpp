// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/standard_sizes.hpp"

#include <array>

namespace gasp {

namespace {

constexpr double in = 25.4;
constexpr double gal = 3.785411784;

// Bores and rods: ISO 6432:2015 up to 25 mm, ISO 15552:2018 from 32 mm. The bores of the latter by its scope;
// its rods from 32 to 100 mm as in a general catalogue's consumption tables; all others, and the threads of
// the ports, from memory.
constexpr std::array metric_bores{
    BoreSize{8, 4, 0, "8 mm, ISO 6432"},       BoreSize{10, 4, 0, "10 mm, ISO 6432"},
    BoreSize{12, 6, 0, "12 mm, ISO 6432"},     BoreSize{16, 6, 0, "16 mm, ISO 6432"},
    BoreSize{20, 8, 1, "20 mm, ISO 6432"},     BoreSize{25, 10, 1, "25 mm, ISO 6432"},
    BoreSize{32, 12, 1, "32 mm, ISO 15552"},   BoreSize{40, 16, 2, "40 mm, ISO 15552"},
    BoreSize{50, 20, 2, "50 mm, ISO 15552"},   BoreSize{63, 20, 3, "63 mm, ISO 15552"},
    BoreSize{80, 25, 3, "80 mm, ISO 15552"},   BoreSize{100, 25, 4, "100 mm, ISO 15552"},
    BoreSize{125, 32, 4, "125 mm, ISO 15552"}, BoreSize{160, 40, 5, "160 mm, ISO 15552"},
    BoreSize{200, 40, 5, "200 mm, ISO 15552"}, BoreSize{250, 50, 6, "250 mm, ISO 15552"},
    BoreSize{320, 63, 6, "320 mm, ISO 15552"}};

// Round-body cylinders up to 3 in: common practice, no source. From 3 1/4 in: ANSI/NFPA T3.6.7, from memory.
constexpr std::array inch_bores{BoreSize{7 * in / 16, 3 * in / 16, 0, "7/16 in"},
                                BoreSize{9 * in / 16, 3 * in / 16, 0, "9/16 in"},
                                BoreSize{0.75 * in, 0.25 * in, 1, "3/4 in"},
                                BoreSize{17 * in / 16, 5 * in / 16, 1, "1 1/16 in"},
                                BoreSize{1.25 * in, 7 * in / 16, 1, "1 1/4 in"},
                                BoreSize{1.5 * in, 7 * in / 16, 1, "1 1/2 in"},
                                BoreSize{1.75 * in, 0.5 * in, 2, "1 3/4 in"},
                                BoreSize{2 * in, 0.625 * in, 2, "2 in"},
                                BoreSize{2.5 * in, 0.625 * in, 2, "2 1/2 in"},
                                BoreSize{3 * in, 0.75 * in, 3, "3 in"},
                                BoreSize{3.25 * in, in, 4, "3 1/4 in, NFPA T3.6.7"},
                                BoreSize{4 * in, in, 4, "4 in, NFPA T3.6.7"},
                                BoreSize{5 * in, in, 4, "5 in, NFPA T3.6.7"},
                                BoreSize{6 * in, 1.375 * in, 5, "6 in, NFPA T3.6.7"},
                                BoreSize{8 * in, 1.375 * in, 5, "8 in, NFPA T3.6.7"},
                                BoreSize{10 * in, 1.75 * in, 6, "10 in, NFPA T3.6.7"},
                                BoreSize{12 * in, 2 * in, 6, "12 in, NFPA T3.6.7"}};

// Outside diameters: ISO 14743:2020, from memory. Bores: the open teaching text on pneumatics the tests quote
// (2.5, 4, 5.5, 7.5, 9 mm); 16 mm from memory.
constexpr std::array metric_tubes{
    TubeSize{4, 2.5, "4 mm outside, 2.5 mm inside"}, TubeSize{6, 4, "6 mm outside, 4 mm inside"},
    TubeSize{8, 5.5, "8 mm outside, 5.5 mm inside"}, TubeSize{10, 7.5, "10 mm outside, 7.5 mm inside"},
    TubeSize{12, 9, "12 mm outside, 9 mm inside"},   TubeSize{16, 12, "16 mm outside, 12 mm inside"}};

// SAE J844, non-metallic air tubing; from memory.
constexpr std::array inch_tubes{TubeSize{0.125 * in, 0.079 * in, "1/8 in outside, 0.079 in inside"},
                                TubeSize{0.15625 * in, 0.092 * in, "5/32 in outside, 0.092 in inside"},
                                TubeSize{0.25 * in, 0.170 * in, "1/4 in outside, 0.170 in inside"},
                                TubeSize{0.375 * in, 0.251 * in, "3/8 in outside, 0.251 in inside"},
                                TubeSize{0.5 * in, 0.376 * in, "1/2 in outside, 0.376 in inside"},
                                TubeSize{0.75 * in, 0.566 * in, "3/4 in outside, 0.566 in inside"}};

// Threads: ISO 228-1 and ANSI/ASME B1.20.1. What a common valve of each lets through: common practice, no
// source; makers differ by half, so that the valve's own sheet decides.
constexpr std::array metric_ports{PortSize{"M5", 0.5},    PortSize{"G 1/8", 2.0}, PortSize{"G 1/4", 4.5},
                                  PortSize{"G 3/8", 8.0}, PortSize{"G 1/2", 13},  PortSize{"G 3/4", 25},
                                  PortSize{"G 1", 40}};
constexpr std::array inch_ports{PortSize{"10-32", 0.5},   PortSize{"1/8 NPT", 2.0}, PortSize{"1/4 NPT", 4.5},
                                PortSize{"3/8 NPT", 8.0}, PortSize{"1/2 NPT", 13},  PortSize{"3/4 NPT", 25},
                                PortSize{"1 NPT", 40}};

// Common practice, no source.
constexpr std::array metric_receivers{
    ReceiverSize{2, "2 L"},     ReceiverSize{5, "5 L"},     ReceiverSize{10, "10 L"},
    ReceiverSize{24, "24 L"},   ReceiverSize{50, "50 L"},   ReceiverSize{100, "100 L"},
    ReceiverSize{150, "150 L"}, ReceiverSize{200, "200 L"}, ReceiverSize{270, "270 L"},
    ReceiverSize{500, "500 L"}, ReceiverSize{900, "900 L"}, ReceiverSize{2000, "2000 L"}};
constexpr std::array inch_receivers{ReceiverSize{1 * gal, "1 gal"},     ReceiverSize{2 * gal, "2 gal"},
                                    ReceiverSize{4 * gal, "4 gal"},     ReceiverSize{6 * gal, "6 gal"},
                                    ReceiverSize{10 * gal, "10 gal"},   ReceiverSize{20 * gal, "20 gal"},
                                    ReceiverSize{30 * gal, "30 gal"},   ReceiverSize{60 * gal, "60 gal"},
                                    ReceiverSize{80 * gal, "80 gal"},   ReceiverSize{120 * gal, "120 gal"},
                                    ReceiverSize{240 * gal, "240 gal"}, ReceiverSize{500 * gal, "500 gal"}};

template <class T>
std::span<const T> of(UnitSystem system, std::span<const T> metric, std::span<const T> inch) {
    return system == UnitSystem::us ? inch : metric;
}

}  // namespace

std::span<const BoreSize> standard_bores(UnitSystem system) {
    return of<BoreSize>(system, metric_bores, inch_bores);
}

std::span<const TubeSize> standard_tubes(UnitSystem system) {
    return of<TubeSize>(system, metric_tubes, inch_tubes);
}

std::span<const PortSize> standard_ports(UnitSystem system) {
    return of<PortSize>(system, metric_ports, inch_ports);
}

std::span<const ReceiverSize> standard_receivers(UnitSystem system) {
    return of<ReceiverSize>(system, metric_receivers, inch_receivers);
}

}  // namespace gasp
