/* Recognises files that are not text by their first bytes, so that a file that cannot be read is named properly. */
#ifndef TAUTLINE_READING_WORKBOOK_FILE_KIND_H
#define TAUTLINE_READING_WORKBOOK_FILE_KIND_H

#include <stdbool.h>
#include <stddef.h>

#define FILE_KIND_BYTES ((size_t)512) /* from the start of a file that are enough */

struct file_kind
{
    const char *what; /* "a PDF"; NULL: text, as far as these bytes show */
    const char *hint; /* what to do instead */
};

/* A zip archive may or may not be a workbook: file_is_zip(), then book_open(). */
struct file_kind file_kind_of(const unsigned char *bytes, size_t length);
bool file_is_zip(const unsigned char *bytes, size_t length);

#endif
