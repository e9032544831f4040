#pragma once

/// Marks a function whose loops are worth compiling twice: for any x86-64, and for processors with 256-bit
/// vectors, chosen when the program starts. Both do the same arithmetic in the same order and give the same
/// bytes (no fused multiply-add: cmake/flags.cmake). Sanitized builds have the plain one.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define GLOAM_VECTOR_CLONES __attribute__((target_clones("avx2", "default")))
#else
#define GLOAM_VECTOR_CLONES
#endif

/// For what such a function is made of: it must be compiled with it.
#define GLOAM_INLINE [[gnu::always_inline]] inline
