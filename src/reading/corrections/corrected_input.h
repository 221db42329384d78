/* An input with its corrections applied: records that have one are replaced while they are read. Lines keep their
 * numbers: if a correction has fewer lines than its record, or a record is left out, blank lines make up the
 * difference. The code that reads the input need not know. */
#ifndef TAUTLINE_READING_CORRECTED_INPUT_H
#define TAUTLINE_READING_CORRECTED_INPUT_H

#include "reading/corrections/corrections.h"
#include "reading/input/input.h"

#include <stdint.h>

struct corrected_input;

/* `raw` is read through it from its start, and must stay open. */
struct corrected_input *corrected_input_new(struct arena *arena, struct input *raw,
                                            const struct file_corrections *corrections, struct diags *diags);
struct input *corrected_input_text(
    struct corrected_input *corrected); /* NULL: the raw input failed, already reported */
uint32_t corrected_input_count(const struct corrected_input *corrected); /* records replaced or left out so far */
void corrected_input_close(struct corrected_input *corrected);           /* does not close the raw input */

#endif
