#include "commands/team/team_lifter.h"

#include "commands/team/team.h"

#include "analysis/trend.h"
#include "base/text.h"
#include "commands/pictures/drawing.h"
#include "commands/pictures/pictures.h"
#include "commands/report/html/report_html.h"
#include "commands/report/report_text.h"
#include "commands/tables.h"
#include "writing/gnuplot/render.h"
#include "commands/audit.h"
#include "commands/check.h"
#include "commands/loads.h"
#include "commands/report/verdict_sentence.h"
#include "commands/report/report.h"
#include "commands/team/team_inputs.h"
#include "commands/team/team_logs.h"
#include "commands/team/team_publish.h"
#include "commands/trend.h"
#include "commands/waves.h"
#include "reading/log_lifters.h"
#include "reading/same_history.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

struct work
{
    struct team *team;
    struct team_lifter *lifter;
    struct arena *arena;
    struct session session;
    struct options options;
    struct reading *reading;
    struct team_state *state;
    struct folder *folder;
    struct digester *results;
    bool no_drawing;
    const char *trouble; /* something of less weight went wrong: a picture was not drawn */
};

/* --- reading ---------------------------------------------------------------------------------------------------------------- */

static void note_names(struct work *work, size_t from)
{
    const struct log *log = work->reading->log;
    size_t *counts = ARENA_ARRAY(work->arena, size_t, names_count(log->lifters) + 1);
    for (size_t i = from; i < log->sets.count; i++)
        counts[log->sets.items[i].lifter]++;
    for (uint32_t i = 0; i < names_count(log->lifters); i++)
        if (counts[i])
            *LIST_ADD(work->arena, &work->state->names) = (struct name_count){names_text(log->lifters, i), counts[i]};
}

/* A log that only this lifter's pattern matches and that names nobody is this lifter's. */
static void name_unnamed(struct work *work, size_t from)
{
    struct log *log = work->reading->log;
    uint32_t own = lifter_number(work->reading, work->lifter->block->name);
    for (size_t i = from; i < log->sets.count; i++)
        if (!*names_text(log->lifters, log->sets.items[i].lifter))
            log->sets.items[i].lifter = own;
}

/* Sets that a log of this lifter's own gives to somebody else are told of on the team's page. */
static void keep_own(struct work *work, size_t from)
{
    struct log *log = work->reading->log;
    size_t kept = from, percents = 0, *now = ARENA_ARRAY(work->arena, size_t, log->sets.count + 1);
    for (size_t i = 0; i < log->sets.count; i++) {
        if (i >= from && strcmp(names_text(log->lifters, log->sets.items[i].lifter), work->lifter->block->name) != 0)
            continue;
        size_t to = i < from ? i : kept++;
        log->sets.items[to] = log->sets.items[i];
        now[i] = to + 1;
    }
    log->sets.count = kept;
    for (size_t i = 0; i < log->percents.count; i++) {
        struct percent_use use = log->percents.items[i];
        if (!now[use.set])
            continue;
        use.set = now[use.set] - 1;
        log->percents.items[percents++] = use;
    }
    log->percents.count = percents;
}

static bool read_own(struct work *work)
{
    struct team_lifter *lifter = work->lifter;
    bool good = true;
    size_t from = work->reading->log->sets.count;
    for (size_t i = 0; i < lifter->arguments.count; i++)
        if (!team_argument_shared(lifter->arguments.items[i]))
            good &= read_log(work->reading, lifter->arguments.items[i]->path);
    name_unnamed(work, from);
    note_names(work, from);
    keep_own(work, from);
    return good;
}

static bool read_logs(struct work *work)
{
    struct team_group *group = work->lifter->group;
    const struct options *options = work->team->options;
    struct reading_options reading_options = {.unit_said = options->log_unit_said, .unit = options->log_unit, .dates = options->dates};
    if (group) {
        work->reading = group->reading;
        work->reading->diags = work->session.diags;
        team_take_sets(group, work->lifter->block->name);
        for (size_t i = 0; i < group->names.count && group->first == work->lifter; i++) /* once is enough for the page */
            if (group->names.items[i].sets)
                *LIST_ADD(work->arena, &work->state->names) = group->names.items[i];
    } else {
        work->reading = reading_new(work->arena, work->team->gym, work->session.diags, &reading_options);
    }
    bool good = read_own(work);
    reading_finish(work->reading);
    work->session.log = work->reading->log;
    return good;
}

static const char *first_fault(const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++)
        if (lifter->arguments.items[i]->fault)
            return lifter->arguments.items[i]->fault;
    return lifter->arguments.count ? NULL : "no log matches";
}

/* A log that is being written is read as it stands; tonight's folder then says nothing about tomorrow's. */
static bool changed_meanwhile(const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++)
        for (size_t j = 0; j < lifter->arguments.items[i]->files.count; j++) {
            const struct team_match *match = &lifter->arguments.items[i]->files.items[j];
            struct stat status;
            if (stat(match->path, &status) || status.st_size != match->file->bytes ||
                (int64_t)status.st_mtim.tv_sec * 1000000000 + status.st_mtim.tv_nsec != match->file->modified_ns)
                return true;
        }
    return false;
}

/* --- what was refused --------------------------------------------------------------------------------------------------------- */

static bool is_refusal(void *context, const struct diag *diag)
{
    (void)context;
    return diag_severity(diag->id) >= SEVERITY_ERROR;
}

/* Does a line of a shared log name this lifter, or nobody at all? Then it stands in this lifter's folder. */
static bool concerns(struct work *work, const struct diag *diag)
{
    const struct team_group *group = work->lifter->group;
    struct arena *scratch = arena_new();
    const char *line = diag->excerpt ? text_fold(scratch, diag->excerpt) : "";
    bool own = strstr(line, text_fold(scratch, work->lifter->block->name)), anybody = false;
    for (size_t i = 0; i < group->names.count && !own && !anybody; i++)
        anybody = *group->names.items[i].name && strstr(line, text_fold(scratch, group->names.items[i].name));
    arena_free(scratch);
    return own || !anybody;
}

static void take_refusals(struct work *work)
{
    const struct team_group *group = work->lifter->group;
    for (const struct diag *diag = group ? diags_first(group->diags) : NULL; diag; diag = diag->next)
        if (is_refusal(NULL, diag) && concerns(work, diag))
            diag_add(work->session.diags, diag->id, diag->at, diag->excerpt, diag->hint, "%s", diag->message);
    for (size_t i = 0; i < work->lifter->unmatched.count; i++)
        diag_add(work->session.diags, DIAG_CANNOT_READ, (struct place){.file = work->lifter->unmatched.items[i]}, NULL, NULL, "no file matches log = %s",
                 work->lifter->unmatched.items[i]);
    for (const struct diag *diag = diags_first(work->session.diags); diag; diag = diag->next)
        work->state->refused += is_refusal(NULL, diag);
}

/* --- files ---------------------------------------------------------------------------------------------------------------------- */

static void refused_table(struct session *session, struct output *output)
{
    diags_table(session, output, is_refusal, NULL);
}

/* Made in memory first: the digest of the tables is what the store is compared with. */
static void write_table(struct work *work, const char *name, void (*table)(struct session *, struct output *))
{
    struct output *memory = output_to_memory(work->arena);
    size_t length;
    table(&work->session, memory);
    const char *text = output_memory(memory, &length);
    digest_bytes(work->results, text, length);
    struct output *output = folder_output(work->folder, name);
    if (output)
        output_put(output, text, length);
    folder_written(work->folder, output);
}

static void write_text(struct work *work)
{
    struct output *output = folder_output(work->folder, "report.txt");
    if (!output)
        return;
    report_write(&work->session, output);
    folder_written(work->folder, output);
}

static void write_page(struct work *work)
{
    /* Where gnuplot hangs, or is not wanted, the page is not to try it, either: it finds what is on PATH. */
    if (work->no_drawing)
        setenv("PATH", "", 1);
    struct output *output = folder_output(work->folder, "report.html");
    if (!output)
        return;
    report_html(&work->session, output);
    folder_written(work->folder, output);
    work->state->report = "report.html";
}

static void draw(struct work *work)
{
    static const char *const endings[] = {[GP_SVG] = "svg", [GP_PNG] = "png", [GP_PDF] = "pdf", [GP_DUMB] = "txt"};
    const struct options *options = work->team->options;
    struct picture_style style = {.kind = drawing_kind(options->render), .width = options->picture_width,
                                  .height = options->picture_height};
    struct pictures pictures = pictures_make(&work->session, &style);
    bool wanted = drawing_wanted(options->render);
    work->no_drawing = !wanted;
    for (size_t i = 0; i < pictures.list.count; i++) {
        const struct picture *picture = &pictures.list.items[i];
        const char *script = arena_printf(work->arena, "plots/%s.gp", picture->name);
        struct output *output = folder_output(work->folder, script);
        if (!output)
            return;
        gp_write(picture->script, output);
        folder_written(work->folder, output);
        if (!wanted)
            continue;
        struct render render = render_script(work->arena, folder_path(work->folder, script), work->team->picture_seconds);
        wanted = render.result != RENDER_NO_GNUPLOT && render.result != RENDER_TIME_OUT; /* nor would the next one be drawn */
        work->no_drawing = !wanted;
        if (render.result == RENDER_DONE)
            folder_add(work->folder, arena_printf(work->arena, "plots/%s.%s", picture->name, endings[style.kind]));
        else if (render.result != RENDER_NO_GNUPLOT && !work->trouble)
            work->trouble = arena_printf(work->arena, "%s was not drawn: %s", script,
                                         render.result == RENDER_TIME_OUT ? "gnuplot took too long" : text_visible(work->arena, render.message));
    }
}

static void write_files(struct work *work)
{
    struct session *session = &work->session;
    work->results = digester_new();
    write_text(work);
    draw(work);
    write_page(work);
    session->unit = UNIT_KG; /* tables are for programs: one unit, whatever the gym's */
    session->findings = session->every_finding = NULL;
    session->causes = NULL;
    work->options.format = FORMAT_CSV;
    write_table(work, "loads.csv", loads_table);
    write_table(work, "trend.csv", trend_table);
    write_table(work, "waves.csv", waves_table);
    write_table(work, "findings.csv", findings_table);
    write_table(work, "refused.csv", refused_table);
}

/* --- the state -------------------------------------------------------------------------------------------------------------------- */

static void note_days(struct work *work)
{
    const struct training *training = work->session.training;
    char day[16] = "";
    work->state->sets = training->count;
    work->state->first = work->state->last = "";
    work->state->last_week = 0;
    if (!training->count)
        return;
    date_print(day, training->sets[0].set->day); /* one lifter's sets stand by day */
    work->state->first = arena_copy(work->arena, day);
    date_print(day, training->sets[training->count - 1].set->day);
    work->state->last = arena_copy(work->arena, day);
    work->state->last_week = training->sets[training->count - 1].week;
}

static void note_results(struct work *work)
{
    struct arena *arena = work->arena;
    const struct findings *findings = session_findings(&work->session);
    for (size_t i = 0; i < findings->count; i++)
        work->state->findings[finding_kinds[findings->items[i]->id].severity]++;
    size_t count;
    const struct verdict *verdicts = session_verdicts(&work->session, &count);
    for (size_t i = 0; i < count; i++) {
        if (verdicts[i].kind == VERDICT_NO_WAVES && verdicts[i].trend.tendency == TENDENCY_TOO_EARLY)
            continue;
        const char *what = arena_printf(arena, "%s, %s", verdicts[i].lift, focus_name(verdicts[i].focus));
        const char *text = arena_printf(arena, "%s%s%s", verdict_sentence(arena, &verdicts[i], work->session.unit),
                                        verdicts[i].fact.exists ? " " : "", fact_sentence(arena, &verdicts[i], work->session.unit));
        *LIST_ADD(arena, &work->state->answers) =
            (struct team_answer){text_visible(arena, what), text_visible(arena, text), verdicts[i].kind};
    }
}

static void note_volumes(struct work *work)
{
    size_t count, first = 0;
    const struct trend_week *weeks = session_weeks(&work->session, &count);
    while (first < count && !weeks[first].all_lifts)
        first++;
    first = count - first > TEAM_WEEKS ? count - TEAM_WEEKS : first;
    for (size_t i = first; i < count; i++)
        *LIST_ADD(work->arena, &work->state->volumes_kg) = weeks[i].volume_kg[LOAD_MEAN];
    work->state->volume_week = count ? weeks[count - 1].week : 0;
}

static void note_files(struct work *work)
{
    const struct team_lifter *lifter = work->lifter;
    for (size_t i = 0; i < lifter->arguments.count; i++)
        for (size_t j = 0; j < lifter->arguments.items[i]->files.count; j++) {
            const struct team_match *match = &lifter->arguments.items[i]->files.items[j];
            struct team_file *file = LIST_ADD(work->arena, &work->state->files);
            *file = *match->file;
            file->path = text_visible(work->arena, match->path);
        }
}

static const char *finish(struct work *work)
{
    char results[DIGEST_TEXT];
    digester_end(work->results, results);
    work->state->results = results;
    bool current = !work->trouble && !changed_meanwhile(work->lifter);
    work->state->key = current ? team_key(work->team, work->lifter, work->state) : "";
    if (!current && !work->trouble)
        work->state->note = "a log changed while it was read: the next night reads it again";
    return folder_publish(work->folder, work->state, work->lifter->state);
}

const char *team_lifter_work(struct team *team, struct team_lifter *lifter, enum exit_status *status)
{
    struct arena *arena = arena_new();
    struct work work = {.team = team, .lifter = lifter, .arena = arena, .options = *team->options};
    const char *fault = first_fault(lifter);
    *status = EXIT_UNREADABLE;
    if (fault)
        return fault;
    if (lifter->group && lifter->group->unreadable)
        return "a shared log cannot be read";
    work.options.lifter = NULL;
    work.options.format = FORMAT_TEXT;
    work.state = ARENA_NEW(arena, struct team_state);
    work.state->note = "";
    work.session = (struct session){.arena = arena, .options = &work.options, .diags = diags_new(arena), .gym = team->gym, .quiet = true};
    work.session.unit = team->gym->unit_said ? team->gym->unit : UNIT_KG;
    diags_show_all(work.session.diags);
    diags_leave_out(work.session.diags, DIAG_UNREAD_CLAUSE);
    if (!read_logs(&work))
        return "a log cannot be read";
    session_train(&work.session);
    take_refusals(&work);
    team_note_used(arena, work.session.log, work.state);
    note_days(&work);
    note_results(&work);
    note_volumes(&work);
    note_files(&work);
    work.folder = folder_begin(arena, lifter->path);
    write_files(&work);
    fault = finish(&work);
    *status = fault || work.trouble ? EXIT_UNREADABLE : EXIT_ALL_READ;
    return fault ? fault : work.trouble ? work.trouble : work.state->note;
}
