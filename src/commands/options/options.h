/* The command line: one table of options, from which parsing, help (options_parse.h) and the manual's test come. */
#ifndef TAUTLINE_COMMANDS_OPTIONS_H
#define TAUTLINE_COMMANDS_OPTIONS_H

#include "analysis/findings/findings.h"
#include "analysis/one_rm.h"
#include "analysis/plan/plan_ways.h"
#include "base/arena.h"
#include "base/date.h"
#include "base/unit.h"
#include "commands/options/report_sections.h"
#include "model/gear.h"
#include "model/set.h"
#include "writing/table.h"

#include <stdbool.h>
#include <stddef.h>

#define MOST_PERCENTS 52 /* weeks of a plan */
#define MOST_ACCEPTED 64

struct told_column /* --column FIELD=HEADER */
{
    const char *field, *header;
};

struct options
{
    struct arena *arena;                             /* where the lists below grow while options are parsed */
    const char *gym, *output, *lifter, *lift, *into; /* lifter, lift: the last one given */
    LIST(const char *) lifters, lifts;               /* all that were given */
    LIST(struct told_column) told_columns;           /* --column */
    const char *as, *corrections;
    enum format format;
    bool format_said;
    enum mass_unit unit, log_unit;
    bool unit_said, log_unit_said;
    day_number today, from, to; /* NO_DAY: not given */
    enum date_order dates;
    bool ar_stays; /* --no-carry-ar */
    enum e1rm_formula formula;
    bool formula_said;
    bool strict, slopes, verdicts, spreadsheet_safe, help, brief, version; /* brief: -h */
    const char *against;                                                   /* of plot: the other lifter; NULL: none */
    day_number against_from, against_to;                                   /* the other span; NO_DAY: none */
    bool by_share;
    bool verbose, wide;
    unsigned columns_wide;                               /* --width; 0: not said */
    const char *render;                                  /* of plots: svg, png, pdf, none */
    unsigned picture_width, picture_height;              /* 0: the template's own */
    double share, min_bottom_kg, straight_share, max_kg; /* of setup; 0: not said. Shares are fractions */
    double bottom_m, top_m;                              /* --heights; 0: not said */
    const char *straight, *plot;
    const char *logs_of; /* the gym file's logs of this lifter alone; NULL: all of its logs */
    enum format curve;   /* FORMAT_TEXT: not said */
    unsigned gear;       /* enum setup_gear; 0: not said */
    unsigned most;       /* 0: not said */
    double flat_m;       /* of fit; 0: not said */
    const char *band;
    bool block, compare;
    const char *columns;          /* names of columns, separated by commas; NULL: not given */
    const size_t *chosen_columns; /* indexes of these columns in the command's table */
    size_t chosen_count;
    const char *only, *except; /* ids of findings, separated by commas; NULL: not given */
    uint32_t findings;         /* the findings chosen by these, one bit each */
    enum finding_severity least_severity;
    enum focus focus;               /* of plan; FOCUS_UNSAID: not given */
    double percents[MOST_PERCENTS]; /* fractions */
    size_t percent_count;
    double step; /* a fraction; step_said */
    bool step_said, keep_steps;
    unsigned weeks, sets, reps; /* 0: not given */
    struct plan_overload over;  /* over_said */
    bool over_said, at_said;
    day_number start;        /* of plan; NO_DAY: not given */
    day_number first_monday; /* of logs with numbered weeks; NO_DAY: not given */
    const char *ar;
    const char *plan;          /* --plan of waves, plot, report */
    const char *page;          /* of report; NULL: none */
    const char *html;          /* of report; NULL: text */
    const char *workbook;      /* likewise: as an .xlsx */
    const char *only_sections; /* of report, separated by commas; NULL: not given */
    uint32_t sections;         /* the sections chosen by these, one bit each */
    bool velocity, speed_loss;
    double speed_ms; /* of setup, the mean or the peak; 0: not said */
    bool speed_is_peak;
    unsigned jobs, time_limit; /* 0: not said */
    bool wait, gather, new_findings;
    const char *accepted[MOST_ACCEPTED]; /* names of --accept */
    size_t accepted_count;
    const char *summary, *lifters_from, *store;
    bool list;
    unsigned part, parts;                  /* from 1, and of how many; 0: not given */
    const char *bar, *plates, *experience; /* of start, as they go into the gym file */
    bool ask;
    const char *const *arguments; /* LOGs and the like, in the order given */
    size_t argument_count;
};

/* Groups of options that a command takes. */
enum option_group
{
    TAKES_LOGS = 1,   /* LOG arguments and how to read them */
    TAKES_FILTER = 2, /* --lifter, --lift, --from, --to */
    TAKES_FORMAT = 4, /* --format, --output, --unit, --spreadsheet-safe */
    TAKES_SLOPES = 8,
    TAKES_PLOTS = 16,        /* --into, --render, --size */
    TAKES_ALWAYS = 32,       /* --help, --version */
    TAKES_SETUP = 64,        /* what a set-up is for, and what to show */
    TAKES_FIT = 128,         /* how to treat measurements, and what to show */
    TAKES_FINDINGS = 256,    /* --only, --except, --severity */
    TAKES_PLAN = 512,        /* which wave to plan and how */
    TAKES_PLANNED = 1024,    /* --plan */
    TAKES_VELOCITY = 2048,   /* --velocity, --speed-loss */
    TAKES_PAGE = 4096,       /* --html */
    TAKES_TEAM = 8192,       /* how to work through all lifters */
    TAKES_NAMES = 16384,     /* --gym, for the names that are in it */
    TAKES_START = 32768,     /* what a new gym file should contain */
    TAKES_COLUMNS = 65536,   /* --columns */
    TAKES_VERDICTS = 131072, /* --verdicts */
    TAKES_WEEKS = 1 << 20    /* --start of numbered weeks */
};

struct option_row
{
    const char *name;     /* without the dashes */
    const char *argument; /* its name in help; NULL: takes none */
    unsigned groups;
    const char *help;
    bool (*set)(struct options *options, const char *value); /* false: not a valid value */
};

extern const struct option_row option_rows[];
extern const size_t option_row_count;

/* Does --accept name this one, or all? */
bool options_accept(const struct options *options, const char *name);

#endif
