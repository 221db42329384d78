/* A fuzz target: one input, any bytes. libFuzzer's interface; replay.c drives the same function over the inputs that
 * are kept.
 *
 * A target goes as far behind the reader as an input can reach: what was read is weighed, counted and audited too. It
 * aborts where something that must always hold does not. */
#ifndef TAUTLINE_FUZZ_TARGET_H
#define TAUTLINE_FUZZ_TARGET_H

#include "base/diag.h"
#include "model/gear.h"
#include "reading/log_reader.h"

#include <stddef.h>
#include <stdint.h>

extern const char target_name[]; /* its folders are corpus/NAME and crashes/NAME */

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* A gym with two chains, four bands, set-ups, lifters: enough for every kind of name. Made once. */
const struct gym *target_gym(void);

/* A reading with an empty log and no diagnostics. Patterns are dear to compile, so one serves for many inputs; it is
 * not the caller's. */
struct reading *target_reading(const struct gym *gym);

void target_print(struct diags *diags);       /* as a command would, to nowhere */
void target_analyse(struct reading *reading); /* all that reports are made of */

/* Not assert(): it must hold in every build. */
#define MUST(condition)                                                                                                \
    do {                                                                                                               \
        if (!(condition))                                                                                              \
            __builtin_trap();                                                                                          \
    } while (0)

#endif
