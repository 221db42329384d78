/* A zip archive of stored members, byte by byte (APPNOTE.TXT 6.3.10, 4.3), and nothing of any library. */
#ifndef TAUTLINE_FUZZ_MADE_ZIP_H
#define TAUTLINE_FUZZ_MADE_ZIP_H

#include "base/arena.h"

#include <stddef.h>
#include <stdint.h>

struct made_zip
{
    struct arena *arena;
    unsigned char *bytes; /* members so far */
    size_t length;
    unsigned char *directory; /* their entries */
    size_t directory_length;
    unsigned count;
};

void made_zip_add(struct made_zip *zip, const char *name, const void *bytes, size_t length);
/* The whole archive: zip->bytes, zip->length. */
void made_zip_end(struct made_zip *zip);

#endif
