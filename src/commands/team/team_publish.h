/* A lifter's folder put in place file by file: each is made beside the folder, synced with the others and renamed, so that a reader never sees
 * half of one, and what cannot be made leaves the last good night as it was. */
#ifndef TAUTLINE_COMMANDS_TEAM_PUBLISH_H
#define TAUTLINE_COMMANDS_TEAM_PUBLISH_H

#include "commands/team/team.h"

struct folder *folder_begin(struct arena *arena, const char *path);
struct output *folder_output(struct folder *folder, const char *name); /* NULL: failed, kept */
void folder_written(struct folder *folder, struct output *output);
const char *folder_path(const struct folder *folder, const char *name); /* of a file being made */
void folder_add(struct folder *folder, const char *name);               /* made by somebody else, if it is there */

/* Puts all in place, the state last. NULL: done; else why not: what was there stands. */
const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before);
void folder_discard(struct folder *folder);

/* What a killed run was writing there: files; folders beside those of lifters, when no other run is at work. */
void folder_sweep(struct arena *arena, const char *path);
void folders_sweep(struct arena *arena, const char *path);

#endif
