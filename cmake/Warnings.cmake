# SPDX-License-Identifier: GPL-3.0-or-later
# rillmark_warnings(target): the warnings that every target of ours is built with.
function(rillmark_warnings target)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion
        -Wnon-virtual-dtor -Wold-style-cast -Wimplicit-fallthrough)
    if(RILLMARK_WERROR)
        target_compile_options(${target} PRIVATE -Werror)
    endif()
endfunction()

if(RILLMARK_SANITIZE)
    # GCC 12 sees uninitialised members in <regex> once sanitizers are on
    add_compile_options(-Wno-maybe-uninitialized)
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
endif()

if(RILLMARK_FUZZ)
    if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
        message(FATAL_ERROR "RILLMARK_FUZZ needs clang: use the preset fuzz")
    endif()
    add_compile_options(-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined)
    add_link_options(-fsanitize=address,undefined)
endif()
