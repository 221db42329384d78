/* Units of mass and length. Inside, masses are kilograms (a load in kg is force / 9.80665 m/s²) and lengths are metres.
 */
#ifndef TAUTLINE_BASE_UNIT_H
#define TAUTLINE_BASE_UNIT_H

#include <stdbool.h>
#include <stddef.h>

#define KG_PER_LB 0.45359237         /* exact: NIST SP 811, App. B.8 */
#define STANDARD_GRAVITY_MS2 9.80665 /* exact: 3rd CGPM, 1901 */
#define M_PER_IN 0.0254              /* exact: NIST SP 811, App. B.8 */
#define M_PER_FT 0.3048              /* exact: the same */

enum mass_unit
{
    UNIT_KG,
    UNIT_LB
};

const char *mass_unit_name(enum mass_unit unit); /* "kg", "lb" */
double kg_from(double value, enum mass_unit unit);
double kg_to(double kg, enum mass_unit unit);

/* The word for a unit, case folded, any spelling of the trade (kg kgs kilo kilos kilogram lb lbs pound pounds #; m
 * metre meter cm mm in inch inches " ft foot feet '). False: no such unit. `length` in bytes. */
bool mass_unit_read(const char *word, size_t length, enum mass_unit *unit);
bool length_unit_read(const char *word, size_t length, double *metres);
/* A pull as a scale shows it: the masses above, kgf kp lbf, N newton(s); in kg. */
bool pull_unit_read(const char *word, size_t length, double *kg);

/* "7.0 kg", "15.5lb": one number and its unit, nothing else. Without a unit word: false and *missing_unit is set. */
bool mass_read(const char *text, double *kg, bool *missing_unit);
bool length_read(const char *text, double *metres, bool *missing_unit);

#endif
