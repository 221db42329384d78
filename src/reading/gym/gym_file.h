/* The gym file: INI, through inih, into struct gym. Its manual is tautline-gym(5). */
#ifndef TAUTLINE_READING_GYM_FILE_H
#define TAUTLINE_READING_GYM_FILE_H

#include "base/diag.h"
#include "model/gear.h"

/* Reads the file. Errors are reported with file:line:column and their block or key is left out; the rest is used.
 * NULL: the file cannot be read at all. Checks across blocks (a lift's set-up, a pair's partner, two defaults) come
 * at the end. */
struct gym *gym_read(struct arena *arena, const char *path, struct diags *diags);
struct gym *gym_read_memory(struct arena *arena, const char *path, const char *text, size_t length,
                            struct diags *diags);

struct gym_reader;
struct named_line;

struct named_line gym_here(const struct gym_reader *reader, const char *from,
                           size_t bytes); /* a part of the value being read */

/* At a remembered place; `hint` NULL: the usual one. Returns false. */
bool gym_say(struct gym_reader *reader, enum diag_id id, const struct named_line *at, const char *hint,
             const char *format, ...) __attribute__((format(printf, 5, 6)));

/* At a part of the value being read; 0 bytes: everything from there on. Returns false. */
bool gym_bad(struct gym_reader *reader, enum diag_id id, const char *from, size_t bytes, const char *hint,
             const char *format, ...) __attribute__((format(printf, 6, 7)));

#endif
