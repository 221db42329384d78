#include "model/focus.h"

#include <string.h>
#include <strings.h>

/* Longer words before those that they begin with. */
static const struct
{
    const char *words;
    struct focus_said said;
} trade_words[] = {
    {"dynamic effort", {FOCUS_SPEED, false}},
    {"speed", {FOCUS_SPEED, false}},
    {"maximum effort", {FOCUS_STRENGTH, false}},
    {"maximal effort", {FOCUS_STRENGTH, false}},
    {"max effort", {FOCUS_STRENGTH, false}},
    {"heavy", {FOCUS_STRENGTH, false}},
    {"strength", {FOCUS_STRENGTH, false}},
    {"repetition effort", {FOCUS_VOLUME, false}},
    {"repetition", {FOCUS_VOLUME, false}},
    {"volume", {FOCUS_VOLUME, false}},
    {"technique", {FOCUS_SKILL, false}},
    {"skill", {FOCUS_SKILL, false}},
    {"test", {FOCUS_TEST, false}},
    {"deload", {FOCUS_UNSAID, true}},
    {"light week", {FOCUS_UNSAID, true}},
    {"easy week", {FOCUS_UNSAID, true}},
    {"recovery week", {FOCUS_UNSAID, true}},
};

static bool is_letter(char c)
{
    return ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') || (c >= '0' && c <= '9') || (c & 0x80);
}

bool focus_at_start(const char *text, struct focus_said *said, size_t *length)
{
    *said = (struct focus_said){FOCUS_UNSAID, false};
    for (size_t i = 0; i < sizeof trade_words / sizeof *trade_words; i++) {
        *length = strlen(trade_words[i].words);
        if (strncasecmp(text, trade_words[i].words, *length) || is_letter(text[*length]))
            continue;
        *said = trade_words[i].said;
        return true;
    }
    return false;
}

bool focus_in_name(const char *text, struct focus_said *said)
{
    struct focus_said found, none = {FOCUS_UNSAID, false};
    bool any = false;
    *said = none;
    for (const char *at = text; *at; at++) {
        size_t length;
        if (!is_letter(*at) || (at > text && is_letter(at[-1])) || !focus_at_start(at, &found, &length))
            continue;
        bool clash = found.focus != FOCUS_UNSAID && said->focus != FOCUS_UNSAID && found.focus != said->focus;
        if (clash) {
            *said = none;
            return false;
        }
        said->focus = found.focus != FOCUS_UNSAID ? found.focus : said->focus;
        said->light |= found.light;
        any = true;
    }
    return any;
}

/* Nothing more in the clause but what a session is called. */
static bool ends_clause(const char *text)
{
    static const char *const nouns[] = {"day", "week", "session", "work", "sets", "workout"};
    text += strspn(text, " \t");
    for (size_t i = 0; i < sizeof nouns / sizeof *nouns; i++)
        if (!strncasecmp(text, nouns[i], strlen(nouns[i])) && !is_letter(text[strlen(nouns[i])])) {
            text += strlen(nouns[i]);
            break;
        }
    text += strspn(text, " \t");
    return !*text || strchr(",;.!()\n\r", *text);
}

bool focus_in_note(const char *text, struct focus_said *said)
{
    for (const char *at = text; *at; at += strcspn(at, ",;.()\n"), at += *at != 0) {
        size_t length;
        at += strspn(at, " \t\r");
        bool any = focus_at_start(at, said, &length) && ends_clause(at + length);
        if (any && said->focus != FOCUS_TEST) /* on it rests a tested 1RM: that takes more than a remark */
            return true;
    }
    *said = (struct focus_said){FOCUS_UNSAID, false};
    return false;
}
