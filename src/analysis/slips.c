#include "analysis/slips.h"

#include "analysis/statistics/statistics.h"
#include "base/number.h"

#include <math.h>
#include <string.h>

#define SAME_KG 1e-6  /* rounding left over from unit conversion */
#define ROBUST 1.4826 /* from the median of deviations to the standard deviation, if errors are normal */
#define LEAST_EQUAL 3 /* sets that agree, so that another one is odd */
#define END_CHANGE                                                                                                     \
    1.2         /* a last set this much heavier or lighter is not a top or back-off set with the same repetitions */
#define REACH 4 /* sessions to each side */
#define REACH_WEEKS 8 /* and none further away than this */
#define LEAST_AROUND 3
#define TOO_HEAVY 1.12       /* of the heaviest around */
#define TOO_HEAVY_NEWEST 1.3 /* after a break the load rises fast, and there is no later session to compare with */
#define TOO_LIGHT 0.62       /* of the lightest session around, if a single slip of the finger explains it */
#define FAR_TOO_LIGHT 0.33   /* the same without that */
#define FAR_TOO_HEAVY 3.0
#define HAMPEL 3   /* robust deviations */
#define RESERVE 4  /* extra repetitions that a set of fewer may have had in reserve */
#define WEIGHTS 64 /* limit on sets that are searched, of an endless session and for what was meant */

#define MOST_BY_HAND 1e6
#define KEYS (2 * (FOCUS_TEST + 1))

struct bout /* the work of one day, which is compared with that of other days */
{
    struct evaluated_set **sets; /* by place in the log */
    size_t count;
    week_number week;
    double heaviest_kg;
    int reps; /* the most done with the heaviest weight */
};

struct search
{
    struct arena *scratch;
    const struct training *training;
    struct slips *slips;
    struct bout *bouts;
    size_t count;
};

/* --- one slip of the finger ----------------------------------------------------------------------------------------- */

bool is_one_slip(const char *a, const char *b)
{
    size_t left = strlen(a), right = strlen(b), head = 0, tail = 0;
    if (left > right)
        return is_one_slip(b, a);
    while (head < left && a[head] == b[head])
        head++;
    while (tail < left - head && a[left - 1 - tail] == b[right - 1 - tail])
        tail++;
    size_t odd = left - head - tail; /* the differing part of the shorter text */
    if (right - left == 1)
        return odd == 0;
    if (right != left)
        return false;
    return odd == 1 || (odd == 2 && a[head] == b[head + 1] && a[head + 1] == b[head]);
}

/* As a lifter would type it: in the file's unit, to a tenth. */
static const char *typed(const struct search *search, const struct evaluated_set *set, double kg, char *buffer,
                         size_t size)
{
    const struct log *log = search->training->log;
    enum mass_unit unit = set->set->file < log->files.count ? log->files.items[set->set->file].unit : UNIT_KG;
    double number = kg_to(kg, unit), tenths = round(10 * number);
    if (number >= 0 && number < MOST_BY_HAND && fabs(10 * number - tenths) < SAME_KG) { /* nearly always: measured */
        char *end = buffer + number_print_whole(buffer, (long)(tenths / 10));
        int tenth = (int)((long)tenths % 10);
        stpcpy(end, (const char[]){tenth ? '.' : 0, (char)('0' + tenth), 0});
        return buffer;
    }
    number_fixed(buffer, size, number, 1);
    char *point = strchr(buffer, '.');
    if (point && !strcmp(point, ".0"))
        *point = 0;
    return buffer;
}

static bool could_mean(const struct search *search, const struct evaluated_set *set, double kg)
{
    char written[32], meant[32];
    return is_one_slip(typed(search, set, set->effect->straight_kg, written, sizeof written),
                       typed(search, set, kg, meant, sizeof meant));
}

/* --- what was confirmed --------------------------------------------------------------------------------------------- */

static bool ends_with_path(const char *path, const char *end)
{
    size_t length = strlen(path), tail = strlen(end);
    return tail <= length && !strcmp(path + length - tail, end) && (tail == length || path[length - tail - 1] == '/');
}

bool slip_is_confirmed(const struct training *training, const struct set *set)
{
    const struct gym *gym = training->gym;
    const struct log *log = training->log;
    for (size_t i = 0; i < gym->confirmed_count && set->file < log->files.count; i++)
        if (gym->confirmed[i].line == set->line &&
            ends_with_path(log->files.items[set->file].path, gym->confirmed[i].file))
            return true;
    return false;
}

static void doubt(struct search *search, struct evaluated_set *set, enum slip_kind kind, double around_kg,
                  double likely_kg)
{
    if (set->doubts & DOUBT_SLIP || slip_is_confirmed(search->training, set->set))
        return;
    set->doubts |= DOUBT_SLIP;
    *LIST_ADD(search->slips->arena, &search->slips->list) = (struct slip){set->set, kind, around_kg, likely_kg};
}

/* --- among the sets of a day ---------------------------------------------------------------------------------------- */

static double kg_of(const struct evaluated_set *set)
{
    return set->effect->straight_kg;
}

static bool is_alike(const struct evaluated_set *a, const struct evaluated_set *b)
{
    return fabs(kg_of(a) - kg_of(b)) <= SAME_KG && a->set->reps == b->set->reps && !strcmp(a->ar_key, b->ar_key);
}

static size_t alike_near(const struct bout *bout, size_t at, const struct evaluated_set *set)
{
    size_t count = 0;
    for (size_t i = at > WEIGHTS ? at - WEIGHTS : 0; i < bout->count && i <= at + WEIGHTS; i++)
        count += is_alike(bout->sets[i], set);
    return count;
}

/* Between two equal sets any other weight is odd. After them a top or back-off set may follow, and before them come
 * work-up sets: at those ends, only a slip of the finger counts, and before them only upwards. */
static bool is_odd(const struct search *search, const struct bout *bout, size_t i)
{
    const struct evaluated_set *set = bout->sets[i], *before = i ? bout->sets[i - 1] : NULL,
                               *after = i + 1 < bout->count ? bout->sets[i + 1] : NULL,
                               *beside = before ? before : after;
    double ratio = kg_of(set) / kg_of(beside);
    if (set->set->reps != beside->set->reps || strcmp(set->ar_key, beside->ar_key) != 0 ||
        fabs(kg_of(set) - kg_of(beside)) <= SAME_KG || alike_near(bout, i, beside) < LEAST_EQUAL)
        return false;
    if (before && after)
        return is_alike(before, after);
    bool far = ratio > END_CHANGE || (before && ratio < 1 / END_CHANGE);
    return far && could_mean(search, set, kg_of(beside));
}

static void find_among_sets(struct search *search, const struct bout *bout)
{
    if (bout->count <= LEAST_EQUAL)
        return;
    for (size_t i = 0; i < bout->count; i++) {
        if (!is_odd(search, bout, i))
            continue;
        double usual_kg = kg_of(bout->sets[i ? i - 1 : i + 1]);
        doubt(search, bout->sets[i], SLIP_AMONG_SETS, usual_kg,
              could_mean(search, bout->sets[i], usual_kg) ? usual_kg : NAN);
    }
}

/* --- among the sessions around -------------------------------------------------------------------------------------- */

struct around
{
    size_t first, end; /* range of bouts, including the one in the middle */
    size_t count, later;
    double heaviest_kg, lightest_kg; /* of their heaviest sets */
    int reps;                        /* the most done with the heaviest */
};

static struct around look_around(const struct search *search, size_t middle)
{
    const struct bout *bouts = search->bouts;
    struct around around = {.first = middle, .end = middle + 1, .lightest_kg = INFINITY};
    while (around.first > 0 && middle - around.first < REACH &&
           bouts[middle].week - bouts[around.first - 1].week <= REACH_WEEKS)
        around.first--;
    while (around.end < search->count && around.end - middle <= REACH &&
           bouts[around.end].week - bouts[middle].week <= REACH_WEEKS)
        around.end++;
    for (size_t i = around.first; i < around.end; i++) {
        const struct bout *bout = &bouts[i];
        if (i == middle)
            continue;
        if (bout->heaviest_kg > around.heaviest_kg + SAME_KG)
            around.reps = 0;
        if (bout->heaviest_kg > around.heaviest_kg - SAME_KG)
            around.reps = bout->reps > around.reps ? bout->reps : around.reps;
        around.heaviest_kg = fmax(around.heaviest_kg, bout->heaviest_kg);
        around.lightest_kg = fmin(around.lightest_kg, bout->heaviest_kg);
    }
    around.count = around.end - around.first - 1;
    around.later = around.end - 1 - middle;
    return around;
}

/* How much heavier fewer repetitions may be: compared with the repetitions done with the heaviest around, and the
 * reserve that set may have had, by Epley's 1 + r/30. */
static double allowance(int reps, int around_reps)
{
    return reps >= around_reps ? 1 : (1 + (around_reps + RESERVE) / 30.0) / (1 + reps / 30.0);
}

/* The running median and its robust deviation, from the heaviest sets of the sessions around. */
static bool is_beyond_hampel(struct search *search, const struct around *around, size_t middle, double kg,
                             double *median_kg)
{
    double values[2 * REACH] = {0}, deviations[2 * REACH];
    size_t count = 0;
    for (size_t i = around->first; i < around->end; i++)
        if (i != middle)
            values[count++] = search->bouts[i].heaviest_kg;
    *median_kg = median_of(values, count);
    for (size_t i = 0; i < count; i++)
        deviations[i] = fabs(values[i] - *median_kg);
    return fabs(kg - *median_kg) > HAMPEL * ROBUST * median_of(deviations, count);
}

/* The weight of a session around that a single slip of the finger turns into this one; if there are several, the one
 * nearest to the usual weight. */
static double meant_kg(const struct search *search, const struct around *around, const struct evaluated_set *set,
                       double usual_kg)
{
    double likely_kg = NAN, before_kg = NAN; /* skips repeats: most sets of a session weigh the same */
    size_t looked_at = 0;
    for (size_t i = around->first; i < around->end; i++)
        for (size_t j = 0; j < search->bouts[i].count && looked_at < WEIGHTS; j++, looked_at++) {
            double kg = kg_of(search->bouts[i].sets[j]);
            if (fabs(kg - usual_kg) > fabs(likely_kg - usual_kg) || fabs(kg / usual_kg - 1) > 1 - TOO_LIGHT)
                continue;
            if (fabs(kg - before_kg) <= 0)
                continue;
            before_kg = kg;
            if (could_mean(search, set, kg))
                likely_kg = kg;
        }
    return likely_kg;
}

static bool is_too_heavy(const struct around *around, const struct evaluated_set *set)
{
    double room = allowance(set->set->reps, around->reps) * around->heaviest_kg;
    return kg_of(set) > room * (around->later ? TOO_HEAVY : TOO_HEAVY_NEWEST) + SAME_KG;
}

static void find_heavy(struct search *search, const struct around *around, size_t middle)
{
    const struct bout *bout = &search->bouts[middle];
    if (!(bout->heaviest_kg > around->heaviest_kg)) /* the usual case: no set is too heavy */
        return;
    for (size_t i = 0; i < bout->count; i++) {
        struct evaluated_set *set = bout->sets[i];
        double usual_kg;
        if (!is_too_heavy(around, set) || !is_beyond_hampel(search, around, middle, kg_of(set), &usual_kg))
            continue;
        doubt(search, set, SLIP_AMONG_WEEKS, usual_kg, meant_kg(search, around, set, usual_kg));
    }
}

static void find_light(struct search *search, const struct around *around, size_t middle)
{
    const struct bout *bout = &search->bouts[middle];
    double usual_kg, limit_kg = around->lightest_kg * TOO_LIGHT;
    if (!(bout->heaviest_kg < limit_kg - SAME_KG) ||
        !is_beyond_hampel(search, around, middle, bout->heaviest_kg, &usual_kg))
        return;
    for (size_t i = 0; i < bout->count; i++) {
        struct evaluated_set *set = bout->sets[i];
        double likely_kg = NAN;
        if (kg_of(set) < bout->heaviest_kg - SAME_KG)
            continue;
        likely_kg = meant_kg(search, around, set, usual_kg);
        if (!isnan(likely_kg) || kg_of(set) < around->lightest_kg * FAR_TOO_LIGHT)
            doubt(search, set, SLIP_AMONG_WEEKS, usual_kg, likely_kg);
    }
}

/* --- one lift ------------------------------------------------------------------------------------------------------- */

/* Speed work is compared with speed work, and sets with chains or bands with other such sets. A test is not compared
 * with anything. */
static int key_of(const struct evaluated_set *set)
{
    bool counts = is_work(set) && kg_of(set) > 0 && set->set->weight->straight != STRAIGHT_PERCENT;
    return counts && set->set->focus != FOCUS_TEST ? 2 * set->set->focus + set->has_ar : -1;
}

static void add_to_bouts(struct search *search, struct evaluated_set **at, const struct evaluated_set *before)
{
    struct evaluated_set *set = *at;
    if (!before || before->set->day != set->set->day)
        search->bouts[search->count++] = (struct bout){.sets = at, .week = set->week};
    struct bout *bout = &search->bouts[search->count - 1];
    if (kg_of(set) > bout->heaviest_kg + SAME_KG)
        bout->reps = 0;
    if (kg_of(set) > bout->heaviest_kg - SAME_KG)
        bout->reps = set->set->reps > bout->reps ? set->set->reps : bout->reps;
    bout->heaviest_kg = fmax(bout->heaviest_kg, kg_of(set));
    bout->count++;
}

static void find_of_key(struct search *search, struct evaluated_set **sets, size_t count, int key)
{
    struct evaluated_set **chosen = arena_room(search->scratch, count * sizeof(struct evaluated_set *));
    size_t chosen_count = 0;
    search->bouts = arena_room(search->scratch, count * sizeof *search->bouts);
    search->count = 0;
    for (size_t i = 0; i < count; i++) {
        if (key_of(sets[i]) != key)
            continue;
        chosen[chosen_count] = sets[i];
        add_to_bouts(search, &chosen[chosen_count], chosen_count ? chosen[chosen_count - 1] : NULL);
        chosen_count++;
    }
    for (size_t i = 0; i < search->count; i++) {
        find_among_sets(search, &search->bouts[i]);
        struct around around = look_around(search, i);
        if (around.count < LEAST_AROUND)
            continue;
        find_heavy(search, &around, i);
        find_light(search, &around, i);
    }
}

void slips_find(struct evaluated_set **sets, size_t count, const struct training *training, struct slips *slips)
{
    struct search search = {.scratch = arena_new(), .training = training, .slips = slips};
    bool present[KEYS] = {false};
    for (size_t i = 0; i < count; i++) {
        int key = key_of(sets[i]);
        if (key >= 0)
            present[key] = true;
    }
    for (int key = 0; key < KEYS; key++)
        if (present[key])
            find_of_key(&search, sets, count, key);
    arena_free(search.scratch);
}
