/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const methods[] = {
  [PR_SCALE_AUTO] = "auto",       [PR_SCALE_SHEET] = "sheet", [PR_SCALE_PLAIN] = "plain",
  [PR_SCALE_CARD] = "card",       [PR_SCALE_RECT] = "rect",   [PR_SCALE_RULER] = "ruler",
  [PR_SCALE_DENSITY] = "density",
};

static const char *const trusts[] = {
  [PR_TRUST_ASK] = "ask",
  [PR_TRUST_PAPER] = "paper",
  [PR_TRUST_PRINT] = "print",
};

static const char *const questions[] = {
  [PR_QUESTION_NONE] = "none",
  [PR_QUESTION_TRUST] = "trust",
  [PR_QUESTION_PAPER] = "paper",
};

static const struct {
  const char *code, *name;
} verdicts[] = {
  [PR_VERDICT_GOOD] = { "good", N_ ("good") },
  [PR_VERDICT_USABLE] = { "usable", N_ ("usable") },
  [PR_VERDICT_RETAKE] = { "retake", N_ ("retake") },
};

PrTracing *
pr_tracing_new (void)
{
  PrTracing *t = g_new0 (PrTracing, 1);

  t->scale.paper = PR_PAPER_UNKNOWN;
  t->scale.unseen = -1;
  return t;
}

void
pr_scale_add_reason (PrScale *scale, PrVerdict severity, const char *text, const PrSheetPt *at)
{
  for (size_t i = 0; i < scale->n_reasons; i++)
    if (strcmp (scale->reason[i].text, text) == 0)
      return;
  if (scale->n_reasons == PR_REASONS_MOST)
    return;
  scale->reason[scale->n_reasons++]
      = (PrReason){ severity, g_strdup (text), at != NULL, at ? *at : (PrSheetPt){ 0 } };
}

void
pr_scale_clear_reasons (PrScale *scale)
{
  for (size_t i = 0; i < scale->n_reasons; i++)
    g_free (scale->reason[i].text);
  scale->n_reasons = 0;
}

void
pr_scale_field (const PrScale *scale, PrSheetPt *low, PrSheetPt *high)
{
  pr_sheet_field (scale->paper, low, high);
  if (scale->by[0] > 0) {
    low->x = (low->x - scale->moved[0]) * scale->by[0];
    high->x = (high->x - scale->moved[0]) * scale->by[0];
  }
  if (scale->by[1] > 0) {
    low->y = (low->y - scale->moved[1]) * scale->by[1];
    high->y = (high->y - scale->moved[1]) * scale->by[1];
  }
}

void
pr_tracing_drop_line (PrTracing *t)
{
  for (size_t i = 0; i < t->n_doubt; i++)
    g_free (t->doubt[i].why);
  g_clear_pointer (&t->doubt, g_free);
  g_clear_pointer (&t->outline, g_free);
  g_clear_pointer (&t->rest, g_free);
  t->n_doubt = t->n_outline = t->n_rest = 0;
  t->heel_range[0] = t->heel_range[1] = 0;
  t->figure = t->closed = false;
  t->drawn = (PrDrawnMarks){ 0 };
}

void
pr_tracing_set_line (PrTracing *t, const PrSheetPt *outline, size_t n, bool closed)
{
  PrSheetPt *copy = g_memdup2 (outline, n * sizeof *outline); /* it may be the line that goes */

  pr_tracing_drop_line (t);
  t->outline = copy;
  t->n_outline = n;
  t->closed = closed;
}

void
pr_tracing_drop_raster (PrTracing *t)
{
  g_clear_pointer (&t->raster_rgb, g_atomic_rc_box_release);
}

void
pr_tracing_share_raster (PrTracing *t, const PrTracing *from)
{
  uint8_t *shared = from->raster_rgb ? g_atomic_rc_box_acquire (from->raster_rgb) : NULL;

  pr_tracing_drop_raster (t);
  t->raster_rgb = shared;
  t->raster = from->raster;
  t->raster_width = from->raster_width;
  t->raster_height = from->raster_height;
}

void
pr_tracing_free (PrTracing *t)
{
  if (t == NULL)
    return;
  pr_tracing_drop_line (t);
  pr_tracing_drop_raster (t);
  pr_scale_clear_reasons (&t->scale);
  g_free (t->scale.why);
  g_free (t->file);
  g_free (t);
}

PrTracing *
pr_tracing_copy (const PrTracing *from)
{
  PrTracing *t = g_memdup2 (from, sizeof *from);

  t->file = g_strdup (from->file);
  t->scale.why = g_strdup (from->scale.why);
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    t->scale.reason[i].text = g_strdup (from->scale.reason[i].text);
  t->outline = g_memdup2 (from->outline, from->n_outline * sizeof *from->outline);
  t->rest = g_memdup2 (from->rest, from->n_rest * sizeof *from->rest);
  t->doubt = g_memdup2 (from->doubt, from->n_doubt * sizeof *from->doubt);
  for (size_t i = 0; i < t->n_doubt; i++)
    t->doubt[i].why = g_strdup (from->doubt[i].why);
  if (t->raster_rgb)
    g_atomic_rc_box_acquire (t->raster_rgb);
  return t;
}

/* None and an empty one say the same. */
static bool
same_text (const char *a, const char *b)
{
  return strcmp (a ? a : "", b ? b : "") == 0;
}

static bool
same_reasons (const PrScale *s, const PrScale *t)
{
  bool same = s->n_reasons == t->n_reasons;

  for (size_t i = 0; same && i < s->n_reasons; i++) {
    const PrReason *a = &s->reason[i], *b = &t->reason[i];

    same = a->severity == b->severity && a->has_at == b->has_at && same_text (a->text, b->text)
           && (!a->has_at || (a->at.x == b->at.x && a->at.y == b->at.y));
  }
  return same;
}

static bool
same_print (const PrScale *s, const PrScale *t)
{
  return memcmp (s->printed, t->printed, sizeof s->printed) == 0
         && memcmp (s->moved, t->moved, sizeof s->moved) == 0 && memcmp (s->by, t->by, sizeof s->by) == 0;
}

/* The tilt follows from the camera. */
static bool
same_scale (const PrTracing *a, const PrTracing *b)
{
  const PrScale *s = &a->scale, *t = &b->scale;

  return s->method == t->method && s->paper == t->paper && s->foot == t->foot && s->verdict == t->verdict
         && s->trust == t->trust && s->question == t->question && same_print (s, t)
         && s->width_mm == t->width_mm && s->height_mm == t->height_mm && s->px_per_mm == t->px_per_mm
         && s->residual_mm == t->residual_mm && same_text (s->why, t->why) && same_reasons (s, t);
}

static bool
same_references (const PrTracing *a, const PrTracing *b)
{
  bool same = a->n_reference == b->n_reference;

  for (size_t i = 0; same && i < a->n_reference; i++) {
    const PrReference *r = &a->reference[i], *s = &b->reference[i];

    same = r->px.x == s->px.x && r->px.y == s->px.y && r->off_mm == s->off_mm && r->outlier == s->outlier;
  }
  return same;
}

static bool
same_points (const PrSheetPt *a, const PrSheetPt *b, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (a[i].x != b[i].x || a[i].y != b[i].y)
      return false;
  return true;
}

static bool
same_line (const PrTracing *a, const PrTracing *b)
{
  bool same = a->n_outline == b->n_outline && a->closed == b->closed && a->figure == b->figure
              && a->pen_mm == b->pen_mm && a->inward_mm == b->inward_mm && a->n_doubt == b->n_doubt
              && a->n_rest == b->n_rest && a->heel_range[0] == b->heel_range[0]
              && a->heel_range[1] == b->heel_range[1] && same_points (a->outline, b->outline, a->n_outline)
              && same_points (a->rest, b->rest, a->n_rest);

  for (size_t i = 0; same && i < a->n_doubt; i++)
    same = a->doubt[i].from_mm == b->doubt[i].from_mm && a->doubt[i].to_mm == b->doubt[i].to_mm
           && same_text (a->doubt[i].why, b->doubt[i].why);
  return same;
}

static bool
same_point (PrSheetPt a, PrSheetPt b)
{
  return a.x == b.x && a.y == b.y;
}

static bool
same_drawn (const PrDrawnMarks *a, const PrDrawnMarks *b)
{
  return a->tick == b->tick && a->frog_lines == b->frog_lines && (!a->tick || same_point (a->toe, b->toe))
         && (!a->frog_lines
             || (same_point (a->frog_apex, b->frog_apex) && same_point (a->frog[0], b->frog[0])
                 && same_point (a->frog[1], b->frog[1])));
}

bool
pr_tracing_equal (const PrTracing *a, const PrTracing *b)
{
  return a->width_px == b->width_px && a->height_px == b->height_px && same_text (a->file, b->file)
         && same_scale (a, b) && pr_camera_equal (&a->camera, &b->camera) && same_references (a, b)
         && same_line (a, b) && same_drawn (&a->drawn, &b->drawn);
}

bool
pr_tracing_same_view (const PrTracing *a, const PrTracing *b)
{
  return pr_camera_equal (&a->camera, &b->camera) && a->raster == b->raster
         && a->scale.width_mm == b->scale.width_mm && a->scale.height_mm == b->scale.height_mm;
}

bool
pr_tracing_has_scale (const PrTracing *t)
{
  return t->width_px > 0;
}

const char *
pr_scale_method_code (PrScaleMethod method)
{
  return methods[method];
}

bool
pr_scale_method_parse (const char *code, PrScaleMethod *method)
{
  for (size_t i = 0; i < G_N_ELEMENTS (methods); i++)
    if (g_ascii_strcasecmp (code, methods[i]) == 0) {
      *method = (PrScaleMethod) i;
      return true;
    }
  return false;
}

const char *
pr_trust_code (PrTrust trust)
{
  return trusts[trust];
}

bool
pr_trust_parse (const char *code, PrTrust *trust)
{
  for (size_t i = 0; i < G_N_ELEMENTS (trusts); i++)
    if (g_ascii_strcasecmp (code, trusts[i]) == 0) {
      *trust = (PrTrust) i;
      return true;
    }
  return false;
}

const char *
pr_question_code (PrQuestion question)
{
  return questions[question];
}

PrQuestion
pr_question_parse (const char *code)
{
  for (size_t i = 0; i < G_N_ELEMENTS (questions); i++)
    if (code != NULL && strcmp (code, questions[i]) == 0)
      return (PrQuestion) i;
  return PR_QUESTION_NONE;
}

const char *
pr_verdict_code (PrVerdict verdict)
{
  return verdicts[verdict].code;
}

const char *
pr_verdict_name (PrVerdict verdict)
{
  return _ (verdicts[verdict].name);
}
