/* Bytes to text: one input, decoded to UTF-8 with LF line ends, delivered in blocks.
 *
 * The encoding is found from a byte order mark (UTF-8, UTF-16LE/BE, UTF-32LE/BE), else from the content: UTF-16
 * without a mark if every other byte of the head is NUL; UTF-8 as long as the bytes are valid; from the first invalid
 * byte on, Latin-1 (Windows-1252 for the bytes 80 to 9F), or only for that byte if there were valid UTF-8 letters
 * before it. Both are reported in one note. The mark itself is dropped. iconv does the conversion. CR LF and CR alone
 * become LF. Memory does not grow with the file: a window of the last two blocks is kept so that a line can be shown
 * in a diagnostic. "-" is standard input. */
#ifndef TAUTLINE_READING_INPUT_H
#define TAUTLINE_READING_INPUT_H

#include "base/arena.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/types.h>

#define INPUT_BLOCK_BYTES ((size_t)256 * 1024)
#define INPUT_HEAD_BYTES ((size_t)64 * 1024)         /* decoded text that input_head() may look at */
#define INPUT_LINE_LIMIT ((size_t)1024 * 1024)       /* bytes; of a longer line only the beginning is delivered */
#define INPUT_LINE_END ((size_t)256 * 1024 * 1024)   /* a line longer than this is not a log's: LIMIT_REACHED */
#define INPUT_EMPTY_LIMIT ((size_t)16 * 1024 * 1024) /* nor are more bytes of empty lines in a row */

struct input;

/* NULL: cannot be opened or read, reported as CANNOT_READ. `name` is borrowed by diagnostics. The blocks are in the
 * input's own memory, freed by input_close; the rest is owned by the arena. */
struct input *input_open(struct arena *arena, const char *name, struct diags *diags);
struct input *input_from_memory(struct arena *arena, const char *name, const char *bytes, size_t length,
                                struct diags *diags);
struct input_source /* of text that is generated while it is read */
{
    /* Returns up to `room` bytes of UTF-8 with LF line ends; 0: the end; -1: a failure, already reported. */
    ssize_t (*read)(void *context, char *to, size_t room);
    void *context;
    const struct input
        *like; /* the input that it is made from, which gives time and encoding; NULL: none, see input_of_sheet */
};
struct input *input_from_source(struct arena *arena, const char *name, const struct input_source *source,
                                struct diags *diags);

/* The bytes from `first` to `end` of the file of an open input (see input_file), as a separate input. If `end` is the
 * known end of the file, it is read to wherever the file ends by then. `whole` keeps its position, and must stay
 * open. */
struct input *input_open_part(struct arena *arena, const struct input *whole, uint64_t first, uint64_t end,
                              struct diags *diags);

/* The rows of a sheet as CSV records, one per line; the line number is the row's: workbook/sheet_rows.h. `like` is
 * NULL. An input made from it by input_from_source also counts as a sheet. */
struct input *input_of_sheet(struct arena *arena, const char *name, const struct input_source *source,
                             int64_t modified_ns, struct diags *diags);
bool input_is_sheet(const struct input *input);

/* Like input_open, but first passes on the raw bytes at the start, at most 32 KiB, before they are decoded. True: the
 * file must not be read as an input; it is closed, and the result is NULL. */
typedef bool input_refused(void *context, const unsigned char *bytes, size_t length);
struct input *input_open_unless(struct arena *arena, const char *name, struct diags *diags, input_refused *refused,
                                void *context);

void input_close(struct input *input); /* NULL is allowed */

/* The first INPUT_HEAD_BYTES of decoded text (less if the file is shorter), however much was read since. Borrowed;
 * not NUL-terminated. */
const char *input_head(struct input *input, size_t *length);

/* The next block of decoded text; 0 at the end or after a read error (input_failed). Blocks may end anywhere. Not
 * NUL-terminated. A line of more than INPUT_LINE_LIMIT bytes comes cut to its first INPUT_LINE_LIMIT + 1, and on to the
 * end of the character there: whoever reads lines sees that it is too long, and refuses it. */
size_t input_read(struct input *input, const char **text);
bool input_failed(const struct input *input); /* already reported */

const char *input_name(const struct input *input);
/* UTF-8, UTF-16LE, ISO-8859-1, windows-1252 ... as far as known. */
const char *input_encoding(const struct input *input);
/* The file and its size, if chunks of it can be read at the same time: a regular file, UTF-8 as far as is known.
 * False: they cannot. */
bool input_file(const struct input *input, int *file, uint64_t *bytes);
bool input_ended_early(
    const struct input *input); /* for a part: the file is shorter by now, or not all of the part was read */
bool input_guessed(const struct input *input);   /* bytes that are not UTF-8 were read as Latin-1, already reported */
uint32_t input_lines(const struct input *input); /* physical lines that have ended so far */
void input_count_from(struct input *input, uint32_t line); /* as if it were that one's turn: for tests of the limit */
int64_t input_modified_ns(const struct input *input);      /* 0 for standard input and memory */
bool input_had_nul(const struct input *input);             /* a NUL was seen in the decoded text so far */

/* The text of a physical line (from 1) in the window, copied into the arena without its line end; NULL: no longer
 * available. A NUL is shown as U+2400. If lines are requested in rising order, all lines of a block cost a single
 * pass over it. */
char *input_line(struct input *input, struct arena *arena, uint32_t line);

#endif
