/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-list.h"

#include "pr-visit-row.h"

#define FIRST 4      /* rows: a window of 720 pixels shows three */
#define MORE 4       /* at a time */
#define OUTLINES 400 /* that are remembered of other horses: some 3 MB */

struct _PrVisitList {
  GtkBox parent_instance;
  PrDocument *doc;      /* of the last look */
  PrBookId horse;       /* whose visits these are */
  PrBookId shown;       /* the visit that was brought into sight */
  guint showing;        /* the tick callback that does it; 0: none */
  int frames;           /* it has waited */
  GPtrArray *visits;    /* of PrBookVisit: all of them */
  GHashTable *rows;     /* of PrVisitRow, by what it shows */
  GHashTable *outlines; /* of GArray of PrSheetPt, by "foot changed" */
  GtkAdjustment *down;
  guint growing; /* the source that makes more rows; 0: none */
};

enum { PRESSED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrVisitList, pr_visit_list, GTK_TYPE_BOX)

/* --- outlines --- */

/* The outline kept with a foot, NULL when there is none. */
static GArray *
kept_outline (PrBook *book, PrBookId foot)
{
  g_autofree char *text = pr_book_get_trace (book, foot, NULL);
  g_autoptr (JsonNode) node = text ? json_from_string (text, NULL) : NULL;
  JsonArray *points = NULL;
  GArray *outline;

  if (node && JSON_NODE_HOLDS_OBJECT (node)
      && json_object_has_member (json_node_get_object (node), "outline_mm"))
    points = json_object_get_array_member (json_node_get_object (node), "outline_mm");
  if (!points)
    return NULL;
  outline = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  for (guint i = 0; i < json_array_get_length (points); i++) {
    JsonArray *xy = json_array_get_array_element (points, i);
    PrSheetPt p = { json_array_get_double_element (xy, 0), json_array_get_double_element (xy, 1) };

    g_array_append_val (outline, p);
  }
  return outline;
}

/* The same, read once as long as the foot has not changed. Transfer none. */
static GArray *
outline_of (PrVisitList *list, const PrBookFoot *foot)
{
  g_autofree char *key = g_strdup_printf ("%" G_GINT64_FORMAT " %s", foot->id, foot->changed);
  GArray *outline = g_hash_table_lookup (list->outlines, key);

  if (!outline && (outline = kept_outline (pr_document_book (list->doc), foot->id)))
    g_hash_table_insert (list->outlines, g_steal_pointer (&key), outline);
  return outline;
}

/* --- one visit --- */

static void
pressed (PrFootThumb *thumb, PrVisitList *list)
{
  g_signal_emit (list, signals[PRESSED], 0, thumb);
}

/* FOOT (NULL: a place for one) as thumb N of ROW. */
static void
show_thumb (PrVisitList *list, PrVisitRow *row, int n, PrBookId visit, PrFoot which, const PrBookFoot *foot)
{
  PrFootThumb *thumb = pr_visit_row_thumb (row, n);

  if (!thumb) {
    thumb = pr_foot_thumb_new ();
    g_signal_connect (thumb, "clicked", G_CALLBACK (pressed), list);
    pr_visit_row_add (row, thumb);
  }
  pr_foot_thumb_show (thumb, visit, which, foot ? foot->id : 0, foot ? outline_of (list, foot) : NULL);
}

static const PrBookFoot *
foot_row (const GPtrArray *feet, PrFoot foot)
{
  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);

    if (row->foot == foot)
      return row;
  }
  return NULL;
}

static void
fill_row (PrVisitList *list, PrVisitRow *row, const PrBookVisit *visit, const GPtrArray *feet)
{
  int n = 0;

  pr_visit_row_show (row, visit);
  for (PrFoot foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++)
    show_thumb (list, row, n++, visit->id, foot, foot_row (feet, foot));
  for (guint i = 0; feet && i < feet->len; i++) { /* not told which, or there already in another form */
    const PrBookFoot *one = g_ptr_array_index (feet, i);

    if (one->foot == PR_FOOT_ANY || one != foot_row (feet, one->foot))
      show_thumb (list, row, n++, visit->id, one->foot, one);
  }
  pr_visit_row_cut (row, n);
}

/* All that a row shows, to be told from another. Transfer full. */
static char *
what_it_shows (const PrBookVisit *visit, const GPtrArray *feet)
{
  GString *all = g_string_new (NULL);

  g_string_printf (all, "%" G_GINT64_FORMAT "\n%s\n%d %s", visit->id, visit->date, visit->colour,
                   visit->note);
  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *foot = g_ptr_array_index (feet, i);

    g_string_append_printf (all, "\n%" G_GINT64_FORMAT " %d %s", foot->id, (int) foot->foot, foot->changed);
  }
  return g_string_free (all, FALSE);
}

/* --- all of them --- */

static guint
rows_made (PrVisitList *list)
{
  return g_hash_table_size (list->rows);
}

static GtkWidget *
row_behind (PrVisitList *list, PrVisitRow *row)
{
  return row ? gtk_widget_get_next_sibling (GTK_WIDGET (row))
             : gtk_widget_get_first_child (GTK_WIDGET (list));
}

static PrVisitRow *
new_row (PrVisitList *list, PrVisitRow *after)
{
  PrVisitRow *row = pr_visit_row_new ();

  gtk_box_insert_child_after (GTK_BOX (list), GTK_WIDGET (row), GTK_WIDGET (after));
  return row;
}

/* The row of VISIT behind AFTER (NULL: first), out of OLD where that has it; where OLD is NULL, that which stands there takes it. */
static PrVisitRow *
put_row (PrVisitList *list, const PrBookVisit *visit, GHashTable *old, PrVisitRow *after)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (pr_document_book (list->doc), visit->id, NULL);
  g_autofree char *shows = what_it_shows (visit, feet);
  PrVisitRow *row = old ? g_hash_table_lookup (old, shows) : (PrVisitRow *) row_behind (list, after);

  if (row && old) {
    gtk_box_reorder_child_after (GTK_BOX (list), GTK_WIDGET (row), GTK_WIDGET (after));
    g_hash_table_remove (old, shows);
  } else {
    row = row ? row : new_row (list, after);
    fill_row (list, row, visit, feet);
  }
  pr_visit_row_mark (row, pr_document_foot_id (list->doc));
  g_hash_table_insert (list->rows, g_steal_pointer (&shows), row);
  return row;
}

static gboolean
grow (gpointer data)
{
  PrVisitList *list = data;
  PrVisitRow *last = PR_VISIT_ROW (gtk_widget_get_last_child (GTK_WIDGET (list)));
  guint to = MIN (list->visits->len, rows_made (list) + MORE);

  list->growing = 0;
  for (guint i = rows_made (list); i < to; i++)
    last = put_row (list, g_ptr_array_index (list->visits, i), NULL, last);
  return G_SOURCE_REMOVE;
}

/* As long as the end is less than a screen away. */
static void
grow_if_seen (PrVisitList *list)
{
  GtkAdjustment *down = list->down;
  double page = gtk_adjustment_get_page_size (down);

  if (!list->growing && page > 0 && rows_made (list) > 0 && rows_made (list) < list->visits->len
      && gtk_adjustment_get_value (down) + 2 * page > gtk_adjustment_get_upper (down))
    list->growing = g_idle_add (grow, list);
}

/* From the top. */
static void
turn_to (PrVisitList *list, PrBookId horse)
{
  list->horse = horse;
  if (list->down)
    gtk_adjustment_set_value (list->down, 0);
  if (g_hash_table_size (list->outlines) > OUTLINES)
    g_hash_table_remove_all (list->outlines);
}

static void
read_visits (PrVisitList *list, PrBookId horse)
{
  GPtrArray *visits = horse ? pr_book_visits (pr_document_book (list->doc), horse, NULL) : NULL;

  g_ptr_array_unref (list->visits);
  list->visits = visits ? visits : g_ptr_array_new ();
}

/* Those that stand behind LAST are of no use any more. */
static void
cut_rows (PrVisitList *list, PrVisitRow *last)
{
  GtkWidget *row;

  while ((row = row_behind (list, last)))
    gtk_box_remove (GTK_BOX (list), row);
}

/* --- the open one in sight --- */

static GtkWidget *
row_of (PrVisitList *list, PrBookId visit)
{
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (list)); row;
       row = gtk_widget_get_next_sibling (row))
    if (pr_visit_row_id (PR_VISIT_ROW (row)) == visit)
      return row;
  return NULL;
}

/* In the second frame, when the rows have their places. */
static gboolean
scroll_to_shown (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  PrVisitList *list = PR_VISIT_LIST (widget);
  GtkWidget *row = row_of (list, list->shown);
  graphene_rect_t place;

  if (list->frames++ == 0)
    return G_SOURCE_CONTINUE;
  list->showing = 0;
  if (row && list->down && gtk_widget_compute_bounds (row, widget, &place))
    gtk_adjustment_clamp_page (list->down, place.origin.y, place.origin.y + place.size.height);
  return G_SOURCE_REMOVE;
}

/* The visit that is open stands in sight when it becomes that; where it was scrolled to later, it stays. */
static void
bring_into_sight (PrVisitList *list, PrBookId visit)
{
  if (visit == list->shown)
    return;
  list->shown = visit;
  list->frames = 0;
  if (!list->showing)
    list->showing = gtk_widget_add_tick_callback (GTK_WIDGET (list), scroll_to_shown, NULL, NULL);
}

/* How many rows it takes to show VISIT. */
static guint
rows_to (PrVisitList *list, PrBookId visit)
{
  for (guint i = 0; i < list->visits->len; i++)
    if (((PrBookVisit *) g_ptr_array_index (list->visits, i))->id == visit)
      return i + 1;
  return 0;
}

/* The rows of another horse take this one's visits, as making them takes longer than all else here. */
void
pr_visit_list_show (PrVisitList *list, PrDocument *doc)
{
  PrBookId horse = pr_document_horse_id (doc), visit = pr_document_visit_id (doc);
  g_autoptr (GHashTable) old = list->rows;
  bool same = horse == list->horse;
  guint want = same ? MAX (rows_made (list), FIRST) : FIRST;
  PrVisitRow *last = NULL;

  g_set_object (&list->doc, doc);
  if (!same)
    turn_to (list, horse);
  list->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  read_visits (list, horse);
  want = MAX (want, rows_to (list, visit));
  for (guint i = 0; i < MIN (want, list->visits->len); i++)
    last = put_row (list, g_ptr_array_index (list->visits, i), same ? old : NULL, last);
  cut_rows (list, last);
  bring_into_sight (list, visit);
  if (list->down)
    grow_if_seen (list);
}

void
pr_visit_list_follow (PrVisitList *list, GtkAdjustment *down)
{
  g_return_if_fail (!list->down);
  list->down = g_object_ref (down);
  g_signal_connect_object (down, "changed", G_CALLBACK (grow_if_seen), list, G_CONNECT_SWAPPED);
  g_signal_connect_object (down, "value-changed", G_CALLBACK (grow_if_seen), list, G_CONNECT_SWAPPED);
}

/* --- the widget --- */

static void
pr_visit_list_dispose (GObject *object)
{
  PrVisitList *list = PR_VISIT_LIST (object);

  g_clear_handle_id (&list->growing, g_source_remove);
  g_clear_object (&list->down);
  g_clear_object (&list->doc);
  G_OBJECT_CLASS (pr_visit_list_parent_class)->dispose (object);
}

static void
pr_visit_list_finalize (GObject *object)
{
  PrVisitList *list = PR_VISIT_LIST (object);

  g_ptr_array_unref (list->visits);
  g_hash_table_unref (list->rows);
  g_hash_table_unref (list->outlines);
  G_OBJECT_CLASS (pr_visit_list_parent_class)->finalize (object);
}

static void
pr_visit_list_init (PrVisitList *list)
{
  list->visits = g_ptr_array_new ();
  list->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  list->outlines = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
}

static void
pr_visit_list_class_init (PrVisitListClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_visit_list_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_visit_list_finalize;
  signals[PRESSED] = g_signal_new ("pressed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, PR_TYPE_FOOT_THUMB);
}
