/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing-part.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-fact-line.h"
#include "pr-words.h"

#define PEN_MOST_MM 10.0 /* thicker than any marker */

struct _PrTracingPart {
  PrFollower parent_instance;
  GtkWidget *paper_line, *paper, *pen, *trouble, *doubts, *doubt_list, *buttons, *others;
  GtkWidget *pen_line, *again, *mark; /* of a tracing, not of a specimen */
  bool showing;                       /* controls are being filled, not used */
};

G_DEFINE_FINAL_TYPE (PrTracingPart, pr_tracing_part, PR_TYPE_FOLLOWER)

/* --- paper --- */

/* Corners of a paper marked by hand; its sides follow the choice. */
static bool
by_marked_paper (const PrTraceOptions *asked)
{
  return asked->method == PR_SCALE_RECT && asked->n_points == 4 && asked->paper != PR_PAPER_UNKNOWN;
}

static PrPaper
paper_used (const PrJob *job, const PrTraceOptions *asked)
{
  return by_marked_paper (asked) ? asked->paper : job->sources.tracing->scale.paper;
}

static void
paper_chosen (PrTracingPart *part)
{
  PrDocument *doc = pr_document_of (part);
  const PrJob *job = pr_job_of (part);
  PrPaper paper = (PrPaper) gtk_drop_down_get_selected (GTK_DROP_DOWN (part->paper));

  if (!part->showing && job && job->sources.tracing && paper != paper_used (job, pr_document_asked (doc)))
    pr_document_take_paper (doc, paper);
}

/* --- pen --- */

static bool
read_pen (PrTracingPart *part, double *mm)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (part->pen));
  g_autoptr (GError) error = NULL;

  *mm = 0;
  if (*text && !pr_length_parse (text, pr_document_unit (pr_document_of (part)), mm, &error)) {
    pr_tell (part->trouble, error->message);
    return false;
  }
  if (!(*mm >= 0 && *mm <= PEN_MOST_MM)) {
    pr_tell (part->trouble, _ ("No pen is as thick as that; measure the stroke on the sheet."));
    return false;
  }
  pr_tell (part->trouble, NULL);
  return true;
}

static void
trace_again (PrTracingPart *part)
{
  PrDocument *doc = pr_document_of (part);
  PrTraceOptions options = *pr_document_asked (doc);

  if (pr_document_job (doc) && read_pen (part, &options.pen_mm))
    pr_document_trace_again (doc, &options);
}

/* --- other feet on the sheet --- */

static void
take_other (PrTracingPart *part)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_take_line (pr_document_of (part), 0, &error))
    pr_tell (part->trouble, error->message);
}

static void
file_other (PrTracingPart *part)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_file_line (pr_document_of (part), 0, &error))
    pr_tell (part->trouble, error->message);
}

static void
leave_others (PrTracingPart *part)
{
  pr_document_leave_lines (pr_document_of (part));
}

/* --- showing --- */

/* Transfer full. */
static char *
doubt_text (const PrDoubt *doubt, PrUnit unit)
{
  g_autofree char *from = pr_words_number (doubt->from_mm, unit);
  g_autofree char *to = pr_words_length (doubt->to_mm, unit);

  /* TRANSLATORS: a stretch of the hoof's line, from and to measured along it, and what is wrong */
  return g_strdup_printf (_ ("◆ %s to %s along the outline: %s"), from, to,
                          doubt->why ? doubt->why : _ ("doubtful"));
}

static void
show_doubts (PrTracingPart *part, const PrJob *job)
{
  size_t n = job->sources.tracing ? job->sources.tracing->n_doubt : 0;

  pr_empty (part->doubt_list);
  gtk_widget_set_visible (part->doubts, n > 0);
  for (size_t i = 0; i < n; i++) {
    g_autofree char *text = doubt_text (&job->sources.tracing->doubt[i], job->unit);

    gtk_box_append (GTK_BOX (part->doubt_list), pr_fact_line_new (text, NULL));
  }
}

static void
show_pen (PrTracingPart *part, const PrTraceOptions *asked, PrUnit unit)
{
  g_autofree char *text = asked->pen_mm > 0 ? pr_length_text (asked->pen_mm, unit) : g_strdup ("");

  gtk_editable_set_text (GTK_EDITABLE (part->pen), text);
}

static void
show_paper (PrTracingPart *part, const PrJob *job, const PrTraceOptions *asked)
{
  PrPaper paper = paper_used (job, asked);

  gtk_widget_set_visible (part->paper_line, !pr_sources_is_specimen (&job->sources)
                                                && (job->sources.tracing->scale.method == PR_SCALE_PLAIN
                                                    || by_marked_paper (asked)));
  if (paper != PR_PAPER_UNKNOWN)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (part->paper), (guint) paper);
}

static void
changed (PrFollower *follower, guint what)
{
  PrTracingPart *part = PR_TRACING_PART (follower);
  PrDocument *doc = pr_document_of (part);
  const PrJob *job = pr_job_of (part);

  if (!job
      || !(what
           & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_STAGE | PR_CHANGED_HISTORY)))
    return;
  part->showing = true;
  gtk_widget_set_visible (part->buttons, pr_sources_scale (&job->sources) != NULL);
  bool traced = !pr_sources_is_specimen (&job->sources);
  gtk_widget_set_visible (part->pen_line, traced);
  gtk_widget_set_visible (part->again, traced);
  gtk_widget_set_visible (part->mark, traced);
  if (pr_sources_scale (&job->sources))
    show_paper (part, job, pr_document_asked (doc));
  show_pen (part, pr_document_asked (doc), pr_document_unit (doc));
  show_doubts (part, job);
  gtk_widget_set_visible (part->others, job->sources.tracing && job->sources.tracing->n_other > 0
                                            && pr_sources_has_outline (&job->sources));
  pr_tell (part->trouble, NULL);
  part->showing = false;
}

/* --- the class --- */

static void
pr_tracing_part_init (PrTracingPart *part)
{
  gtk_widget_init_template (GTK_WIDGET (part));
  part->showing = true;
  for (int i = 0; i < PR_N_PAPERS; i++)
    gtk_string_list_append (GTK_STRING_LIST (gtk_drop_down_get_model (GTK_DROP_DOWN (part->paper))),
                            pr_paper_name ((PrPaper) i));
  part->showing = false;
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrTracingPart, name)

static void
pr_tracing_part_class_init (PrTracingPartClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "tracing-part.ui");
  gtk_widget_class_bind_template_callback (widget_class, paper_chosen);
  gtk_widget_class_bind_template_callback (widget_class, trace_again);
  gtk_widget_class_bind_template_callback (widget_class, take_other);
  gtk_widget_class_bind_template_callback (widget_class, file_other);
  gtk_widget_class_bind_template_callback (widget_class, leave_others);
  BIND (paper_line);
  BIND (paper);
  BIND (pen);
  BIND (trouble);
  BIND (doubts);
  BIND (doubt_list);
  BIND (buttons);
  BIND (others);
  BIND (pen_line);
  BIND (again);
  BIND (mark);
}
