#include "model/geometry/catenary.h"

#include "model/numeric.h"

#include <math.h>

#define PLUMB_M 1e-6 /* a pin this near is straight below or above the bar */
#define TAUT 1e-9    /* of its length: shorter than this it is a straight line that nothing can lift */

static double drop_m(const struct pinned_strand *strand)
{
    return strand->end_m - strand->pin_m;
}

bool catenary_reaches(const struct pinned_strand *strand)
{
    return hypot(strand->aside_m, drop_m(strand)) < strand->length_m * (1 - TAUT);
}

/* Both ends straight down: to the floor, or to the bend between them. */
static struct catenary plumb(const struct pinned_strand *strand)
{
    double lying = strand->length_m - strand->aside_m - strand->end_m - strand->pin_m;
    if (lying >= 0)
        return (struct catenary){strand->end_m, 1, 0, lying + strand->aside_m};
    return (struct catenary){(strand->length_m + drop_m(strand)) / 2, 0.5, 0, 0};
}

/* --- free of the floor --- */

/* ln(sinh u / u), less a goal; its series where u is small, and no overflow where it is large. */
static double sag(double u, void *goal)
{
    double square = u * u, series = square * (1.0 / 6 - square * (1.0 / 180 - square * (1.0 / 2835 - square / 37800)));
    return (u < 0.1 ? series : u + log1p(-exp(-2 * u)) - log(2 * u)) - *(const double *)goal;
}

/* With L = ln(sqrt(l² − v²) / a) the root is below 2 L + 2, since u - ln(2 u) is more than L there. */
static double solve_sag(const struct pinned_strand *strand)
{
    double length = strand->length_m, v = drop_m(strand);
    double goal = log((length - v) * (length + v)) / 2 - log(strand->aside_m);
    return goal > 0 ? numeric_root(sag, &goal, 0, 2 * goal + 2) : 0;
}

static struct catenary hang_free(const struct pinned_strand *strand, double u)
{
    double length = strand->length_m, v = drop_m(strand), a = strand->aside_m;
    double coth = 1 / tanh(u), sinh_u = sinh(u);
    /* d ln(sinh u / u) = (coth u - 1 / u) du = - v / (l² - v²) dv */
    double u_rate = -v / ((length - v) * (length + v)) / (coth - 1 / u);
    return (struct catenary){
        .carried_m = (length + v * coth) / 2,
        .carried_rate = (coth - (isfinite(sinh_u) ? v * u_rate / (sinh_u * sinh_u) : 0)) / 2,
        .level_m = a / (2 * u),
    };
}

/* Its lowest point lies between the ends and below the floor. */
static bool dips_below_floor(const struct pinned_strand *strand, double u)
{
    double middle = atanh(drop_m(strand) / strand->length_m), c = strand->aside_m / (2 * u);
    return middle + u > 0 && middle - u < 0 && c * (cosh(middle + u) - 1) > strand->end_m;
}

/* --- partly on the floor --- */

static double rising_m(double height_m, double c)
{
    return sqrt(height_m * (height_m + 2 * c));
}

static double run_m(double height_m, double c)
{
    return c > 0 ? c * acosh(1 + height_m / c) : 0;
}

/* What the way is shorter than the chain, at this c, less what it is. */
static double slack(double c, void *context)
{
    const struct pinned_strand *strand = context;
    double shorter = rising_m(strand->end_m, c) - run_m(strand->end_m, c) + rising_m(strand->pin_m, c) -
                     run_m(strand->pin_m, c);
    return shorter - (strand->length_m - strand->aside_m);
}

/* d (s − x) / dc of one end. */
static double slack_rate(double height_m, double c)
{
    return height_m > 0 ? 2 * height_m / rising_m(height_m, c) - acosh(1 + height_m / c) : 0;
}

static struct catenary lie_partly(const struct pinned_strand *strand)
{
    double most = 1;
    if (slack(0, (void *)strand) <= 0)
        return plumb(strand);
    while (slack(most, (void *)strand) > 0)
        most *= 2;
    double c = numeric_root(slack, (void *)strand, 0, most), end = strand->end_m, s = rising_m(end, c);
    struct catenary lying = {
        .carried_m = s, .level_m = c, .floor_m = strand->length_m - s - rising_m(strand->pin_m, c)};
    double c_rate = s > 0 && c > 0 ? -(end / s) / (slack_rate(end, c) + slack_rate(strand->pin_m, c)) : 0;
    lying.carried_rate = s > 0 ? (end + c + end * c_rate) / s : 0; /* at the floor it rises as a root: without end */
    return lying;
}

struct catenary catenary_of(const struct pinned_strand *strand)
{
    if (!catenary_reaches(strand))
        return (struct catenary){NAN, NAN, NAN, 0};
    if (strand->aside_m < PLUMB_M)
        return plumb(strand);
    double u = solve_sag(strand);
    return dips_below_floor(strand, u) ? lie_partly(strand) : hang_free(strand, u);
}
