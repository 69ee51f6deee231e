/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-horse-list.h"

#define FIRST_LOOK 12 /* rows: more than are in sight */
#define MORE 12       /* rows in a frame */
#define VIEW 240      /* rows a list view makes, and some: beyond them more cost nothing */
#define AT_ONCE 100   /* horses: well below a millisecond */

/* A horse that is listed: what it was when it was. */
typedef struct {
  PrBookId id;
  guint version, place; /* of the roster */
} Row;

struct _PrHorseList {
  GObject parent_instance;
  PrRoster *roster;
  GArray *rows;    /* of Row */
  guint preparing; /* the source that readies the roster for the first letter; 0: none */
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

  return MIN (list->rows->len, list->most);
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

static const Row *
row_at (PrHorseList *list, guint position)
{
  return position < list_n_items (G_LIST_MODEL (list)) ? &g_array_index (list->rows, Row, position) : NULL;
}

static gboolean
is_selected (GtkSelectionModel *model, guint position)
{
  const Row *row = row_at (PR_HORSE_LIST (model), position);

  return row && row->id == PR_HORSE_LIST (model)->chosen;
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
  const Row *row = row_at (list, position);

  return row ? pr_roster_get (list->roster, row->place) : NULL;
}

const PrBookHorse *
pr_horse_list_open (PrHorseList *list)
{
  return pr_roster_horse (list->roster, list->chosen);
}

bool
pr_horse_list_is_empty (PrHorseList *list)
{
  return list->rows->len == 0;
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

/* --- which are listed --- */

static GArray *
rows_of (PrHorseList *list, const char *typed)
{
  g_autoptr (GArray) found = pr_roster_find (list->roster, typed);
  GArray *rows = g_array_sized_new (FALSE, FALSE, sizeof (Row), found->len);

  for (guint i = 0; i < found->len; i++) {
    guint place = g_array_index (found, guint, i);
    const Row row
        = { pr_roster_get (list->roster, place)->id, pr_roster_version (list->roster, place), place };

    g_array_append_val (rows, row);
  }
  return rows;
}

static bool
says_the_same (const GArray *a, guint i, const GArray *b, guint j)
{
  const Row *one = &g_array_index (a, Row, i), *other = &g_array_index (b, Row, j);

  return one->id == other->id && one->version == other->version;
}

/* The number of rows that OLD and NEW begin with alike, and then that they end with. */
static void
alike (const GArray *old, const GArray *new, guint *first, guint *last)
{
  guint least = MIN (old->len, new->len);

  for (*first = 0; *first < least && says_the_same (old, *first, new, *first);)
    ++*first;
  for (*last = 0;
       *first + *last < least && says_the_same (old, old->len - 1 - *last, new, new->len - 1 - *last);)
    ++*last;
}

/* Who has the keyboard on a row that stays keeps it, and nothing is scrolled. FEW: for a first look, if they are others. */
static bool
seek (PrHorseList *list, const char *typed, bool few)
{
  g_autoptr (GArray) old = list->rows;
  guint first, last, before = list_n_items (G_LIST_MODEL (list)), now;
  bool other;

  list->rows = rows_of (list, typed);
  alike (old, list->rows, &first, &last);
  other = first + last < MAX (old->len, list->rows->len);
  if (other && few)
    list->most = FIRST_LOOK;
  now = list_n_items (G_LIST_MODEL (list));
  first = MIN (first, MIN (before, now));
  last = before == old->len && now == list->rows->len ? last : 0;
  if (before - first - last > 0 || now - first - last > 0)
    g_list_model_items_changed (G_LIST_MODEL (list), first, before - first - last, now - first - last);
  return other;
}

bool
pr_horse_list_seek (PrHorseList *list, const char *typed)
{
  return seek (list, typed, true);
}

static gboolean
prepare (gpointer data)
{
  PrHorseList *list = data;

  if (pr_roster_prepare (list->roster, AT_ONCE))
    return G_SOURCE_CONTINUE;
  list->preparing = 0;
  return G_SOURCE_REMOVE;
}

bool
pr_horse_list_read (PrHorseList *list, PrBook *book, const char *typed, GError **error)
{
  bool changed;

  if (!pr_roster_read (list->roster, book, &changed, error))
    return false;
  if (changed && !list->preparing)
    list->preparing = g_idle_add (prepare, list);
  return seek (list, typed, false);
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

bool
pr_horse_list_show_more (PrHorseList *list)
{
  guint before = list_n_items (G_LIST_MODEL (list)), now;

  list->most = before < VIEW && before < list->rows->len ? before + MORE : G_MAXUINT;
  now = list_n_items (G_LIST_MODEL (list));
  if (now > before)
    g_list_model_items_changed (G_LIST_MODEL (list), before, 0, now - before);
  return list->most < G_MAXUINT;
}

static void
pr_horse_list_finalize (GObject *object)
{
  PrHorseList *list = PR_HORSE_LIST (object);

  g_clear_handle_id (&list->preparing, g_source_remove);
  g_array_unref (list->rows);
  pr_roster_free (list->roster);
  G_OBJECT_CLASS (pr_horse_list_parent_class)->finalize (object);
}

static void
pr_horse_list_init (PrHorseList *list)
{
  list->most = FIRST_LOOK;
  list->roster = pr_roster_new ();
  list->rows = g_array_new (FALSE, FALSE, sizeof (Row));
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
