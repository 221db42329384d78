/* Small cells: repetitions, effort, kinds of set. Shared by the CSV and the text log. */
#ifndef TAUTLINE_READING_CELLS_H
#define TAUTLINE_READING_CELLS_H

#include "model/set.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define REPS_LIMIT 1000 /* a larger number is not a repetition count */
#define SETS_LIMIT 100  /* more on one line is a typing error */

struct reps_group
{
    uint16_t sets, reps;
    bool to_failure;
};

struct reps_cell /* one group per run of equal sets, in order */
{
    struct reps_group groups[64];
    size_t count;
    bool sets_said; /* 3x5 or 5,5,4: the cell gives the number of sets */
};

/* "5", "5.0", "10+", "5,5,4", "5/5/4", "5 5 4", "3x5", "3x10+", "3 x 5, 2x4", "AMRAP 10". An empty text: count 0.
 * "8-10" and anything else: false. In "3x10+", the last set was to failure. With decimal == ',' a single "5,0" is 5. */
bool reps_read(const char *text, char decimal, struct reps_cell *reps);

struct kind_cell
{
    enum set_kind kind;
    bool to_failure; /* failure, amrap: RIR 0 */
    bool drop;
    bool known; /* false: an unknown word, which counts as work */
};
/* The words and letters of the trade: warm-up w, work, normal, failure f, to failure, amrap, drop d, back-off, top,
 * cluster, rest-pause, left, right, miss missed no lift fail. Folded. */
struct kind_cell kind_read(const char *text);
/* A cell of a column for whether the set was a warm-up: yes, true, 1, x; no, false, 0 or empty; or a kind. */
struct kind_cell warm_up_read(const char *text);

#endif
