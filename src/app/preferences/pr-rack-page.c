/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack-page.h"

#include <glib/gi18n-lib.h>
#include "pr-bar-row.h"
#include "pr-plan.h"

struct _PrRackPage {
  PrFollower parent_instance;
  GArray *rack;      /* PrRackBar */
  PrRackBar dropped; /* what was taken off last */
  GtkWidget *rows, *trouble, *back;
  GtkEditable *section, *length;
  GtkDropDown *material;
};

G_DEFINE_FINAL_TYPE (PrRackPage, pr_rack_page, PR_TYPE_FOLLOWER)

/* SENTENCE (may be NULL) is told, with a way back where a bar has gone. */
static void
show (PrRackPage *page, const char *sentence, bool gone)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  PrUnit unit = pr_document_unit (pr_document_of (page));

  g_clear_pointer (&page->rack, g_array_unref);
  page->rack = pr_rack_load (problems);
  pr_empty (page->rows);
  for (guint i = page->rack->len; i-- > 0;) /* what was put on last is in sight */
    gtk_box_append (GTK_BOX (page->rows),
                    pr_bar_row_new (&g_array_index (page->rack, PrRackBar, i), i, unit));
  pr_tell (page->trouble, sentence ? sentence : problems->len > 0 ? problems->pdata[0] : NULL);
  gtk_widget_set_visible (page->back, gone);
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & PR_CHANGED_UNIT)
    show (PR_RACK_PAGE (follower), NULL, false);
}

static void
keep (PrRackPage *page)
{
  g_autofree char *section = g_strstrip (g_strdup (gtk_editable_get_text (page->section)));
  g_autofree char *length = g_strstrip (g_strdup (gtk_editable_get_text (page->length)));
  PrMaterial material
      = gtk_drop_down_get_selected (page->material) == 1 ? PR_MATERIAL_ALUMINIUM : PR_MATERIAL_STEEL;
  g_autoptr (GError) error = NULL;

  if (!*section)
    return;
  if (pr_rack_keep (section, length, material, pr_document_unit (pr_document_of (page)), &error)) {
    gtk_editable_set_text (page->section, "");
    gtk_editable_set_text (page->length, "");
  }
  show (page, error ? error->message : NULL, false);
}

/* The action "rack.drop". */
static void
drop (GtkWidget *widget, const char *name, GVariant *nth)
{
  PrRackPage *page = PR_RACK_PAGE (widget);
  g_autoptr (GError) error = NULL;

  if (g_variant_get_uint32 (nth) >= page->rack->len)
    return;
  page->dropped = g_array_index (page->rack, PrRackBar, g_variant_get_uint32 (nth));
  bool done = pr_rack_drop (&page->dropped, &error);
  g_autofree char *said = g_strdup_printf (_ ("“%s” is off the rack."), page->dropped.name);
  show (page, done ? said : error->message, done);
}

static void
put_back (PrRackPage *page)
{
  g_autoptr (GError) error = NULL;

  pr_rack_put_back (&page->dropped, &error);
  show (page, error ? error->message : NULL, false);
}

static void
pr_rack_page_dispose (GObject *object)
{
  g_clear_pointer (&PR_RACK_PAGE (object)->rack, g_array_unref);
  G_OBJECT_CLASS (pr_rack_page_parent_class)->dispose (object);
}

static void
pr_rack_page_init (PrRackPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrRackPage, name)

static void
pr_rack_page_class_init (PrRackPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_rack_page_dispose;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_install_action (widget_class, "rack.drop", "u", drop);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "rack-page.ui");
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, put_back);
  BIND (rows);
  BIND (trouble);
  BIND (back);
  BIND (section);
  BIND (length);
  BIND (material);
}
