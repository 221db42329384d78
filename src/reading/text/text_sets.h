/* Makes sets from a line of work. */
#ifndef TAUTLINE_READING_TEXT_SETS_H
#define TAUTLINE_READING_TEXT_SETS_H

#include "reading/text/text_log.h"

bool text_add_sets(struct text_log *log, struct text_work *work);

#endif
