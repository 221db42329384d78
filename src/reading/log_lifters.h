/* Whose sets they are: names in the log, patterns in the gym file. */
#ifndef TAUTLINE_READING_LOG_LIFTERS_H
#define TAUTLINE_READING_LOG_LIFTERS_H

#include "reading/log_queue.h"
#include "reading/log_reader.h"

const struct lifter *lifter_by_pattern(struct arena *scratch, const struct gym *gym,
                                       const char *path); /* NULL: none matches */
uint32_t lifter_adopt(struct reading *reading,
                      const char *name); /* a name that another reader of the run has settled on */

/* The lifter where the log names none: whom --as names; else the [lifter] whose log = matches the path; else the only
 * [lifter]; else "". */
const char *lifter_of_log(const struct reading *reading, const char *path);

/* The gym file's spelling of a lifter's name, else the name squeezed; its number in log->lifters. */
uint32_t lifter_number(struct reading *reading, const char *written);

/* Who is not in the gym file is said again where a log names him again: what was said so far did not count. */
void lifters_forget_spellings(struct reading *reading);

#endif
