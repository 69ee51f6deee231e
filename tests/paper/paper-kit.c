/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "paper-kit.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "drawn.h"

PrJob *
paper_job (PrFoot foot, const char *style, double size, double given)
{
  enum { N = 181 };
  PrSheetPt outline[N];
  PrJob *job = pr_job_new ();
  g_autoptr (GError) error = NULL;

  kit_drawn (foot, size, outline, N);
  job->sources.foot = foot;
  job->sources.plan.stock_width = 25;
  job->sources.plan.stock_thick = 10;
  if (!pr_job_take_outline (job, outline, N, false, &error))
    fail_msg ("%s", error->message);
  job->sources.plan.given = given;
  kit_set_style (job, style);
  return job;
}

int
kit_entries (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  int n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  if (dir != NULL)
    g_dir_close (dir);
  return n;
}

/* --- pictures ---------------------------------------------------------------------------- */

void
kit_picture_clear (KitPicture *picture)
{
  g_clear_pointer (&picture->rgb, g_free);
}

KitPicture
kit_read_ppm (const char *file)
{
  KitPicture picture = { 0 };
  FILE *in = fopen (file, "rb");
  int most = 0;

  assert_non_null (in);
  assert_int_equal (fscanf (in, "P6 %d %d %d", &picture.width, &picture.height, &most), 3);
  assert_int_equal (most, 255);
  (void) fgetc (in);
  size_t n = (size_t) picture.width * (size_t) picture.height * 3;
  picture.rgb = g_malloc (n);
  assert_int_equal (fread (picture.rgb, 1, n, in), n);
  fclose (in);
  return picture;
}

bool
kit_run (const char *const *argv, char **out)
{
  g_autofree char *program = g_find_program_in_path (argv[0]);
  g_autofree char *text = NULL, *complaint = NULL;
  int status = 0;

  if (program == NULL)
    skip ();
  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, &complaint, &status,
                     NULL)
      || !g_spawn_check_wait_status (status, NULL) || *complaint != '\0') {
    print_message ("%s: %s\n", argv[0], complaint);
    return false;
  }
  if (out != NULL)
    *out = g_steal_pointer (&text);
  return true;
}

KitPicture
kit_pdf_page (const char *pdf, int page, int dpi)
{
  g_autofree char *number = g_strdup_printf ("%d", page), *fine = g_strdup_printf ("%d", dpi);
  g_autofree char *stem = g_strdup_printf ("%s.page", pdf), *file = g_strdup_printf ("%s.ppm", stem);
  const char *argv[] = { "pdftoppm", "-r", fine, "-f", number, "-l", number, "-singlefile", pdf, stem, NULL };

  assert_true (kit_run (argv, NULL));
  KitPicture picture = kit_read_ppm (file);
  g_remove (file);
  return picture;
}

KitPicture
kit_surface (cairo_surface_t *surface)
{
  KitPicture picture
      = { cairo_image_surface_get_width (surface), cairo_image_surface_get_height (surface), NULL };

  cairo_surface_flush (surface);
  picture.rgb = g_malloc ((size_t) picture.width * (size_t) picture.height * 3);
  for (int y = 0; y < picture.height; y++)
    for (int x = 0; x < picture.width; x++) {
      uint32_t pixel;
      uint8_t *to = picture.rgb + 3 * ((size_t) y * (size_t) picture.width + (size_t) x);

      memcpy (&pixel,
              cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x,
              4);
      to[0] = pixel >> 16 & 255;
      to[1] = pixel >> 8 & 255;
      to[2] = pixel & 255;
    }
  return picture;
}

static const uint8_t *
at (const KitPicture *picture, int x, int y)
{
  return picture->rgb + 3 * ((size_t) y * (size_t) picture->width + (size_t) x);
}

int
kit_grey (const KitPicture *picture, int x, int y)
{
  const uint8_t *p = at (picture, x, y);

  return (p[0] + p[1] + p[2]) / 3;
}

bool
kit_has_run (const KitPicture *picture, bool along_y, double length, double slack)
{
  int lines = along_y ? picture->width : picture->height;
  int n = along_y ? picture->height : picture->width;

  for (int line = 0; line < lines; line++)
    for (int i = 0, run = 0; i <= n; i++) {
      bool dark = i < n && (along_y ? kit_grey (picture, line, i) : kit_grey (picture, i, line)) < 128;

      if (dark)
        run++;
      else {
        if (fabs (run - length) <= slack)
          return true;
        run = 0;
      }
    }
  return false;
}

/* Near #3d566b, the colour of the shoe's edges on light paper. */
static bool
is_edge (const uint8_t *p)
{
  return abs (p[0] - 0x3d) < 20 && abs (p[1] - 0x56) < 20 && abs (p[2] - 0x6b) < 20 && p[2] - p[0] > 30;
}

bool
kit_shoe_columns (const KitPicture *picture, int from, int to, double *first, double *last)
{
  bool found = false;

  for (int y = 0; y < picture->height; y++)
    for (int x = MAX (from, 0); x < MIN (to, picture->width); x++) {
      if (!is_edge (at (picture, x, y)))
        continue;
      *first = found ? fmin (*first, x) : x;
      *last = found ? fmax (*last, x + 1) : x + 1;
      found = true;
    }
  return found;
}

bool
kit_comma_locale (const char *folder)
{
  g_autofree char *place = g_build_filename (folder, "de_DE.UTF-8", NULL);
  g_autofree char *program = g_find_program_in_path ("localedef");
  const char *argv[] = { "localedef", "-i", "de_DE", "-f", "UTF-8", place, NULL };

  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL && program != NULL && kit_run (argv, NULL)) {
    g_setenv ("LOCPATH", folder, TRUE);
    setlocale (LC_ALL, "de_DE.UTF-8");
  }
  return *localeconv ()->decimal_point == ',';
}

void
paper_word_box (const char *at, double box[4])
{
  static const char *const names[] = { "xMin=\"", "yMin=\"", "xMax=\"", "yMax=\"" };

  for (size_t i = 0; i < 4; i++) {
    const char *value = strstr (at, names[i]);

    assert_non_null (value);
    box[i] = g_ascii_strtod (value + strlen (names[i]), NULL);
  }
}
