/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-findings-bar.h"

#include <glib/gi18n-lib.h>
#include "pr-offer-button.h"

#define LIST_CHARS 44 /* width of a finding's sentence */

struct _PrFindingsBar {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *chip[PR_N_GROUPS], *icon[PR_N_GROUPS], *word[PR_N_GROUPS];
  PrState state[PR_N_GROUPS];
  int count[PR_N_GROUPS];
};

enum { SHOW_PLACE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrFindingsBar, pr_findings_bar, GTK_TYPE_BOX)

static const char *
state_icon (PrState state)
{
  static const char *const icons[] = { "pr-fits-symbolic", "pr-look-symbolic", "pr-mend-symbolic" };
  return icons[state];
}

/* --- the list in a chip's popover --- */

static void
row_clicked (GtkButton *button, PrFindingsBar *bar)
{
  const PrPt *at = g_object_get_data (G_OBJECT (button), "pr-at");
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (button), GTK_TYPE_POPOVER);
  PrPt place = *at;

  gtk_popover_popdown (GTK_POPOVER (popover));
  g_signal_emit (bar, signals[SHOW_PLACE], 0, place.x, place.y);
}

static GtkWidget *
finding_text (const PrFinding *finding)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *sentence = gtk_label_new (finding->text);
  GtkWidget *source = gtk_label_new (finding->source);

  gtk_label_set_wrap (GTK_LABEL (sentence), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (sentence), LIST_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (sentence), LIST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (sentence), 0);
  gtk_label_set_wrap (GTK_LABEL (source), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (source), LIST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (source), 0);
  gtk_widget_add_css_class (source, "soft");
  gtk_box_append (GTK_BOX (box), sentence);
  if (finding->source && *finding->source)
    gtk_box_append (GTK_BOX (box), source);
  gtk_widget_set_hexpand (box, TRUE);
  return box;
}

static GtkWidget *
finding_line (PrFindingsBar *bar, const PrFinding *finding)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *icon = gtk_image_new_from_icon_name (state_icon (finding->state));
  GtkWidget *button;
  PrPt *at;

  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_widget_add_css_class (icon, pr_state_code (finding->state));
  gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  pr_state_name (finding->state), -1);
  gtk_box_append (GTK_BOX (box), icon);
  gtk_box_append (GTK_BOX (box), finding_text (finding));
  gtk_widget_add_css_class (box, "finding");
  if (!finding->has_at)
    return box;
  gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name ("pr-place-symbolic"));
  button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_tooltip_text (button, _ ("Show it on the board"));
  at = g_new (PrPt, 1);
  *at = finding->at;
  g_object_set_data_full (G_OBJECT (button), "pr-at", at, g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (row_clicked), bar);
  return button;
}

/* The finding, and below it what would mend it. */
static GtkWidget *
finding_row (PrFindingsBar *bar, const PrFinding *finding)
{
  GtkWidget *line = finding_line (bar, finding), *box, *offer;

  if (!finding->offer || finding->state == PR_FITS)
    return line;
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  offer = pr_offer_button_new (bar->doc, finding);
  gtk_box_append (GTK_BOX (box), line);
  gtk_box_append (GTK_BOX (box), offer);
  return box;
}

static void
fill_popover (GtkMenuButton *chip, gpointer data)
{
  PrFindingsBar *bar = data;
  PrGroup group = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (chip), "pr-group"));
  const PrJob *job = pr_document_job (bar->doc);
  GtkWidget *popover = gtk_popover_new (), *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *scroller = gtk_scrolled_window_new ();

  for (guint i = 0; job && job->findings && i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);

    if (finding->group == group)
      gtk_box_append (GTK_BOX (list), finding_row (bar, finding));
  }
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 420);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), list);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_widget_set_halign (popover, GTK_ALIGN_START); /* it opens over the board, not the book */
  gtk_widget_add_css_class (popover, "findings");
  gtk_menu_button_set_popover (chip, popover);
}

/* --- chips --- */

static void
show_state (PrFindingsBar *bar, PrGroup group, PrState state, int count)
{
  GtkWidget *chip = bar->chip[group];
  g_autofree char *words = NULL, *spoken = NULL;

  if (bar->state[group] == state && bar->count[group] == count)
    return;
  gtk_widget_remove_css_class (chip, pr_state_code (bar->state[group]));
  gtk_widget_add_css_class (chip, pr_state_code (state));
  bar->state[group] = state;
  bar->count[group] = count;
  words = count > 0 ? g_strdup_printf ("%s %d", pr_group_name (group), count)
                    : g_strdup (pr_group_name (group));
  spoken = g_strdup_printf ("%s: %s", words, pr_state_name (state));
  gtk_image_set_from_icon_name (GTK_IMAGE (bar->icon[group]), state_icon (state));
  gtk_label_set_text (GTK_LABEL (bar->word[group]), words);
  gtk_widget_set_tooltip_text (chip, pr_state_name (state));
  gtk_accessible_update_property (GTK_ACCESSIBLE (chip), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
document_changed (PrFindingsBar *bar, guint what)
{
  const PrJob *job = pr_document_job (bar->doc);

  if (!(what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE)) || !job || !job->findings)
    return;
  for (int group = 0; group < PR_N_GROUPS; group++) {
    int count = 0;
    PrState state = pr_checks_group (job->findings, (PrGroup) group, &count);

    show_state (bar, (PrGroup) group, state, count);
  }
}

void
pr_findings_bar_set_document (PrFindingsBar *bar, PrDocument *doc)
{
  g_return_if_fail (!bar->doc);
  bar->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), bar, G_CONNECT_SWAPPED);
  document_changed (bar, PR_CHANGED_ALL);
}

static GtkWidget *
chip_new (PrFindingsBar *bar, PrGroup group)
{
  GtkWidget *chip = gtk_menu_button_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  bar->icon[group] = gtk_image_new_from_icon_name (state_icon (PR_FITS));
  bar->word[group] = gtk_label_new (pr_group_name (group));
  gtk_box_append (GTK_BOX (box), bar->icon[group]);
  gtk_box_append (GTK_BOX (box), bar->word[group]);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (chip), box);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (chip), FALSE);
  gtk_widget_add_css_class (chip, "chip");
  gtk_widget_add_css_class (chip, pr_state_code (PR_FITS));
  g_object_set_data (G_OBJECT (chip), "pr-group", GUINT_TO_POINTER (group));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (chip), fill_popover, bar, NULL);
  bar->count[group] = -1;
  return chip;
}

static void
pr_findings_bar_dispose (GObject *object)
{
  g_clear_object (&PR_FINDINGS_BAR (object)->doc);
  G_OBJECT_CLASS (pr_findings_bar_parent_class)->dispose (object);
}

static void
pr_findings_bar_init (PrFindingsBar *bar)
{
  gtk_box_set_spacing (GTK_BOX (bar), 6);
  gtk_widget_add_css_class (GTK_WIDGET (bar), "findings-bar");
  for (int group = 0; group < PR_N_GROUPS; group++) {
    bar->chip[group] = chip_new (bar, (PrGroup) group);
    gtk_box_append (GTK_BOX (bar), bar->chip[group]);
  }
}

static void
pr_findings_bar_class_init (PrFindingsBarClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_findings_bar_dispose;
  signals[SHOW_PLACE] = g_signal_new ("show-place", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}
