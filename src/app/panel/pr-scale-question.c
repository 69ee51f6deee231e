/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-scale-question.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"

struct _PrScaleQuestion {
  PrFollower parent_instance;
  GtkWidget *trust, *paper_true, *print_true, *papers, *paper_list;
};

G_DEFINE_FINAL_TYPE (PrScaleQuestion, pr_scale_question, PR_TYPE_FOLLOWER)

static void
trust_paper (PrScaleQuestion *question)
{
  pr_document_trust (pr_document_of (question), PR_TRUST_PAPER);
}

static void
trust_print (PrScaleQuestion *question)
{
  pr_document_trust (pr_document_of (question), PR_TRUST_PRINT);
}

static void
paper_picked (GtkButton *button, gpointer paper)
{
  pr_document_take_paper (pr_document_of (button), (PrPaper) GPOINTER_TO_INT (paper));
}

static void
show_papers (PrScaleQuestion *question, const PrJob *job)
{
  PrPaper paper[PR_N_PAPERS];
  double foot[PR_N_PAPERS];
  size_t n = pr_document_papers (pr_document_of (question), paper, foot);

  pr_empty (question->paper_list);
  for (size_t i = 0; i < n; i++) {
    g_autofree char *width = pr_length_text (foot[i], job->unit);
    /* TRANSLATORS: a paper's name, and how wide the foot is if the sheet is that paper */
    g_autofree char *text = g_strdup_printf (_ ("%s: foot %s wide"), pr_paper_name (paper[i]), width);
    GtkWidget *button = gtk_button_new_with_label (text);

    gtk_widget_set_halign (button, GTK_ALIGN_START);
    g_signal_connect (button, "clicked", G_CALLBACK (paper_picked), GINT_TO_POINTER (paper[i]));
    gtk_box_append (GTK_BOX (question->paper_list), button);
  }
}

static void
changed (PrFollower *follower, guint what)
{
  PrScaleQuestion *question = PR_SCALE_QUESTION (follower);
  const PrJob *job = pr_job_of (question);
  const PrScale *scale = job ? pr_sources_scale (&job->sources) : NULL;

  if (!job || !(what & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HISTORY)))
    return;
  gtk_widget_set_visible (question->trust, scale && scale->question == PR_QUESTION_TRUST);
  bool papers = pr_document_wants_paper (pr_document_of (question));
  gtk_widget_set_visible (question->papers, papers);
  gtk_widget_set_sensitive (question->paper_true, scale && scale->trust != PR_TRUST_PAPER);
  gtk_widget_set_sensitive (question->print_true, scale && scale->trust != PR_TRUST_PRINT);
  if (papers)
    show_papers (question, job);
}

static void
pr_scale_question_init (PrScaleQuestion *question)
{
  gtk_widget_init_template (GTK_WIDGET (question));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrScaleQuestion, name)

static void
pr_scale_question_class_init (PrScaleQuestionClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "scale-question.ui");
  gtk_widget_class_bind_template_callback (widget_class, trust_paper);
  gtk_widget_class_bind_template_callback (widget_class, trust_print);
  BIND (trust);
  BIND (paper_true);
  BIND (print_true);
  BIND (papers);
  BIND (paper_list);
}
