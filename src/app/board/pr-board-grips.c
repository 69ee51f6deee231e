/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-grips.h"

#include <glib/gi18n-lib.h>
#include "pr-handle-widget.h"

#define BUBBLE_GAP_PX 10

/* Is it a heel that waits to be set? */
static bool
grip_waits (const PrGrips *grips, const PrGrip *grip)
{
  const PrJob *job = pr_board_stage_job (grips->stage);

  return job && grip->mark >= 0 && pr_mark_waits (job, (PrLandmark) grip->mark);
}

static const char *
grip_kind (const PrGrips *grips, const PrGrip *grip)
{
  if (grip->mark >= 0)
    return grip_waits (grips, grip) ? "waiting" : "mark";
  switch (grip->handle.kind) {
  case PR_HANDLE_NAIL:
    return "nail";
  case PR_HANDLE_CLIP:
    return "clip";
  case PR_HANDLE_WEB:
    return "web";
  case PR_HANDLE_CREASE:
    return "crease";
  default:
    return "edge";
  }
}

static bool
grip_locked (PrGrips *grips, const PrGrip *grip)
{
  int lock = grip->mark >= 0 ? -1 : pr_handle_lock (&grip->handle);

  return lock >= 0 && pr_plan_locked (&pr_board_stage_job (grips->stage)->sources.plan, lock);
}

static char *
grip_name (const PrGrip *grip)
{
  return grip->mark >= 0 ? g_strdup (pr_mark_name ((PrLandmark) grip->mark)) : pr_handle_name (&grip->handle);
}

static char *
grip_value (PrGrips *grips, const PrGrip *grip)
{
  const PrJob *job = pr_board_stage_job (grips->stage);
  g_autofree char *x = NULL, *y = NULL;
  bool known;

  if (grip->mark < 0) {
    char *value = pr_handle_value (&grip->handle, &job->hoof, &job->sources.plan, job->shoe, job->unit);

    if (!grip_locked (grips, grip))
      return value;
    x = value;
    return g_strdup_printf (_ ("%s, locked"), x);
  }
  x = pr_length_number (grip->handle.at.x, job->unit);
  y = pr_length_text (grip->handle.at.y, job->unit);
  if (grip_waits (grips, grip))
    return g_strdup (_ ("not set: click on the outline where the wall ends, or press Enter to set it here"));
  pr_mark_at (job, (PrLandmark) grip->mark, &known);
  /* TRANSLATORS: a mark's place (x, y), and that nobody has set it yet */
  return g_strdup_printf (known ? "%s, %s" : _ ("%s, %s, not set: drag it there"), x, y);
}

/* --- which there are --- */

static size_t
collect_marks (const PrJob *job, PrGrip *out)
{
  /* Tab goes round the line as it does round the shoe, then to the frog */
  const double order[PR_N_MARKS] = { 1, 0, 2, 4, 3, 5 };

  for (int i = 0; i < PR_N_MARKS; i++) {
    out[i] = (PrGrip){ .mark = i, .order = order[i] };
    out[i].handle.at = pr_mark_at (job, (PrLandmark) i, NULL);
  }
  return PR_N_MARKS;
}

/* Heels that wait are there to be set whatever else there is to take hold of. */
static size_t
add_waiting (const PrJob *job, PrGrip *out)
{
  size_t n = 0;

  for (int i = 0; i < PR_N_MARKS; i++)
    if (pr_mark_waits (job, (PrLandmark) i)) {
      out[n] = (PrGrip){ .mark = i };
      out[n].handle.at = pr_mark_at (job, (PrLandmark) i, NULL);
      out[n].order = pr_shoe_s_of (job->shoe, out[n].handle.at);
      n++;
    }
  return n;
}

static int
by_order (const void *a, const void *b)
{
  const PrGrip *g = a, *h = b;

  if (g->order != h->order)
    return g->order < h->order ? -1 : 1;
  return (int) g->handle.kind - (int) h->handle.kind;
}

static size_t
collect (PrGrips *grips, PrGrip *out)
{
  const PrJob *job = pr_board_stage_job (grips->stage);
  PrHandle handle[PR_MAX_HANDLES];
  size_t n;

  if (!job || !job->shoe || grips->stage->under_way || grips->stage->looked_at)
    return 0;
  if (grips->marks)
    return collect_marks (job, out);
  n = pr_handles (&job->hoof, &job->sources.plan, job->shoe, handle);
  for (size_t i = 0; i < n; i++)
    out[i] = (PrGrip){ .mark = -1, .handle = handle[i], .order = pr_shoe_s_of (job->shoe, handle[i].at) };
  return n + add_waiting (job, out + n);
}

static bool
grip_same (const PrGrip *a, const PrGrip *b)
{
  return a->mark == b->mark && (a->mark >= 0 || pr_handle_same (&a->handle, &b->handle));
}

/* The held one keeps its index while a drag lasts, so the order stays as it was begun. */
static bool
keep_order (PrGrips *grips, PrGrip *now, size_t n)
{
  if (n != grips->n)
    return false;
  for (size_t i = 0; i < n; i++) {
    size_t k = i;

    while (k < n && !grip_same (&now[k], &grips->grip[i]))
      k++;
    if (k == n)
      return false;
    grips->grip[i].handle = now[k].handle;
    if (k != i)
      now[k] = now[i];
  }
  return true;
}

static void
set_count (PrGrips *grips, size_t n)
{
  while (grips->n > n)
    gtk_widget_unparent (grips->widget[--grips->n]);
  for (; grips->n < n; grips->n++) {
    GtkWidget *widget = pr_handle_widget_new ("edge");

    gtk_widget_insert_before (widget, grips->stage->widget, grips->bubble);
    grips->widget[grips->n] = widget;
  }
}

static void
describe (PrGrips *grips, size_t i)
{
  g_autofree char *name = grip_name (&grips->grip[i]);
  g_autofree char *value = grip_value (grips, &grips->grip[i]);

  pr_handle_widget_set_locked (PR_HANDLE_WIDGET (grips->widget[i]), grip_locked (grips, &grips->grip[i]));
  pr_handle_widget_describe (PR_HANDLE_WIDGET (grips->widget[i]), name, value);
}

void
pr_grips_update (PrGrips *grips)
{
  PrGrip now[PR_MAX_GRIPS];
  size_t n = collect (grips, now);

  if (!keep_order (grips, now, n)) {
    n = collect (grips, now);
    qsort (now, n, sizeof *now, by_order);
    set_count (grips, n);
    memcpy (grips->grip, now, n * sizeof *now);
    pr_grips_tell (grips, -1);
    for (size_t i = 0; i < n; i++)
      pr_handle_widget_set_kind (PR_HANDLE_WIDGET (grips->widget[i]), grip_kind (grips, &grips->grip[i]));
  }
  /* while a handle moves only its own words are renewed, by the bubble */
  for (size_t i = 0; i < n && !pr_document_editing (grips->stage->doc); i++)
    describe (grips, i);
  if (grips->told >= 0)
    pr_grips_tell (grips, grips->told);
  gtk_widget_queue_allocate (grips->stage->widget);
}

/* --- where they lie --- */

static void
allocate_at (GtkWidget *child, double x, double y, int width, int height)
{
  graphene_point_t at = GRAPHENE_POINT_INIT ((float) x, (float) y);

  gtk_widget_allocate (child, width, height, -1, gsk_transform_translate (NULL, &at));
}

static void
allocate_bubble (PrGrips *grips)
{
  PrScreenPt p = pr_board_stage_out (grips->stage, grips->grip[grips->told].handle.at);
  int width, height, room = gtk_widget_get_width (grips->stage->widget);
  double x, y;

  gtk_widget_measure (grips->bubble, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (grips->bubble, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  x = p.x + PR_GRAB_PX / 2 + BUBBLE_GAP_PX;
  if (x + width > room)
    x = p.x - PR_GRAB_PX / 2 - BUBBLE_GAP_PX - width;
  y = MAX (p.y - height - BUBBLE_GAP_PX, 0);
  allocate_at (grips->bubble, floor (x), floor (y), width, height);
}

void
pr_grips_allocate (PrGrips *grips)
{
  for (size_t i = 0; i < grips->n; i++) {
    PrScreenPt p = pr_board_stage_out (grips->stage, grips->grip[i].handle.at);

    gtk_widget_measure (grips->widget[i], GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
    allocate_at (grips->widget[i], p.x - PR_GRAB_PX / 2, p.y - PR_GRAB_PX / 2, (int) PR_GRAB_PX,
                 (int) PR_GRAB_PX);
  }
  if (grips->told >= 0 && gtk_widget_get_visible (grips->bubble))
    allocate_bubble (grips);
}

bool
pr_grips_words (const PrGrips *grips, graphene_rect_t *at)
{
  return grips->told >= 0 && gtk_widget_get_visible (grips->bubble)
         && gtk_widget_compute_bounds (grips->bubble, grips->stage->widget, at);
}

/* The iron is shown cut through where the shoe's handle at hand lies on it. */
static void
point_at (const PrGrips *grips, int grip)
{
  const PrJob *job = pr_board_stage_job (grips->stage);
  bool on_shoe = grip >= 0 && grips->grip[grip].mark < 0 && job && job->shoe;

  g_signal_emit_by_name (grips->stage->widget, "hover",
                         on_shoe ? pr_shoe_s_under (job->shoe, grips->grip[grip].handle.at) : -1.0);
}

void
pr_grips_tell (PrGrips *grips, int grip)
{
  g_autofree char *name = NULL, *value = NULL, *text = NULL;

  grips->told = grip;
  gtk_widget_set_visible (grips->bubble, grip >= 0);
  point_at (grips, grip);
  if (grip < 0)
    return;
  name = grip_name (&grips->grip[grip]);
  value = grip_value (grips, &grips->grip[grip]);
  text = g_strdup_printf ("%s\n%s", name, value);
  gtk_label_set_text (GTK_LABEL (grips->bubble), text);
  if (pr_document_editing (grips->stage->doc))
    pr_handle_widget_describe (PR_HANDLE_WIDGET (grips->widget[grip]), name, value);
  gtk_widget_queue_allocate (grips->stage->widget);
}

/* --- Tab --- */

int
pr_grips_focused (const PrGrips *grips)
{
  for (size_t i = 0; i < grips->n; i++)
    if (gtk_widget_is_focus (grips->widget[i]))
      return (int) i;
  return -1;
}

bool
pr_grips_focus_next (PrGrips *grips, GtkDirectionType direction)
{
  int at = pr_grips_focused (grips), n = (int) grips->n;
  int next;

  if (n == 0 || (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD))
    return false;
  if (direction == GTK_DIR_TAB_FORWARD)
    next = at + 1;
  else
    next = at < 0 ? n - 1 : at - 1;
  if (next < 0 || next >= n)
    return false;
  pr_grips_tell (grips, next);
  return gtk_widget_grab_focus (grips->widget[next]);
}

/* --- pointer --- */

int
pr_grips_at (const PrGrips *grips, double x, double y, double across)
{
  PrHandle handle[PR_MAX_GRIPS];

  for (size_t i = 0; i < grips->n; i++)
    handle[i] = grips->grip[i].handle;
  return grips->n == 0 ? -1
                       : pr_handle_hit (handle, grips->n, pr_board_stage_in (grips->stage, x, y),
                                        across / 2 / grips->stage->view.scale);
}

void
pr_grips_light_up (PrGrips *grips, int grip)
{
  for (int i = 0; i < (int) grips->n; i++) {
    if (i == grip)
      gtk_widget_set_state_flags (grips->widget[i], GTK_STATE_FLAG_PRELIGHT, FALSE);
    else
      gtk_widget_unset_state_flags (grips->widget[i], GTK_STATE_FLAG_PRELIGHT);
  }
  gtk_widget_set_cursor_from_name (grips->stage->widget, grip >= 0 ? "grab" : grips->stage->cursor);
}

/* --- all of them --- */

void
pr_grips_append (PrGrips *grips, GtkSnapshot *snapshot)
{
  for (size_t i = 0; i < grips->n; i++)
    gtk_widget_snapshot_child (grips->stage->widget, grips->widget[i], snapshot);
  gtk_widget_snapshot_child (grips->stage->widget, grips->bubble, snapshot);
}

void
pr_grips_start (PrGrips *grips, const PrBoardStage *stage)
{
  grips->stage = stage;
  grips->told = -1;
  grips->bubble = gtk_label_new (NULL);
  gtk_widget_add_css_class (grips->bubble, "bubble");
  gtk_widget_set_can_target (grips->bubble, FALSE);
  gtk_widget_set_visible (grips->bubble, FALSE);
  gtk_widget_set_parent (grips->bubble, stage->widget);
}

void
pr_grips_clear (PrGrips *grips)
{
  while (grips->n > 0)
    gtk_widget_unparent (grips->widget[--grips->n]);
  g_clear_pointer (&grips->bubble, gtk_widget_unparent);
}
