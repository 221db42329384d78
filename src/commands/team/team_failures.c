#include "commands/team/team_failures.h"

#include "commands/team/team_below.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define MESSAGE_BYTES 1100

static const char kept[] = "kept\n", undrawn[] = "undrawn\n", failed[] = "failed\n";

static const char *file_name(const struct team *team, const struct team_lifter *lifter)
{
    return arena_printf(team->arena, ".%s.failed", lifter->folder);
}

/* If it cannot be written, standard error and the exit status have already reported the failure. */
void team_note_failure(const struct team *team, const struct team_lifter *lifter)
{
    const char *name = file_name(team, lifter);
    bool is_failure = lifter->work >= WORK_UNDRAWN;
    struct output *output = is_failure ? output_open_in(team->arena, team->lifters_folder, name) : NULL;
    if (!output) {
        unlinkat(team->lifters_folder, name, 0);
        return;
    }
    output_text(output, lifter->work == WORK_KEPT ? kept : lifter->work == WORK_UNDRAWN ? undrawn : failed);
    output_text(output, lifter->message);
    output_commit(output);
}

const char *team_last_failure(const struct team *team, const struct team_lifter *lifter, enum team_work *work)
{
    static const struct
    {
        const char *word;
        enum team_work work;
    } kinds[] = {{kept, WORK_KEPT}, {undrawn, WORK_UNDRAWN}, {failed, WORK_FAILED}};
    char text[MESSAGE_BYTES + 1];
    int file = below_file(team->lifters_folder, file_name(team, lifter));
    ssize_t got = file < 0 ? -1 : read(file, text, MESSAGE_BYTES);
    if (file >= 0)
        close(file);
    if (got < 0)
        return NULL;
    text[got] = 0;
    const char *message = text;
    *work = WORK_FAILED;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        size_t length = strlen(kinds[i].word);
        if (strncmp(text, kinds[i].word, length) != 0)
            continue;
        *work = kinds[i].work;
        message = text + length;
    }
    return arena_copy(team->arena, message);
}
