/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-part.h"

#include <glib/gi18n-lib.h>
#include "pr-document-forged.h"
#include "pr-fact-line.h"
#include "pr-figure-entry.h"
#include "pr-forged-text.h"
#include "pr-phone-dialog.h"
#include "pr-shoe-laid.h"

struct _PrForgedPart {
  PrFollower parent_instance;
  GtkWidget *found;
  PrShoeLaid *laid;
  GtkDropDown *lay;
  GtkEditable *cut, *leftover, *minutes;
  GtkLabel *verdict, *caution, *own_head;
  GtkButton *keep;
  GtkWidget *corrections, *sizes, *attempts, *attempts_head, *trouble;
};

G_DEFINE_FINAL_TYPE (PrForgedPart, pr_forged_part, PR_TYPE_FOLLOWER)

static void
tell_trouble (PrForgedPart *part, const GError *error)
{
  pr_tell (part->trouble, error ? error->message : NULL);
}

static PrUnit
unit_of (PrForgedPart *part)
{
  return pr_document_unit (pr_document_of (part));
}

/* A length that may be left out: 0 then. */
static bool
read_length (PrForgedPart *part, GtkEditable *entry, double *mm, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (entry)));

  *mm = 0;
  return !*text || pr_length_parse (text, unit_of (part), mm, error);
}

/* --- the photo --- */

static void
photo_chosen (GObject *object, GFile *photo)
{
  PrForgedPart *part = PR_FORGED_PART (object);
  PrSeenOptions how;

  if (pr_job_of (part) && pr_shoe_laid_read (part->laid, unit_of (part), &how, NULL))
    pr_document_take_forged (pr_document_of (part), photo, &how);
}

static void
choose_photo (PrForgedPart *part)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (part));
  PrSeenOptions how;
  g_autoptr (GError) error = NULL;

  if (pr_shoe_laid_read (part->laid, unit_of (part), &how, &error))
    pr_shoe_photo_choose (GTK_WINDOW (root), _ ("Open a photo of the forged shoe"), photo_chosen, part);
  tell_trouble (part, error);
}

static void
photo_from_phone (PrForgedPart *part)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (part));
  PrSeenOptions how;
  g_autoptr (GError) error = NULL;

  if (pr_shoe_laid_read (part->laid, unit_of (part), &how, &error))
    pr_phone_dialog_show_shoe (GTK_WINDOW (root), pr_document_of (part), &how);
  tell_trouble (part, error);
}

static void
leave (PrForgedPart *part)
{
  pr_document_leave_forged (pr_document_of (part));
}

static void
draw_edges (PrForgedPart *part)
{
  pr_document_draw_forged (pr_document_of (part), true);
}

static void
lay_chosen (PrForgedPart *part)
{
  pr_document_lay_forged (pr_document_of (part), (PrLay) gtk_drop_down_get_selected (part->lay));
}

static void
mixed (GtkRange *range, PrForgedPart *part)
{
  gtk_widget_activate_action (GTK_WIDGET (part), "win.mix-forged", "d", gtk_range_get_value (range));
}

/* --- keeping it --- */

static void
keep (PrForgedPart *part)
{
  PrBookAttempt told = { 0 };
  g_autoptr (GError) error = NULL;
  const char *minutes = gtk_editable_get_text (part->minutes);

  if (pr_document_forged_is_kept (pr_document_of (part)))
    return;
  told.minutes = (int) CLAMP (g_ascii_strtoll (minutes, NULL, 10), 0, 10000);
  if (read_length (part, part->cut, &told.forged.cut, &error)
      && read_length (part, part->leftover, &told.forged.leftover, &error))
    pr_document_keep_forged (pr_document_of (part), &told, &error);
  tell_trouble (part, error);
}

/* --- what is shown --- */

static void
show_corrections (PrForgedPart *part, const PrComparison *c)
{
  pr_empty (part->corrections);
  for (guint i = 0; i < c->correction->len; i++) {
    g_autofree char *line
        = g_strdup_printf ("%u  %s", i + 1, g_array_index (c->correction, PrCorrection, i).text);
    gtk_box_append (GTK_BOX (part->corrections), pr_fact_line_new (line, NULL));
  }
}

static void
show_sizes (PrForgedPart *part, const PrComparison *c)
{
  g_auto (GStrv) lines = pr_forged_lines (c, unit_of (part));

  pr_empty (part->sizes);
  for (int i = 0; lines[i]; i++) {
    g_auto (GStrv) parts = g_strsplit (lines[i], "\t", 2);

    gtk_box_append (GTK_BOX (part->sizes), pr_fact_line_new (parts[0], parts[1]));
  }
}

static void
show_found (PrForgedPart *part, const PrComparison *c)
{
  PrUnit unit = unit_of (part);
  g_autofree char *verdict = pr_forged_verdict (c, unit), *caution = pr_forged_caution (c, unit);
  g_autofree char *doubts = pr_forged_doubts (c, pr_document_forged_seen (pr_document_of (part)), unit);
  g_autofree char *both = caution && doubts ? g_strconcat (caution, "\n", doubts, NULL) : NULL;

  pr_tell (GTK_WIDGET (part->verdict),
           c->correction->len > 0 ? NULL : verdict); /* which is the first of them */
  pr_tell (GTK_WIDGET (part->caution), both ? both : caution ? caution : doubts);
  show_corrections (part, c);
  show_sizes (part, c);
  /* not greyed: it would lose the keyboard */
  gtk_button_set_label (part->keep, pr_document_forged_is_kept (pr_document_of (part))
                                        ? _ ("Kept with this visit")
                                        : _ ("Keep it with this visit"));
}

static void
show_attempts (PrForgedPart *part)
{
  PrDocument *doc = pr_document_of (part);
  g_autoptr (GPtrArray) attempts = pr_document_attempts (doc);

  pr_empty (part->attempts);
  for (guint i = 0; i < attempts->len; i++) {
    g_autofree char *words = pr_document_attempt_words (doc, attempts->pdata[i]);
    gtk_box_append (GTK_BOX (part->attempts), pr_fact_line_new (words, NULL));
  }
  gtk_widget_set_visible (part->attempts_head, attempts->len > 0);
}

static void
changed (PrFollower *follower, guint what)
{
  PrForgedPart *part = PR_FORGED_PART (follower);
  const PrJob *job = pr_job_of (part);
  const PrComparison *c;

  if (!job || pr_document_editing (pr_document_of (part)))
    return;
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_UNIT)) /* the lengths below it are in that unit */
    gtk_label_set_label (part->own_head, unit_of (part) == PR_UNIT_INCH
                                             ? _ ("For your own figures, in inches, if you measured it")
                                             : _ ("For your own figures, in mm, if you measured it"));
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_UNIT))
    pr_shoe_laid_offer (part->laid, job->sources.plan.thick_toe, unit_of (part));
  if (!(what
        & (PR_CHANGED_FORGED | PR_CHANGED_PLACE | PR_CHANGED_PLAN | PR_CHANGED_UNIT | PR_CHANGED_HISTORY)))
    return;
  c = pr_document_forged (pr_document_of (part));
  gtk_widget_set_visible (part->found, c != NULL);
  if (c)
    show_found (part, c);
  if (what & (PR_CHANGED_FORGED | PR_CHANGED_PLACE))
    show_attempts (part);
}

char *
pr_forged_part_result (PrDocument *doc)
{
  const PrComparison *c = pr_document_forged (doc);
  g_autoptr (GPtrArray) attempts = c ? NULL : pr_document_attempts (doc);

  if (c)
    return pr_forged_verdict (c, pr_document_unit (doc));
  if (attempts->len == 0)
    return g_strdup (_ ("the forged shoe on its plan"));
  return g_strdup_printf (ngettext ("%u attempt", "%u attempts", attempts->len), attempts->len);
}

static void
pr_forged_part_init (PrForgedPart *part)
{
  gtk_widget_init_template (GTK_WIDGET (part));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrForgedPart, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "forged-part.ui");
  gtk_widget_class_bind_template_callback (widget_class, choose_photo);
  gtk_widget_class_bind_template_callback (widget_class, photo_from_phone);
  gtk_widget_class_bind_template_callback (widget_class, leave);
  gtk_widget_class_bind_template_callback (widget_class, draw_edges);
  gtk_widget_class_bind_template_callback (widget_class, lay_chosen);
  gtk_widget_class_bind_template_callback (widget_class, mixed);
  gtk_widget_class_bind_template_callback (widget_class, keep);
  BIND (found);
  BIND (laid);
  BIND (lay);
  BIND (cut);
  BIND (leftover);
  BIND (minutes);
  BIND (verdict);
  BIND (caution);
  BIND (own_head);
  BIND (corrections);
  BIND (sizes);
  BIND (keep);
  BIND (attempts);
  BIND (attempts_head);
  BIND (trouble);
}

static void
pr_forged_part_class_init (PrForgedPartClass *class)
{
  PR_FOLLOWER_CLASS (class)->changed = changed;
  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  g_type_ensure (PR_TYPE_SHOE_LAID);
  bind_template (GTK_WIDGET_CLASS (class));
}
