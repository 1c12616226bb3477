// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/sound/allocations.hpp"

#include <cstdlib>
#include <new>

namespace {

thread_local std::int64_t count = 0;

}  // namespace

std::int64_t gasp::test::allocations() {
    return count;
}

// In a file of their own: where the compiler sees both the calls and these it warns of a mismatch that is
// none.
void* operator new(std::size_t size) {
    ++count;
    if (void* memory = std::malloc(size)) {
        return memory;
    }
    throw std::bad_alloc();
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    ++count;
    return std::malloc(size);
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}
