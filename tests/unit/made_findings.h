/* Findings of a log made by hand, for one lifter whose squat was tested at 100 kg: kilograms are per cent of it. */
#ifndef TAUTLINE_TESTS_MADE_FINDINGS_H
#define TAUTLINE_TESTS_MADE_FINDINGS_H

#include "analysis/findings/findings.h"

#include "unit/made_log.h"

#define MAX_KG 100
#define ROWS(table) (int)(sizeof table / sizeof *table)

extern struct made *made;
extern struct lifter *oda;            /* seasoned */
extern struct findings_options every; /* all of them; a test may ask for less */

void made_setup(void);
void made_teardown(void);

const struct findings *findings_of_log(void);
/* "setup-changed 2026-01-19 5/0; ...": id, day, value and limit of each. */
const char *summary(void);
/* Sets of a week, counted from the one of 2026-01-05. */
void in_week(int week, const struct load *load, int sets, int reps, enum focus focus);

/* One chain "long" of 7 kg with links of 5 cm, and heights for the squat: 0.80 m to 1.40 m. */
struct chain *add_chain(double length_m, double leader_m);
#define BOTTOM_M 0.80
#define TOP_M 1.40
/* 60 kg with a piece that the gym file describes, one on each side. */
const struct load *hung(const struct piece *like);

#endif
