/* Which lifter sets belong to: names in the log, patterns in the gym file. */
#ifndef TAUTLINE_READING_LOG_LIFTERS_H
#define TAUTLINE_READING_LOG_LIFTERS_H

#include "reading/log_queue.h"
#include "reading/log_reader.h"

const struct lifter *lifter_by_pattern(struct arena *scratch, const struct gym *gym,
                                       const char *path); /* NULL: none matches */
uint32_t lifter_adopt(struct reading *reading,
                      const char *name); /* a name that another reader of the run has settled on */

/* The lifter of a log that does not name any: the one named by --as; else the [lifter] whose log = matches the path;
 * else the only [lifter]; else "". */
const char *lifter_of_log(const struct reading *reading, const char *path);

/* The number in log->lifters of the gym file's spelling of a lifter's name, else of the squeezed name. */
uint32_t lifter_number(struct reading *reading, const char *written);

/* Makes lifters who are not in the gym file be reported again: earlier reports were discarded. */
void lifters_forget_spellings(struct reading *reading);

#endif
