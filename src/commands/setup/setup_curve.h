/* setup, for machines: one row, the curve as rows, the curve as a picture. */
#ifndef TAUTLINE_COMMANDS_SETUP_CURVE_H
#define TAUTLINE_COMMANDS_SETUP_CURVE_H

#include "commands/setup/setup.h"

void setup_row(const struct setup_view *view);   /* --format csv or json */
void setup_curve(const struct setup_view *view); /* --curve */
void setup_plot(const struct setup_view *view);  /* --plot */

#endif
