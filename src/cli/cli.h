/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The headless commands. Exit status: 0 done; 1 the work could not be done (one sentence on stderr that
 * says what to do next); 2 wrong use: an argument nobody could understand, whatever the files hold.
 * Outputs are whole or not there. */
#pragma once
#include "pr-book.h"
#include "pr-paper.h"
#include "pr-seen-find.h"

enum { CLI_DONE, CLI_FAILED, CLI_WRONG_USE };

int cli_sheet (int argc, char **argv);
int cli_trace (int argc, char **argv);
int cli_plan (int argc, char **argv);
int cli_check (int argc, char **argv);
int cli_compare (int argc, char **argv);
int cli_rack (int argc, char **argv);
int cli_cut (int argc, char **argv);
int cli_receive (int argc, char **argv);
int cli_recover (int argc, char **argv);
int cli_book (int argc, char **argv);

/* One line, with or without a line break at its end; what steers a terminal in a name, a path or a file's text
 * stands there escaped (pr-text.h). Everything that holds such text goes out through these. */
void cli_print (const char *format, ...) G_GNUC_PRINTF (1, 2);
void cli_print_trouble (const char *format, ...) G_GNUC_PRINTF (1, 2); /* on standard error */
/* Prints ERROR (transfer full) in one line and returns CLI_FAILED. */
int cli_fail (GError *error);
/* The same with CLI_WRONG_USE, and a word on where to read how it is used. */
int cli_misuse (const char *command, GError *error);
/* For the error of an argument; always FALSE. */
bool cli_wrong (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Parses what ENTRIES and, when WITH_PHOTO, the photo options name; *REST receives what is left, without
 * the command's own name (transfer full). --help prints and ends the program. */
typedef struct {
  char *scale, *paper, *side, *pen, *steps, *trust;
  char **points;
} CliPhotoArgs;

bool cli_parse (int argc, char **argv, const char *use, const char *summary, const GOptionEntry *entries,
                CliPhotoArgs *photo, char ***rest, GError **error);
void cli_photo_args_clear (CliPhotoArgs *args);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CliPhotoArgs, cli_photo_args_clear)

/* TEXT may be NULL: VALUE is left as it is then. */
bool cli_read_foot (const char *text, PrFoot *foot, GError **error);
bool cli_read_paper (const char *text, PrPaper *paper, GError **error);
bool cli_read_unit (const char *text, PrUnit *unit, GError **error);
/* Points among REST ("10,20") are moved over to the others first: --points x,y x,y x,y works. OUT's
 * steps_dir belongs to ARGS. */
bool cli_read_photo_args (const CliPhotoArgs *args, char **rest, PrUnit unit, PrTraceOptions *out,
                          GError **error);

/* Scale and line of a photo; makes the folder for the steps when they are asked for. */
PrTracing *cli_trace_file (const char *file, const PrTraceOptions *options, GError **error);
/* The shoe in FILE told, or written to JSON (may be NULL; "-" is standard output), and PNG (may be NULL). */
typedef struct {
  const char *file, *json, *png;
  const PrTraceOptions *trace;
  const PrSeenOptions *seen;
  PrFoot foot;
  PrUnit unit;
} CliShoe;
bool cli_trace_shoe (const CliShoe *shoe, GError **error);

/* A tracing from FILE, a photo or the JSON of `trace`; judged by its bytes. JOB's foot, unless any, wins
 * over the sheet's; a contradiction is said on stderr. */
bool cli_job_read (PrJob *job, const char *file, const PrTraceOptions *options, GError **error);

/* JSON begins with a bracket, and no picture does. FALSE for what cannot be read: the photo reader then says why. */
bool cli_is_json (const char *file);
/* NULL with error. Transfer full. */
JsonNode *cli_json_read (const char *file, GError **error);

/* A book to read in. FILE is neither changed nor locked for longer than its copy takes, and nothing is made beside it.
 * FALSE with error. */
typedef struct {
  PrBook *book;
  char *folder, *copy;
} CliBook;

bool cli_book_read (CliBook *held, const char *file, GError **error);
void cli_book_clear (CliBook *held);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CliBook, cli_book_clear)

/* What plan and check share. */
typedef struct {
  char *foot, *style, *nails, *bar, *given, *unit;
  char **set;
} CliPlanArgs;

#define CLI_PLAN_ENTRIES(args_)                                                                                  \
  { "foot",                                                                                                      \
    'f',                                                                                                         \
    0,                                                                                                           \
    G_OPTION_ARG_STRING,                                                                                         \
    &(args_).foot,                                                                                               \
    N_ ("Which foot: LF, RF, LH or RH (near fore, off fore, near hind, off hind)"),                              \
    "FOOT" },                                                                                                    \
      { "style", 's', 0, G_OPTION_ARG_STRING, &(args_).style, N_ ("Style of the shoe; see --styles"), "ID" },    \
      { "nails", 'n', 0, G_OPTION_ARG_STRING, &(args_).nails, N_ ("Nails of your own, by their name"), "NAME" }, \
      { "bar", 'b', 0, G_OPTION_ARG_STRING, &(args_).bar, N_ ("Section of the stock, such as '3/8 x 1'"),        \
        "WxT" },                                                                                                 \
      { "given", 'g', 0, G_OPTION_ARG_STRING, &(args_).given, N_ ("Length of the stock in hand"), "LENGTH" },    \
      { "set",                                                                                                   \
        0,                                                                                                       \
        0,                                                                                                       \
        G_OPTION_ARG_STRING_ARRAY,                                                                               \
        &(args_).set,                                                                                            \
        N_ ("Set a parameter, such as web.toe=24; may be given often; see --params"),                            \
        "NAME=VALUE" },                                                                                          \
  {                                                                                                              \
    "unit", 'u', 0, G_OPTION_ARG_STRING, &(args_).unit, N_ ("mm or inch, for what is read and written"),         \
        "UNIT"                                                                                                   \
  }

void cli_plan_args_clear (CliPlanArgs *args);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CliPlanArgs, cli_plan_args_clear)
/* Puts foot, unit and plan into JOB as the arguments say; nothing of it needs a hoof. */
bool cli_plan_begin (PrJob *job, const CliPlanArgs *args, GError **error);
/* Lays the plan on the hoof JOB now has. What was set by hand is set again after the fit. */
bool cli_plan_finish (PrJob *job, const CliPlanArgs *args, GError **error);
/* Sets the bar and what was set by hand on a plan that is laid already. */
bool cli_plan_set (PrJob *job, const CliPlanArgs *args, GError **error);
int cli_list_styles (void);
int cli_list_params (void);

/* What plan is told about its pages. */
typedef struct {
  char *pages, *horse, *date;
} CliPageArgs;

void cli_page_args_clear (CliPageArgs *args);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CliPageArgs, cli_page_args_clear)
/* Puts them into PAGE, whose horse and date stay ARGS's; the name there is cleaned. */
bool cli_read_page_args (CliPageArgs *args, PrPageOptions *page, GError **error);

/* What trace --shoe, compare and plan --specimen are told about a real shoe. */
typedef struct {
  char *thickness, *face;
  gboolean drawn;
  PrFace up;
  double thick; /* mm; 0: not told */
} CliSeenArgs;

#define CLI_SEEN_ENTRIES(args_)                                                                                \
  { "thickness", 't', 0, G_OPTION_ARG_STRING, &(args_).thickness, N_ ("How thick the shoe is, such as 10mm"),  \
    "LENGTH" },                                                                                                \
      { "face", 0, 0, G_OPTION_ARG_STRING, &(args_).face, N_ ("Which face of the shoe is up: ground or foot"), \
        "FACE" },                                                                                              \
  {                                                                                                            \
    "drawn", 0, 0, G_OPTION_ARG_NONE, &(args_).drawn,                                                          \
        N_ ("The photo shows a line drawn round the shoe, outside and inside"), NULL                           \
  }

void cli_seen_args_clear (CliSeenArgs *args);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CliSeenArgs, cli_seen_args_clear)
bool cli_read_seen_args (CliSeenArgs *args, PrUnit unit, GError **error);
/* The same for trace, where no plan stands in for what is not said: SHOE is whether there is one at all. FALSE when ARGS
 * say too little, or anything without a shoe. */
bool cli_read_shoe_args (CliSeenArgs *args, bool shoe, PrUnit unit, PrSeenOptions *out, GError **error);
/* SEEN must be empty. USUAL: thickness where it is not told, mm. TRACING receives what the photo's scale came to (transfer
 * full); NULL stays where FILE is no photo. */
bool cli_seen_read (PrSeen *seen, const char *file, const CliSeenArgs *args, const PrTraceOptions *options,
                    double usual, PrTracing **tracing, GError **error);

/* NODE as text, to FILE or, for "-", to standard output, where nothing in it steers a terminal. */
bool cli_write_json (JsonNode *node, const char *file, GError **error);
/* Standard output is flushed; a full disk or a closed pipe is an error. */
bool cli_flush (GError **error);
