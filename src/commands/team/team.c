#include "commands/team/team.h"

#include "base/parallel.h"
#include "base/text.h"
#include "commands/session/summary.h"
#include "commands/team/gather/team_gather.h"
#include "commands/team/gather/team_summary.h"
#include "commands/team/team_failures.h"
#include "commands/team/team_folders.h"
#include "commands/team/team_logs.h"
#include "commands/team/team_publish.h"
#include "commands/team/team_scope.h"
#include "commands/team/team_state.h"
#include "commands/team/team_workers.h"
#include "writing/escape.h"
#include "writing/gnuplot/render.h"

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#define LIFTER_SECONDS 600u /* unless --time-limit gives another */
#define PICTURE_SECONDS 30.0
#define PICTURE_PART 0.25 /* share of a lifter's time that one picture may take */

struct night
{
    struct team *team;
    bool progress; /* a person is watching on a terminal */
    size_t finished, wanted;
};

/* --- messages ----------------------------------------------------------------------------------------------------- */

/* Quotes text for a line that programs parse and terminals show. */
static const char *quoted(struct arena *arena, const char *text)
{
    struct output *output = output_to_memory(arena);
    escape_json(output, text_visible(arena, text));
    return output_memory(output, NULL);
}

static void say_lifter(struct night *night, const struct team_lifter *lifter)
{
    static const char *const words[WORKS] = {[WORK_UNCHANGED] = "unchanged",
                                             [WORK_DONE] = "done",
                                             [WORK_UNDRAWN] = "undrawn",
                                             [WORK_KEPT] = "kept",
                                             [WORK_FAILED] = "failed"};
    const struct team_state *state = lifter->state;
    struct arena *arena = arena_new();
    if (night->progress) {
        fprintf(stderr, "\r\033[K%zu of %zu: %s", night->finished, night->wanted,
                text_visible(arena, lifter->block->name));
        fprintf(stderr, lifter->work >= WORK_UNDRAWN ? ": %s\n" : "%s",
                lifter->work >= WORK_UNDRAWN ? text_visible(arena, lifter->message) : "");
    } else {
        fprintf(stderr, "tautline: lifter=%s state=%s sets=%zu refused=%zu findings=%zu seconds=%.2f",
                quoted(arena, lifter->block->name), words[lifter->work], state ? state->sets : 0,
                state ? state->refused : 0,
                state
                    ? state->findings[FINDING_NOTE] + state->findings[FINDING_CAUTION] + state->findings[FINDING_FAULT]
                    : 0,
                fmax(lifter->seconds, 0));
        fprintf(stderr, *lifter->message ? " message=%s\n" : "%s\n",
                *lifter->message ? quoted(arena, lifter->message) : "");
    }
    arena_free(arena);
}

/* The message of the job that should have made the folder is more useful than the fact that the folder is missing. */
static void take_failure(const struct team *team, struct team_lifter *lifter)
{
    enum team_work work;
    const char *message = lifter->work == WORK_UNCHANGED ? NULL : team_last_failure(team, lifter, &work);
    if (!message)
        return;
    lifter->work = work;
    lifter->message = message;
}

static void lifter_done(void *context, struct team_lifter *lifter)
{
    struct night *night = context;
    struct team *team = night->team;
    if (lifter->work == WORK_DONE || lifter->work == WORK_UNDRAWN || team->is_part)
        lifter->state = team_state_read(team->arena, team->lifters_folder, lifter->folder);
    if (team->only_looks) {
        take_failure(team, lifter);
        return;
    }
    team_note_failure(team, lifter);
    night->finished++;
    say_lifter(night, lifter);
}

static void say_fresh(struct arena *arena, struct output *output, const struct team_page *page)
{
    for (size_t i = 0; i < page->fresh.count; i++) {
        const struct team_finding *finding = &page->fresh.items[i];
        output_printf(output, "%s, %s, %s: ", text_visible(arena, finding->lifter), text_visible(arena, finding->lift),
                      finding->date);
        output_printf(output, "%s, %s: %s\n", finding->severity, finding->id, text_visible(arena, finding->message));
    }
}

static bool say_summary(const struct team *team, const struct team_page *page)
{
    struct arena *arena = team->arena;
    struct output *output = output_open(arena, NULL);
    const size_t *counts = page->counts;
    output_printf(output,
                  "%zu %s: %zu done, %zu unchanged, %zu kept, %zu failed; %zu %s refused, %zu of them new, %zu new %s; "
                  "see %s/index.html\n",
                  team->count, plural(team->count, "lifter", "lifters"), counts[WORK_DONE] + counts[WORK_UNDRAWN],
                  counts[WORK_UNCHANGED], counts[WORK_KEPT], counts[WORK_FAILED], page->refused,
                  plural(page->refused, "line", "lines"), page->new_refused, page->fresh.count,
                  plural(page->fresh.count, "finding", "findings"), text_visible(arena, team->into));
    for (size_t i = 0; i < page->strangers.count; i++)
        output_printf(output, "no [lifter] block: %s, %zu %s\n",
                      *page->strangers.items[i].name ? text_visible(arena, page->strangers.items[i].name) : "(no name)",
                      page->strangers.items[i].sets, plural(page->strangers.items[i].sets, "set", "sets"));
    for (size_t i = 0; i < page->misplaced.count; i++)
        output_printf(output, "%s\n", text_visible(arena, page->misplaced.items[i]));
    for (size_t i = 0; i < page->left.count; i++)
        output_printf(output, "no longer in the gym file: %s\n", text_visible(arena, page->left.items[i]));
    if (page->clock)
        output_printf(output, "%s\n", page->clock);
    if (team->options->new_findings)
        say_fresh(arena, output, page);
    return output_commit(output);
}

/* --- the night -------------------------------------------------------------------------------------------------------------------- */

static void do_work(struct night *night)
{
    struct team *team = night->team;
    team_find_logs(team);
    for (size_t i = 0; i < team->count; i++)
        night->wanted += team->lifters[i].work == WORK_WANTED;
    team_run_workers(team, team->options->jobs ? team->options->jobs : processors(), lifter_done, night);
    if (!team->is_part)
        folders_sweep(team->lifters_folder); /* what a worker could not remove for want of memory */
    if (night->progress && night->finished)
        fputs("\r\033[K", stderr);
}

static bool any_failed(const struct team *team)
{
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].work >= WORK_UNDRAWN)
            return true;
    return team->gym_errors.count > 0;
}

static bool any_fault(const struct team *team)
{
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].state && team->lifters[i].state->findings[FINDING_FAULT])
            return true;
    return false;
}

/* 0: nothing new; 1: something new to read; 3: something failed. */
static enum exit_status settle(const struct team *team, const struct team_page *page, bool written)
{
    bool fresh = page->fresh.count || page->new_refused || page->new_said || page->left.count ||
                 (team->options->strict && any_fault(team));
    bool failed = !written || any_failed(team) || page->clock || page->news_unknown;
    return failed ? EXIT_UNREADABLE : fresh ? EXIT_REFUSED : EXIT_ALL_READ;
}

static bool is_refused_gym(const struct team *team, const struct gathering *gathering)
{
    size_t left, of;
    if (!gather_is_another_gym(gathering, &left, &of))
        return false;
    fprintf(stderr,
            "tautline: %zu of the %zu lifters of the last night in %s are not in this gym file: nothing was done; if "
            "the file is right, pass --accept all\n",
            left, of, text_visible(team->arena, team->into));
    return true;
}

static enum exit_status run_night(struct team *team)
{
    struct night night = {.team = team, .progress = isatty(STDERR_FILENO)};
    const char *summary = team->options->summary;
    if (!team_lock(team))
        return EXIT_UNREADABLE;
    struct gathering *gathering = gather_begin(team);
    if (is_refused_gym(team, gathering))
        return EXIT_UNREADABLE;
    if (!team->is_part)
        folders_sweep(team->lifters_folder);
    do_work(&night);
    if (team->is_part)
        return any_failed(team) ? EXIT_UNREADABLE : EXIT_ALL_READ;
    bool written = gather_end(gathering);
    const struct team_page *page = gather_page(gathering);
    enum exit_status status = settle(team, page, written);
    bool to_standard = summary && !strcmp(summary, "-");
    bool told = (to_standard || say_summary(team, page)) &&
                (!summary || team_summary_write(team, page, (int)status, summary));
    if (!told)
        fprintf(stderr, "tautline: the summary cannot be written: %s\n", strerror(errno));
    return told ? status : EXIT_UNREADABLE;
}

static const char *wrong_usage(const struct options *options)
{
    if (!options->gym)
        return "team needs --gym FILE, whose [lifter] blocks say where each lifter's logs are";
    if (!options->into && !options->list)
        return "team needs --into DIR, the folder for its output";
    if (options->argument_count)
        return "team takes no LOG: the logs are those of the gym file";
    if ((options->lifter != NULL) + (options->lifters_from != NULL) + (options->parts > 0) > 1)
        return "--lifter, --lifters-from and --part each choose lifters: use one of them";
    if (options->gather && (options->lifter || options->lifters_from || options->parts))
        return "--gather builds from the folders of all lifters: leave --lifter, --lifters-from and --part out";
    return NULL;
}

static void note_gym_error(struct team *team, const struct diags *diags)
{
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        if (diag_severity(diag->id) >= SEVERITY_ERROR)
            *LIST_ADD(team->arena, &team->gym_errors) = arena_printf(
                team->arena, "%s:%u: %s", diag->at.file ? diag->at.file : "", (unsigned)diag->at.line, diag->message);
}

static void begin(struct team *team, struct arena *arena, const struct options *options, const struct session *session)
{
    *team = (struct team){.arena = arena,
                          .options = options,
                          .gym = session->gym,
                          .into = options->into,
                          .root = -1,
                          .lifters_folder = -1};
    team->today = options->today == NO_DAY ? date_today() : options->today;
    team->lifter_seconds = options->time_limit ? options->time_limit : LIFTER_SECONDS;
    team->picture_seconds = fmin(PICTURE_SECONDS, team->lifter_seconds * PICTURE_PART);
    team->has_gnuplot = render_find_gnuplot(arena) != NULL;
    team->gnuplot_hangs = mmap(NULL, sizeof *team->gnuplot_hangs, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS,
                               -1, 0);
    if (team->gnuplot_hangs == MAP_FAILED)
        arena_out_of_memory(sizeof *team->gnuplot_hangs);
    team->only_looks = options->gather;
    team->count = session->gym->lifter_count;
    team->lifters = ARENA_ARRAY(arena, struct team_lifter, team->count + 1);
    for (size_t i = 0; i < team->count; i++)
        team->lifters[i] = (struct team_lifter){.block = &session->gym->lifters[i], .message = ""};
    note_gym_error(team, session->diags);
}

enum exit_status run_team(struct arena *arena, const struct options *options)
{
    const char *message = wrong_usage(options);
    if (message)
        return usage_error("team", message);
    struct session session;
    struct team team;
    if (!session_open_gym(&session, arena, options))
        return session_close(&session);
    signal(SIGXFSZ, SIG_IGN); /* a limit on files is a full disk: said, not died of */
    team_state_prepare();
    begin(&team, arena, options, &session);
    message = team_choose(&team);
    if (message)
        return usage_error("team", message);
    if (options->list)
        return team_list(&team) ? EXIT_ALL_READ : EXIT_UNREADABLE;
    session_close(&session);
    if (!team_open_folders(&team))
        return EXIT_UNREADABLE;
    team_name_folders(&team);
    return run_night(&team);
}
