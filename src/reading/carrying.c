/* Many exports have a note on one set of a lift and day that applies to all of them.
 *
 * Within one lifter, file, day and lift: if the first work set, and no other, has AR by its note, and no other set
 * mentions chains or bands, later sets of the same straight weight get the same AR. If the note is limited to some
 * sets, the limit is respected. Sets are processed by lifter, so the result does not depend on how the logs were
 * read. */
#include "reading/carrying.h"

#include "base/text.h"
#include "model/set_store.h"

#include <math.h>
#include <stdlib.h>

#define SAME_KG 0.005 /* 102.06 kg is 225 lb: exports round */

struct count /* number of sets, and the place of the first of their lift and day */
{
    size_t sets;
    uint32_t file, line;
};

struct given_line /* an ar = line, read */
{
    const struct ar_line *line;
    const struct load *ar;
    size_t sets; /* that got their AR from it */
};

struct carrying
{
    struct reading *reading;
    struct log *log;
    struct arena *own, *scratch; /* for the whole run; for one lifter */
    struct count carried, left, given;
    bool changed;                      /* a set of the current lifter */
    LIST(struct given_line) lines;     /* of the current lifter */
    LIST(const struct ar_line *) idle; /* lines that applied to no set */
    /* The sets of one day, a list for each lift: */
    uint32_t *next; /* index + 1 of the next set of the same lift; indexed by place */
    struct day_sets /* indexed by lift number */
    {
        uint32_t day_mark, first, last; /* valid for the day with this mark */
    } * lifts;
    uint32_t day_mark;
};

struct group /* of one lifter, file, day and lift */
{
    struct carrying *carrying;
    struct set **sets; /* of the day */
    uint32_t first;    /* index of its first set */
    struct set *noted; /* the first work set, if its note has the AR; NULL: nothing is carried */
};

/* --- what is carried ---------------------------------------------------------------------------------------------- */

static struct set *next_of(const struct group *group, uint32_t *at)
{
    uint32_t next = group->carrying->next[*at];
    *at = next - 1;
    return next ? group->sets[*at] : NULL;
}

#define EACH_SET(group, each, at)                                                                                      \
    for (struct set *each = (group)->sets[(at) = (group)->first]; each; each = next_of((group), &(at)))

static bool same_straight(const struct load *a, const struct load *b)
{
    return a->straight == b->straight && a->bars == b->bars && !(fabs(a->kg - b->kg) > SAME_KG) &&
           !(fabs(a->percent - b->percent) > SAME_KG);
}

/* True if the user said that a note applies only to its own set. */
static bool stays(const struct carrying *carrying)
{
    return carrying->reading->gym->ar_stays || carrying->reading->options.ar_stays;
}

/* The first work set, if its note names AR and nothing else in the group does; NULL: nothing is carried. */
static struct set *noted_set(const struct group *group)
{
    struct set *noted = NULL;
    uint32_t at;
    EACH_SET (group, set, at) {
        bool work = set->kind != SET_WARM_UP;
        if (!noted && work && set->ar_said == AR_SAID_IN_NOTE)
            noted = set;
        else if (set->ar_said == AR_SAID_IN_NOTE || set->ar_said == AR_SAID || (!noted && work))
            return NULL;
    }
    return noted && noted->ar_limit != AR_LIMIT_OTHER ? noted : NULL;
}

static void count_set(const struct group *group, struct count *count)
{
    const struct set *first = group->sets[group->first];
    bool before = count->sets &&
                  (count->file < first->file || (count->file == first->file && count->line <= first->line));
    if (!before) {
        count->file = first->file;
        count->line = first->line;
    }
    count->sets++;
}

static const struct set *last_work(const struct group *group)
{
    const struct set *last = NULL;
    uint32_t at;
    EACH_SET (group, set, at)
        if (set->kind != SET_WARM_UP)
            last = set;
    return last;
}

static const struct set *heaviest(const struct group *group)
{
    const struct set *heaviest = group->noted;
    uint32_t at;
    EACH_SET (group, set, at)
        if (set->kind != SET_WARM_UP && set->weight->straight == heaviest->weight->straight &&
            set->weight->kg + set->weight->percent > heaviest->weight->kg + heaviest->weight->percent + SAME_KG)
            heaviest = set;
    return heaviest;
}

/* Does the note apply to this set, which is the group's work set number `number`, from 1? */
static bool within_limit(const struct group *group, const struct set *set, unsigned number, const struct set *last,
                         const struct set *top)
{
    uint8_t limit = group->noted->ar_limit;
    if (limit == AR_LIMIT_NOT_LAST)
        return set != last || set == group->noted;
    if (limit == AR_LIMIT_TOP_SET)
        return set == top;
    return limit <= AR_LIMIT_FIRST || number <= (unsigned)(limit - AR_LIMIT_FIRST);
}

static void carry_to(struct group *group, struct set *set, const struct load *ar)
{
    bool everywhere = group->noted->ar_limit == AR_LIMIT_TOP_SET;
    struct carrying *carrying = group->carrying;
    if (stays(carrying) || !(everywhere || same_straight(set->weight, group->noted->weight))) {
        count_set(group, &carrying->left);
        return;
    }
    set->ar = ar;
    carrying->changed = true;
    set->assumed |= ASSUMED_AR_CARRIED;
    set->ar_said = AR_SAID;
    count_set(group, &carrying->carried);
}

/* --- what the gym file gives -------------------------------------------------------------------------------------- */

static bool give_to(const struct group *group, struct set *set)
{
    struct carrying *carrying = group->carrying;
    const char *lift = carrying->log->lift_names.items[set->lift].name;
    for (size_t i = 0; i < carrying->lines.count; i++) {
        struct given_line *given = &carrying->lines.items[i];
        const struct ar_line *line = given->line;
        if (!given->ar || set->day < line->first || set->day > line->last ||
            (line->focus && line->focus != set->focus) || !text_same_name(line->lift, lift))
            continue;
        set->ar = given->ar;
        carrying->changed = true;
        set->assumed |= ASSUMED_AR_GIVEN;
        given->sets++;
        count_set(group, &carrying->given);
        return true;
    }
    return false;
}

/* --- one lift of a day -------------------------------------------------------------------------------------------- */

/* A focus in the note of one set applies to the lift's whole session, unless another note disagrees. */
static void spread_focus(const struct group *group)
{
    const struct set *noted = NULL;
    uint32_t at;
    EACH_SET (group, set, at) {
        if (set->focus_noted && noted && (noted->focus != set->focus || noted->light != set->light))
            return;
        noted = set->focus_noted ? set : noted;
    }
    if (!noted)
        return;
    group->carrying->changed = true;
    EACH_SET (group, other, at) {
        if (other->focus == FOCUS_UNSAID)
            other->focus = noted->focus;
        other->light |= noted->light;
    }
}

static void take_group(struct group *group)
{
    spread_focus(group);
    group->noted = noted_set(group);
    if (!group->noted && !group->carrying->lines.count)
        return;
    const struct load *ar = group->noted ? group->noted->ar : NULL;
    const struct set *last = group->noted ? last_work(group) : NULL, *top = group->noted;
    if (group->noted && !stays(group->carrying))
        top = heaviest(group);
    unsigned number = 0;
    bool behind = false;
    uint32_t at;
    EACH_SET (group, set, at) {
        number += set->kind != SET_WARM_UP;
        behind |= group->noted == set;
        bool within = behind && within_limit(group, set, number, last, top);
        if (behind && !within && set->ar_said != AR_UNSAID) {
            set->ar = loads_ars(group->carrying->log->loads)[0];
            group->carrying->changed = true;
        } else if (set->ar_said == AR_UNSAID && behind && !within) {
            set->ar_said = AR_SAID; /* the note says that there was none */
        } else if (set->ar_said == AR_UNSAID && !give_to(group, set) && within) {
            carry_to(group, set, ar);
        }
    }
}

/* The sets of one lifter, file and day. */
static void take_day(struct carrying *carrying, struct set **sets, uint32_t count)
{
    carrying->day_mark++;
    for (uint32_t i = 0; i < count; i++) {
        struct day_sets *lift = &carrying->lifts[sets[i]->lift];
        carrying->next[i] = 0;
        if (lift->day_mark == carrying->day_mark)
            carrying->next[lift->last] = i + 1;
        else
            *lift = (struct day_sets){carrying->day_mark, i, i};
        lift->last = i;
    }
    for (uint32_t i = 0; i < count; i++) {
        struct group group = {.carrying = carrying, .sets = sets, .first = i};
        if (carrying->lifts[sets[i]->lift].first == i)
            take_group(&group);
    }
}

/* --- one lifter --------------------------------------------------------------------------------------------------- */

static int by_day(const void *left, const void *right)
{
    const struct set *a = *(struct set *const *)left, *b = *(struct set *const *)right;
    if (a->file != b->file)
        return a->file < b->file ? -1 : 1;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    return a < b ? -1 : a > b; /* they are in one array, in the order of their files */
}

/* Parses the expressions of the lifter's ar = lines. */
static void read_lines(struct carrying *carrying, const char *name)
{
    const struct lifter *lifter = gym_lifter(carrying->reading->gym, name);
    const struct gym *gym = carrying->reading->gym;
    struct load_style style = {gym->unit, '.'};
    struct load_fault fault;
    carrying->lines.count = 0;
    for (size_t i = 0; lifter && i < lifter->ar_line_count; i++) {
        const struct ar_line *line = &lifter->ar_lines[i];
        const struct load *ar = ar_cell_read(carrying->reading->loads, line->expression, AR_COLUMN_ANY, false, style,
                                             &fault);
        if (!ar)
            diag_add(carrying->reading->diags, DIAG_GYM_VALUE, (struct place){.file = gym->path, .line = line->at.line},
                     line->expression, fault.hint, "ar: %s", fault.message);
        *LIST_ADD(carrying->own, &carrying->lines) = (struct given_line){line, ar && ar->piece_count ? ar : NULL, 0};
    }
}

static bool is_worth_it(const struct carrying *carrying, struct set *const *sets, size_t count)
{
    bool noted = false, unsaid = false, focus = false;
    for (size_t i = 0; i < count; i++) {
        focus |= sets[i]->focus_noted;
        noted |= sets[i]->ar_said == AR_SAID_IN_NOTE;
        unsaid |= sets[i]->ar_said == AR_UNSAID || sets[i]->ar_said == AR_SAID_BEFORE;
    }
    return focus || (unsaid && (noted || carrying->lines.count));
}

static void take_days(struct carrying *carrying, struct set **sets, size_t count)
{
    bool in_order = true;
    for (size_t i = 1; i < count && in_order; i++)
        in_order = by_day(&sets[i - 1], &sets[i]) < 0;
    if (!in_order)
        qsort(sets, count, sizeof *sets, by_day);
    carrying->next = ARENA_ARRAY(carrying->scratch, uint32_t, count);
    for (size_t i = 0, end; i < count; i = end) {
        for (end = i + 1; end < count && sets[end]->day == sets[i]->day && sets[end]->file == sets[i]->file;)
            end++;
        take_day(carrying, &sets[i], (uint32_t)(end - i));
    }
}

static void remember_idle_lines(struct carrying *carrying)
{
    for (size_t i = 0; i < carrying->lines.count; i++)
        if (carrying->lines.items[i].ar && !carrying->lines.items[i].sets)
            *LIST_ADD(carrying->own, &carrying->idle) = carrying->lines.items[i].line;
}

/* The sets of one lifter, in the order of their files. True: some were changed. */
static bool take_lifter(struct carrying *carrying, uint32_t lifter, struct set **sets, size_t count)
{
    read_lines(carrying, names_text(carrying->log->lifters, lifter));
    carrying->changed = false;
    if (is_worth_it(carrying, sets, count))
        take_days(carrying, sets, count);
    remember_idle_lines(carrying);
    return carrying->changed;
}

/* --- all of them -------------------------------------------------------------------------------------------------- */

static void take_log(struct carrying *carrying)
{
    struct log *log = carrying->log;
    size_t lifters = names_count(log->lifters);
    size_t *start = ARENA_ARRAY(carrying->own, size_t, lifters + 2);
    struct set **sets = ARENA_ARRAY(carrying->own, struct set *, log->sets.count);
    for (size_t i = 0; i < log->sets.count; i++)
        start[log->sets.items[i].lifter + 2]++;
    for (size_t i = 2; i <= lifters; i++)
        start[i] += start[i - 1];
    for (size_t i = 0; i < log->sets.count; i++)
        sets[start[log->sets.items[i].lifter + 1]++] = &log->sets.items[i];
    for (uint32_t i = 0; i < lifters; i++)
        if (start[i + 1] > start[i])
            take_lifter(carrying, i, sets + start[i], start[i + 1] - start[i]);
}

/* For sets in a set store, one lifter at a time. */
static void take_set_store(struct carrying *carrying)
{
    struct log *log = carrying->log, one = *log;
    one.sets.items = NULL;
    one.sets.count = one.sets.capacity = 0;
    one.arena = arena_new();
    for (uint32_t i = 0; i < names_count(log->lifters); i++) {
        one.sets.count = 0;
        set_store_read(log->set_store, &one, i);
        struct set **sets = ARENA_ARRAY(carrying->scratch, struct set *, one.sets.count);
        for (size_t k = 0; k < one.sets.count; k++)
            sets[k] = &one.sets.items[k];
        if (one.sets.count && take_lifter(carrying, i, sets, one.sets.count))
            set_store_replace(log->set_store, i, one.sets.items, one.sets.count);
        arena_reset(carrying->scratch);
    }
    arena_free(one.arena);
}

/* --- messages ----------------------------------------------------------------------------------------------------- */

static struct place place_of(const struct carrying *carrying, const struct count *count)
{
    return (struct place){.file = carrying->log->files.items[count->file].path, .line = count->line};
}

static void say(const struct carrying *carrying)
{
    struct diags *diags = carrying->reading->diags;
    const struct gym *gym = carrying->reading->gym;
    size_t carried = carrying->carried.sets, left = carrying->left.sets, given = carrying->given.sets;
    bool all_stay = stays(carrying);
    if (carried)
        diag_add(diags, DIAG_AR_CARRIED, place_of(carrying, &carrying->carried), NULL, NULL,
                 "%zu %s the chains or bands of the note on the first set of %s lift and day, here first", carried,
                 carried == 1 ? "set carries" : "sets carry", carried == 1 ? "its" : "their");
    if (left)
        diag_add(diags, DIAG_AR_NOT_CARRIED, place_of(carrying, &carrying->left), NULL, NULL,
                 all_stay ? "%zu %s without chains or bands, though the note on the first set of that lift and day "
                            "names some; here first"
                          : "%zu %s without chains or bands: the note on the first set of that lift and day names "
                            "some, at another straight weight; here first",
                 left, left == 1 ? "set is" : "sets are");
    if (given)
        diag_add(diags, DIAG_AR_GIVEN, place_of(carrying, &carrying->given), NULL, NULL,
                 "%zu %s chains or bands from an ar = line of the gym file, here first", given,
                 given == 1 ? "set has its" : "sets have their");
    for (size_t i = 0; i < carrying->idle.count; i++)
        diag_add(
            diags, DIAG_GYM_REMARK, (struct place){.file = gym->path, .line = carrying->idle.items[i]->at.line}, NULL,
            "it applies to sets of that lift, those days and that focus, if the log gives no chains or bands for them",
            "this ar = line applies to no set");
}

static bool any_lines(const struct gym *gym)
{
    for (size_t i = 0; i < gym->lifter_count; i++)
        if (gym->lifters[i].ar_line_count)
            return true;
    return false;
}

static bool notes_count(const struct log *log)
{
    for (size_t i = 0; i < log->sets.count; i++)
        if (log->sets.items[i].ar_said == AR_SAID_IN_NOTE || log->sets.items[i].focus_noted)
            return true;
    return log->set_store && set_store_notes_count(log->set_store);
}

void carry_ar(struct reading *reading)
{
    struct carrying carrying = {.reading = reading, .log = reading->log, .own = arena_new(), .scratch = arena_new()};
    if (notes_count(reading->log) || any_lines(reading->gym)) {
        carrying.lifts = ARENA_ARRAY(carrying.own, struct day_sets, names_count(reading->log->lifts));
        if (reading->log->sets.count)
            log_expand(reading->log); /* sets with loads in % may still be in log->sets */
        if (reading->log->set_store)
            take_set_store(&carrying);
        else
            take_log(&carrying);
        say(&carrying);
    }
    arena_free(carrying.scratch);
    arena_free(carrying.own);
}
