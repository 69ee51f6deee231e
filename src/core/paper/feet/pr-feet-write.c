/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-feet-write.h"

#include <glib/gi18n-lib.h>

#include "pr-atomic-file.h"
#include "pr-feet-page.h"
#include "pr-language.h"
#include "pr-pdf.h"

/* --- for a printer --- */

typedef struct {
  GPtrArray *jobs; /* PrJob, owned */
  PrFace face;
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  g_ptr_array_unref (held->jobs);
  g_free (held);
}

static gpointer
lay (gpointer data, const PrPageOptions *options)
{
  const Held *held = data;

  return pr_feet_page_new (held->jobs, held->face, options);
}

static void
size (gpointer page, double *width, double *height)
{
  pr_feet_page_size (page, width, height);
}

static void
draw (gpointer page, int nr, cairo_t *cr)
{
  (void) nr;
  pr_feet_page_draw (page, cr);
}

static void
page_free (gpointer page)
{
  pr_feet_page_free (page);
}

static const PrSheafKind kind = { lay, NULL, size, draw, page_free };

PrSheaf *
pr_feet_sheaf_new (const GPtrArray *jobs, PrFace face)
{
  Held *held = g_new0 (Held, 1);

  held->face = face;
  held->jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_job_free);
  for (guint i = 0; i < jobs->len; i++)
    g_ptr_array_add (held->jobs, pr_job_copy (jobs->pdata[i]));
  return pr_sheaf_new_pages (&kind, _ ("all four feet"), held, held_free);
}

/* --- as a file --- */

bool
pr_feet_write (const GPtrArray *jobs, PrFace face, const PrPageOptions *options, const char *file,
               GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrFeetPage) page = pr_feet_page_new (jobs, face, options);
  g_autoptr (GByteArray) pdf = g_byte_array_new ();
  double width, height;

  pr_feet_page_size (page, &width, &height);
  return pr_pdf_make (pdf, width, height, _ ("All four feet"), 1, draw, page, error)
         && pr_atomic_file_write (file, (const char *) pdf->data, pdf->len, error);
}
