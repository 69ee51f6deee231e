/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-work-view.h"

#include <glib/gi18n-lib.h>
#include "pr-findings-bar.h"
#include "pr-layers.h"
#include "pr-settings.h"
#include "pr-stage-bar.h"

struct _PrWorkView {
  GtkBox parent_instance;
  PrBoard *board;
  PrFindingsBar *findings;
  PrStageBar *stages;
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

/* The action "work.show-place": a finding's place, foot frame, mm. */
static void
show_place (GtkWidget *widget, const char *name, GVariant *place)
{
  PrWorkView *view = PR_WORK_VIEW (widget);
  PrPt at;

  g_variant_get (place, "(dd)", &at.x, &at.y);
  pr_board_ring (view->board, &at);
  gtk_widget_grab_focus (GTK_WIDGET (view->board));
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
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/work-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, board);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, findings);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, stages);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, face);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, zoom);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, true_size_button);
  gtk_widget_class_bind_template_child (widget_class, PrWorkView, layers_button);
  gtk_widget_class_bind_template_callback (widget_class, show_view);
  gtk_widget_class_install_action (widget_class, "work.show-place", "(dd)", show_place);
}
