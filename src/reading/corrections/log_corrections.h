/* Which corrections hold for which log of a run. */
#ifndef TAUTLINE_READING_LOG_CORRECTIONS_H
#define TAUTLINE_READING_LOG_CORRECTIONS_H

#include "reading/corrections/corrections.h"
#include "reading/log_reader.h"

#include <stdbool.h>
#include <sys/stat.h>

/* What is known of corrections so far: read once each, as logs are queued. */
struct known_corrections
{
    struct map *by_folder; /* struct folder_corrections */
    LIST(struct corrections *) list;
    bool told_read;  /* --corrections was looked for */
    bool unreadable; /* and could not be read, already reported */
    bool told_there;
    struct stat told; /* which file it is */
};

/* Those of --corrections, else of corrections.csv in the log's folder and in those above it up to `root`, the folder
 * that was named as a LOG (NULL: the log itself was). The nearest counts. NULL: none speak of this log. */
struct file_corrections *corrections_for_log(struct reading *reading, const char *path, const char *root);
/* Is this file one of corrections, and so no log, wherever it lies? */
bool corrections_are_here(struct reading *reading, const struct stat *status);

#endif
