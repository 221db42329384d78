/* What the two targets of workbooks share. */
#ifndef TAUTLINE_FUZZ_WORKBOOK_TARGET_H
#define TAUTLINE_FUZZ_WORKBOOK_TARGET_H

#include <stddef.h>

/* A workbook's bytes: its sheets as logs, weighed and audited. */
void target_workbook(const char *bytes, size_t length);

#endif
