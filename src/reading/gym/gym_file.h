/* The gym file: INI by inih, to struct gym. tautline-gym(5) is its manual. */
#ifndef TAUTLINE_READING_GYM_FILE_H
#define TAUTLINE_READING_GYM_FILE_H

#include "base/diag.h"
#include "model/gear.h"

/* Reads the file. Errors are said with file:line:column and their block or key is left out; the rest is used. NULL: the
 * file cannot be read at all. Checks across blocks (a lift's set-up, a pair's partner, two defaults) are made at the
 * end. */
struct gym *gym_read(struct arena *arena, const char *path, struct diags *diags);
struct gym *gym_read_memory(struct arena *arena, const char *path, const char *text, size_t length,
                            struct diags *diags);

struct gym_reader;
struct named_line;

struct named_line gym_here(const struct gym_reader *reader, const char *from,
                           size_t bytes); /* a part of the value being read */

/* At a remembered place; `hint` NULL: the list's. Returns false. */
bool gym_say(struct gym_reader *reader, enum diag_id id, const struct named_line *at, const char *hint,
             const char *format, ...) __attribute__((format(printf, 5, 6)));

/* At a part of the value being read; 0 bytes: all of it from there. Returns false. */
bool gym_bad(struct gym_reader *reader, enum diag_id id, const char *from, size_t bytes, const char *hint,
             const char *format, ...) __attribute__((format(printf, 6, 7)));

#endif
