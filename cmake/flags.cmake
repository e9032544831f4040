# One set of compiler flags for every target of ours. No contraction into fused multiply-add and no fast-math:
# the same source gives the same bytes in every build type. __FILE__ begins at the root of the repository, so that
# messages are short and do not depend on where the repository lies.
add_library(gloam_flags INTERFACE)
target_compile_options(gloam_flags INTERFACE
    -ffp-contract=off -fmacro-prefix-map=${CMAKE_SOURCE_DIR}/=
    -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wold-style-cast
    -Wnon-virtual-dtor -Wdouble-promotion -Wformat=2 -Werror
    $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond -Wlogical-op>)
if(GLOAM_SANITIZE)
    target_compile_options(gloam_flags INTERFACE
        -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    target_link_options(gloam_flags INTERFACE -fsanitize=address,undefined)
endif()
if(GLOAM_TIDY)
    # Clang reads GCC's flags here and does not know all of them.
    set(CMAKE_CXX_CLANG_TIDY clang-tidy-16 --quiet --extra-arg=-Wno-unknown-warning-option)
endif()
