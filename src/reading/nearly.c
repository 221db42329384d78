/* Notes that nearly name chains or bands. */
#include "reading/nearly.h"

#include "base/names.h"
#include "base/pattern.h"
#include "base/text.h"

#include <string.h>

#define REST "(?:\\h+(?:again|only|today|too|on|doubled|choked|reverse))*"

static const struct
{
    const char *pattern, *missing;
} forms[] = {
    {"(?<![\\p{L}\\p{N}])(?:ch?ns?|chians?|cahins?|chanins?|chainz|chanis|chaisn|bnds?|badns|bnads|bamds)(?![\\p{L}\\p{"
     "N}])",
     "tautline does not know this word"},
    {"(?<![\\p{L}\\p{N}])(?:same|as)\\h+(?:as\\h+)?(?:last|before|yesterday|above|previous|prev)(?![\\p{L}\\p{N}])|^"
     "\\h*(?:the\\h+)?same(?:\\h+again)?\\h*$",
     "it refers to another set: write what hung on the bar here, if anything did"},
    {"^\\h*(?:[\"\\x{201C}\\x{201D}\\x{3003}]|''|-?\"-?|ditto|do\\.)+\\h*$",
     "ditto marks do not repeat chains or bands: write them out"},
};
#define FORM_COUNT (sizeof forms / sizeof *forms)

struct nearly
{
    struct reading *reading;
    struct arena *own;
    struct map *labels; /* "file label": names of gear in sets of the file */
    struct map *said;   /* "file note" */
    struct pattern patterns[FORM_COUNT], rest;
};

static char *key_of(struct nearly *nearly, uint32_t file, const char *text)
{
    return arena_printf(nearly->own, "%u %s", (unsigned)file, text);
}

static void add_label(struct nearly *nearly, uint32_t file, const char *label)
{
    if (!label)
        return;
    char *key = key_of(nearly, file, text_fold(nearly->own, label));
    map_put(nearly->labels, key, strlen(key), key);
}

static void collect_labels(struct nearly *nearly)
{
    const struct log *log = nearly->reading->log;
    const struct load *last = NULL;
    uint32_t last_file = 0;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if (set->ar == last && set->file == last_file)
            continue;
        last = set->ar;
        last_file = set->file;
        for (size_t k = 0; k < set->ar->piece_count; k++) {
            add_label(nearly, set->file, set->ar->pieces[k].label);
            add_label(nearly, set->file, set->ar->pieces[k].label_right);
        }
    }
}

/* A clause that is only a label of the file or of the gym file, perhaps with a plural s. */
static const char *label_alone(struct nearly *nearly, uint32_t file, const char *note)
{
    for (size_t length; *note; note += length, note += *note != 0) {
        length = strcspn(note, ",;.()\n");
        char *clause = text_fold(nearly->own, arena_text(nearly->own, note, length));
        if (pattern_match(&nearly->rest, clause, strlen(clause), 0, 0) > 0)
            clause[pcre2_get_ovector_pointer(nearly->rest.match)[0]] = 0;
        size_t end = strlen(clause);
        for (int plural = 0; plural < 2 && end; plural++) {
            char *key = key_of(nearly, file, clause);
            if (map_get(nearly->labels, key, strlen(key)) || gym_chain(nearly->reading->gym, clause) ||
                gym_band(nearly->reading->gym, clause))
                return clause;
            if (clause[end - 1] == 's')
                clause[end - 1] = 0;
        }
    }
    return NULL;
}

static const char *missing_of(struct nearly *nearly, uint32_t file, const char *note)
{
    for (size_t i = 0; i < FORM_COUNT; i++)
        if (pattern_match(&nearly->patterns[i], note, strlen(note), 0, 0) > 0)
            return forms[i].missing;
    const char *label = label_alone(nearly, file, note);
    return label ? arena_printf(nearly->own, "'%s' alone may be any word: add chain, band, a count or a side", label)
                 : NULL;
}

static void see_note(struct nearly *nearly, const struct set *set)
{
    char *key = key_of(nearly, set->file, set->note);
    if (map_get(nearly->said, key, strlen(key)))
        return;
    map_put(nearly->said, key, strlen(key), key);
    const char *missing = missing_of(nearly, set->file, set->note);
    if (missing)
        diag_add(nearly->reading->diags, DIAG_UNREAD_CLAUSE,
                 (struct place){.file = nearly->reading->log->files.items[set->file].path, .line = set->line}, NULL,
                 NULL, "'%s' may mean chains or bands: %s", set->note, missing);
}

void say_nearly_ar(struct reading *reading)
{
    struct arena *own = arena_new();
    struct nearly nearly = {.reading = reading, .own = own, .labels = map_new(own), .said = map_new(own)};
    const struct log *log = reading->log;
    for (size_t i = 0; i < FORM_COUNT; i++)
        nearly.patterns[i] = pattern_make(forms[i].pattern);
    nearly.rest = pattern_make(REST "\\h*$");
    collect_labels(&nearly);
    for (size_t i = 0; i < log->sets.count; i++)
        if (log->sets.items[i].note && log->sets.items[i].ar_said == AR_UNSAID)
            see_note(&nearly, &log->sets.items[i]);
    for (size_t i = 0; i < FORM_COUNT; i++)
        pattern_free(&nearly.patterns[i]);
    pattern_free(&nearly.rest);
    arena_free(own);
}
