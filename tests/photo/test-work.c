/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work shared between threads, against the same work done in a row. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "pr-photo.h"
#include "pr-work.h"

#define MOST 500

static void
count_part (gpointer data, int part)
{
  g_atomic_int_inc (&((int *) data)[part]);
}

/* Every part once, however many there are. */
static void
test_every_part_once (void **state)
{
  (void) state;
  for (int n = 0; n < MOST; n += n < 10 ? 1 : 97) {
    int done[MOST] = { 0 };

    pr_work_share (count_part, done, n);
    for (int i = 0; i < MOST; i++)
      assert_int_equal (done[i], i < n);
  }
}

/* Rows of all parts together are all rows, each once. */
static void
test_rows (void **state)
{
  (void) state;
  for (int height = 0; height < 40; height++)
    for (int n = 1; n < 20; n++) {
      int next = 0;

      for (int part = 0; part < n; part++) {
        int from, to;
        pr_work_rows (height, part, n, &from, &to);
        assert_int_equal (from, next);
        assert_true (to >= from);
        next = to;
      }
      assert_int_equal (next, height);
    }
}

/* Brightness by the weights of ITU-R BT.601, rows with a gap between them, every width near a register's. */
static void
test_grey (void **state)
{
  GRand *rand = g_rand_new_with_seed (11);

  (void) state;
  for (int width = 1; width < 70; width++) {
    int height = 1 + width % 13;
    size_t stride = 3 * (size_t) width + (size_t) (width % 5);
    g_autofree uint8_t *rgb = g_malloc (stride * (size_t) height);

    for (size_t i = 0; i < stride * (size_t) height; i++)
      rgb[i] = (uint8_t) g_rand_int_range (rand, 0, 256);
    g_autofree uint8_t *grey = pr_rgb_grey (rgb, width, height, stride);
    for (int y = 0; y < height; y++)
      for (int x = 0; x < width; x++) {
        const uint8_t *p = rgb + (size_t) y * stride + 3 * x;
        double want = 0.299 * p[0] + 0.587 * p[1] + 0.114 * p[2];
        assert_true (fabs (grey[y * width + x] - want) < 1.2);
      }
  }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_part_once),
    cmocka_unit_test (test_rows),
    cmocka_unit_test (test_grey),
  };

  return cmocka_run_group_tests_name ("work", tests, NULL, NULL);
}
