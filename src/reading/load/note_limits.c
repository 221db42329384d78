/* Notes that limit their chains or bands to some of the sets. Three forms are understood; if a note says anything
 * else about sets, nothing is carried. */
#include "reading/load/note_limits.h"

#include "base/number.h"
#include "base/pattern.h"

#include <string.h>
#include <strings.h>

#define GEAR "(?:them|chains?|bands?|any)"
#define THE "(?:the\\h+|my\\h+)?"
#define ON "(?:(?:on|for|in)\\h+)?"
#define SET "(?:set|one|single|double|triple)"
#define HEAD "(?<![\\p{L}\\p{N}])"
#define CLAUSE_ENDS "(?=\\h*(?:\\z|[,;.()\\r\\n]))"
#define WORD_ENDS "(?![\\p{L}\\p{N}])"
#define NONE "(?:without|w/o)"

static const struct
{
    enum ar_limit limit;
    const char *pattern;
} forms[] = {
    {AR_LIMIT_NONE,
     HEAD ON "(?:all|every|each)\\h+(?:of\\h+)?" THE "(?:[0-9]+\\h+|work(?:ing)?\\h+)?sets?" CLAUSE_ENDS},
    {AR_LIMIT_NOT_LAST,
     HEAD "(?:(?:but|except)\\h+(?:for\\h+)?)?" THE "last\\h+" SET "\\h+(?:was\\h+|done\\h+)?(?:" NONE "(?:\\h+" GEAR
          ")?|no\\h+" GEAR "|" GEAR "\\h+off|straight(?:\\h+weight)?)" CLAUSE_ENDS},
    {AR_LIMIT_NOT_LAST,
     HEAD ON "(?:all\\h+(?:sets\\h+)?)?(?:but|except)\\h+(?:for\\h+)?" ON THE "last(?:\\h+" SET ")?" CLAUSE_ENDS},
    {AR_LIMIT_NOT_LAST, HEAD "(?:" NONE "|no|not)\\h+(?:" GEAR "\\h+)?" ON THE "last\\h+" SET CLAUSE_ENDS},
    {AR_LIMIT_TOP_SET, HEAD "(?:only|just)\\h+" ON THE "top\\h+" SET CLAUSE_ENDS},
    {AR_LIMIT_TOP_SET, HEAD ON THE "top\\h+" SET "\\h+only" CLAUSE_ENDS},
    {AR_LIMIT_FIRST,
     HEAD "(?:only\\h+|just\\h+)?" ON THE
          "first\\h+([0-9]{1,2}|two|three|four|five|six|seven|eight|nine|ten)\\h+sets(?:\\h+only)?" CLAUSE_ENDS},
    {AR_LIMIT_FIRST, HEAD "(?:only|just)\\h+" ON THE "first\\h+set" CLAUSE_ENDS},
    {AR_LIMIT_FIRST, HEAD ON THE "first\\h+set\\h+only" CLAUSE_ENDS},
    {AR_LIMIT_OTHER, HEAD
     "(?:sets?|except|until|back-?offs?|heaviest|only\\h+(?:on|for|in|the|this|first|last|top|heav\\p{L}*)|(?:this|"
     "these|today|here|one)\\h+only"
     "|(?:first|last|final|top)\\h+(?:one|two|three|four|five|six|few|couple|[0-9]+|single|double|triple))" WORD_ENDS},
};
#define FORM_COUNT (sizeof forms / sizeof *forms)

struct note_limits
{
    struct pattern patterns[FORM_COUNT];
};

static struct note_limits *limits_of(struct load_reader *reader)
{
    if (!reader->limits) {
        reader->limits = ARENA_NEW(reader->arena, struct note_limits);
        for (size_t i = 0; i < FORM_COUNT; i++)
            reader->limits->patterns[i] = pattern_make(forms[i].pattern);
    }
    return reader->limits;
}

void note_limits_free(struct note_limits *limits)
{
    for (size_t i = 0; limits && i < FORM_COUNT; i++)
        pattern_free(&limits->patterns[i]);
}

/* Words that were used, given by their bytes, now end the clause before them. */
static void take_words(struct words *words, const bool *taken)
{
    for (size_t i = 0; i < words->list.count; i++)
        if (taken[words->list.items[i].at])
            words->list.items[i].kind = WORD_STOP;
}

static int count_in(const char *text, size_t length)
{
    static const char *const words[] = {"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i]) == length && !strncasecmp(words[i], text, length))
            return (int)i + 1;
    double number = 0;
    number_prefix(text, length, '.', &number);
    return (int)number;
}

/* "first 5 sets": the form with its number. */
static enum ar_limit limit_found(const struct pattern *pattern, enum ar_limit form, const char *text)
{
    const PCRE2_SIZE *offsets = pcre2_get_ovector_pointer(pattern->match);
    if (form != AR_LIMIT_FIRST)
        return form;
    bool counted = pcre2_get_ovector_count(pattern->match) > 1 && offsets[2] != PCRE2_UNSET;
    int count = counted ? count_in(text + offsets[2], offsets[3] - offsets[2]) : 1;
    return count ? (enum ar_limit)(AR_LIMIT_FIRST + count) : AR_LIMIT_OTHER;
}

static const char *clause_at(struct load_reader *reader, const char *text, size_t at)
{
    size_t begin = at;
    while (begin && !strchr(",;.\n", text[begin - 1]))
        begin--;
    begin += strspn(text + begin, " \t");
    return arena_text(reader->arena, text + begin, strcspn(text + begin, ",;\n"));
}

/* Finds each place of the text that has the form. False: it gives a different limit than was found, or one that is
 * not understood. */
static bool find_form(struct pattern *pattern, enum ar_limit form, const char *text, bool *taken, enum ar_limit *limit,
                      size_t *place)
{
    size_t length = strlen(text);
    for (size_t at = 0; at < length && pattern_match(pattern, text, length, at, 0) > 0;) {
        const PCRE2_SIZE *offsets = pcre2_get_ovector_pointer(pattern->match);
        size_t from = *place = offsets[0], to = offsets[1];
        at = to > from ? to : from + 1;
        if (taken[from])
            continue;
        if (form == AR_LIMIT_OTHER || (*limit != AR_LIMIT_NONE && form != AR_LIMIT_NONE))
            return false;
        *limit = form == AR_LIMIT_NONE ? *limit : limit_found(pattern, form, text);
        memset(taken + from, true, to - from);
    }
    return true;
}

enum ar_limit note_limit(struct load_reader *reader, struct words *words, const char **unread)
{
    struct note_limits *limits = limits_of(reader);
    enum ar_limit limit = AR_LIMIT_NONE;
    bool *taken = ARENA_ARRAY(reader->scratch, bool, strlen(words->text) + 1);
    size_t place;
    for (size_t i = 0; i < FORM_COUNT; i++)
        if (!find_form(&limits->patterns[i], forms[i].limit, words->text, taken, &limit, &place)) {
            *unread = clause_at(reader, words->text, place);
            limit = AR_LIMIT_OTHER;
            break;
        }
    take_words(words, taken);
    return limit;
}
