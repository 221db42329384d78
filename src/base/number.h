/* Numbers in and out, always in the C locale: the program never sets LC_NUMERIC, and these are the only readers and
 * printers. Only plain decimals are numbers here: digits, one decimal sign, an optional exponent. No sign, no hex, no
 * inf, no nan. */
#ifndef TAUTLINE_BASE_NUMBER_H
#define TAUTLINE_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Reads the longest plain decimal at the start of `text` (`length` bytes, no NUL needed): "12", "12.5", ".5". `decimal`
 * is '.' or
 * ','. Returns the bytes used, 0 where there is no number. The value equals strtod's to the bit. No exponent is taken.
 */
size_t number_prefix(const char *text, size_t length, char decimal, double *value);

/* The whole of `text`, blanks around allowed, must be one number. Takes a leading '+' or '-', an exponent, and
 * thousands separators (the other of ',' and '.', a space, a no-break space or an apostrophe; in groups of three). */
bool number_whole(const char *text, char decimal, double *value);

/* "%.9g" in the C locale, the machine form. `buffer` holds at least 32 bytes. Returns the length. -0 prints as 0. */
int number_print(char *buffer, double value);
int number_print_whole(char *buffer, long value); /* "%ld"; as much room */
/* The last `count` digits, zeros in front included, without a NUL. Returns the place after them. */
char *number_print_digits(char *to, uint64_t number, int count);

/* For people: fixed decimals. -0.0 prints as 0.0. */
int number_fixed(char *buffer, size_t size, double value, int decimals);

/* Decimals that were written: 2 for "102.50". Trailing zeros count. */
int number_decimals(const char *text, size_t length, char decimal);

#endif
