/* start: questions on standard error, answers from standard input, one per line. Invariant: only values that the
 * reader of gym files accepts are kept. */
#ifndef TAUTLINE_COMMANDS_START_ASK_H
#define TAUTLINE_COMMANDS_START_ASK_H

#include "commands/start/start.h"

/* Asks for each line that has a question and no value, in blocks from `first` on, until the answers end. */
void start_ask_blocks(struct start *start, size_t first);

/* One answer that is allowed; NULL: none. */
const char *start_ask_text(struct start *start, const char *question);

#endif
