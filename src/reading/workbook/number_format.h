/* What a cell's number format makes of its number: a plain number, a percentage, a day, a time of day. ECMA-376, part
 * 1, 18.8.30 (numFmts) and 18.8.31 (the formats that need no code); days as serial numbers: 18.17.4.1. */
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
    NUMBER_TIME, /* of the day, or how long */
    NUMBER_DAY_TIME
};

struct number_format
{
    uint8_t kind; /* enum number_kind */
    uint8_t unit; /* of mass, which the format shows after the number: 0 none, 1 kg, 2 lb */
};

struct number_format number_format_read(const char *code);    /* of a format code: dd/mm/yyyy, 0.0" kg" */
struct number_format number_format_built_in(uint32_t number); /* of a format without one */

/* The number as text, as it would be written in an export: 82.5, 60%, 82.5 kg, 2026-06-01, 2026-06-01 18:30, 18:30:00.
 * `written`: the number as the workbook has it. `epoch_1904`: days count from 1904. Returns its bytes; 0: `written` is
 * not a number, or no day that there is. */
#define NUMBER_TEXT_BYTES 64
size_t number_as_text(char buffer[NUMBER_TEXT_BYTES], const char *written, size_t length, struct number_format format,
                      bool epoch_1904);

#endif
