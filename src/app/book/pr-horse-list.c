/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-horse-list.h"

#define FIRST_LOOK 12 /* rows: more than are in sight */

struct _PrHorseList {
  GObject parent_instance;
  GPtrArray *horses; /* of PrBookHorse */
  guint most;
  PrBookId chosen;
};

static GType
list_item_type (GListModel *model)
{
  return GTK_TYPE_STRING_OBJECT;
}

static guint
list_n_items (GListModel *model)
{
  PrHorseList *list = PR_HORSE_LIST (model);

  return MIN (list->horses->len, list->most);
}

static gpointer
list_item (GListModel *model, guint position)
{
  const PrBookHorse *horse = pr_horse_list_at (PR_HORSE_LIST (model), position);

  return horse ? gtk_string_object_new (horse->name) : NULL;
}

static void
list_interface (GListModelInterface *interface)
{
  interface->get_item_type = list_item_type;
  interface->get_n_items = list_n_items;
  interface->get_item = list_item;
}

static gboolean
is_selected (GtkSelectionModel *model, guint position)
{
  const PrBookHorse *horse = pr_horse_list_at (PR_HORSE_LIST (model), position);

  return horse && horse->id == PR_HORSE_LIST (model)->chosen;
}

static GtkBitset *
selection_in_range (GtkSelectionModel *model, guint position, guint n)
{
  GtkBitset *set = gtk_bitset_new_empty ();
  guint chosen;

  if (pr_horse_list_chosen (PR_HORSE_LIST (model), &chosen))
    gtk_bitset_add (set, chosen);
  return set;
}

static void
selection_interface (GtkSelectionModelInterface *interface)
{
  interface->is_selected = is_selected;
  interface->get_selection_in_range = selection_in_range;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (PrHorseList, pr_horse_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_interface)
                                   G_IMPLEMENT_INTERFACE (GTK_TYPE_SELECTION_MODEL, selection_interface))

const PrBookHorse *
pr_horse_list_at (PrHorseList *list, guint position)
{
  return position < list_n_items (G_LIST_MODEL (list)) ? g_ptr_array_index (list->horses, position) : NULL;
}

bool
pr_horse_list_is_empty (PrHorseList *list)
{
  return list->horses->len == 0;
}

bool
pr_horse_list_chosen (PrHorseList *list, guint *position)
{
  guint n = list_n_items (G_LIST_MODEL (list));

  for (*position = 0; *position < n; (*position)++)
    if (is_selected (GTK_SELECTION_MODEL (list), *position))
      return true;
  return false;
}

static bool
are_listed (const GPtrArray *a, const GPtrArray *b)
{
  for (guint i = 0; a->len == b->len && i < a->len; i++) {
    const PrBookHorse *one = g_ptr_array_index (a, i), *other = g_ptr_array_index (b, i);

    if (one->id != other->id || !g_str_equal (one->name, other->name))
      return false;
  }
  return a->len == b->len;
}

bool
pr_horse_list_take (PrHorseList *list, GPtrArray *horses)
{
  guint before = list_n_items (G_LIST_MODEL (list));

  if (!horses)
    horses = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_horse_free);
  if (are_listed (list->horses, horses)) { /* who has the keyboard keeps it, and nothing is scrolled */
    g_ptr_array_unref (horses);
    return false;
  }
  g_ptr_array_unref (list->horses);
  list->horses = horses;
  g_list_model_items_changed (G_LIST_MODEL (list), 0, before, list_n_items (G_LIST_MODEL (list)));
  return true;
}

bool
pr_horse_list_choose (PrHorseList *list, PrBookId horse)
{
  guint n = list_n_items (G_LIST_MODEL (list));

  if (list->chosen == horse)
    return false;
  list->chosen = horse;
  if (n > 0)
    gtk_selection_model_selection_changed (GTK_SELECTION_MODEL (list), 0, n);
  return true;
}

void
pr_horse_list_show_all (PrHorseList *list)
{
  guint before = list_n_items (G_LIST_MODEL (list)), now;

  list->most = G_MAXUINT;
  now = list_n_items (G_LIST_MODEL (list));
  if (now > before)
    g_list_model_items_changed (G_LIST_MODEL (list), before, 0, now - before);
}

static void
pr_horse_list_finalize (GObject *object)
{
  g_ptr_array_unref (PR_HORSE_LIST (object)->horses);
  G_OBJECT_CLASS (pr_horse_list_parent_class)->finalize (object);
}

static void
pr_horse_list_init (PrHorseList *list)
{
  list->most = FIRST_LOOK;
  list->horses = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_horse_free);
}

static void
pr_horse_list_class_init (PrHorseListClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_horse_list_finalize;
}

PrHorseList *
pr_horse_list_new (void)
{
  return g_object_new (PR_TYPE_HORSE_LIST, NULL);
}
