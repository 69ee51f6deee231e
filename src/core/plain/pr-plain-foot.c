/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folder of one foot. */
#include "pr-plain-parts.h"

#include "pr-error.h"
#include "pr-json.h"
#include "pr-photo-header.h"
#include "pr-record.h"

static const struct {
  const char *format, *suffix;
} suffixes[] = { { "JPEG", "jpg" },  { "PNG", "png" },   { "TIFF", "tif" },
                 { "WebP", "webp" }, { "HEIC", "heic" }, { "AVIF", "avif" } };

const char *
pr_plain_suffix (GBytes *photo)
{
  PrPhotoHeader head;
  gsize len;
  const uint8_t *data = g_bytes_get_data (photo, &len);

  pr_photo_header_read (&head, data, len);
  for (size_t i = 0; i < G_N_ELEMENTS (suffixes); i++)
    if (g_strcmp0 (head.format, suffixes[i].format) == 0)
      return suffixes[i].suffix;
  return "bin";
}

/* "FOLDER/NAME". Transfer full. */
static char *
in (const PrPlainFoot *foot, const char *name)
{
  return g_build_filename (foot->folder, name, NULL);
}

/* What is damaged in the book is left out; all else ends the work. */
static bool
is_left_out (GError *why, PrPlainWritten *written, GError **error)
{
  if (why == NULL)
    return true;
  if (!g_error_matches (why, PR_ERROR, PR_ERROR_BOOK)) {
    g_propagate_error (error, why);
    return false;
  }
  g_debug ("left out: %s", why->message);
  g_error_free (why);
  written->damaged = true;
  return true;
}

static bool
write_photo (PrPlain *plain, const PrPlainFoot *foot, PrPlainWritten *written, GError **error)
{
  GError *why = NULL;
  g_autofree char *name = NULL;
  g_autoptr (GBytes) photo = pr_book_get_photo (plain->book, foot->foot->id, &name, &why);
  g_autofree char *file = photo != NULL ? g_strconcat ("photo.", pr_plain_suffix (photo), NULL) : NULL;
  g_autofree char *path = photo != NULL ? in (foot, file) : NULL;

  written->photo = photo != NULL;
  written->damaged |= photo == NULL && foot->foot->has_photo;
  return is_left_out (why, written, error) && pr_plain_put_bytes (plain, path, photo, error);
}

typedef char *(*GetText) (PrBook *book, PrBookId id, GError **error);

/* *THERE (may be NULL) receives whether there is one. */
static bool
write_text (PrPlain *plain, const PrPlainFoot *foot, GetText get, PrBookId id, const char *name, bool *there,
            PrPlainWritten *written, GError **error)
{
  GError *why = NULL;
  g_autofree char *text = get (plain->book, id, &why);
  g_autofree char *path = in (foot, name);

  if (there != NULL)
    *there = text != NULL;
  return is_left_out (why, written, error) && pr_plain_put_text (plain, path, text, error);
}

/* --- what follows from them --- */

static bool
write_report (PrPlain *plain, const PrPlainFoot *foot, const PrJob *job, GError **error)
{
  PrPageOptions options = *plain->options;
  g_autoptr (JsonNode) node = pr_report_json (job);
  g_autofree char *text = pr_json_text (node, true), *line = g_strconcat (text, "\n", NULL);
  g_autofree char *report = in (foot, "report.json"), *template = in (foot, "template.pdf");
  g_autofree char *file = pr_file_tree_path (plain->tree, template, error);

  options.horse = foot->horse->name;
  options.date = foot->visit->date;
  return file != NULL && pr_plain_put_text (plain, report, line, error)
         && pr_write_template_pdf (job, &options, file, error);
}

/* Where there is no line yet there is nothing to make. */
static bool
write_made (PrPlain *plain, const PrPlainFoot *foot, PrPlainWritten *written, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (GError) why = NULL;
  PrRecord record;

  if (!written->trace)
    return true;
  job->unit = plain->options->unit;
  if (!pr_record_read (plain->book, foot->foot->id, job, &record, &why)) {
    g_debug ("left out: %s", why->message);
    written->damaged = true;
    return true;
  }
  if (record.plan)
    written->style = g_strdup (job->sources.plan.style);
  written->report = record.outline && record.plan && job->shoe != NULL;
  return !written->report || write_report (plain, foot, job, error);
}

/* --- attempts --- */

static bool
write_attempt (PrPlain *plain, const PrPlainFoot *foot, const PrBookAttempt *attempt, guint number,
               PrPlainWritten *written, GError **error)
{
  GError *why = NULL;
  g_autoptr (GBytes) photo = pr_book_attempt_photo (plain->book, attempt->id, &why);
  g_autofree char *stem = g_strdup_printf ("%s/attempt-%u", foot->folder, number);
  g_autofree char *json = g_strconcat (stem, ".json", NULL);
  g_autofree char *compared = g_strdup_printf ("attempt-%u-comparison.json", number);
  g_autofree char *picture
      = photo != NULL ? g_strconcat (stem, "-photo.", pr_plain_suffix (photo), NULL) : NULL;

  return is_left_out (why, written, error) && pr_plain_attempt (plain, json, attempt, error)
         && pr_plain_put_bytes (plain, picture, photo, error)
         && (!attempt->has_compared
             || write_text (plain, foot, pr_book_attempt_compared, attempt->id, compared, NULL, written,
                            error));
}

static bool
write_attempts (PrPlain *plain, const PrPlainFoot *foot, PrPlainWritten *written, GError **error)
{
  g_autoptr (GPtrArray) attempts = pr_book_attempts (plain->book, foot->foot->id, error);

  for (guint i = 0; attempts != NULL && i < attempts->len; i++) {
    if (!write_attempt (plain, foot, attempts->pdata[i], i + 1, written, error))
      return false;
    written->attempts++;
  }
  return attempts != NULL;
}

bool
pr_plain_foot (PrPlain *plain, const PrPlainFoot *foot, PrPlainWritten *written, GError **error)
{
  return write_photo (plain, foot, written, error)
         && write_text (plain, foot, pr_book_get_trace, foot->foot->id, "trace.json", &written->trace,
                        written, error)
         && write_text (plain, foot, pr_book_get_plan, foot->foot->id, "plan.json", &written->plan, written,
                        error)
         && write_made (plain, foot, written, error) && write_attempts (plain, foot, written, error);
}
