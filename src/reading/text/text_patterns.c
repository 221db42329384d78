#include "reading/text/text_patterns.h"

#include "reading/text/text_log.h"
#include "reading/text/text_session.h"

#include "base/pattern.h"
#include "base/text.h"

#include <string.h>

/* Numbers depend on the file's decimal sign: NUMBER is replaced in the patterns below. */
#define NUMBER "\x01"
static const char number_point[] = "(?:[0-9]++(?:\\.[0-9]++)?(?:\\h?[¼½¾])?|\\.[0-9]++)";
static const char number_comma[] = "(?:[0-9]++(?:[.,][0-9]++)?(?:\\h?[¼½¾])?|[.,][0-9]++)";

#define UNIT "(?:kgs?|kilos?|kilograms?|lbs?|pounds?|\\#)"
#define TIMES "\\h*[x×*]\\h*"
#define NUMBER_ENDS "(?![\\p{L}\\p{N}]|[.,][0-9]|\\h*[-–—]\\h*[0-9])"
#define MISS "(?:miss(?:ed)?|fail(?:ed)?|no\\h+lift)"
#define NO_WORD "(?![\\p{L}\\p{N}])"
#define BODY "(?:bw|body\\h?weight)(?:" NO_WORD "|(?=[x×*]\\h*[0-9]))"
#define BAR "(?:empty\\h+)?bar"
#define JOIN "(?:[+&]|with\\b|w/|plus\\b|and\\b)"

/* A date with blanks instead of dashes is not valid, but it still ends the session above. */
#define WEEKDAY "(?:(?:mon|tue|tues|wed|wednes|thu|thurs|fri|sat|satur|sun)(?:day)?\\.?,?\\h+)?"
#define MONTH                                                                                                          \
    "(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?"     \
    "|nov(?:ember)?|dec(?:ember)?)\\.?"
#define DATE                                                                                                           \
    "(?:[0-9]{4}[-\\h][0-9]{1,2}[-\\h][0-9]{1,2}|[0-9]{4}-W[0-9]{2}-[0-9]|[0-9]{4}-[0-9]{3}|[0-9]{8}|[0-9]{1,2}\\."    \
    "\\h?[0-9]{1,2}\\.\\h?[0-9]{2,4}"                                                                                  \
    "|[0-9]{1,4}/[0-9]{1,2}/"                                                                                          \
    "[0-9]{1,4}|[0-9]{1,2}-[0-9]{1,2}-[0-9]{2,4}|[0-9]{1,2}(?:st|nd|rd|th)?\\.?\\h+(?:of\\h+)?" MONTH                  \
    "(?:,?\\h+[0-9]{2,4})?|[0-9]{1,2}\\.\\h?[0-9]{1,2}\\.|" MONTH "\\h+[0-9]{1,2}(?:st|nd|rd|th)?(?:,?\\h+[0-9]{4})?)"
#define TIME "(?:[T\\h]\\h*[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\\.[0-9]+)?)?(?:\\h?[ap]m)?(?:Z|[+-][0-9]{2}:?[0-9]{2})?)?"

/* A number in a lift's name: 3-count pause squat, 2 board press, 45° back extension. */
#define NAME_NUMBER                                                                                                    \
    "[0-9]+(?:[.,][0-9]+)?[\\h-]?(?:count|ct|sec(?:ond)?s?|s|boards?|inch(?:es)?|deg(?:ree)?s?|arm(?:ed)?|leg(?:ged)?" \
    "|"                                                                                                                \
    "pins?"                                                                                                            \
    "|blocks?|way|point|[°\"])" NO_WORD

/* What makes a number a time or a distance. */
#define MEASURE                                                                                                        \
    "(?:s|secs?|seconds?|mins?|minutes?|h|hours?|m|metres?|meters?|km|miles?|mi|yards?|yds?)(?![\\p{L}\\p{N}/])"

/* One run of sets: 8x2, 3 sets of 5, 10+, 3x10+, AMRAP 10. It must not be followed by anything that changes its
 * meaning: a range, a velocity, a third factor, a count of sets, a load with sets of its own. */
#define REPS_WORD "(?:\\h*rep(?:etition)?s?\\b)?"
#define RUN                                                                                                            \
    "(?:(?:[0-9]++\\h*)?[x×*]\\h*|[0-9]++\\h*sets?\\h+(?:(?:of|[x×*])\\h*)?)?"                                       \
    "(?:amrap\\h*)?[0-9]++\\+?(?:\\h*amrap\\b)?" REPS_WORD "(?![\\p{L}\\p{N}]|\\.[0-9]|" TIMES                         \
    "[0-9]|\\h*[-–—]\\h*[0-9]|\\h*:\\h*[0-9]|\\h*(?:sets?\\b|m/s|%|" UNIT NO_WORD "|" MEASURE "))"

static const char *const sources[PATTERN_COUNT] = {
    [PATTERN_HEADER] = "(lifter|unit|bodyweight|decimal)\\h*:\\h*(.*)",
    [PATTERN_NOTE] = "notes?\\h*:\\h*(.*)",
    [PATTERN_SESSION] = "(?:(?:date|day|session|workout)\\b\\h*:?\\h*)?(" WEEKDAY DATE ")" TIME
                        "(?=\\z|\\h|[,:;](?:\\h|\\z))[\\h,:;]*(?:[-–—]+\\h+)?(.*)",
    [PATTERN_WARM_UP] = "(?:~|(?:warm[\\h-]?ups?|w[\\h-]up)\\b[:,]?)\\h*",
    [PATTERN_LOAD_START] = "(?<![\\p{L}\\p{N}_.,/\"-])(?:-(?=\\.?[0-9])|\\+(?=\\h*\\.?[0-9])|(?!" NAME_NUMBER
                           ")\\.?[0-9]|" BODY "|" BAR "(?=\\h*(?:\\z|[,@x×*]|" JOIN ")))",
    [PATTERN_SCHEME] = RUN "(?:\\h*[,/;]\\h*" RUN ")*|(" MISS ")\\b",
    [PATTERN_ITEM] = "(" BODY "(?:\\h*[+-]\\h*" NUMBER "\\h*" UNIT "?)?|" BAR "(?:\\h*\\+\\h*" NUMBER "\\h*" UNIT
                     "?)?|(?:\\+\\h*|-)?" NUMBER "\\h*(?:" UNIT "|%)?)(?:" TIMES "((?:amrap\\h*)?[0-9]++|(?:" MISS
                     "|f)\\b)(\\+)?" REPS_WORD "(?:" TIMES "([0-9]++)(?:\\h*sets?\\b)?)?|\\h+(" MISS
                     ")\\b(?=\\h*(?:\\z|[,;@(])))"
                     "(?![\\p{L}\\p{N}]|\\.[0-9]|" TIMES "[0-9]|\\h*[-–—]\\h*[0-9]|\\h*sets?\\b|\\h*" UNIT
                     "\\h*(?:of\\h+)?(?:chain|band|releaser)|\\h*" MEASURE ")",
    [PATTERN_AT] = "(?:@\\h*|at\\h+)(?:(" NUMBER ")\\h*(" UNIT "|%)?|" BAR "|" BODY ")" NO_WORD,
    [PATTERN_ANNOTATION] = "@\\h*(" NUMBER ")(?:\\h*(" UNIT "|%))?" NUMBER_ENDS "(?!\\h*m(?:/|\\h)s)"
                           "|@?\\h*RPE\\h*[:=@]?\\h*(" NUMBER ")" NUMBER_ENDS "|@?\\h*(" NUMBER ")\\h*RPE\\b"
                           "|@?\\h*RIR\\h*[:=@]?\\h*(" NUMBER ")" NUMBER_ENDS "|@?\\h*(" NUMBER ")\\h*RIR\\b"
                           "|@?\\h*(" NUMBER ")\\h*m(?:/|\\h)s(?:-1|⁻¹)?" NO_WORD "|(" NUMBER
                           ")\\h*%(?:\\h*(?:of\\h*)?(?:1\\h?rm|max)\\b)?"
                           "|(" MISS ")\\b(?=\\h*(?:\\z|[,;@)]))|((?:to\\h+)?failure|amrap)\\b(?=\\h*(?:\\z|[,;@)]))"
                           "|(warm[\\h-]?up|w[\\h-]up)\\b(?=\\h*(?:\\z|[,;@)]))",
    [PATTERN_CUT] = "\\h+(?=(@\\h*(?:10(?:[.,]0+)?|[0-9](?:[.,][0-9]+)?)(?![0-9]|[.,][0-9]|\\h*(?:" UNIT
                    "|%))|RPE\\b|RIR\\b|" NUMBER "\\h*(?:m/s|RPE\\b|RIR\\b))|\\(|" MISS "\\b)|\\h*[,;]\\h+",
    [PATTERN_STRAIGHT] = "(?>" BODY "(?:\\h*[+-]\\h*" NUMBER "\\h*" UNIT "?)?|" BAR "|" NUMBER "(?:\\h*(?:" UNIT
                         "|%))?)" NO_WORD "(?!\\h*" JOIN ")",
    [PATTERN_TIMED] = "(?<![\\p{L}\\p{N}.,/\"+-])(?:[0-9]++" TIMES ")?[0-9]++(?:[.,:][0-9]++)*\\h*" MEASURE,
    [PATTERN_NEXT_LOAD] = "(?![0-9]+:[0-9]{2}(?![0-9x×*,+]))(?:" BODY "|" BAR "|[+-]?" NUMBER ")[^:]*:\\h*" RUN,
    [PATTERN_SPACED] =
        "\\h+(?:for\\h+)?(?=[0-9]++\\h*[x×*]\\h*[0-9]++|[0-9]{1,2}(?:\\h*,\\h*[0-9]{1,2})+(?![0-9.x×*]))",
    [PATTERN_SPELLED] = "(" NUMBER "\\h*" UNIT "?)\\h*,\\h*(?:(?:x\\h*)?([0-9]{1,3})\\h*rep(?:etition)?s?\\h*[,x×]?\\h*"
                        "([0-9]{1,3})\\h*sets?|([0-9]{1,3})\\h*sets?\\h*(?:[,x×]|of)?\\h*([0-9]{1,3})\\h*"
                        "rep(?:etition)?s?)\\b",
    [PATTERN_LIFT_WORD] = "(?<![\\p{L}\\p{N}])(?:squats?|sq|bench|bp|press(?:es)?|dead(?:lift)?s?|dl|rows?|curls?|"
                          "pulls?|pull[\\h-]?ups?|chin[\\h-]?ups?|chins?|dips?"
                          "|lunges?|raises?|extensions?|jerks?|snatch(?:es)?|cleans?|thrusts?|mornings?|fl(?:y|ies|yes)"
                          "|shrugs?|step[\\h-]?ups?|rdls?|ohp|cgbp|push[\\h-]?ups?"
                          "|bridges?|hinges?|swings?|crunch(?:es)?|sit[\\h-]?ups?)(?![\\p{L}\\p{N}])",
    [PATTERN_WORK] = "(?:[0-9]\\h*|\\h)[x×*]\\h*[0-9]|:\\h*[0-9]",
};

struct text_patterns
{
    struct pattern point[PATTERN_COUNT], comma[PATTERN_COUNT];
};

static char *with_numbers(struct arena *scratch, const char *source, const char *number)
{
    char *text = arena_copy(scratch, "");
    for (const char *end; *source; source = end + (*end != 0)) {
        end = source + strcspn(source, NUMBER);
        text = arena_printf(scratch, "%s%.*s%s", text, (int)(end - source), source, *end ? number : "");
    }
    return text;
}

struct text_patterns *text_patterns_of(struct reading *reading)
{
    if (reading->patterns)
        return reading->patterns;
    struct arena *scratch = arena_new();
    reading->patterns = ARENA_NEW(reading->arena, struct text_patterns);
    for (int i = 0; i < PATTERN_COUNT; i++) {
        reading->patterns->point[i] = pattern_make(with_numbers(scratch, sources[i], number_point));
        reading->patterns->comma[i] = pattern_make(with_numbers(scratch, sources[i], number_comma));
    }
    arena_free(scratch);
    return reading->patterns;
}

void text_patterns_free(struct text_patterns *patterns)
{
    for (int i = 0; patterns && i < PATTERN_COUNT; i++) {
        pattern_free(&patterns->point[i]);
        pattern_free(&patterns->comma[i]);
    }
}

static bool match_at(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text,
                     size_t length, size_t at, uint32_t flags, struct text_match *match)
{
    struct pattern *compiled = decimal == ',' ? &patterns->comma[pattern] : &patterns->point[pattern];
    if (pattern_match(compiled, text, length, at, flags) <= 0)
        return false;
    const PCRE2_SIZE *offsets = pcre2_get_ovector_pointer(compiled->match);
    uint32_t groups = pcre2_get_ovector_count(compiled->match);
    match->all = (struct text_span){offsets[0], offsets[1] - offsets[0]};
    for (uint32_t i = 1; i < ANNOTATION_GROUPS; i++)
        match->group[i] = i < groups && offsets[2 * i] != PCRE2_UNSET
                              ? (struct text_span){offsets[2 * i], offsets[2 * i + 1] - offsets[2 * i]}
                              : (struct text_span){SIZE_MAX, 0};
    return true;
}

bool text_fits(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text, size_t length,
               size_t at, struct text_match *match)
{
    return match_at(patterns, pattern, decimal, text, length, at, PCRE2_ANCHORED, match);
}

bool text_finds(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text,
                size_t length, size_t at, struct text_match *match)
{
    return at <= length && match_at(patterns, pattern, decimal, text, length, at, 0, match);
}

/* --- is it a text log? ------------------------------------------------------------------------------------------- */

#define LINE_SHOWN 400 /* most bytes of a line that are checked */

bool text_log_detect(struct reading *reading, struct input *input, bool strictly)
{
    struct text_patterns *patterns = text_patterns_of(reading);
    struct text_match match;
    bool dated = false, work = false, other = false;
    size_t left;
    const char *text = input_head(input, &left);
    for (const char *end; left; left -= (size_t)(end - text), text = end) {
        end = memchr(text, '\n', left);
        end = end ? end + 1 : text + left;
        const char *line = text;
        while (line < end && (*line == ' ' || *line == '\t'))
            line++;
        size_t length = (size_t)(end - line) < LINE_SHOWN ? (size_t)(end - line) : LINE_SHOWN;
        while (length && (line[length - 1] == '\n' || line[length - 1] == ' ' || line[length - 1] == '\t'))
            length--;
        bool marked = *line == '#' && text_is_marked_date(patterns, line, length, &match);
        if (!length || (*line == '#' && !marked) || text_fits(patterns, PATTERN_HEADER, '.', line, length, 0, &match) ||
            text_fits(patterns, PATTERN_NOTE, '.', line, length, 0, &match))
            continue;
        other = true;
        if (marked || text_fits(patterns, PATTERN_SESSION, '.', line, length, 0, &match))
            dated = true;
        else if (dated)
            work = work || text_finds(patterns, PATTERN_WORK, '.', line, length, 0, &match);
        if (dated && (work || !strictly))
            return true;
    }
    return !strictly && (dated || !other);
}
