/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-panel.h"

#include <glib/gi18n-lib.h>
#include "pr-facts.h"
#include "pr-lock-button.h"
#include "pr-offer-button.h"
#include "pr-order-view.h"
#include "pr-param-row.h"
#include "pr-rack-list.h"
#include "pr-fold.h"
#include "pr-tracing-part.h"
#include "pr-wall-row.h"

enum { TRACING, HOOF, SHOE, NAILING, IRON, ORDER, N_PARTS };

struct _PrPanel {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *part[N_PARTS];
  GtkWidget *facts[N_PARTS]; /* list of what is read, or NULL */
  GtkWidget *offers;         /* what the findings about the iron offer */
  GtkWidget *why, *foot, *style, *purpose, *trouble, *keep_button, *keep_name;
  bool showing; /* controls are being filled, not used */
};

G_DEFINE_FINAL_TYPE (PrPanel, pr_panel, GTK_TYPE_BOX)

#define AT(field) ((gssize) offsetof (PrPlan, field))
#define ONE(text, field)          \
  {                               \
    text, AT (field), -1, 0, NULL \
  }
#define BOTH(text, field)                                        \
  {                                                              \
    text, AT (field[PR_MEDIAL]), AT (field[PR_LATERAL]), 0, NULL \
  }
#define TWO(text, a, b)           \
  {                               \
    text, AT (a), AT (b), 0, NULL \
  }
#define HEAD(text)        \
  {                       \
    text, -1, -1, 0, NULL \
  }
#define LOCK(n) (1u << PR_LOCK_##n)
#define UNFOLDING_US (400 * 1000) /* by then a part has its height */

/* a line with a lock for its part */
#define BOTH_LOCK(text, field, locks, part)                          \
  {                                                                  \
    text, AT (field[PR_MEDIAL]), AT (field[PR_LATERAL]), locks, part \
  }
#define HEAD_LOCK(text, locks, part) \
  {                                  \
    text, -1, -1, locks, part        \
  }

typedef struct {
  const char *label;
  gssize first, second; /* HEAD: both -1, a line of its own above what follows */
  guint locks;          /* bits of PR_LOCK_*; 0: no lock beside it */
  const char *part;     /* what is locked, for a screen reader */
} Row;

static const Row shoe_rows[] = {
  ONE (N_ ("Web, toe"), web_toe),
  BOTH (N_ ("Web, quarters"), web_quarter),
  BOTH (N_ ("Web, heels"), web_heel),
  TWO (N_ ("Thick toe, heels"), thick_toe, thick_heel),
  BOTH_LOCK (N_ ("Past buttress"), heel_past, LOCK (HEEL_M) | LOCK (HEEL_L), N_ ("heels")),
  TWO (N_ ("Fit nails, heels"), fit_front, fit_heel),
};

/* what is changed less often */
static const Row more_rows[] = {
  BOTH (N_ ("Heel corners"), heel_round),
  ONE (N_ ("Heels square to"), heel_cut),
  ONE (N_ ("Toe"), toe),
  ONE (N_ ("rolled or set back by"), toe_amount),
  ONE (N_ ("Extension ahead"), ext_ahead),
  ONE (N_ ("Extension width"), ext_width),
  ONE (N_ ("Bar between heels"), bar),
  ONE (N_ ("Width of that bar"), bar_web),
};

static const Row nailing_rows[] = {
  BOTH_LOCK (N_ ("Nails"), nails, LOCK (NAILS_M) | LOCK (NAILS_L), N_ ("nails")),
  BOTH (N_ ("First nail at"), nail_first),
  BOTH (N_ ("Last nail at"), nail_last),
  BOTH (N_ ("Inset, first nail"), nail_inset),
  BOTH (N_ ("Inset, last nail"), nail_inset_last),
  TWO (N_ ("Head long, wide"), nail_head_length, nail_head_width),
  BOTH (N_ ("Crease"), crease),
  TWO (N_ ("Crease wide, deep"), crease_width, crease_depth),
  HEAD_LOCK (N_ ("First clip"), LOCK (CLIPS), N_ ("clips")),
  ONE (N_ ("Present"), clip[0].kind),
  TWO (N_ ("Place and base"), clip[0].place, clip[0].base),
  TWO (N_ ("High, thick"), clip[0].height, clip[0].thickness),
  HEAD (N_ ("Second clip")),
  ONE (N_ ("Present"), clip[1].kind),
  TWO (N_ ("Place and base"), clip[1].place, clip[1].base),
  TWO (N_ ("High, thick"), clip[1].height, clip[1].thickness),
};

static const Row iron_rows[] = {
  ONE (N_ ("Given length"), given),
  ONE (N_ ("Loss in the fire"), loss),
  ONE (N_ ("Allowance per weld"), weld_allowance),
  ONE (N_ ("Material"), material),
  ONE (N_ ("Extension a piece apart"), ext_piece),
  ONE (N_ ("Bar a piece apart"), bar_piece),
};

/* --- small parts --- */

static GtkWidget *
caption (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, class);
  return label;
}

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)))
    gtk_box_remove (GTK_BOX (box), child);
}

/* LIST (transfer full) as lines of label and value. */
static void
show_facts (GtkWidget *box, GStrv list)
{
  g_auto (GStrv) owned = list;

  clear_box (box);
  for (int i = 0; owned[i]; i++) {
    g_auto (GStrv) parts = g_strsplit (owned[i], "\t", 2);
    GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = caption (parts[0], "soft"), *value = caption (parts[1], "figure");

    gtk_widget_set_hexpand (label, TRUE);
    gtk_label_set_xalign (GTK_LABEL (value), 1);
    gtk_box_append (GTK_BOX (line), label);
    gtk_box_append (GTK_BOX (line), value);
    gtk_box_append (GTK_BOX (box), line);
  }
}

static GtkWidget *
row_widget (PrPanel *side, const Row *row)
{
  GtkWidget *widget = row->first < 0 ? caption (_ (row->label), "subheading")
                                     : pr_param_row_new (side->doc, _ (row->label), row->first, row->second);
  GtkWidget *line;

  if (!row->locks)
    return widget;
  line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_box_append (GTK_BOX (line), widget);
  gtk_box_append (GTK_BOX (line), pr_lock_button_new (side->doc, row->locks, _ (row->part)));
  return line;
}

/* The outer edge has handles instead of numbers: its locks stand by themselves. */
static GtkWidget *
edge_locks (PrPanel *side)
{
  static const struct {
    const char *word, *part;
    guint lock;
  } parts[] = {
    { N_ ("toe"), N_ ("toe"), LOCK (TOE) },
    { N_ ("medial"), N_ ("medial branch"), LOCK (MEDIAL) },
    { N_ ("lateral"), N_ ("lateral branch"), LOCK (LATERAL) },
  };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  GtkWidget *words = gtk_label_new (_ ("Edge"));

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (line), words);
  for (size_t i = 0; i < G_N_ELEMENTS (parts); i++) {
    gtk_box_append (GTK_BOX (line), caption (_ (parts[i].word), "soft"));
    gtk_box_append (GTK_BOX (line), pr_lock_button_new (side->doc, parts[i].lock, _ (parts[i].part)));
  }
  return line;
}

static void
add_rows (PrPanel *side, int part, const Row *rows, size_t n)
{
  for (size_t i = 0; i < n; i++)
    pr_fold_add (PR_FOLD (side->part[part]), row_widget (side, &rows[i]));
}

static GtkWidget *
button (const char *label, const char *action)
{
  GtkWidget *widget = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (widget), action);
  gtk_widget_set_halign (widget, GTK_ALIGN_START);
  return widget;
}

static void
add_facts (PrPanel *side, int part)
{
  side->facts[part] = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  pr_fold_add (PR_FOLD (side->part[part]), side->facts[part]);
}

/* --- controls of their own --- */

static void
foot_chosen (GtkDropDown *choice, GParamSpec *spec, PrPanel *side)
{
  g_autoptr (GError) error = NULL;

  if (side->showing || !pr_document_job (side->doc))
    return;
  if (!pr_document_set_foot (side->doc, (PrFoot) (gtk_drop_down_get_selected (choice)), &error))
    gtk_label_set_text (GTK_LABEL (side->trouble), error->message);
}

static void
style_chosen (GtkDropDown *choice, GParamSpec *spec, PrPanel *side)
{
  const GPtrArray *styles = pr_document_styles (side->doc);
  guint i = gtk_drop_down_get_selected (choice);
  g_autoptr (GError) error = NULL;
  bool ok;

  if (side->showing || !pr_document_job (side->doc) || i >= styles->len)
    return;
  ok = pr_document_set_style (side->doc, g_ptr_array_index (styles, i), &error);
  gtk_label_set_text (GTK_LABEL (side->trouble), ok ? "" : error->message);
  gtk_widget_set_visible (side->trouble, !ok);
}

static GtkWidget *
labelled (const char *label, GtkWidget *editor)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *words = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), editor);
  gtk_accessible_update_property (GTK_ACCESSIBLE (editor), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return line;
}

static GtkWidget *
foot_choice (PrPanel *side)
{
  GtkStringList *names = gtk_string_list_new (NULL);

  gtk_string_list_append (names, _ ("not told"));
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++)
    gtk_string_list_append (names, pr_foot_name ((PrFoot) foot));
  side->foot = gtk_drop_down_new (G_LIST_MODEL (names), NULL);
  g_signal_connect (side->foot, "notify::selected", G_CALLBACK (foot_chosen), side);
  return labelled (_ ("Foot"), side->foot);
}

/* Transfer full. */
static GListModel *
style_names (PrPanel *side)
{
  const GPtrArray *styles = pr_document_styles (side->doc);
  GtkStringList *names = gtk_string_list_new (NULL);

  for (guint i = 0; i < styles->len; i++)
    gtk_string_list_append (names, ((PrStyle *) g_ptr_array_index (styles, i))->name);
  gtk_string_list_append (names, _ ("own shape"));
  return G_LIST_MODEL (names);
}

static void
keep_style (PrPanel *side)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (side->keep_name))));
  g_autoptr (GError) error = NULL;
  bool ok;

  if (!*name || !pr_document_job (side->doc))
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (side->keep_button));
  gtk_editable_set_text (GTK_EDITABLE (side->keep_name), "");
  ok = pr_document_keep_style (side->doc, name, &error);
  gtk_label_set_text (GTK_LABEL (side->trouble), ok ? "" : error->message);
  gtk_widget_set_visible (side->trouble, !ok);
}

static GtkWidget *
keep_style_button (PrPanel *side)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *keep = gtk_button_new_with_label (_ ("Keep"));

  side->keep_name = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (side->keep_name), _ ("name of the style"));
  g_signal_connect_swapped (side->keep_name, "activate", G_CALLBACK (keep_style), side);
  g_signal_connect_swapped (keep, "clicked", G_CALLBACK (keep_style), side);
  gtk_box_append (GTK_BOX (box), side->keep_name);
  gtk_box_append (GTK_BOX (box), keep);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  side->keep_button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (side->keep_button), _ ("Keep as a style of my own…"));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (side->keep_button), popover);
  gtk_widget_set_halign (side->keep_button, GTK_ALIGN_START);
  return side->keep_button;
}

static GtkWidget *
style_choice (PrPanel *side)
{
  side->style = gtk_drop_down_new (style_names (side), NULL);
  g_signal_connect (side->style, "notify::selected", G_CALLBACK (style_chosen), side);
  return labelled (_ ("Style"), side->style);
}

/* --- filling --- */

static void
show_style (PrPanel *side, const PrJob *job)
{
  const GPtrArray *styles = pr_document_styles (side->doc);
  const PrStyle *style = NULL;
  guint at = styles->len;
  g_autofree char *words = NULL;

  for (guint i = 0; i < styles->len; i++)
    if (g_str_equal (((PrStyle *) g_ptr_array_index (styles, i))->id, job->plan.style)) {
      style = g_ptr_array_index (styles, i);
      at = i;
    }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (side->style), at);
  if (style)
    words = g_strjoin (style->caution && *style->caution ? " " : "", style->purpose ? style->purpose : "",
                       style->caution, NULL);
  gtk_label_set_text (GTK_LABEL (side->purpose), words ? words : "");
  gtk_widget_set_visible (side->purpose, words && *words);
}

/* What would mend the findings about the iron, as buttons. */
static void
show_offers (PrPanel *side, const PrJob *job)
{
  clear_box (side->offers);
  for (guint i = 0; job->findings && i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);

    if (finding->group == PR_GROUP_IRON && finding->offer && finding->state != PR_FITS)
      gtk_box_append (GTK_BOX (side->offers), pr_offer_button_new (side->doc, finding));
  }
}

static void
set_result (PrPanel *side, int part, char *result)
{
  pr_fold_set_result (PR_FOLD (side->part[part]), result);
  g_free (result);
}

static void
show_results (PrPanel *side, const PrJob *job, guint what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE)) {
    set_result (side, TRACING, pr_facts_tracing (job));
    set_result (side, HOOF, pr_facts_hoof (job));
    show_facts (side->facts[TRACING], pr_facts_tracing_list (job));
    show_facts (side->facts[HOOF], pr_facts_hoof_list (job));
    gtk_label_set_text (GTK_LABEL (side->why),
                        job->tracing && job->tracing->scale.why ? job->tracing->scale.why : "");
    gtk_drop_down_set_selected (GTK_DROP_DOWN (side->foot), (guint) job->foot);
  }
  set_result (side, SHOE, pr_facts_shoe (job, pr_document_styles (side->doc)));
  set_result (side, NAILING, pr_facts_nailing (job));
  set_result (side, IRON, pr_facts_iron (job));
}

/* --- building --- */

static void
build_tracing (PrPanel *side)
{
  PrFold *part = PR_FOLD (side->part[TRACING]);

  side->why = caption ("", "soft");
  pr_fold_add (part, side->why);
  add_facts (side, TRACING);
  pr_fold_add (part, foot_choice (side));
  pr_fold_add (part, pr_tracing_part_new (side->doc));
  pr_fold_add (part, button (_ ("Open another photo…"), "win.open"));
}

static void
build_hoof (PrPanel *side)
{
  PrFold *part = PR_FOLD (side->part[HOOF]);
  GtkWidget *marks = gtk_check_button_new_with_label (_ ("Move toe and buttress marks"));

  add_facts (side, HOOF);
  pr_fold_add (part, pr_wall_row_new (side->doc));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (marks), "win.marks");
  pr_fold_add (part, marks);
  pr_fold_add (part, button (_ ("Find the marks again"), "win.find-marks"));
}

static GtkWidget *
more_of_the_shoe (PrPanel *side)
{
  GtkWidget *more = gtk_expander_new (_ ("More: heels, toe, bar, own style"));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  for (size_t i = 0; i < G_N_ELEMENTS (more_rows); i++)
    gtk_box_append (GTK_BOX (box), row_widget (side, &more_rows[i]));
  gtk_box_append (GTK_BOX (box), keep_style_button (side));
  gtk_expander_set_child (GTK_EXPANDER (more), box);
  return more;
}

static void
build_shoe (PrPanel *side)
{
  PrFold *part = PR_FOLD (side->part[SHOE]);

  pr_fold_add (part, style_choice (side));
  side->trouble = caption ("", "trouble");
  gtk_widget_set_visible (side->trouble, FALSE);
  side->purpose = caption ("", "soft");
  pr_fold_add (part, side->trouble);
  pr_fold_add (part, side->purpose);
  pr_fold_add (part, caption (_ ("Where two stand together: medial, lateral"), "hint"));
  add_rows (side, SHOE, shoe_rows, G_N_ELEMENTS (shoe_rows));
  pr_fold_add (part, edge_locks (side));
  pr_fold_add (part, button (_ ("Fit anew"), "win.fit-shoe"));
  pr_fold_add (part, more_of_the_shoe (side));
}

static void
build_nailing (PrPanel *side)
{
  pr_fold_add (PR_FOLD (side->part[NAILING]),
               /* xgettext:no-c-format */
               caption (_ ("Where two stand together: medial, lateral. Places: 0 % is the toe, "
                           "100 % the buttress."),
                        "hint"));
  add_rows (side, NAILING, nailing_rows, G_N_ELEMENTS (nailing_rows));
}

static void
build_iron (PrPanel *side)
{
  pr_fold_add (PR_FOLD (side->part[IRON]), pr_param_row_new_section (side->doc, _ ("Bar section")));
  add_rows (side, IRON, iron_rows, G_N_ELEMENTS (iron_rows));
  add_facts (side, IRON);
  side->offers = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  pr_fold_add (PR_FOLD (side->part[IRON]), side->offers);
  pr_fold_add (PR_FOLD (side->part[IRON]), pr_rack_list_new (side->doc));
}

static void
build_order (PrPanel *side)
{
  pr_fold_add (PR_FOLD (side->part[ORDER]),
               caption (_ ("A step a line; reword it as you work. It goes onto the card."), "hint"));
  pr_fold_add (PR_FOLD (side->part[ORDER]), pr_order_view_new (side->doc));
}

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
part_opened (PrPanel *side, GtkWidget *part)
{
  for (int i = 0; i < N_PARTS; i++)
    if (side->part[i] != part)
      pr_fold_set_open (PR_FOLD (side->part[i]), false);
  gtk_widget_add_tick_callback (part, bring_into_sight, g_new0 (gint64, 1), g_free);
}

/* Only once there is a foot: an empty book has nothing to show here, and the first frame no need of it. */
static void
build (PrPanel *side)
{
  const char *const titles[N_PARTS]
      = { _ ("Tracing"), _ ("Hoof"), _ ("Shoe"), _ ("Nailing"), _ ("Iron"), _ ("Order of work") };

  for (int i = 0; i < N_PARTS; i++) {
    side->part[i] = pr_fold_new (titles[i]);
    g_signal_connect_swapped (side->part[i], "opened", G_CALLBACK (part_opened), side);
    gtk_box_append (GTK_BOX (side), side->part[i]);
  }
  build_tracing (side);
  build_hoof (side);
  build_shoe (side);
  build_nailing (side);
  build_iron (side);
  build_order (side);
  pr_fold_set_open (PR_FOLD (side->part[SHOE]), true);
}

/* While a handle moves only the header lines follow; lists and drop-downs wait for its end. */
static void
document_changed (PrPanel *side, guint what)
{
  const PrJob *job = pr_document_job (side->doc);

  if (job && !side->part[0]) {
    build (side);
    what = PR_CHANGED_ALL;
  }
  if (!job
      || !(what
           & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE | PR_CHANGED_HISTORY
              | PR_CHANGED_STYLES)))
    return;
  side->showing = true;
  if (what & PR_CHANGED_STYLES) {
    g_autoptr (GListModel) names = style_names (side);

    gtk_drop_down_set_model (GTK_DROP_DOWN (side->style), names);
  }
  show_results (side, job, what);
  if (!pr_document_editing (side->doc)) {
    show_style (side, job);
    show_facts (side->facts[IRON], pr_facts_iron_list (job));
    show_offers (side, job);
    set_result (side, ORDER, pr_facts_order (job));
  }
  side->showing = false;
}

void
pr_panel_set_document (PrPanel *side, PrDocument *doc)
{
  g_return_if_fail (!side->doc);
  side->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), side, G_CONNECT_SWAPPED);
  document_changed (side, PR_CHANGED_ALL);
}

static void
pr_panel_dispose (GObject *object)
{
  g_clear_object (&PR_PANEL (object)->doc);
  G_OBJECT_CLASS (pr_panel_parent_class)->dispose (object);
}

static void
pr_panel_init (PrPanel *side)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (side), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (side), 8);
  gtk_widget_add_css_class (GTK_WIDGET (side), "side");
  gtk_widget_set_hexpand (GTK_WIDGET (side), FALSE);
}

static void
pr_panel_class_init (PrPanelClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_panel_dispose;
}
