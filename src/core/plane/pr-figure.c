/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-figure.h"

#include <geos_c.h>

static void
drop_context (gpointer ctx)
{
  GEOS_finish_r (ctx);
}

/* One GEOS context a thread, kept for the thread's life. */
static GEOSContextHandle_t
context (void)
{
  static GPrivate key = G_PRIVATE_INIT (drop_context);
  GEOSContextHandle_t ctx = g_private_get (&key);

  if (!ctx) {
    ctx = GEOS_init_r ();
    g_private_set (&key, ctx);
  }
  return ctx;
}

void
pr_figure_clear (PrFigure *fig)
{
  for (size_t i = 0; i < fig->n; i++)
    pr_path_clear (&fig->ring[i]);
  g_free (fig->ring);
  *fig = (PrFigure){ 0 };
}

static PrPath *
add_ring (PrFigure *fig)
{
  fig->ring = g_renew (PrPath, fig->ring, fig->n + 1);
  fig->ring[fig->n] = (PrPath){ 0 };
  return &fig->ring[fig->n++];
}

void
pr_figure_copy (PrFigure *to, const PrFigure *from)
{
  if (to == from)
    return;
  pr_figure_clear (to);
  for (size_t i = 0; i < from->n; i++)
    pr_path_copy (add_ring (to), &from->ring[i]);
}

static GEOSGeometry *
geos_ring (GEOSContextHandle_t ctx, const PrPath *ring)
{
  GEOSCoordSequence *seq = GEOSCoordSeq_create_r (ctx, (unsigned) ring->n + 1, 2);

  for (size_t i = 0; i <= ring->n; i++) {
    PrPt p = ring->p[i % ring->n];

    GEOSCoordSeq_setXY_r (ctx, seq, (unsigned) i, p.x, p.y);
  }
  return GEOSGeom_createLinearRing_r (ctx, seq);
}

static GEOSGeometry *
geos_polygon (GEOSContextHandle_t ctx, const PrPath *ring)
{
  GEOSGeometry *shell = ring->n >= 3 ? geos_ring (ctx, ring) : NULL;

  return shell ? GEOSGeom_createPolygon_r (ctx, shell, NULL, 0) : NULL;
}

/* Does HOLE lie in RING? By the middles of its sides, most of them: a hole may touch its outer ring in a
 * point, and there the answer is anybody's. */
static bool
hole_in (const PrPath *ring, const PrPath *hole)
{
  size_t in = 0;

  for (size_t i = 0; i < hole->n; i++)
    in += pr_ring_holds (ring, pr_pt_lerp (hole->p[i], hole->p[(i + 1) % hole->n], 0.5));
  return 2 * in > hole->n;
}

/* Outer rings (counter-clockwise) carry the holes that lie in them. */
static GEOSGeometry *
to_geos (GEOSContextHandle_t ctx, const PrFigure *fig)
{
  g_autofree GEOSGeometry **part = g_new0 (GEOSGeometry *, fig->n + 1);
  unsigned n = 0;

  for (size_t i = 0; i < fig->n; i++) {
    if (pr_ring_area (&fig->ring[i]) <= 0)
      continue;
    g_autofree GEOSGeometry **hole = g_new0 (GEOSGeometry *, fig->n + 1);
    unsigned holes = 0;

    for (size_t j = 0; j < fig->n; j++)
      if (pr_ring_area (&fig->ring[j]) < 0 && hole_in (&fig->ring[i], &fig->ring[j]))
        hole[holes++] = geos_ring (ctx, &fig->ring[j]);
    part[n++] = GEOSGeom_createPolygon_r (ctx, geos_ring (ctx, &fig->ring[i]), hole, holes);
  }
  if (n == 1)
    return part[0];
  return GEOSGeom_createCollection_r (ctx, GEOS_MULTIPOLYGON, part, n);
}

static void
take_ring (GEOSContextHandle_t ctx, PrFigure *fig, const GEOSGeometry *geom, bool outer)
{
  const GEOSCoordSequence *seq = GEOSGeom_getCoordSeq_r (ctx, geom);
  PrPath *ring = add_ring (fig);
  unsigned n = 0;

  GEOSCoordSeq_getSize_r (ctx, seq, &n);
  for (unsigned i = 0; i + 1 < n; i++) {
    PrPt p;

    GEOSCoordSeq_getXY_r (ctx, seq, i, &p.x, &p.y);
    pr_path_add (ring, p);
  }
  if ((pr_ring_area (ring) > 0) != outer)
    pr_path_reverse (ring);
}

static void
take_polygons (GEOSContextHandle_t ctx, PrFigure *fig, const GEOSGeometry *geom)
{
  int type = GEOSGeomTypeId_r (ctx, geom);

  if (GEOSisEmpty_r (ctx, geom))
    return;
  if (type == GEOS_POLYGON) {
    take_ring (ctx, fig, GEOSGetExteriorRing_r (ctx, geom), true);
    for (int i = 0; i < GEOSGetNumInteriorRings_r (ctx, geom); i++)
      take_ring (ctx, fig, GEOSGetInteriorRingN_r (ctx, geom, i), false);
  } else if (type >= GEOS_MULTIPOINT) {
    for (int i = 0; i < GEOSGetNumGeometries_r (ctx, geom); i++)
      take_polygons (ctx, fig, GEOSGetGeometryN_r (ctx, geom, i));
  }
}

/* OUT becomes what GEOM holds; GEOM (may be NULL) is freed. */
static bool
finish (GEOSContextHandle_t ctx, PrFigure *out, GEOSGeometry *geom)
{
  PrFigure made = { 0 };

  if (geom) {
    take_polygons (ctx, &made, geom);
    GEOSGeom_destroy_r (ctx, geom);
  }
  pr_figure_clear (out);
  *out = made;
  return geom != NULL;
}

bool
pr_figure_from_ring (PrFigure *out, const PrPath *ring)
{
  GEOSContextHandle_t ctx = context ();
  GEOSGeometry *raw = geos_polygon (ctx, ring);

  if (raw && GEOSisValid_r (ctx, raw) != 1) {
    GEOSGeometry *valid = GEOSMakeValid_r (ctx, raw);

    GEOSGeom_destroy_r (ctx, raw);
    raw = valid;
  }
  return finish (ctx, out, raw);
}

typedef GEOSGeometry *(*Combine) (GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *);

static bool
combine (PrFigure *out, const PrFigure *a, const PrFigure *b, Combine op)
{
  GEOSContextHandle_t ctx = context ();
  GEOSGeometry *ga = to_geos (ctx, a), *gb = to_geos (ctx, b);
  GEOSGeometry *made = ga && gb ? op (ctx, ga, gb) : NULL;

  GEOSGeom_destroy_r (ctx, ga);
  GEOSGeom_destroy_r (ctx, gb);
  return finish (ctx, out, made);
}

bool
pr_figure_union (PrFigure *out, const PrFigure *a, const PrFigure *b)
{
  return combine (out, a, b, GEOSUnion_r);
}

bool
pr_figure_minus (PrFigure *out, const PrFigure *a, const PrFigure *b)
{
  return combine (out, a, b, GEOSDifference_r);
}

bool
pr_figure_grow (PrFigure *out, const PrFigure *fig, double by)
{
  /* sides of a quarter circle: each lies inside it by 1 - cos (pi / 4 / 16), 0.0012 of the radius */
  enum { SIDES = 16 };
  GEOSContextHandle_t ctx = context ();
  GEOSGeometry *geom = to_geos (ctx, fig), *made = geom ? GEOSBuffer_r (ctx, geom, by, SIDES) : NULL;

  GEOSGeom_destroy_r (ctx, geom);
  return finish (ctx, out, made);
}

double
pr_figure_area (const PrFigure *fig)
{
  double sum = 0;

  for (size_t i = 0; i < fig->n; i++)
    sum += pr_ring_area (&fig->ring[i]);
  return sum;
}

bool
pr_figure_holds (const PrFigure *fig, PrPt p)
{
  bool in = false;

  for (size_t i = 0; i < fig->n; i++)
    in ^= pr_ring_holds (&fig->ring[i], p);
  return in;
}

/* GEOM is freed. */
static bool
is_valid (GEOSContextHandle_t ctx, GEOSGeometry *geom, PrPt *at)
{
  GEOSGeometry *where = NULL;
  bool valid = geom && GEOSisValidDetail_r (ctx, geom, 0, NULL, at ? &where : NULL) == 1;

  if (where) {
    GEOSGeomGetX_r (ctx, where, &at->x);
    GEOSGeomGetY_r (ctx, where, &at->y);
    GEOSGeom_destroy_r (ctx, where);
  }
  GEOSGeom_destroy_r (ctx, geom);
  return valid;
}

bool
pr_ring_is_simple (const PrPath *ring, PrPt *at)
{
  GEOSContextHandle_t ctx = context ();

  if (at)
    *at = ring->n ? ring->p[0] : pr_pt (0, 0);
  return is_valid (ctx, geos_polygon (ctx, ring), at);
}

bool
pr_figure_is_simple (const PrFigure *fig, PrPt *at)
{
  GEOSContextHandle_t ctx = context ();
  g_autofree GEOSGeometry **hole = g_new0 (GEOSGeometry *, fig->n + 1);
  const PrPath *outer = fig->ring;

  if (at)
    *at = fig->n && outer->n ? outer->p[0] : pr_pt (0, 0);
  for (size_t i = 0; i < fig->n; i++)
    if (fig->ring[i].n < 3)
      return false;
  if (fig->n == 0)
    return false;
  for (size_t i = 1; i < fig->n; i++)
    hole[i - 1] = geos_ring (ctx, &fig->ring[i]);
  return is_valid (ctx, GEOSGeom_createPolygon_r (ctx, geos_ring (ctx, outer), hole, (unsigned) fig->n - 1),
                   at);
}

/* As many coordinates as POINTS. Transfer full. */
static GEOSGeometry *
geos_line (GEOSContextHandle_t ctx, const PrPath *points)
{
  GEOSCoordSequence *seq = GEOSCoordSeq_create_r (ctx, (unsigned) points->n, 2);

  for (size_t i = 0; i < points->n; i++)
    GEOSCoordSeq_setXY_r (ctx, seq, (unsigned) i, points->p[i].x, points->p[i].y);
  return GEOSGeom_createLineString_r (ctx, seq);
}

bool
pr_points_hull (PrPath *out, const PrPath *points)
{
  GEOSContextHandle_t ctx = context ();
  GEOSGeometry *line = points->n >= 3 ? geos_line (ctx, points) : NULL;
  GEOSGeometry *made = line ? GEOSConvexHull_r (ctx, line) : NULL;
  g_auto (PrFigure) hull = { 0 };

  GEOSGeom_destroy_r (ctx, line);
  bool good = finish (ctx, &hull, made) && hull.n == 1;
  pr_path_empty (out);
  if (good)
    pr_path_copy (out, &hull.ring[0]);
  return good;
}

size_t
pr_figure_outer_rings (const PrFigure *fig)
{
  size_t n = 0;

  for (size_t i = 0; i < fig->n; i++)
    n += pr_ring_area (&fig->ring[i]) > 0;
  return n;
}

int
pr_figure_crossings (const PrFigure *figure, PrPt a, PrPt dir, double t[], int most)
{
  int n = 0;

  for (size_t r = 0; r < figure->n; r++)
    for (size_t i = 0; i < figure->ring[r].n; i++) {
      const PrPath *ring = &figure->ring[r];
      PrPt p = pr_pt_sub (ring->p[i], a), q = pr_pt_sub (ring->p[(i + 1) % ring->n], a);
      double u = pr_pt_cross (dir, p), v = pr_pt_cross (dir, q);

      if ((u <= 0) != (v <= 0) && n < most)
        t[n++] = pr_pt_dot (dir, pr_pt_lerp (p, q, u / (u - v)));
    }
  return n;
}
