/* An input as its corrections make it: records that have one are replaced while they are read. Lines keep their
 * numbers: what a correction, or a record that is left out, has fewer of is made up with blank lines. Whatever reads
 * the input need not know. */
#ifndef TAUTLINE_READING_CORRECTED_INPUT_H
#define TAUTLINE_READING_CORRECTED_INPUT_H

#include "reading/corrections/corrections.h"
#include "reading/input/input.h"

#include <stdint.h>

struct corrected_input;

/* `raw` is read through it from its start, and stays open meanwhile. */
struct corrected_input *corrected_input_new(struct arena *arena, struct input *raw,
                                            const struct file_corrections *corrections, struct diags *diags);
struct input *corrected_input_text(
    struct corrected_input *corrected); /* NULL: the raw input failed, already reported */
uint32_t corrected_input_count(const struct corrected_input *corrected); /* records replaced or left out so far */
void corrected_input_close(struct corrected_input *corrected);           /* not the raw one */

#endif
