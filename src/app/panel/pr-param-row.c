/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-param-row.h"

#include <glib/gi18n-lib.h>
#include "pr-reset-button.h"
#include "pr-words.h"

#define PAIR_CHARS 8
#define SINGLE_CHARS 12

struct _PrParamRow {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *line, *trouble;
  const PrParam *param[2]; /* NULL: not there */
  GtkWidget *editor[2];    /* entry, drop-down or check button */
  bool section;            /* both parameters in one entry, as a bar's section */
  bool showing;            /* editors are being filled, not typed in */
};

G_DEFINE_FINAL_TYPE (PrParamRow, pr_param_row, GTK_TYPE_BOX)

static const PrParam *
param_at (gssize offset)
{
  for (size_t i = 0; offset >= 0 && i < pr_n_params; i++)
    if (pr_params[i].offset == (size_t) offset)
      return &pr_params[i];
  return NULL;
}

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
section_text (const PrParamRow *row, const PrPlan *plan, PrUnit unit)
{
  g_autofree char *width = pr_words_number (pr_param_get (plan, row->param[0]), unit);
  g_autofree char *thick = pr_words_length (pr_param_get (plan, row->param[1]), unit);

  return g_strdup_printf ("%s × %s", width, thick);
}

static char *
editor_text (PrParamRow *row, int i)
{
  const PrJob *job = pr_document_job (row->doc);
  PrUnit unit = pr_document_unit (row->doc);

  if (row->section)
    return section_text (row, &job->plan, unit);
  if (row->param[i]->offset == offsetof (PrPlan, given) && job->plan.given <= 0)
    return g_strdup ("");
  return param_text (row->param[i], &job->plan, unit);
}

/* --- from the job --- */

static void
show_editor (PrParamRow *row, int i)
{
  const PrJob *job = pr_document_job (row->doc);
  GtkWidget *editor = row->editor[i];
  double value = pr_param_get (&job->plan, row->param[i]);

  if (GTK_IS_DROP_DOWN (editor)) {
    gtk_drop_down_set_selected (GTK_DROP_DOWN (editor), (guint) value);
  } else if (GTK_IS_CHECK_BUTTON (editor)) {
    gtk_check_button_set_active (GTK_CHECK_BUTTON (editor), value != 0);
  } else {
    g_autofree char *text = editor_text (row, i);

    if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (editor)), text) != 0)
      gtk_editable_set_text (GTK_EDITABLE (editor), text);
  }
}

static void
show_trouble (PrParamRow *row, GtkWidget *editor, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (row->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (row->trouble, sentence != NULL);
  for (int i = 0; i < 2; i++)
    if (row->editor[i])
      gtk_widget_remove_css_class (row->editor[i], "error");
  if (sentence && editor)
    gtk_widget_add_css_class (editor, "error");
}

static void
show (PrParamRow *row)
{
  if (!pr_document_job (row->doc) || !gtk_widget_get_mapped (GTK_WIDGET (row)))
    return;
  row->showing = true;
  for (int i = 0; i < 2; i++)
    if (row->editor[i])
      show_editor (row, i);
  row->showing = false;
  show_trouble (row, NULL, NULL);
}

static void
document_changed (PrParamRow *row, guint what)
{
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_UNIT | PR_CHANGED_PLACE))
    show (row);
}

/* --- to the job --- */

static void
set_value (PrParamRow *row, int i, const char *text)
{
  g_autoptr (GError) error = NULL;
  bool ok;

  if (pr_document_editing (row->doc))
    return;
  if (row->section)
    ok = pr_document_set_section (row->doc, text, &error);
  else
    ok = pr_document_set_text (row->doc, row->param[i]->name, *text ? text : "0", &error);
  if (ok)
    show (row);
  else
    show_trouble (row, row->editor[i], error->message);
}

static int
editor_index (PrParamRow *row, gpointer editor)
{
  return editor == row->editor[1] ? 1 : 0;
}

static void
take_entry (PrParamRow *row, GtkWidget *entry)
{
  int i = editor_index (row, entry);
  g_autofree char *now = NULL;

  if (!pr_document_job (row->doc))
    return;
  now = editor_text (row, i);
  if (g_strcmp0 (now, gtk_editable_get_text (GTK_EDITABLE (entry))) != 0)
    set_value (row, i, gtk_editable_get_text (GTK_EDITABLE (entry)));
  else
    show_trouble (row, NULL, NULL);
}

static void
entry_activated (GtkWidget *entry, PrParamRow *row)
{
  take_entry (row, entry);
}

static void
entry_left (GtkEventControllerFocus *focus, PrParamRow *row)
{
  take_entry (row, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus)));
}

static gboolean
entry_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrParamRow *row)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  show (row);
  return TRUE;
}

static void
choice_made (GtkDropDown *choice, GParamSpec *spec, PrParamRow *row)
{
  int i = editor_index (row, choice);

  if (!row->showing && pr_document_job (row->doc))
    set_value (row, i, row->param[i]->choices[gtk_drop_down_get_selected (choice)]);
}

static void
switch_made (GtkCheckButton *button, PrParamRow *row)
{
  if (!row->showing && pr_document_job (row->doc))
    set_value (row, editor_index (row, button), gtk_check_button_get_active (button) ? "1" : "0");
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
  GtkStringList *words = gtk_string_list_new (NULL);
  GtkWidget *choice;

  for (int i = 0; param->choices[i]; i++)
    gtk_string_list_append (words, choice_word (param->choices[i]));
  choice = gtk_drop_down_new (G_LIST_MODEL (words), NULL);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (choice_made), row);
  return choice;
}

static GtkWidget *
entry_new (PrParamRow *row, int chars)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *key = gtk_event_controller_key_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), chars);
  g_signal_connect (entry, "activate", G_CALLBACK (entry_activated), row);
  g_signal_connect (focus, "leave", G_CALLBACK (entry_left), row);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect (key, "key-pressed", G_CALLBACK (entry_key), row);
  gtk_widget_add_controller (entry, key);
  return entry;
}

static GtkWidget *
editor_new (PrParamRow *row, const PrParam *param, int chars)
{
  GtkWidget *check;

  if (param->kind == PR_PARAM_CHOICE)
    return choice_new (row, param);
  if (param->kind != PR_PARAM_SWITCH && !(param->kind == PR_PARAM_COUNT && param->max <= 1))
    return entry_new (row, chars);
  check = gtk_check_button_new ();
  g_signal_connect (check, "toggled", G_CALLBACK (switch_made), row);
  return check;
}

static void
add_editor (PrParamRow *row, int i, int chars, const char *label)
{
  const PrParam *param = row->param[i];
  g_autofree char *spoken = row->section ? g_strdup (label) : pr_param_label (param);

  row->editor[i] = row->section ? entry_new (row, chars) : editor_new (row, param, chars);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->editor[i]), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_valign (row->editor[i], GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row->line), row->editor[i]);
}

static GtkWidget *
row_new (PrDocument *doc, const char *label)
{
  PrParamRow *row = g_object_new (PR_TYPE_PARAM_ROW, NULL);
  GtkWidget *words = gtk_label_new (label);

  row->doc = g_object_ref (doc);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (row->line), words);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), row, G_CONNECT_SWAPPED);
  return GTK_WIDGET (row);
}

GtkWidget *
pr_param_row_new (PrDocument *doc, const char *label, gssize first, gssize second)
{
  GtkWidget *widget = row_new (doc, label);
  PrParamRow *row = PR_PARAM_ROW (widget);
  const gssize at[2] = { first, second };

  for (int i = 0; i < 2; i++) {
    row->param[i] = param_at (at[i]);
    if (row->param[i])
      add_editor (row, i, second >= 0 ? PAIR_CHARS : SINGLE_CHARS, label);
  }
  if (row->param[0]
      && first != (gssize) offsetof (PrPlan, given)) /* a bar in hand is not a matter of what is usual */
    gtk_box_insert_child_after (GTK_BOX (row->line),
                                pr_reset_button_new (doc, label, row->param[0], row->param[1]),
                                gtk_widget_get_first_child (row->line));
  return widget;
}

GtkWidget *
pr_param_row_new_section (PrDocument *doc, const char *label)
{
  GtkWidget *widget = row_new (doc, label);
  PrParamRow *row = PR_PARAM_ROW (widget);

  row->section = true;
  row->param[0] = param_at (offsetof (PrPlan, stock_width));
  row->param[1] = param_at (offsetof (PrPlan, stock_thick));
  add_editor (row, 0, SINGLE_CHARS + 2, label);
  return widget;
}

static void
pr_param_row_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_param_row_parent_class)->map (widget);
  show (PR_PARAM_ROW (widget));
}

static void
pr_param_row_dispose (GObject *object)
{
  g_clear_object (&PR_PARAM_ROW (object)->doc);
  G_OBJECT_CLASS (pr_param_row_parent_class)->dispose (object);
}

static void
pr_param_row_init (PrParamRow *row)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (row), GTK_ORIENTATION_VERTICAL);
  row->line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  row->trouble = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (row->trouble), TRUE);
  gtk_label_set_xalign (GTK_LABEL (row->trouble), 0);
  gtk_widget_add_css_class (row->trouble, "trouble");
  gtk_widget_set_visible (row->trouble, FALSE);
  gtk_box_append (GTK_BOX (row), row->line);
  gtk_box_append (GTK_BOX (row), row->trouble);
}

static void
pr_param_row_class_init (PrParamRowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_param_row_dispose;
  GTK_WIDGET_CLASS (class)->map = pr_param_row_map;
}
