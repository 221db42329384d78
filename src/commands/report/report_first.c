/* The report's first screen: is each wave heavier, what to change first, what comes next, what was not read. */
#include "commands/report/report_first.h"

#include "base/text.h"
#include "commands/report/cause_text.h"
#include "commands/report/report_next.h"
#include "commands/report/verdict_line.h"
#include "commands/session/summary.h"

#include <string.h>

#define SCREEN_LINES 40
#define MOST_ROWS 12 /* of verdicts */
#define MOST_NEXT 6  /* of next waves */
#define LEAST_ROWS 3
#define MOST_CHANGES 3
#define CHANGE_LINES 4 /* lines, at most, for one sentence */

struct screen
{
    const struct report *report; /* writes to the screen's own output */
    const char *lifter;
    size_t rows;
    const struct next_plans *next; /* of the lifter: as many as there is room for */
};

/* --- is each wave heavier? ------------------------------------------------------------------------------------------ */

/* Verdicts are ranked: those that need a decision come first. Returns how many of them are shown. */
static size_t rows_shown(const struct verdict *const *ranked, size_t most)
{
    size_t shown = 0;
    while (shown < most && ranked[shown])
        shown++;
    return shown;
}

struct word_count
{
    const char *word;
    size_t count;
};

struct word_counts /* there are a handful of words, however many lifts */
{
    LIST(struct word_count) list;
};

static void count_word(struct arena *arena, struct word_counts *counts, const char *word)
{
    for (size_t i = 0; i < counts->list.count; i++) {
        if (!strcmp(counts->list.items[i].word, word)) {
            counts->list.items[i].count++;
            return;
        }
    }
    *LIST_ADD(arena, &counts->list) = (struct word_count){word, 1};
}

static const char *counts_of(struct arena *arena, const struct verdict *const *verdicts)
{
    struct word_counts counts = {0};
    const char *words = "";
    for (size_t i = 0; verdicts[i]; i++)
        count_word(arena, &counts, verdict_short(verdicts[i]));
    for (size_t i = 0; i < counts.list.count; i++)
        words = arena_printf(arena, "%s%s%zu %s", words, *words ? ", " : "", counts.list.items[i].count,
                             counts.list.items[i].word);
    return words;
}

static size_t widest(const char *const *names, size_t count)
{
    size_t widest = 0;
    for (size_t i = 0; i < count; i++)
        widest = text_width(names[i]) > widest ? text_width(names[i]) : widest;
    return widest;
}

/* " NAME VERDICT", cut to fit the width: the name is cut in its middle. */
static void write_row(const struct screen *screen, const char *name, size_t name_width, const struct verdict *verdict)
{
    const struct session *session = screen->report->session;
    const char *shown = text_cut_middle(session->arena, name, name_width);
    size_t width = screen->report->style.width, left = name_width + 4;
    output_printf(screen->report->output, "  %s%*s  %s\n", shown, (int)(name_width - text_width(shown)), "",
                  verdict_line_within(session->arena, verdict, session->unit, width > left + 20 ? width - left : 20));
}

#define NAME_COLUMNS 26

static void write_verdicts(const struct screen *screen)
{
    const struct report *report = screen->report;
    struct arena *arena = report->session->arena;
    const struct verdict *const *ranked = verdicts_ranked(arena, report->verdicts, report->verdict_count,
                                                          screen->lifter);
    size_t shown = rows_shown(ranked, screen->rows);
    const char **names = ARENA_ARRAY(arena, const char *, shown + 1);
    day_number as_of = NO_DAY;
    char day[16];
    for (size_t i = 0; ranked[i]; i++)
        as_of = as_of == NO_DAY || ranked[i]->as_of > as_of ? ranked[i]->as_of : as_of;
    if (!shown) {
        report_heading(report, "Is each wave heavier? No lift has been trained in two weeks yet.");
        return;
    }
    date_print_words(day, as_of);
    report_heading(report, arena_printf(arena, "Is each wave heavier? (as of %s)", day));
    for (size_t i = 0; i < shown; i++)
        names[i] = series_name(report, "", ranked[i]->lift, ranked[i]->focus);
    size_t width = widest(names, shown);
    for (size_t i = 0; i < shown; i++)
        write_row(screen, names[i], width < NAME_COLUMNS ? width : NAME_COLUMNS, ranked[i]);
    if (ranked[shown])
        output_printf(report->output, "  not shown: %s\n", counts_of(arena, ranked + shown));
}

/* --- change this first ---------------------------------------------------------------------------------------------- */

static bool is_of(const struct cause *cause, const char *lifter)
{
    return !strcmp(cause->newest->first->lifter, lifter);
}

/* At most `lines` lines, the last one cut: the findings have the whole sentence. */
static void write_change(const struct screen *screen, size_t number, const char *sentence, size_t lines)
{
    struct arena *arena = screen->report->session->arena;
    size_t length, written = 0, width = screen->report->style.width;
    struct output *memory = output_to_memory(arena);
    paragraph_print(arena, memory, sentence, 5, width);
    const char *text = output_memory(memory, &length);
    for (const char *end; written < lines && (end = strchr(text, '\n')); text = end + 1, written++) {
        const char *line = arena_text(arena, text + 5, (size_t)(end - text) - 5);
        if (written + 1 == lines && end[1])
            line = arena_printf(arena, "%s \u2026", line);
        if (written)
            output_printf(screen->report->output, "     %s\n", line);
        else
            output_printf(screen->report->output, "  %zu. %s\n", number, line);
    }
}

static void write_changes(const struct screen *screen)
{
    const struct report *report = screen->report;
    const struct causes *causes = session_causes(report->session);
    size_t shown = 0, more = 0, old = 0;
    report_heading(report, "Change this first");
    for (size_t i = 0; i < causes->count; i++) {
        const struct cause *cause = &causes->items[i];
        if (!is_of(cause, screen->lifter))
            continue;
        if (cause->history)
            old++;
        else if (shown < MOST_CHANGES)
            write_change(screen, ++shown, cause_sentence(report, cause), CHANGE_LINES);
        else
            more++;
    }
    if (!shown)
        output_text(report->output, "  Nothing: no fault, caution or note in the last eight weeks.\n");
    if (more || old)
        output_printf(report->output, "  %s%s%s\n",
                      more ? arena_printf(report->session->arena, "%zu more below", more) : "", more && old ? "; " : "",
                      old ? arena_printf(report->session->arena, "%zu older %s, not seen in the last eight weeks", old,
                                         plural(old, "problem", "problems"))
                          : "");
}

/* --- what was not read ---------------------------------------------------------------------------------------------- */

/* A refused line may belong to lifters, lifts and days that were not asked for, so the words say what is counted. */
static const char *refused_words(const struct session *session, size_t refused)
{
    const struct options *options = session->options;
    bool part = session->lifters.count || session->lifts.count || options->from != NO_DAY || options->to != NO_DAY;
    return arena_printf(session->arena, "%zu %s%s %s refused", refused, plural(refused, "line", "lines"),
                        part && session->log->files.count > 1 ? " in these files" : "", plural(refused, "was", "were"));
}

static void write_reading(const struct screen *screen)
{
    const struct report *report = screen->report;
    struct arena *arena = report->session->arena;
    size_t counts[ASSUMPTION_BITS], kinds = 0, sets = 0;
    size_t refused = diags_total(report->session->diags, SEVERITY_ERROR);
    const struct training *training = report->session->training;
    assumptions_count(training, counts);
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++)
        kinds += counts[bit] > 0;
    for (size_t i = 0; i < training->count; i++)
        sets += training->sets[i].assumed != 0;
    char assumed[32], all[32];
    const char *first = refused ? refused_words(report->session, refused) : "Every line was read";
    const char *second = !kinds ? "nothing was assumed"
                                : arena_printf(arena, "%s of %s sets rest on %zu %s", grouped_count(assumed, sets),
                                               grouped_count(all, training->count), kinds,
                                               plural(kinds, "assumption", "assumptions"));
    report_paragraph(report, arena_printf(arena, "%s; %s%s.", first, second, refused || kinds ? " (below)" : ""), 0);
}

/* --- the whole of it ------------------------------------------------------------------------------------------------ */

static size_t write_screen(const struct screen *screen)
{
    struct output *output = screen->report->output;
    size_t length;
    summary_read(screen->report->session, output);
    output_text(output, "\n");
    write_verdicts(screen);
    output_text(output, "\n");
    write_changes(screen);
    output_text(output, "\n");
    report_next(screen->report, screen->next, screen->rows < MOST_NEXT ? screen->rows : MOST_NEXT);
    write_reading(screen);
    const char *text = output_memory(output, &length);
    return text_count(text, length, '\n');
}

/* As many rows as fit on the screen with everything else. */
static void write_one(const struct report *report, const char *lifter)
{
    struct report own = *report;
    struct next_plans next = next_plans(report, lifter, MOST_NEXT);
    struct screen screen = {&own, lifter, MOST_ROWS, &next};
    size_t length;
    do
        own.output = output_to_memory(report->session->arena);
    while (write_screen(&screen) > SCREEN_LINES && --screen.rows >= LEAST_ROWS);
    const char *text = output_memory(own.output, &length);
    output_put(report->output, text, length);
}

/* --- a team: three lines per lifter ----------------------------------------------------------------------------------- */

/* A line is cut behind an item that ends with `separator`. */
static void write_cut(const struct report *report, const char *text, char separator)
{
    struct arena *arena = report->session->arena;
    size_t width = report->style.width;
    if (text_width(text) > width) {
        const char *cut = text_cut(arena, text, width - 1), *end = strrchr(cut, separator);
        if (end)
            cut = arena_printf(arena, "%s \u2026", arena_text(arena, cut, (size_t)(end - cut) + (separator != ' ')));
        text = cut;
    }
    output_printf(report->output, "%s\n", text);
}

static const struct cause *first_cause(const struct report *report, const char *lifter)
{
    const struct causes *causes = session_causes(report->session);
    for (size_t i = 0; i < causes->count; i++)
        if (is_of(&causes->items[i], lifter))
            return causes->items[i].history ? NULL : &causes->items[i]; /* history is ranked last */
    return NULL;
}

/* In an arena of its own: what three lines take to write is not kept for thousands of lifters. */
static void write_lifter(const struct report *report, const char *lifter)
{
    struct arena *arena = arena_new();
    struct report own = report_part(arena, report, lifter);
    own.several_lifters = false;
    const struct verdict *const *ranked = verdicts_ranked(arena, own.verdicts, own.verdict_count, lifter);
    const struct cause *cause = first_cause(&own, lifter);
    const char *counts = counts_of(arena, ranked);
    write_cut(report,
              arena_printf(arena, "%s: %s", *lifter ? lifter : "No lifter named", *counts ? counts : "no waves yet"),
              ',');
    write_cut(report, arena_printf(arena, "  Change first: %s", cause ? cause_sentence(&own, cause) : "nothing"), ' ');
    write_cut(report, arena_printf(arena, "  Next: %s", report_next_words(&own, lifter)), ';');
    arena_free(arena);
}

static void write_team(const struct report *report)
{
    const struct training *training = report->session->training;
    summary_read(report->session, report->output);
    output_text(report->output, "\n");
    for (size_t i = 0; i < training->count; i++)
        if (!i || strcmp(training->sets[i].lifter, training->sets[i - 1].lifter))
            write_lifter(report, training->sets[i].lifter);
    output_text(report->output, "\n");
    write_reading(&(struct screen){report, "", 0, NULL});
}

void report_first(const struct report *report)
{
    const struct training *training = report->session->training;
    if (report->several_lifters)
        write_team(report);
    else if (training->count)
        write_one(report, training->sets->lifter);
    else
        summary_read(report->session, report->output);
    output_text(report->output, "\n");
}

void report_last(const struct report *report)
{
    struct arena *arena = report->session->arena;
    const struct training *training = report->session->training;
    const struct verdict *const *ranked = NULL;
    if (!training->count)
        return;
    if (!report->several_lifters)
        ranked = verdicts_ranked(arena, report->verdicts, report->verdict_count, training->sets->lifter);
    const char *verdict = ranked && *ranked
                              ? arena_printf(arena, "%s, %s %s. ", (*ranked)->lift, focus_name((*ranked)->focus),
                                             verdict_line(arena, *ranked, report->session->unit))
                              : "";
    output_text(report->output, "\n");
    report_paragraph(
        report,
        text_visible(arena,
                     arena_printf(arena, "%sFor one part only: --only first, verdicts, findings, waves, ...", verdict)),
        0);
}
