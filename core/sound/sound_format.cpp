// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/sound_format.hpp"

#include <sndfile.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace gasp {

namespace {

struct Name {
    int code;
    std::string_view text;
};

constexpr std::array containers{
    Name{SF_FORMAT_WAV, "WAV"},   Name{SF_FORMAT_WAVEX, "WAV"}, Name{SF_FORMAT_AIFF, "AIFF"},
    Name{SF_FORMAT_AU, "AU"},     Name{SF_FORMAT_CAF, "CAF"},   Name{SF_FORMAT_FLAC, "FLAC"},
    Name{SF_FORMAT_OGG, "Ogg"},   Name{SF_FORMAT_MPEG, "MPEG"}, Name{SF_FORMAT_W64, "W64"},
    Name{SF_FORMAT_RF64, "RF64"},
};

constexpr std::array codings{
    Name{SF_FORMAT_PCM_S8, "8-bit PCM"},
    Name{SF_FORMAT_PCM_U8, "8-bit PCM"},
    Name{SF_FORMAT_PCM_16, "16-bit PCM"},
    Name{SF_FORMAT_PCM_24, "24-bit PCM"},
    Name{SF_FORMAT_PCM_32, "32-bit PCM"},
    Name{SF_FORMAT_FLOAT, "32-bit float"},
    Name{SF_FORMAT_DOUBLE, "64-bit float"},
    Name{SF_FORMAT_ULAW, "mu-law"},
    Name{SF_FORMAT_ALAW, "A-law"},
    Name{SF_FORMAT_VORBIS, "Vorbis"},
    Name{SF_FORMAT_OPUS, "Opus"},
    Name{SF_FORMAT_MPEG_LAYER_I, "Layer I"},
    Name{SF_FORMAT_MPEG_LAYER_II, "Layer II"},
    Name{SF_FORMAT_MPEG_LAYER_III, "Layer III"},
    Name{SF_FORMAT_ALAC_16, "16-bit ALAC"},
    Name{SF_FORMAT_ALAC_20, "20-bit ALAC"},
    Name{SF_FORMAT_ALAC_24, "24-bit ALAC"},
    Name{SF_FORMAT_ALAC_32, "32-bit ALAC"},
};

template <std::size_t size>
std::string name_of(const std::array<Name, size>& names, int code) {
    const auto found =
        std::find_if(names.begin(), names.end(), [&](const Name& n) { return n.code == code; });
    if (found != names.end()) {
        return std::string(found->text);
    }
    SF_FORMAT_INFO info{};
    info.format = code;
    const bool known =
        sf_command(nullptr, SFC_GET_FORMAT_INFO, &info, sizeof info) == 0 && info.name != nullptr;
    return known ? info.name : "unknown";
}

int bits_of(int coding) {
    switch (coding) {
        case SF_FORMAT_PCM_S8:
        case SF_FORMAT_PCM_U8:
            return 8;
        case SF_FORMAT_PCM_16:
        case SF_FORMAT_ALAC_16:
            return 16;
        case SF_FORMAT_ALAC_20:
            return 20;
        case SF_FORMAT_PCM_24:
        case SF_FORMAT_ALAC_24:
            return 24;
        case SF_FORMAT_PCM_32:
        case SF_FORMAT_ALAC_32:
            return 32;
        default:
            return 0;
    }
}

bool is_alac(int coding) {
    return coding == SF_FORMAT_ALAC_16 || coding == SF_FORMAT_ALAC_20 || coding == SF_FORMAT_ALAC_24 ||
           coding == SF_FORMAT_ALAC_32;
}

bool is_companded(int coding) {
    return coding == SF_FORMAT_ULAW || coding == SF_FORMAT_ALAW;
}

bool is_float(int coding) {
    return coding == SF_FORMAT_FLOAT || coding == SF_FORMAT_DOUBLE;
}

/// Codecs that carry state from block to block (ADPCM, Opus, MPEG) are left out.
bool seeks_exactly(int container, int coding) {
    if (container == SF_FORMAT_OGG) {
        return coding == SF_FORMAT_VORBIS;
    }
    constexpr std::array plain{SF_FORMAT_WAV, SF_FORMAT_WAVEX, SF_FORMAT_AIFF, SF_FORMAT_AU,
                               SF_FORMAT_CAF, SF_FORMAT_W64,   SF_FORMAT_RF64, SF_FORMAT_FLAC};
    const bool sample_by_sample =
        (bits_of(coding) != 0 && !is_alac(coding)) || is_float(coding) || is_companded(coding);
    return sample_by_sample && std::find(plain.begin(), plain.end(), container) != plain.end();
}

/// A frame of FLAC holds up to 65 535 frames of silence in some ten bytes, a Vorbis packet 4096 in one; the
/// leanest of the other codecs takes more than a bit a sample.
constexpr std::int64_t frames_a_byte_compressed = 8192;
constexpr std::int64_t frames_a_byte_otherwise = 8;

}  // namespace

FormatTraits traits_of(int format) {
    const int container = format & SF_FORMAT_TYPEMASK;
    const int coding = format & SF_FORMAT_SUBMASK;
    FormatTraits traits;
    traits.name = name_of(containers, container) + ", " + name_of(codings, coding);
    traits.bits = bits_of(coding);
    traits.sixteen_bit = (traits.bits > 0 && traits.bits <= 16) || is_companded(coding);
    traits.compressed = container == SF_FORMAT_FLAC || container == SF_FORMAT_OGG ||
                        container == SF_FORMAT_MPEG || is_alac(coding);
    traits.seeks_exactly = seeks_exactly(container, coding);
    traits.may_hold_nonfinite = traits.bits == 0 && !is_companded(coding);
    traits.frames_a_byte = traits.compressed ? frames_a_byte_compressed : frames_a_byte_otherwise;
    return traits;
}

}  // namespace gasp
