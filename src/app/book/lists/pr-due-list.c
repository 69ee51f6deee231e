/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-due-list.h"

#include "pr-document-diary.h"

struct _PrDueList {
  GObject parent_instance;
  GPtrArray *due; /* of PrBookDue */
  char *today;
};

static GType
list_item_type (GListModel *model)
{
  return GTK_TYPE_STRING_OBJECT;
}

static guint
list_n_items (GListModel *model)
{
  return PR_DUE_LIST (model)->due->len;
}

/* "was due 1 November 2026 · Bramble · Mill yard". Transfer full. */
static char *
row_words (const PrBookDue *due, const char *today)
{
  g_autofree char *when = pr_due_words (due->due, today, NULL);

  return *due->horse.yard ? g_strdup_printf ("%s · %s · %s", when, due->horse.name, due->horse.yard)
                          : g_strdup_printf ("%s · %s", when, due->horse.name);
}

static gpointer
list_item (GListModel *model, guint position)
{
  PrDueList *list = PR_DUE_LIST (model);
  const PrBookDue *due = pr_due_list_at (list, position);
  g_autofree char *words = due ? row_words (due, list->today) : NULL;

  return words ? gtk_string_object_new (words) : NULL;
}

static void
list_interface (GListModelInterface *interface)
{
  interface->get_item_type = list_item_type;
  interface->get_n_items = list_n_items;
  interface->get_item = list_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (PrDueList, pr_due_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_interface))

const PrBookDue *
pr_due_list_at (PrDueList *list, guint position)
{
  return position < list->due->len ? g_ptr_array_index (list->due, position) : NULL;
}

void
pr_due_list_take (PrDueList *list, GPtrArray *due, const char *today)
{
  guint before = list->due->len;

  g_ptr_array_unref (list->due);
  g_free (list->today);
  list->due = due ? due : g_ptr_array_new ();
  list->today = g_strdup (today);
  g_list_model_items_changed (G_LIST_MODEL (list), 0, before, list->due->len);
}

static void
pr_due_list_finalize (GObject *object)
{
  g_ptr_array_unref (PR_DUE_LIST (object)->due);
  g_free (PR_DUE_LIST (object)->today);
  G_OBJECT_CLASS (pr_due_list_parent_class)->finalize (object);
}

static void
pr_due_list_init (PrDueList *list)
{
  list->due = g_ptr_array_new ();
}

static void
pr_due_list_class_init (PrDueListClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_due_list_finalize;
}
