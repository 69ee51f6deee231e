/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-judge.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-job.h"
#include "pr-json-put.h"
#include "pr-json.h"
#include "pr-phone-packet.h"
#include "pr-phone-picture.h"
#include "pr-photo-header.h"
#include "pr-seen-find.h"
#include "pr-shut-in.h"
#include "pr-trace.h"

/* A person's patience ends long before. */
#define MOST_CPU 120
#define MOST_FILE ((rlim_t) 1 << 29) /* the rows of the largest photo, which its helper writes */

typedef struct {
  PrUnit unit;
  bool shoe;
  PrSeenOptions how;
} Orders;

typedef struct {
  PrPhoneState state;
  char *words;
  PrPhoto *photo;
  PrTracing *tracing; /* NULL: no scale */
  PrSeen seen;
} Verdict;

/* --- in words --- */

static void
take_again (Verdict *verdict, const char *why)
{
  g_free (verdict->words);
  verdict->state = PR_PHONE_AGAIN;
  /* what a photo on the phone came to; the reason is a sentence of its own */
  verdict->words = g_strdup_printf (_ ("Take it again: %s"), why);
}

/* WHAT was found, which is as good as the scale is. */
static void
put_verdict (Verdict *verdict, const PrScale *scale, const char *what)
{
  if (scale->verdict == PR_VERDICT_RETAKE) {
    take_again (verdict, scale->why);
    return;
  }
  verdict->state = scale->verdict == PR_VERDICT_GOOD ? PR_PHONE_GOOD : PR_PHONE_USABLE;
  verdict->words = verdict->state == PR_PHONE_GOOD ? g_strdup_printf (_ ("Good: %s"), what)
                                                   : g_strdup_printf (_ ("Usable: %s. %s"), what, scale->why);
}

static bool
is_in_picture (const PrPhoto *photo, PrPx p)
{
  return p.x >= 0 && p.y >= 0 && p.x <= photo->width && p.y <= photo->height;
}

/* Which of the printed sheet's corner marks is missing, the first of several: covered, or beyond the edge of the picture. A
 * sentence; NULL: none. */
static const char *
missing_mark (const Verdict *verdict)
{
  static const char *const corners[4] = { N_ ("The sheet’s upper left corner mark is not in the picture."),
                                          N_ ("The sheet’s upper right corner mark is not in the picture."),
                                          N_ ("The sheet’s lower right corner mark is not in the picture."),
                                          N_ ("The sheet’s lower left corner mark is not in the picture.") };
  const PrTracing *t = verdict->tracing;

  for (int c = 0; c < 4 && t != NULL && t->scale.method == PR_SCALE_SHEET; c++) {
    PrSheetPt mark[4];
    bool missing = c == t->scale.unseen;

    pr_tag_corners (t->scale.paper, c, mark);
    for (int i = 0; i < 4; i++)
      missing |= !is_in_picture (verdict->photo, pr_camera_to_photo (&t->camera, mark[i]));
    if (missing)
      return _ (corners[c]);
  }
  return NULL;
}

static void
tell_missing (Verdict *verdict)
{
  const char *mark = missing_mark (verdict);

  if (mark != NULL) {
    g_autofree char *before = verdict->words;
    verdict->words = g_strdup_printf ("%s%s %s", before, g_str_has_suffix (before, ".") ? "" : ".", mark);
  }
}

/* --- a tracing --- */

static void
tell_hoof (Verdict *verdict, const Orders *orders)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (GError) error = NULL;

  if (verdict->tracing->figure || verdict->tracing->outline == NULL) {
    take_again (verdict, _ ("No outline was found on the sheet; go over the tracing with a darker pen."));
    return;
  }
  if (!pr_job_take_tracing (job, pr_tracing_copy (verdict->tracing), &error)) {
    take_again (verdict, error->message);
    return;
  }
  g_autofree char *width = pr_length_rough (job->hoof.width, orders->unit);
  g_autofree char *what = job->sources.foot == PR_FOOT_ANY
                              ? g_strdup_printf (_ ("%s wide"), width)
                              : g_strdup_printf (_ ("%s, %s wide"), pr_foot_name (job->sources.foot), width);
  put_verdict (verdict, &verdict->tracing->scale, what);
  tell_missing (verdict);
}

/* Why there is no line, beside the sheet on which it is missing. */
static void
look_at_sheet (Verdict *verdict, const PrTraceOptions *options, const GError *why)
{
  take_again (verdict, why->message);
  if (why->code == PR_ERROR_LINE)
    verdict->tracing = pr_trace_scale (verdict->photo, options, NULL, NULL, NULL, NULL);
  /* the line is not faint where the picture ends before it */
  const char *mark = missing_mark (verdict);
  if (mark != NULL)
    take_again (verdict, mark);
}

static void
judge_tracing (Verdict *verdict, const Orders *orders)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;

  options.unit = orders->unit;
  verdict->tracing = pr_trace_photo (verdict->photo, &options, NULL, NULL, NULL, &error);
  if (verdict->tracing == NULL)
    look_at_sheet (verdict, &options, error);
  else
    tell_hoof (verdict, orders);
}

/* --- a shoe --- */

/* Across the sheet; a shoe is laid down upright or turned, and what is told is no more than that it was seen. */
static double
seen_width (const PrSeen *seen)
{
  double low = INFINITY, high = -INFINITY;

  for (size_t i = 0; i < seen->outer.n; i++) {
    low = fmin (low, seen->outer.p[i].x);
    high = fmax (high, seen->outer.p[i].x);
  }
  return high - low;
}

static void
judge_shoe (Verdict *verdict, const Orders *orders)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;

  options.unit = orders->unit;
  if (!pr_seen_find (&verdict->seen, &verdict->tracing, verdict->photo, &options, &orders->how, NULL,
                     &error)) {
    take_again (verdict, error->message);
    return;
  }
  g_autofree char *width = pr_length_rough (seen_width (&verdict->seen), orders->unit);
  g_autofree char *what = g_strdup_printf (_ ("the shoe, %s across"), width);
  put_verdict (verdict, &verdict->tracing->scale, what);
  tell_missing (verdict);
}

/* --- telling --- */

static void
write_out (const Verdict *verdict, const char *mime)
{
  g_autoptr (JsonBuilder) builder = pr_phone_word ("words", verdict->words);
  g_autoptr (GBytes) picture
      = verdict->photo != NULL ? pr_phone_picture (verdict->photo, verdict->tracing, &verdict->seen) : NULL;

  pr_put_int (builder, "state", verdict->state);
  if (mime != NULL)
    pr_put_text (builder, "mime", mime);
  json_builder_end_object (builder);
  g_autoptr (JsonNode) node = json_builder_get_root (builder);
  g_autofree char *line = pr_json_text (node, false);
  printf ("%s\n", line);
  if (picture != NULL)
    fwrite (g_bytes_get_data (picture, NULL), 1, g_bytes_get_size (picture), stdout);
}

static bool
read_orders (Orders *orders, int n, char **text)
{
  if (n != 2 && n != 5)
    return false;
  orders->unit = atoi (text[0]) == PR_UNIT_INCH ? PR_UNIT_INCH : PR_UNIT_MM;
  pr_foot_call ((PrSides) CLAMP (atoi (text[1]), PR_SIDES_LANGUAGE, PR_SIDES_LEFT));
  orders->shoe = n == 5;
  if (orders->shoe)
    orders->how = (PrSeenOptions){ .thickness_mm = g_ascii_strtod (text[2], NULL),
                                   .face = atoi (text[3]) == PR_FACE_GROUND ? PR_FACE_GROUND : PR_FACE_FOOT,
                                   .drawn = atoi (text[4]) != 0 };
  return true;
}

int
pr_phone_judge (int n_orders, char **text)
{
  Orders orders;
  Verdict verdict = { 0 };
  PrPhotoHeader head = { 0 };
  g_autoptr (GError) error = NULL;

  pr_shut_in (MOST_CPU, MOST_FILE);
  g_autoptr (GMappedFile) mapped = g_mapped_file_new_from_fd (STDIN_FILENO, FALSE, NULL);
  if (mapped == NULL || !read_orders (&orders, n_orders, text))
    return EXIT_FAILURE;
  g_autoptr (GBytes) bytes = g_mapped_file_get_bytes (mapped);
  pr_photo_header_read (&head, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  verdict.photo = pr_photo_decode (bytes, _ ("This file"), &error);
  verdict.state = PR_PHONE_AGAIN;
  if (verdict.photo == NULL && head.mime == NULL)
    verdict.words = g_strdup (error->message);
  else if (verdict.photo == NULL)
    take_again (&verdict, error->message);
  else if (orders.shoe)
    judge_shoe (&verdict, &orders);
  else
    judge_tracing (&verdict, &orders);
  write_out (&verdict, head.mime);
  bool told = fflush (stdout) == 0 && !ferror (stdout);
  /* at once: what lies in memory is not taken apart first */
  _exit (told ? EXIT_SUCCESS : EXIT_FAILURE);
}
