/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-made.h"

#include "pr-compare.h"
#include "pr-document-diary.h"
#include "pr-document-forged.h"
#include "pr-export-names.h"
#include "pr-print.h"
#include "pr-vet-kept.h"
#include "pr-vet-sheaf.h"
#include "pr-vet-write.h"

/* The last attempt whose shoe can be laid on the plan as it is now. */
static void
take_kept (PrVetMade *made, PrDocument *doc)
{
  g_autoptr (GPtrArray) attempts = pr_document_attempts (doc);
  const PrJob *job = pr_document_job (doc);

  for (guint i = attempts->len; i-- > 0 && !made->has_kept;) {
    const PrBookAttempt *one = attempts->pdata[i];
    g_autofree char *json
        = one->has_compared ? pr_book_attempt_compared (pr_document_book (doc), one->id, NULL) : NULL;

    if (!json || !pr_vet_kept_read (json, job->sources.foot, &made->kept, &made->lay))
      continue;
    made->has_kept = pr_compare (&made->laid, job, &made->kept, made->lay, NULL);
    if (!made->has_kept)
      pr_seen_clear (&made->kept);
  }
}

bool
pr_vet_made_start (PrVetMade *made, PrDocument *doc, GError **error)
{
  *made = (PrVetMade){ 0 };
  if (!pr_book_get_foot (pr_document_book (doc), pr_document_foot_id (doc), NULL, &made->visit, NULL, error))
    return false;
  take_kept (made, doc);
  return true;
}

void
pr_vet_made_clear (PrVetMade *made)
{
  pr_book_visit_clear (&made->visit);
  pr_seen_clear (&made->kept);
  if (made->has_kept)
    pr_comparison_clear (&made->laid);
  made->has_kept = false;
}

PrVetAbout
pr_vet_made_about (const PrVetMade *made, PrDocument *doc, const PrVetNote *note)
{
  const PrComparison *forged = pr_document_forged (doc);

  return (PrVetAbout){ pr_document_job (doc), forged ? forged : made->has_kept ? &made->laid : NULL, note };
}

static PrPageOptions
page_options (PrDocument *doc, char **horse, char **day)
{
  bool inch = pr_document_unit (doc) == PR_UNIT_INCH;
  PrPageOptions options = pr_print_options (doc, inch ? PR_PAPER_LETTER : PR_PAPER_A4);

  *horse = pr_print_horse (doc, day);
  options.horse = *horse;
  options.date = *day;
  return options;
}

PrVetPage *
pr_vet_made_page (const PrVetAbout *about, PrDocument *doc)
{
  g_autofree char *horse = NULL, *day = NULL;
  PrPageOptions options = page_options (doc, &horse, &day);

  return about->job && about->job->shoe ? pr_vet_page_new (about, &options) : NULL;
}

PrSheaf *
pr_vet_made_sheaf (const PrVetMade *made, PrDocument *doc, const PrVetNote *note)
{
  const PrComparison *forged = pr_document_forged (doc);
  const PrSeen *seen = forged ? pr_document_forged_seen (doc) : made->has_kept ? &made->kept : NULL;
  PrSheaf *sheaf = pr_vet_sheaf_new (pr_document_job (doc), note, seen, forged ? forged->lay : made->lay);
  g_autofree char *stem = pr_print_stem (doc), *title = g_strconcat (stem, "-vet", NULL);
  g_autofree char *day = NULL, *horse = pr_print_horse (doc, &day);

  pr_sheaf_set_title (sheaf, title);
  pr_sheaf_set_horse (sheaf, horse, day);
  return sheaf;
}

bool
pr_vet_made_write (const PrVetMade *made, PrDocument *doc, const PrVetNote *note, const char *dir,
                   GError **error)
{
  const PrVetAbout about = pr_vet_made_about (made, doc, note);
  g_autofree char *horse = NULL, *day = NULL, *stem = pr_print_stem (doc);
  PrPageOptions options = page_options (doc, &horse, &day);
  g_autofree char *free_stem = pr_export_free_stem (dir, stem, pr_vet_write_names ());
  g_autofree char *name = g_filename_from_utf8 (free_stem, -1, NULL, NULL, NULL);

  return pr_vet_write (&about, &options, dir, name ? name : free_stem, error);
}

bool
pr_vet_made_keep (PrVetMade *made, PrDocument *doc, const PrVetNote *note, GError **error)
{
  PrBookVisit visit = made->visit;
  g_autofree char *json = pr_vet_note_json (note);

  visit.vet = json;
  if (!pr_document_describe_visit (doc, &visit, error))
    return false;
  g_free (made->visit.vet);
  made->visit.vet = g_steal_pointer (&json);
  return true;
}
