#include "commands/session/summary.h"

#include "base/names.h"
#include "base/pounds.h"
#include "base/text.h"
#include "reading/corrections/log_corrections.h"

#include <stdio.h>
#include <string.h>

const char *plural(size_t count, const char *one, const char *many)
{
    return count == 1 ? one : many;
}

char *grouped_count(char *buffer, size_t count)
{
    char digits[24];
    int length = snprintf(digits, sizeof digits, "%zu", count);
    char *out = buffer;
    for (int i = 0; i < length; i++) {
        if (i && (length - i) % 3 == 0)
            *out++ = ',';
        *out++ = digits[i];
    }
    *out = 0;
    return buffer;
}

/* Files that were found next to the logs without being named: one line each. */
static void put_found(const struct session *session, struct output *output)
{
    struct arena *arena = session->arena;
    size_t corrected = 0;
    for (size_t i = 0; i < session->log->files.count; i++)
        corrected += session->log->files.items[i].corrected;
    if (session->gym_found)
        output_printf(output, "The gym file %s was found next to the logs and used.\n",
                      text_visible(arena, session->gym_found));
    if (!corrected)
        return;
    output_printf(output, "%zu %s read as corrected%s", corrected, plural(corrected, "line was", "lines were"),
                  session->corrections ? " in" : " beside the logs");
    for (size_t i = 0; session->corrections && i < session->corrections->list.count; i++)
        output_printf(output, "%s %s", i ? "," : "", text_visible(arena, session->corrections->list.items[i]->path));
    output_text(output, ".\n");
}

void summary_read(const struct session *session, struct output *output)
{
    const struct training *training = session->training;
    struct names *lifters = names_new(session->arena), *lifts = names_new(session->arena);
    day_number first = NO_DAY, last = NO_DAY;
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        if (!i || evaluated->lifter != evaluated[-1].lifter) /* sets of one lifter are adjacent */
            names_add(lifters, evaluated->lifter, strlen(evaluated->lifter));
        if (!i || evaluated->lift != evaluated[-1].lift)
            names_add(lifts, evaluated->lift, strlen(evaluated->lift));
        if (first == NO_DAY || evaluated->set->day < first)
            first = evaluated->set->day;
        if (last == NO_DAY || evaluated->set->day > last)
            last = evaluated->set->day;
    }
    char sets[32], from[16] = "", to[16] = "";
    if (!training->count) {
        output_text(output, "No sets were read.\n");
        put_found(session, output);
        return;
    }
    date_print(from, first);
    date_print(to, last);
    output_printf(output, "%s %s of %zu %s by %zu %s, %s to %s, from %zu %s.\n", grouped_count(sets, training->count),
                  plural(training->count, "set", "sets"), names_count(lifts),
                  plural(names_count(lifts), "lift", "lifts"), names_count(lifters),
                  plural(names_count(lifters), "lifter", "lifters"), from, to, session->log->files.count,
                  plural(session->log->files.count, "file", "files"));
    put_found(session, output);
}

static void file_line(const struct session *session, struct output *output, const struct log_file *file)
{
    char sets[32], lines[32];
    output_printf(output, "  %s: %s, %s %s in %s lines", text_visible(session->arena, file->path),
                  file->is_csv ? "CSV" : "text log", grouped_count(sets, file->sets), plural(file->sets, "set", "sets"),
                  grouped_count(lines, file->lines));
    if (file->refused)
        output_printf(output, ", %u refused", file->refused);
    if (file->corrected)
        output_printf(output, ", %u corrected", file->corrected);
    if (file->aside)
        output_printf(output, ", %u set aside", file->aside);
    output_printf(output, "; %s, bare numbers in %s%s", file->encoding ? file->encoding : "UTF-8",
                  mass_unit_name(file->unit), file->unit_assumed ? " (assumed)" : "");
    if (file->is_csv)
        output_printf(output, ", separated by %s",
                      file->delimiter == '\t' ? "tabs" : arena_printf(session->arena, "'%c'", file->delimiter));
    output_text(output, "\n");
    if (file->columns)
        output_printf(output, "    %s\n", text_visible(session->arena, file->columns));
}

void summary_files(const struct session *session, struct output *output)
{
    for (size_t i = 0; i < session->log->files.count; i++)
        file_line(session, output, &session->log->files.items[i]);
    output_text(output, "\n");
}

/* What each assumption means to a reader, and how to make it unnecessary. */
static const struct
{
    enum assumption assumption;
    const char *meaning, *settle;
} meanings[] = {
    {ASSUMED_BOTTOM_TENSION, "a band's pull is given only at the top or the bottom; the other is assumed to be 0",
     "write both, as in bands 12-40 kg"},
    {ASSUMED_NO_HEIGHTS, "the bar's heights are unknown: chain counts as 0 at the bottom and in full at the top",
     "measure floor to bar at bottom and top: heights = LIFT BOTTOM TOP in [lifter]"},
    {ASSUMED_NO_SETUP, "no set-up is named: the bands are assumed to be anchored on the floor under the bar",
     "describe the anchor in [setup] and name it in [lift]"},
    {ASSUMED_CHAIN_MASS, "only the chain's mass is known: it counts as 0 at the bottom and in full at the top",
     "describe it in [chain] with its length"},
    {ASSUMED_HITCH, "a choked band is assumed to lose 10 cm in its hitch", "give hitch = in [band]"},
    {ASSUMED_ONE_POINT, "the band's pull was measured at one length only", "measure it at two more lengths"},
    {ASSUMED_OVER_RANGE, "a band was stretched beyond the longest length measured",
     "use a longer or lighter band; measure further only from the side, with eye protection"},
    {ASSUMED_UNKNOWN_GEAR,
     "the gym file does not describe a chain or band: where its load is unknown, the straight weight alone is counted",
     "describe it in [chain] or [band]"},
    {ASSUMED_UNLOADED, "the bands take off more than the bar weighs: the load counts as 0",
     "check the reverse bands of these sets"},
    {ASSUMED_UNIT, "no unit was given for bare numbers; kg is assumed",
     "pass --log-unit kg or lb, or write unit = kg under [gym] in gym.ini"},
    {ASSUMED_DATE_ORDER, "whether the day or the month comes first was worked out from the order of the rows",
     "pass --dates dmy or mdy"},
    {ASSUMED_ONE_REP_MAX, "the 1RM is an estimate from recent sets, not tested",
     "give max = LIFT LOAD DATE in [lifter], or call the session of the test \"test\""},
    {ASSUMED_YEAR, "a date has no year: that of the row above or of the file's name is used", "write the years"},
    {ASSUMED_NO_WEIGHT, "no weight was logged: the reps are counted, the load is not",
     "log the weight, or give bodyweight = in [lifter]"},
    {ASSUMED_AR_CARRIED, "chains or bands carried from the note on the first set of that lift and day",
     "note them on each set, or switch this off by carry-ar = no in [gym]"},
    {ASSUMED_AR_GIVEN, "chains or bands from an ar = line of the gym file", "note them on each set"},
};

bool assumption_explain(const struct session *session, enum assumption assumption, const char **meaning,
                        const char **settle)
{
    for (size_t i = 0; i < sizeof meanings / sizeof *meanings; i++) {
        if (meanings[i].assumption != assumption)
            continue;
        *meaning = advice_in_unit(session->arena, meanings[i].meaning, session->unit);
        *settle = advice_in_unit(session->arena, meanings[i].settle, session->unit);
        return true;
    }
    return false;
}

void assumptions_count(const struct training *training, size_t counts[ASSUMPTION_BITS])
{
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++)
        counts[bit] = 0;
    for (size_t i = 0; i < training->count; i++)
        for (int bit = 0; bit < ASSUMPTION_BITS; bit++)
            counts[bit] += training->sets[i].assumed >> bit & 1;
}

void summary_assumed(const struct session *session, struct output *output)
{
    size_t counts[ASSUMPTION_BITS];
    bool any = false;
    assumptions_count(session->training, counts);
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++) {
        char sets[32];
        const char *meaning, *settle;
        if (!counts[bit] || !assumption_explain(session, (enum assumption)(1 << bit), &meaning, &settle))
            continue;
        output_printf(output, "%s  %s %s: %s.\n    To fix: %s.\n", any ? "" : "Assumed\n",
                      grouped_count(sets, counts[bit]), plural(counts[bit], "set", "sets"), meaning, settle);
        any = true;
    }
    if (any)
        output_text(output, "\n");
}

const char words_to_mind[] =
    "Use collars, safeties and spotters. Check bands and anchors before each session and retire worn ones. Stay out of "
    "the "
    "line of a stretched band; keep hands and feet clear of chains. Have set-ups and loads checked on the spot by a "
    "qualified coach. "
    "Nothing here is medical advice.";

void paragraph_print(struct arena *arena, struct output *output, const char *text, size_t indent, size_t line_width)
{
    size_t width = line_width > indent + 20 ? line_width - indent : 20;
    while (*text) {
        size_t taken = 0, columns = 0, fits = 0;
        while (text[taken]) {
            size_t word = strcspn(text + taken, " ");
            columns = text_width(arena_text(arena, text, taken + word));
            if (columns > width && fits)
                break;
            taken += word;
            fits = taken;
            if (text[taken] == ' ')
                taken++;
        }
        output_printf(output, "%*s%.*s\n", (int)indent, "", (int)fits, text);
        text += fits;
        text += strspn(text, " ");
    }
}
