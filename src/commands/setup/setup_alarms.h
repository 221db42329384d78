/* setup's alarms: loads of a set-up that can injure, worded as in plan, and bands for a lifter new to them. */
#ifndef TAUTLINE_COMMANDS_SETUP_ALARMS_H
#define TAUTLINE_COMMANDS_SETUP_ALARMS_H

#include "commands/setup/setup.h"

/* "puts 150.0 kg on the bar, more than the 1RM of 140.0 kg, and weighs 170.0 kg at the top, 121.4 % of the 1RM"; "":
 * neither. */
const char *setup_alarm(const struct setup_view *view, const struct effect *effect);

/* Does the load have bands, and is the lifter new to chains and bands? */
bool setup_bands_too_early(const struct setup_view *view, const struct load *load);
#define SETUP_BANDS_TOO_EARLY                                                                                          \
    "The lifter is new to chains and bands: light chains are easier to begin with, and do not pull the bar down."

#endif
