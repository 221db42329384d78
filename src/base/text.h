/* Text: UTF-8 throughout. Folding and width come from utf8proc. */
#ifndef TAUTLINE_BASE_TEXT_H
#define TAUTLINE_BASE_TEXT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>

/* For comparing names: case folded (NFKC), blanks of all kinds squeezed to one space, trimmed. */
char *text_fold(struct arena *arena, const char *text);
bool text_same_name(const char *a, const char *b);         /* equal when folded */
char *text_squeeze(struct arena *arena, const char *text); /* blanks squeezed and trimmed, case kept */

/* Columns that the text takes on a terminal; wide characters count 2, combining ones 0. */
size_t text_width(const char *text);
size_t text_count(const char *text, size_t length, char byte); /* how often it is there */
size_t text_characters(const char *text, size_t bytes);        /* code points in the first `bytes` bytes */
size_t text_plain(const char *text, size_t length);            /* bytes of printable ASCII that it begins with */
bool text_is_utf8(const char *text, size_t bytes);

/* For people and diagnostics: control characters (C0, DEL, C1, line and paragraph separators, bidirectional controls)
 * are shown as \xHH or \u{HHHH}; all else stays. Returns `text` itself where there is nothing to do. */
const char *text_visible(struct arena *arena, const char *text);

/* As text_visible, but cut to at most `width` columns with an ellipsis. */
const char *text_cut(struct arena *arena, const char *text, size_t width);

/* The same, cut in the middle, for names whose ends tell them apart. */
const char *text_cut_middle(struct arena *arena, const char *text, size_t width);

bool text_starts(const char *text, const char *start);

/* The folder that a path lies in; "." where the path names none. */
char *text_folder(struct arena *arena, const char *path);
/* The path of a folder's entry: a slash between, where the folder does not end in one. */
char *text_path(struct arena *arena, const char *folder, const char *entry);

/* Nearest of `count` words by edit distance, at most 2 edits away and less than half the word; NULL: none. */
const char *text_nearest(const char *word, const char *const *words, size_t count);

#endif
