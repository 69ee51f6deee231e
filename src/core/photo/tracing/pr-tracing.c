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
      = (PrReason){ severity, g_strdup (text), at != NULL, at ? *at : (PrSheetPt){ 0 }, PR_ABOUT_ELSE };
}

void
pr_scale_clear_reasons (PrScale *scale)
{
  for (size_t i = 0; i < scale->n_reasons; i++)
    g_free (scale->reason[i].text);
  scale->n_reasons = 0;
}

const char *
pr_scale_nothing_wrong (void)
{
  return _ ("The sheet is flat, sharp and large enough in the photo.");
}

/* The verdict by the reasons that there are; its sentence ANEW, for a question may stand in its place. */
static void
judge_again (PrScale *scale, bool anew)
{
  const char *why = scale->n_reasons > 0 ? scale->reason[0].text : pr_scale_nothing_wrong ();

  scale->verdict = PR_VERDICT_GOOD;
  for (size_t i = 0; i < scale->n_reasons; i++)
    if (scale->reason[i].severity > scale->verdict) {
      scale->verdict = scale->reason[i].severity;
      why = scale->reason[i].text;
    }
  if (!anew)
    return;
  g_free (scale->why);
  scale->why = g_strdup (why);
}

void
pr_scale_lower_about (PrScale *scale, PrVerdict severity, PrAbout about, const char *text,
                      const PrSheetPt *at)
{
  size_t n = scale->n_reasons;

  pr_scale_add_reason (scale, severity, text, at);
  if (scale->n_reasons > n)
    scale->reason[n].about = about;
  if (severity <= scale->verdict && scale->why != NULL)
    return;
  scale->verdict = severity;
  g_free (scale->why);
  scale->why = g_strdup (text);
}

bool
pr_scale_is_about (const PrScale *scale, PrAbout about)
{
  size_t i = 0;

  while (i < scale->n_reasons && scale->reason[i].about != about)
    i++;
  return i < scale->n_reasons;
}

void
pr_scale_drop_about (PrScale *scale, PrAbout about)
{
  bool any = false, fell = false;
  size_t kept = 0;

  for (size_t i = 0; i < scale->n_reasons; i++)
    if (scale->reason[i].about == about) {
      any = true;
      fell = fell || g_strcmp0 (scale->why, scale->reason[i].text) == 0;
      g_free (scale->reason[i].text);
    } else {
      scale->reason[kept++] = scale->reason[i];
    }
  scale->n_reasons = kept;
  if (any)
    judge_again (scale, fell);
}

static void
field_as_printed (const PrScale *scale, PrSheetPt *low, PrSheetPt *high)
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
pr_scale_field (const PrScale *s, PrSheetPt *low, PrSheetPt *high)
{
  PrSheetPt a, b;

  field_as_printed (s, &a, &b);
  switch (s->turns) {
  case 1:
    *low = (PrSheetPt){ s->width_mm - b.y, a.x };
    *high = (PrSheetPt){ s->width_mm - a.y, b.x };
    return;
  case 2:
    *low = (PrSheetPt){ s->width_mm - b.x, s->height_mm - b.y };
    *high = (PrSheetPt){ s->width_mm - a.x, s->height_mm - a.y };
    return;
  case 3:
    *low = (PrSheetPt){ a.y, s->height_mm - b.x };
    *high = (PrSheetPt){ b.y, s->height_mm - a.x };
    return;
  default:
    *low = a;
    *high = b;
  }
}

PrFootLine
pr_foot_line_of (const PrTracing *t)
{
  return (PrFootLine){ .outline = t->outline,
                       .n_outline = t->n_outline,
                       .closed = t->closed,
                       .figure = t->figure,
                       .rest = t->rest,
                       .n_rest = t->n_rest,
                       .heel_range = { t->heel_range[0], t->heel_range[1] },
                       .pen_mm = t->pen_mm,
                       .inward_mm = t->inward_mm,
                       .doubt = t->doubt,
                       .n_doubt = t->n_doubt,
                       .drawn = t->drawn };
}

void
pr_tracing_drop_line (PrTracing *t)
{
  PrFootLine line = pr_foot_line_of (t);

  pr_foot_line_clear (&line);
  t->doubt = NULL;
  t->outline = t->rest = NULL;
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

PrFootLine
pr_tracing_steal_line (PrTracing *t)
{
  PrFootLine line = pr_foot_line_of (t);

  t->outline = t->rest = NULL;
  t->doubt = NULL;
  t->n_outline = t->n_rest = t->n_doubt = 0;
  pr_tracing_drop_line (t);
  return line;
}

void
pr_tracing_put_line (PrTracing *t, PrFootLine *line)
{
  pr_tracing_drop_line (t);
  t->outline = line->outline;
  t->n_outline = line->n_outline;
  t->closed = line->closed;
  t->figure = line->figure;
  t->rest = line->rest;
  t->n_rest = line->n_rest;
  t->heel_range[0] = line->heel_range[0];
  t->heel_range[1] = line->heel_range[1];
  t->pen_mm = line->pen_mm;
  t->inward_mm = line->inward_mm;
  t->doubt = line->doubt;
  t->n_doubt = line->n_doubt;
  t->drawn = line->drawn;
  *line = (PrFootLine){ 0 };
}

void
pr_tracing_drop_other (PrTracing *t, size_t nth)
{
  pr_foot_line_clear (&t->other[nth]);
  t->n_other--;
  for (size_t i = nth; i < t->n_other; i++)
    t->other[i] = t->other[i + 1];
}

void
pr_tracing_drop_others (PrTracing *t)
{
  for (size_t i = 0; i < t->n_other; i++)
    pr_foot_line_clear (&t->other[i]);
  t->n_other = 0;
}

void
pr_tracing_take_lines (PrTracing *t, PrTracing *from)
{
  PrFootLine line = pr_tracing_steal_line (from);

  pr_tracing_put_line (t, &line);
  pr_tracing_drop_others (t);
  for (size_t i = 0; i < from->n_other; i++)
    t->other[i] = from->other[i];
  t->n_other = from->n_other;
  t->light = from->light;
  from->n_other = 0;
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
  pr_tracing_drop_others (t);
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
  PrFootLine own = pr_foot_line_of (from), line = pr_foot_line_copy (&own);
  t->outline = line.outline;
  t->rest = line.rest;
  t->doubt = line.doubt;
  for (size_t i = 0; i < t->n_other; i++)
    t->other[i] = pr_foot_line_copy (&from->other[i]);
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

    same = a->severity == b->severity && a->has_at == b->has_at && a->about == b->about
           && same_text (a->text, b->text) && (!a->has_at || (a->at.x == b->at.x && a->at.y == b->at.y));
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
         && s->turns == t->turns && s->residual_mm == t->residual_mm && same_text (s->why, t->why)
         && same_reasons (s, t);
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
same_lines (const PrTracing *a, const PrTracing *b)
{
  PrFootLine own = pr_foot_line_of (a), others = pr_foot_line_of (b);
  bool same = a->light == b->light && a->n_other == b->n_other && pr_foot_line_equal (&own, &others);

  for (size_t i = 0; same && i < a->n_other; i++)
    same = pr_foot_line_equal (&a->other[i], &b->other[i]);
  return same;
}

bool
pr_tracing_equal (const PrTracing *a, const PrTracing *b)
{
  return a->width_px == b->width_px && a->height_px == b->height_px && same_text (a->file, b->file)
         && same_scale (a, b) && pr_camera_equal (&a->camera, &b->camera) && same_references (a, b)
         && same_lines (a, b);
}

bool
pr_tracing_same_view (const PrTracing *a, const PrTracing *b)
{
  return pr_camera_equal (&a->camera, &b->camera) && a->raster == b->raster
         && a->scale.width_mm == b->scale.width_mm && a->scale.height_mm == b->scale.height_mm;
}

double
pr_tracing_length (const PrTracing *t)
{
  double length = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  return length;
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

static const char *const abouts[PR_N_ABOUTS] = { "else", "heels", "feet" };

const char *
pr_about_code (PrAbout about)
{
  return abouts[about];
}

bool
pr_about_parse (const char *code, PrAbout *about)
{
  for (PrAbout a = 0; code && a < PR_N_ABOUTS; a++)
    if (strcmp (code, abouts[a]) == 0) {
      *about = a;
      return true;
    }
  return false;
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
