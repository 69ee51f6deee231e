/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing-part.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-words.h"

#define PEN_MOST_MM 10.0 /* thicker than any marker */

struct _PrTracingPart {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *paper_line, *paper, *pen, *trouble, *doubts, *buttons;
  bool showing;
};

G_DEFINE_FINAL_TYPE (PrTracingPart, pr_tracing_part, GTK_TYPE_BOX)

static GtkWidget *
caption (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, class);
  return label;
}

static void
tell (PrTracingPart *part, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (part->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (part->trouble, sentence != NULL);
}

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
  return by_marked_paper (asked) ? asked->paper : job->tracing->scale.paper;
}

static void
paper_chosen (PrTracingPart *part)
{
  const PrJob *job = pr_document_job (part->doc);
  PrTraceOptions options = *pr_document_asked (part->doc);
  PrPaper paper = (PrPaper) gtk_drop_down_get_selected (GTK_DROP_DOWN (part->paper));
  double w, h;

  if (part->showing || !job || !job->tracing || paper == paper_used (job, &options))
    return;
  pr_paper_size (paper, &w, &h);
  if (by_marked_paper (&options)) {
    bool across = options.side_mm[0] > options.side_mm[1];

    options.side_mm[0] = across ? h : w;
    options.side_mm[1] = across ? w : h;
  }
  options.paper = paper;
  pr_document_trace_again (part->doc, &options);
}

/* --- pen --- */

static bool
read_pen (PrTracingPart *part, double *mm)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (part->pen));
  g_autoptr (GError) error = NULL;

  *mm = 0;
  if (*text && !pr_length_parse (text, pr_document_unit (part->doc), mm, &error)) {
    tell (part, error->message);
    return false;
  }
  if (!(*mm >= 0 && *mm <= PEN_MOST_MM)) {
    tell (part, _ ("No pencil or marker is as thick as that; measure the stroke on the sheet."));
    return false;
  }
  tell (part, NULL);
  return true;
}

static void
trace_again (PrTracingPart *part)
{
  PrTraceOptions options = *pr_document_asked (part->doc);

  if (pr_document_job (part->doc) && read_pen (part, &options.pen_mm))
    pr_document_trace_again (part->doc, &options);
}

/* --- showing --- */

static void
show_doubts (PrTracingPart *part, const PrJob *job)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (part->doubts)))
    gtk_box_remove (GTK_BOX (part->doubts), child);
  gtk_widget_set_visible (part->doubts, job->tracing && job->tracing->n_doubt > 0);
  if (!job->tracing || job->tracing->n_doubt == 0)
    return;
  gtk_box_append (GTK_BOX (part->doubts), caption (_ ("Doubtful, dotted on the board"), "subheading"));
  for (size_t i = 0; i < job->tracing->n_doubt; i++) {
    const PrDoubt *doubt = &job->tracing->doubt[i];
    g_autofree char *from = pr_words_number (doubt->from_mm, job->unit);
    g_autofree char *to = pr_words_length (doubt->to_mm, job->unit);
    /* TRANSLATORS: a stretch of the hoof's line, from and to measured along it, and what is wrong */
    g_autofree char *text = g_strdup_printf (_ ("◆ %s to %s along the line: %s"), from, to,
                                             doubt->why ? doubt->why : _ ("doubtful"));

    gtk_box_append (GTK_BOX (part->doubts), caption (text, "soft"));
  }
}

static void
show_pen (PrTracingPart *part, const PrTraceOptions *asked, PrUnit unit)
{
  g_autofree char *text = asked->pen_mm > 0 ? pr_length_text (asked->pen_mm, unit) : g_strdup ("");

  gtk_editable_set_text (GTK_EDITABLE (part->pen), text);
}

static void
document_changed (PrTracingPart *part, guint what)
{
  const PrJob *job = pr_document_job (part->doc);
  const PrTraceOptions *asked = pr_document_asked (part->doc);
  PrPaper paper;

  if (!job
      || !(what
           & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_STAGE | PR_CHANGED_HISTORY)))
    return;
  part->showing = true;
  gtk_widget_set_visible (part->buttons, pr_sources_scale (&job->sources) != NULL);
  if (pr_sources_scale (&job->sources)) {
    paper = paper_used (job, asked);
    gtk_widget_set_visible (part->paper_line,
                            job->tracing->scale.method == PR_SCALE_PLAIN || by_marked_paper (asked));
    if (paper != PR_PAPER_UNKNOWN)
      gtk_drop_down_set_selected (GTK_DROP_DOWN (part->paper), (guint) paper);
  }
  show_pen (part, asked, pr_document_unit (part->doc));
  show_doubts (part, job);
  tell (part, NULL);
  part->showing = false;
}

/* --- building --- */

static GtkWidget *
line_of (const char *label, GtkWidget *editor)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *words = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), editor);
  gtk_accessible_update_property (GTK_ACCESSIBLE (editor), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return line;
}

static GtkWidget *
paper_choice (PrTracingPart *part)
{
  GtkStringList *papers = gtk_string_list_new (NULL);

  for (int i = 0; i < PR_N_PAPERS; i++)
    gtk_string_list_append (papers, pr_paper_name ((PrPaper) i));
  part->paper = gtk_drop_down_new (G_LIST_MODEL (papers), NULL);
  g_signal_connect_swapped (part->paper, "notify::selected", G_CALLBACK (paper_chosen), part);
  part->paper_line = line_of (_ ("Paper"), part->paper);
  return part->paper_line;
}

static GtkWidget *
pen_entry (PrTracingPart *part)
{
  part->pen = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (part->pen), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (part->pen), 8);
  gtk_entry_set_placeholder_text (GTK_ENTRY (part->pen), _ ("none"));
  gtk_widget_set_tooltip_text (part->pen, _ ("Width of the pencil's stroke: the wall is taken half of "
                                             "that inside the middle of the line"));
  g_signal_connect_swapped (part->pen, "activate", G_CALLBACK (trace_again), part);
  return line_of (_ ("Pen allowance"), part->pen);
}

static GtkWidget *
button (const char *label, const char *action)
{
  GtkWidget *widget = gtk_button_new_with_label (label);

  if (action)
    gtk_actionable_set_action_name (GTK_ACTIONABLE (widget), action);
  gtk_widget_set_halign (widget, GTK_ALIGN_START);
  return widget;
}

static void
pr_tracing_part_dispose (GObject *object)
{
  g_clear_object (&PR_TRACING_PART (object)->doc);
  G_OBJECT_CLASS (pr_tracing_part_parent_class)->dispose (object);
}

static void
pr_tracing_part_init (PrTracingPart *part)
{
  GtkWidget *again = button (_ ("Trace again"), NULL);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (part), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (part), 6);
  part->trouble = caption ("", "trouble");
  part->doubts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  part->buttons = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_signal_connect_swapped (again, "clicked", G_CALLBACK (trace_again), part);
  gtk_box_append (GTK_BOX (part->buttons), button (_ ("Draw the line…"), "win.draw-line"));
  gtk_box_append (GTK_BOX (part->buttons), again);
  gtk_box_append (GTK_BOX (part->buttons), button (_ ("Mark the scale by hand…"), "win.mark-scale"));
  for (GtkWidget **child = (GtkWidget *[]){ part->doubts, paper_choice (part), pen_entry (part),
                                            part->trouble, part->buttons, NULL };
       *child; child++)
    gtk_box_append (GTK_BOX (part), *child);
  gtk_widget_set_visible (part->trouble, FALSE);
}

static void
pr_tracing_part_class_init (PrTracingPartClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_tracing_part_dispose;
}

GtkWidget *
pr_tracing_part_new (PrDocument *doc)
{
  PrTracingPart *part = g_object_new (PR_TYPE_TRACING_PART, NULL);

  part->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), part, G_CONNECT_SWAPPED);
  document_changed (part, PR_CHANGED_ALL);
  return GTK_WIDGET (part);
}
