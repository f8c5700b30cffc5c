#pragma once

/** For functions shared by files that are compiled for different instruction sets. Always inlined, so that the linker cannot pick
   a copy with instructions that this processor lacks. */
#if defined(__GNUC__)
#define SNAREWRIGHT_INLINE __attribute__ ((always_inline)) inline
#else
#define SNAREWRIGHT_INLINE inline
#endif
