/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-plain.h"

#include <glib/gi18n-lib.h>
#include "pr-document-private.h"
#include "pr-file-tree.h"
#include "pr-plain.h"
#include "pr-words.h"

#define COPIED 0.2 /* of the whole, when the copy is there */

typedef struct {
  PrDocument *doc;
  PrFileTree *nest; /* where the copy lies: beside what is made of it, and gone after it */
  PrBackupWork *work;
  char *copy, *above, *today, *folder; /* FOLDER: what came of it */
  PrPageOptions options;
  PrPlainCount count;
} Plain;

static void
plain_free (gpointer data)
{
  Plain *p = data;

  pr_backup_work_free (p->work);
  pr_file_tree_free (p->nest);
  g_free (p->copy);
  g_free (p->above);
  g_free (p->today);
  g_free (p->folder);
  g_free (p);
}

/* The copy is a book of this thread. */
static bool
write_all (gpointer data, const PrBookWork *way, GError **error)
{
  Plain *p = data;

  if (!pr_backup_work_check (p->work, way->stop, error)
      || !pr_backup_work_settle (g_steal_pointer (&p->work), error))
    return false;
  g_autoptr (PrBook) book = pr_book_open (p->copy, error);
  if (book)
    p->folder = pr_plain_write (book, p->above, p->today, &p->options, way, &p->count, error);
  return p->folder != NULL;
}

static void
written (PrErrand *errand, const GError *error, gpointer data)
{
  const Plain *p = data;
  PrDocument *doc = p->doc;
  gint64 damaged = p->count.damaged;
  g_autofree char *name = p->folder ? g_filename_display_name (p->folder) : NULL;
  g_autofree char *said
      = g_strdup_printf (_ ("The whole book was written as plain files to %s."), name ? name : "");
  g_autofree char *left_out = pr_plain_left_out (&p->count);

  if (!pr_document_end_errand (doc, error))
    return;
  pr_document_say (doc, said);
  if (damaged > 0)
    pr_document_trouble (doc, left_out);
}

static void
copied (PrErrand *errand, const GError *error, gpointer data)
{
  if (error)
    pr_document_end_errand (((Plain *) data)->doc, error);
  else
    pr_errand_run (errand, write_all, COPIED, 1, written);
}

static bool
make_nest (Plain *p, PrBook *book, GError **error)
{
  p->nest = pr_file_tree_begin (p->above, "copy", error);
  p->copy = p->nest ? pr_file_tree_path (p->nest, "book", error) : NULL;
  p->work = p->copy ? pr_backup_work_new (book, p->copy, error) : NULL;
  return p->work != NULL;
}

bool
pr_document_write_plain (PrDocument *doc, const char *above, PrPaper paper, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  Plain *p = g_new0 (Plain, 1);
  PrErrand *errand;

  p->doc = doc;
  p->above = g_strdup (above);
  p->today = pr_words_today ();
  p->options = (PrPageOptions) PR_PAGE_OPTIONS_DEFAULT;
  p->options.paper = paper;
  p->options.unit = doc->unit;
  errand = pr_document_begin_errand (doc, _ ("writing plain files"), p, plain_free, error);
  if (!errand)
    return false;
  if (make_nest (p, doc->book, error)) {
    pr_errand_copy (errand, p->work, 0, COPIED, copied);
    return true;
  }
  pr_document_end_errand (doc, NULL);
  return false;
}
