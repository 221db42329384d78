#include "reading/load/load_lexemes.h"

#include <string.h>
#include <strings.h>

/* One lexeme at a time; the first alternative that matches counts. Longer phrases must come before the words they
 * consist of. */
#define LENGTH_UNITS "(?:mm|cm|m|in|inch(?:es)?|ft|foot|feet|[\"'])"
#define LEXEMES_HEAD                                                                                                   \
    "\\G(?:(?<blank>\\h+)"                                                                                             \
    "|(?<newline>\\R)"                                                                                                 \
    "|(?<leader>(?:(?:on|with|w/"                                                                                      \
    "|from)\\h+)?(?:an?\\h+|the\\h+)?(?<leader_length>[0-9]+(?:[.,][0-9]+)?)\\h*(?<leader_unit>" LENGTH_UNITS          \
    ")\\h*(?:long\\h+)?leaders?\\b)"                                                                                   \
    "|(?<side>/"                                                                                                       \
    "\\h*(?:sides?|ends?|s|ea)\\b\\.?|(?:per|an?|each|every|ea\\.?|both|either|(?:on|at|to)\\h+(?:each|both|either|"   \
    "every))"                                                                                                          \
    "[\\h-]*(?:sides?|ends?)\\b|ea\\b\\.?)"                                                                            \
    "|(?<total>in\\h+(?:all|total)\\b|all\\h+told\\b|altogether\\b|totals?\\b|overall\\b)"                             \
    "|(?<percent>%(?:\\h*(?:of\\h+)?(?:my\\h+|the\\h+)?(?:1[\\h-]*rm|max)\\b)?)"
#define FRACTION "(?:\\h?[¼½¾⅓⅔⅛])"
/* What is done with a band next to the bar; "band-aid" is one word anyway. */
#define BAND_WORK                                                                                                      \
    "(?:aids?|work|walks?|practice|pull[\\h-]?aparts?|face[\\h-]pulls?|curls?|push[\\h-]?downs?|dislocat(?:es?|ions?)" \
    "|stretch(?:es|ing)?)"
#define LEXEMES_TAIL                                                                                                   \
    "|(?<quoted>\"[^\"\\n]*\"|“[^”\\n]*”|„[^“\\n]*“)"                                                      \
    "|(?<bodyweight>(?:bw|body\\h?weight)(?![\\p{L}\\p{N}_]))"                                                         \
    "|(?<join>w/(?!o\\b)|[+&])"                                                                                        \
    "|(?<range>(?:[-–—−>→]|\\.\\.)+|\\bto\\b)"                                                                 \
    "|(?<times>[x×*](?![\\p{L}\\p{M}_]))"                                                                             \
    "|(?<word>w/o\\b|\\#|band\\h+" BAND_WORK "\\b|"
/* The words that may end in a point. */
#define LEXEMES_UNIT "|(?:kgs?|lbs?)(?=(?:"
/* What may directly follow a unit: 20kgchains. */
#define LEXEMES_END                                                                                                    \
    ")(?![\\p{L}\\p{N}]))"                                                                                             \
    "|[\\p{L}\\p{M}](?:[\\p{L}\\p{M}\\p{N}_'’]|[-.](?=[\\p{L}\\p{N}]))*)"                                            \
    "|(?<mark>.))"
#define NUMBERS_POINT                                                                                                  \
    "|(?<number>(?:[0-9]{1,3}(?:,[0-9]{3})+(?![0-9])(?:\\.[0-9]+)?|[0-9]++(?:\\.[0-9]++)?+(?!,[0-9]{1,2}(?![0-9]))|"   \
    "\\.[0-9]+)" FRACTION "?|[¼½¾⅓⅔⅛])"                                                                       \
    "|(?<bad_number>[0-9]+(?:\\.[0-9]+)?,[0-9]+)"
#define NUMBERS_COMMA                                                                                                  \
    "|(?<number>(?:[0-9]{1,3}(?:\\.[0-9]{3})+(?![0-9])(?:,[0-9]+)?|[0-9]+(?:[,.][0-9]+)?|,[0-9]+)" FRACTION            \
    "?|[¼½¾⅓⅔⅛])"                                                                                             \
    "|(?<bad_number>(?!))"

static const struct notation_word
{
    const char *word;
    enum word_kind kind;
} notation[] = {
#define X(word, kind, number) {word, kind},
#include "model/notation.def"
#undef X
};

bool word_is_gear(enum word_kind kind)
{
    return kind == WORD_CHAIN || kind == WORD_BAND || kind == WORD_RELEASER || kind == WORD_REVERSE ||
           kind == WORD_CHOKED || kind == WORD_DOUBLED || kind == WORD_PAIR;
}

static bool names_gear(const struct notation_word *word)
{
    return word_is_gear(word->kind);
}

static bool is_noun(const struct notation_word *word)
{
    return word->kind == WORD_CHAIN || word->kind == WORD_BAND || word->kind == WORD_RELEASER;
}

enum word_kind word_as_gear(const char *word, size_t length)
{
    for (size_t i = 0; i < sizeof notation / sizeof *notation; i++)
        if (is_noun(&notation[i]) && *notation[i].word == (*word | 0x20) &&
            !strncasecmp(notation[i].word, word, length) && !notation[i].word[length])
            return notation[i].kind;
    return WORD_UNKNOWN;
}

static bool ends_in_point(const struct notation_word *word)
{
    return word->word[strlen(word->word) - 1] == '.';
}

/* The notation's words of one kind: one list for all patterns that need them. */
static char *words_of(struct arena *arena, bool (*is_wanted)(const struct notation_word *word))
{
    char *words = arena_copy(arena, "");
    for (size_t i = 0; i < sizeof notation / sizeof *notation; i++)
        if (is_wanted(&notation[i]))
            words = arena_printf(arena, "%s%s\\Q%s\\E", words, *words ? "|" : "", notation[i].word);
    return words;
}

char *lexemes_pattern(struct arena *arena, char decimal)
{
    return arena_printf(arena, "%s%s" LEXEMES_UNIT "%s" LEXEMES_END,
                        decimal == ',' ? LEXEMES_HEAD NUMBERS_COMMA LEXEMES_TAIL
                                       : LEXEMES_HEAD NUMBERS_POINT LEXEMES_TAIL,
                        words_of(arena, ends_in_point), words_of(arena, is_noun));
}

/* A text that grows: a gym file of ten thousand bands must not be copied once per band. */
struct alternatives
{
    struct arena *arena;
    LIST(char) text;
};

static void add_text(struct alternatives *to, const char *text)
{
    for (; *text; text++)
        *LIST_ADD(to->arena, &to->text) = *text;
}

static void add_label(struct alternatives *to, const char *label)
{
    add_text(to, "|\\Q");
    for (; *label; label++)
        add_text(to, *label == ' ' ? "\\E\\h+\\Q" : (char[]){*label, 0});
    add_text(to, "\\E");
}

/* Must not follow a letter, except those of a unit; a digit is allowed: 2chains, 20kgchains. */
char *gear_pattern(struct arena *arena, const struct gym *gym)
{
    struct alternatives all = {.arena = arena};
    add_text(&all, "(?:(?<!\\p{L})|(?<=[0-9]kg)|(?<=[0-9]kgs)|(?<=[0-9]lb)|(?<=[0-9]lbs))(?:");
    add_text(&all, words_of(arena, names_gear));
    for (size_t i = 0; i < gym->chain_count; i++)
        add_label(&all, gym->chains[i].label);
    for (size_t i = 0; i < gym->band_count; i++)
        add_label(&all, gym->bands[i].label);
    add_text(&all, ")(?![\\p{L}\\p{N}])");
    *LIST_ADD(arena, &all.text) = 0;
    return all.text.items;
}
