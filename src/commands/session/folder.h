/* Folders for results. */
#ifndef TAUTLINE_COMMANDS_FOLDER_H
#define TAUTLINE_COMMANDS_FOLDER_H

#include "base/arena.h"

#include <stdbool.h>

/* Makes the folder and its parents where they are missing. False: errno says why; EEXIST: it is a file. */
bool folder_make(struct arena *arena, const char *path);

#endif
