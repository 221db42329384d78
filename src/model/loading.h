/* loading.h */
#ifndef TAUTLINE_MODEL_LOADING_H
#define TAUTLINE_MODEL_LOADING_H

#include "model/effect.h"

/* Resolves a load. Everything it makes is the arena's. */
struct loading *loading_make(struct arena *arena, const struct load *load, const struct loading_context *context);

/* The loading of another straight weight under what hangs already, for the same lifter, lift and day. `lift`: of the
 * gym file; NULL: not in it. */
struct loading loading_under(const struct load *load, const struct loading_context *context, const struct lift *lift,
                             const struct loading *hung);

#endif
