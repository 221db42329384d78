/* Combines several cells into one load: equal AR given twice counts once, columns add up, differences are refused. */
#ifndef TAUTLINE_READING_LOAD_COMBINE_H
#define TAUTLINE_READING_LOAD_COMBINE_H

#include "reading/load/load_reader.h"

const struct load *load_combine(struct load_reader *reader, const struct load_sources *sources,
                                struct load_fault *fault);

#endif
