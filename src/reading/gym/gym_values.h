/* Values of a gym file's keys. */
#ifndef TAUTLINE_READING_GYM_VALUES_H
#define TAUTLINE_READING_GYM_VALUES_H

#include "reading/gym/gym_reader.h"

/* Readers for the table of keys. False: the value is invalid, already reported; the target is unchanged. */
gym_value_read read_mass, read_length, read_signed_length, read_percent, read_yes_no, read_unit, read_dates, read_text;
gym_value_read read_formula, read_experience, read_log_pattern, read_max, read_heights, read_alias, read_setup_name,
    read_per;
gym_value_read read_limit, read_column;

/* Building blocks for the readers: each moves *at past what it read; false: already reported. */

const char *gym_skip_blanks(const char *text);

/* A plain decimal; `sign`: a sign is allowed. */
bool gym_take_number(struct gym_reader *reader, const struct gym_key *key, const char **at, bool sign, double *number);

/* "1.20 m": the number and its unit, within the key's limits unless those are equal. */
bool gym_take_quantity(struct gym_reader *reader, const struct gym_key *key, const char **at, enum quantity quantity,
                       bool sign, double *value);
/* A lift's name, which ends at the first number. */
bool gym_take_lift(struct gym_reader *reader, const struct gym_key *key, const char **at, struct named_line *lift);
bool gym_take_day(struct gym_reader *reader, const struct gym_key *key, const char **at, day_number *day);
bool gym_at_end(struct gym_reader *reader, const struct gym_key *key, const char *text); /* nothing follows the value */

/* The index in the list of the word of `length` bytes at `value`; -1: not in the list. */
int gym_take_word(struct gym_reader *reader, const struct gym_key *key, const char *value, size_t length,
                  const char *const *words, size_t count);

#endif
