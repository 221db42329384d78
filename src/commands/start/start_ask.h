/* start: questions on standard error, answers from standard input, a line each. Whatever comes, nothing but a value
 * that the reader of gym files takes is kept. */
#ifndef TAUTLINE_COMMANDS_START_ASK_H
#define TAUTLINE_COMMANDS_START_ASK_H

#include "commands/start/start.h"

/* Asks for what has a question and no value, in blocks from `first` on, as long as there are answers. */
void start_ask_blocks(struct start *start, size_t first);

/* One answer that can stand; NULL: none. */
const char *start_ask_text(struct start *start, const char *question);

#endif
