/* Paragraphs that check and report share: what was read, from where, and what had to be assumed. Text for people. */
#ifndef TAUTLINE_COMMANDS_SUMMARY_H
#define TAUTLINE_COMMANDS_SUMMARY_H

#include "commands/session/session.h"
#include "writing/output.h"

void summary_read(const struct session *session, struct output *output); /* one sentence: sets, lifts, lifters, days */
void summary_files(const struct session *session,
                   struct output *output); /* one line per file, and how its columns were understood */
void summary_assumed(const struct session *session,
                     struct output *output); /* each assumption, in how many sets, and how to fix it */
/* The number of sets in which each was made. */
void assumptions_count(const struct training *training, size_t counts[ASSUMPTION_BITS]);
/* What one assumption means to a reader, and how to fix it, as parts of a sentence. False: there is no text for it. */
bool assumption_explain(const struct session *session, enum assumption assumption, const char **meaning,
                        const char **settle);

extern const char words_to_mind[]; /* the Safety text of every output that shows loads */

/* Breaks a paragraph at blanks to fit lines of that width, each indented. */
void paragraph_print(struct arena *arena, struct output *output, const char *text, size_t indent, size_t line_width);

const char *plural(size_t count, const char *one, const char *many);
/* 12,345 for people. The buffer must hold at least 32 bytes; returns it. */
char *grouped_count(char *buffer, size_t count);

#endif
