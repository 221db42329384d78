/* What a cell's number format makes of its number: a plain number, a percentage, a date, a time of day. ECMA-376,
 * part 1, 18.8.30 (numFmts) and 18.8.31 (the formats without a code); dates as serial numbers: 18.17.4.1. */
#ifndef TAUTLINE_READING_WORKBOOK_NUMBER_FORMAT_H
#define TAUTLINE_READING_WORKBOOK_NUMBER_FORMAT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum number_kind
{
    NUMBER_PLAIN,
    NUMBER_PERCENT, /* 0.6 is shown as 60% */
    NUMBER_DAY,
    NUMBER_TIME, /* time of day, or a duration */
    NUMBER_DAY_TIME
};

struct number_format
{
    uint8_t kind; /* enum number_kind */
    uint8_t unit; /* of mass, shown after the number by the format: 0 none, 1 kg, 2 lb */
};

struct number_format number_format_read(const char *code);    /* of a format code: dd/mm/yyyy, 0.0" kg" */
struct number_format number_format_built_in(uint32_t number); /* of a built-in format, which has no code */

/* The number as text, as an export would write it: 82.5, 60%, 82.5 kg, 2026-06-01, 2026-06-01 18:30, 18:30:00.
 * `written`: the number as the workbook has it. `epoch_1904`: days count from 1904. Returns its length in bytes; 0:
 * `written` is not a number, or not an existing date. */
#define NUMBER_TEXT_BYTES 64
size_t number_as_text(char buffer[NUMBER_TEXT_BYTES], const char *written, size_t length, struct number_format format,
                      bool epoch_1904);

#endif
