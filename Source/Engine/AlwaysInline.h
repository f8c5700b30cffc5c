#pragma once

/** Before a function that the files of several processors share: each has it in its own code, so that a linker finds no copies of
   one name to choose from, of which some would not run everywhere. */
#if defined(__GNUC__)
#define SNAREWRIGHT_INLINE __attribute__ ((always_inline)) inline
#else
#define SNAREWRIGHT_INLINE inline
#endif
