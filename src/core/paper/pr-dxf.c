/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dxf.h"
#include "pr-atomic-file.h"
#include "pr-language.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BEYOND_MM 5.0 /* how far the centre lines stand out of the drawing */
#define LETTER_MM 6.0 /* M and L, as on the printed template */
#define NAME_MM 4.0   /* foot and face */

enum { SHOE, HOOF, CREASE, NAILS, CLIPS, CENTRE, TEXT, N_LAYERS };

/* Colours by their DXF numbers: 1 red, 3 green, 5 blue, 7 black or white, 8 grey. */
static const struct {
  const char *name, *dash;
  int colour;
} layers[N_LAYERS] = {
  [SHOE] = { "shoe", "CONTINUOUS", 7 },     [HOOF] = { "hoof", "DASHED", 8 },
  [CREASE] = { "crease", "CONTINUOUS", 5 }, [NAILS] = { "nails", "CONTINUOUS", 1 },
  [CLIPS] = { "clips", "CONTINUOUS", 3 },   [CENTRE] = { "centre", "CENTER", 8 },
  [TEXT] = { "text", "CONTINUOUS", 7 },
};

typedef struct {
  GString *out;   /* the entities */
  double sign;    /* of x: +1 with the lateral side on the right */
  PrPt low, high; /* of all lines so far; lettering is left out */
} Dxf;

/* --- groups ------------------------------------------------------------------------------ */

static void
word (GString *out, int code, const char *text)
{
  g_string_append_printf (out, "%3d\n%s\n", code, text);
}

static void
whole (GString *out, int code, int value)
{
  g_string_append_printf (out, "%3d\n%6d\n", code, value);
}

/* A millionth of a millimetre more than anyone can cut; no exponents, which old readers stumble on. */
static void
number (GString *out, int code, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE + 300];

  g_ascii_formatd (text, sizeof text, "%.9f", fabs (value) < 5e-10 ? 0 : value);
  word (out, code, text);
}

static void
point (GString *out, int code, PrPt p)
{
  number (out, code, p.x);
  number (out, code + 10, p.y);
  number (out, code + 20, 0);
}

/* A header variable that holds a whole number. */
static void
setting (GString *out, const char *name, int value)
{
  word (out, 9, name);
  whole (out, 70, value);
}

static PrPt
on_face (const Dxf *dxf, PrPt p)
{
  return pr_pt (dxf->sign * p.x, p.y);
}

static PrPt
widened (Dxf *dxf, PrPt p)
{
  PrPt q = on_face (dxf, p);

  dxf->low = pr_pt (fmin (dxf->low.x, q.x), fmin (dxf->low.y, q.y));
  dxf->high = pr_pt (fmax (dxf->high.x, q.x), fmax (dxf->high.y, q.y));
  return q;
}

/* --- entities ---------------------------------------------------------------------------- */

static void
begin (Dxf *dxf, const char *kind, int layer)
{
  word (dxf->out, 0, kind);
  word (dxf->out, 8, layers[layer].name);
}

static void
add_path (Dxf *dxf, int layer, const PrPath *path, bool closed)
{
  if (path->n < 2)
    return;
  begin (dxf, "POLYLINE", layer);
  whole (dxf->out, 66, 1);
  point (dxf->out, 10, pr_pt (0, 0));
  whole (dxf->out, 70, closed ? 1 : 0);
  for (size_t i = 0; i < path->n; i++) {
    begin (dxf, "VERTEX", layer);
    point (dxf->out, 10, widened (dxf, path->p[i]));
  }
  begin (dxf, "SEQEND", layer);
}

static void
add_line (Dxf *dxf, int layer, PrPt a, PrPt b)
{
  begin (dxf, "LINE", layer);
  point (dxf->out, 10, widened (dxf, a));
  point (dxf->out, 11, widened (dxf, b));
}

/* The file stays plain ASCII: other letters as \U+ and their number. */
static char *
plain_text (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p)) {
    gunichar c = g_utf8_get_char (p);

    if (c >= 0x20 && c < 0x7f)
      g_string_append_c (out, (char) c);
    else if (c > 0x9f)
      g_string_append_printf (out, "\\U+%04X", c);
  }
  return g_string_free (out, FALSE);
}

/* Middle of the lettering at AT: 72 1 and 73 2. */
static void
add_text (Dxf *dxf, PrPt at, double size, const char *text)
{
  g_autofree char *plain = plain_text (text);

  begin (dxf, "TEXT", TEXT);
  point (dxf->out, 10, on_face (dxf, at));
  number (dxf->out, 40, size);
  word (dxf->out, 1, plain);
  whole (dxf->out, 72, 1);
  point (dxf->out, 11, on_face (dxf, at));
  whole (dxf->out, 73, 2);
}

static void
add_nail (Dxf *dxf, const PrNail *nail)
{
  PrPt a = pr_pt_scale (nail->along, nail->head_length / 2);
  PrPt b = pr_pt_scale (nail->out, nail->head_width / 2);
  PrPt corner[4] = { pr_pt_add (pr_pt_add (nail->at, a), b), pr_pt_add (pr_pt_sub (nail->at, a), b),
                     pr_pt_sub (pr_pt_sub (nail->at, a), b), pr_pt_sub (pr_pt_add (nail->at, a), b) };

  add_path (dxf, NAILS, &(PrPath){ .p = corner, .n = 4 }, true);
}

static void
add_shoe (Dxf *dxf, const PrShoe *shoe)
{
  for (size_t i = 0; i < shoe->figure.n; i++)
    add_path (dxf, SHOE, &shoe->figure.ring[i], true);
  for (size_t i = 0; i < shoe->n_clips; i++)
    add_path (dxf, CLIPS, &shoe->clip[i].ring, true);
  for (size_t i = 0; i < shoe->n_creases; i++)
    add_path (dxf, CREASE, &shoe->crease[i].middle, false);
  for (size_t i = 0; i < shoe->n_nails; i++)
    add_nail (dxf, &shoe->nail[i]);
}

static void
add_frame (Dxf *dxf, const PrJob *job, PrFace face)
{
  g_autofree char *name = g_strdup_printf ("%s, %s", pr_foot_name (job->sources.foot), pr_face_name (face));
  PrPt low, high;

  pr_draw_extent (job, &low, &high);
  low = pr_pt_sub (low, pr_pt (BEYOND_MM, BEYOND_MM));
  high = pr_pt_add (high, pr_pt (BEYOND_MM, BEYOND_MM));
  add_line (dxf, CENTRE, pr_pt (0, low.y), pr_pt (0, high.y));
  add_line (dxf, CENTRE, pr_pt (low.x, 0), pr_pt (high.x, 0));
  if (job->sources.foot != PR_FOOT_ANY) {
    add_text (dxf, pr_pt (low.x - LETTER_MM, 0), LETTER_MM, C_ ("medial", "M"));
    add_text (dxf, pr_pt (high.x + LETTER_MM, 0), LETTER_MM, C_ ("lateral", "L"));
  }
  add_text (dxf, pr_pt (0, low.y - NAME_MM), NAME_MM, name);
}

/* --- sections ---------------------------------------------------------------------------- */

static void
section (GString *out, const char *name)
{
  word (out, 0, "SECTION");
  word (out, 2, name);
}

static void
put_header (GString *out, const Dxf *dxf)
{
  word (out, 999, "1 unit = 1 mm");
  section (out, "HEADER");
  word (out, 9, "$ACADVER");
  word (out, 1, "AC1009");
  word (out, 9, "$INSBASE");
  point (out, 10, pr_pt (0, 0));
  word (out, 9, "$EXTMIN");
  point (out, 10, dxf->low);
  word (out, 9, "$EXTMAX");
  point (out, 10, dxf->high);
  setting (out, "$LUNITS", 2); /* decimal */
  setting (out, "$LUPREC", 3);
  setting (out, "$MEASUREMENT", 1); /* metric */
  setting (out, "$INSUNITS", 4);    /* mm */
  word (out, 0, "ENDSEC");
}

static void
table (GString *out, const char *name, int entries)
{
  word (out, 0, "TABLE");
  word (out, 2, name);
  whole (out, 70, entries);
}

/* Strokes and gaps (negative) in mm; ends with 0. */
static void
put_dash (GString *out, const char *name, const char *looks, const double *stroke)
{
  double sum = 0;
  int n = 0;

  for (; stroke[n] != 0; n++)
    sum += fabs (stroke[n]);
  word (out, 0, "LTYPE");
  word (out, 2, name);
  whole (out, 70, 0);
  word (out, 3, looks);
  whole (out, 72, 65);
  whole (out, 73, n);
  number (out, 40, sum);
  for (int i = 0; i < n; i++)
    number (out, 49, stroke[i]);
}

static void
put_style (GString *out)
{
  table (out, "STYLE", 1);
  word (out, 0, "STYLE");
  word (out, 2, "STANDARD");
  whole (out, 70, 0);
  number (out, 40, 0);
  number (out, 41, 1);
  number (out, 50, 0);
  whole (out, 71, 0);
  number (out, 42, LETTER_MM);
  word (out, 3, "txt");
  word (out, 4, "");
  word (out, 0, "ENDTAB");
}

static void
put_tables (GString *out)
{
  section (out, "TABLES");
  table (out, "LTYPE", 3);
  put_dash (out, "CONTINUOUS", "Solid line", (const double[]){ 0 });
  put_dash (out, "DASHED", "- - - -", (const double[]){ 2, -1.4, 0 });
  put_dash (out, "CENTER", "-- - -- -", (const double[]){ 8, -2, 2, -2, 0 });
  word (out, 0, "ENDTAB");
  table (out, "LAYER", N_LAYERS);
  for (int i = 0; i < N_LAYERS; i++) {
    word (out, 0, "LAYER");
    word (out, 2, layers[i].name);
    whole (out, 70, 0);
    whole (out, 62, layers[i].colour);
    word (out, 6, layers[i].dash);
  }
  word (out, 0, "ENDTAB");
  put_style (out);
  word (out, 0, "ENDSEC");
}

void
pr_make_template_dxf (const PrJob *job, PrFace face, GByteArray *out)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GString) entities = g_string_new (NULL);
  Dxf dxf = {
    entities, pr_lateral_sign (job->sources.foot, face), { INFINITY, INFINITY }, { -INFINITY, -INFINITY }
  };

  add_path (&dxf, HOOF, &job->hoof.outline, false);
  if (job->shoe != NULL)
    add_shoe (&dxf, job->shoe);
  add_frame (&dxf, job, face);
  put_header (text, &dxf);
  put_tables (text);
  section (text, "BLOCKS");
  word (text, 0, "ENDSEC");
  section (text, "ENTITIES");
  g_string_append_len (text, entities->str, (gssize) entities->len);
  word (text, 0, "ENDSEC");
  word (text, 0, "EOF");
  g_byte_array_append (out, (const guint8 *) text->str, (guint) text->len);
}

bool
pr_write_template_dxf (const PrJob *job, PrFace face, const char *file, GError **error)
{
  g_autoptr (GByteArray) out = g_byte_array_new ();

  pr_make_template_dxf (job, face, out);
  return pr_atomic_file_write (file, (const char *) out->data, out->len, error);
}
