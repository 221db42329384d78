#include "reading/load/note_reader.h"

#include "reading/load/load_reader.h"
#include "reading/load/load_reader_state.h"
#include "reading/load/note_labels.h"
#include "reading/load/note_limits.h"

#include <math.h>
#include <string.h>

struct note_answer
{
    struct note_ar note;
    struct load_fault fault;
    bool refused;
};

struct clause
{
    size_t begin, end; /* range of words */
};

static bool ends_clause(enum word_kind kind)
{
    return kind == WORD_COMMA || kind == WORD_STOP || kind == WORD_CLOSE;
}

/* The clause that begins at `at`. A bracket ends it, unless the phrase before the bracket can use its contents;
 * phrase_read decides that, so brackets stay in the clause up to their end. */
static struct clause next_clause(const struct words *words, size_t at)
{
    struct clause clause = {at, at};
    size_t depth = 0;
    for (; clause.end < words->list.count; clause.end++) {
        enum word_kind kind = words->list.items[clause.end].kind;
        if (kind == WORD_OPEN)
            depth++;
        else if (depth && kind == WORD_CLOSE)
            depth--;
        else if (!depth && ends_clause(kind))
            break;
    }
    return clause;
}

static unsigned gear_named(const struct words *words, struct clause clause)
{
    unsigned gear = 0;
    for (size_t i = clause.begin; i < clause.end; i++) {
        const struct word *word = &words->list.items[i];
        bool named = word->kind == WORD_LABEL || note_label_alone(word);
        if (word->kind == WORD_CHAIN || (named && (word->gear & GEAR_CHAIN)))
            gear |= AR_WORD_CHAIN;
        if (word->kind == WORD_BAND || (named && (word->gear & GEAR_BAND)))
            gear |= AR_WORD_BAND;
    }
    return gear;
}

static bool holds(const struct words *words, struct clause clause, enum word_kind kind)
{
    for (size_t i = clause.begin; i < clause.end; i++)
        if (words->list.items[i].kind == kind)
            return true;
    return false;
}

static bool is_lead(enum word_kind kind)
{
    return kind == WORD_JOIN || kind == WORD_LEAD;
}

/* Where a bracket opens in the clause; its end: there is none. */
static size_t bracket_in(const struct words *words, struct clause clause)
{
    while (clause.begin < clause.end && words->list.items[clause.begin].kind != WORD_OPEN)
        clause.begin++;
    return clause.begin;
}

/* The part of the clause that can be one phrase: up to a bracket that holds prose or follows a negation. All of "next
 * time (2 chains/side)" is about another occasion. */
static struct clause up_to_bracket(const struct words *words, struct clause clause)
{
    struct clause head = {clause.begin, bracket_in(words, clause)};
    if (head.end == clause.end || holds(words, head, WORD_OCCASION))
        return clause;
    if (holds(words, head, WORD_NEGATION))
        return head;
    for (size_t i = head.end + 1; i < clause.end && words->list.items[i].kind != WORD_CLOSE; i++) {
        enum word_kind kind = words->list.items[i].kind;
        if (kind == WORD_UNKNOWN || kind == WORD_MARK || kind == WORD_STOP || kind == WORD_NEGATION ||
            kind == WORD_OCCASION)
            return head;
    }
    return clause;
}

/* Where the next clause begins: in a bracket that the phrase did not use, after one that it used, or after this
 * clause. */
static size_t after_clause(const struct words *words, struct clause clause, size_t used)
{
    size_t open = bracket_in(words, clause);
    if (open < clause.end && used <= open)
        return open + 1;
    return open < clause.end && used < clause.end && words->list.items[used - 1].kind == WORD_CLOSE ? used
                                                                                                    : clause.end + 1;
}

/* "swapped bands after set 2": a word before the gear is its name only if the clause holds nothing else, or has + or
 * with. */
static bool is_chance_name(const struct words *words, const struct piece *piece, bool led, size_t after,
                           struct clause clause)
{
    bool known = !piece->label;
    for (size_t i = clause.begin; i < clause.end && piece->label; i++)
        known |= words->list.items[i].kind == WORD_LABEL && !strcmp(words->list.items[i].label, piece->label);
    return !known && !led && !strpbrk(piece->label, "0123456789") && after < clause.end &&
           !is_lead(words->list.items[after].kind);
}

static bool note_clause(struct phrase_reader *phrases, struct clause clause, struct piece_list *pieces, bool *read,
                        size_t *used)
{
    const struct words *words = phrases->words;
    size_t at = clause.begin;
    *read = false;
    while (at < clause.end) {
        size_t lead = at, taken = 0;
        while (at < clause.end && is_lead(words->list.items[at].kind))
            at++;
        if ((at == lead && at != clause.begin) || pieces->count == PIECES_LIMIT)
            break;
        enum phrase_result result = phrase_read(phrases, at, clause.end, &pieces->items[pieces->count], &taken);
        if (result == PHRASE_REFUSED)
            return false;
        if (result == PHRASE_NOT_AR || !taken ||
            is_chance_name(words, &pieces->items[pieces->count], at > lead, at + taken, clause)) {
            at = lead;
            break;
        }
        pieces->count++;
        *read = true;
        at += taken;
    }
    *used = at;
    return true;
}

static const char *clause_text(struct load_reader *reader, const struct words *words, struct clause clause)
{
    if (clause.begin >= clause.end)
        return "";
    const struct word *first = &words->list.items[clause.begin], *last = &words->list.items[clause.end - 1];
    return arena_text(reader->arena, words->text + first->at, last->at + last->length - first->at);
}

/* "2 chains/side no belt": would be AR with a count, a mass or a name, if the clause had no negation. */
static bool hides_ar(struct phrase_reader *phrases, struct clause clause)
{
    struct load_fault fault = *phrases->fault;
    struct piece_list pieces = {.count = 0};
    bool read = false;
    size_t used;
    note_clause(phrases, clause, &pieces, &read, &used);
    *phrases->fault = fault;
    const struct piece *piece = pieces.items;
    return read && (piece->per_side || piece->label || !isnan(piece->mass_kg) || !isnan(piece->top_kg) ||
                    !isnan(piece->bottom_kg));
}

/* "2 chains/side" in quotes is a quotation, or the name of something unknown. */
static bool quotes_gear(struct load_reader *reader, const struct words *words, struct clause clause)
{
    for (size_t i = clause.begin; i < clause.end; i++) {
        const struct word *word = &words->list.items[i];
        if (word->kind == WORD_LABEL && word->gear == GEAR_QUOTED && words_name_gear(reader->words, word->label))
            return true;
    }
    return false;
}

static bool read_clauses(struct load_reader *reader, struct phrase_reader *phrases, struct piece_list *pieces,
                         struct note_ar *note)
{
    const struct words *words = phrases->words;
    for (size_t at = 0; at < words->list.count;) {
        struct clause whole = next_clause(words, at), clause = up_to_bracket(words, whole);
        unsigned gear = gear_named(words, clause);
        bool phrase = gear || phrase_names_gear(words, clause.begin, clause.end) || holds(words, clause, WORD_RELEASER);
        struct clause rest = clause;
        bool read = false, unread = false;
        size_t used = clause.begin;
        if (!phrase) {
            unread = quotes_gear(reader, words, clause);
        } else if (holds(words, clause, WORD_NEGATION)) {
            note->negated |= gear;
            unread = hides_ar(phrases, clause);
        } else if (holds(words, clause, WORD_OCCASION)) {
            unread = gear;
            used = clause.end;
        } else {
            if (!note_clause(phrases, clause, pieces, &read, &used))
                return false;
            rest = (struct clause){used, bracket_in(words, (struct clause){used, clause.end})};
            unread = gear_named(words, rest);
        }
        if (unread && !note->unread)
            note->unread = clause_text(reader, words, read ? rest : clause);
        at = after_clause(words, whole, used);
    }
    return true;
}

static void read_words(struct load_reader *reader, const struct words *words, struct load_style style,
                       struct note_answer *answer)
{
    struct phrase_reader phrases = phrase_reader_for(reader, words, style, &answer->fault);
    struct piece_list pieces = {.count = 0};
    phrases.in_note = true;
    answer->refused = !read_clauses(reader, &phrases, &pieces, &answer->note);
    if (!answer->refused)
        answer->note.ar = load_of_pieces(reader, &pieces);
}

static struct words *words_of_note(struct load_reader *reader, const char *text, struct load_style style)
{
    struct words *words = words_read(reader->words, reader->scratch, text, style.decimal);
    note_labels_unmark(words);
    note_join_rigs(words);
    return words;
}

/* Words that limit the AR to some of the sets are removed, if AR then remains: alone they are prose like any other. */
static void read_note(struct load_reader *reader, const char *text, struct load_style style, struct note_answer *answer)
{
    struct words *words = words_of_note(reader, text, style);
    struct clause all = {0, words->list.count};
    bool names_gear = gear_named(words, all) || holds(words, all, WORD_RELEASER);
    const char *unread = NULL;
    enum ar_limit limit = note_limit(reader, words, &unread);
    read_words(reader, words, style, answer);
    if (limit != AR_LIMIT_NONE && !answer->note.ar) {
        *answer = (struct note_answer){0};
        read_words(reader, words_of_note(reader, text, style), style, answer);
        limit = AR_LIMIT_NONE;
    }
    answer->note.names_gear = names_gear;
    answer->note.limit = (uint8_t)limit;
    if (limit == AR_LIMIT_OTHER && !answer->note.unread)
        answer->note.unread = unread;
}

const struct note_ar *note_read(struct load_reader *reader, const char *text, struct load_style style,
                                struct load_fault *fault)
{
    static const struct note_ar nothing;
    size_t length;
    if (!words_name_gear(reader->words, text)) { /* usual; a caller that meets it often should remember that */
        *fault = (struct load_fault){0};
        return &nothing;
    }
    char *key = memo_key(reader, text, style, 0, &length);
    struct note_answer *answer = map_get(reader->notes, key, length);
    if (!answer) {
        answer = ARENA_NEW(reader->arena, struct note_answer);
        read_note(reader, text, style, answer);
        map_put(reader->notes, key, length, answer);
    }
    arena_reset(reader->scratch);
    *fault = answer->fault;
    return answer->refused ? NULL : &answer->note;
}
