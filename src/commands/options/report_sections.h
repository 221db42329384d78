/* The sections of `report` as text, in the order in which they are written, and which of them --only asks for. */
#ifndef TAUTLINE_COMMANDS_OPTIONS_REPORT_SECTIONS_H
#define TAUTLINE_COMMANDS_OPTIONS_REPORT_SECTIONS_H

#include "base/arena.h"

#include <stdint.h>

enum report_section
{
    SECTION_FIRST, /* the first screen: verdicts, what to change, what comes next */
    SECTION_VERDICTS,
    SECTION_FINDINGS,
    SECTION_WAVES,
    SECTION_SETUPS,
    SECTION_WEEKS,
    SECTION_VELOCITY,
    SECTION_BESTS,
    SECTION_ASSUMED,
    SECTION_IMPROVE,
    SECTION_REFUSED,
    SECTION_COUNT
};

#define ALL_SECTIONS ((UINT32_C(1) << SECTION_COUNT) - 1)

extern const char *const report_section_names[SECTION_COUNT];

/* Sets one bit for each of the names, which are separated by commas. NULL: success; else a message, owned by the
 * arena. */
const char *report_sections_read(struct arena *arena, const char *list, uint32_t *sections);

#endif
