#include "analysis/findings/findings_maker.h"

#include "base/number.h"

#include <math.h>
#include <string.h>

#define SLACK 1e-9   /* floating-point error of a value that equals its limit */
#define SAME_KG 1e-6 /* rounding left over from unit conversion */

bool bears_ar(const struct load *load)
{
    return load_has(load, PIECE_CHAIN) || load_has(load, PIECE_BAND);
}

bool is_above(double value, double limit)
{
    return value > limit + SLACK;
}

bool is_below(double value, double limit)
{
    return value < limit - SLACK;
}

/* --- findings as they grow ---------------------------------------------------------------------------------------- */

struct finding *finding_new(struct findings_maker *maker, enum finding_id id)
{
    struct finding *finding = ARENA_NEW(maker->arena, struct finding);
    *finding = (struct finding){.id = id,
                                .unit = finding_kinds[id].unit,
                                .value = NAN,
                                .limit = NAN,
                                .source = finding_kinds[id].source,
                                .subject = ""};
    *LIST_ADD(maker->scratch, &maker->list) = finding;
    return finding;
}

bool comes_before(const struct evaluated_set *a, const struct evaluated_set *b)
{
    const struct set *left = a->set, *right = b->set;
    if (left->day != right->day)
        return left->day < right->day;
    return left->file != right->file ? left->file < right->file : left->line < right->line;
}

/* Consecutive lines make a run. The slot after the kept runs holds the newest of those that are only counted. */
static void add_line(struct finding *finding, const struct set *set)
{
    struct finding_lines *slots = finding->lines;
    struct finding_lines *newest = &slots[finding->runs < FINDING_LINES ? finding->runs : FINDING_LINES];
    if (finding->runs) {
        struct finding_lines *run = finding->runs <= FINDING_LINES ? &slots[finding->runs - 1] : newest;
        if (run->file == set->file && set->line >= run->last && set->line <= run->last + 1) {
            run->last = set->line;
            return;
        }
    }
    finding->runs++;
    *newest = (struct finding_lines){set->file, set->line, set->line};
}

void finding_add(struct finding *finding, const struct evaluated_set *set)
{
    if (finding->last == set) /* two pieces in one set count once */
        return;
    add_line(finding, set->set);
    if (!finding->first || comes_before(set, finding->first))
        finding->first = set;
    if (!finding->last || !comes_before(set, finding->last))
        finding->last = set;
    finding->sets++;
}

static bool is_at_working_load(const struct evaluated_set *set, const struct wave_week *week)
{
    return set->focus == week->focus && is_work(set) && same_ar(set, week->working) &&
           fabs(set->effect->straight_kg - week->load_kg[LOAD_STRAIGHT]) <= SAME_KG;
}

/* Sets are sorted by day. */
static size_t first_of_week(const struct lift_sets *sets, week_number week)
{
    size_t low = 0, high = sets->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (sets->sets[middle]->week < week)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

void finding_add_all(struct finding *finding, const struct lift_review *review, week_number week)
{
    const struct lift_sets *sets = &review->sets;
    for (size_t i = first_of_week(sets, week); i < sets->count && sets->sets[i]->week == week; i++)
        if (is_work(sets->sets[i]))
            finding_add(finding, sets->sets[i]);
}

void finding_add_week(struct finding *finding, const struct lift_review *review, const struct wave_week *week)
{
    const struct lift_sets *sets = &review->sets;
    size_t before = finding->sets;
    for (size_t i = first_of_week(sets, week->week); i < sets->count && sets->sets[i]->week == week->week; i++)
        if (is_at_working_load(sets->sets[i], week))
            finding_add(finding, sets->sets[i]);
    if (finding->sets == before) /* its sessions were moved to an adjacent week */
        finding_add(finding, week->working);
}

bool finding_update_worst(struct finding *finding, double value, double limit)
{
    double beyond = fabs(value - limit), before = fabs(finding->value - finding->limit);
    if (finding->fact && !(beyond > before) && !(isnan(before) && !isnan(beyond)))
        return false;
    finding->value = value;
    finding->limit = limit;
    return true;
}

struct finding *episode_finding(struct findings_maker *maker, struct episodes *episodes, enum finding_id id,
                                const char *key, size_t session)
{
    struct episode *episode = NULL;
    for (size_t i = 0; !episode && i < episodes->list.count; i++)
        if (episodes->list.items[i].id == id && !strcmp(episodes->list.items[i].key, key))
            episode = &episodes->list.items[i];
    if (!episode) {
        episode = LIST_ADD(maker->scratch, &episodes->list);
        *episode = (struct episode){.id = id, .key = key};
    }
    if (!episode->finding || session > episode->session + 1) {
        episode->finding = finding_new(maker, id);
        episode->finding->subject = arena_text(maker->arena, key,
                                               strcspn(key, "\n")); /* the rest of the key only tells episodes apart */
    }
    episode->session = session;
    return episode->finding;
}

/* --- words -------------------------------------------------------------------------------------------------------- */

static const char *number_words(struct findings_maker *maker, double value, int decimals, const char *unit)
{
    char number[32];
    number_fixed(number, sizeof number, value, decimals);
    return arena_printf(maker->scratch, "%s %s", number, unit);
}

const char *percent_words(struct findings_maker *maker, double share)
{
    return number_words(maker, 100 * share, 1, "%");
}

const char *load_words(struct findings_maker *maker, double kg)
{
    enum mass_unit unit = maker->options->unit;
    return number_words(maker, kg_to(kg, unit), 1, mass_unit_name(unit));
}

const char *change_words(struct findings_maker *maker, double kg)
{
    if (isnan(kg))
        return "an unknown amount";
    return arena_printf(maker->scratch, "%s%s", kg > 0 ? "+" : "", load_words(maker, kg));
}

const char *length_words(struct findings_maker *maker, double metres)
{
    if (maker->options->unit == UNIT_LB)
        return number_words(maker, metres / M_PER_IN, 1, "in");
    return number_words(maker, 100 * metres, 1, "cm");
}

const char *day_words(struct findings_maker *maker, day_number day)
{
    char *words = ARENA_ARRAY(maker->scratch, char, 16);
    date_print(words, day);
    return words;
}

const char *week_words(struct findings_maker *maker, week_number week)
{
    char *words = ARENA_ARRAY(maker->scratch, char, 16);
    week_print(words, week);
    return words;
}

const char *weeks_words(struct findings_maker *maker, const struct wave *wave)
{
    return arena_printf(maker->scratch, "%s wave %u (%s to %s)", focus_name(wave->weeks->focus), wave->weeks->wave,
                        week_words(maker, wave->weeks->week), week_words(maker, wave->weeks[wave->count - 1].week));
}
