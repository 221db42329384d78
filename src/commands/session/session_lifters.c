#include "commands/session/session_lifters.h"

#include "commands/session/session.h"

#include "analysis/ordering.h"
#include "base/parallel.h"
#include "commands/session/remarks.h"
#include "model/ledger.h"

#define LIFTERS_AHEAD ((size_t)4) /* of each hand: whose rows are held until those before them are written */


#define SETS_FOR_TWO 20000 /* for fewer, another thread costs more than it saves */

struct hand /* one who works on a lifter at a time */
{
    struct arena *arena;                /* NULL: it has had no lifter so far */
    struct arena *of_lifter; /* emptied after each */
    struct log log;                     /* the session's but for the sets, which are one lifter's */
    LIST(struct set) gathered;          /* of a lifter whose sets do not stand together */
    struct training_maker *maker;
    struct remarks *remarks;
};

struct by_lifter
{
    struct session *session;
    struct training_options options;
    uint32_t *numbers; /* of the lifters, by name */
    uint32_t *order;   /* of the sets, by lifter number and place; NULL: they are in a ledger, or taken all at once */
    size_t *starts;    /* in `order`, by lifter number; one more than lifters */
    struct hand *hands;
    unsigned hand_count;
    struct output *output;
    struct output **parts; /* one for each lifter ahead; NULL: rows go straight to where they belong */
    size_t ahead;
    lifter_work *work;
    void *context;
};

static struct hand *hand_of(struct by_lifter *by, unsigned worker)
{
    struct hand *hand = &by->hands[worker];
    if (!hand->arena) {
        const struct session *session = by->session;
        hand->arena = arena_new();
        hand->of_lifter = arena_new();
        hand->log = *session->log;
        if (hand->log.ledger || by->order) {
            hand->log.arena = hand->arena;
            hand->log.sets.items = NULL;
            hand->log.sets.count = hand->log.sets.capacity = 0;
        }
        hand->maker = training_maker_new(hand->arena, &hand->log, session->gym, &by->options);
        training_maker_share(hand->maker, by->hand_count);
        hand->remarks = remarks_new(hand->arena, by->session);
    }
    return hand;
}

/* Where the lifter's sets stand together they are taken where they are. */
static void take_sets(const struct by_lifter *by, struct hand *hand, uint32_t lifter)
{
    struct set *all = by->session->log->sets.items;
    const uint32_t *order = by->order + by->starts[lifter];
    size_t count = by->starts[lifter + 1] - by->starts[lifter];
    bool together = count && order[count - 1] - order[0] == count - 1;
    hand->gathered.count = 0;
    for (size_t i = 0; !together && i < count; i++)
        *LIST_ADD(hand->arena, &hand->gathered) = all[order[i]];
    hand->log.sets.items = together ? &all[order[0]] : hand->gathered.items;
    hand->log.sets.count = hand->log.sets.capacity = count;
}

static void work_on(void *context, unsigned worker, size_t index)
{
    struct by_lifter *by = context;
    struct hand *hand = hand_of(by, worker);
    if (hand->log.ledger) {
        hand->log.sets.count = 0;
        ledger_read(hand->log.ledger, &hand->log, by->numbers[index]);
    } else if (by->order) {
        take_sets(by, hand, by->numbers[index]);
    }
    const struct training *training = training_of_sets(hand->maker, hand->of_lifter);
    remarks_see(hand->remarks, training);
    by->work(by->context, hand->of_lifter, training, by->parts ? by->parts[index % by->ahead] : NULL);
    arena_reset(hand->of_lifter);
}

static void write_part(void *context, size_t index)
{
    const struct by_lifter *by = context;
    struct output *part = by->parts[index % by->ahead];
    size_t length;
    const char *rows = output_memory(part, &length);
    output_put(by->output, rows, length);
    output_clear(part);
}

static uint32_t *numbers_by_name(struct arena *arena, const struct names *lifters)
{
    const uint32_t *ranks = name_ranks(arena, lifters);
    uint32_t *numbers = ARENA_ARRAY(arena, uint32_t, names_count(lifters));
    for (uint32_t i = 0; i < names_count(lifters); i++)
        numbers[ranks[i]] = i;
    return numbers;
}

static void order_sets(struct by_lifter *by)
{
    const struct log *log = by->session->log;
    struct arena *arena = by->session->arena;
    size_t lifters = names_count(log->lifters), *next = ARENA_ARRAY(arena, size_t, lifters + 1);
    by->starts = ARENA_ARRAY(arena, size_t, lifters + 1);
    by->order = ARENA_ARRAY(arena, uint32_t, log->sets.count);
    for (size_t i = 0; i < log->sets.count; i++)
        by->starts[log->sets.items[i].lifter + 1]++;
    for (size_t i = 0; i < lifters; i++)
        next[i + 1] = by->starts[i + 1] += by->starts[i];
    for (size_t i = 0; i < log->sets.count; i++)
        by->order[next[log->sets.items[i].lifter]++] = (uint32_t)i;
}

static void finish(struct by_lifter *by)
{
    struct remarks *remarks = remarks_new(by->session->arena, by->session);
    for (unsigned i = 0; i < by->hand_count; i++) {
        struct hand *hand = &by->hands[i];
        if (!hand->arena)
            continue;
        remarks_join(remarks, hand->remarks);
        training_maker_free(hand->maker);
        arena_free(hand->of_lifter);
        arena_join(by->session->arena, hand->arena); /* findings and tables may still point at its sets */
    }
    remarks_finish(remarks);
}

static unsigned hands_for(const struct session *session, size_t lifters)
{
    size_t sets = 0;
    for (size_t i = 0; i < session->log->files.count; i++)
        sets += session->log->files.items[i].sets;
    if (lifters < 2 || (!session->options->jobs && sets < SETS_FOR_TWO))
        return 1;
    return session_jobs(session);
}

static void work_in_parts(struct by_lifter *by, struct output *output, size_t count)
{
    struct arena *arena = by->session->arena, **own;
    by->output = output;
    by->ahead = LIFTERS_AHEAD * by->hand_count;
    by->parts = ARENA_ARRAY(arena, struct output *, by->ahead);
    own = ARENA_ARRAY(arena, struct arena *, by->ahead);
    for (size_t i = 0; i < by->ahead; i++)
        by->parts[i] = output_to_memory(own[i] = arena_new());
    in_parallel_in_order(by->hand_count, count, by->ahead, work_on, write_part, by);
    for (size_t i = 0; i < by->ahead; i++)
        arena_free(own[i]);
}

void session_each_lifter(struct session *session, struct output *output, lifter_work *work, void *context)
{
    struct arena *arena = session->arena;
    struct by_lifter by = {.session = session, .options = session_training_options(session), .work = work, .context = context};
    if (!session->log->ledger && !session->log->percents.count)
        order_sets(&by);
    /* A set whose load is in % is pointed at where it stands: one training of all lifters. */
    size_t count = session->log->ledger || by.order ? names_count(session->log->lifters) : 1;
    by.hand_count = output ? hands_for(session, count) : 1;
    by.hands = ARENA_ARRAY(arena, struct hand, by.hand_count);
    by.numbers = numbers_by_name(arena, session->log->lifters);
    if (by.hand_count > 1)
        work_in_parts(&by, output, count);
    else
        in_parallel(1, count, work_on, &by);
    finish(&by);
}
