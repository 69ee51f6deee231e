/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-history.h"

struct _PrHistory {
  GQueue undo, redo; /* of PrSources, newest at the head */
  char *tag;         /* of the newest change; NULL: it stands for itself, or was taken back */
  gint64 time;       /* when that was */
};

static void
step_free (gpointer step)
{
  pr_sources_free (step);
}

PrHistory *
pr_history_new (void)
{
  PrHistory *history = g_new0 (PrHistory, 1);

  g_queue_init (&history->undo);
  g_queue_init (&history->redo);
  return history;
}

void
pr_history_free (PrHistory *history)
{
  if (!history)
    return;
  g_queue_clear_full (&history->undo, step_free);
  g_queue_clear_full (&history->redo, step_free);
  g_free (history->tag);
  g_free (history);
}

/* Of the flat pictures in STEPS only the first MOST stay. Copies of one foot share one picture, so
 * neighbours mostly hold the same. */
static void
thin_pictures (GQueue *steps, int most)
{
  const uint8_t *last = NULL;
  int n = 0;

  for (GList *at = steps->head; at; at = at->next) {
    PrTracing *tracing = ((PrSources *) at->data)->tracing;

    if (!tracing || !tracing->raster_rgb)
      continue;
    n += tracing->raster_rgb != last;
    last = tracing->raster_rgb;
    if (n > most)
      pr_tracing_drop_raster (tracing);
  }
}

void
pr_history_push (PrHistory *history, PrSources *before, const char *tag, gint64 now)
{
  bool same = tag && g_strcmp0 (tag, history->tag) == 0 && now - history->time < PR_HISTORY_SAME_US;

  if (same) /* the step before holds what stood before both */
    pr_sources_free (before);
  else
    g_queue_push_head (&history->undo, before);
  if (g_queue_get_length (&history->undo) > PR_HISTORY_MOST)
    pr_sources_free (g_queue_pop_tail (&history->undo));
  g_queue_clear_full (&history->redo, step_free);
  thin_pictures (&history->undo, PR_HISTORY_PICTURES);
  g_free (history->tag);
  history->tag = g_strdup (tag);
  history->time = now;
}

bool
pr_history_can_undo (const PrHistory *history)
{
  return !g_queue_is_empty ((GQueue *) &history->undo);
}

bool
pr_history_can_redo (const PrHistory *history)
{
  return !g_queue_is_empty ((GQueue *) &history->redo);
}

static PrSources *
swap (PrHistory *history, GQueue *from, GQueue *to, const PrSources *now)
{
  if (g_queue_is_empty (from))
    return NULL;
  g_queue_push_head (to, pr_sources_dup (now));
  thin_pictures (to, PR_HISTORY_PICTURES);
  g_clear_pointer (&history->tag, g_free);
  return g_queue_pop_head (from);
}

PrSources *
pr_history_undo (PrHistory *history, const PrSources *now)
{
  return swap (history, &history->undo, &history->redo, now);
}

PrSources *
pr_history_redo (PrHistory *history, const PrSources *now)
{
  return swap (history, &history->redo, &history->undo, now);
}

void
pr_history_rest (PrHistory *history)
{
  thin_pictures (&history->undo, 0);
  thin_pictures (&history->redo, 0);
}
