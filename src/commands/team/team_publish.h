/* A lifter's folder put in place file by file: each is made beside the folder, synced with the others and renamed, so
 * that a reader never sees half of one, and what cannot be made leaves the last good night as it was. */
#ifndef TAUTLINE_COMMANDS_TEAM_PUBLISH_H
#define TAUTLINE_COMMANDS_TEAM_PUBLISH_H

#include "commands/team/team.h"

struct folder *folder_begin(struct arena *arena, int lifters, const char *name);
struct output *folder_output(struct folder *folder, const char *name); /* NULL: failed, kept */
void folder_written(struct folder *folder, struct output *output);
struct output *folder_scratch(struct folder *folder,
                              const char *name); /* for a file that is not to be published; NULL: errno */
void folder_digest(struct folder *folder, const char *name, struct digester *to); /* of a file that is written */
const char *folder_path(const struct folder *folder,
                        const char *name);                /* of a file being made, for other programs and libraries */
bool folder_add(struct folder *folder, const char *name); /* made by somebody else; false: it is not there, or empty */
/* Takes over the picture that stands, where it was drawn from the script that has just been written anew. */
bool folder_reuse(struct folder *folder, const struct team_state *before, const char *script, const char *picture);
bool folder_may_hold(const char *name); /* so that nothing beyond the folder is meant */

/* Puts all in place, the state last. NULL: done; else why not: what was there stands. */
const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before);
void folder_discard(struct folder *folder);

/* What a killed run was writing there: files; folders beside those of lifters, when no other run is at work. */
void folder_sweep(int folder);
void folders_sweep(int lifters);

#endif
