/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The handle widgets: which there are, where they lie, their Tab order round the shoe, and the
 * bubble that tells the value of the one at hand. */
#include "pr-board-private.h"

#include <glib/gi18n-lib.h>
#include "pr-handle-widget.h"

#define BUBBLE_GAP_PX 10

static const char *
grip_kind (const PrGrip *grip)
{
  if (grip->mark >= 0)
    return "mark";
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
grip_locked (PrBoard *board, const PrGrip *grip)
{
  int lock = grip->mark >= 0 ? -1 : pr_handle_lock (&grip->handle);

  return lock >= 0 && pr_plan_locked (&pr_document_job (board->doc)->plan, lock);
}

static char *
grip_name (const PrGrip *grip)
{
  static const char *const names[3]
      = { N_ ("Toe of the hoof"), N_ ("Buttress, medial"), N_ ("Buttress, lateral") };

  return grip->mark >= 0 ? g_strdup (_ (names[grip->mark])) : pr_handle_name (&grip->handle);
}

static char *
grip_value (PrBoard *board, const PrGrip *grip)
{
  const PrJob *job = pr_document_job (board->doc);
  g_autofree char *x = NULL, *y = NULL;

  if (grip->mark < 0) {
    char *value = pr_handle_value (&grip->handle, &job->hoof, &job->plan, job->shoe, job->unit);

    if (!grip_locked (board, grip))
      return value;
    x = value;
    return g_strdup_printf (_ ("%s, locked"), x);
  }
  x = pr_length_number (grip->handle.at.x, job->unit);
  y = pr_length_text (grip->handle.at.y, job->unit);
  return g_strdup_printf ("%s, %s", x, y);
}

/* --- which there are --- */

static size_t
collect_marks (const PrJob *job, PrGrip *out)
{
  const PrPt at[3] = { job->hoof.toe, job->hoof.buttress[PR_MEDIAL], job->hoof.buttress[PR_LATERAL] };
  const double order[3] = { 1, 0, 2 };

  for (int i = 0; i < 3; i++) {
    out[i] = (PrGrip){ .mark = i, .order = order[i] };
    out[i].handle.at = at[i];
  }
  return 3;
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
collect (PrBoard *board, PrGrip *out)
{
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;
  PrHandle handle[PR_MAX_HANDLES];
  size_t n;

  if (!job || !job->shoe)
    return 0;
  if (board->marks)
    return collect_marks (job, out);
  n = pr_handles (&job->hoof, &job->plan, job->shoe, handle);
  for (size_t i = 0; i < n; i++)
    out[i] = (PrGrip){ .mark = -1, .handle = handle[i], .order = pr_shoe_s_of (job->shoe, handle[i].at) };
  return n;
}

static bool
grip_same (const PrGrip *a, const PrGrip *b)
{
  return a->mark == b->mark && (a->mark >= 0 || pr_handle_same (&a->handle, &b->handle));
}

/* The held one keeps its index while a drag lasts, so the order stays as it was begun. */
static bool
keep_order (PrBoard *board, PrGrip *now, size_t n)
{
  if (n != board->n_grips)
    return false;
  for (size_t i = 0; i < n; i++) {
    size_t k = i;

    while (k < n && !grip_same (&now[k], &board->grip[i]))
      k++;
    if (k == n)
      return false;
    board->grip[i].handle = now[k].handle;
    if (k != i)
      now[k] = now[i];
  }
  return true;
}

static void
set_count (PrBoard *board, size_t n)
{
  while (board->n_grips > n)
    gtk_widget_unparent (board->widget[--board->n_grips]);
  for (; board->n_grips < n; board->n_grips++) {
    GtkWidget *widget = pr_handle_widget_new ("edge");

    gtk_widget_insert_before (widget, GTK_WIDGET (board), board->bubble);
    board->widget[board->n_grips] = widget;
  }
}

static void
describe (PrBoard *board, size_t i)
{
  g_autofree char *name = grip_name (&board->grip[i]);
  g_autofree char *value = grip_value (board, &board->grip[i]);

  pr_handle_widget_set_locked (PR_HANDLE_WIDGET (board->widget[i]), grip_locked (board, &board->grip[i]));
  pr_handle_widget_describe (PR_HANDLE_WIDGET (board->widget[i]), name, value);
}

void
pr_board_update_grips (PrBoard *board)
{
  PrGrip now[PR_MAX_GRIPS];
  size_t n = collect (board, now);

  if (!keep_order (board, now, n)) {
    n = collect (board, now);
    qsort (now, n, sizeof *now, by_order);
    set_count (board, n);
    memcpy (board->grip, now, n * sizeof *now);
    pr_board_tell (board, -1);
    for (size_t i = 0; i < n; i++)
      pr_handle_widget_set_kind (PR_HANDLE_WIDGET (board->widget[i]), grip_kind (&board->grip[i]));
  }
  /* while a handle moves only its own words are renewed, by the bubble */
  for (size_t i = 0; i < n && !pr_document_editing (board->doc); i++)
    describe (board, i);
  if (board->bubble_grip >= 0)
    pr_board_tell (board, board->bubble_grip);
  gtk_widget_queue_allocate (GTK_WIDGET (board));
}

/* --- where they lie --- */

static void
allocate_at (GtkWidget *child, double x, double y, int width, int height)
{
  graphene_point_t at = GRAPHENE_POINT_INIT ((float) x, (float) y);

  gtk_widget_allocate (child, width, height, -1, gsk_transform_translate (NULL, &at));
}

static void
allocate_bubble (PrBoard *board)
{
  PrBoardPt p = pr_board_from_foot (board, board->grip[board->bubble_grip].handle.at);
  int width, height, room = gtk_widget_get_width (GTK_WIDGET (board));
  double x, y;

  gtk_widget_measure (board->bubble, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (board->bubble, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  x = p.x + PR_GRAB_PX / 2 + BUBBLE_GAP_PX;
  if (x + width > room)
    x = p.x - PR_GRAB_PX / 2 - BUBBLE_GAP_PX - width;
  y = MAX (p.y - height - BUBBLE_GAP_PX, 0);
  allocate_at (board->bubble, floor (x), floor (y), width, height);
}

void
pr_board_allocate_grips (PrBoard *board)
{
  for (size_t i = 0; i < board->n_grips; i++) {
    PrBoardPt p = pr_board_from_foot (board, board->grip[i].handle.at);

    gtk_widget_measure (board->widget[i], GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
    allocate_at (board->widget[i], p.x - PR_GRAB_PX / 2, p.y - PR_GRAB_PX / 2, (int) PR_GRAB_PX,
                 (int) PR_GRAB_PX);
  }
  if (board->bubble_grip >= 0 && gtk_widget_get_visible (board->bubble))
    allocate_bubble (board);
}

/* Shows name and value beside a grip; -1 hides the bubble. */
void
pr_board_tell (PrBoard *board, int grip)
{
  g_autofree char *name = NULL, *value = NULL, *text = NULL;

  board->bubble_grip = grip;
  gtk_widget_set_visible (board->bubble, grip >= 0);
  if (grip < 0)
    return;
  name = grip_name (&board->grip[grip]);
  value = grip_value (board, &board->grip[grip]);
  text = g_strdup_printf ("%s\n%s", name, value);
  gtk_label_set_text (GTK_LABEL (board->bubble), text);
  if (pr_document_editing (board->doc))
    pr_handle_widget_describe (PR_HANDLE_WIDGET (board->widget[grip]), name, value);
  gtk_widget_queue_allocate (GTK_WIDGET (board));
}

/* --- Tab --- */

int
pr_board_focused_grip (PrBoard *board)
{
  for (size_t i = 0; i < board->n_grips; i++)
    if (gtk_widget_is_focus (board->widget[i]))
      return (int) i;
  return -1;
}

/* Round the shoe from the medial heel to the lateral one, then out of the board. */
gboolean
pr_board_focus (GtkWidget *widget, GtkDirectionType direction)
{
  PrBoard *board = PR_BOARD (widget);
  int at = pr_board_focused_grip (board), n = (int) board->n_grips;
  int next;

  if (n == 0 || (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD))
    return FALSE;
  if (direction == GTK_DIR_TAB_FORWARD)
    next = at + 1;
  else
    next = at < 0 ? n - 1 : at - 1;
  if (next < 0 || next >= n)
    return FALSE;
  pr_board_tell (board, next);
  return gtk_widget_grab_focus (board->widget[next]);
}
