/* start: blocks and lines of the new gym file, and their text. */
#ifndef TAUTLINE_COMMANDS_START_BLOCKS_H
#define TAUTLINE_COMMANDS_START_BLOCKS_H

#include "commands/start/start.h"

/* Valid until the next call. */
struct start_block *start_block_add(struct start *start, const char *head, const char *about);
void start_line_add(struct start *start, struct start_block *block, struct start_line line);

/* Can it be put in quotes, or after the = of a line, and be read back unchanged? */
bool start_can_stand(struct arena *arena, const char *text);

/* Why the reader of gym files rejects the value; NULL: it does not. */
const char *start_fault(struct start *start, const char *head, const char *key, const char *value);

/* The gym file in its current state. Lines and blocks that its reader rejects are commented out first. */
const char *start_gym_text(struct start *start);
const char *start_log_text(struct start *start);

#endif
