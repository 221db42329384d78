/* What a file is by its first bytes, where it is not text: so that what cannot be read is called by its name. */
#ifndef TAUTLINE_READING_WORKBOOK_FILE_KIND_H
#define TAUTLINE_READING_WORKBOOK_FILE_KIND_H

#include <stdbool.h>
#include <stddef.h>

#define FILE_KIND_BYTES ((size_t)512) /* of the start of a file are enough */

struct file_kind
{
    const char *what; /* "a PDF"; NULL: text, as far as these bytes tell */
    const char *hint; /* what to do instead */
};

/* A zip archive is a workbook, or it is not: file_is_zip(), then book_open(). */
struct file_kind file_kind_of(const unsigned char *bytes, size_t length);
bool file_is_zip(const unsigned char *bytes, size_t length);

#endif
