/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sources.h"

#include <string.h>

void
pr_sources_init (PrSources *s)
{
  *s = (PrSources){ .asked = PR_TRACE_OPTIONS_DEFAULT };
  pr_plan_init (&s->plan);
}

void
pr_sources_clear (PrSources *s)
{
  g_clear_pointer (&s->photo, g_bytes_unref);
  g_clear_pointer (&s->photo_name, g_free);
  g_clear_pointer (&s->tracing, pr_tracing_free);
  g_clear_pointer (&s->order, g_free);
}

void
pr_sources_copy (PrSources *to, const PrSources *from)
{
  *to = *from;
  to->photo = from->photo ? g_bytes_ref (from->photo) : NULL;
  to->photo_name = g_strdup (from->photo_name);
  to->tracing = from->tracing ? pr_tracing_copy (from->tracing) : NULL;
  to->order = g_strdup (from->order);
}

PrSources *
pr_sources_dup (const PrSources *from)
{
  PrSources *to = g_new (PrSources, 1);

  pr_sources_copy (to, from);
  return to;
}

void
pr_sources_free (PrSources *s)
{
  if (!s)
    return;
  pr_sources_clear (s);
  g_free (s);
}

bool
pr_sources_has_outline (const PrSources *s)
{
  return s->tracing && s->tracing->outline;
}

bool
pr_sources_is_specimen (const PrSources *s)
{
  return s->tracing && s->tracing->specimen;
}

const PrScale *
pr_sources_scale (const PrSources *s)
{
  return s->tracing && pr_tracing_has_scale (s->tracing) ? &s->tracing->scale : NULL;
}

/* --- what differs --- */

static bool
same_point (PrSheetPt a, PrSheetPt b)
{
  return a.x == b.x && a.y == b.y;
}

static bool
same_mark (bool has_a, PrSheetPt a, bool has_b, PrSheetPt b)
{
  return has_a == has_b && (!has_a || same_point (a, b));
}

static bool
same_marks (const PrLandmarks *a, const PrLandmarks *b)
{
  bool same = same_mark (a->has_toe, a->toe, b->has_toe, b->toe)
              && same_mark (a->has_frog_apex, a->frog_apex, b->has_frog_apex, b->frog_apex);

  for (int side = 0; same && side < 2; side++)
    same = same_mark (a->has_buttress[side], a->buttress[side], b->has_buttress[side], b->buttress[side])
           && same_mark (a->has_frog[side], a->frog[side], b->has_frog[side], b->frog[side]);
  return same;
}

static bool
same_asked (const PrTraceOptions *a, const PrTraceOptions *b)
{
  bool same = a->method == b->method && a->paper == b->paper && a->paper_sure == b->paper_sure
              && a->n_points == b->n_points && a->side_mm[0] == b->side_mm[0]
              && a->side_mm[1] == b->side_mm[1] && a->pen_mm == b->pen_mm && a->snap == b->snap
              && a->trust == b->trust;

  for (size_t i = 0; same && i < a->n_points; i++)
    same = a->point[i].x == b->point[i].x && a->point[i].y == b->point[i].y;
  return same;
}

static bool
same_tracing (const PrTracing *a, const PrTracing *b)
{
  return a == b || (a && b && pr_tracing_equal (a, b));
}

static bool
same_trace (const PrSources *a, const PrSources *b)
{
  return same_tracing (a->tracing, b->tracing) && same_marks (&a->marks, &b->marks)
         && a->wall[0] == b->wall[0] && a->wall[1] == b->wall[1] && a->wall[2] == b->wall[2]
         && same_asked (&a->asked, &b->asked);
}

static bool
same_photo (const PrSources *a, const PrSources *b)
{
  return !a->photo || !b->photo || a->photo == b->photo
         || (g_bytes_equal (a->photo, b->photo) && g_strcmp0 (a->photo_name, b->photo_name) == 0);
}

PrParts
pr_sources_differ (const PrSources *a, const PrSources *b)
{
  bool plan = pr_plan_equal (&a->plan, &b->plan) && g_strcmp0 (a->order, b->order) == 0;

  return (same_photo (a, b) ? 0 : PR_PART_PHOTO) | (same_trace (a, b) ? 0 : PR_PART_TRACE)
         | (a->foot == b->foot ? 0 : PR_PART_FOOT) | (plan ? 0 : PR_PART_PLAN);
}
