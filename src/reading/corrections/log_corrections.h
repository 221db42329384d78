/* Finds the corrections for each log of a run. */
#ifndef TAUTLINE_READING_LOG_CORRECTIONS_H
#define TAUTLINE_READING_LOG_CORRECTIONS_H

#include "reading/corrections/corrections.h"
#include "reading/log_reader.h"

#include <stdbool.h>
#include <sys/stat.h>

/* The corrections files found so far: each is read once, as logs are queued. */
struct known_corrections
{
    struct map *by_folder; /* struct folder_corrections */
    LIST(struct corrections *) list;
    bool told_read;  /* --corrections was looked for */
    bool unreadable; /* and it could not be read, already reported */
    bool told_there;
    struct stat told; /* identifies that file */
};

/* Those of --corrections; else of corrections.csv in the log's folder and in the folders above it up to `root`, the
 * folder that was named as a LOG (NULL: the log itself was named). The nearest one takes precedence. NULL: none for
 * this log. */
struct file_corrections *corrections_for_log(struct reading *reading, const char *path, const char *root);
/* Is this a corrections file, and so not a log, wherever it is? */
bool corrections_are_here(struct reading *reading, const struct stat *status);

#endif
