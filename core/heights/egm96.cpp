// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/geoid.h"

#include <cassert>

// The grid is two megabytes: as an array in C++ it would take a compiler minutes. The assembler of GCC and Clang (also
// of Android's NDK) takes it as it is. RILLMARK_GEOID_FILE comes from core/CMakeLists.txt.
asm(".pushsection .rodata\n"
    ".balign 16\n"
    ".globl rillmark_egm96\n"
    ".hidden rillmark_egm96\n"
    "rillmark_egm96:\n"
    ".incbin \"" RILLMARK_GEOID_FILE "\"\n"
    ".globl rillmark_egm96_end\n"
    ".hidden rillmark_egm96_end\n"
    "rillmark_egm96_end:\n"
    ".byte 0\n"
    ".popsection\n");

extern "C" {
extern const std::byte rillmark_egm96[];
extern const std::byte rillmark_egm96_end[];
}

namespace rillmark {

const GeoidGrid& egm96() {
    static const GeoidGrid grid = [] {
        const Expected<GeoidGrid> read = GeoidGrid::from_bytes({rillmark_egm96, rillmark_egm96_end});
        assert(read.ok()); // what is built in is what the tests saw
        return *read;
    }();
    return grid;
}

} // namespace rillmark
