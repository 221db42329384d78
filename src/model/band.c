#include "model/band.h"

#include "model/band_fit.h"
#include "model/geometry/wrap.h"
#include "model/measured_band.h"
#include "model/numeric.h"

#include <gsl/gsl_interp.h>

#include <math.h>

#define OVER_RANGE 0.05 /* of the calibrated extension */

struct cubic /* a + b dx + c dx² + d dx³ from its knot to the next */
{
    double a, b, c, d;
};

struct band_curve
{
    double flat_m, end_m;
    double end_kg, end_slope; /* the line from the end on */
    double c1_kg, c2_kg;      /* of a law; unused where there are cubics */
    double *knots;            /* flat, points; or flat, end of a law */
    size_t knot_count;
    const struct cubic *cubics; /* knot_count − 1; NULL: a law */
    bool one_point;
};

/* --- curves --- */

/* The flat length at no pull, then the usable points. */
static size_t usable_points(const struct calibration *calibration, double *lengths, double *pulls)
{
    size_t count = 1;
    lengths[0] = calibration->flat_m;
    pulls[0] = 0;
    for (size_t i = 0; i < calibration->point_count; i++) {
        const struct tension_point *point = &calibration->points[i];
        if (!(point->length_m > lengths[count - 1]) || !isfinite(point->length_m) || !isfinite(point->pull_kg))
            continue;
        lengths[count] = point->length_m;
        pulls[count++] = point->pull_kg;
    }
    return count;
}

/* Steffen 1990, Astron. Astrophys. 239:443–450: monotone between points that are. GSL finds the cubics; they are read
 * off its values and derivatives at the knots, so that nothing of GSL's has to be kept and freed. */
static const struct cubic *steffen_cubics(struct arena *arena, const double *x, const double *y, size_t count)
{
    gsl_interp *interpolant = gsl_interp_alloc(gsl_interp_steffen, count);
    if (gsl_interp_init(interpolant, x, y, count)) {
        gsl_interp_free(interpolant);
        return NULL;
    }
    struct cubic *cubics = ARENA_ARRAY(arena, struct cubic, count - 1);
    for (size_t i = 0; i + 1 < count; i++) {
        double width = x[i + 1] - x[i];
        struct cubic cubic = {.a = y[i]};
        cubic.b = gsl_interp_eval_deriv(interpolant, x, y, x[i], NULL);
        cubic.c = gsl_interp_eval_deriv2(interpolant, x, y, x[i], NULL) / 2;
        cubic.d = ((y[i + 1] - y[i]) / width - cubic.b - cubic.c * width) / (width * width);
        cubics[i] = cubic;
    }
    gsl_interp_free(interpolant);
    return cubics;
}

static double law_slope(const struct band_curve *curve, double length_m)
{
    double ratio = length_m / curve->flat_m, square = ratio * ratio;
    double rise = (1 + 2 / (square * ratio)) * (curve->c1_kg + curve->c2_kg / ratio);
    return (rise - (ratio - 1 / square) * curve->c2_kg / square) / curve->flat_m;
}

static bool take_law(struct arena *arena, struct band_curve *curve, struct calibration calibration)
{
    bool given = calibration.law != LAW_MEASURED && (fabs(calibration.c1_kg) > 0 || fabs(calibration.c2_kg) > 0);
    if (!given)
        calibration_fit(&calibration);
    if (calibration.law == LAW_MEASURED || !isfinite(calibration.c1_kg))
        return false;
    curve->one_point = calibration.one_point;
    curve->c1_kg = calibration.c1_kg;
    curve->c2_kg = calibration.law == LAW_MOONEY_RIVLIN && isfinite(calibration.c2_kg) ? calibration.c2_kg : 0;
    curve->end_m = calibration.range_high_m > curve->flat_m ? calibration.range_high_m : INFINITY;
    curve->knot_count = isfinite(curve->end_m) ? 2 : 1;
    curve->knots = ARENA_ARRAY(arena, double, 2);
    curve->knots[0] = curve->flat_m;
    curve->knots[1] = curve->end_m;
    if (isfinite(curve->end_m)) {
        curve->end_kg = band_law_pull_kg(curve->c1_kg, curve->c2_kg, curve->end_m / curve->flat_m);
        curve->end_slope = law_slope(curve, curve->end_m);
    }
    return true;
}

/* Steffen's end slopes are the secants: the line beyond continues the last one. */
static bool take_points(struct arena *arena, struct band_curve *curve, const double *pulls)
{
    size_t last = curve->knot_count - 1;
    curve->cubics = steffen_cubics(arena, curve->knots, pulls, curve->knot_count);
    curve->end_m = curve->knots[last];
    curve->end_kg = pulls[last];
    curve->end_slope = (pulls[last] - pulls[last - 1]) / (curve->knots[last] - curve->knots[last - 1]);
    return curve->cubics != NULL;
}

const struct band_curve *band_curve_new(struct arena *arena, const struct calibration *calibration)
{
    numeric_ready();
    if (!(calibration->flat_m > 0) || !isfinite(calibration->flat_m))
        return NULL;
    struct band_curve *curve = ARENA_NEW(arena, struct band_curve);
    double *pulls = ARENA_ARRAY(arena, double, calibration->point_count + 1);
    curve->flat_m = calibration->flat_m;
    curve->knots = ARENA_ARRAY(arena, double, calibration->point_count + 1);
    curve->knot_count = usable_points(calibration, curve->knots, pulls);
    bool enough = curve->knot_count >= gsl_interp_type_min_size(gsl_interp_steffen);
    bool taken = calibration->law == LAW_MEASURED && enough ? take_points(arena, curve, pulls)
                                                            : take_law(arena, curve, *calibration);
    return taken ? curve : NULL;
}

const struct band_curve *band_lowering_curve_new(struct arena *arena, const struct calibration *calibration)
{
    struct calibration lowering = {.flat_m = calibration->flat_m,
                                   .points = calibration->lowering,
                                   .point_count = calibration->lowering_count,
                                   .law = LAW_MEASURED,
                                   .c1_kg = NAN,
                                   .c2_kg = NAN,
                                   .range_low_m = NAN,
                                   .range_high_m = NAN};
    return lowering.point_count ? band_curve_new(arena, &lowering) : NULL;
}

bool band_pulls_more_let_go(const struct band_curve *stretched, const struct tension_point *point)
{
    double pull_kg = band_pull_kg(stretched, point->length_m), spread_kg = point->pull_kg - pull_kg;
    double first_m = stretched->cubics ? stretched->knots[1] : stretched->flat_m;
    return point->length_m >= first_m && point->length_m <= stretched->end_m &&
           spread_kg > fmax(REPEATABILITY * pull_kg, SCALE_STEP_KG);
}

static const struct cubic *cubic_at(const struct band_curve *curve, double length_m, double *within)
{
    size_t i = gsl_interp_bsearch(curve->knots, length_m, 0, curve->knot_count - 1);
    *within = length_m - curve->knots[i];
    return &curve->cubics[i];
}

double band_pull_kg(const struct band_curve *curve, double length_m)
{
    double within, pull;
    if (!(length_m > curve->flat_m))
        return 0;
    if (length_m >= curve->end_m) {
        pull = curve->end_kg + curve->end_slope * (length_m - curve->end_m);
    } else if (curve->cubics) {
        const struct cubic *cubic = cubic_at(curve, length_m, &within);
        pull = cubic->a + within * (cubic->b + within * (cubic->c + within * cubic->d));
    } else {
        pull = band_law_pull_kg(curve->c1_kg, curve->c2_kg, length_m / curve->flat_m);
    }
    return fmax(pull, 0);
}

double band_pull_slope_kg_per_m(const struct band_curve *curve, double length_m)
{
    double within;
    if (!(length_m >= curve->flat_m) || (length_m > curve->flat_m && band_pull_kg(curve, length_m) <= 0))
        return 0;
    if (length_m >= curve->end_m)
        return curve->end_slope;
    if (!curve->cubics)
        return law_slope(curve, length_m);
    const struct cubic *cubic = cubic_at(curve, length_m, &within);
    return cubic->b + within * (2 * cubic->c + within * 3 * cubic->d);
}

double band_flat_m(const struct band_curve *curve)
{
    return curve->flat_m;
}

double band_end_m(const struct band_curve *curve)
{
    return curve->end_m;
}

bool band_rests_on_one_point(const struct band_curve *curve)
{
    return curve->one_point;
}

bool band_over_range(const struct band_curve *curve, double length_m)
{
    return length_m > curve->end_m + OVER_RANGE * (curve->end_m - curve->flat_m);
}

size_t band_knot_count(const struct band_curve *curve)
{
    return curve->knot_count;
}

double band_knot_m(const struct band_curve *curve, size_t knot)
{
    return curve->knots[knot];
}

/* --- rigs --- */

/* Stretch per distance, dx/dd. */
static double rig_ratio(enum rig rig, double flat_m, double hitch_m)
{
    if (rig == RIG_DOUBLED)
        return 2;
    return rig == RIG_CHOKED && hitch_m < flat_m ? flat_m / (flat_m - hitch_m) : 1;
}

double rig_stretch_m(enum rig rig, double distance_m, double flat_m, double hitch_m)
{
    return distance_m * rig_ratio(rig, flat_m, hitch_m);
}

double rig_distance_m(enum rig rig, double stretch_m, double flat_m, double hitch_m)
{
    return stretch_m / rig_ratio(rig, flat_m, hitch_m);
}

static double rig_ends(enum rig rig) /* ends on the bar: folded, the band pulls with both */
{
    return rig == RIG_DOUBLED ? 2 : 1;
}

/* --- round pegs --- */

static bool has_pegs(const struct hung_band *band)
{
    return band->pegs.apart_m > 0 || band->pegs.bar_radius_m > 0 || band->pegs.peg_radius_m > 0;
}

/* Choked, a band ends at the hitch, which holds what lies round the peg. */
static struct wrap_runs runs_at(const struct hung_band *band, double rise_m)
{
    double sign = band->pegs.from_above ? -1 : 1;
    struct wrap wrap = {
        .apart_m = band->pegs.apart_m,
        .aside_m = band->offset_m,
        .spread_m = band->spread_m,
        .bar_radius_m = band->pegs.bar_radius_m,
        .peg_radius_m = band->rig == RIG_CHOKED ? 0 : band->pegs.peg_radius_m,
        .folded = band->rig == RIG_DOUBLED,
    };
    struct wrap_runs runs = wrap_at(&wrap, sign * rise_m);
    runs.down *= sign;
    runs.grows *= sign;
    return runs;
}

/* Folded, the loop is as long as both of its ways from bar to bar, and its stretch is once that way. */
static double pegs_stretch_m(const struct hung_band *band, double round_m)
{
    double once_m = round_m / 2;
    return band->rig == RIG_CHOKED ? rig_stretch_m(RIG_CHOKED, once_m, band_flat_m(band->curve), band->hitch_m)
                                   : once_m;
}

struct reach /* a length that the band has at some rise of the bar */
{
    const struct hung_band *band;
    double length_m;
};

static double beyond_m(double rise_m, void *context)
{
    const struct reach *reach = context;
    double rise = reach->band->pegs.from_above ? -rise_m : rise_m;
    return pegs_stretch_m(reach->band, runs_at(reach->band, rise).length_m) - reach->length_m;
}

/* No band is shorter than the bar is high above its pegs. */
static double pegs_rise_m(const struct hung_band *band, double length_m)
{
    struct reach reach = {band, length_m};
    if (!isfinite(length_m) || beyond_m(0, &reach) >= 0)
        return NAN;
    return numeric_root(beyond_m, &reach, 0, length_m);
}

static struct band_pull pegs_pull(const struct hung_band *band, double rise_m)
{
    struct wrap_runs runs = runs_at(band, rise_m);
    struct band_pull pull = {.distance_m = hypot(rise_m, hypot(band->offset_m, band->spread_m))};
    pull.stretch_m = pegs_stretch_m(band, runs.length_m);
    double strand_kg = band_pull_kg(band->curve, pull.stretch_m) / 2;
    pull.force_kg = rig_ends(band->rig) * 2 * strand_kg;
    pull.vertical_kg = strand_kg * runs.down;
    pull.fore_aft_kg = strand_kg * runs.fore_aft;
    return pull;
}

/* B = T(x) D / 2 with the runs' cosines D:   dB/dh = T' dx/dh D / 2 + T dD/dh / 2 */
static double pegs_slope_kg_per_m(const struct hung_band *band, double rise_m)
{
    struct wrap_runs runs = runs_at(band, rise_m);
    double stretch_m = pegs_stretch_m(band, runs.length_m);
    if (stretch_m <= band_flat_m(band->curve) && runs.grows <= 0) /* higher is slacker */
        return 0;
    double stretch_rate = pegs_stretch_m(band, runs.grows);
    return (band_pull_slope_kg_per_m(band->curve, stretch_m) * stretch_rate * runs.down +
            band_pull_kg(band->curve, stretch_m) * runs.down_per_m) /
           2;
}

/* --- on the bar --- */

double band_rise_m(const struct hung_band *band, double length_m)
{
    if (has_pegs(band))
        return pegs_rise_m(band, length_m);
    double distance = rig_distance_m(band->rig, length_m, band_flat_m(band->curve), band->hitch_m);
    double aside = hypot(band->offset_m, band->spread_m);
    return distance > aside ? sqrt((distance - aside) * (distance + aside)) : NAN;
}

struct band_pull band_at(const struct hung_band *band, double height_m)
{
    double rise = height_m - band->anchor_height_m;
    if (has_pegs(band))
        return pegs_pull(band, rise);
    double distance = hypot(rise, hypot(band->offset_m, band->spread_m));
    struct band_pull pull = {.distance_m = distance};
    pull.stretch_m = rig_stretch_m(band->rig, distance, band_flat_m(band->curve), band->hitch_m);
    pull.force_kg = rig_ends(band->rig) * band_pull_kg(band->curve, pull.stretch_m);
    if (distance > 0) {
        pull.vertical_kg = pull.force_kg * rise / distance;
        pull.fore_aft_kg = pull.force_kg * band->offset_m / distance;
    }
    return pull;
}

double band_lean(const struct hung_band *band, double rise_m)
{
    if (!has_pegs(band))
        return fabs(band->offset_m) / rise_m;
    struct wrap_runs runs = runs_at(band, band->pegs.from_above ? -rise_m : rise_m);
    return fabs(runs.fore_aft / runs.down);
}

double band_load_kg(const struct hung_band *band, double height_m)
{
    return band_at(band, height_m).vertical_kg;
}

/* B = F(d) cos φ with cos φ = (h − z) / d = dd/dh:   dB/dh = F' cos² φ + F (1 − cos² φ) / d */
double band_load_slope_kg_per_m(const struct hung_band *band, double height_m)
{
    if (has_pegs(band))
        return pegs_slope_kg_per_m(band, height_m - band->anchor_height_m);
    struct band_pull pull = band_at(band, height_m);
    double rise = height_m - band->anchor_height_m, flat = band_flat_m(band->curve);
    if (!(pull.distance_m > 0) || (rise < 0 && pull.stretch_m <= flat)) /* higher is slacker under an anchor above */
        return 0;
    double cosine = rise / pull.distance_m;
    double stiffness = rig_ends(band->rig) * rig_ratio(band->rig, flat, band->hitch_m) *
                       band_pull_slope_kg_per_m(band->curve, pull.stretch_m);
    return stiffness * cosine * cosine + pull.force_kg * (1 - cosine * cosine) / pull.distance_m;
}
