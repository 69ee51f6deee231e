/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rough-middle.h"

#include "pr-work.h"

/* Tried on our own scenes. Radii sought from, mm. */
#define R_LEAST 20
/* Coarse search for the middle: directions, radii of a mm each, most radii from one direction to the next, mm of ink
 * that a change of one costs squared, and the grid's width, mm. */
#define ROUGH_DIRS 90
#define ROUGH_R 130
#define ROUGH_JUMP 3
#define ROUGH_COST 0.1f
#define GRID_MM 14.0
/* Share of the sheet left out at each side for the middle, and the most of it, mm. */
#define GRID_SPARE 0.25
#define GRID_SPARE_MOST 75.0

/* Ink in cells of a mm. */
typedef struct {
  float *cell;
  int cells_x, cells_y, n_r;
} Search;

static void
fill_cells (Search *s, const PrInkMap *ink, float low, float full)
{
  s->cells_x = (int) (ink->ridge_width / ink->ridge_scale);
  s->cells_y = (int) (ink->ridge_height / ink->ridge_scale);
  s->cell = g_new (float, (gsize) s->cells_x *(gsize) s->cells_y);
  for (int y = 0; y < s->cells_y; y++)
    for (int x = 0; x < s->cells_x; x++)
      s->cell[y * s->cells_x + x] = pr_line_support_at (ink, low, full, x + 0.5, y + 0.5);
}

static float
cell_at (const Search *s, double x, double y)
{
  bool in = x >= 0 && y >= 0 && x < s->cells_x && y < s->cells_y;

  return in ? s->cell[(int) y * s->cells_x + (int) x] : 0;
}

/* The best sums one direction further: of A, which has ROUGH_JUMP places of nothing at both ends, to B, 0 or more. */
PR_WIDE static void
rough_advance (const float *restrict a, float *restrict b)
{
  for (int i = 0; i < ROUGH_R; i++)
    b[i] = 0;
  for (int d = -ROUGH_JUMP; d <= ROUGH_JUMP; d++) {
    float cost = ROUGH_COST * (float) (d * d);
    const float *from = a + ROUGH_JUMP + d;
    for (int i = 0; i < ROUGH_R; i++) {
      float v = from[i] - cost;
      b[i] = v > b[i] ? v : b[i];
    }
  }
}

/* Sum of the best path of the coarse search from MIDDLE. */
static float
rough_path (const Search *s, PrSheetPt middle)
{
  float a[ROUGH_R + 2 * ROUGH_JUMP] = { 0 }, b[ROUGH_R], best = 0;

  for (int k = 0; k < ROUGH_DIRS; k++) {
    double turn = 2 * G_PI * k / ROUGH_DIRS, dx = -sin (turn), dy = cos (turn);
    rough_advance (a, b);
    for (int i = 0; i < ROUGH_R; i++) {
      double r = R_LEAST + i;
      float on = i < s->n_r ? cell_at (s, middle.x + r * dx, middle.y + r * dy) : 0;
      a[ROUGH_JUMP + i] = b[i] + on * (float) (r * 2 * G_PI / ROUGH_DIRS);
    }
  }
  for (int i = 0; i < ROUGH_R; i++)
    best = MAX (best, a[ROUGH_JUMP + i]);
  return best;
}

/* The coarse search's grid, one row of it a part of the work. */
typedef struct {
  const Search *search;
  double left, right, top;
  float *most; /* of each row, and where */
  double *x;
} Grid;

static double
grid_y (const Grid *grid, int row)
{
  return grid->top + row * GRID_MM;
}

static void
grid_row (gpointer data, int row)
{
  const Grid *grid = data;

  grid->most[row] = -1;
  for (double x = grid->left; x <= grid->right; x += GRID_MM) {
    float sum = rough_path (grid->search, (PrSheetPt){ x, grid_y (grid, row) });
    if (sum > grid->most[row]) {
      grid->most[row] = sum;
      grid->x[row] = x;
    }
  }
}

PrSheetPt
pr_rough_middle (const PrInkMap *ink, float low, float full, const PrScale *scale, double r_most)
{
  Search search = { .n_r = (int) (r_most - R_LEAST) };
  double left = fmin (GRID_SPARE * scale->width_mm, GRID_SPARE_MOST);
  double top = fmin (GRID_SPARE * scale->height_mm, GRID_SPARE_MOST);
  int rows = (int) ((scale->height_mm - 2 * top) / GRID_MM) + 1, best = 0;
  g_autofree float *most = g_new (float, rows);
  g_autofree double *x = g_new0 (double, rows);
  Grid grid = { &search, left, scale->width_mm - left, top, most, x };

  fill_cells (&search, ink, low, full);
  pr_work_share (grid_row, &grid, rows);
  g_free (search.cell);
  for (int row = 1; row < rows; row++)
    if (most[row] > most[best])
      best = row;
  return (PrSheetPt){ x[best], grid_y (&grid, best) };
}
