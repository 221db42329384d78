/* One load out of several cells: equal AR said twice is one, columns add up, what differs is refused. */
#ifndef TAUTLINE_READING_LOAD_COMBINE_H
#define TAUTLINE_READING_LOAD_COMBINE_H

#include "reading/load/load_reader.h"

const struct load *load_combine(struct load_reader *reader, const struct load_sources *sources,
                                struct load_fault *fault);

#endif
