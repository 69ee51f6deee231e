/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visits-window.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-colour.h"
#include "pr-export-names.h"
#include "pr-ui.h"
#include "pr-visit-feet.h"
#include "pr-visit-save.h"
#include "pr-visit-text.h"
#include "pr-visit-time.h"
#include "pr-visit-write.h"
#include "pr-words.h"

#define TEXT_PX 14.7 /* 11 pt */
#define LETTER_PX 18.0
#define LINE_PX 1.6
#define ROUND_PX 100.0 /* round the drawing: its figures */
#define SCALE_PX 34.0  /* below it: the scale of colours */
#define SCALE_TEXT_PX 14.7
#define SCALE_EACH_PX 2.6 /* of a mm of its page */

enum { WHAT_FOOT, WHAT_SHOE };

struct _PrVisitsWindow {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrBookId horse;
  char *name;        /* the horse's */
  GPtrArray *feet;   /* PrVisitFoot, all of the horse */
  GPtrArray *others; /* of them those that go with the later one; transfer none */
  PrJob *now, *before;
  PrVisitChange change;
  bool laid;
  bool timed;   /* the foot's visits are read */
  bool filling; /* the lists are being made, and nothing is chosen by a person */
  GtkDropDown *later, *earlier, *lay, *what;
  GtkStringList *later_names, *earlier_names, *ways;
  GtkStack *stack;
  GtkDrawingArea *picture;
  GtkGrid *figures;
  PrVisitTime *time;
  GtkWidget *caution, *trouble;
};

G_DEFINE_FINAL_TYPE (PrVisitsWindow, pr_visits_window, GTK_TYPE_WINDOW)

static PrUnit
unit_of (PrVisitsWindow *window)
{
  return pr_document_unit (window->doc);
}

static const PrVisitFoot *
chosen_of (GtkDropDown *drop, const GPtrArray *feet)
{
  guint nr = gtk_drop_down_get_selected (drop);

  return feet && nr < feet->len ? g_ptr_array_index (feet, nr) : NULL;
}

static bool
shows_shoes (PrVisitsWindow *window)
{
  return gtk_drop_down_get_selected (window->what) == WHAT_SHOE;
}

/* "25 November 2026 · LF", and whether it is the MIRROR of another. Transfer full. */
static char *
foot_words (const PrVisitFoot *foot, bool mirror)
{
  g_autofree char *day = pr_words_date (foot->date);

  return mirror ? g_strdup_printf (_ ("%s · %s, mirrored"), day, pr_foot_letters (foot->foot))
                : g_strdup_printf ("%s · %s", day, pr_foot_letters (foot->foot));
}

/* --- the picture --- */

/* LOOK's view of the change: its middle in WIDTH by HEIGHT; returns pixels to a mm. */
static double
enter (PrVisitsWindow *window, cairo_t *cr, double width, double height)
{
  PrFoot foot = window->now->sources.foot;
  PrFace face = pr_document_face (window->doc);
  PrPt low, high;

  pr_visit_extent (window->now, &window->change, &low, &high);
  double scale = MIN ((width - 2 * ROUND_PX) / (high.x - low.x),
                      (height - ROUND_PX / 2 - SCALE_PX) / (high.y - low.y));
  scale = MAX (scale, 0.2);
  double x = width / (2 * scale) - pr_lateral_sign (foot, face) * (low.x + high.x) / 2;
  double y = (height - SCALE_PX) / (2 * scale) + (low.y + high.y) / 2;
  cairo_scale (cr, scale, scale);
  pr_draw_enter_foot (cr, foot, face, x, y);
  return scale;
}

static void
draw_scale (cairo_t *cr, PrVisitLook look, double width, double height)
{
  look.forged.line = 1 / SCALE_EACH_PX;
  cairo_translate (cr, TEXT_PX, height - SCALE_PX);
  cairo_scale (cr, SCALE_EACH_PX, SCALE_EACH_PX);
  pr_draw_forged_scale (cr, &look.forged, (width - 2 * TEXT_PX) / SCALE_EACH_PX,
                        SCALE_TEXT_PX / SCALE_EACH_PX);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrVisitsWindow *window = data;
  const PrInk ink = pr_colour_ink (GTK_WIDGET (area));
  PrVisitLook look = { .forged = { &ink, 1, 1, 1, unit_of (window) },
                       .face = pr_document_face (window->doc),
                       .shoes = shows_shoes (window) };

  if (!window->laid)
    return;
  cairo_save (cr);
  double scale = enter (window, cr, width, height);
  look.forged.line = LINE_PX / scale;
  look.text = look.shoes ? 0 : TEXT_PX / scale;
  look.letters = LETTER_PX / scale;
  pr_draw_visit (cr, window->now, &window->change, &look);
  cairo_restore (cr);
  draw_scale (cr, look, width, height);
}

/* --- the figures --- */

static void
add_figure (GtkGrid *grid, int row, const char *line)
{
  g_auto (GStrv) part = g_strsplit (line, "\t", 2);

  for (int i = 0; part[i] && i < 2; i++) {
    GtkWidget *label = gtk_label_new (part[i]);

    gtk_label_set_xalign (GTK_LABEL (label), (float) i);
    gtk_label_set_wrap (GTK_LABEL (label), TRUE);
    gtk_widget_set_hexpand (label, i == 0);
    gtk_widget_add_css_class (label, i == 0 ? "soft" : "figure");
    gtk_grid_attach (grid, label, i, row, 1, 1);
  }
}

static void
empty_grid (GtkGrid *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))))
    gtk_grid_remove (grid, child);
}

/* Which line is whose. Transfer full. */
static GStrv
key_lines (PrVisitsWindow *window)
{
  const PrVisitFoot *now = chosen_of (window->later, window->feet),
                    *before = chosen_of (window->earlier, window->others);
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  g_autofree char *later = foot_words (now, false), *earlier = foot_words (before, window->change.mirrored);
  g_autofree char *solid
      = g_strdup_printf ("%s\t%s", shows_shoes (window) ? _ ("Filled") : _ ("Solid line"), later);
  g_autofree char *dashed = g_strdup_printf ("%s\t%s", _ ("Dashed line"), earlier);

  g_strv_builder_add (lines, solid);
  g_strv_builder_add (lines, dashed);
  return g_strv_builder_end (lines);
}

static void
show_change (PrVisitsWindow *window, const char *trouble)
{
  g_autofree char *caution = window->laid ? pr_visit_caution (&window->change) : NULL;
  g_auto (GStrv) key = window->laid ? key_lines (window) : NULL;
  g_auto (GStrv) lines
      = window->laid ? pr_visit_lines (&window->change, shows_shoes (window), unit_of (window)) : NULL;
  int row = 0;
  bool bare = window->laid && shows_shoes (window) && !window->change.shoes;

  empty_grid (window->figures);
  for (int i = 0; key && !bare && key[i]; i++)
    add_figure (window->figures, row++, key[i]);
  for (int i = 0; lines && lines[i]; i++)
    add_figure (window->figures, row++, lines[i]);
  pr_tell (window->caution, caution);
  pr_tell (window->trouble, bare ? _ ("One of these feet has no planned shoe; plan it first.") : trouble);
  gtk_widget_queue_draw (GTK_WIDGET (window->picture));
}

/* --- laying --- */

/* The foot from the book; NULL with error. Transfer full. */
static PrJob *
read_foot (PrVisitsWindow *window, const PrVisitFoot *foot, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();

  job->unit = unit_of (window);
  return pr_record_read (pr_document_book (window->doc), foot->id, job, NULL, error) ? g_steal_pointer (&job)
                                                                                     : NULL;
}

static void
lay_on (PrVisitsWindow *window)
{
  PrVisitLay lay = (PrVisitLay) gtk_drop_down_get_selected (window->lay);
  g_autoptr (GError) error = NULL;

  window->laid = window->now && window->before
                 && pr_visit_change (&window->change, window->now, window->before, lay, &error);
  show_change (window, error ? error->message : NULL);
}

static void
chosen_way (PrVisitsWindow *window)
{
  if (!window->filling)
    lay_on (window);
}

/* By what both feet have, which a person may change. */
static void
choose_surest (PrVisitsWindow *window)
{
  window->filling = true;
  if (window->now && window->before)
    gtk_drop_down_set_selected (window->lay, pr_visit_lay_surest (&window->now->hoof, &window->before->hoof));
  window->filling = false;
}

/* --- over time --- */

static bool
shows_time (PrVisitsWindow *window)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (window->stack), "time") == 0;
}

/* All visits are read when they are first looked at: the more there are, the longer it takes. */
static void
need_time (PrVisitsWindow *window)
{
  const PrVisitFoot *foot = chosen_of (window->later, window->feet);
  g_autoptr (GError) error = NULL;

  if (!foot || window->timed)
    return;
  window->timed = true;
  if (!pr_visit_time_show (window->time, pr_document_book (window->doc), window->horse, foot->foot,
                           unit_of (window), &error))
    pr_tell (window->trouble, error->message);
}

static void
turned (PrVisitsWindow *window)
{
  if (shows_time (window))
    need_time (window);
}

/* --- the lists --- */

/* In OTHERS, the newest of the same foot that is older than FOOT; else the first. */
static guint
usual_earlier (const GPtrArray *others, const PrVisitFoot *foot)
{
  for (guint i = 0; i < others->len; i++) {
    const PrVisitFoot *one = g_ptr_array_index (others, i);

    if (one->foot == foot->foot && strcmp (one->date, foot->date) <= 0)
      return i;
  }
  return 0;
}

static void
fill_earlier (PrVisitsWindow *window, const PrVisitFoot *foot)
{
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();

  g_ptr_array_set_size (window->others, 0);
  for (guint i = 0; foot && i < window->feet->len; i++) {
    PrVisitFoot *one = g_ptr_array_index (window->feet, i);
    g_autofree char *words = foot_words (one, pr_foot_is_left (one->foot) != pr_foot_is_left (foot->foot));

    if (one == foot || pr_foot_is_hind (one->foot) != pr_foot_is_hind (foot->foot))
      continue;
    g_ptr_array_add (window->others, one);
    g_strv_builder_add (names, words);
  }
  g_auto (GStrv) all = g_strv_builder_end (names);
  gtk_string_list_splice (window->earlier_names, 0,
                          g_list_model_get_n_items (G_LIST_MODEL (window->earlier_names)),
                          (const char *const *) all);
  if (window->others->len > 0)
    gtk_drop_down_set_selected (window->earlier, usual_earlier (window->others, foot));
}

/* All is told as the later less the earlier: whichever was chosen first, LATER and EARLIER change places in the lists. */
static void
put_in_order (PrVisitsWindow *window, const PrVisitFoot *later, const PrVisitFoot *earlier)
{
  guint nr = 0;

  window->filling = true;
  if (g_ptr_array_find (window->feet, later, &nr))
    gtk_drop_down_set_selected (window->later, nr);
  fill_earlier (window, later);
  if (g_ptr_array_find (window->others, earlier, &nr))
    gtk_drop_down_set_selected (window->earlier, nr);
  window->filling = false;
}

static void
chosen_earlier (PrVisitsWindow *window)
{
  const PrVisitFoot *now = chosen_of (window->later, window->feet),
                    *before = chosen_of (window->earlier, window->others);
  g_autoptr (GError) error = NULL;

  if (window->filling)
    return;
  if (now && before && strcmp (now->date, before->date) < 0) {
    put_in_order (window, before, now);
    now = chosen_of (window->later, window->feet);
    before = chosen_of (window->earlier, window->others);
  }
  g_clear_pointer (&window->now, pr_job_free);
  g_clear_pointer (&window->before, pr_job_free);
  window->laid = false;
  if (!now)
    show_change (window, _ ("This horse has no visit with a foot yet; open a photo of a tracing."));
  else if (!before)
    show_change (window,
                 _ ("This is the only foot of its kind in the book; photograph it again at the next visit."));
  else if (!(window->now = read_foot (window, now, &error))
           || !(window->before = read_foot (window, before, &error)))
    show_change (window, error->message);
  else {
    choose_surest (window);
    lay_on (window);
  }
}

static void
chosen_later (PrVisitsWindow *window)
{
  const PrVisitFoot *foot = chosen_of (window->later, window->feet);

  if (window->filling)
    return;
  window->filling = true;
  fill_earlier (window, foot);
  window->filling = false;
  chosen_earlier (window);
  window->timed = false;
  if (shows_time (window))
    need_time (window);
}

/* Foot ID, or else the first of VISIT, comes first. */
static void
fill_later (PrVisitsWindow *window, PrBookId id, PrBookId visit)
{
  guint chosen = GTK_INVALID_LIST_POSITION;

  window->filling = true;
  for (guint i = 0; i < window->feet->len; i++) {
    const PrVisitFoot *foot = g_ptr_array_index (window->feet, i);
    g_autofree char *words = foot_words (foot, false);

    gtk_string_list_append (window->later_names, words);
    if (foot->id == id || (chosen == GTK_INVALID_LIST_POSITION && foot->visit == visit))
      chosen = i;
  }
  if (window->feet->len > 0)
    gtk_drop_down_set_selected (window->later, chosen == GTK_INVALID_LIST_POSITION ? 0 : chosen);
  window->filling = false;
  chosen_later (window);
}

/* --- saving --- */

static void
told_trouble (GObject *window, const char *sentence)
{
  pr_tell (PR_VISITS_WINDOW (window)->trouble, sentence);
}

/* What is to be written; FALSE with error. */
static bool
make_bytes (PrVisitsWindow *window, PrVisitSaveAs as, GByteArray *out, GError **error)
{
  const PrVisitFoot *now = chosen_of (window->later, window->feet),
                    *before = chosen_of (window->earlier, window->others);

  need_time (window);
  PrVisitPages pages = pr_visit_time_pages (window->time);
  pages.horse = window->name;
  if (as == PR_VISIT_SAVE_CSV) {
    g_autofree char *text = pr_visit_csv (pages.table);
    g_byte_array_append (out, (const guint8 *) text, (guint) strlen (text));
    return true;
  }
  if (shows_time (window) || !window->laid)
    return as == PR_VISIT_SAVE_PNG ? pr_visit_pages_png (&pages, out, error)
                                   : pr_visit_pages_pdf (&pages, out, error);
  g_autofree char *later = foot_words (now, false), *earlier = foot_words (before, window->change.mirrored);
  g_autofree char *title = g_strdup_printf ("%s · %s ← %s", window->name, later, earlier);
  const PrVisitPicture picture = { window->now, &window->change, title,
                                   shows_shoes (window) && window->change.shoes, unit_of (window) };
  return as == PR_VISIT_SAVE_PNG ? pr_visit_picture_png (&picture, out, error)
                                 : pr_visit_picture_pdf (&picture, out, error);
}

/* The actions "visits.save-csv" and so on. */
static void
save (GtkWidget *widget, const char *name, GVariant *parameter)
{
  static const char *const names[] = { "visits.save-csv", "visits.save-png", "visits.save-pdf" };
  PrVisitsWindow *window = PR_VISITS_WINDOW (widget);
  const PrVisitFoot *foot = chosen_of (window->later, window->feet);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (GError) error = NULL;
  PrVisitSaveAs as = PR_VISIT_SAVE_CSV;

  while (!g_str_equal (names[as], name))
    as++;
  if (!foot)
    return;
  g_autofree char *stem = pr_export_stem (window->name, foot->foot, foot->date);
  if (make_bytes (window, as, bytes, &error))
    pr_visit_save (GTK_WINDOW (window), window->doc, as, stem, bytes, told_trouble, G_OBJECT (window));
  else
    pr_tell (window->trouble, error->message);
}

/* --- the window --- */

/* NULL with the trouble told: the book cannot be read. */
static PrVisitsWindow *
window_of (GtkWindow *parent, PrDocument *doc, PrBookId horse)
{
  g_auto (PrBookHorse) row = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) feet = NULL;
  PrVisitsWindow *window;

  if (!pr_book_get_horse (pr_document_book (doc), horse, &row, &error)
      || !(feet = pr_visit_feet (pr_document_book (doc), horse, &error))) {
    pr_document_trouble (doc, error->message);
    return NULL;
  }
  window = g_object_new (PR_TYPE_VISITS_WINDOW, "transient-for", parent, NULL);
  window->doc = g_object_ref (doc);
  window->horse = horse;
  window->name = g_strdup (row.name);
  window->feet = g_steal_pointer (&feet);
  return window;
}

void
pr_visits_window_show (GtkWindow *parent, PrDocument *doc)
{
  PrVisitsWindow *window;

  if (!pr_document_book (doc) || !pr_document_horse_id (doc)) {
    pr_document_trouble (doc, _ ("Choose a horse first; then its visits can be laid side by side."));
    return;
  }
  window = window_of (parent, doc, pr_document_horse_id (doc));
  if (!window)
    return;
  fill_later (window, pr_document_foot_id (doc), pr_document_visit_id (doc));
  gtk_window_present (GTK_WINDOW (window));
}

void
pr_visits_window_show_visit (GtkWindow *parent, PrDocument *doc, PrBookId visit)
{
  g_auto (PrBookVisit) row = { 0 };
  g_autoptr (GError) error = NULL;
  PrVisitsWindow *window;

  if (!pr_document_book (doc))
    return;
  if (!pr_book_get_visit (pr_document_book (doc), visit, &row, &error)) {
    pr_document_trouble (doc, error->message);
    return;
  }
  window = window_of (parent, doc, row.horse);
  if (!window)
    return;
  fill_later (window, visit == pr_document_visit_id (doc) ? pr_document_foot_id (doc) : 0, visit);
  gtk_window_present (GTK_WINDOW (window));
}

static void
pr_visits_window_finalize (GObject *object)
{
  PrVisitsWindow *window = PR_VISITS_WINDOW (object);

  g_clear_object (&window->doc);
  g_clear_pointer (&window->name, g_free);
  g_clear_pointer (&window->feet, g_ptr_array_unref);
  g_ptr_array_unref (window->others);
  pr_job_free (window->now);
  pr_job_free (window->before);
  pr_visit_change_clear (&window->change);
  G_OBJECT_CLASS (pr_visits_window_parent_class)->finalize (object);
}

static void
pr_visits_window_init (PrVisitsWindow *window)
{
  window->others = g_ptr_array_new ();
  window->filling = true;
  gtk_widget_init_template (GTK_WIDGET (window));
  for (PrVisitLay lay = 0; lay < PR_N_VISIT_LAYS; lay++) {
    g_autofree char *words = pr_visit_lay_words (lay);
    gtk_string_list_append (window->ways, words);
  }
  gtk_drawing_area_set_draw_func (window->picture, draw, window, NULL);
  window->filling = false;
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrVisitsWindow, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "visits-window.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen_later);
  gtk_widget_class_bind_template_callback (widget_class, chosen_earlier);
  gtk_widget_class_bind_template_callback (widget_class, chosen_way);
  gtk_widget_class_bind_template_callback (widget_class, turned);
  BIND (later);
  BIND (later_names);
  BIND (earlier);
  BIND (earlier_names);
  BIND (lay);
  BIND (ways);
  BIND (what);
  BIND (stack);
  BIND (picture);
  BIND (figures);
  BIND (time);
  BIND (caution);
  BIND (trouble);
}

static void
pr_visits_window_class_init (PrVisitsWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_visits_window_finalize;
  g_type_ensure (PR_TYPE_VISIT_TIME);
  bind_template (widget_class);
  gtk_widget_class_install_action (widget_class, "visits.save-csv", NULL, save);
  gtk_widget_class_install_action (widget_class, "visits.save-png", NULL, save);
  gtk_widget_class_install_action (widget_class, "visits.save-pdf", NULL, save);
}
