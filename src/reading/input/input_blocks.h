/* From raw bytes to blocks of UTF-8 text with LF line ends: what input.c gives out, of which the two newest are kept.
 */
#ifndef TAUTLINE_READING_INPUT_BLOCKS_H
#define TAUTLINE_READING_INPUT_BLOCKS_H

#include "reading/input/input.h"

#include <iconv.h>

#define RAW_BYTES ((size_t)32 * 1024) /* read at once: few enough to stay near the processor until they are decoded */

enum decoder
{
    DECODE_UTF8,  /* checked and copied */
    DECODE_LATIN, /* single bytes, by iconv; none is refused */
    DECODE_STRICT /* UTF-16 and UTF-32, by iconv; what it refuses ends the reading */
};

struct block
{
    char *text;
    size_t length;
    uint32_t first_line; /* the line that its first byte belongs to */
};

struct input
{
    struct arena *own; /* the blocks; freed by input_close */
    const char *name, *encoding;
    struct diags *diags;
    int file; /* -1: memory */
    const char *memory;
    size_t memory_left;
    struct input_source source; /* read is NULL: it is a file or memory */
    bool is_sheet;
    int64_t modified_ns;
    uint64_t file_bytes; /* of a regular file; 0: none */
    bool is_part;        /* the file is another input's: bytes from part_at to part_end */
    uint64_t part_at, part_end;

    char *raw; /* bytes as read, not yet decoded: from raw_at to raw_end */
    size_t raw_at, raw_end;
    bool raw_done; /* the source has no more */

    enum decoder decoder;
    iconv_t converter; /* (iconv_t)-1: none open */
    bool letters_seen, guess_said, had_nul, failed;
    bool after_cr; /* the last byte decoded was a CR, given as LF: an LF that follows belongs to it */

    struct block current, previous; /* the window */
    bool current_waits;             /* decoded at opening for the head, not yet delivered */
    uint32_t line;                  /* the line that the next block begins in */
    size_t line_bytes;              /* bytes of that line so far */
    size_t empty_bytes;             /* of empty lines, block upon block */
    char *head;
    size_t head_length;

    uint32_t sought_line; /* where input_line() stopped last: a line start within the window */
    size_t sought_at;     /* bytes from the window's start */
};

void input_fail(struct input *input, enum diag_id id, const char *what); /* said, and the end of the reading */
void input_fill_raw(struct input *input);      /* more raw bytes after those that were left over */
void input_find_encoding(struct input *input); /* by the first of them */
void input_next_block(struct input *input);    /* decoded, as the window's newest; of length 0 at the end */

#endif
