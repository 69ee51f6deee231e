/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-param-row.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-figure-entry.h"
#include "pr-words.h"

#define PAIR_CHARS 8
#define SINGLE_CHARS 12
#define SECTION_CHARS 14

struct _PrParamRow {
  PrFollower parent_instance;
  GtkWidget *line, *label, *reset, *trouble, *help;
  char **when;             /* parameters one of which must be so for the line to be of use; NULL: always */
  const PrParam *param[2]; /* NULL: not there */
  GtkWidget *editor[2];    /* entry, drop-down or check button */
  GtkWidget *column[2];    /* each with its heading, where there are two */
  GtkWidget *heading[2];
  char **headings;         /* of two figures that are not the branches of one thing */
  gboolean section, usual; /* as the properties */
  bool showing;            /* editors are being filled, not used */
};

enum {
  PROP_LABEL = 1,
  PROP_FIRST,
  PROP_SECOND,
  PROP_SECTION,
  PROP_USUAL,
  PROP_HELP,
  PROP_WHEN,
  PROP_HEADINGS
};

G_DEFINE_FINAL_TYPE (PrParamRow, pr_param_row, PR_TYPE_FOLLOWER)

/* --- values as text --- */

static char *
number_text (double value, const char *unit)
{
  double tenths = round (value * 10) / 10;

  return g_strdup_printf (tenths == round (tenths) ? "%.0f%s" : "%.1f%s", tenths + 0.0, unit);
}

static char *
param_text (const PrParam *param, const PrPlan *plan, PrUnit unit)
{
  double value = pr_param_get (plan, param);

  switch (param->kind) {
  case PR_PARAM_LENGTH:
    return pr_words_length (value, unit);
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
    return number_text (100 * value, " %");
  case PR_PARAM_ANGLE:
    return number_text (value * 180 / G_PI, "");
  default:
    return number_text (value, "");
  }
}

static char *
entry_text (PrParamRow *row, int i)
{
  const PrPlan *plan = &pr_job_of (row)->sources.plan;
  PrUnit unit = pr_document_unit (pr_document_of (row));

  if (row->section)
    return pr_section_as_called (plan->stock_width, plan->stock_thick, unit);
  if (row->param[i]->offset == offsetof (PrPlan, given) && plan->given <= 0)
    return g_strdup ("");
  return param_text (row->param[i], plan, unit);
}

/* --- two figures, each under its heading --- */

static bool
is_branches (PrParamRow *row)
{
  return row->param[1] && g_str_has_suffix (row->param[0]->name, ".medial");
}

/* The line above, which may stand in a box with its lock. */
static PrParamRow *
row_above (PrParamRow *row)
{
  GtkWidget *line = GTK_WIDGET (row), *parent = gtk_widget_get_parent (line);

  if (GTK_IS_BOX (parent)
      && gtk_orientable_get_orientation (GTK_ORIENTABLE (parent)) == GTK_ORIENTATION_HORIZONTAL)
    line = parent;
  do
    line = gtk_widget_get_prev_sibling (line);
  while (line && !gtk_widget_get_visible (line));
  if (line && !PR_IS_PARAM_ROW (line) && GTK_IS_BOX (line))
    line = gtk_widget_get_first_child (line);
  return line && PR_IS_PARAM_ROW (line) ? PR_PARAM_ROW (line) : NULL;
}

/* The branches as they lie on the board; lines of them below each other share one heading. */
static void
show_headings (PrParamRow *row)
{
  PrParamRow *above = row_above (row);
  int left
      = pr_lateral_sign (pr_job_of (row)->sources.foot, pr_document_face (pr_document_of (row))) > 0 ? 0 : 1;

  if (!is_branches (row))
    return;
  gtk_box_reorder_child_after (GTK_BOX (row->line), row->column[left], row->reset);
  gtk_box_reorder_child_after (GTK_BOX (row->line), row->column[!left], row->column[left]);
  for (int i = 0; i < 2; i++)
    gtk_widget_set_visible (row->heading[i], !above || !is_branches (above));
}

/* --- from the job --- */

static void
show_editor (PrParamRow *row, int i)
{
  GtkWidget *editor = row->editor[i];
  double value = pr_param_get (&pr_job_of (row)->sources.plan, row->param[i]);

  if (GTK_IS_DROP_DOWN (editor)) {
    gtk_drop_down_set_selected (GTK_DROP_DOWN (editor), (guint) value);
  } else if (GTK_IS_CHECK_BUTTON (editor)) {
    gtk_check_button_set_active (GTK_CHECK_BUTTON (editor), value != 0);
  } else {
    g_autofree char *text = entry_text (row, i);

    pr_figure_entry_show (PR_FIGURE_ENTRY (editor), text);
  }
}

static void
show_trouble (PrParamRow *row, GtkWidget *editor, const char *sentence)
{
  pr_tell (row->trouble, sentence);
  for (int i = 0; i < 2; i++)
    if (row->editor[i])
      gtk_widget_remove_css_class (row->editor[i], "error");
  if (editor)
    gtk_widget_add_css_class (editor, "error");
}

static void
show (PrParamRow *row)
{
  if (!pr_job_of (row) || !gtk_widget_get_mapped (GTK_WIDGET (row)))
    return;
  row->showing = true;
  for (int i = 0; i < 2; i++)
    if (row->editor[i])
      show_editor (row, i);
  row->showing = false;
  show_trouble (row, NULL, NULL);
}

/* What is smaller than this no editor shows: half of its last digit. */
static double
least_seen (const PrParam *param)
{
  switch (param->kind) {
  case PR_PARAM_LENGTH:
    return 0.05;
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
    return 0.0005;
  case PR_PARAM_ANGLE:
    return 0.05 * G_PI / 180;
  default:
    return 0.5;
  }
}

static bool
differs (PrParamRow *row, const PrPlan *usual)
{
  const PrJob *job = pr_job_of (row);

  for (int i = 0; i < 2; i++) {
    const PrParam *param = row->param[i];

    if (param
        && fabs (pr_param_get (&job->sources.plan, param) - pr_param_get (usual, param)) > least_seen (param))
      return true;
  }
  return false;
}

static const PrParam *
param_named (const char *name)
{
  const PrParam *param = name ? pr_param_find (name) : NULL;

  if (name && !param)
    g_critical ("A line of the panel asks for “%s”, which is no parameter.", name);
  return param;
}

/* "toe": it is not what it is without doing; "bar=heart": it is that. */
static bool
holds (const PrPlan *plan, const char *term)
{
  g_auto (GStrv) part = g_strsplit (term, "=", 2);
  const PrParam *param = param_named (part[0]);
  double value = param ? pr_param_get (plan, param) : 0;

  return part[1] ? param && g_strcmp0 (param->choices[(int) value], part[1]) == 0 : value != 0;
}

static bool
of_use (PrParamRow *row)
{
  for (char **term = row->when; term && *term; term++)
    if (holds (&pr_job_of (row)->sources.plan, *term))
      return true;
  return !row->when;
}

/* Where what is usual is not known yet the button stands as it is, but for another foot's, which goes. */
static void
show_reset (PrParamRow *row, guint what)
{
  const PrPlan *usual = pr_document_known_usual (pr_document_of (row));

  if (usual || what & PR_CHANGED_PLACE)
    gtk_widget_set_visible (row->reset, usual && differs (row, usual));
}

/* While a handle moves no button and no line comes or goes. */
static void
changed (PrFollower *follower, guint what)
{
  PrParamRow *row = PR_PARAM_ROW (follower);

  if (what & (PR_CHANGED_PLAN | PR_CHANGED_UNIT | PR_CHANGED_PLACE))
    show (row);
  if (row->when && pr_job_of (row) && !pr_document_editing (pr_document_of (row)))
    gtk_widget_set_visible (GTK_WIDGET (row), of_use (row));
  if (pr_job_of (row) && !pr_document_editing (pr_document_of (row)))
    show_headings (row);
  if (row->usual && !pr_document_editing (pr_document_of (row))
      && what
             & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_HISTORY | PR_CHANGED_STYLES
                | PR_CHANGED_USUAL))
    show_reset (row, what);
}

/* --- to the job --- */

static void
put_back (PrParamRow *row)
{
  PrDocument *doc = pr_document_of (row);
  g_autoptr (GError) error = NULL;

  if (!pr_document_usual (doc) || pr_document_editing (doc))
    return;
  if (!pr_document_reset (doc, row->param, row->param[1] ? 2 : 1, &error))
    show_trouble (row, NULL, error->message);
}

static void
set_value (PrParamRow *row, gpointer editor, const char *text)
{
  PrDocument *doc = pr_document_of (row);
  const PrParam *param = row->param[editor == row->editor[1]];
  g_autoptr (GError) error = NULL;
  bool ok;

  if (pr_document_editing (doc))
    return;
  ok = row->section ? pr_document_set_section (doc, text, &error)
                    : pr_document_set_text (doc, param->name, *text ? text : "0", &error);
  if (ok)
    show (row);
  else
    show_trouble (row, editor, error->message);
}

static void
entry_taken (GtkEditable *entry, PrParamRow *row)
{
  g_autofree char *now = NULL;

  if (!pr_job_of (row))
    return;
  now = entry_text (row, (gpointer) entry == row->editor[1]);
  if (g_strcmp0 (now, gtk_editable_get_text (entry)) != 0)
    set_value (row, entry, gtk_editable_get_text (entry));
  else
    show_trouble (row, NULL, NULL);
}

static void
choice_made (GtkDropDown *choice, GParamSpec *spec, PrParamRow *row)
{
  const PrParam *param = row->param[(gpointer) choice == row->editor[1]];

  if (!row->showing && pr_job_of (row))
    set_value (row, choice, param->choices[gtk_drop_down_get_selected (choice)]);
}

static void
switch_made (GtkCheckButton *button, PrParamRow *row)
{
  if (!row->showing && pr_job_of (row))
    set_value (row, button, gtk_check_button_get_active (button) ? "1" : "0");
}

/* --- building --- */

static const char *
choice_word (const char *code)
{
  static const struct {
    const char *code, *word;
  } words[] = {
    { "branch", N_ ("the branch") },
    { "centre", N_ ("the centre line") },
    { "plain", N_ ("plain") },
    { "rolled", N_ ("rolled") },
    { "squared", N_ ("squared") },
    { "set-back", N_ ("set back") },
    { "none", N_ ("none") },
    { "straight", N_ ("straight") },
    { "egg", N_ ("egg") },
    { "heart", N_ ("heart") },
    { "steel", N_ ("steel") },
    { "aluminium", N_ ("aluminium") },
    { "place", N_ ("a place") },
    { "toe", N_ ("the toe") },
    { "extension", N_ ("the extension") },
    { "first-nail", N_ ("the first nail") },
    { "last-nail", N_ ("the last nail") },
    { "heel", N_ ("the heel") },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i].code, code))
      return _ (words[i].word);
  return code;
}

static GtkWidget *
choice_new (PrParamRow *row, const PrParam *param)
{
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  g_auto (GStrv) list = NULL;
  GtkWidget *choice;

  for (int i = 0; param->choices[i]; i++)
    g_strv_builder_add (words, choice_word (param->choices[i]));
  list = g_strv_builder_end (words);
  choice = gtk_drop_down_new_from_strings ((const char *const *) list);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (choice_made), row);
  return choice;
}

static GtkWidget *
entry_new (PrParamRow *row)
{
  int chars = row->section ? SECTION_CHARS : row->param[1] ? PAIR_CHARS : SINGLE_CHARS;
  GtkWidget *entry
      = g_object_new (PR_TYPE_FIGURE_ENTRY, "width-chars", chars, "max-width-chars", chars, NULL);

  g_signal_connect (entry, "taken", G_CALLBACK (entry_taken), row);
  g_signal_connect_swapped (entry, "dropped", G_CALLBACK (show), row);
  return entry;
}

static GtkWidget *
editor_new (PrParamRow *row, const PrParam *param)
{
  GtkWidget *check;

  if (param->kind == PR_PARAM_CHOICE)
    return choice_new (row, param);
  if (param->kind != PR_PARAM_SWITCH && !(param->kind == PR_PARAM_COUNT && param->max <= 1))
    return entry_new (row);
  check = gtk_check_button_new ();
  g_signal_connect (check, "toggled", G_CALLBACK (switch_made), row);
  return check;
}

static const char *
heading_of (PrParamRow *row, int i)
{
  if (is_branches (row))
    return i == 0 ? _ ("medial") : _ ("lateral");
  return row->headings && row->headings[0] ? row->headings[i] : NULL;
}

static void
add_column (PrParamRow *row, int i)
{
  const char *words = row->param[1] ? heading_of (row, i) : NULL;

  row->column[i] = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_valign (row->column[i], GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (row->line), row->column[i]);
  if (!words)
    return;
  row->heading[i] = g_object_new (GTK_TYPE_LABEL, "label", words, "xalign", 0.0, "ellipsize",
                                  PANGO_ELLIPSIZE_END, "max-width-chars", PAIR_CHARS, NULL);
  gtk_widget_add_css_class (row->heading[i], "hint");
  gtk_box_append (GTK_BOX (row->column[i]), row->heading[i]);
}

static void
add_editor (PrParamRow *row, int i)
{
  g_autofree char *spoken = row->section ? g_strdup (gtk_label_get_text (GTK_LABEL (row->label)))
                                         : pr_param_label (row->param[i]);

  row->editor[i] = editor_new (row, row->param[i]);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->editor[i]), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_valign (row->editor[i], GTK_ALIGN_CENTER);
  add_column (row, i);
  gtk_box_append (GTK_BOX (row->column[i]), row->editor[i]);
}

static void
pr_param_row_constructed (GObject *object)
{
  PrParamRow *row = PR_PARAM_ROW (object);
  g_autofree char *spoken = g_strdup_printf (_ ("Put back: %s"), gtk_label_get_text (GTK_LABEL (row->label)));

  G_OBJECT_CLASS (pr_param_row_parent_class)->constructed (object);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->reset), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  for (int i = 0; i < (row->section ? 1 : 2); i++)
    if (row->param[i])
      add_editor (row, i);
}

static void
pr_param_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  PrParamRow *row = PR_PARAM_ROW (object);

  if (id == PROP_LABEL)
    gtk_label_set_text (GTK_LABEL (row->label), g_value_get_string (value));
  else if (id == PROP_SECTION)
    row->section = g_value_get_boolean (value);
  else if (id == PROP_USUAL)
    row->usual = g_value_get_boolean (value);
  else if (id == PROP_HELP)
    pr_tell (row->help, g_value_get_string (value));
  else if (id == PROP_HEADINGS)
    row->headings = g_value_get_string (value) ? g_strsplit (g_value_get_string (value), "|", 2) : NULL;
  else if (id == PROP_WHEN)
    row->when = g_value_get_string (value) ? g_strsplit (g_value_get_string (value), "|", -1) : NULL;
  else
    row->param[id - PROP_FIRST] = param_named (g_value_get_string (value));
}

static void
pr_param_row_finalize (GObject *object)
{
  g_strfreev (PR_PARAM_ROW (object)->when);
  g_strfreev (PR_PARAM_ROW (object)->headings);
  G_OBJECT_CLASS (pr_param_row_parent_class)->finalize (object);
}

static void
pr_param_row_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_param_row_parent_class)->map (widget);
  show (PR_PARAM_ROW (widget));
}

static void
pr_param_row_init (PrParamRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
install_properties (GObjectClass *class)
{
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS;

  g_object_class_install_property (class, PROP_LABEL, g_param_spec_string ("label", NULL, NULL, "", flags));
  g_object_class_install_property (class, PROP_FIRST, g_param_spec_string ("first", NULL, NULL, NULL, flags));
  g_object_class_install_property (class, PROP_SECOND,
                                   g_param_spec_string ("second", NULL, NULL, NULL, flags));
  g_object_class_install_property (class, PROP_SECTION,
                                   g_param_spec_boolean ("section", NULL, NULL, FALSE, flags));
  g_object_class_install_property (class, PROP_USUAL,
                                   g_param_spec_boolean ("usual", NULL, NULL, TRUE, flags));
  g_object_class_install_property (class, PROP_HELP, g_param_spec_string ("help", NULL, NULL, NULL, flags));
  g_object_class_install_property (class, PROP_WHEN, g_param_spec_string ("when", NULL, NULL, NULL, flags));
  g_object_class_install_property (class, PROP_HEADINGS,
                                   g_param_spec_string ("headings", NULL, NULL, NULL, flags));
}

static void
pr_param_row_class_init (PrParamRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->set_property = pr_param_row_set_property;
  G_OBJECT_CLASS (class)->constructed = pr_param_row_constructed;
  G_OBJECT_CLASS (class)->finalize = pr_param_row_finalize;
  widget_class->map = pr_param_row_map;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  install_properties (G_OBJECT_CLASS (class));
  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "param-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, put_back);
  gtk_widget_class_bind_template_child (widget_class, PrParamRow, line);
  gtk_widget_class_bind_template_child (widget_class, PrParamRow, label);
  gtk_widget_class_bind_template_child (widget_class, PrParamRow, reset);
  gtk_widget_class_bind_template_child (widget_class, PrParamRow, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrParamRow, help);
}
