/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-feet-window.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include "pr-bounds.h"
#include "pr-feet-page.h"
#include "pr-export-names.h"
#include "pr-feet-write.h"
#include "pr-print.h"
#include "pr-record-feet.h"
#include "pr-toast.h"
#include "pr-ui.h"
#include "pr-words.h"

#define PX_PER_MM 4.0 /* its smallest words are 3.3 mm high: 13 px */

struct _PrFeetWindow {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrBookId visit;
  char *horse, *date; /* of the visit; DATE may be NULL */
  GPtrArray *feet;    /* PrRecordFoot */
  GPtrArray *jobs;    /* theirs */
  PrFeetPage *page;   /* of JOBS */
  GtkDrawingArea *area;
  PrToast *toast;
  GtkDropDown *paper;
  GtkStringList *papers;
  GtkButton *lf, *rf, *lh, *rh;
};

G_DEFINE_FINAL_TYPE (PrFeetWindow, pr_feet_window, GTK_TYPE_WINDOW)

static PrPageOptions
options_of (PrFeetWindow *window)
{
  PrPageOptions options
      = pr_print_options (window->doc, (PrPaper) gtk_drop_down_get_selected (window->paper));

  options.horse = window->horse;
  options.date = window->date;
  return options;
}

static GtkButton *
button_of (PrFeetWindow *window, PrFoot foot)
{
  return foot == PR_FOOT_LF   ? window->lf
         : foot == PR_FOOT_RF ? window->rf
         : foot == PR_FOOT_LH ? window->lh
                              : window->rh;
}

static const PrRecordFoot *
find_foot (PrFeetWindow *window, PrFoot foot)
{
  for (guint i = 0; i < window->feet->len; i++) {
    const PrRecordFoot *one = window->feet->pdata[i];

    if (one->job->sources.foot == foot)
      return one;
  }
  return NULL;
}

/* --- the page --- */

static void
show_page (PrFeetWindow *window)
{
  PrPageOptions options = options_of (window);
  double width, height;

  g_clear_pointer (&window->page, pr_feet_page_free);
  window->page = pr_feet_page_new (window->jobs, pr_document_face (window->doc), &options);
  pr_feet_page_size (window->page, &width, &height);
  gtk_drawing_area_set_content_width (window->area, (int) ceil (width * PX_PER_MM));
  gtk_drawing_area_set_content_height (window->area, (int) ceil (height * PX_PER_MM));
  gtk_widget_queue_draw (GTK_WIDGET (window->area));
}

static void
show_buttons (PrFeetWindow *window)
{
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++) {
    GtkButton *button = button_of (window, (PrFoot) foot);

    gtk_button_set_label (button, pr_foot_name ((PrFoot) foot));
    gtk_widget_set_sensitive (GTK_WIDGET (button), find_foot (window, (PrFoot) foot) != NULL);
  }
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrFeetWindow *window = data;
  double w, h;

  if (!window->page)
    return;
  pr_feet_page_size (window->page, &w, &h);
  cairo_translate (cr, fmax (0, (width - w * PX_PER_MM) / 2), 0);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  cairo_set_source_rgb (cr, 1, 1, 1); /* paper is white, whatever the desktop */
  cairo_rectangle (cr, 0, 0, w, h);
  cairo_fill (cr);
  pr_feet_page_draw (window->page, cr);
}

/* What the book has now. FALSE: there is nothing to show any more. */
static bool
read_feet (PrFeetWindow *window, GError **error)
{
  PrBook *book = pr_document_book (window->doc);
  g_autoptr (GError) trouble = NULL;
  GPtrArray *feet
      = book ? pr_record_feet (book, window->visit, pr_document_unit (window->doc), &trouble, error) : NULL;

  if (!feet)
    return false;
  g_clear_pointer (&window->page, pr_feet_page_free);
  g_clear_pointer (&window->jobs, g_ptr_array_unref);
  g_clear_pointer (&window->feet, g_ptr_array_unref);
  window->feet = feet;
  window->jobs = pr_record_feet_jobs (feet);
  if (trouble)
    pr_document_trouble (window->doc, trouble->message);
  return feet->len > 0;
}

static void
go (gpointer window)
{
  gtk_window_destroy (window);
  g_object_unref (window);
}

static void
leave (PrFeetWindow *window)
{
  g_idle_add_once (go, g_object_ref (window)); /* not under the hand that pressed it */
}

static void
changed (PrFeetWindow *window, guint what)
{
  if (!(what & (PR_CHANGED_BOOK | PR_CHANGED_HISTORY | PR_CHANGED_UNIT | PR_CHANGED_FACE)) || !window->doc)
    return;
  if (read_feet (window, NULL)) {
    show_page (window);
    show_buttons (window);
  } else {
    leave (window);
  }
}

/* --- what is pressed --- */

static void
open_foot (PrFeetWindow *window, PrFoot foot)
{
  const PrRecordFoot *one = find_foot (window, foot);
  g_autoptr (PrDocument) doc = g_object_ref (window->doc);
  g_autoptr (GError) error = NULL;

  if (!one)
    return;
  PrBookId id = one->id; /* opening reads the page anew */
  leave (window);
  if (!pr_document_open_foot (doc, id, &error))
    pr_document_trouble (doc, error->message);
}

static void
pressed (GtkButton *button, PrFeetWindow *window)
{
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++)
    if (button == button_of (window, (PrFoot) foot)) {
      open_foot (window, (PrFoot) foot);
      return;
    }
}

static void
clicked (GtkGestureClick *click, int n, double x, double y, PrFeetWindow *window)
{
  double w, h, left;

  pr_feet_page_size (window->page, &w, &h);
  left = fmax (0, (gtk_widget_get_width (GTK_WIDGET (window->area)) - w * PX_PER_MM) / 2);
  open_foot (window, pr_feet_page_foot_at (window->page, (x - left) / PX_PER_MM, y / PX_PER_MM));
}

static void
paper_chosen (PrFeetWindow *window)
{
  if (window->jobs)
    show_page (window);
}

static void
print (PrFeetWindow *window)
{
  PrSheaf *sheaf = pr_feet_sheaf_new (window->jobs, pr_document_face (window->doc));

  pr_sheaf_set_title (sheaf, _ ("All four feet"));
  pr_sheaf_set_horse (sheaf, window->horse, window->date);
  pr_print_sheaf (GTK_WINDOW (window), window->doc, sheaf,
                  (PrPaper) gtk_drop_down_get_selected (window->paper), NULL);
}

static void
file_chosen (GtkNativeDialog *native, int response, PrFeetWindow *window)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  PrPageOptions options = options_of (window);
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && !path)
    pr_document_trouble (window->doc, _ ("Nothing can be written there; choose a folder of this computer."));
  else if (response == GTK_RESPONSE_ACCEPT
           && !pr_feet_write (window->jobs, pr_document_face (window->doc), &options, path, &error))
    pr_document_trouble (window->doc, error->message);
  else if (response == GTK_RESPONSE_ACCEPT) {
    g_autofree char *said = pr_export_said (path);

    pr_toast_say (window->toast, said, false); /* here, as this window lies over the other */
  }
  g_object_unref (native);
}

static void export(PrFeetWindow *window)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Export all four feet"), GTK_WINDOW (window),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autofree char *stem = pr_export_named (window->horse, "all-feet", window->date);
  g_autofree char *name = g_strconcat (stem, ".pdf", NULL);

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), name);
  g_signal_connect_object (native, "response", G_CALLBACK (file_chosen), window, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

/* --- the window --- */

static bool
name_it (PrFeetWindow *window, GError **error)
{
  PrBook *book = pr_document_book (window->doc);
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  if (!pr_book_get_visit (book, window->visit, &visit, error)
      || !pr_book_get_horse (book, visit.horse, &horse, error))
    return false;
  window->horse = g_strdup (horse.name);
  window->date = pr_date_holds (visit.date) ? g_strndup (visit.date, strlen ("2024-11-30")) : NULL;
  g_autofree char *day = pr_words_date (visit.date);
  g_autofree char *title = g_strdup_printf (_ ("All four feet: %s, %s"), horse.name, day);
  gtk_window_set_title (GTK_WINDOW (window), title);
  return true;
}

static void
offer_papers (PrFeetWindow *window)
{
  PrPaper paper = pr_print_default_paper ();

  for (int i = 0; i < PR_N_PAGE_PAPERS; i++)
    gtk_string_list_append (window->papers, pr_paper_name ((PrPaper) i));
  gtk_drop_down_set_selected (window->paper, paper < (PrPaper) PR_N_PAGE_PAPERS ? paper : PR_PAPER_A4);
}

void
pr_feet_window_show (GtkWindow *parent, PrDocument *doc, PrBookId visit)
{
  PrFeetWindow *window = g_object_new (PR_TYPE_FEET_WINDOW, "transient-for", parent, NULL);
  g_autoptr (GError) error = NULL;

  window->doc = g_object_ref (doc);
  window->visit = visit ? visit : pr_document_visit_id (doc);
  offer_papers (window);
  if (name_it (window, &error) && read_feet (window, &error)) {
    show_page (window);
    show_buttons (window);
    g_signal_connect_object (doc, "changed", G_CALLBACK (changed), window, G_CONNECT_SWAPPED);
    gtk_window_present (GTK_WINDOW (window));
    return;
  }
  pr_document_trouble (doc,
                       error ? error->message : _ ("No foot of that visit has a shoe yet; plan one first."));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
pr_feet_window_dispose (GObject *object)
{
  PrFeetWindow *window = PR_FEET_WINDOW (object);

  g_clear_pointer (&window->page, pr_feet_page_free);
  g_clear_pointer (&window->jobs, g_ptr_array_unref);
  g_clear_pointer (&window->feet, g_ptr_array_unref);
  g_clear_pointer (&window->horse, g_free);
  g_clear_pointer (&window->date, g_free);
  g_clear_object (&window->doc);
  G_OBJECT_CLASS (pr_feet_window_parent_class)->dispose (object);
}

static void
pr_feet_window_init (PrFeetWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_drawing_area_set_draw_func (window->area, draw, window, NULL);
}

static void
pr_feet_window_class_init (PrFeetWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_feet_window_dispose;
  g_type_ensure (PR_TYPE_TOAST);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "feet-window.ui");
  gtk_widget_class_bind_template_callback (widget_class, pressed);
  gtk_widget_class_bind_template_callback (widget_class, clicked);
  gtk_widget_class_bind_template_callback (widget_class, paper_chosen);
  gtk_widget_class_bind_template_callback (widget_class, print);
  gtk_widget_class_bind_template_callback (widget_class, export);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, area);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, toast);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, paper);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, papers);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, lf);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, rf);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, lh);
  gtk_widget_class_bind_template_child (widget_class, PrFeetWindow, rh);
}
