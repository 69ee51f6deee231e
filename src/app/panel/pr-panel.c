/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-panel.h"

#include "pr-fact-line.h"
#include "pr-facts.h"
#include "pr-fold.h"
#include "pr-foot-choice.h"
#include "pr-forged-part.h"
#include "pr-keep-style.h"
#include "pr-lock-button.h"
#include "pr-nail-choice.h"
#include "pr-offer-button.h"
#include "pr-heat-list.h"
#include "pr-order-view.h"
#include "pr-own-bar.h"
#include "pr-param-row.h"
#include "pr-rack-list.h"
#include "pr-scale-question.h"
#include "pr-style-choice.h"
#include "pr-tracing-part.h"
#include "pr-wall-row.h"

#define UNFOLDING_US (400 * 1000) /* by then a part has its height */

struct _PrPanel {
  PrFollower parent_instance;
  PrFold *tracing, *hoof, *shoe, *nailing, *iron, *order, *forged;
  GtkWidget *tracing_facts, *hoof_facts, *hoof_more, *iron_facts;
  GtkWidget *edge, *edge_label, *edge_medial, *edge_toe, *edge_lateral; /* the edge's locks */
  GtkWidget *scale_why;                                                 /* why the scale is judged as it is */
  GtkWidget *scale_more;                                                /* and what else speaks against it */
  GtkWidget *wall, *hoof_fold, *find_marks;                             /* of a foot, not of a specimen */
  GtkWidget *iron_offers; /* what would mend the findings about the iron */
};

G_DEFINE_FINAL_TYPE (PrPanel, pr_panel, PR_TYPE_FOLLOWER)

/* --- filling --- */

/* LIST (transfer full) as lines of label and value. */
static void
show_facts (GtkWidget *box, GStrv list)
{
  g_auto (GStrv) owned = list;

  pr_empty (box);
  for (int i = 0; owned[i]; i++) {
    g_auto (GStrv) parts = g_strsplit (owned[i], "\t", 2);

    gtk_box_append (GTK_BOX (box), pr_fact_line_new (parts[0], parts[1]));
  }
}

static void
show_offers (PrPanel *panel, const PrJob *job)
{
  pr_empty (panel->iron_offers);
  for (guint i = 0; job->findings && i < job->findings->len; i++) {
    PrFinding *finding = g_ptr_array_index (job->findings, i);
    GtkWidget *offer = finding->group == PR_GROUP_IRON ? pr_offer_button_new (job, finding) : NULL;

    if (offer)
      gtk_box_append (GTK_BOX (panel->iron_offers), offer);
  }
}

/* A reason with a place shows it on the board when it is pressed. */
static GtkWidget *
reason_line (const PrJob *job, const PrReason *reason)
{
  if (!reason->has_at || !pr_sources_has_outline (&job->sources))
    return pr_fact_line_new (reason->text, NULL);
  GtkWidget *button = gtk_button_new_with_label (reason->text);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));
  PrPt at = pr_foot_frame_in (&job->hoof.frame, reason->at);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "(dd)", at.x, at.y);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.show-place");
  return button;
}

/* The sentence of the verdict is told above them; one with a place comes again. */
static void
show_reasons (PrPanel *panel, const PrJob *job)
{
  const PrTracing *tracing = job->sources.tracing;

  gtk_label_set_text (GTK_LABEL (panel->scale_why), tracing && tracing->scale.why ? tracing->scale.why : "");
  pr_empty (panel->scale_more);
  for (size_t i = 0; tracing && i < tracing->scale.n_reasons; i++) {
    const PrReason *reason = &tracing->scale.reason[i];

    if (reason->severity != PR_VERDICT_GOOD
        && (reason->has_at || g_strcmp0 (reason->text, tracing->scale.why) != 0))
      gtk_box_append (GTK_BOX (panel->scale_more), reason_line (job, reason));
  }
}

static void
fill_tracing (PrPanel *panel, const PrJob *job)
{
  show_facts (panel->tracing_facts, pr_facts_tracing_list (job));
  show_reasons (panel, job);
}

static void
fill_hoof (PrPanel *panel, const PrJob *job)
{
  bool foot = !pr_sources_is_specimen (&job->sources);

  show_facts (panel->hoof_facts, pr_facts_hoof_list (job));
  show_facts (panel->hoof_more, pr_facts_hoof_more (job));
  gtk_widget_set_visible (panel->wall, foot);
  gtk_widget_set_visible (panel->hoof_fold, foot);
  gtk_widget_set_visible (panel->find_marks, foot);
}

static void
fill_iron (PrPanel *panel, const PrJob *job)
{
  show_facts (panel->iron_facts, pr_facts_iron_list (job));
  show_offers (panel, job);
}

/* What cannot be seen is filled when it comes into sight. */
static void
fill_if_seen (PrPanel *panel, PrFold *part, const PrJob *job, void (*fill) (PrPanel *, const PrJob *))
{
  if (pr_fold_is_unfolded (part))
    fill (panel, job);
}

static void
part_unfolds (PrPanel *panel, PrFold *part)
{
  const PrJob *job = pr_job_of (panel);

  if (!job)
    return;
  if (part == panel->tracing)
    fill_tracing (panel, job);
  else if (part == panel->hoof)
    fill_hoof (panel, job);
  else if (part == panel->iron)
    fill_iron (panel, job);
}

static void
show_foot (PrPanel *panel, const PrJob *job)
{
  pr_fold_set_result (panel->tracing, pr_facts_tracing (job));
  pr_fold_set_result (panel->hoof, pr_facts_hoof (job));
  fill_if_seen (panel, panel->tracing, job, fill_tracing);
  fill_if_seen (panel, panel->hoof, job, fill_hoof);
}

/* Round the toe, as the branches lie on the board. */
static void
order_edge (PrPanel *panel, const PrJob *job)
{
  bool medial_left = pr_lateral_sign (job->sources.foot, job->face) > 0;
  GtkWidget *left = medial_left ? panel->edge_medial : panel->edge_lateral;
  GtkWidget *right = medial_left ? panel->edge_lateral : panel->edge_medial;

  gtk_box_reorder_child_after (GTK_BOX (panel->edge), left, panel->edge_label);
  gtk_box_reorder_child_after (GTK_BOX (panel->edge), panel->edge_toe, left);
  gtk_box_reorder_child_after (GTK_BOX (panel->edge), right, panel->edge_toe);
}

/* A foot of which it is asked which line is its own is opened where that is answered. */
static void
show_question (PrPanel *panel, const PrJob *job)
{
  const PrScale *scale = pr_sources_scale (&job->sources);

  if (scale && pr_scale_is_about (scale, PR_ABOUT_FEET))
    pr_fold_set_open (panel->tracing, true);
}

/* While a handle moves only the header lines follow; lists wait for its end. */
static void
changed (PrFollower *follower, guint what)
{
  PrPanel *panel = PR_PANEL (follower);
  PrDocument *doc = pr_document_of (panel);
  const PrJob *job = pr_job_of (panel);

  if (!job
      || !(what
           & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE | PR_CHANGED_HISTORY
              | PR_CHANGED_STYLES | PR_CHANGED_FACE | PR_CHANGED_FORGED)))
    return;
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE | PR_CHANGED_FACE)) {
    show_foot (panel, job);
    order_edge (panel, job);
  }
  if (what & PR_CHANGED_PLACE)
    show_question (panel, job);
  pr_fold_set_result (panel->shoe, pr_facts_shoe (job, pr_document_styles (doc)));
  pr_fold_set_result (panel->nailing, pr_facts_nailing (job));
  pr_fold_set_result (panel->iron, pr_facts_iron (job));
  if (!pr_document_editing (doc)) {
    fill_if_seen (panel, panel->iron, job, fill_iron);
    pr_fold_set_result (panel->order, pr_facts_order (job));
    if (what & (PR_CHANGED_FORGED | PR_CHANGED_PLACE | PR_CHANGED_HISTORY | PR_CHANGED_UNIT))
      pr_fold_set_result (panel->forged, pr_forged_part_result (doc));
  }
}

/* --- unfolding --- */

/* Scrolls until PART is in sight, or its head where it is taller than the window; while it unfolds. */
static gboolean
bring_into_sight (GtkWidget *part, GdkFrameClock *clock, gpointer data)
{
  gint64 *until = data;
  GtkWidget *view = gtk_widget_get_ancestor (part, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t at;
  GtkAdjustment *scroll;

  if (*until == 0)
    *until = gdk_frame_clock_get_frame_time (clock) + UNFOLDING_US;
  if (view && gtk_widget_compute_bounds (part, gtk_widget_get_parent (part), &at)) {
    scroll = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (view));
    gtk_adjustment_clamp_page (scroll, at.origin.y, at.origin.y + at.size.height);
    if (at.size.height > gtk_adjustment_get_page_size (scroll))
      gtk_adjustment_set_value (scroll, at.origin.y);
  }
  return gdk_frame_clock_get_frame_time (clock) < *until ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* One part is open at a time, so that all of them stay in sight. */
static void
part_opened (PrPanel *panel, PrFold *part)
{
  PrFold *const parts[] = { panel->tracing, panel->hoof,  panel->shoe,  panel->nailing,
                            panel->iron,    panel->order, panel->forged };

  for (size_t i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != part)
      pr_fold_set_open (parts[i], false);
  gtk_widget_add_tick_callback (GTK_WIDGET (part), bring_into_sight, g_new0 (gint64, 1), g_free);
}

/* --- the class --- */

GtkWidget *
pr_panel_new (PrDocument *doc)
{
  return g_object_new (PR_TYPE_PANEL, "document", doc, NULL);
}

static void
pr_panel_init (PrPanel *panel)
{
  gtk_widget_init_template (GTK_WIDGET (panel));
  pr_fold_set_open (panel->shoe, true);
}

static void
ensure_parts (void)
{
  g_type_ensure (PR_TYPE_FOLD);
  g_type_ensure (PR_TYPE_FORGED_PART);
  g_type_ensure (PR_TYPE_FOOT_CHOICE);
  g_type_ensure (PR_TYPE_HEAT_LIST);
  g_type_ensure (PR_TYPE_KEEP_STYLE);
  g_type_ensure (PR_TYPE_LOCK_BUTTON);
  g_type_ensure (PR_TYPE_NAIL_CHOICE);
  g_type_ensure (PR_TYPE_ORDER_VIEW);
  g_type_ensure (PR_TYPE_OWN_BAR);
  g_type_ensure (PR_TYPE_PARAM_ROW);
  g_type_ensure (PR_TYPE_RACK_LIST);
  g_type_ensure (PR_TYPE_SCALE_QUESTION);
  g_type_ensure (PR_TYPE_STYLE_CHOICE);
  g_type_ensure (PR_TYPE_TRACING_PART);
  g_type_ensure (PR_TYPE_WALL_ROW);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrPanel, name)

static void
pr_panel_class_init (PrPanelClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  ensure_parts ();
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "panel.ui");
  gtk_widget_class_bind_template_callback (widget_class, part_opened);
  gtk_widget_class_bind_template_callback (widget_class, part_unfolds);
  BIND (tracing);
  BIND (hoof);
  BIND (shoe);
  BIND (nailing);
  BIND (iron);
  BIND (order);
  BIND (forged);
  BIND (tracing_facts);
  BIND (hoof_facts);
  BIND (hoof_more);
  BIND (wall);
  BIND (hoof_fold);
  BIND (find_marks);
  BIND (iron_facts);
  BIND (scale_why);
  BIND (edge);
  BIND (edge_label);
  BIND (edge_medial);
  BIND (edge_toe);
  BIND (edge_lateral);
  BIND (scale_more);
  BIND (iron_offers);
}
