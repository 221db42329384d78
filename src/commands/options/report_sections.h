/* The sections of `report` as text, in the order in which they are written, and which of them --only asks for. */
#ifndef TAUTLINE_COMMANDS_OPTIONS_REPORT_SECTIONS_H
#define TAUTLINE_COMMANDS_OPTIONS_REPORT_SECTIONS_H

#include "base/arena.h"

#include <stdint.h>

enum report_section
{
    SECTION_FIRST, /* the first screen: verdicts, what to change, what is next */
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

/* Bit by bit, from names with commas between. NULL: fine; else a message, the arena's. */
const char *report_sections_read(struct arena *arena, const char *list, uint32_t *sections);

#endif
