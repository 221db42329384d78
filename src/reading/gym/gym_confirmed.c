#include "reading/gym/gym_confirmed.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/gym/gym_values.h"

#include <string.h>

#define MOST_LINE 4e9

/* FILE:LINE, as findings print it. */
static bool read_line(struct gym_reader *reader, const struct gym_key *key, const char *from, size_t length)
{
    const char *word = text_squeeze(reader->arena, arena_text(reader->own, from, length));
    const char *colon = strrchr(word, ':');
    double line;
    if (!colon || colon == word || !number_whole(colon + 1, '.', &line) || !(line >= 1 && line < MOST_LINE) ||
        line != (double)(uint32_t)line)
        return gym_bad(reader, DIAG_GYM_VALUE, from, length, "write the file's name, a colon and the line's number",
                       "%s: '%s' is not a line of a file", key->name, word);
    *LIST_ADD(reader->arena, &reader->confirmed) = (struct confirmed_line){
        arena_text(reader->arena, word, (size_t)(colon - word)), (uint32_t)line};
    return true;
}

bool read_confirmed(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    bool good = true;
    (void)target;
    for (size_t length; *value && good; value += length + (value[length] == ',')) {
        value = gym_skip_blanks(value);
        length = strcspn(value, ",");
        good = read_line(reader, key, value, length);
    }
    return good;
}
