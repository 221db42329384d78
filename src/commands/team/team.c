#include "commands/team/team.h"

#include "base/parallel.h"
#include "base/text.h"
#include "commands/session/folder.h"
#include "commands/session/summary.h"
#include "writing/escape.h"
#include "writing/gnuplot/render.h"
#include "commands/team/team_gather.h"
#include "commands/team/team_inputs.h"
#include "commands/team/team_logs.h"
#include "commands/team/team_publish.h"
#include "commands/team/team_state.h"
#include "commands/team/team_store.h"
#include "commands/team/team_workers.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define LIFTER_SECONDS 600u /* unless --time-limit says another */
#define MESSAGE_BYTES 1024
#define PICTURE_SECONDS 30.0
#define PICTURE_PART 0.25 /* of a lifter's time that one picture may take */

struct night
{
    struct team *team;
    struct gathering *gathering; /* NULL: one lifter's folder alone */
    bool progress;               /* a terminal waits */
    size_t finished, wanted;
};

/* --- folders and locks ---------------------------------------------------------------------------------------------------- */

static bool cannot(struct arena *arena, const char *path, const char *what)
{
    fprintf(stderr, "tautline: %s %s: %s\n", text_visible(arena, path), what, strerror(errno));
    return false;
}

static bool make_folder(struct arena *arena, const char *path)
{
    return folder_make(arena, path) || cannot(arena, path, "cannot be made");
}

/* The kernel lets go of it when the last process of the run is gone, however that ends. The file stays and means nothing. */
static bool lock(struct arena *arena, const struct options *options, const char *path, int kind)
{
    int file = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (file < 0)
        return cannot(arena, path, "cannot be made");
    while (flock(file, kind | (options->wait ? 0 : LOCK_NB))) {
        if (errno == EINTR)
            continue;
        if (errno != EWOULDBLOCK)
            return cannot(arena, path, "cannot be locked");
        fprintf(stderr, "tautline: another run is at work in %s; --wait waits for it\n", text_visible(arena, options->into));
        return false;
    }
    return true;
}

/* Runs for one lifter each go side by side; a run over all of them, or one that gathers, goes alone. */
static bool lock_all(const struct team *team, const struct team_lifter *only)
{
    struct arena *arena = team->arena;
    if (!lock(arena, team->options, arena_printf(arena, "%s/.lock", team->into), only ? LOCK_SH : LOCK_EX))
        return false;
    return !only || lock(arena, team->options, arena_printf(arena, "%s/lifters/.%s.lock", team->into, only->folder), LOCK_EX);
}

/* --- the team ---------------------------------------------------------------------------------------------------------------- */

/* Unique whatever the file system thinks of case; the same every night as long as the blocks stand in the same order. */
static const char *folder_name(struct arena *arena, struct names *used, const char *name)
{
    const char *safe = escape_file_name(arena, name), *folder = safe;
    uint32_t number;
    for (unsigned i = 2;; i++) {
        const char *folded = text_fold(arena, folder);
        if (!names_find(used, folded, strlen(folded), &number)) {
            names_add(used, folded, strlen(folded));
            return folder;
        }
        folder = arena_printf(arena, "%s-%u", safe, i);
    }
}

static void fill_team(struct team *team)
{
    struct names *used = names_new(team->arena);
    team->count = team->gym->lifter_count;
    team->lifters = ARENA_ARRAY(team->arena, struct team_lifter, team->count + 1);
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        lifter->block = &team->gym->lifters[i];
        lifter->message = "";
        lifter->folder = folder_name(team->arena, used, lifter->block->name);
        lifter->path = arena_printf(team->arena, "%s/lifters/%s", team->into, lifter->folder);
    }
}

static bool outputs_stand(const struct team_lifter *lifter, struct arena *scratch)
{
    for (size_t i = 0; i < lifter->state->outputs.count; i++) {
        struct stat status;
        const char *path = arena_printf(scratch, "%s/%s", lifter->path, lifter->state->outputs.items[i].name);
        if (stat(path, &status) || status.st_size != lifter->state->outputs.items[i].bytes)
            return false;
    }
    return true;
}

static bool is_current(const struct team *team, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    return state && *state->key && !strcmp(state->key, team_key(team, lifter, state)) && outputs_stand(lifter, team->arena);
}

/* --- failures, kept for a later --gather ------------------------------------------------------------------------------------- */

static const char *failure_path(const struct team *team, const struct team_lifter *lifter)
{
    return arena_printf(team->arena, "%s/lifters/.%s.failed", team->into, lifter->folder);
}

/* Where it cannot be written, standard error and the exit status have told. */
static void note_failure(const struct team *team, const struct team_lifter *lifter)
{
    const char *path = failure_path(team, lifter);
    struct output *output = lifter->work == WORK_FAILED ? output_open(team->arena, path) : NULL;
    if (!output) {
        unlink(path);
        return;
    }
    output_text(output, lifter->message);
    output_commit(output);
}

/* NULL: the last run for this lifter did not fail. */
static const char *last_failure(const struct team *team, const struct team_lifter *lifter)
{
    char text[MESSAGE_BYTES];
    FILE *file = fopen(failure_path(team, lifter), "re");
    if (!file)
        return NULL;
    size_t length = fread(text, 1, sizeof text, file);
    fclose(file);
    return arena_text(team->arena, text, length);
}

/* --- what is said ---------------------------------------------------------------------------------------------------------------- */

/* For a line that programs read and terminals show. */
static const char *quoted(struct arena *arena, const char *text)
{
    struct output *output = output_to_memory(arena);
    escape_json(output, text_visible(arena, text));
    return output_memory(output, NULL);
}

static void say_lifter(struct night *night, const struct team_lifter *lifter)
{
    static const char *const words[] = {"unchanged", "wanted", "done", "failed"};
    const struct team_state *state = lifter->state;
    struct arena *arena = night->team->arena;
    if (night->progress) {
        fprintf(stderr, "\r\033[K%zu of %zu: %s", night->finished, night->wanted, text_visible(arena, lifter->block->name));
        return;
    }
    fprintf(stderr, "tautline: lifter=%s state=%s sets=%zu refused=%zu findings=%zu seconds=%.2f", quoted(arena, lifter->block->name),
            words[lifter->work], state ? state->sets : 0, state ? state->refused : 0,
            state ? state->findings[FINDING_NOTE] + state->findings[FINDING_CAUTION] + state->findings[FINDING_FAULT] : 0,
            fmax(lifter->seconds, 0));
    fprintf(stderr, *lifter->message ? " message=%s\n" : "%s\n", *lifter->message ? quoted(arena, lifter->message) : "");
}

static void lifter_done(void *context, struct team_lifter *lifter)
{
    struct night *night = context;
    lifter->state = team_state_read(night->team->arena, lifter->path);
    note_failure(night->team, lifter);
    night->finished++;
    say_lifter(night, lifter);
    if (night->progress && lifter->work == WORK_FAILED)
        fprintf(stderr, ": %s\n", text_visible(night->team->arena, lifter->message));
    if (night->gathering)
        gather_lifter(night->gathering, lifter);
}

static void say_fresh(struct arena *arena, struct output *output, const struct team_page *page)
{
    for (size_t i = 0; i < page->fresh.count; i++) {
        const struct team_finding *finding = &page->fresh.items[i];
        output_printf(output, "%s, %s, %s: ", text_visible(arena, finding->lifter), text_visible(arena, finding->lift), finding->date);
        output_printf(output, "%s, %s: %s\n", finding->severity, finding->id, text_visible(arena, finding->message));
    }
}

static bool say_summary(const struct team *team, const struct team_page *page)
{
    struct arena *arena = team->arena;
    struct output *output = output_open(arena, NULL);
    size_t counts[WORK_FAILED + 1] = {0};
    for (size_t i = 0; i < team->count; i++)
        counts[team->lifters[i].work]++;
    output_printf(output, "%zu %s: %zu done, %zu unchanged, %zu failed; %zu %s refused, %zu new %s; see %s/index.html\n", team->count,
                  plural(team->count, "lifter", "lifters"), counts[WORK_DONE], counts[WORK_UNCHANGED], counts[WORK_FAILED], page->refused,
                  plural(page->refused, "line", "lines"), page->fresh.count, plural(page->fresh.count, "finding", "findings"),
                  text_visible(arena, team->into));
    for (size_t i = 0; i < page->strangers.count; i++)
        output_printf(output, "no [lifter] block: %s, %zu %s\n", *page->strangers.items[i].name ? text_visible(arena, page->strangers.items[i].name) : "(no name)",
                      page->strangers.items[i].sets, plural(page->strangers.items[i].sets, "set", "sets"));
    for (size_t i = 0; i < page->misplaced.count; i++)
        output_printf(output, "%s\n", text_visible(arena, page->misplaced.items[i]));
    if (team->options->new_findings)
        say_fresh(arena, output, page);
    return output_commit(output);
}

/* --- the night -------------------------------------------------------------------------------------------------------------------- */

static void choose_work(struct night *night, const struct team_lifter *only)
{
    struct team *team = night->team;
    team_find_logs(team);
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        if (only && lifter != only)
            continue;
        folder_sweep(team->arena, lifter->path);
        lifter->state = team_state_read(team->arena, lifter->path);
        if (!is_current(team, lifter)) {
            lifter->work = WORK_WANTED;
            night->wanted++;
            continue;
        }
        note_failure(team, lifter);
        if (!night->progress)
            say_lifter(night, lifter);
    }
}

static void do_work(struct night *night, const struct team_lifter *only)
{
    struct team *team = night->team;
    choose_work(night, only);
    team_run_workers(team, team->options->jobs ? team->options->jobs : processors(), lifter_done, night);
    if (night->progress && night->finished)
        fputs("\r\033[K", stderr);
}

/* A folder that no job made is a lifter who is missing; one whose job failed is that of a night before. */
static void take_folders(struct team *team)
{
    team_find_logs(team);
    for (size_t i = 0; i < team->count; i++) {
        struct team_lifter *lifter = &team->lifters[i];
        lifter->state = team_state_read(team->arena, lifter->path);
        const char *failure = last_failure(team, lifter);
        bool made = lifter->state && *lifter->state->results;
        lifter->work = made && !failure ? WORK_UNCHANGED : WORK_FAILED;
        lifter->message = failure ? failure : made ? lifter->state->note : "no run made this lifter's folder";
    }
}

static enum exit_status settle(const struct team *team, const struct team_page *page, bool written)
{
    bool failed = !written, refused = page && (page->refused || page->strangers.count || page->misplaced.count);
    for (size_t i = 0; i < team->count; i++) {
        const struct team_lifter *lifter = &team->lifters[i];
        failed |= lifter->work == WORK_FAILED;
        refused |= lifter->state && (lifter->state->refused || (team->options->strict && lifter->state->findings[FINDING_FAULT]));
    }
    return failed ? EXIT_UNREADABLE : refused ? EXIT_REFUSED : EXIT_ALL_READ;
}

static enum exit_status run_night(struct team *team, const struct team_lifter *only)
{
    struct night night = {.team = team, .progress = isatty(STDERR_FILENO)};
    if (!lock_all(team, only))
        return EXIT_UNREADABLE;
    if (only) {
        do_work(&night, only);
        return settle(team, NULL, true);
    }
    folders_sweep(team->arena, arena_printf(team->arena, "%s/lifters", team->into));
    night.gathering = gather_begin(team);
    if (team->options->gather)
        take_folders(team);
    else
        do_work(&night, NULL);
    bool written = gather_end(night.gathering);
    const struct team_page *page = gather_page(night.gathering);
    written &= say_summary(team, page);
    return settle(team, page, written);
}

static const char *wrong_usage(const struct options *options)
{
    if (!options->gym)
        return "team wants --gym FILE, whose [lifter] blocks say whose logs are where";
    if (!options->into)
        return "team wants --into DIR, the folder for all that it writes";
    if (options->argument_count)
        return "team takes no LOG: the logs are those of the gym file";
    if (options->gather && options->lifter)
        return "--gather builds from the folders of all lifters: leave --lifter out";
    return NULL;
}

enum exit_status run_team(struct arena *arena, const struct options *options)
{
    const char *message = wrong_usage(options);
    if (message)
        return usage_error("team", message);
    struct session session;
    if (!session_open_gym(&session, arena, options))
        return session_close(&session);
    struct team team = {.arena = arena, .options = options, .gym = session.gym, .into = options->into};
    team.today = options->today == NO_DAY ? date_today() : options->today;
    team.lifter_seconds = options->time_limit ? options->time_limit : LIFTER_SECONDS;
    team.picture_seconds = fmin(PICTURE_SECONDS, team.lifter_seconds * PICTURE_PART);
    team.has_gnuplot = render_find_gnuplot(arena) != NULL;
    signal(SIGXFSZ, SIG_IGN); /* a limit on files is a full disk: said, not died of */
    fill_team(&team);
    const struct lifter *block = options->lifter ? gym_lifter(session.gym, options->lifter) : NULL;
    const struct team_lifter *only = NULL;
    for (size_t i = 0; i < team.count; i++)
        only = team.lifters[i].block == block ? &team.lifters[i] : only;
    if (!team.count || (options->lifter && !only))
        return usage_error("team", options->lifter ? "the gym file has no [lifter] of that name" : "the gym file has no [lifter]");
    enum exit_status gym_status = session_close(&session);
    if (!make_folder(arena, arena_printf(arena, "%s/lifters", options->into)))
        return EXIT_UNREADABLE;
    enum exit_status status = run_night(&team, only);
    return status > gym_status ? status : gym_status;
}
