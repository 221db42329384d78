/* Time that only goes forward, for limits and durations. */
#ifndef TAUTLINE_BASE_CLOCK_H
#define TAUTLINE_BASE_CLOCK_H

double clock_s(void); /* seconds since some moment; a clock that is set does not touch it */

#endif
