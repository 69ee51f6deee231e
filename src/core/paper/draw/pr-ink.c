/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink.h"

#include <glib.h>
#include <pango/pangocairo.h>
#include <string.h>

#define SHAPE_LARGE 64 /* letters are shaped so much larger: sizes in mm are too small for whole units */

const PrInk pr_ink_light = {
  .steel = { 0.826, 0.849, 0.861, 1 },
  .line = PR_RGB (0x3d566b),
  .deep = PR_RGB (0x22303b),
  .crease = PR_RGB (0x9fabb4),
  .wall = PR_RGB (0x8a5a2b),
  .faint = PR_RGB (0x8d857b),
  .text = PR_RGB (0x26221e),
  .draw = PR_RGB (0xd89e6a),
  .upset = PR_RGB (0x7fb2c9),
  .ground = PR_RGB (0xffffff),
};

const PrInk pr_ink_dark = {
  .steel = PR_RGB (0x3c4a55),
  .line = PR_RGB (0xa9bfd0),
  .deep = PR_RGB (0xdfe8ee),
  .crease = PR_RGB (0x6d7f8d),
  .wall = PR_RGB (0xd39a61),
  .faint = PR_RGB (0x9a938a),
  .text = PR_RGB (0xece7df),
  .draw = PR_RGB (0x8f5420),
  .upset = PR_RGB (0x2e6a85),
  .ground = PR_RGB (0x211f1c),
};

void
pr_ink (cairo_t *cr, PrColour colour)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, colour.a);
}

PrColour
pr_ink_mix (PrColour a, PrColour b, double t)
{
  return (PrColour){ a.r + (b.r - a.r) * t, a.g + (b.g - a.g) * t, a.b + (b.b - a.b) * t,
                     a.a + (b.a - a.a) * t };
}

void
pr_text_face (cairo_t *cr, double size, bool bold)
{
  pr_text_face_of (cr, NULL, size, bold);
}

void
pr_text_face_of (cairo_t *cr, const char *family, double size, bool bold)
{
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_set_font_options (cr, options);
  cairo_font_options_destroy (options);
  cairo_select_font_face (cr, family != NULL ? family : "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                          bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size (cr, size);
}

/* Letters from Hebrew on, but for the signs and the further Latin and Greek between them: those may join, run from right to left,
 * or be in no font of ours. */
static bool
wants_shaping (const char *text)
{
  for (; *text; text = g_utf8_next_char (text)) {
    gunichar c = g_utf8_get_char (text);

    if (c >= 0x0590 && !(c >= 0x1e00 && c < 0x2c00))
      return true;
  }
  return false;
}

/* TEXT in the face and size that CR has, as one line. Transfer full. */
static PangoLayout *
shape (cairo_t *cr, const char *text)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  cairo_font_face_t *face = cairo_get_font_face (cr);
  PangoFontDescription *font = pango_font_description_new ();
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_matrix_t size;

  cairo_get_font_options (cr, options);
  pango_cairo_context_set_font_options (pango_layout_get_context (layout), options);
  cairo_font_options_destroy (options);
  cairo_get_font_matrix (cr, &size);
  pango_font_description_set_family (font, cairo_toy_font_face_get_family (face));
  pango_font_description_set_weight (font, cairo_toy_font_face_get_weight (face) == CAIRO_FONT_WEIGHT_BOLD
                                               ? PANGO_WEIGHT_BOLD
                                               : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, SHAPE_LARGE * size.xx * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static double
shaped_width (cairo_t *cr, const char *text)
{
  g_autoptr (PangoLayout) layout = shape (cr, text);
  int width;

  pango_layout_get_size (layout, &width, NULL);
  return (double) width / PANGO_SCALE / SHAPE_LARGE;
}

double
pr_text_width (cairo_t *cr, const char *text)
{
  cairo_text_extents_t size;

  if (wants_shaping (text))
    return shaped_width (cr, text);
  cairo_text_extents (cr, text, &size);
  return size.x_advance;
}

/* Its base line begins at the current point. PATH: it becomes the path instead. */
static void
show_shaped (cairo_t *cr, const char *text, bool path)
{
  g_autoptr (PangoLayout) layout = shape (cr, text);
  double x, y;

  cairo_get_current_point (cr, &x, &y);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, 1.0 / SHAPE_LARGE, 1.0 / SHAPE_LARGE);
  cairo_move_to (cr, 0, -(double) pango_layout_get_baseline (layout) / PANGO_SCALE);
  if (path)
    pango_cairo_layout_path (cr, layout);
  else
    pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

void
pr_text_halo (cairo_t *cr, double x, double y, PrAlign align, double reach, const char *text)
{
  if (align != PR_LEFT)
    x -= pr_text_width (cr, text) * (align == PR_MIDDLE ? 0.5 : 1);
  cairo_move_to (cr, x, y);
  if (wants_shaping (text))
    show_shaped (cr, text, true);
  else
    cairo_text_path (cr, text);
  cairo_set_line_width (cr, 2 * reach);
  cairo_stroke (cr);
}

void
pr_text (cairo_t *cr, double x, double y, PrAlign align, const char *text)
{
  if (align != PR_LEFT)
    x -= pr_text_width (cr, text) * (align == PR_MIDDLE ? 0.5 : 1);
  cairo_move_to (cr, x, y);
  if (wants_shaping (text))
    show_shaped (cr, text, false);
  else
    cairo_show_text (cr, text);
  cairo_new_path (cr);
}

/* A figure and its unit stay on one line: a no-break space between them. Transfer full. */
static char *
hold_units (const char *text)
{
  static const char *const units[] = { " mm", " in", " %", " g", " oz", " ×" };
  GString *out = g_string_new (text);

  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    for (char *at = strstr (out->str, units[i]); at != NULL; at = strstr (at + 2, units[i])) {
      gssize pos = at - out->str;
      char end = at[strlen (units[i])];

      if (pos == 0 || g_ascii_isalpha (end) || !g_ascii_isdigit (at[-1]))
        continue;
      g_string_erase (out, pos, 1);
      g_string_insert (out, pos, "\302\240");
      at = out->str + pos;
    }
  return g_string_free (out, FALSE);
}

/* How many bytes of TEXT, in whole letters and at least one, are no longer than WIDTH. */
static gsize
that_fits (cairo_t *cr, const char *text, double width)
{
  const char *end = g_utf8_next_char (text);

  while (*end) {
    g_autofree char *start = g_strndup (text, (gsize) (g_utf8_next_char (end) - text));

    if (pr_text_width (cr, start) > width)
      break;
    end = g_utf8_next_char (end);
  }
  return (gsize) (end - text);
}

char *
pr_text_cut (cairo_t *cr, const char *text, double width)
{
  static const char dots[] = "\342\200\246";

  if (!*text || pr_text_width (cr, text) <= width)
    return g_strdup (text);
  g_autofree char *start = g_strndup (text, that_fits (cr, text, width - pr_text_width (cr, dots)));
  return g_strconcat (g_strchomp (start), dots, NULL);
}

/* The words of TEXT, those longer than WIDTH in pieces. Transfer full. */
static GPtrArray *
words_of (cairo_t *cr, const char *text, double width)
{
  g_autofree char *held = hold_units (text);
  g_auto (GStrv) word = g_strsplit (held, " ", -1);
  GPtrArray *list = g_ptr_array_new_with_free_func (g_free);

  for (int i = 0; word[i] != NULL; i++) {
    const char *at = word[i];

    while (*at && pr_text_width (cr, at) > width) {
      gsize n = that_fits (cr, at, width);

      g_ptr_array_add (list, g_strndup (at, n));
      at += n;
    }
    g_ptr_array_add (list, g_strdup (at));
  }
  return list;
}

double
pr_text_block (cairo_t *cr, double x, double y, double width, double lead, bool draw, const char *text)
{
  g_autoptr (GPtrArray) word = words_of (cr, text, width);
  g_autoptr (GString) line = g_string_new (NULL);

  for (guint i = 0; i < word->len; i++) {
    gsize was = line->len;

    g_string_append_printf (line, "%s%s", was > 0 ? " " : "", (const char *) word->pdata[i]);
    if (was == 0 || pr_text_width (cr, line->str) <= width)
      continue;
    g_string_truncate (line, was);
    if (draw)
      pr_text (cr, x, y, PR_LEFT, line->str);
    y += lead;
    g_string_assign (line, word->pdata[i]);
  }
  if (draw && line->len > 0)
    pr_text (cr, x, y, PR_LEFT, line->str);
  return y + lead;
}

cairo_t *
pr_text_scratch (void)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  return cr;
}
