/* Passes one part of a workbook from its archive through the XML reader. */
#ifndef TAUTLINE_READING_WORKBOOK_PART_READER_H
#define TAUTLINE_READING_WORKBOOK_PART_READER_H

#include "reading/workbook/archive.h"
#include "reading/workbook/xml_reader.h"

#define PART_BYTES ((size_t)32 * 1024) /* read at once: what they expand to is kept in memory */

struct part_reader;

/* NULL: the part cannot be read; see archive_failure(). Its memory is freed by part_close. */
struct part_reader *part_open(struct archive *archive, const char *name, const struct xml_events *events,
                              void *context);
void part_close(struct part_reader *part); /* NULL is allowed */

struct xml_reader *part_xml(struct part_reader *part);
/* Handles some more events. False: the part is at its end, or a failure. */
bool part_step(struct part_reader *part);
/* NULL: nothing went wrong. The message names the part and is owned by the arena. */
const char *part_failure(const struct part_reader *part, struct arena *arena, enum diag_id *id);

/* Reads a whole part at once. False: see *why, in the arena. */
bool part_read(struct arena *arena, struct archive *archive, const char *name, const struct xml_events *events,
               void *context, const char **why, enum diag_id *id);

#endif
