/* Which force law fits a measured band, and how two measured bands differ. Pure. */
#ifndef TAUTLINE_ANALYSIS_BAND_FITTING_H
#define TAUTLINE_ANALYSIS_BAND_FITTING_H

#include "base/arena.h"
#include "model/band.h"
#include "model/measured_band.h"

#define LAW_COUNT 3
#define BANDS_DIFFER 0.05 /* in pull: above, a pair is not matched, a band has aged (common practice, no source) */
#define FIT_CONFIDENCE 0.95
#define LAW_MISSES 0.03 /* of the mean pull: above, a law does not fit; tensions are known to about this */

struct law_fit
{
    enum band_law law;
    bool fitted;         /* there are enough points for its constants, and the pull rises over their whole range */
    struct band_fit fit; /* constants; for the measured curve, only the range */
    double residual_kg;  /* standard deviation sqrt(SS / (n − p)); NAN without a spare point, and for the curve */
    double r_squared; /* 1 − SS / Σ (y − mean y)², about the mean though the laws have no constant term; NAN likewise */
    double left_out_kg; /* leave-one-out error: each point but the longest, which would need extrapolation, is predicted
                           from the other points; root mean square of the errors; NAN below three points */
};

enum law_reason
{
    REASON_ONE_POINT,    /* nothing else can be fitted */
    REASON_TWO_POINTS,   /* a law cannot be checked */
    REASON_CURVE_NEARER, /* the measured curve is nearer to points left out */
    REASON_LAW_MISSES,   /* the law is nearer to those, but has an error above LAW_MISSES at its own points */
    REASON_LAW_NEARER
};

struct band_fitting
{
    const struct measured_band *measured;
    struct calibration calibration; /* its points, with the law to use */
    struct law_fit laws[LAW_COUNT]; /* indexed by enum band_law */
    enum band_law use;
    enum law_reason reason;
    enum band_law best_law; /* of the two with constants: Mooney–Rivlin where its second is told apart from 0 */
    const struct band_curve *curve;  /* through the points, whatever law is used */
    const struct band_fitting *down; /* of the same band let go; NULL: not measured */
};

struct band_fittings
{
    LIST(struct band_fitting) list;
};

struct band_fittings band_fittings_make(struct arena *arena, const struct measured_band *bands, size_t count);

struct band_loss /* of one stretch to a length and back, along the curves through the points */
{
    double length_m;        /* the longest that both ways reach */
    double taken_j, lost_j; /* work of stretching; that part of it which letting go does not give back */
};
struct band_loss band_loss_of(const struct band_fitting *fitting); /* it has a way down */

/* Pull by the law at a length; the measured curve's too. */
double law_fit_pull_kg(const struct band_fitting *fitting, enum band_law law, double length_m);
/* Half the width of the interval for the law's own pull there (not for a single reading), by Student's t with n − p
 * degrees of freedom; NAN if there is none. */
double law_fit_interval_kg(const struct band_fitting *fitting, enum band_law law, double length_m, double confidence);

enum comparison_kind
{
    LEFT_BESIDE_RIGHT, /* of one label; of one day, else the newest of each */
    NEWEST_BESIDE_OLDER
};

/* Two measured curves at equal lengths, over the range in which both were measured. */
struct band_comparison
{
    enum comparison_kind kind;
    const struct band_fitting *a, *b; /* left, right; newest, older */
    double low_m, high_m;             /* NAN: no length in common */
    double mean_kg;                   /* of a − b */
    double share; /* ∫ |a − b| dx relative to the mean of a pair, or to the older of two; with the sign of mean_kg */
    double worst_kg, worst_share; /* a − b at worst_m, where it is largest in kg */
    double worst_m;
    bool differs; /* above BANDS_DIFFER: |worst_share| of a pair, |share| of ages */
};

struct band_comparisons
{
    LIST(struct band_comparison) list; /* in the order of the fittings */
};

const char *band_law_name(enum band_law law); /* as the gym file writes it: measured, neo-hookean, mooney-rivlin */

#endif
