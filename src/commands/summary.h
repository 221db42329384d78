/* Paragraphs that check and report share: what was read, from where, and what had to be assumed. Text for people. */
#ifndef TAUTLINE_COMMANDS_SUMMARY_H
#define TAUTLINE_COMMANDS_SUMMARY_H

#include "commands/session.h"
#include "writing/output.h"

void summary_read(const struct session *session, struct output *output);    /* one sentence: sets, lifts, lifters, days */
void summary_files(const struct session *session, struct output *output);   /* a line a file, and how its columns were understood */
void summary_assumed(const struct session *session, struct output *output); /* each assumption, in how many sets, and what would settle it */
/* What one assumption means to a reader, and what would settle it, as parts of a sentence. False: there is nothing to say. */
bool assumption_explain(enum assumption assumption, const char **meaning, const char **settle);

const char *plural(size_t count, const char *one, const char *many);
/* 12,345 for people. Into at least 32 bytes; returns buffer. */
char *grouped_count(char *buffer, size_t count);

#endif
