/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-atomic-file.h"
#include "pr-dxf.h"
#include "pr-json.h"
#include "pr-template.h"

#include <string.h>

/* What goes into a folder, DXF and chosen pages only when asked for. The report that other programs read comes last: where it
 * is, all of its set is. */
enum {
  TEMPLATE_PDF,
  TEMPLATE_SVG,
  TEMPLATE_PNG,
  TEMPLATE_DXF,
  BAR_PDF,
  STAGES_SVG,
  CARD_PDF,
  PAGES_PDF,
  REPORT_TXT,
  REPORT_JSON,
  N_FILES
};

/* The files, in memory; empty when not asked for. */
static bool
make_all (const PrJob *job, const PrPageOptions *options, GByteArray *bytes[N_FILES], GError **error)
{
  for (int i = 0; i < N_FILES; i++)
    bytes[i] = g_byte_array_new ();
  g_autofree char *text = pr_report_text (job, options->unit);
  g_byte_array_append (bytes[REPORT_TXT], (const guint8 *) text, (guint) strlen (text));
  g_autoptr (JsonNode) node = pr_report_json (job);
  g_autofree char *json = pr_json_text (node, true);
  g_byte_array_append (bytes[REPORT_JSON], (const guint8 *) json, (guint) strlen (json));
  g_byte_array_append (bytes[REPORT_JSON], (const guint8 *) "\n", 1);
  if (options->dxf)
    pr_make_template_dxf (job, PR_FACE_FOOT, bytes[TEMPLATE_DXF]);
  return pr_make_template_pdf (job, options, bytes[TEMPLATE_PDF], error)
         && pr_make_template_svg (job, PR_FACE_FOOT, options, bytes[TEMPLATE_SVG], error)
         && pr_make_template_png (job, PR_FACE_FOOT, options, PR_PNG_PX_PER_MM, bytes[TEMPLATE_PNG], error)
         && pr_make_bar_pdf (job, options, bytes[BAR_PDF], error)
         && pr_make_stages_svg (job, bytes[STAGES_SVG], error)
         && pr_make_card_pdf (job, options, bytes[CARD_PDF], error)
         && (options->n_docs == 0
             || pr_make_pdf (options->doc, options->n_docs, job, options, bytes[PAGES_PDF], error));
}

static const char *const names[N_FILES + 1] = {
  [TEMPLATE_PDF] = "template.pdf", [TEMPLATE_SVG] = "template.svg", [TEMPLATE_PNG] = "template.png",
  [BAR_PDF] = "bar.pdf",           [REPORT_TXT] = "report.txt",     [REPORT_JSON] = "report.json",
  [TEMPLATE_DXF] = "template.dxf", [CARD_PDF] = "card.pdf",         [PAGES_PDF] = "pages.pdf",
  [STAGES_SVG] = "stages.svg",
};

const char *const *
pr_write_all_names (void)
{
  return names;
}

/* Where file I goes. Transfer full. */
static char *
file_in (const char *dir, const char *stem, int i)
{
  g_autofree char *text = stem ? g_strdup_printf ("%s-%s", stem, names[i]) : g_strdup (names[i]);
  g_autofree char *name = g_filename_from_utf8 (text, -1, NULL, NULL, NULL);

  return g_build_filename (dir, name ? name : text, NULL);
}

static bool
place_all (GByteArray *bytes[N_FILES], const char *dir, const char *stem, GError **error)
{
  PrAtomicFile files[N_FILES];
  char *path[N_FILES];
  bool done;

  for (int i = 0; i < N_FILES; i++) {
    bool made = bytes[i]->len > 0;

    path[i] = file_in (dir, stem, i);
    files[i] = (PrAtomicFile){ path[i], made ? (const char *) bytes[i]->data : NULL, bytes[i]->len };
  }
  done = pr_atomic_files_write (files, N_FILES, error);
  for (int i = 0; i < N_FILES; i++)
    g_free (path[i]);
  return done;
}

bool
pr_write_all (const PrJob *job, const PrPageOptions *options, const char *dir, GError **error)
{
  GByteArray *bytes[N_FILES];
  bool done = make_all (job, options, bytes, error) && place_all (bytes, dir, options->stem, error);

  for (int i = 0; i < N_FILES; i++)
    g_byte_array_unref (bytes[i]);
  return done;
}
