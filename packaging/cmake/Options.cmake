# Compiler switches that every target shares.
find_program(CCACHE ccache)
if(CCACHE)
    # Paths below the project count as relative: every variant and every build tree shares what one compiled.
    set(CMAKE_CXX_COMPILER_LAUNCHER ${CMAKE_COMMAND} -E env CCACHE_BASEDIR=${CMAKE_SOURCE_DIR} CCACHE_NOHASHDIR=1
        CCACHE_SLOPPINESS=time_macros,include_file_mtime,include_file_ctime ${CCACHE})
endif()
find_program(MOLD mold)
if(MOLD)
    add_link_options(-fuse-ld=mold)
endif()

# Numbers repeat on every build variant: no fused multiply-add behind our back.
add_compile_options(-ffp-contract=off)
add_compile_options(-Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wnon-virtual-dtor
                    -Woverloaded-virtual)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # g++ 12 sees overlaps in std::string's own operator+ that are not there (GCC bug 105329).
    add_compile_options(-Wno-restrict)
endif()
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG")
if(EVENFALL_WERROR)
    add_compile_options(-Werror)
endif()
if(EVENFALL_FUZZ)
    add_compile_options(-fsanitize=fuzzer-no-link)
endif()
if(EVENFALL_SANITIZE)
    # Half the compiling time of -O2 -g; a report still names its lines.
    set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1 -DNDEBUG")
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
    if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
        add_compile_options(-Wno-maybe-uninitialized)  # the instrumentation trips it on correct code (g++ 12)
    endif()
endif()
