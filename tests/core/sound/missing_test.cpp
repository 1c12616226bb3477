// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/missing.hpp"

#include "core/sound/content.hpp"
#include "core/sound/gather.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <fstream>

using namespace gasp;
namespace fs = std::filesystem;

namespace {
void put(const fs::path& path, const char* text) {
    fs::create_directories(path.parent_path());
    std::ofstream(path) << text;
}

SoundClip clip_of(std::uint32_t id, const char* file, const std::string& content) {
    SoundClip clip;
    clip.id.value = id;
    clip.file = file;
    clip.content = content;
    return clip;
}

/// A show whose folder lost both its sounds, and a folder that has them under other names.
struct Loss {
    test::Folder folder;
    fs::path show = folder / "show";
    fs::path elsewhere = folder / "elsewhere";
    Show document;

    Loss() {
        fs::create_directories(show);
        put(elsewhere / "old" / "take 2.wav", "the keeper speaks");
        put(elsewhere / "bang.wav", "a bang");
        put(elsewhere / "notes.txt", "a bang");
        const std::string keeper = content_of(elsewhere / "old" / "take 2.wav").value();
        const std::string bang = content_of(elsewhere / "bang.wav").value();
        Sequence sequence;
        sequence.id.value = 9;
        sequence.clips = {clip_of(1, "voices/keeper.wav", keeper), clip_of(2, "bang.wav", bang),
                          clip_of(3, "voices/keeper.wav", keeper), clip_of(4, "no-sign.wav", "")};
        document.sequences = {sequence};
    }
};

}  // namespace

TEST_CASE("a missing sound is told once, with how many clips play it") {
    const Loss loss;
    const auto missing = missing_sounds(loss.document, loss.show);
    REQUIRE(missing.size() == 3);
    CHECK(missing[0].file == "voices/keeper.wav");
    CHECK(missing[0].clips == 2);
    put(loss.show / "bang.wav", "another bang");
    CHECK(missing_sounds(loss.document, loss.show).size() == 2);
}

TEST_CASE("missing sounds are found by what they hold, and copied to their place") {
    const Loss loss;
    const auto found =
        find_missing(missing_sounds(loss.document, loss.show), loss.show, loss.elsewhere, test::never, {});
    REQUIRE(found);
    CHECK(found->copied.size() == 2);
    CHECK(found->moved.empty());
    REQUIRE(found->still_missing.size() == 1);
    CHECK(found->still_missing[0].file == "no-sign.wav");
    CHECK(content_of(loss.show / "voices" / "keeper.wav") ==
          content_of(loss.elsewhere / "old" / "take 2.wav"));
    CHECK(missing_sounds(loss.document, loss.show).size() == 1);
}

TEST_CASE("sounds that moved within the show's folder are named anew, not copied") {
    const Loss loss;
    put(loss.show / "new" / "speech.wav", "the keeper speaks");
    const auto found =
        find_missing(missing_sounds(loss.document, loss.show), loss.show, loss.show, test::never, {});
    REQUIRE(found);
    REQUIRE(found->moved.size() == 1);
    CHECK(found->moved[0].was == "voices/keeper.wav");
    CHECK(found->moved[0].is == "new/speech.wav");
    CHECK(found->copied.empty());
    Show after = loss.document;
    apply(set_clip_files(after, found->moved), after);
    CHECK(after.sequences[0].clips[2].file == "new/speech.wav");
}

TEST_CASE("a sound of an older show is found by its older sign, beside one of today's") {
    Loss loss;
    for (SoundClip& clip : loss.document.sequences.front().clips) {
        if (clip.file == "voices/keeper.wav") {
            clip.content = content_of(loss.elsewhere / "old" / "take 2.wav", old_content_kind).value();
            REQUIRE(clip.content.starts_with("fnv1a64:"));
        }
    }
    const auto found =
        find_missing(missing_sounds(loss.document, loss.show), loss.show, loss.elsewhere, test::never, {});
    REQUIRE(found);
    CHECK(found->copied.size() == 2);
    CHECK(content_of(loss.show / "voices" / "keeper.wav") ==
          content_of(loss.elsewhere / "old" / "take 2.wav"));
}

TEST_CASE("a search that cannot be made or is given up is an error") {
    const Loss loss;
    const auto missing = missing_sounds(loss.document, loss.show);
    CHECK_FALSE(find_missing(missing, loss.show, loss.folder / "nowhere", test::never, {}));
    const std::atomic<bool> at_once{true};
    CHECK_FALSE(find_missing(missing, loss.show, loss.elsewhere, at_once, {}));
}

TEST_CASE("all sounds of a show are copied to where it goes, and none over another") {
    Loss loss;
    put(loss.show / "voices" / "keeper.wav", "the keeper speaks");
    const fs::path to = loss.folder / "gathered";
    const auto first = gather_sounds(loss.document, loss.show, to, test::never);
    REQUIRE(first);
    CHECK(first->missing.size() == 2);
    CHECK(first->copied == 1);
    CHECK(first->renaming.empty());
    CHECK(content_of(to / "voices" / "keeper.wav") == content_of(loss.show / "voices" / "keeper.wav"));
    CHECK(gather_sounds(loss.document, loss.show, to, test::never)->copied == 0);
    // Where another sound has the name, the copy takes one of its own, and every clip of it that name.
    put(to / "voices" / "keeper.wav", "someone else");
    const auto again = gather_sounds(loss.document, loss.show, to, test::never);
    REQUIRE(again);
    CHECK(again->copied == 1);
    apply(again->renaming, loss.document);
    CHECK(loss.document.sequences.front().clips[0].file == "voices/keeper 2.wav");
    CHECK(loss.document.sequences.front().clips[2].file == "voices/keeper 2.wav");
    CHECK(content_of(to / "voices" / "keeper.wav") != content_of(to / "voices" / "keeper 2.wav"));
    // Given up, or where nothing can be written, nothing half-copied is left.
    const std::atomic<bool> at_once{true};
    CHECK_FALSE(gather_sounds(loss.document, to, loss.folder / "never", at_once));
    CHECK(fs::is_empty(loss.folder / "never" / "voices"));
    put(loss.folder / "file", "in the way");
    CHECK_FALSE(gather_sounds(loss.document, to, loss.folder / "file", test::never));
}
