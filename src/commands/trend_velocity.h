/* What `trend` shows about velocities, instead of its weeks. */
#ifndef TAUTLINE_COMMANDS_TREND_VELOCITY_H
#define TAUTLINE_COMMANDS_TREND_VELOCITY_H

#include "commands/command.h"

struct columns velocity_columns(void);
struct columns speed_loss_columns(void);
void show_velocity(struct session *session);   /* --velocity: one row per lift and velocity */
void show_speed_loss(struct session *session); /* --speed-loss: one row per session of speed work */

#endif
