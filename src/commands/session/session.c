#include "commands/session/session.h"

#include "base/parallel.h"
#include "base/text.h"
#include "commands/session/overwriting.h"
#include "commands/session/remarks.h"
#include "commands/session/selection.h"
#include "model/set_store.h"
#include "reading/gym/gym_file.h"
#include "reading/log_queue.h"
#include "reading/log_reader.h"
#include "reading/same_history.h"

#include <errno.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

size_t terminal_width(void)
{
    struct winsize size;
    if (!isatty(STDOUT_FILENO))
        return 0;
    return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col ? size.ws_col : 80;
}

bool wants_colour(bool is_terminal)
{
    const char *no_colour = getenv("NO_COLOR"), *term = getenv("TERM");
    return is_terminal && !(no_colour && *no_colour) && !(term && !strcmp(term, "dumb"));
}

/* --- the gym file --------------------------------------------------------------------------------------------------------- */

static bool is_folder(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

static bool is_file(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && !S_ISDIR(status.st_mode);
}

static const char *trimmed(struct arena *arena, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    return arena_text(arena, path, length);
}

/* gym.ini in the first log's folder; if the log is a folder, in it or next to it. NULL: none. */
static const char *gym_beside(struct arena *arena, const char *log)
{
    if (!strcmp(log, "-"))
        return NULL;
    log = trimmed(arena, log);
    const char *inside = strcmp(log, ".") ? arena_printf(arena, "%s/gym.ini", log) : "gym.ini",
               *folder = text_folder(arena, log);
    const char *beside = strcmp(folder, ".") || strchr(log, '/') ? arena_printf(arena, "%s/gym.ini", folder)
                                                                 : "gym.ini";
    if (is_folder(log) && is_file(inside))
        return inside;
    return is_file(beside) ? beside : NULL;
}

static void begin(struct session *session, struct arena *arena, const struct options *options, bool shows_all)
{
    *session = (struct session){
        .arena = arena, .options = options, .diags = diags_new(arena), .log = log_new(arena), .quiet = shows_all};
    if (shows_all) {
        diags_show_all(session->diags);
    } else {
        diags_leave_out(session->diags, DIAG_UNREAD_CLAUSE);
        diags_leave_out(session->diags, DIAG_SIMILAR_LIFT);
        diags_leave_out(session->diags, DIAG_UNMATCHED_CORRECTION);
    }
}

/* Columns given on the command line take precedence over those of the gym file. */
static void tell_columns(struct gym *gym, const struct options *options, struct arena *arena)
{
    size_t told = options->told_columns.count, count = told + gym->column_count;
    struct column_synonyms *columns = ARENA_ARRAY(arena, struct column_synonyms, count);
    for (size_t i = 0; i < told; i++) {
        const char **header = ARENA_NEW(arena, const char *);
        *header = options->told_columns.items[i].header;
        columns[i] = (struct column_synonyms){
            .field = options->told_columns.items[i].field, .headers = header, .header_count = 1};
    }
    for (size_t i = told; i < count; i++)
        columns[i] = gym->columns[i - told];
    if (told) {
        gym->columns = columns;
        gym->column_count = count;
    }
}

static bool read_gym(struct session *session, const char *beside)
{
    const struct options *options = session->options;
    const char *path = options->gym ? options->gym : beside ? gym_beside(session->arena, beside) : NULL;
    struct gym *read = path ? gym_read(session->arena, path, session->diags) : gym_new(session->arena), *gym = read;
    session->gym = session->own_gym = gym = gym ? gym : gym_new(session->arena);
    tell_columns(gym, options, session->arena);
    session->gym_found = path && !options->gym ? path : NULL;
    session->unreadable |= !read;
    /* Scripts depend on the columns' names: only text for people uses the gym's own unit by default. */
    bool for_people = options->format == FORMAT_TEXT && session->gym->unit_said;
    diags_advise_in(session->diags, options->unit_said ? options->unit : gym->unit);
    session->unit = options->unit_said ? options->unit : for_people ? session->gym->unit : UNIT_KG;
    return read;
}

bool session_open_gym(struct session *session, struct arena *arena, const struct options *options)
{
    return session_open_gym_of(session, arena, options, ".");
}

bool session_open_gym_of(struct session *session, struct arena *arena, const struct options *options, const char *log)
{
    begin(session, arena, options, false);
    return read_gym(session, log);
}

/* --- the logs ---------------------------------------------------------------------------------------------------------------- */

static void read_pattern(struct session *session, struct reading *reading, const struct lifter *lifter,
                         const char *pattern)
{
    const char *path = *pattern == '/' ? pattern : arena_printf(session->arena, "%s/%s", session->gym->folder, pattern);
    glob_t found;
    if (glob(text_starts(path, "./") ? path + 2 : path, 0, NULL, &found) == 0) {
        for (size_t i = 0; i < found.gl_pathc; i++)
            queue_log(reading, found.gl_pathv[i]);
        globfree(&found);
        return;
    }
    session->unreadable |= !read_queued_logs(reading); /* so that their messages come first */
    diag_add(session->diags, DIAG_CANNOT_READ, (struct place){.file = session->gym->path, .line = lifter->at.line},
             NULL, NULL, "no file matches log = %s of %s", pattern, lifter->name);
    session->unreadable = true;
}

/* If no LOG is named, the gym file's own logs are read. */
static void read_logs(struct session *session, struct reading *reading)
{
    const struct options *options = session->options;
    for (size_t i = 0; i < options->argument_count; i++)
        queue_log(reading, options->arguments[i]);
    for (size_t i = 0; !options->argument_count && i < session->gym->lifter_count; i++)
        for (size_t j = 0; j < session->gym->lifters[i].log_count; j++)
            if (!options->logs_of || !strcmp(options->logs_of, session->gym->lifters[i].name))
                read_pattern(session, reading, &session->gym->lifters[i], session->gym->lifters[i].logs[j]);
    session->unreadable |= !read_queued_logs(reading);
}

struct training_options session_training_options(const struct session *session)
{
    const struct options *options = session->options;
    struct training_options training = {
        .from = options->from, .to = options->to, .lifters = session->lifters, .lifts = session->lifts};
    training.today = options->today == NO_DAY ? date_today() : options->today;
    training.without_focus = session->shows_no_focus;
    training.formula = options->formula;
    if (!options->formula_said && session->gym->formula)
        e1rm_formula_read(session->gym->formula, &training.formula);
    return training;
}

void session_train(struct session *session)
{
    struct training_options training = session_training_options(session);
    session->training = training_make(session->arena, session->log, session->gym, &training);
    session->waves = session->every_wave = NULL;
    session->has_weeks = session->has_slopes = session->has_verdicts = false;
    remarks_add(session);
}

static bool read_anything(const struct session *session)
{
    for (size_t i = 0; i < session->log->files.count; i++)
        if (session->log->files.items[i].sets || session->log->files.items[i].refused)
            return true;
    return false;
}

unsigned session_jobs(const struct session *session)
{
    return session->options->jobs ? session->options->jobs : processors();
}

#define POUND_BAR 45 /* common practice, no source */

/* Where neither the gym file nor an option names a unit, people get the one in which most sets are logged. */
static void take_logs_unit(struct session *session, struct gym *gym)
{
    const struct options *options = session->options;
    size_t all = 0, pounds = 0;
    for (size_t i = 0; i < session->log->files.count; i++) {
        const struct log_file *file = &session->log->files.items[i];
        all += file->sets;
        pounds += file->unit == UNIT_LB ? file->sets : 0;
    }
    if (!gym->unit_said && 2 * pounds > all) {
        gym->unit = UNIT_LB; /* of the plates, too */
        if (!gym->path)
            gym->bar_kg = kg_from(POUND_BAR, UNIT_LB);
        if (!options->unit_said && options->format == FORMAT_TEXT)
            session->unit = UNIT_LB;
    }
    diags_advise_in(session->diags, options->unit_said ? options->unit : gym->unit);
}

static void read_all(struct session *session, struct arena *arena, const struct options *options, bool shows_all,
                     bool small)
{
    begin(session, arena, options, shows_all);
    bool has_gym = read_gym(session, options->argument_count ? options->arguments[0] : ".");
    struct reading_options reading_options = {.as = options->as,
                                              .corrections = options->corrections,
                                              .corrections_may_be_new = shows_all,
                                              .unit_said = options->log_unit_said,
                                              .unit = options->log_unit,
                                              .dates = options->dates,
                                              .ar_stays = options->ar_stays,
                                              .start_said = options->first_monday != NO_DAY,
                                              .start = options->first_monday,
                                              .jobs = session_jobs(session),
                                              .jobs_said = options->jobs};
    struct reading *reading = reading_new(arena, session->gym, session->diags, &reading_options);
    reading->log->set_store = small ? set_store_new(arena) : NULL;
    if (has_gym)
        read_logs(session, reading);
    reading_finish(reading);
    session->log = reading->log;
    session->corrections = reading->corrections;
    take_logs_unit(session, session->own_gym);
    reading_free(reading);
    session_select(session);
}

bool session_open(struct session *session, struct arena *arena, const struct options *options, bool shows_all)
{
    read_all(session, arena, options, shows_all, false);
    session_train(session);
    return session->log->sets.count > 0;
}

bool session_open_by_lifter(struct session *session, struct arena *arena, const struct options *options, bool small)
{
    read_all(session, arena, options, false, small);
    if (session->log->set_store && session->log->percents.count) /* sets with a load in % are referred to by index */
        log_expand(session->log);
    return read_anything(session);
}

/* Waves are cut, numbered and compared over the whole log; --from and --to only choose which of them are shown. */
static const struct waves *all_waves(struct session *session)
{
    struct training_options options = session->training->options;
    if (session->every_wave)
        return session->every_wave;
    session->whole = session->training;
    if (options.from != NO_DAY || options.to != NO_DAY) {
        options.from = options.to = NO_DAY;
        session->whole = training_make(session->arena, session->log, session->gym, &options);
    }
    return session->every_wave = waves_make(session->arena, session->whole);
}

const struct waves *session_waves(struct session *session)
{
    const struct training_options *options = &session->training->options;
    if (!session->waves)
        session->waves = waves_window(session->arena, all_waves(session), options->from, options->to);
    return session->waves;
}

/* As of the end of what is shown: waves after --to are ignored. */
const struct verdict *session_verdicts(struct session *session, size_t *count)
{
    const struct training_options *options = &session->training->options;
    if (!session->has_verdicts) {
        const struct waves *waves = waves_window(session->arena, all_waves(session), NO_DAY, options->to);
        struct training until = *session->whole;
        until.options.to = options->to;
        session->verdicts = verdicts_make(session->arena, &until, waves, options->from, &session->verdict_count);
    }
    session->has_verdicts = true;
    *count = session->verdict_count;
    return session->verdicts;
}

const struct trend_week *session_weeks(struct session *session, size_t *count)
{
    if (!session->has_weeks)
        session->weeks = trend_make(session->arena, session->training, &session->week_count);
    session->has_weeks = true;
    *count = session->week_count;
    return session->weeks;
}

const struct trend_slope *session_volume_slopes(struct session *session, size_t *count)
{
    size_t week_count;
    const struct trend_week *weeks = session_weeks(session, &week_count);
    if (!session->has_slopes)
        session->slopes = trend_volume_slopes(session->arena, session->training, weeks, week_count,
                                              &session->slope_count);
    session->has_slopes = true;
    *count = session->slope_count;
    return session->slopes;
}

static const struct findings *every_finding(struct session *session)
{
    struct findings_options every = {ALL_FINDINGS, FINDING_NOTE, session->unit};
    if (!session->every_finding) {
        session->every_finding = findings_from_waves(session->arena, session->training, session_waves(session), &every);
    }
    return session->every_finding;
}

const struct findings *session_findings(struct session *session)
{
    const struct options *options = session->options;
    if (session->findings)
        return session->findings;
    const struct findings *every = every_finding(session);
    const struct finding **asked = ARENA_ARRAY(session->arena, const struct finding *, every->count);
    struct findings *findings = ARENA_NEW(session->arena, struct findings);
    *findings = (struct findings){asked, 0, every->log};
    for (size_t i = 0; i < every->count; i++) {
        enum finding_id id = every->items[i]->id;
        if (options->findings >> id & 1 && finding_kinds[id].severity >= options->least_severity)
            asked[findings->count++] = every->items[i];
    }
    return session->findings = findings;
}

const struct causes *session_causes(struct session *session)
{
    if (!session->causes)
        session->causes = causes_make(session->arena, every_finding(session), session->training);
    return session->causes;
}

static void put_stderr(void *context, const char *text)
{
    (void)context;
    fputs(text, stderr);
}

enum exit_status session_close(struct session *session)
{
    if (session->misused)
        return EXIT_USAGE;
    if (!session->quiet)
        diags_print(session->diags, put_stderr, NULL, wants_colour(isatty(STDERR_FILENO)));
    if (session->unwritten)
        return EXIT_UNREADABLE;
    bool refused_files = diags_total(session->diags, SEVERITY_FAILURE) > 0;
    if (session->unreadable || (refused_files && !read_anything(session)))
        return EXIT_UNREADABLE;
    bool faults = session->options->strict && session->training &&
                  findings_have(session_findings(session), FINDING_FAULT);
    return refused_files || faults || diags_total(session->diags, SEVERITY_ERROR) > 0 ? EXIT_REFUSED : EXIT_ALL_READ;
}

/* --- results ------------------------------------------------------------------------------------------------------------------ */

static void say_unwritten(struct session *session)
{
    const char *name = session->options->output ? session->options->output : "standard output";
    fprintf(stderr, "tautline: %s cannot be written: %s\n", text_visible(session->arena, name), strerror(errno));
    session->unwritten = true;
}

struct output *session_output(struct session *session)
{
    if (session->misused || (session->log && session->unreadable && !read_anything(session)))
        return NULL; /* do not overwrite a good file with an empty one */
    if (!session_may_write(session, session->options->output))
        return NULL;
    struct output *output = output_open(session->arena, session->options->output);
    if (!output)
        say_unwritten(session);
    return output;
}

void session_commit(struct session *session, struct output *output)
{
    if (output && !output_commit(output))
        say_unwritten(session);
}

struct table_style session_style(const struct session *session, const struct output *output)
{
    if (session->sink)
        return (struct table_style){.format = FORMAT_CSV, .unit = session->unit, .sink = session->sink};
    bool terminal = output_is_terminal(output);
    return (struct table_style){.format = session->options->format,
                                .unit = session->unit,
                                .spreadsheet_safe = session->options->spreadsheet_safe,
                                .chosen = session->options->chosen_columns,
                                .chosen_count = session->options->chosen_count,
                                .width = session->options->columns_wide ? session->options->columns_wide
                                         : terminal                     ? terminal_width()
                                                                        : 0,
                                .colour = wants_colour(terminal)};
}

void session_rows(struct session *session, struct output *output, const struct column *columns, size_t column_count,
                  const void *rows, size_t count, size_t row_size)
{
    struct table_style style = session_style(session, output);
    struct table_writer *writer = table_open(session->arena, output, columns, column_count, &style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, (const char *)rows + i * row_size);
    table_close(writer);
}

void session_table(struct session *session, const struct column *columns, size_t column_count, const void *rows,
                   size_t count, size_t row_size)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    session_rows(session, output, columns, column_count, rows, count, row_size);
    session_commit(session, output);
}
