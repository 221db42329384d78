/* CSV exports to sets: each case is a file, the sets it must give and what must be said. */
#include "reading/log_reader.h"

#include "base/number.h"
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_log.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct diags *diags;
static struct gym *gym;
static struct reading *reading;

static void set_up(void)
{
    arena = arena_new();
    diags = diags_new(arena);
    gym = gym_new(arena);
}

static void tear_down(void)
{
    if (reading)
        reading_free(reading);
    reading = NULL;
    arena_free(arena);
}

/* Reads a file; false: it is no CSV log, or was refused as a whole. */
static bool read_bytes(const char *bytes, size_t length, struct reading_options options)
{
    char delimiter;
    uint32_t header_line, file;
    if (!reading)
        reading = reading_new(arena, gym, diags, &options);
    struct input *input = input_from_memory(arena, "log.csv", bytes, length, diags);
    bool good = csv_log_detect(reading, input, &delimiter, &header_line);
    if (good) {
        file = (uint32_t)reading->log->files.count;
        LIST_ADD(arena, &reading->log->files)->path = "log.csv";
        good = read_csv_log(reading, input, file, delimiter, header_line);
    }
    input_close(input);
    return good;
}

static bool read_text(const char *text)
{
    return read_bytes(text, strlen(text), (struct reading_options){0});
}

/* "2:2026-01-12 squat 100 kg x5": line, day, lift, load, repetitions, then what else the set carries. */
static const char *shown_set(const struct set *set)
{
    const struct log *log = reading->log;
    const struct load whole = load_of_both(set->weight, set->ar);
    char day[16], assumed[160];
    date_print(day, set->day);
    char *text = arena_printf(arena, "%u:%s %s%s%s %s x%u", set->line, day, names_text(log->lifters, set->lifter),
                              *names_text(log->lifters, set->lifter) ? " " : "", names_text(log->lifts, set->lift),
                              set->weight->straight == STRAIGHT_NONE ? "?" : load_print(arena, &whole), set->reps);
    if (set->weight->straight == STRAIGHT_NONE && *set->ar->ar)
        text = arena_printf(arena, "%s + %s", text, set->ar->ar);
    if (set->kind != SET_WORK)
        text = arena_printf(arena, "%s %s", text, set_kind_name((enum set_kind)set->kind));
    text = arena_printf(arena, "%s%s%s", text, set->to_failure ? " failure" : "", set->drop ? " drop" : "");
    if (!isnan(set->rpe))
        text = arena_printf(arena, "%s @%g", text, set->rpe);
    if (!isnan(set->rir))
        text = arena_printf(arena, "%s rir%g", text, set->rir);
    if (!isnan(set->velocity_ms))
        text = arena_printf(arena, "%s %gm/s", text, set->velocity_ms);
    if (!isnan(set->bodyweight_kg))
        text = arena_printf(arena, "%s bw%g", text, set->bodyweight_kg);
    if (set->focus != FOCUS_UNSAID)
        text = arena_printf(arena, "%s <%s>", text, focus_name((enum focus)set->focus));
    if (set->assumed & ~(unsigned)ASSUMED_UNIT)
        text = arena_printf(arena, "%s {%s}", text, assumptions_print(assumed, set->assumed & ~(unsigned)ASSUMED_UNIT));
    return set->note ? arena_printf(arena, "%s '%s'", text, set->note) : text;
}

static const char *shown_sets(void)
{
    const char *all = "";
    for (size_t i = 0; i < reading->log->sets.count; i++)
        all = arena_printf(arena, "%s%s\n", all, shown_set(&reading->log->sets.items[i]));
    return all;
}

/* "bad-reps 3:5" for each, in order; the note about an assumed unit left out. */
static const char *shown_diags(void)
{
    const char *all = "";
    diags_sort(diags);
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        if (diag->id != DIAG_ASSUMED_UNIT)
            all = arena_printf(arena, "%s%s%s %u:%u", all, *all ? ", " : "", diag_name(diag->id), diag->at.line,
                               diag->at.column);
    return all;
}

#define HEAD "Date,Exercise,Weight,Reps\n"

static const struct
{
    const char *file, *sets, *diags;
} logs[] = {
    /* columns per side, and one that names chains and is none */
    {"Date,Exercise,Weight,Reps,Chains per side (kg),Chain side\n2026-01-12,squat,100 kg,5,15,L\n"
     "2026-01-12,squat,100 kg,5,15 kg in all,-\n\n2026-01-12,squat,100 kg,5,,R\n",
     "2:2026-01-12 squat 100 kg + 30 kg chain x5\n3:2026-01-12 squat 100 kg + 15 kg chain x5\n"
     "5:2026-01-12 squat 100 kg x5\n",
     "unread-column 1:48"},
    /* a small number below a header in the plural may count */
    {"Date,Exercise,Weight,Reps,Bands\n2026-01-12,squat,100 kg,5,2\n2026-01-12,squat,100 kg,5,40\n",
     "3:2026-01-12 squat 100 kg + bands 40 kg x5\n", "ambiguous-ar 2:27"},
    {"Date,Exercise,Weight,Reps,Chains per side\n2026-01-12,squat,100 kg,5,2/side\n2026-01-12,squat,100 kg,5,2\n",
     "2:2026-01-12 squat 100 kg + 2 chains/side x5\n3:2026-01-12 squat 100 kg + 2 chains/side x5\n", ""},
    {"Date,Exercise,Weight,Reps,Chains\n2026-01-12,squat,100 kg,5,2 per side\n",
     "2:2026-01-12 squat 100 kg + 2 chains/side x5\n", ""},
    /* a weight with a sign is hung on the body */
    {HEAD "2026-01-12,dip,+25 kg,5\n2026-01-12,dip,+25,5\n2026-01-12,squat,+25 kg,5\n2026-01-12,squat,+25,5\n",
     "2:2026-01-12 dip BW+25 kg x5\n3:2026-01-12 dip BW+25 kg x5\n5:2026-01-12 squat 25 kg x5\n", "bad-load 4:18"},
    /* a column that asks whether the set was a warm-up */
    {"timestamp,exercise,weight,reps,is_warmup\n2026-01-12T18:30:00Z,squat,60 kg,5,true\n"
     "2026-01-12T18:40:00Z,squat,100 kg,5,false\n2026-01-12T18:45:00Z,squat,100 kg,5,\n",
     "2:2026-01-12 squat 60 kg x5 warm-up\n3:2026-01-12 squat 100 kg x5\n4:2026-01-12 squat 100 kg x5\n", ""},
    /* the plain case */
    {HEAD "2026-01-12,squat,100,5\n2026-01-13,squat,102.5 kg,3\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-13 squat 102.5 kg x3\n", ""},
    /* a header alone, blank lines, records of empty cells */
    {HEAD, "", "empty-log 0:0"},
    {HEAD "\n,,,\n2026-01-12,squat,100,5\n,,,\n", "4:2026-01-12 squat 100 kg x5\n", ""},
    {HEAD "\xC2\xA0,,,\n2026-01-12,squat,100,5\n", "3:2026-01-12 squat 100 kg x5\n",
     ""}, /* also where char has no sign */
    /* title lines above, columns in any order, trailing empty columns */
    {"My training,,\nExported 2026-02-01,,\n\nReps,Movement,Load,Performed,,\n5,squat,100,2026-01-12,,\n",
     "5:2026-01-12 squat 100 kg x5\n", ""},
    /* delimiters and decimal commas */
    {"Date;Exercise;Weight;Reps\n2026-01-12;squat;102,5;5\n2026-01-12;squat;1.000,5 kg;5\n",
     "2:2026-01-12 squat 102.5 kg x5\n3:2026-01-12 squat 1000.5 kg x5\n", ""},
    {"Date\tExercise\tWeight\tReps\n2026-01-12\tsquat\t102,5\t5\n", "2:2026-01-12 squat 102.5 kg x5\n", ""},
    {"Date;Exercise;Weight;Reps\n2026-01-12;squat;102.5;5\n2026-01-12;squat;\"1,000.5\";5\n",
     "2:2026-01-12 squat 102.5 kg x5\n3:2026-01-12 squat 1000.5 kg x5\n", ""},
    {"Date;Exercise;Weight;Reps\n2026-01-12;squat;100;5\n", "2:2026-01-12 squat 100 kg x5\n", ""},
    {"Date;Exercise;Weight;Reps;RPE\n2026-01-12;squat;100;5;7,5\n", "2:2026-01-12 squat 100 kg x5 @7.5\n", ""},
    {"Date|Exercise|Weight|Reps\n2026-01-12|squat|102.5|5\n", "2:2026-01-12 squat 102.5 kg x5\n", ""},
    {HEAD "2026-01-12,squat,\"1,000\",5\n", "2:2026-01-12 squat 1000 kg x5\n", ""},
    /* an unquoted decimal comma makes a cell too many, and is never read as 102 kg for five */
    {HEAD "2026-01-12,squat,102,5,3\n", "", "extra-cells 2:24"},
    {"Date,Exercise,Weight,Reps,,\n2026-01-12,squat,102,5,3,\n", "", "extra-cells 2:24"},
    /* units: header, unit column, cell */
    {"Date,Exercise,Weight (lb),Reps\n2026-01-12,squat,225,5\n2026-01-12,squat,100 kg,5\n",
     "2:2026-01-12 squat 102.05828325 kg x5\n3:2026-01-12 squat 100 kg x5\n", ""},
    {"Date,Exercise,Weight,Unit,Reps\n2026-01-12,squat,225,lbs,5\n2026-01-12,squat,100,kg,5\n2026-01-12,squat,100,"
     "stone,5\n",
     "2:2026-01-12 squat 102.05828325 kg x5\n3:2026-01-12 squat 100 kg x5\n", "bad-load 4:22"},
    /* of doubled headers the first non-empty cell counts, each in its own unit */
    {"Date,Exercise,Weight (kg),Weight (lb),Reps\n2026-01-12,squat,100,,5\n2026-01-12,squat,,225,5\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-12 squat 102.05828325 kg x5\n", ""},
    /* quoted line breaks keep the physical lines */
    {"Date,Exercise,Weight,Reps,Notes\n2026-01-12,squat,100,5,\"slow\n\nbut clean\"\n2026-01-12,squat,100,x,\n",
     "2:2026-01-12 squat 100 kg x5 'slow\n\nbut clean'\n", "bad-reps 5:22"},
    /* refusals name line and column, and stop nothing */
    {HEAD "2026-01-12,squat,100,5\nsometime,squat,100,5\n2026-02-30,squat,100,5\n,squat,100,5\n2026-01-12,,100,5\n"
          "2026-01-12,squat,heavy,5\n2026-01-12,squat,100,8-10\n2026-01-12,squat,100\n2026-01-12,squat,100,\n2026-01-"
          "12,squat,100,6\n",
     "2:2026-01-12 squat 100 kg x5\n11:2026-01-12 squat 100 kg x6\n",
     "bad-date 3:1, bad-date 4:1, missing-date 5:1, missing-lift 6:12, bad-load 7:18, bad-reps 8:22, too-few-cells "
     "9:0, bad-reps 10:22"},
    {HEAD "2026-01-12,squat,100,5\n2026-01-12,squat,\"100,5\n2026-01-12,squat,100,5\n",
     "2:2026-01-12 squat 100 kg x5\n", "open-quote 3:19"},
    {HEAD "2026-01-12,\"squat\nx\",\"100,5\n2026-01-12,squat,100,5\n", "", "open-quote 3:0"},
    /* a fault within the cell is shown at its own column */
    {HEAD "2026-01-12,squat,100 + 1 chain,5\n", "", "uneven-chains 2:24"},
    {HEAD "2026-01-12,squat,\"100 + 1 chain\",5\n", "", "uneven-chains 2:25"},
    /* quotes in a quoted cell are written twice; what stands on a later line of its cell is shown as the whole cell */
    {"Date,Exercise,Weight,Reps,Notes\n2026-01-12,squat,100,5,\"\u00e9 \"\"q\"\" \u00e9; 1 chain\"\n"
     "2026-01-12,squat,100,5,\"slow\n1 chain\"\n2026-01-12,\"a\nb\",100 + 1 chain,5,\n",
     "", "uneven-chains 2:36, uneven-chains 3:25, uneven-chains 5:1"},
    /* repetitions and sets */
    {"Date,Exercise,Weight,Reps,Sets\n2026-01-12,squat,100,5,3\n",
     "2:2026-01-12 squat 100 kg x5\n2:2026-01-12 squat 100 kg x5\n"
     "2:2026-01-12 squat 100 kg x5\n",
     ""},
    {"Date,Exercise,Weight,Reps,Sets\n2026-01-12,squat,100,\"5,4\",2\n2026-01-12,squat,100,3x5,2\n2026-01-12,squat,100,"
     "5,0\n"
     "2026-01-12,squat,100,5,1.5\n2026-01-12,squat,100,5,\n",
     "2:2026-01-12 squat 100 kg x5\n2:2026-01-12 squat 100 kg x4\n6:2026-01-12 squat 100 kg x5\n",
     "bad-sets 3:26, bad-sets 4:24, bad-sets 5:24"},
    {"Date,Exercise,Weight,Reps,Set\n2026-01-12,squat,100,5,3\n2026-01-12,squat,60,5,W\n2026-01-12,squat,60,5,D\n2026-"
     "01-12,squat,60,5,A1\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-12 squat 60 kg x5 warm-up\n4:2026-01-12 squat 60 kg x5 "
     "drop\n5:2026-01-12 squat 60 kg x5\n",
     ""},
    {HEAD "2026-01-12,squat,100,10+\n2026-01-12,squat,100,5.0\n2026-01-12,squat,100,0\n",
     "2:2026-01-12 squat 100 kg x10 failure\n3:2026-01-12 squat 100 kg x5\n4:2026-01-12 squat 100 kg x0 missed\n", ""},
    {HEAD "2026-01-12,squat,100,\"3,2,0\"\n",
     "2:2026-01-12 squat 100 kg x3\n2:2026-01-12 squat 100 kg x2\n2:2026-01-12 squat 100 kg x0 missed\n", ""},
    /* kinds; an unknown word is said once */
    {"Date,Exercise,Weight,Reps,Set "
     "Type\n2026-01-12,squat,60,5,Warm-up\n2026-01-12,squat,100,3,missed\n2026-01-12,squat,100,8,failure\n"
     "2026-01-12,squat,80,8,drop "
     "set\n2026-01-12,squat,80,8,myo\n2026-01-12,squat,80,8,myo\n2026-01-12,squat,120,,miss\n",
     "2:2026-01-12 squat 60 kg x5 warm-up\n3:2026-01-12 squat 100 kg x3 missed\n4:2026-01-12 squat 100 kg x8 failure\n"
     "5:2026-01-12 squat 80 kg x8 drop\n6:2026-01-12 squat 80 kg x8\n7:2026-01-12 squat 80 kg x8\n8:2026-01-12 squat "
     "120 kg x0 missed\n",
     "unknown-kind 6:23"},
    /* effort and velocity: what cannot be used is left out, said, and the set kept; 0 is empty */
    {"Date,Exercise,Weight,Reps,RPE,RIR,Velocity\n2026-01-12,squat,100,5,8.5,,0.62\n2026-01-12,squat,100,5,0,2,0.5 "
     "m/s\n"
     "2026-01-12,squat,100,5,11,,\n2026-01-12,squat,100,5,hard,-1,fast\n2026-01-12,squat,100,5,@8,0,\n",
     "2:2026-01-12 squat 100 kg x5 @8.5 0.62m/s\n3:2026-01-12 squat 100 kg x5 rir2 0.5m/s\n4:2026-01-12 squat 100 kg "
     "x5\n"
     "5:2026-01-12 squat 100 kg x5\n6:2026-01-12 squat 100 kg x5 @8 rir0\n",
     "effort-ignored 4:24, effort-ignored 5:24, effort-ignored 5:29, velocity-ignored 5:32"},
    /* AR in the weight cell, in columns, in the note */
    {HEAD "2026-01-12,squat,100 + 15 kg chain/side,5\n", "2:2026-01-12 squat 100 kg + 30 kg chain x5\n", ""},
    {"Date,Exercise,Weight,Reps,Chain,Band\n2026-01-12,squat,100,5,30,\n2026-01-12,squat,100,5,,40\n2026-01-12,squat,"
     "100,5,30,40\n"
     "2026-01-12,squat,100,5,0,none\n2026-01-12,squat,100,5,2,\n",
     "2:2026-01-12 squat 100 kg + 30 kg chain x5\n3:2026-01-12 squat 100 kg + bands 40 kg x5\n"
     "4:2026-01-12 squat 100 kg + 30 kg chain + bands 40 kg x5\n5:2026-01-12 squat 100 kg x5\n",
     "ambiguous-ar 6:24"},
    {"Date,Exercise,Weight,Reps,Chain (kg)\n2026-01-12,squat,100,5,4\n", "2:2026-01-12 squat 100 kg + 4 kg chain x5\n",
     ""},
    {"Date,Exercise,Weight,Reps,Notes\n2026-01-12,squat,100,5,\"30 kg chain, felt fast\"\n2026-01-12,squat,100,5,no "
     "chains today\n"
     "2026-01-12,squat,100 + 30 kg chain,5,no chains today\n2026-01-12,squat,100 + 30 kg chain,5,20 kg chain\n"
     "2026-01-12,squat,100 + 30 kg chain,5,chain 30 kg\n",
     "2:2026-01-12 squat 100 kg + 30 kg chain x5 '30 kg chain, felt fast'\n3:2026-01-12 squat 100 kg x5 'no chains "
     "today'\n"
     "6:2026-01-12 squat 100 kg + 30 kg chain x5 'chain 30 kg'\n",
     "contradiction 4:38, contradiction 5:38"},
    /* AR in the lift's name, unless a cell says more */
    {"Date,Exercise,Weight,Reps,Notes\n2026-01-12,Banded Squat,100,5,\n2026-01-12,banded squat,100,5,band 40 "
     "kg\n2026-01-12,band pull-apart,,20,\n",
     "2:2026-01-12 Banded Squat 100 kg + bands x5\n3:2026-01-12 Banded Squat 100 kg + bands 40 kg x5 'band 40 kg'\n"
     "4:2026-01-12 band pull-apart ? x20\n",
     "no-weight 4:0"},
    /* focus: five words, others stand in the note */
    {"Date,Exercise,Weight,Reps,Focus,Notes\n2026-01-12,squat,100,5,Speed,\n2026-01-12,squat,100,5,Lower "
     "A,\n2026-01-12,squat,100,5,Lower A,slow\n",
     "2:2026-01-12 squat 100 kg x5 <speed>\n3:2026-01-12 squat 100 kg x5 'Lower A'\n4:2026-01-12 squat 100 kg x5 "
     "'slow; Lower A'\n",
     ""},
    /* no weight: read, said once a lift */
    {HEAD "2026-01-12,plate walk,,5\n2026-01-12,plate walk,0,5\n2026-01-12,squat,100,5\n2026-01-12,row,-,5\n",
     "2:2026-01-12 plate walk ? x5\n3:2026-01-12 plate walk ? x5\n4:2026-01-12 squat 100 kg x5\n5:2026-01-12 row ? "
     "x5\n",
     "no-weight 2:0, no-weight 5:0"},
    /* runs, planks, carries: set aside, said once a lift */
    {"Date,Exercise,Weight,Reps,Seconds,Distance\n2026-01-12,plank,,,60,\n2026-01-12,plank,0,0,45,\n2026-01-12,carry,"
     "40,,,20 m\n"
     "2026-01-12,squat,100,5,30,\n2026-01-12,squat,100,0,0,0.0\n",
     "5:2026-01-12 squat 100 kg x5\n6:2026-01-12 squat 100 kg x0 missed\n", "set-aside 2:0, set-aside 4:0"},
    /* lifts of the body */
    {HEAD "2026-01-12,pull-up,10,5\n2026-01-12,pull-up,BW+10,5\n2026-01-12,pull-up,\u221220,5\n2026-01-12,pull-up,,"
          "5\n2026-01-12,squat,-20,5\n",
     "2:2026-01-12 pull-up 10 kg x5\n3:2026-01-12 pull-up BW+10 kg x5\n4:2026-01-12 pull-up BW-20 kg x5\n5:2026-01-12 "
     "pull-up BW x5\n",
     "bad-load 6:18"},
    {"Date,Exercise,Weight,Reps,Bodyweight\n2026-01-12,pull-up,10,5,\n2026-01-13,pull-up,12.5,5,80\n2026-01-14,pull-up,"
     "10 kg,5,\n"
     "2026-01-14,squat,100,5,heavy\n2026-01-14,squat,100,5,9000\n2026-01-14,squat,100,5,0\n",
     "2:2026-01-12 pull-up BW+10 kg x5\n3:2026-01-13 pull-up BW+12.5 kg x5 bw80\n4:2026-01-14 pull-up BW+10 kg "
     "x5\n7:2026-01-14 squat 100 kg x5\n",
     "bad-load 5:24, absurd-number 6:24"},
    /* lifters */
    {"Date,Athlete,Exercise,Weight,Reps\n2026-01-12,Oda  Brandvik,squat,100,5\n2026-01-12,,squat,100,5\n",
     "2:2026-01-12 Oda Brandvik squat 100 kg x5\n3:2026-01-12 squat 100 kg x5\n", ""},
    /* columns without meaning here */
    {"Date,Exercise,Weight,Reps,Side,Superset,Rest\n2026-01-12,squat,100,5,left,A,90\n2026-01-12,squat,100,5,right,A,"
     "90\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-12 squat 100 kg x5\n", "ignored-column 1:27, ignored-column 1:32"},
    /* dates */
    {HEAD "2026-01-12T07:30:00Z,squat,100,5\n12.1.2026,squat,100,5\n12 Jan 2026,squat,100,5\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-12 squat 100 kg x5\n4:2026-01-12 squat 100 kg x5\n", ""},
    {HEAD "03/04/2026,squat,100,5\n25/04/2026,squat,100,5\n",
     "2:2026-04-03 squat 100 kg x5\n3:2026-04-25 squat 100 kg x5\n", ""},
    {HEAD "03/04/2026,squat,100,5\n4/25/2026,squat,100,5\n",
     "2:2026-03-04 squat 100 kg x5\n3:2026-04-25 squat 100 kg x5\n", ""},
    {HEAD "05/01/2026,squat,100,5\n08/01/2026,squat,100,5\n02/02/2026,squat,100,5\n",
     "2:2026-01-05 squat 100 kg x5 {date-order}\n3:2026-01-08 squat 100 kg x5 {date-order}\n4:2026-02-02 squat 100 kg "
     "x5\n",
     "assumed-date-order 2:0"},
    /* equal rows all count */
    {HEAD "2026-01-12,squat,100,5\n2026-01-12,squat,100,5\n",
     "2:2026-01-12 squat 100 kg x5\n3:2026-01-12 squat 100 kg x5\n", ""},
    /* a load that asks for the 1RM is kept for later */
    {HEAD "2026-01-12,squat,60%,5\n", "2:2026-01-12 squat 60% x5\n", ""},
    /* absurd numbers are slips */
    {HEAD "2026-01-12,squat,1e300,5\n2026-01-12,squat,5000,5\n2026-01-12,squat,100,5000\n", "",
     "absurd-number 2:18, absurd-number 3:18, bad-reps 4:22"},
};

START_TEST(test_logs)
{
    ck_assert(read_text(logs[_i].file));
    ck_assert_str_eq(shown_sets(), logs[_i].sets);
    ck_assert_str_eq(shown_diags(), logs[_i].diags);
}
END_TEST

/* Refused as a whole: nothing of the file stays. */
static const struct
{
    const char *file, *diags;
} refused[] = {
    {"Date,Exercise,Notes\n2026-01-12,squat,100 for 5\n", "missing-column 1:0"},
    {"Date,Weight,Reps\n2026-01-12,100,5\n", "missing-column 1:0"},
    {"Exercise,Weight,Reps\nsquat,100,5\n", "missing-column 1:0"},
    {HEAD "03/04/2026,squat,100,5\n04/04/2026,squat,60%,5\n", "unsettled-dates 2:0"},
    {HEAD "25/04/2026,squat,100,5\n04/25/2026,squat,60%,5\n", "unsettled-dates 3:0"},
};

START_TEST(test_refused)
{
    ck_assert(!read_text(refused[_i].file));
    ck_assert_uint_eq(reading->log->sets.count, 0);
    ck_assert_uint_eq(reading->log->percents.count, 0);
    ck_assert_uint_eq(reading->log->files.items[0].sets, 0);
    ck_assert_str_eq(shown_diags(), refused[_i].diags);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 1);
}
END_TEST

/* A file taken back leaves the sets of the file before. */
START_TEST(test_refused_second)
{
    ck_assert(read_text(HEAD "2026-01-12,squat,60%,5\n"));
    ck_assert(!read_text(HEAD "03/04/2026,squat,60%,5\n"));
    ck_assert_uint_eq(reading->log->sets.count, 1);
    ck_assert_uint_eq(reading->log->percents.count, 1);
    ck_assert(read_text(HEAD "2026-01-13,squat,60%,5\n"));
    ck_assert_str_eq(shown_sets(), "2:2026-01-12 squat 60% x5\n2:2026-01-13 squat 60% x5\n");
    ck_assert_uint_eq(reading->log->percents.items[1].set, 1);
    ck_assert_uint_eq(reading->log->percents.items[1].column, 18);
    ck_assert_str_eq(reading->log->percents.items[1].excerpt, "2026-01-13,squat,60%,5");
}
END_TEST

static const struct
{
    enum date_order dates;
    const char *sets, *diags;
} told[] = {
    {DATES_DMY, "2:2026-04-03 squat 100 kg x5\n4:2026-01-12 squat 100 kg x5\n", "bad-date 3:1"},
    {DATES_MDY, "2:2026-03-04 squat 100 kg x5\n3:2026-04-25 squat 100 kg x5\n4:2026-01-12 squat 100 kg x5\n", ""},
    {DATES_ISO, "4:2026-01-12 squat 100 kg x5\n", "bad-date 2:1, bad-date 3:1"},
};

START_TEST(test_told_dates)
{
    const char *file = HEAD "03/04/2026,squat,100,5\n4/25/2026,squat,100,5\n2026-01-12,squat,100,5\n";
    ck_assert(read_bytes(file, strlen(file), (struct reading_options){.dates = told[_i].dates}));
    ck_assert_str_eq(shown_sets(), told[_i].sets);
    ck_assert_str_eq(shown_diags(), told[_i].diags);
}
END_TEST

START_TEST(test_gym_dates)
{
    gym->dates = DATES_MDY;
    ck_assert(read_text(HEAD "03/04/2026,squat,100,5\n"));
    ck_assert_str_eq(shown_sets(), "2:2026-03-04 squat 100 kg x5\n");
}
END_TEST

/* The unit of bare numbers: the header's, else the user's, else the gym's, else kg, which is marked. */
static const struct
{
    const char *header;
    bool user_lb, gym_lb, assumed;
    double kg;
} units[] = {
    {"Weight", false, false, true, 100},
    {"Weight", true, false, false, 100 * KG_PER_LB},
    {"Weight", false, true, false, 100 * KG_PER_LB},
    {"Weight (kg)", true, true, false, 100},
};

START_TEST(test_units)
{
    char *file = arena_printf(arena,
                              "Date,Exercise,%s,Reps\n2026-01-12,squat,100,5\n2026-01-12,squat,100 "
                              "kg,5\n2026-01-12,squat,100 + 9 kg chain,5\n"
                              "2026-01-12,squat,100 kg + 9 chain,5\n",
                              units[_i].header);
    gym->unit_said = units[_i].gym_lb;
    gym->unit = units[_i].gym_lb ? UNIT_LB : UNIT_KG;
    ck_assert(
        read_bytes(file, strlen(file), (struct reading_options){.unit_said = units[_i].user_lb, .unit = UNIT_LB}));
    const struct set *sets = reading->log->sets.items;
    ck_assert_uint_eq(reading->log->sets.count, 3); /* 9 chain may be a count */
    ck_assert_double_eq_tol(sets[0].weight->kg, units[_i].kg, 1e-9);
    ck_assert_double_eq_tol(sets[1].weight->kg, 100, 1e-9);
    ck_assert_int_eq(!!(sets[0].assumed & ASSUMED_UNIT), units[_i].assumed);
    ck_assert(!(sets[1].assumed & ASSUMED_UNIT));
    ck_assert_int_eq(!!(sets[2].assumed & ASSUMED_UNIT), units[_i].assumed);
    const struct diag *said = diags_first(diags);
    while (said && said->id != DIAG_ASSUMED_UNIT)
        said = said->next;
    ck_assert_int_eq(said != NULL, units[_i].assumed);
    if (said)
        ck_assert_str_eq(said->message, "no unit in the file: kg assumed for 2 loads");
    ck_assert_int_eq(reading->log->files.items[0].unit_assumed, units[_i].assumed);
}
END_TEST

/* A known bodyweight makes a lift of the body's weight an addition to it. */
START_TEST(test_gym_bodyweight)
{
    struct lifter lifter = {.name = "Oda Brandvik", .bodyweight_kg = 72};
    gym->lifters = &lifter;
    gym->lifter_count = 1;
    ck_assert(read_text(
        "Date,Athlete,Exercise,Weight,Reps\n2026-01-12,oda brandvik,pull-up,10,5\n2026-01-12,Vesna,pull-up,10,5\n"));
    ck_assert_int_eq(reading->log->sets.items[0].weight->straight, STRAIGHT_BODYWEIGHT);
    ck_assert_double_eq(reading->log->sets.items[0].weight->kg, 10);
    ck_assert_int_eq(reading->log->sets.items[1].weight->straight, STRAIGHT_MASS);
}
END_TEST

START_TEST(test_file_record)
{
    ck_assert(read_text(
        "Date,Exercise,Weight (lb),Reps,Seconds,Rest\n2026-01-14,squat,100,\"5,5\",,90\n2026-01-12,squat,100,x,,\n"
        "2026-01-12,plank,,,60,\n2026-01-10,squat,100,5,,\n"));
    const struct log_file *file = &reading->log->files.items[0];
    char day[16];
    ck_assert(file->is_csv && file->delimiter == ',' && file->unit == UNIT_LB && !file->unit_assumed);
    ck_assert_uint_eq(file->lines, 5);
    ck_assert_uint_eq(file->sets, 3);
    ck_assert_uint_eq(file->refused, 1);
    ck_assert_uint_eq(file->aside, 1);
    ck_assert_str_eq(file->encoding, "UTF-8");
    ck_assert_str_eq(
        file->columns,
        "Date = date; Exercise = lift; Weight (lb) = weight; Reps = reps; Seconds = duration; Rest = ignored");
    date_print(day, file->first);
    ck_assert_str_eq(day, "2026-01-10");
    date_print(day, file->last);
    ck_assert_str_eq(day, "2026-01-14");
    ck_assert_uint_eq(reading->log->asides.count, 1);
    ck_assert_uint_eq(reading->log->asides.items[0].count, 1);
}
END_TEST

/* Equal notes are one text. */
START_TEST(test_notes_shared)
{
    ck_assert(read_text("Date,Exercise,Weight,Reps,Notes\n2026-01-12,squat,100,5,slow\n2026-01-12,squat,100,5,\n2026-"
                        "01-12,squat,100,5,slow\n"));
    ck_assert_ptr_eq(reading->log->sets.items[0].note, reading->log->sets.items[2].note);
    ck_assert_ptr_null(reading->log->sets.items[1].note);
}
END_TEST

START_TEST(test_encodings)
{
    static const char utf16[] = "\xFF\xFE"
                                "D\0a\0t\0e\0;\0L\0i\0f\0t\0;\0k\0g\0;\0R\0e\0p\0s\0\r\0\n\0"
                                "2\0"
                                "0\0"
                                "2\0"
                                "6\0-\0"
                                "0\0"
                                "1\0-\0"
                                "1\0"
                                "2\0;\0s\0q\0u\0a\0t\0;\0"
                                "9\0"
                                "9\0,\0"
                                "5\0;\0"
                                "5\0\r\0\n\0";
    ck_assert(read_bytes(utf16, sizeof utf16 - 1, (struct reading_options){0}));
    ck_assert_str_eq(shown_sets(), "2:2026-01-12 squat 99.5 kg x5\n");
    static const char nul[] = HEAD "2026-01-12,squat,1\0"
                                   "00,5\n2026-01-12,squat,100,5\n";
    ck_assert(read_bytes(nul, sizeof nul - 1, (struct reading_options){0}));
    ck_assert_uint_eq(reading->log->sets.count, 2);
    ck_assert_str_eq(shown_diags(), "nul-byte 2:18");
}
END_TEST

static const struct
{
    const char *text;
    bool csv;
    char delimiter;
    uint32_t line;
} detected[] = {
    {HEAD, true, ',', 1},
    {"Date;Exercise;Weight;Reps\n", true, ';', 1},
    {"sep=;\nDate;Exercise;Weight;Reps\n", true, ';', 2},
    {"Date\tExercise\n", true, '\t', 1},
    {"\"Date\"|\"Exercise\"|x\n", true, '|', 1},
    {"Log of Oda, date of export: today\n\nDate,Exercise,Weight\n", true, ',', 3},
    {"Date,Exercise", true, ',', 1},
    {"1\n2\n3\n4\n5\n6\n7\n8\n9\n10\n11\n12\n13\n14\n15\n16\n17\n18\n19\nDate,Lift\n", true, ',', 20},
    {"1\n2\n3\n4\n5\n6\n7\n8\n9\n10\n11\n12\n13\n14\n15\n16\n17\n18\n19\n20\nDate,Lift\n", false, 0, 0},
    {"", false, 0, 0},
    {"2026-01-12\nsquat 100: 5x5\n", false, 0, 0},
    {"# date, lift\nlifter: Oda\n2026-01-12\nsquat 100x5, 110x3\n", false, 0, 0},
    {"#,Date,Lift,Reps\n", true, ',', 1},
    {"Name,Age\nx,3\n", false, 0, 0},
};

START_TEST(test_detect)
{
    char delimiter = 0;
    uint32_t line = 0;
    reading = reading_new(arena, gym, diags, &(struct reading_options){0});
    struct input *input = input_from_memory(arena, "log", detected[_i].text, strlen(detected[_i].text), diags);
    ck_assert_int_eq(csv_log_detect(reading, input, &delimiter, &line), detected[_i].csv);
    if (detected[_i].csv) {
        ck_assert_int_eq(delimiter, detected[_i].delimiter);
        ck_assert_uint_eq(line, detected[_i].line);
    }
    input_close(input);
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("csv log");
    TCase *cases = tcase_create("csv log");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, test_logs, 0, COUNT(logs));
    tcase_add_loop_test(cases, test_refused, 0, COUNT(refused));
    tcase_add_test(cases, test_refused_second);
    tcase_add_loop_test(cases, test_told_dates, 0, COUNT(told));
    tcase_add_test(cases, test_gym_dates);
    tcase_add_loop_test(cases, test_units, 0, COUNT(units));
    tcase_add_test(cases, test_gym_bodyweight);
    tcase_add_test(cases, test_file_record);
    tcase_add_test(cases, test_notes_shared);
    tcase_add_test(cases, test_encodings);
    tcase_add_loop_test(cases, test_detect, 0, COUNT(detected));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
