/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-pdf.h"

#include "pr-error.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

cairo_status_t
pr_bytes_take (void *closure, const unsigned char *data, unsigned int len)
{
  g_byte_array_append (closure, data, len);
  return CAIRO_STATUS_SUCCESS;
}

/* Its bytes are appended to BYTES. Surfaces of 1.4: for these every cairo writes a table that can be added to. */
static cairo_surface_t *
surface_new (GByteArray *bytes, double width, double height, const char *title)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (pr_bytes_take, bytes, width * PR_PT_PER_MM,
                                                                  height * PR_PT_PER_MM);

  cairo_pdf_surface_restrict_to_version (surface, CAIRO_PDF_VERSION_1_4);
  if (title != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Pritchel " PR_VERSION);
  return surface;
}

bool
pr_surface_close (cairo_surface_t *surface, GError **error)
{
  cairo_surface_finish (surface);
  cairo_status_t status = cairo_surface_status (surface);

  if (status == CAIRO_STATUS_SUCCESS)
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("The page could not be drawn (%s); close other programs and try again."),
               cairo_status_to_string (status));
  return false;
}

/* Last place of WORD in the N bytes at DATA, or NULL. Streams may hold NULs: no string search. */
static const char *
find_last (const char *data, gsize n, const char *word)
{
  gsize len = strlen (word);

  for (gsize at = n >= len ? n - len + 1 : 0; at-- > 0;)
    if (memcmp (data + at, word, len) == 0)
      return data + at;
  return NULL;
}

/* The whole number behind KEY in the text at FROM; FALSE when it is not there. */
static bool
number_after (const char *from, const char *key, long *value)
{
  const char *at = strstr (from, key);
  char *end;

  if (at == NULL)
    return false;
  at += strlen (key);
  *value = strtol (at, &end, 10);
  return end != at && *value >= 0;
}

/* Inside of the dictionary of object NUMBER, outer brackets left off. Transfer full. */
static char *
object_dictionary (const char *text, gsize len, long number)
{
  g_autofree char *head = g_strdup_printf ("\n%ld 0 obj", number);
  const char *at = find_last (text, len, head);
  const char *open = at != NULL ? strstr (at, "<<") : NULL;
  const char *end = open != NULL ? strstr (open, "endobj") : NULL;
  const char *shut = end != NULL ? find_last (open, (gsize) (end - open), ">>") : NULL;

  return shut != NULL ? g_strndup (open + 2, (gsize) (shut - open - 2)) : NULL;
}

static bool
not_ours (GError **error)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                       _ ("The PDF could not be marked for printing at actual size; "
                          "save the template as SVG or PNG instead."));
  return false;
}

static void
append_text (GByteArray *pdf, const char *text)
{
  g_byte_array_append (pdf, (const guint8 *) text, (guint) strlen (text));
}

/* Catalog, cross-reference section of one object, trailer. */
static void
append_update (GByteArray *pdf, long root, long size, long info, long prev, const char *catalog)
{
  g_autofree char *info_text = info > 0 ? g_strdup_printf ("   /Info %ld 0 R\n", info) : g_strdup ("");

  append_text (pdf, "\n");
  guint object_at = pdf->len;
  g_autofree char *object = g_strdup_printf ("%ld 0 obj\n<< %s\n   /Version /1.6\n"
                                             "   /ViewerPreferences << /PrintScaling /None >>\n>>\nendobj\n",
                                             root, catalog);
  append_text (pdf, object);
  guint xref_at = pdf->len;
  g_autofree char *tail = g_strdup_printf (
      "xref\n0 1\n0000000000 65535 f \n%ld 1\n%010u 00000 n \n"
      "trailer\n<< /Size %ld\n   /Root %ld 0 R\n%s   /Prev %ld\n>>\nstartxref\n%u\n%%%%EOF\n",
      root, object_at, size, root, info_text, prev, xref_at);
  append_text (pdf, tail);
}

bool
pr_pdf_finish (GByteArray *pdf, GError **error)
{
  /* A closing NUL lets the text functions stop; it is taken off again at once. */
  g_byte_array_append (pdf, (const guint8 *) "", 1);
  g_byte_array_set_size (pdf, pdf->len - 1);
  const char *text = (const char *) pdf->data;
  const char *start = find_last (text, pdf->len, "startxref");
  const char *trailer = find_last (text, pdf->len, "trailer");
  long root, size, prev, info = 0;

  if (start == NULL || trailer == NULL || trailer > start || !number_after (start, "startxref", &prev)
      || !number_after (trailer, "/Root", &root) || !number_after (trailer, "/Size", &size))
    return not_ours (error);
  (void) number_after (trailer, "/Info", &info);
  g_autofree char *catalog = object_dictionary (text, pdf->len, root);
  if (catalog == NULL || strstr (catalog, "/Catalog") == NULL)
    return not_ours (error);
  append_update (pdf, root, size, info, prev, g_strstrip (catalog));
  return true;
}

bool
pr_pdf_make (GByteArray *out, double width, double height, const char *title, int n, PrPdfDraw draw,
             gpointer data, GError **error)
{
  cairo_surface_t *surface = surface_new (out, width, height, title);

  for (int i = 0; i < n; i++) {
    cairo_t *cr = cairo_create (surface);

    cairo_scale (cr, PR_PT_PER_MM, PR_PT_PER_MM);
    draw (data, i, cr);
    cairo_show_page (cr);
    cairo_destroy (cr);
  }
  bool done = pr_surface_close (surface, error);
  cairo_surface_destroy (surface);
  return done && pr_pdf_finish (out, error);
}
