/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-ui.h"
#include "pr-vet-out.h"
#include "pr-words.h"

struct _PrVetDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrVetMade made;
  PrVetNote note; /* as it is typed now */
  PrVetPage *sheet;
  GtkEditable *vet, *by, *on, *purpose;
  GtkTextBuffer *why;
  GtkDrawingArea *page;
  GtkWidget *trouble;
  bool dated; /* the day was filled in once */
  guint idle; /* source: what was typed is not on the page yet; 0: it is */
};

G_DEFINE_FINAL_TYPE (PrVetDialog, pr_vet_dialog, GTK_TYPE_WINDOW)

/* --- what is typed ------------------------------------------------------------------------- */

static void
fill (PrVetDialog *dialog)
{
  g_auto (PrVetNote) told = { 0 };

  pr_vet_note_read (&told, dialog->made.visit.vet);
  gtk_editable_set_text (dialog->vet, told.vet);
  gtk_text_buffer_set_text (dialog->why, told.why, -1);
  gtk_editable_set_text (dialog->by, told.allowed_by);
  gtk_editable_set_text (dialog->on, told.allowed_on);
  gtk_editable_set_text (dialog->purpose, told.allowed_for);
}

/* The day as typed, ISO 8601; "": nothing is typed, NULL: it is no day. Transfer full. */
static char *
typed_day (PrVetDialog *dialog)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (dialog->on)));

  return *text ? pr_words_parse_day (text) : g_strdup ("");
}

static void
read_typed (PrVetDialog *dialog)
{
  g_autofree char *why = pr_typed (dialog->why), *on = typed_day (dialog);
  const PrVetNote typed
      = { (char *) gtk_editable_get_text (dialog->vet), why, (char *) gtk_editable_get_text (dialog->by), on,
          (char *) gtk_editable_get_text (dialog->purpose) };

  pr_vet_note_clear (&dialog->note);
  pr_vet_note_take (&dialog->note, &typed);
}

/* FALSE with error: it could be kept only in part. */
static bool
can_be_kept (PrVetDialog *dialog, GError **error)
{
  g_autofree char *why = g_strstrip (pr_typed (dialog->why)), *on = typed_day (dialog);

  if (!on)
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” is not a date; write it like 2024-11-30."),
                 gtk_editable_get_text (dialog->on));
  else if (g_utf8_strlen (why, -1) > PR_VET_WHY_MOST)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Too much was written for one page; shorten it."));
  else
    return true;
  return false;
}

/* --- the page ------------------------------------------------------------------------------ */

/* Anew, of what is typed. FALSE: there is no shoe any more. */
static bool
make_sheet (PrVetDialog *dialog)
{
  g_clear_pointer (&dialog->sheet, pr_vet_page_free);
  read_typed (dialog);
  const PrVetAbout about = pr_vet_made_about (&dialog->made, dialog->doc, &dialog->note);
  dialog->sheet = pr_vet_made_page (&about, dialog->doc);
  gtk_widget_queue_draw (GTK_WIDGET (dialog->page));
  return dialog->sheet;
}

static gboolean
show_sheet (gpointer data)
{
  PrVetDialog *dialog = data;
  g_autoptr (GError) error = NULL;

  dialog->idle = 0;
  if (!make_sheet (dialog)) {
    gtk_window_destroy (GTK_WINDOW (dialog));
    return G_SOURCE_REMOVE;
  }
  if (can_be_kept (dialog, &error))
    pr_vet_page_holds (dialog->sheet, &error);
  pr_tell (dialog->trouble, error ? error->message : NULL);
  return G_SOURCE_REMOVE;
}

/* All that is typed between two looks at the screen is shown at once. */
static void
typed (PrVetDialog *dialog)
{
  if (!dialog->idle && dialog->doc)
    dialog->idle = g_idle_add (show_sheet, dialog);
}

/* Who writes down who allowed it was most often told so today. */
static void
typed_by (PrVetDialog *dialog)
{
  g_autofree char *today = pr_words_today ();
  bool empty = !*gtk_editable_get_text (dialog->on);

  if (dialog->doc && !dialog->dated && empty && *gtk_editable_get_text (dialog->by))
    gtk_editable_set_text (dialog->on, today);
  dialog->dated = dialog->dated || !empty || *gtk_editable_get_text (dialog->on);
  typed (dialog);
}

/* Another photo under the foot, another shoe: what the page is drawn from may be gone. */
static void
changed (PrVetDialog *dialog, guint what)
{
  if (!(what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PHOTO | PR_CHANGED_PLACE | PR_CHANGED_FORGED)))
    return;
  g_clear_pointer (&dialog->sheet, pr_vet_page_free);
  typed (dialog);
}

/* White paper in the middle, whatever the window's ground. */
static void
draw_page (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrVetDialog *dialog = data;
  double w, h, scale;

  if (!dialog->sheet)
    return;
  pr_vet_page_size (dialog->sheet, &w, &h);
  scale = MIN (width / w, height / h);
  cairo_translate (cr, (width - scale * w) / 2, (height - scale * h) / 2);
  cairo_scale (cr, scale, scale);
  cairo_rectangle (cr, 0, 0, w, h);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill (cr);
  pr_vet_page_draw (dialog->sheet, cr);
}

/* --- what is done with it ------------------------------------------------------------------ */

/* With the visit; FALSE, and told, when that cannot be. */
static bool
kept (PrVetDialog *dialog)
{
  g_autoptr (GError) error = NULL;

  read_typed (dialog);
  bool ok
      = can_be_kept (dialog, &error) && pr_vet_made_keep (&dialog->made, dialog->doc, &dialog->note, &error);
  pr_tell (dialog->trouble, error ? error->message : NULL);
  return ok;
}

static void
keep (PrVetDialog *dialog)
{
  if (kept (dialog))
    gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
take_out (PrVetDialog *dialog, PrVetWay way)
{
  g_autoptr (GError) error = NULL;

  if (!kept (dialog) || !make_sheet (dialog))
    return;
  if (pr_vet_page_holds (dialog->sheet, &error))
    pr_vet_take_out (GTK_WINDOW (dialog), dialog->trouble, dialog->doc, &dialog->made, &dialog->note, way);
  else
    pr_tell (dialog->trouble, error->message);
}

static void
print (PrVetDialog *dialog)
{
  take_out (dialog, PR_VET_PRINT);
}

static void export(PrVetDialog *dialog)
{
  take_out (dialog, PR_VET_EXPORT);
}

/* --- the window ---------------------------------------------------------------------------- */

void
pr_vet_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  PrVetDialog *dialog = g_object_new (PR_TYPE_VET_DIALOG, "transient-for", parent, NULL);
  g_autoptr (GError) error = NULL;

  if (!pr_vet_made_start (&dialog->made, doc, &error)) {
    pr_document_trouble (doc, error->message);
    gtk_window_destroy (GTK_WINDOW (dialog));
    return;
  }
  fill (dialog);
  dialog->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (changed), dialog, G_CONNECT_SWAPPED);
  typed (dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_vet_dialog_dispose (GObject *object)
{
  PrVetDialog *dialog = PR_VET_DIALOG (object);

  g_clear_handle_id (&dialog->idle, g_source_remove);
  g_clear_pointer (&dialog->sheet, pr_vet_page_free);
  g_clear_object (&dialog->doc);
  G_OBJECT_CLASS (pr_vet_dialog_parent_class)->dispose (object);
}

static void
pr_vet_dialog_finalize (GObject *object)
{
  PrVetDialog *dialog = PR_VET_DIALOG (object);

  pr_vet_made_clear (&dialog->made);
  pr_vet_note_clear (&dialog->note);
  G_OBJECT_CLASS (pr_vet_dialog_parent_class)->finalize (object);
}

static void
pr_vet_dialog_init (PrVetDialog *dialog)
{
  pr_vet_note_init (&dialog->note);
  gtk_widget_init_template (GTK_WIDGET (dialog));
  gtk_drawing_area_set_draw_func (dialog->page, draw_page, dialog, NULL);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrVetDialog, name)

static void
pr_vet_dialog_class_init (PrVetDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_vet_dialog_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_vet_dialog_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "vet-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, typed);
  gtk_widget_class_bind_template_callback (widget_class, typed_by);
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, print);
  gtk_widget_class_bind_template_callback (widget_class, export);
  BIND (vet);
  BIND (why);
  BIND (by);
  BIND (on);
  BIND (purpose);
  BIND (page);
  BIND (trouble);
}
