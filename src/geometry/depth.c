/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/core.h"
#include <string.h>

/* How deep two cores that meet lie in each other: the least, over all directions, of what the first must move to be out.
 * For polytopes that direction is square to a face of either or to an edge of each, so that trying these is exact:
 * O(faces + edges × edges) axes, each O(points). With a disc-ended cylinder it need not be. Then the difference of the
 * bodies is approached from inside: a polyhedron of support points whose nearest face is pushed out again and again.
 * That face's distance bounds the depth from below, the support in its direction from above; it ends when they are
 * SLACK_MM apart or the polyhedron is full, which happens only where a whole ring of directions is as good (a cylinder
 * right inside another): there the axes have found the exact answer before. */

#define SLACK_MM  0.002
#define POINTS    192
#define FACES     (2 * POINTS)
#define FLAT_MM   1e-7

/* ---- directions of faces and edges ---- */

typedef struct
{
  guint n_normals, n_edges;
  SwPoint3 normal[SW_SOLID_POINTS_MAX + 1], edge[SW_SOLID_POINTS_MAX + 1];
} Directions;

static void
collect (const SwSolid *solid, Directions *d)
{
  d->n_normals = d->n_edges = 0;
  d->edge[d->n_edges++] = solid->kind == SW_SOLID_CYLINDER ? solid->u : solid->along;
  if (solid->kind == SW_SOLID_CYLINDER)
    d->normal[d->n_normals++] = solid->u;
  if (solid->kind != SW_SOLID_PRISM)
    return;
  d->normal[d->n_normals++] = sw_point3_cross (solid->u, solid->v);
  for (guint i = 0; i < solid->n; i++)
    {
      if (!(solid->sides & (1u << i)))
        continue;
      SwPoint way = sw_point_sub (solid->section[(i + 1) % solid->n], solid->section[i]);
      SwPoint3 edge = sw_point3_add (sw_point3_scale (solid->u, way.x), sw_point3_scale (solid->v, way.y));
      d->edge[d->n_edges++] = edge;
      d->normal[d->n_normals++] = sw_point3_cross (edge, solid->along);
    }
}

/* Extent along a unit direction, from the solid's own origin. */
static void
span (const SwSolid *solid, SwPoint3 d, double *low, double *high)
{
  *low = *high = 0;
  if (solid->kind == SW_SOLID_PRISM)
    {
      double du = sw_point3_dot (d, solid->u), dv = sw_point3_dot (d, solid->v);
      *low = INFINITY, *high = -INFINITY;
      for (guint i = 0; i < solid->n; i++)
        {
          double here = du * solid->section[i].x + dv * solid->section[i].y;
          *low = here < *low ? here : *low;
          *high = here > *high ? here : *high;
        }
    }
  else if (solid->kind == SW_SOLID_CYLINDER)
    {
      SwPoint3 across = sw_point3_cross (solid->u, d);
      *high = solid->disc * sw_point3_length (across);
      *low = -*high;
    }
  double along = sw_point3_dot (d, solid->along);
  *(along > 0 ? high : low) += along;
}

static void
try_axis (const SwCorePair *pair, SwPoint3 axis, SwCoreDepth *least)
{
  double length = sw_point3_length (axis), a_low, a_high, b_low, b_high;
  if (!(length > 1e-100))
    return;
  axis = sw_point3_scale (axis, 1 / length);
  span (pair->first, axis, &a_low, &a_high);
  span (pair->second, axis, &b_low, &b_high);
  double shift = sw_point3_dot (pair->offset, axis);
  double forward = b_high + shift - a_low, back = a_high - (b_low + shift);
  if (forward < least->mm)
    *least = (SwCoreDepth){ forward, axis };
  if (back < least->mm)
    *least = (SwCoreDepth){ back, sw_point3_scale (axis, -1) };
}

/* Between two axes side by side, and the offset's part square to an axis: the ways out of a cylinder's side. */
static void
try_side_of (const SwCorePair *pair, const SwSolid *round, SwCoreDepth *least)
{
  if (round->kind != SW_SOLID_CYLINDER)
    return;
  SwPoint3 out = sw_point3_sub (pair->offset, sw_point3_scale (round->u, sw_point3_dot (pair->offset, round->u)));
  try_axis (pair, out, least);
  try_axis (pair, sw_core_square_to (round->u), least);
}

SwCoreDepth
sw_core_depth_by_axes (const SwCorePair *pair)
{
  Directions a, b;
  SwCoreDepth least = { INFINITY, { 0, 0, 1 } };
  collect (pair->first, &a);
  collect (pair->second, &b);
  for (guint i = 0; i < a.n_normals; i++)
    try_axis (pair, a.normal[i], &least);
  for (guint i = 0; i < b.n_normals; i++)
    try_axis (pair, b.normal[i], &least);
  for (guint i = 0; i < a.n_edges; i++)
    for (guint j = 0; j < b.n_edges; j++)
      try_axis (pair, sw_point3_cross (a.edge[i], b.edge[j]), &least);
  try_side_of (pair, pair->first, &least);
  try_side_of (pair, pair->second, &least);
  return least;
}

/* ---- the growing polyhedron ---- */

/* Corners stand on a grid of 2⁻³⁸ of the size, so that which side of a face a point lies on is exact in 128 bits: the
 * caps and sides of bodies that are nearly parallel make many faces in nearly one plane, and one wrong sign would fold
 * the polyhedron over. */
typedef __int128 Whole;
typedef struct { gint64 x, y, z; } GridPoint;

typedef struct
{
  guint8 corner[3]; /* counter-clockwise from outside */
  Whole x, y, z, at; /* square to the face, not of unit length, and its product with a corner: exact */
  SwPoint3 normal;
  double mm; /* from the origin */
} Face;

typedef struct
{
  guint n_points, n_faces, n_rim;
  double step_mm; /* of the grid: a power of two */
  GridPoint point[POINTS];
  Face face[FACES];
  guint8 rim[POINTS][2];
} Hull;

G_STATIC_ASSERT (POINTS <= 256);

static GridPoint
on_grid (const Hull *hull, SwPoint3 p)
{
  return (GridPoint){ llround (p.x / hull->step_mm), llround (p.y / hull->step_mm), llround (p.z / hull->step_mm) };
}

static Whole
face_product (const Face *face, GridPoint p)
{
  return face->x * p.x + face->y * p.y + face->z * p.z;
}

static Face
make_face (const Hull *hull, guint8 a, guint8 b, guint8 c)
{
  GridPoint p = hull->point[a], q = hull->point[b], r = hull->point[c];
  Whole ux = q.x - p.x, uy = q.y - p.y, uz = q.z - p.z, vx = r.x - p.x, vy = r.y - p.y, vz = r.z - p.z;
  Face face = { { a, b, c }, uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx, 0, { 0, 0, 0 }, INFINITY };
  face.at = face_product (&face, p);
  SwPoint3 normal = { (double) face.x, (double) face.y, (double) face.z };
  double length = sw_point3_length (normal);
  if (length > 0)
    {
      face.normal = sw_point3_scale (normal, 1 / length);
      face.mm = (double) face.at / length * hull->step_mm;
    }
  return face;
}

static gboolean
is_seen (const Hull *hull, const Face *face, SwPoint3 place, GridPoint p)
{
  double rough = sw_point3_dot (face->normal, place) - face->mm;
  if (fabs (rough) > hull->step_mm * 0x1p10) /* far more than rounding makes of it: 2⁻²⁸ of the size */
    return rough > 0;
  return face_product (face, p) > face->at;
}

/* The rim is what the seen faces' edges leave when those that two of them share are struck out. */
static gboolean
add_rim_edge (Hull *hull, guint8 a, guint8 b)
{
  for (guint i = 0; i < hull->n_rim; i++)
    if (hull->rim[i][0] == b && hull->rim[i][1] == a)
      {
        hull->n_rim--;
        memmove (hull->rim[i], hull->rim[hull->n_rim], 2);
        return TRUE;
      }
  if (hull->n_rim == POINTS)
    return FALSE;
  hull->rim[hull->n_rim][0] = a;
  hull->rim[hull->n_rim++][1] = b;
  return TRUE;
}

/* FALSE when there is no room left, or nothing is seen from p. */
static gboolean
push_out_to (Hull *hull, SwPoint3 place)
{
  GridPoint p = on_grid (hull, place);
  if (hull->n_points == POINTS)
    return FALSE;
  hull->n_rim = 0;
  for (guint i = 0; i < hull->n_faces;)
    {
      const Face *face = &hull->face[i];
      if (!is_seen (hull, face, place, p))
        {
          i++;
          continue;
        }
      for (int k = 0; k < 3; k++)
        if (!add_rim_edge (hull, face->corner[k], face->corner[(k + 1) % 3]))
          return FALSE;
      hull->face[i] = hull->face[--hull->n_faces];
    }
  if (hull->n_rim == 0 || hull->n_faces + hull->n_rim > FACES)
    return FALSE;
  guint8 top = hull->n_points;
  hull->point[hull->n_points++] = p;
  for (guint i = 0; i < hull->n_rim; i++)
    hull->face[hull->n_faces++] = make_face (hull, hull->rim[i][0], hull->rim[i][1], top);
  return TRUE;
}

/* The farther, along d, of the support points in a direction and its opposite. */
static SwPoint3
farther_of (const SwCorePair *pair, SwPoint3 d, SwPoint3 from)
{
  SwPoint3 p = sw_core_pair_support (pair, d), q = sw_core_pair_support (pair, sw_point3_scale (d, -1));
  double past_p = fabs (sw_point3_dot (sw_point3_sub (p, from), d));
  double past_q = fabs (sw_point3_dot (sw_point3_sub (q, from), d));
  return past_p >= past_q ? p : q;
}

/* Four support points that span a space; FALSE when the difference is as good as flat. */
static gboolean
first_corners (const SwCorePair *pair, SwPoint3 d, SwPoint3 p[4])
{
  p[0] = sw_core_pair_support (pair, d);
  p[1] = sw_core_pair_support (pair, sw_point3_scale (d, -1));
  SwPoint3 line = sw_point3_sub (p[1], p[0]);
  if (!(sw_point3_length (line) > FLAT_MM))
    return FALSE;
  SwPoint3 across = sw_core_square_to (line), other = sw_point3_cross (line, across);
  other = sw_point3_scale (other, 1 / sw_point3_length (other));
  SwPoint3 q = farther_of (pair, across, p[0]), r = farther_of (pair, other, p[0]);
  gboolean take_q = fabs (sw_point3_dot (sw_point3_sub (q, p[0]), across))
                    >= fabs (sw_point3_dot (sw_point3_sub (r, p[0]), other));
  p[2] = take_q ? q : r;
  SwPoint3 normal = sw_point3_cross (line, sw_point3_sub (p[2], p[0]));
  double length = sw_point3_length (normal);
  if (!(length > FLAT_MM * sw_point3_length (line)))
    return FALSE;
  p[3] = farther_of (pair, sw_point3_scale (normal, 1 / length), p[0]);
  return TRUE;
}

static gboolean
start_hull (const SwCorePair *pair, SwPoint3 d, Hull *hull)
{
  SwPoint3 p[4];
  double size = 0;
  if (!first_corners (pair, d, p))
    return FALSE;
  for (int i = 0; i < 6; i++) /* no point of the difference is farther out than these reach together */
    {
      SwPoint3 way = { (i % 3 == 0) - (i == 3) * 2, (i % 3 == 1) - (i == 4) * 2, (i % 3 == 2) - (i == 5) * 2 };
      size = fmax (size, sw_point3_dot (sw_core_pair_support (pair, way), way));
    }
  hull->step_mm = exp2 (ceil (log2 (size)) - 38);
  for (int i = 0; i < 4; i++)
    hull->point[i] = on_grid (hull, p[i]);
  hull->n_points = 4, hull->n_faces = 0;
  Face base = make_face (hull, 0, 1, 2);
  Whole height = face_product (&base, hull->point[3]) - base.at;
  if (height == 0)
    return FALSE;
  guint8 b = height < 0 ? 1 : 2, c = 3 - b; /* so that point 3 is behind face 0 b c */
  hull->face[hull->n_faces++] = make_face (hull, 0, b, c);
  hull->face[hull->n_faces++] = make_face (hull, 0, 3, b);
  hull->face[hull->n_faces++] = make_face (hull, b, 3, c);
  hull->face[hull->n_faces++] = make_face (hull, c, 3, 0);
  return TRUE;
}

void
sw_core_depth_refine (const SwCorePair *pair, SwCoreDepth *depth)
{
  Hull hull;
  if (depth->mm <= SLACK_MM || !start_hull (pair, depth->away, &hull))
    return;
  for (;;)
    {
      const Face *nearest = &hull.face[0];
      for (guint i = 1; i < hull.n_faces; i++)
        if (hull.face[i].mm < nearest->mm)
          nearest = &hull.face[i];
      SwPoint3 d = nearest->normal, p = sw_core_pair_support (pair, d);
      double lower = nearest->mm, upper = sw_point3_dot (p, d);
      if (!isfinite (lower))
        return;
      if (upper < depth->mm)
        *depth = (SwCoreDepth){ upper, sw_point3_scale (d, -1) };
      if (depth->mm - lower <= SLACK_MM || depth->mm <= SLACK_MM || !push_out_to (&hull, p))
        return;
    }
}
