/* start: blocks and lines of the gym file to be, and their text. */
#ifndef TAUTLINE_COMMANDS_START_BLOCKS_H
#define TAUTLINE_COMMANDS_START_BLOCKS_H

#include "commands/start/start.h"

/* Good until the next. */
struct start_block *start_block_add(struct start *start, const char *head, const char *about);
void start_line_add(struct start *start, struct start_block *block, struct start_line line);

/* Can it stand in quotes or behind a = of a gym file, and come back as it is? */
bool start_can_stand(struct arena *arena, const char *text);

/* What the reader of gym files has against the value; NULL: nothing. */
const char *start_fault(struct start *start, const char *head, const char *key, const char *value);

/* The gym file as it stands. Lines and blocks that its reader refuses are put behind semicolons first. */
const char *start_gym_text(struct start *start);
const char *start_log_text(struct start *start);

#endif
