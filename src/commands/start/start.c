#include "commands/start/start.h"

#include "base/text.h"
#include "commands/command.h"
#include "commands/completion/completion.h"
#include "commands/session/folder.h"
#include "commands/session/summary.h"
#include "commands/start/start_ask.h"
#include "commands/start/start_blocks.h"
#include "commands/start/start_columns.h"
#include "commands/start/start_gear.h"
#include "commands/start/start_lifters.h"
#include "reading/gym/gym_file.h"
#include "reading/log_reader.h"
#include "reading/same_history.h"
#include "writing/output.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* --- what is there ------------------------------------------------------------------------------------------------------ */

static bool is_there(const char *path)
{
    struct stat status;
    return lstat(path, &status) == 0; /* true for a dangling link, too: someone made it */
}

static void begin(struct start *start, struct arena *arena, const struct options *options)
{
    *start = (struct start){.arena = arena,
                            .options = options,
                            .folder = options->arguments[0],
                            .log = log_new(arena),
                            .lifter = options->lifter};
    start->gym_path = text_path(arena, start->folder, "gym.ini");
    start->log_path = text_path(arena, start->folder, "log.txt");
    start->gym_there = is_there(start->gym_path);
    start->log_there = is_there(start->log_path);
    start->asking = options->ask || isatty(STDIN_FILENO);
}

static void put_stderr(void *context, const char *text)
{
    (void)context;
    fputs(text, stderr);
}

/* What prevents an input from being used at all, and what is wrong with an existing gym file. Everything else is left
 * to check. */
static void print_failures(const struct start *start)
{
    struct diags *failures = diags_new(start->arena);
    for (const struct diag *diag = diags_first(start->diags); diag; diag = diag->next) {
        bool of_gym = start->gym_there && diag->at.file && !strcmp(diag->at.file, start->gym_path);
        if (diag_severity(diag->id) == SEVERITY_FAILURE || (of_gym && diag_severity(diag->id) == SEVERITY_ERROR))
            diag_add(failures, diag->id, diag->at, diag->excerpt, diag->hint, "%s", diag->message);
    }
    diags_print(failures, put_stderr, NULL, wants_colour(isatty(STDERR_FILENO)));
}

/* --- options --------------------------------------------------------------------------------------------------------------- */

/* Gives the line with that key its value. False: the value is not allowed, reported as wrong usage. */
static bool take_option(struct start *start, const char *option, const char *value)
{
    struct start_block *block = &start->blocks.items[0];
    if (!value)
        return true;
    const char *fault = start_fault(start, block->head, option, value);
    if (fault) {
        usage_error("start",
                    text_visible(start->arena, arena_printf(start->arena, "--%s '%s': %s", option, value, fault)));
        return false;
    }
    for (size_t i = 0; i < block->lines.count; i++)
        if (!strcmp(block->lines.items[i].key, option))
            block->lines.items[i].value = value;
    return true;
}

static bool take_options(struct start *start)
{
    static const char *const orders[] = {[DATES_ISO] = "iso", [DATES_DMY] = "dmy", [DATES_MDY] = "mdy"};
    const struct options *options = start->options;
    if (options->lifter && !start_can_stand(start->arena, options->lifter)) {
        usage_error("start", "--lifter: a name without \" and ;, of at most 140 bytes");
        return false;
    }
    return take_option(start, "unit", options->unit_said ? mass_unit_name(options->unit) : NULL) &&
           take_option(start, "bar", options->bar) && take_option(start, "plates", options->plates) &&
           take_option(start, "dates", orders[options->dates]);
}

/* --- exports --------------------------------------------------------------------------------------------------------------- */

static bool was_said(const struct start *start, enum diag_id id)
{
    for (const struct diag *diag = diags_first(start->diags); diag; diag = diag->next)
        if (diag->id == id)
            return true;
    return false;
}

static void read_known(struct start *start)
{
    const char *text = start->gym_there ? NULL : start_gym_text(start);
    struct gym *gym = text ? gym_read_memory(start->arena, start->gym_path, text, strlen(text), start->diags)
                           : gym_read(start->arena, start->gym_path, start->diags);
    start->unreadable |= !gym;
    start->known = gym ? gym : gym_new(start->arena);
}

static void count_lifters(struct start *start)
{
    start->sets_of = ARENA_ARRAY(start->arena, size_t, names_count(start->log->lifters));
    start->lifters = 0;
    for (size_t i = 0; i < start->log->sets.count; i++)
        start->lifters += !start->sets_of[start->log->sets.items[i].lifter]++;
}

static void read_exports(struct start *start)
{
    start->diags = diags_new(start->arena);
    read_known(start);
    struct reading_options reading_options = {.unit_said = start->options->unit_said,
                                              .unit = start->options->unit,
                                              .dates = start->options->dates,
                                              .as = start->lifter};
    struct reading *reading = reading_new(start->arena, start->known, start->diags, &reading_options);
    for (size_t i = 1; i < start->options->argument_count; i++)
        start->unreadable |= !read_log(reading, start->options->arguments[i]);
    reading_finish(reading);
    start->log = reading->log;
    reading_free(reading);
    count_lifters(start);
    start->not_understood = diags_total(start->diags, SEVERITY_FAILURE) > 0;
}

/* What prevents an export from being read may be settled by questions; else a line in the gym file is left to fill
 * in. */
static void settle_exports(struct start *start)
{
    bool not_understood = was_said(start, DIAG_MISSING_COLUMN) || was_said(start, DIAG_NOT_A_LOG);
    if (start_columns_block(start, not_understood) && start->asking) {
        start_ask_blocks(start, start->blocks.count - 1);
        read_exports(start);
    }
    if (was_said(start, DIAG_UNSETTLED_DATES) && start->asking) {
        struct start_block *gym = &start->blocks.items[0];
        gym->lines.items[gym->lines.count - 1].question =
            "Dates like 03/04/2026 in the export: day first, dmy, or month first, mdy";
        start_ask_blocks(start, 0);
        read_exports(start);
    }
}

static bool names_nobody(const struct start *start)
{
    for (size_t i = 0; i < names_count(start->log->lifters); i++)
        if (start->sets_of[i] && *names_text(start->log->lifters, (uint32_t)i))
            return false;
    return true;
}

/* --- what is written ---------------------------------------------------------------------------------------------------- */

static enum exit_status unwritten(const struct start *start, const char *path)
{
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(start->arena, path), strerror(errno));
    return EXIT_UNREADABLE;
}

static bool write_file(const struct start *start, const char *path, const char *text)
{
    struct output *output = output_open_new(start->arena, path);
    if (!output)
        return false;
    output_text(output, text);
    return output_commit(output);
}

/* Invariant: both files are written or neither, and no new folder is left behind if that fails. */
static enum exit_status write_files(struct start *start)
{
    bool folder_there = is_there(start->folder), log_new = !start->log_there;
    const char *gym = start_gym_text(start), *fault = start->folder;
    if (folder_make(start->arena, start->folder)) {
        fault = start->log_path;
        if (!log_new || write_file(start, start->log_path, start_log_text(start))) {
            fault = start->gym_path;
            if (write_file(start, start->gym_path, gym))
                return EXIT_ALL_READ;
            int error = errno;
            if (log_new)
                unlink(start->log_path);
            errno = error;
        }
    }
    int error = errno;
    if (!folder_there)
        rmdir(start->folder);
    errno = error;
    return unwritten(start, fault);
}

/* --- messages ----------------------------------------------------------------------------------------------------- */

/* A path as one would type it in a shell. */
static const char *typed(struct arena *arena, const char *path)
{
    path = text_visible(arena, path);
    return path[strspn(path, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./-")]
               ? shell_quoted(arena, path)
               : path;
}

static size_t blanks(const struct start *start)
{
    size_t count = 0;
    for (size_t i = 0; i < start->blocks.count; i++)
        for (size_t j = 0; j < start->blocks.items[i].lines.count; j++)
            count += start->blocks.items[i].head && !start->blocks.items[i].lines.items[j].value;
    return count;
}

/* The arguments that a command needs: none but the gym file if it names the lifters' logs, else the logs named here. */
static const char *logs_to_read(const struct start *start)
{
    const char *words = arena_printf(start->arena, "--gym %s", typed(start->arena, start->gym_path));
    bool lifter = start->lifter || !names_nobody(start);
    if (!lifter && start->options->argument_count < 2)
        words = arena_printf(start->arena, "%s %s", words, typed(start->arena, start->log_path));
    for (size_t i = 1; !lifter && i < start->options->argument_count; i++)
        words = arena_printf(start->arena, "%s %s", words, typed(start->arena, start->options->arguments[i]));
    return words;
}

static void put_seen(const struct start *start, struct output *output)
{
    const struct log *log = start->log;
    size_t lifters = start->lifters, lifts = names_count(log->lifts);
    if (log->sets.count)
        output_printf(output, "Found %zu %s of %zu %s by %zu %s.\n", log->sets.count,
                      plural(log->sets.count, "set", "sets"), lifts, plural(lifts, "lift", "lifts"), lifters,
                      plural(lifters, "lifter", "lifters"));
    size_t refused = diags_total(start->diags, SEVERITY_ERROR);
    if (refused)
        output_printf(output, "%zu %s refused: 'tautline check' says which and why.\n", refused,
                      plural(refused, "line was", "lines were"));
}

static bool has_columns(const struct start *start)
{
    for (size_t i = 0; i < start->blocks.count; i++)
        if (start->blocks.items[i].head && !strcmp(start->blocks.items[i].head, "[columns]"))
            return true;
    return false;
}

static void put_next(const struct start *start, struct output *output)
{
    struct arena *arena = start->arena;
    const char *words = logs_to_read(start);
    output_printf(output, "\nNext:\n  1. Fill in the %zu %s (___) in %s, which says how to measure each.\n",
                  blanks(start), plural(blanks(start), "blank", "blanks"), typed(arena, start->gym_path));
    if (start->not_understood || has_columns(start))
        output_printf(output, "     %s; then see what else the export holds:\n       tautline start %s LOG\n",
                      start->not_understood ? "An export was not understood: fill in [columns] or dates first"
                                            : "Some headers of an export were not recognised: look at [columns] first",
                      typed(arena, start->folder));
    output_printf(output, "  2. See what is understood:  tautline check %s\n", words);
    output_printf(output, "  3. Read the report:         tautline report %s\n", words);
    output_printf(output, "  4. Log what you train in %s; its first lines show how.\n", typed(arena, start->log_path));
}

#define CAUTIONS_WIDTH 86

static void put_cautions(struct arena *arena, struct output *output)
{
    output_text(output, "\nSafety\n");
    paragraph_print(arena, output, words_to_mind, 2, CAUTIONS_WIDTH);
}

/* An existing gym file is not changed: the blocks that it lacks are shown, to be added by hand. */
static void put_lacking(struct start *start, struct output *output)
{
    struct arena *arena = start->arena;
    output_printf(output, "%s already exists and is left as it is.\n", text_visible(arena, start->gym_path));
    put_seen(start, output);
    if (start->blocks.count)
        output_printf(output, "Add these blocks to it and fill in the blanks (___):\n\n%s", start_gym_text(start));
    else if (start->log->sets.count)
        output_text(output, "It already describes everything that these logs name.\n");
}

static enum exit_status tell(struct start *start, bool wrote)
{
    struct output *output = output_open(start->arena, NULL);
    if (wrote) {
        put_seen(start, output);
        output_printf(output, "Wrote %s%s%s.\n", text_visible(start->arena, start->gym_path),
                      start->log_there ? "" : " and ",
                      start->log_there ? "" : text_visible(start->arena, start->log_path));
        if (start->log_there)
            output_printf(output, "%s already existed and is left as it is.\n",
                          text_visible(start->arena, start->log_path));
        put_next(start, output);
    } else {
        put_lacking(start, output);
    }
    put_cautions(start->arena, output);
    if (!output_commit(output))
        return unwritten(start, "standard output");
    return start->not_understood || diags_total(start->diags, SEVERITY_ERROR) ? EXIT_REFUSED : EXIT_ALL_READ;
}

/* --- the command ------------------------------------------------------------------------------------------------------------ */

static void set_experience(struct start *start)
{
    for (size_t i = 0; start->options->experience && i < start->blocks.count; i++)
        for (size_t j = 0; j < start->blocks.items[i].lines.count; j++)
            if (!strcmp(start->blocks.items[i].lines.items[j].key, "experience")) {
                start->blocks.items[i].lines.items[j].value = start->options->experience;
                return;
            }
}

static void new_gym(struct start *start)
{
    if (start->asking)
        fputs("A few questions. Press Enter to leave one open and fill it in later; type a dot to end them.\n", stderr);
    start_ask_blocks(start, 0);
    read_exports(start);
    settle_exports(start);
    if (!start->lifter && names_nobody(start))
        start->lifter = start_ask_text(start, "Whose training is it? Enter a name");
    size_t first = start->blocks.count;
    start_gear_blocks(start);
    start_lifter_blocks(start);
    set_experience(start);
    start_ask_blocks(start, first);
}

enum exit_status run_start(struct arena *arena, const struct options *options)
{
    struct start start;
    if (!options->argument_count)
        return usage_error("start", "which folder? Name one; it is made if it does not exist");
    begin(&start, arena, options);
    if (start.gym_there) {
        read_exports(&start);
        start_gear_blocks(&start);
        start_lifter_blocks(&start);
    } else {
        start_gym_blocks(&start);
        if (!take_options(&start))
            return EXIT_USAGE;
        new_gym(&start);
    }
    print_failures(&start);
    if (start.unreadable)
        return EXIT_UNREADABLE;
    enum exit_status status = start.gym_there ? EXIT_ALL_READ : write_files(&start);
    return status == EXIT_ALL_READ ? tell(&start, !start.gym_there) : status;
}
