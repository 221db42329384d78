#include "commands/team/team_lifter.h"

#include "analysis/trend.h"
#include "base/system.h"
#include "base/text.h"
#include "commands/audit.h"
#include "commands/check.h"
#include "commands/loads.h"
#include "commands/report/report.h"
#include "commands/report/report_next.h"
#include "commands/report/report_text.h"
#include "commands/report/verdict_sentence.h"
#include "commands/tables.h"
#include "commands/team/team_drawing.h"
#include "commands/team/team_folders.h"
#include "commands/team/team_inputs.h"
#include "commands/team/team_logs.h"
#include "commands/team/team_publish.h"
#include "commands/team/team_refusals.h"
#include "commands/team/team_state.h"
#include "commands/team/team_work.h"
#include "commands/trend.h"
#include "commands/waves.h"
#include "reading/log_lifters.h"
#include "reading/same_history.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LOST_PARTS 10 /* losing more than one part in this many is too much */

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

/* A log that no other lifter's pattern matches, and that does not name a lifter, belongs to this lifter. */
static void name_unnamed(struct work *work, size_t from)
{
    struct log *log = work->reading->log;
    uint32_t own = lifter_number(work->reading, work->lifter->block->name);
    for (size_t i = from; i < log->sets.count; i++)
        if (!*names_text(log->lifters, log->sets.items[i].lifter))
            log->sets.items[i].lifter = own;
}

/* Sets that this lifter's own log gives to another lifter are reported on the team's page. */
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
    const struct team_lifter *lifter = work->lifter;
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

/* The group's reader has read the shared logs. This takes the lifter's sets from them; the lifter's own logs are
 * added afterwards. */
static void begin_with_shared(struct work *work)
{
    const struct team_group *group = work->lifter->group;
    work->reading = ARENA_NEW(work->arena, struct reading);
    *work->reading = *group->reading;
    work->reading->diags = work->session.diags;
    work->reading->log = team_take_sets(work->arena, group, work->lifter->block->name);
    for (size_t i = 0; i < group->names.count && group->first == work->lifter; i++) /* once is enough for the page */
        if (group->names.items[i].sets)
            *LIST_ADD(work->arena, &work->state->names) = group->names.items[i];
}

static bool read_logs(struct work *work)
{
    const struct options *options = work->team->options;
    struct reading_options reading_options = {.unit_said = options->log_unit_said,
                                              .unit = options->log_unit,
                                              .dates = options->dates,
                                              .ar_stays = options->ar_stays};
    if (work->lifter->group)
        begin_with_shared(work);
    else
        work->reading = reading_new(work->arena, work->team->gym, work->session.diags, &reading_options);
    bool good = read_own(work);
    reading_finish(work->reading);
    work->session.log = work->reading->log;
    if (!work->lifter->group)
        reading_free(work->reading);
    return good;
}

static const char *first_fault(struct arena *arena, const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++) {
        const char *fault = team_argument_fault(arena, lifter->arguments.items[i]);
        if (fault)
            return fault;
    }
    return lifter->arguments.count ? NULL : "no log matches";
}

/* A log that is being written is read as it is at that moment; tonight's folder must then not count as up to date
 * tomorrow. */
static bool changed_meanwhile(const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++)
        for (size_t j = 0; j < lifter->arguments.items[i]->files.count; j++) {
            const struct team_match *match = &lifter->arguments.items[i]->files.items[j];
            struct stat status;
            if (stat(match->path, &status) || status.st_size != match->file->bytes ||
                system_modified_ns(&status) != match->file->modified_ns)
                return true;
        }
    return false;
}

/* --- what was refused --------------------------------------------------------------------------------------------------------- */

static void take_refusal(void *context, const struct diag *diag)
{
    struct work *work = context;
    diag_add(work->session.diags, diag->id, diag->at, diag->excerpt, diag->hint, "%s", diag->message);
}

static void take_refusals(struct work *work)
{
    if (work->lifter->group)
        team_each_refusal(work->lifter->group, work->lifter, take_refusal, work);
    for (size_t i = 0; i < work->lifter->unmatched.count; i++)
        diag_add(work->session.diags, DIAG_CANNOT_READ, (struct place){.file = work->lifter->unmatched.items[i]}, NULL,
                 NULL, "no file matches log = %s", work->lifter->unmatched.items[i]);
    for (const struct diag *diag = diags_first(work->session.diags); diag; diag = diag->next)
        work->state->refused += team_is_refusal(NULL, diag);
}

/* --- files ---------------------------------------------------------------------------------------------------------------------- */

static void refused_table(struct session *session, struct output *output)
{
    diags_table(session, output, team_is_refusal, NULL);
}

/* The digest of the tables is compared with that of the store. */
static void write_table(struct work *work, const char *name, void (*table)(struct session *, struct output *))
{
    struct output *output = folder_output(work->folder, name);
    if (!output)
        return;
    table(&work->session, output);
    folder_written(work->folder, output);
    folder_digest(work->folder, name, work->results);
}

static void write_text(struct work *work)
{
    struct output *output = folder_output(work->folder, "report.txt");
    if (!output)
        return;
    report_write(&work->session, output);
    folder_written(work->folder, output);
}

static void write_files(struct work *work)
{
    struct session *session = &work->session;
    work->results = digester_new();
    write_text(work);
    work_draw(work);
    work_write_page(work);
    session->unit = UNIT_KG; /* tables are for programs: always the same unit, whatever the gym uses */
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
    work->state->sets = work->state->sets_before = training->count;
    work->state->first = work->state->last = "";
    work->state->last_week = 0;
    if (!training->count)
        return;
    date_print(day, training->sets[0].set->day); /* one lifter's sets are sorted by day */
    work->state->first = arena_copy(work->arena, day);
    date_print(day, training->sets[training->count - 1].set->day);
    work->state->last = arena_copy(work->arena, day);
    work->state->last_week = training->sets[training->count - 1].week;
    while (work->state->sets_before &&
           training->sets[work->state->sets_before - 1].set->day == training->sets[training->count - 1].set->day)
        work->state->sets_before--;
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
        const char *text = arena_printf(
            arena, "%s%s%s", verdict_sentence(arena, &verdicts[i], work->session.unit, false),
            verdicts[i].fact.exists ? " " : "", fact_sentence(arena, &verdicts[i], work->session.unit));
        *LIST_ADD(arena, &work->state->answers) = (struct team_answer){text_visible(arena, what),
                                                                       text_visible(arena, text), verdicts[i].kind};
    }
}

/* The next waves in one line, as the report's first screen has them. */
static void note_next(struct work *work)
{
    const struct training *training = work->session.training;
    const struct report report = {.session = &work->session};
    work->state->next = !training->count
                            ? ""
                            : text_visible(work->arena, report_next_words(&report, training->sets->lifter));
}

static void note_volumes(struct work *work)
{
    size_t count, next = 0;
    const struct trend_week *weeks = session_weeks(&work->session, &count);
    week_number last = count ? weeks[count - 1].week : 0;
    while (next < count && !(weeks[next].all_lifts && weeks[next].week > last - (week_number)TEAM_WEEKS))
        next++;
    for (week_number week = next < count ? weeks[next].week : last + 1; week <= last; week++) /* rows may skip some */
        *LIST_ADD(work->arena, &work->state->volumes_kg) = weeks[next].week == week ? weeks[next++].volume_kg[LOAD_MEAN]
                                                                                    : 0;
    work->state->volume_week = last;
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

/* --- logs that were cut short ------------------------------------------------------------------------------------- */

static bool is_accepted(const struct work *work)
{
    return options_accept(work->team->options, work->lifter->block->name);
}

/* Logs only grow. If more than a tenth is missing of what was there before the newest day, the log was cut short or
 * is empty. NULL: nothing is missing. */
static const char *what_is_lost(const struct work *work)
{
    const struct team_state *before = work->lifter->state;
    const struct training *training = work->session.training;
    size_t now = 0;
    day_number newest;
    if (!before || !before->sets || !date_read_iso(before->last, &newest) || is_accepted(work))
        return NULL;
    while (now < training->count && training->sets[now].set->day < newest)
        now++;
    if (!training->count)
        return arena_printf(work->arena,
                            "its logs had %zu sets and now have none: the last results are kept until the logs are "
                            "whole again or --accept confirms the change",
                            before->sets);
    if (now * LOST_PARTS >= before->sets_before * (LOST_PARTS - 1))
        return NULL;
    return arena_printf(work->arena,
                        "its logs have %zu sets before %s and had %zu: the last results are kept until the logs are "
                        "whole again or --accept confirms the change",
                        now, before->last, before->sets_before);
}

/* --- all of it -------------------------------------------------------------------------------------------------------------------- */

static const char *finish(struct work *work)
{
    char results[DIGEST_TEXT];
    digester_end(work->results, results);
    work->state->results = results;
    bool current = !changed_meanwhile(work->lifter);
    work->state->key = current ? team_key(work->arena, work->team, work->lifter, work->state) : "";
    work->state->undrawn = work->undrawn ? work->undrawn : "";
    if (!current)
        work->state->note = "a log changed while it was read: the next night reads it again";
    return folder_publish(work->folder, work->state, work->lifter->state);
}

static void begin(struct work *work)
{
    const struct gym *gym = work->team->gym;
    work->options = *work->team->options;
    work->options.lifter = NULL;
    work->options.format = FORMAT_TEXT;
    work->state = ARENA_NEW(work->arena, struct team_state);
    work->state->note = "";
    work->state->lifter = work->lifter->block->name;
    work->session = (struct session){
        .arena = work->arena, .options = &work->options, .diags = diags_new(work->arena), .gym = gym, .quiet = true};
    work->session.unit = gym->unit_said ? gym->unit : UNIT_KG;
    diags_show_all(work->session.diags);
    diags_leave_out(work->session.diags, DIAG_UNREAD_CLAUSE);
    diags_leave_out(work->session.diags, DIAG_SIMILAR_LIFT);
}

static enum team_work make(struct work *work, const char **message)
{
    const struct team_lifter *lifter = work->lifter;
    begin(work);
    if (!read_logs(work)) {
        *message = "a log cannot be read";
        return WORK_FAILED;
    }
    session_train(&work->session);
    *message = what_is_lost(work);
    if (*message)
        return WORK_KEPT;
    take_refusals(work);
    team_note_used(work->arena, work->session.log, work->state);
    note_days(work);
    note_results(work);
    note_next(work);
    note_volumes(work);
    note_files(work);
    work->folder = folder_begin(work->arena, work->team->lifters_folder, lifter->folder);
    write_files(work);
    const char *fault = finish(work);
    *message = fault ? fault : work->undrawn ? work->undrawn : work->state->note;
    return fault ? WORK_FAILED : work->undrawn ? WORK_UNDRAWN : WORK_DONE;
}

static enum team_work look(struct team *team, struct team_lifter *lifter, struct arena *arena, const char **message)
{
    const struct team_state *state = lifter->state;
    team_digest_logs(lifter);
    *message = first_fault(arena, lifter);
    if (*message)
        return WORK_FAILED;
    if (lifter->group && lifter->group->unreadable) {
        *message = "a shared log cannot be read";
        return WORK_FAILED;
    }
    if (!team_is_current(arena, team, lifter))
        return WORK_WANTED;
    *message = *state->undrawn ? state->undrawn : state->note;
    return *state->undrawn ? WORK_UNDRAWN : WORK_UNCHANGED;
}

bool team_lifter_stands(struct team *team, struct team_lifter *lifter, struct arena *arena, const char **message)
{
    return look(team, lifter, arena, message) == WORK_UNCHANGED;
}

static enum team_work look_and_make(struct team *team, struct team_lifter *lifter, struct arena *arena,
                                    const char **message)
{
    enum team_work found = look(team, lifter, arena, message);
    if (found == WORK_FAILED || found == WORK_UNCHANGED || (team->only_looks && found == WORK_UNDRAWN))
        return found;
    if (!team->only_looks)
        return make(&(struct work){.team = team, .lifter = lifter, .arena = arena}, message);
    bool made = lifter->state && *lifter->state->results;
    *message = made ? "its logs changed, or its block, and no run made its folder of them"
                    : "no run made this lifter's folder";
    return made ? WORK_KEPT : WORK_FAILED;
}

enum team_work team_lifter_work(struct team *team, struct team_lifter *lifter, struct arena *arena,
                                const char **message)
{
    int lock = -1;
    if (team->is_part) {
        *message = team_lock_lifter(team, lifter, arena, &lock);
        if (*message)
            return WORK_FAILED;
        lifter->state = team_state_read(arena, team->lifters_folder,
                                        lifter->folder); /* another run may have made it in the meantime */
    }
    enum team_work work = look_and_make(team, lifter, arena, message);
    if (lock >= 0)
        close(lock);
    return work;
}
