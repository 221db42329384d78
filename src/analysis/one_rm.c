#include "analysis/one_rm.h"

#include "analysis/statistics/statistics.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

#define MOST_REPETITIONS 10.0 /* Reynolds, Gordon & Robergs 2006: linear equations hold up to 10 */
#define MOST_IN_RESERVE 4.0   /* self-rated reserve errs by more than 2 beyond: Hackett et al. 2017 */

static double raw_EPLEY(double w, double r) /* Epley 1985, Poundage chart: w (1 + r/30) */
{
    return w * (1 + r / 30);
}

static double raw_BRZYCKI(double w, double r) /* Brzycki 1993, JOPERD 64(1):88–90: 36 w / (37 − r) */
{
    return w * 36 / (37 - r);
}

static double raw_LOMBARDI(double w, double r) /* Lombardi 1989, Beginning Weight Training: w r^0.10 */
{
    return w * pow(r, 0.10);
}

static double raw_MAYHEW(double w, double r) /* Mayhew et al. 1992, J Appl Sport Sci Res 6(4):200–206 */
{
    return 100 * w / (52.2 + 41.9 * exp(-0.055 * r));
}

static double raw_WATHAN(double w, double r) /* Wathan 1994, in Baechle (ed.) */
{
    return 100 * w / (48.8 + 53.8 * exp(-0.075 * r));
}

static double raw_OCONNER(double w, double r) /* O'Conner et al. 1989: w (1 + 0.025 r) */
{
    return w * (1 + 0.025 * r);
}

static double raw_LANDER(double w, double r) /* Lander 1985, NSCA J 6:60–61 */
{
    return 100 * w / (101.3 - 2.67123 * r);
}

static const struct
{
    const char *name;
    double (*raw)(double w, double r);
} formulas[] = {
#define X(id, name) {name, raw_##id},
    E1RM_FORMULAS(X)
#undef X
};

bool e1rm_formula_read(const char *name, enum e1rm_formula *formula)
{
    for (int i = 0; i < E1RM_COUNT; i++) {
        if (text_same_name(name, formulas[i].name)) {
            *formula = (enum e1rm_formula)i;
            return true;
        }
    }
    return false;
}

const char *e1rm_formula_name(enum e1rm_formula formula)
{
    return formulas[formula].name;
}

double e1rm_raw(enum e1rm_formula formula, double load_kg, double repetitions)
{
    return formulas[formula].raw(load_kg, repetitions);
}

double e1rm_of_set(enum e1rm_formula formula, double load_kg, int reps, double rpe, double rir)
{
    double reserve = !isnan(rir) ? rir : !isnan(rpe) ? 10 - rpe : 0;
    double effective = reps + reserve;
    if (!(load_kg > 0) || reps < 1 || reserve < 0 || reserve > MOST_IN_RESERVE || effective > MOST_REPETITIONS)
        return NAN;
    return effective <= 1 ? load_kg : e1rm_raw(formula, load_kg, effective);
}

char *one_rm_print(char *buffer, const struct one_rm *one_rm)
{
    *buffer = 0;
    if (one_rm->from != ONE_RM_NONE)
        date_print(stpcpy(buffer, one_rm->from == ONE_RM_TESTED ? "tested " : "estimated "), one_rm->day);
    return buffer;
}

void one_rm_offer(struct one_rm *tested, day_number day, double kg)
{
    if (tested->from == ONE_RM_NONE || day > tested->day || (day == tested->day && kg > tested->kg))
        *tested = (struct one_rm){kg, day, ONE_RM_TESTED};
}

/* Less by more than the last bits, in which machines differ: of equal estimates the later one counts. */
static bool is_less(double a_kg, double b_kg)
{
    return a_kg < b_kg && difference(a_kg, b_kg) < 0;
}

/* --- combining estimates ------------------------------------------------------------------------------------------ */

bool effort_is_sure(double rpe, double rir)
{
    return !isnan(rir) ? rir <= 10 - EFFORT_SURE : rpe >= EFFORT_SURE;
}

void rated_clear(struct rated *rated)
{
    rated->count = rated->first = 0;
    rated->newest = (struct one_rm){0, NO_DAY, ONE_RM_NONE};
}

/* The second best day's estimate, or the best one if a high effort backs it up. */
static struct one_rm vouched_for(const struct rated *rated)
{
    struct one_rm best = NO_ONE_RM, second = NO_ONE_RM, sure = NO_ONE_RM;
    for (size_t i = rated->first; i < rated->count; i++) {
        const struct rated_day *item = &rated->items[i];
        struct one_rm own = {item->kg, item->day, ONE_RM_ESTIMATED};
        if (item->sure_kg > 0 && !is_less(item->sure_kg, sure.kg))
            sure = (struct one_rm){item->sure_kg, item->day, ONE_RM_ESTIMATED};
        if (!is_less(own.kg, best.kg)) {
            second = best;
            best = own;
        } else if (!is_less(own.kg, second.kg)) {
            second = own;
        }
    }
    if (second.from != ONE_RM_NONE && !is_less(second.kg, best.kg))
        second = best;
    return !is_less(sure.kg, second.kg) && sure.from != ONE_RM_NONE ? sure : second;
}

struct one_rm one_rm_rated(struct rated *rated, day_number day)
{
    struct rated within = *rated;
    while (rated->first < rated->count && day - rated->items[rated->first].day > ESTIMATE_DAYS)
        rated->first++;
    within.first = rated->first;
    if (within.count > within.first && within.items[within.count - 1].day == day)
        within.count--;
    struct one_rm one_rm = vouched_for(&within);
    if (one_rm.from != ONE_RM_NONE) {
        rated->newest = one_rm;
        rated->newest.day = day;
    }
    return one_rm;
}

void rated_add(struct arena *arena, struct rated *rated, day_number day, double load_kg, double kg, bool sure)
{
    const struct one_rm *newest = &rated->newest;
    bool light = newest->kg > 0 && day - newest->day <= RATED_NEWEST_DAYS && load_kg < RATED_LEAST_SHARE * newest->kg;
    if (isnan(kg) || light)
        return;
    struct rated_day *last = rated->count > rated->first ? &rated->items[rated->count - 1] : NULL;
    if (!last || last->day != day) {
        if (rated->count == rated->first)
            rated->count = rated->first = 0;
        last = LIST_ADD(arena, rated);
        *last = (struct rated_day){.day = day, .kg = kg};
    }
    last->kg = fmax(last->kg, kg);
    if (sure)
        last->sure_kg = fmax(last->sure_kg, kg);
}
