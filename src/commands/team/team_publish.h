/* Puts a lifter's folder in place file by file. Each file is made next to the folder, synced with the others and
 * renamed, so that a reader never sees half a file, and a failure leaves the last good night as it was. */
#ifndef TAUTLINE_COMMANDS_TEAM_PUBLISH_H
#define TAUTLINE_COMMANDS_TEAM_PUBLISH_H

#include "commands/team/team.h"

struct folder *folder_begin(struct arena *arena, int lifters, const char *name);
struct output *folder_output(struct folder *folder, const char *name); /* NULL: failed; the fault is kept */
void folder_written(struct folder *folder, struct output *output);
struct output *folder_scratch(struct folder *folder,
                              const char *name); /* for a file that is not published; NULL: see errno */
void folder_digest(struct folder *folder, const char *name, struct digester *to); /* of a finished file */
const char *folder_path(const struct folder *folder,
                        const char *name); /* path of a file that is being made, for other programs and libraries */
bool folder_add(struct folder *folder, const char *name); /* made by another program; false: it is missing or empty */
/* Takes over the existing picture if it was drawn from a script identical to the one just written. */
bool folder_reuse(struct folder *folder, const struct team_state *before, const char *script, const char *picture);
bool folder_may_hold(const char *name); /* true if the name cannot lead out of the folder */

/* Puts everything in place, the state last. NULL: done; else the reason why not, and the old files are kept. */
const char *folder_publish(struct folder *folder, struct team_state *state, const struct team_state *before);
void folder_discard(struct folder *folder);

/* Removes what a killed run left there: unfinished files, and unfinished folders of lifters while no other run is at
 * work. */
void folder_sweep(int folder);
void folders_sweep(int lifters);

#endif
