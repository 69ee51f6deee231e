/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-work-view.h"

#include <glib/gi18n-lib.h>
#include "pr-document-forged.h"
#include "pr-findings-bar.h"
#include "pr-layers.h"
#include "pr-settings.h"
#include "pr-split.h"
#include "pr-stage-bar.h"

struct _PrWorkView {
  GtkBox parent_instance;
  PrBoard *board;
  PrFindingsBar *findings;
  PrStageBar *stages;
  PrSplit *split;
  PrDocument *doc; /* not owned: the window's */
  GtkLabel *face, *zoom;
  GtkButton *true_size_button;
  GtkMenuButton *layers_button;
};

G_DEFINE_FINAL_TYPE (PrWorkView, pr_work_view, GTK_TYPE_BOX)

static void
show_view (PrWorkView *view)
{
  bool measured = pr_board_is_measured (view->board);
  g_autofree char *zoom
      = g_strdup_printf (measured ? "%.0f %%" : "≈ %.0f %%", 100 * pr_board_share (view->board));

  gtk_button_set_label (view->true_size_button, measured ? "1 : 1" : "≈ 1 : 1");
  gtk_widget_set_tooltip_text (
      GTK_WIDGET (view->true_size_button),
      measured ? _ ("True size on this screen (Ctrl+1)")
               : _ ("True size as the monitor reports it; the screen is not measured yet (Ctrl+1)"));
  gtk_label_set_text (view->zoom, zoom);
  if (view->doc)
    pr_document_set_face (view->doc, pr_board_face (view->board));
  gtk_label_set_text (view->face, pr_face_name (pr_board_face (view->board)));
}

static void
ring (PrWorkView *view, PrPt at, const char *finding)
{
  pr_board_ring (view->board, &at, finding);
  gtk_widget_grab_focus (GTK_WIDGET (view->board));
}

/* The action "work.show-finding": its id and its place, foot frame, mm. */
static void
show_finding (GtkWidget *widget, const char *name, GVariant *finding)
{
  const char *id;
  PrPt at;

  g_variant_get (finding, "(&sdd)", &id, &at.x, &at.y);
  ring (PR_WORK_VIEW (widget), at, g_intern_string (id));
}

/* --- where a list of findings opens: not over the places it tells of --- */

#define PLACE_PX 22.0 /* a place with its ring */
#define EDGE_PX 24    /* what stands round a list, both sides together */

/* How many places of GROUP a list from X on would cover, WIDTH and HEIGHT large, from TOP on (board, px). */
static int
covered (PrWorkView *view, PrGroup group, double x, double top, double width, double height)
{
  const PrJob *job = pr_job_of (view->findings);
  int n = 0;

  for (guint i = 0; job && job->findings && i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);
    PrScreenPt p = pr_board_out (view->board, finding->at);

    n += finding->group == group && finding->has_at && p.x > x - PLACE_PX && p.x < x + width + PLACE_PX
         && p.y > top - PLACE_PX && p.y < top + height + PLACE_PX;
  }
  return n;
}

/* Below its chip where it may, else on either side of the board, else over what stands beside the board. */
static void
place_list (PrWorkView *view, GtkPopover *list, int group)
{
  GtkWidget *chip = gtk_widget_get_parent (GTK_WIDGET (list));
  double room = gtk_widget_get_width (GTK_WIDGET (view->board)), x0 = 0, top = 0;
  int width, height, least = G_MAXINT;

  gtk_popover_set_offset (list, 0, 0);
  /* the list itself has no size before it is shown */
  gtk_widget_measure (gtk_popover_get_child (list), GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (gtk_popover_get_child (list), GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL,
                      NULL);
  width += EDGE_PX;
  height += EDGE_PX;
  gtk_widget_translate_coordinates (chip, GTK_WIDGET (view->board), 0, gtk_widget_get_height (chip), &x0,
                                    &top);
  const double x[] = { x0, 0, room - width, room, -width };
  for (size_t i = 0; i < G_N_ELEMENTS (x); i++) {
    int n = covered (view, (PrGroup) group, x[i], top, width, height);

    if (n >= least)
      continue;
    least = n;
    gtk_popover_set_offset (list, (int) (x[i] - x0), 0);
  }
}

static void
document_changed (PrWorkView *view, guint what)
{
  if (what & (PR_CHANGED_FORGED | PR_CHANGED_PLACE))
    pr_board_compare (view->board, pr_document_forged (view->doc) != NULL);
}

PrBoard *
pr_work_view_board (PrWorkView *view)
{
  return view->board;
}

PrWorkView *
pr_work_view_new (PrDocument *doc)
{
  PrWorkView *view = g_object_new (PR_TYPE_WORK_VIEW, NULL);

  view->doc = doc;
  pr_board_set_document (view->board, doc);
  pr_follower_set_document (PR_FOLLOWER (view->findings), doc);
  pr_follower_set_document (PR_FOLLOWER (view->stages), doc);
  pr_stage_bar_set_board (view->stages, view->board);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), view, G_CONNECT_SWAPPED);
  pr_split_set_board (view->split, view->board);
  pr_layers_attach (view->layers_button, view->board);
  pr_board_set_screen (view->board, pr_settings_double ("screen-px-per-mm"));
  show_view (view);
  return view;
}

static void
pr_work_view_init (PrWorkView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}

static void
pr_work_view_class_init (PrWorkViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  g_type_ensure (PR_TYPE_BOARD);
  g_type_ensure (PR_TYPE_FINDINGS_BAR);
  g_type_ensure (PR_TYPE_STAGE_BAR);
  g_type_ensure (PR_TYPE_SPLIT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/work-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, board);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, findings);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, stages);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, split);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, face);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, zoom);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, true_size_button);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, layers_button);
  gtk_widget_class_bind_template_callback (widget_class, show_view);
  gtk_widget_class_bind_template_callback (widget_class, place_list);
  gtk_widget_class_install_action (widget_class, "work.show-finding", "(sdd)", show_finding);
}
