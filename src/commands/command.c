#include "commands/command.h"

#include "commands/audit.h"
#include "commands/check.h"
#include "commands/completion/completion.h"
#include "commands/fit/fit.h"
#include "commands/loads.h"
#include "commands/pictures/plot.h"
#include "commands/plan/plan.h"
#include "commands/report/report.h"
#include "commands/setup/setup.h"
#include "commands/start/start.h"
#include "commands/team/team.h"
#include "commands/trend.h"
#include "commands/waves.h"

#include <stdio.h>

#define LOG_COMMAND (TAKES_LOGS | TAKES_WEEKS | TAKES_FILTER | TAKES_FORMAT)
#define TABLE_COMMAND (LOG_COMMAND | TAKES_COLUMNS)

const struct command commands[] = {
    {"start", run_start, TAKES_START, "DIR [LOG...]",
     "a gym file to fill in and an empty log, from your answers and exports", NULL},
    {"check", run_check, LOG_COMMAND, "LOG...", "what was understood, what was refused, what was assumed", NULL},
    {"loads", run_loads, TABLE_COMMAND, "LOG...", "one row per set: straight, bottom, top, mean, share, 1RM, e1RM",
     loads_columns},
    {"trend", run_trend, TABLE_COMMAND | TAKES_SLOPES | TAKES_VELOCITY, "LOG...",
     "weekly volume and intensity by lift, with slopes", trend_columns},
    {"waves", run_waves, TABLE_COMMAND | TAKES_SLOPES | TAKES_VERDICTS | TAKES_PLANNED, "LOG...",
     "waves, their steps, and overload from wave to wave", waves_columns},
    {"audit", run_audit, TABLE_COMMAND | TAKES_FINDINGS, "LOG...",
     "findings: what a coach would point out, with lines, limits and reasons", audit_columns},
    {"report", run_report, LOG_COMMAND | TAKES_PAGE | TAKES_PLANNED, "LOG...",
     "is each wave heavier, what to change, what comes next: text, or an HTML page with pictures", NULL},
    {"plot", run_plot, TAKES_LOGS | TAKES_WEEKS | TAKES_FILTER | TAKES_PLOTS | TAKES_PLANNED, "LOG... --into DIR",
     "pictures as self-contained gnuplot scripts, drawn if gnuplot is installed", NULL},
    {"team", run_team, TAKES_TEAM, "--gym FILE --into DIR", "the nightly job over every [lifter] of the gym file",
     NULL},
    {"plan", run_plan, (LOG_COMMAND & ~(unsigned)TAKES_WEEKS) | TAKES_PLAN, "LOG...",
     "the next wave, from the last one", NULL},
    {"fit", run_fit, TAKES_FIT | TAKES_FORMAT, "CSV...", "a band's pull at every length, from measurements", NULL},
    {"setup", run_setup, TAKES_SETUP | TAKES_FORMAT, "LOAD | --share N%",
     "what a set-up weighs along the lift; --share finds a set-up", NULL},
    {"completion", run_completion, TAKES_NAMES, "bash|zsh|fish", "completions for a shell, on standard output", NULL},
};
const size_t command_count = sizeof commands / sizeof *commands;

enum exit_status usage_error(const char *command, const char *message)
{
    fprintf(stderr, "tautline: %s\nTry 'tautline%s%s --help'.\n", message, *command ? " " : "", command);
    return EXIT_USAGE;
}
