/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-style-choice.h"

#include <glib/gi18n-lib.h>
#include "pr-names.h"
#include "pr-style-gallery.h"

struct _PrStyleChoice {
  PrFollower parent_instance;
  GtkDropDown *style;
  GtkWidget *trouble, *purpose;
  bool showing; /* the choice is being filled, not made */
};

G_DEFINE_FINAL_TYPE (PrStyleChoice, pr_style_choice, PR_TYPE_FOLLOWER)

static void
list_styles (PrStyleChoice *choice, const GPtrArray *styles)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < styles->len; i++)
    gtk_string_list_append (names, ((PrStyle *) g_ptr_array_index (styles, i))->name);
  gtk_string_list_append (names, _ ("own shape"));
  gtk_drop_down_set_model (choice->style, G_LIST_MODEL (names));
}

static void
show (PrStyleChoice *choice)
{
  const GPtrArray *styles = pr_document_styles (pr_document_of (choice));
  const PrStyle *style = pr_styles_find (styles, pr_job_of (choice)->sources.plan.style);
  guint at = styles->len; /* a shape of one's own */
  g_autofree char *words = NULL;

  if (style) {
    g_ptr_array_find ((GPtrArray *) styles, style, &at);
    words = g_strjoin (style->caution && *style->caution ? " " : "", style->purpose ? style->purpose : "",
                       style->caution, NULL);
  }
  choice->showing = true;
  gtk_drop_down_set_selected (choice->style, at);
  choice->showing = false;
  pr_tell (choice->purpose, words);
  pr_tell (choice->trouble, NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  PrStyleChoice *choice = PR_STYLE_CHOICE (follower);
  PrDocument *doc = pr_document_of (choice);

  choice->showing = true;
  if (what & PR_CHANGED_STYLES)
    list_styles (choice, pr_document_styles (doc));
  choice->showing = false;
  if (pr_job_of (choice) && !pr_document_editing (doc)
      && what
             & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_HISTORY
                | PR_CHANGED_STYLES))
    show (choice);
}

static void
chosen (PrStyleChoice *choice)
{
  PrDocument *doc = pr_document_of (choice);
  guint i = gtk_drop_down_get_selected (choice->style);
  g_autoptr (GError) error = NULL;

  if (choice->showing || !pr_job_of (choice))
    return;
  if (i >= pr_document_styles (doc)->len) { /* that is no style to choose: it is what hands make of one */
    show (choice);
    return;
  }
  if (!pr_document_set_style (doc, g_ptr_array_index (pr_document_styles (doc), i), &error)) {
    show (choice);
    pr_tell (choice->trouble, error->message);
  }
}

static void
show_pictures (PrStyleChoice *choice)
{
  if (pr_job_of (choice))
    pr_style_gallery_show (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (choice))), pr_document_of (choice));
}

static void
pr_style_choice_init (PrStyleChoice *choice)
{
  gtk_widget_init_template (GTK_WIDGET (choice));
  pr_drop_down_cut (choice->style);
}

static void
pr_style_choice_class_init (PrStyleChoiceClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "style-choice.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, show_pictures);
  gtk_widget_class_bind_template_child (widget_class, PrStyleChoice, style);
  gtk_widget_class_bind_template_child (widget_class, PrStyleChoice, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrStyleChoice, purpose);
}
