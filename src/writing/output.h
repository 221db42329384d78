/* Where results go: whole or not at all. A named file is written beside itself and renamed on commit; standard output is buffered. */
#ifndef TAUTLINE_WRITING_OUTPUT_H
#define TAUTLINE_WRITING_OUTPUT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct output;

struct output *output_open(struct arena *arena, const char *path); /* NULL or "-": standard output. NULL result: see errno */
struct output *output_to_memory(struct arena *arena);
void output_put(struct output *output, const char *bytes, size_t length);
void output_text(struct output *output, const char *text);
void output_printf(struct output *output, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *output_memory(struct output *output, size_t *length); /* what a memory output holds; NUL-terminated */
bool output_commit(struct output *output);  /* false: not written, errno says why; the old file, if any, stands */
void output_discard(struct output *output); /* nothing is left behind */
bool output_is_terminal(const struct output *output);

#endif
