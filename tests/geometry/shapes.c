/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shapes.h"
#include "support.h"

static SwPoint3
random_point (SwRandom *random, double reach)
{
  SwPoint3 p;
  p.x = sw_random_double (random, -reach, reach);
  p.y = sw_random_double (random, -reach, reach);
  p.z = sw_random_double (random, -reach, reach);
  return p;
}

static SwPoint3
unit (SwPoint3 p)
{
  return sw_point3_scale (p, 1 / sw_point3_length (p));
}

static SwPoint3
random_unit (SwRandom *random, gboolean along_axis)
{
  if (along_axis)
    {
      static const SwPoint3 axes[] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 }, { -1, 0, 0 }, { 0, -1, 0 }, { 0, 0, -1 } };
      return axes[sw_random_int (random, 0, 5)];
    }
  SwPoint3 p;
  do
    p = random_point (random, 1);
  while (sw_point3_length (p) < 0.1);
  return unit (p);
}

static double
snapped (double mm, gboolean grid)
{
  return grid ? 50 * round (mm / 50) : mm;
}

static SwPoint3
snapped_point (SwPoint3 p, gboolean grid)
{
  return (SwPoint3){ snapped (p.x, grid), snapped (p.y, grid), snapped (p.z, grid) };
}

static void
make_axis_shape (Shape *shape, gboolean tube, SwPoint3 from, SwPoint3 axis, double length, double radius)
{
  SwPoint3 to = sw_point3_add (from, sw_point3_scale (axis, length));
  shape->points[0] = from;
  shape->points[1] = to;
  shape->n_points = 2;
  shape->u = length > 0 ? axis : (SwPoint3){ 0, 0, 1 };
  shape->disc = tube ? 0 : radius;
  shape->radius = tube ? radius : 0;
  shape->solid = tube ? sw_solid_tube (from, to, radius) : sw_solid_cylinder (from, to, radius);
}

static guint
random_section (SwRandom *random, SwPoint *section, double size, gboolean grid)
{
  guint n = 4;
  if (grid || sw_random_int (random, 0, 2) == 0) /* a trapezoid, as ribs are */
    {
      double low = snapped (size, grid), high = grid ? low : size * sw_random_double (random, 0.3, 1.5);
      double up = snapped (size * sw_random_double (random, 0.2, 2), grid);
      up = up == 0 ? 50 : up;
      memcpy (section, (SwPoint[]){ { -low, 0 }, { low, 0 }, { high, up }, { -high, up } }, 4 * sizeof *section);
    }
  else /* on an ellipse, turned at will */
    {
      n = sw_random_int (random, 3, SW_SOLID_POINTS_MAX);
      double a = size, b = size * sw_random_double (random, 0.1, 1), turn = sw_random_double (random, 0, 7);
      for (guint i = 0; i < n; i++)
        {
          double t = 2 * G_PI * (i + sw_random_double (random, 0, 0.6)) / n;
          section[i] = sw_point_turn ((SwPoint){ a * cos (t), b * sin (t) }, cos (turn), sin (turn));
        }
    }
  return n;
}

static void
make_prism (Shape *shape, SwRandom *random, SwPoint3 origin, SwPoint3 axis, double length, double size, gboolean grid)
{
  SwPoint3 other = fabs (axis.z) < 0.9 ? (SwPoint3){ 0, 0, 1 } : (SwPoint3){ 1, 0, 0 };
  shape->u = unit (sw_point3_cross (other, axis));
  shape->v = sw_point3_cross (axis, shape->u);
  shape->origin = origin;
  shape->push = sw_point3_scale (axis, length);
  if (!grid && length > 0 && sw_random_int (random, 0, 3) == 0) /* sheared */
    shape->push = sw_point3_add (shape->push, sw_point3_scale (shape->u, size * sw_random_double (random, -1, 1)));
  shape->n_section = random_section (random, shape->section, size, grid);
  gboolean backwards = sw_random_int (random, 0, 1);
  SwPoint ring[SW_SOLID_POINTS_MAX];
  shape->n_points = 0;
  for (guint i = 0; i < shape->n_section; i++)
    {
      SwPoint p = shape->section[i];
      ring[backwards ? shape->n_section - 1 - i : i] = p;
      SwPoint3 at = sw_point3_add (origin, sw_point3_add (sw_point3_scale (shape->u, p.x), sw_point3_scale (shape->v, p.y)));
      shape->points[shape->n_points++] = at;
      shape->points[shape->n_points++] = sw_point3_add (at, shape->push);
    }
  shape->radius = 0;
  GError *error = NULL;
  g_assert_true (sw_solid_prism (&shape->solid, origin, shape->u, shape->v, ring, shape->n_section, shape->push, &error));
  g_assert_no_error (error);
}

static void
make_shape (Shape *shape, SwRandom *random, SwPoint3 origin, SwPoint3 axis, int mode)
{
  gboolean grid = mode == 1 || mode == 3;
  double length = snapped (sw_random_double (random, 20, 900), grid), size = snapped (sw_random_double (random, 6, 120), grid);
  memset (shape, 0, sizeof *shape);
  size = size == 0 ? 50 : size;
  if (mode == 5)
    length *= 20, size *= 0.2;
  if (mode == 6 && sw_random_int (random, 0, 1))
    length = 0;
  int kind = sw_random_int (random, 0, 2);
  if (kind == 2)
    make_prism (shape, random, origin, axis, length, size, grid);
  else
    make_axis_shape (shape, kind == 0, origin, axis, length, size);
  if (kind > 0 && sw_random_int (random, 0, 4) == 0)
    {
      shape->radius = snapped (size / 2, grid);
      shape->solid = sw_solid_grown (&shape->solid, shape->radius);
    }
}

void
shapes_random_pair (SwRandom *random, int mode, Shape *a, Shape *b)
{
  gboolean grid = mode == 1 || mode == 3;
  double far = mode == 4 ? 5e6 : 0, reach = mode == 5 ? 2000 : 300;
  SwPoint3 axis = random_unit (random, grid), other = random_unit (random, grid);
  SwPoint3 origin = snapped_point (random_point (random, reach), grid);
  SwPoint3 second = snapped_point (random_point (random, reach), grid);
  if (mode == 2)
    other = unit (sw_point3_add (axis, sw_point3_scale (other, pow (10, sw_random_double (random, -12, -2)))));
  if (mode == 3)
    {
      double back = snapped (sw_random_double (random, -200, 200), TRUE);
      second = sw_point3_add (origin, sw_point3_scale (axis, back));
      other = sw_random_int (random, 0, 2) ? axis : other;
    }
  SwPoint3 shift = { far, -far, 0 };
  make_shape (a, random, sw_point3_add (origin, shift), axis, mode);
  make_shape (b, random, sw_point3_add (second, shift), other, mode);
}

void
shape_move (Shape *shape, SwPoint3 by)
{
  for (guint i = 0; i < shape->n_points; i++)
    shape->points[i] = sw_point3_add (shape->points[i], by);
  shape->origin = sw_point3_add (shape->origin, by);
  shape->solid = sw_solid_moved (&shape->solid, by);
}

double
shape_extent (const Shape *shape, SwPoint3 direction)
{
  double most = -INFINITY, round = 0;
  for (guint i = 0; i < shape->n_points; i++)
    most = fmax (most, sw_point3_dot (shape->points[i], direction));
  if (shape->disc > 0)
    round = shape->disc * sw_point3_length (sw_point3_cross (shape->u, direction));
  return most + round + shape->radius;
}

static double
prism_excess (const Shape *shape, SwPoint3 place)
{
  /* place − origin = x u + y v + t push, by Cramer's rule. */
  SwPoint3 p = sw_point3_sub (place, shape->origin), normal = sw_point3_cross (shape->u, shape->v);
  double whole = sw_point3_dot (normal, shape->push), flat = sw_point3_length (shape->push);
  double t = flat > 0 ? sw_point3_dot (normal, p) / whole : 0, worst = fabs (sw_point3_dot (normal, p)) * (flat == 0);
  p = sw_point3_sub (p, sw_point3_scale (shape->push, t));
  worst = fmax (worst, fmax (-t, t - 1) * flat);
  SwPoint at = { sw_point3_dot (p, shape->u), sw_point3_dot (p, shape->v) };
  for (guint i = 0; i < shape->n_section; i++)
    {
      SwPoint a = shape->section[i], side = sw_point_sub (shape->section[(i + 1) % shape->n_section], a);
      worst = fmax (worst, -sw_point_cross (side, sw_point_sub (at, a)) / sw_point_length (side));
    }
  return worst;
}

double
shape_core_excess (const Shape *shape, SwPoint3 place)
{
  if (shape->n_section > 0)
    return prism_excess (shape, place);
  SwPoint3 from = shape->points[0], along = sw_point3_sub (shape->points[1], from), p = sw_point3_sub (place, from);
  double length = sw_point3_length (along), level = sw_point3_dot (p, shape->u);
  SwPoint3 off = sw_point3_sub (p, sw_point3_scale (shape->u, level));
  return fmax (sw_point3_length (off) - shape->disc, fmax (-level, level - length));
}

static double
depth_along (const Shape *a, const Shape *b, SwPoint3 d)
{
  return shape_extent (a, sw_point3_scale (d, -1)) + shape_extent (b, d);
}

static double
mended (const Shape *a, const Shape *b, SwPoint3 d, double depth)
{
  for (double step = 0.2; step > 1e-6;)
    {
      SwPoint3 u = unit (sw_point3_cross (d, fabs (d.x) < 0.6 ? (SwPoint3){ 1, 0, 0 } : (SwPoint3){ 0, 1, 0 }));
      SwPoint3 v = sw_point3_cross (d, u), kept = d;
      for (int i = 0; i < 8; i++)
        {
          SwPoint3 turn = sw_point3_add (sw_point3_scale (u, cos (i * G_PI / 4)), sw_point3_scale (v, sin (i * G_PI / 4)));
          SwPoint3 trial = unit (sw_point3_add (kept, sw_point3_scale (turn, step)));
          double here = depth_along (a, b, trial);
          if (here < depth - 1e-6)
            depth = here, d = trial;
        }
      if (d.x == kept.x && d.y == kept.y && d.z == kept.z)
        step /= 2;
    }
  return depth;
}

double
shapes_searched_depth (const Shape *a, const Shape *b, int directions)
{
  double best[3] = { INFINITY, INFINITY, INFINITY }, least = INFINITY;
  SwPoint3 way[3] = { { 0, 0, 1 }, { 0, 0, 1 }, { 0, 0, 1 } };
  for (int i = 0; i < directions; i++)
    {
      double z = 1 - (2 * i + 1.0) / directions, r = sqrt (1 - z * z), turn = i * 2.399963229728653; /* golden angle */
      SwPoint3 d = { r * cos (turn), r * sin (turn), z };
      double here = depth_along (a, b, d);
      int k = here < best[0] ? 0 : here < best[1] ? 1 : 2;
      if (here < best[k])
        best[k] = here, way[k] = d;
    }
  for (int k = 0; k < 3; k++)
    if (best[k] < INFINITY)
      least = fmin (least, mended (a, b, way[k], best[k]));
  return least;
}

static void
write_shape (GString *text, const Shape *s)
{
  static const char *const kinds[] = { "tube", "cylinder", "prism" };
  g_string_append_printf (text, "%s radius %.6g disc %.6g:", kinds[s->solid.kind], s->radius, s->disc);
  for (guint i = 0; i < s->n_points; i++)
    g_string_append_printf (text, " (%.17g %.17g %.17g)", s->points[i].x, s->points[i].y, s->points[i].z);
}

char *
shapes_text (const Shape *a, const Shape *b)
{
  GString *text = g_string_new (NULL);
  write_shape (text, a);
  g_string_append (text, "\n");
  write_shape (text, b);
  return g_string_free (text, FALSE);
}
