/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-run-sheet.h"

#include <glib/gi18n-lib.h>
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-photo.h"
#include "pr-practice-figure.h"
#include "pr-practice-words.h"
#include "pr-score-row.h"
#include "pr-shoe-laid.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrRunSheet {
  GtkWindow parent_instance;
  PrPracticeDesk *desk;
  PrPracticeRun *run;
  GBytes *photo; /* chosen now; NULL: as it was */
  char *minutes_shown;
  GtkLabel *when, *told;
  GtkWidget *clocks, *scores, *splits, *splits_part, *measured, *trouble, *picture, *again;
  GtkEditable *minutes, *leftover, *judge;
  GtkCheckButton *finished;
  GtkTextBuffer *note;
};

G_DEFINE_FINAL_TYPE (PrRunSheet, pr_run_sheet, GTK_TYPE_WINDOW)

static PrUnit
unit_of (PrRunSheet *sheet)
{
  return pr_document_unit (pr_practice_desk_document (sheet->desk));
}

/* --- filling --- */

static void
fill_scores (PrRunSheet *sheet)
{
  const PrPracticeRun *run = sheet->run;

  for (guint i = 0; i < run->scores->len; i++) {
    const PrPracticeCriterion *c = &g_array_index (run->as->criteria, PrPracticeCriterion, i);

    gtk_box_append (GTK_BOX (sheet->scores),
                    pr_score_row_new (pr_practice_text (run->as, c->name), c->weight,
                                      &g_array_index (run->scores, PrPracticeScore, i)));
  }
}

/* What was done when, a step a line. */
static void
fill_splits (PrRunSheet *sheet)
{
  const PrPracticeRun *run = sheet->run;
  g_autoptr (GString) lines = g_string_new (NULL);
  gint64 us;

  for (guint i = 0; i < run->steps->len && (us = pr_practice_split (run, i)) >= 0; i++) {
    g_autofree char *time = pr_practice_time ((double) us / G_USEC_PER_SEC);

    g_string_append_printf (lines, "%s%s  %s", i > 0 ? "\n" : "", time, (const char *) run->steps->pdata[i]);
  }
  gtk_widget_set_visible (sheet->splits_part, lines->len > 0);
  gtk_label_set_text (GTK_LABEL (sheet->splits), lines->str);
}

/* NULL with error: it is no photo. */
static GdkTexture *
texture_of (GBytes *photo, GError **error)
{
  PrPhoto *read = pr_photo_decode (photo, "photo", error);

  if (!read)
    return NULL;
  g_autoptr (GBytes) rgb = g_bytes_new (read->rgb, read->stride * (size_t) read->height);
  GdkTexture *texture
      = gdk_memory_texture_new (read->width, read->height, GDK_MEMORY_R8G8B8, rgb, read->stride);
  pr_photo_free (read);
  return texture;
}

static bool
show_photo (PrRunSheet *sheet, GBytes *photo, GError **error)
{
  g_autoptr (GdkTexture) texture = texture_of (photo, error);

  if (!texture)
    return false;
  gtk_picture_set_paintable (GTK_PICTURE (sheet->picture), GDK_PAINTABLE (texture));
  gtk_widget_set_visible (sheet->picture, TRUE);
  return true;
}

static void
fill_photo (PrRunSheet *sheet)
{
  PrBook *book = pr_document_book (pr_practice_desk_document (sheet->desk));
  g_autoptr (GBytes) photo = sheet->run->has_photo ? pr_practice_photo (book, sheet->run->id, NULL) : NULL;

  if (photo)
    show_photo (sheet, photo, NULL);
}

static void
fill (PrRunSheet *sheet)
{
  const PrPracticeRun *run = sheet->run;
  g_autofree char *when = pr_practice_when (run), *told = pr_practice_run_words (run, unit_of (sheet));
  g_autofree char *leftover
      = run->leftover > 0 ? pr_words_length (run->leftover, unit_of (sheet)) : g_strdup ("");
  PrPracticeSpan span = pr_practice_told_by_clocks (run, NULL);
  g_autofree char *clocks = pr_practice_clock_words (&span);

  sheet->minutes_shown = pr_practice_time (pr_practice_seconds (run));
  gtk_label_set_text (sheet->when, when);
  gtk_label_set_text (sheet->told, told);
  pr_tell (sheet->clocks, clocks);
  gtk_editable_set_text (sheet->minutes, sheet->minutes_shown);
  gtk_check_button_set_active (sheet->finished, !run->unfinished);
  gtk_widget_set_visible (GTK_WIDGET (sheet->finished), !run->broken);
  gtk_editable_set_text (sheet->leftover, leftover);
  gtk_editable_set_text (sheet->judge, run->judge);
  gtk_text_buffer_set_text (sheet->note, run->note, -1);
  gtk_widget_set_visible (sheet->measured, run->foot != 0 && run->measured.attempt == 0);
  gtk_widget_set_visible (sheet->again, run->id == pr_practice_desk_stopped (sheet->desk));
  fill_scores (sheet);
  fill_splits (sheet);
  fill_photo (sheet);
}

/* A run that came to no shoe has no mark for its time; what was typed stays. */
static void
finished_chosen (PrRunSheet *sheet)
{
  guint i = 0;

  sheet->run->unfinished = !gtk_check_button_get_active (sheet->finished);
  pr_practice_desk_measure (sheet->run);
  for (GtkWidget *row = gtk_widget_get_first_child (sheet->scores); row;
       row = gtk_widget_get_next_sibling (row))
    pr_score_row_show (PR_SCORE_ROW (row), &g_array_index (sheet->run->scores, PrPracticeScore, i++));
}

/* --- keeping --- */

static bool
read_time (PrRunSheet *sheet, GError **error)
{
  const char *text = gtk_editable_get_text (sheet->minutes);

  if (g_str_equal (text, sheet->minutes_shown))
    return true;
  if (pr_practice_minutes_parse (text, pr_bound_most (PR_BOUND_MINUTES), &sheet->run->told_minutes))
    return true;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                       _ ("Write the time as minutes and seconds, as 12:30."));
  return false;
}

static bool
read_leftover (PrRunSheet *sheet, GError **error)
{
  const char *text = gtk_editable_get_text (sheet->leftover);
  double mm = 0;

  if (*text && !pr_length_parse (text, unit_of (sheet), &mm, error))
    return false;
  if (!pr_bound_holds (PR_BOUND_BAR, mm)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("What was left over cannot be that long; measure it again."));
    return false;
  }
  sheet->run->leftover = mm;
  return true;
}

/* Into SCORES; FALSE with error: the first that is no mark. */
static bool
read_scores (PrRunSheet *sheet, GArray *scores, GError **error)
{
  guint i = 0;

  for (GtkWidget *row = gtk_widget_get_first_child (sheet->scores); row;
       row = gtk_widget_get_next_sibling (row))
    if (!pr_score_row_read (PR_SCORE_ROW (row), &g_array_index (scores, PrPracticeScore, i++), error))
      return false;
  return true;
}

/* The action "sheet.check": what is no mark is told as it is typed. */
static void
check (GtkWidget *widget, const char *name, GVariant *parameter)
{
  PrRunSheet *sheet = PR_RUN_SHEET (widget);
  g_autoptr (GArray) scores = g_array_copy (sheet->run->scores);
  g_autoptr (GError) error = NULL;

  read_scores (sheet, scores, &error);
  pr_tell (sheet->trouble, error ? error->message : NULL);
}

static void
read_words (PrRunSheet *sheet)
{
  g_autofree char *note = pr_typed (sheet->note);

  g_free (sheet->run->note);
  sheet->run->note = pr_note_fit (note);
  g_free (sheet->run->judge);
  sheet->run->judge = pr_name_fit (gtk_editable_get_text (sheet->judge));
}

static void
keep (PrRunSheet *sheet)
{
  g_autoptr (GError) error = NULL;
  bool ok = read_time (sheet, &error) && read_leftover (sheet, &error)
            && read_scores (sheet, sheet->run->scores, &error);

  read_words (sheet);
  ok = ok && pr_practice_desk_keep (sheet->desk, sheet->run, sheet->photo, &error);
  if (ok)
    gtk_window_destroy (GTK_WINDOW (sheet));
  else
    pr_tell (sheet->trouble, error->message);
}

/* It was stopped too early: no time is lost. */
static void
go_on (PrRunSheet *sheet)
{
  g_autoptr (PrPracticeDesk) desk = g_object_ref (sheet->desk);

  gtk_window_destroy (GTK_WINDOW (sheet));
  pr_practice_desk_take_back (desk);
}

/* --- a photo --- */

static void
photo_chosen (GObject *object, GFile *file)
{
  PrRunSheet *sheet = PR_RUN_SHEET (object);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = pr_photo_bytes (file, NULL, &error);

  if (bytes && show_photo (sheet, bytes, &error)) {
    g_clear_pointer (&sheet->photo, g_bytes_unref);
    sheet->photo = g_bytes_ref (bytes);
  }
  pr_tell (sheet->trouble, error ? error->message : NULL);
}

static void
choose_photo (PrRunSheet *sheet)
{
  pr_shoe_photo_choose (GTK_WINDOW (sheet), _ ("A photo of what was made"), photo_chosen, sheet);
}

/* --- the window --- */

void
pr_run_sheet_show (GtkWindow *parent, PrPracticeDesk *desk, PrBookId id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PrPracticeRun) run = pr_practice_desk_look (desk, id, &error);

  if (!run) {
    pr_document_trouble (pr_practice_desk_document (desk), error->message);
    return;
  }
  PrRunSheet *sheet = g_object_new (PR_TYPE_RUN_SHEET, "transient-for", parent, NULL);
  sheet->desk = g_object_ref (desk);
  sheet->run = g_steal_pointer (&run);
  fill (sheet);
  gtk_window_present (GTK_WINDOW (sheet));
}

static void
pr_run_sheet_dispose (GObject *object)
{
  PrRunSheet *sheet = PR_RUN_SHEET (object);

  g_clear_object (&sheet->desk);
  g_clear_pointer (&sheet->run, pr_practice_run_free);
  g_clear_pointer (&sheet->photo, g_bytes_unref);
  g_clear_pointer (&sheet->minutes_shown, g_free);
  G_OBJECT_CLASS (pr_run_sheet_parent_class)->dispose (object);
}

static void
pr_run_sheet_init (PrRunSheet *sheet)
{
  gtk_widget_init_template (GTK_WIDGET (sheet));
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, when);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, told);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, clocks);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, scores);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, splits);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, splits_part);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, measured);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, picture);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, again);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, minutes);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, leftover);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, judge);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, finished);
  gtk_widget_class_bind_template_child (widget_class, PrRunSheet, note);
}

static void
pr_run_sheet_class_init (PrRunSheetClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_run_sheet_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "run-sheet.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "sheet.check", NULL, check);
  gtk_widget_class_bind_template_callback (widget_class, finished_chosen);
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, choose_photo);
  gtk_widget_class_bind_template_callback (widget_class, go_on);
}
