/* Load and velocity: a lifter's own load-velocity line, and the velocity loss of a session. Pure.
 *
 *   load = intercept + slope · velocity        ordinary least squares over straight-weight work sets
 *
 * A line of the log is one measurement: a velocity written once next to 7x2 was measured once. Sets with chains or
 * bands have another load at every height; they are compared with the line, but never enter it. Between people the
 * velocity at a share of 1RM differs by 9 to 25 % (doi 10.3390/ijerph19116756), so each lifter has a separate line, and
 * it is not extrapolated beyond the velocities that were measured. */
#ifndef TAUTLINE_ANALYSIS_LOAD_VELOCITY_H
#define TAUTLINE_ANALYSIS_LOAD_VELOCITY_H

#include "analysis/training.h"

#define VELOCITY_LEAST_LOADS 3 /* distinct: two points make a line that proves nothing */
#define VELOCITY_CONFIDENCE 0.95

struct line_fit /* y on x; NAN with fewer than three points or if all x are equal */
{
    size_t points;
    double intercept, slope;
    double intercept_se, slope_se; /* standard errors */
    double residual_sd;            /* with n − 2 */
    double r2;
    double x_mean, x_squares; /* Σ (x − mean)² */
};

struct line_fit line_fit(const double *x, const double *y, size_t count);

struct interval
{
    double at, low, high;
};

/* The line at x with the interval of the mean there: t(n − 2) s sqrt(1/n + (x − mean)²/Σ(x − mean)²). */
struct interval line_at(const struct line_fit *fit, double x, double confidence);

enum velocity_state
{
    VELOCITY_FITTED,
    VELOCITY_TOO_FEW_LOADS, /* fewer than VELOCITY_LEAST_LOADS distinct ones, or fewer than three lines */
    VELOCITY_ALL_ALIKE      /* the same velocity at all loads */
};

struct velocity_profile
{
    const char *lifter, *lift;
    enum velocity_state state;
    size_t lines, loads;    /* that the line is based on; distinct loads among them */
    double low_ms, high_ms; /* range of velocities in these; NAN: none */
    struct line_fit fit;    /* kg on m/s; NAN if there is no fit */
    size_t ar_lines;        /* with chains or bands: kept apart */
    double ar_velocity_ms;  /* their mean velocity; NAN: none */
    double ar_mean_kg;      /* and mean load, of those whose mean load is known */
    double ar_over_kg;      /* mean load minus the line at their velocity, on average, within low_ms .. high_ms; NAN */
};

/* One for each lifter and lift with a velocity in a work set; by lifter, then lift (bytes). */
const struct velocity_profile *velocity_profiles(struct arena *arena, const struct training *training, size_t *count);

/* Velocity loss of a session: (first − last)/first, from the mean velocities of its first and last measured work set
 * at the load and AR that most lines of the session have (the first if tied). */
struct speed_loss
{
    const struct evaluated_set *first, *last; /* give lifter, lift, day and load */
    size_t lines;                             /* at least two */
    double slowest_ms, fastest_ms;
    double loss; /* a fraction; below 0: velocity increased */
};

/* Sessions of speed work with at least two measured lines at one load; by lifter, lift, day. */
const struct speed_loss *speed_losses(struct arena *arena, const struct training *training, size_t *count);

#endif
