/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/trace.h"

SwTrace *
sw_trace_new (void)
{
  SwTrace *trace = g_new (SwTrace, 1);
  trace->points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  trace->ends = g_array_new (FALSE, FALSE, sizeof (guint));
  trace->closed = g_array_new (FALSE, FALSE, sizeof (gboolean));
  return trace;
}

void
sw_trace_free (SwTrace *trace)
{
  g_array_unref (trace->points);
  g_array_unref (trace->ends);
  g_array_unref (trace->closed);
  g_free (trace);
}

const SwPoint *
sw_trace_part (const SwTrace *trace, guint i, guint *n)
{
  guint first = i > 0 ? g_array_index (trace->ends, guint, i - 1) : 0;
  *n = g_array_index (trace->ends, guint, i) - first;
  return &g_array_index (trace->points, SwPoint, first);
}

static void
end_part (SwTrace *trace, gboolean closed)
{
  guint first = trace->ends->len > 0 ? g_array_index (trace->ends, guint, trace->ends->len - 1) : 0;
  if (trace->points->len == first)
    return;
  if (closed)
    {
      SwPoint start = g_array_index (trace->points, SwPoint, first);
      g_array_append_val (trace->points, start);
    }
  g_array_append_val (trace->ends, trace->points->len);
  g_array_append_val (trace->closed, closed);
}

static void
add_curve (SwTrace *trace, SwPoint a, SwPoint b, SwPoint c, SwPoint d)
{
  /* Our curves turn by an eighth of a turn at most: the sagitta of n pieces is below length · 0.1 / n². */
  double length = sw_point_distance (a, b) + sw_point_distance (b, c) + sw_point_distance (c, d);
  int n = (int) CLAMP (ceil (sqrt (length)), 2, 200);
  for (int i = 1; i <= n; i++)
    {
      double t = (double) i / n, s = 1 - t;
      SwPoint p = sw_point_scale (a, s * s * s);
      p = sw_point_add (p, sw_point_scale (b, 3 * s * s * t));
      p = sw_point_add (p, sw_point_scale (c, 3 * s * t * t));
      p = sw_point_add (p, sw_point_scale (d, t * t * t));
      g_array_append_val (trace->points, p);
    }
}

void
sw_trace_path (SwTrace *trace, const SwDisplay *display, const SwItem *item, SwTransform to_device)
{
  g_array_set_size (trace->points, 0);
  g_array_set_size (trace->ends, 0);
  g_array_set_size (trace->closed, 0);
  const SwPoint *from = sw_display_points (display, item->first_point);
  SwPoint last = { 0, 0 };
  for (guint v = 0; v < item->n_verbs; v++)
    {
      SwVerb verb = display->verbs->data[item->first_verb + v];
      if (verb == SW_VERB_CLOSE)
        {
          end_part (trace, TRUE);
          continue;
        }
      if (verb == SW_VERB_MOVE)
        end_part (trace, FALSE);
      SwPoint p = sw_transform_point (to_device, from[0]);
      if (verb == SW_VERB_CURVE)
        {
          SwPoint c = sw_transform_point (to_device, from[1]), d = sw_transform_point (to_device, from[2]);
          add_curve (trace, last, p, c, d);
          from += 2;
          p = d;
        }
      else
        g_array_append_val (trace->points, p);
      from++;
      last = p;
    }
  end_part (trace, FALSE);
}

/* How far p lies inside of side 0–3 of the box. */
static double
side_depth (SwPoint p, SwBox box, int side)
{
  const double depth[] = { p.x - box.low.x, box.high.x - p.x, p.y - box.low.y, box.high.y - p.y };
  return depth[side];
}

void
sw_ring_clip (const SwPoint *ring, guint n, SwBox box, GArray *out)
{
  g_autoptr (GArray) in = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_array_set_size (out, 0);
  g_array_append_vals (out, ring, n);
  for (int side = 0; side < 4; side++)
    {
      g_array_set_size (in, 0);
      g_array_append_vals (in, out->data, out->len);
      g_array_set_size (out, 0);
      for (guint i = 0; i < in->len; i++)
        {
          SwPoint a = g_array_index (in, SwPoint, i), b = g_array_index (in, SwPoint, (i + 1) % in->len);
          double da = side_depth (a, box, side), db = side_depth (b, box, side);
          if (da >= 0)
            g_array_append_val (out, a);
          if ((da >= 0) != (db >= 0))
            {
              SwPoint cut = sw_point_lerp (a, b, da / (da - db));
              g_array_append_val (out, cut);
            }
        }
    }
}

gboolean
sw_segment_clip (SwPoint a, SwPoint b, SwBox box, double *t0, double *t1)
{
  *t0 = 0;
  *t1 = 1;
  for (int side = 0; side < 4; side++)
    {
      double da = side_depth (a, box, side), db = side_depth (b, box, side);
      if (da < 0 && db < 0)
        return FALSE;
      if (da < 0)
        *t0 = MAX (*t0, da / (da - db));
      else if (db < 0)
        *t1 = MIN (*t1, da / (da - db));
    }
  return *t0 <= *t1;
}

static void
cut_part (const SwPoint *part, guint n, SwBox box, GArray *points, GArray *runs)
{
  double along = 0;
  gboolean running = FALSE;
  for (guint i = 0; i + 1 < n; i++)
    {
      double t0, t1, length = sw_point_distance (part[i], part[i + 1]);
      gboolean shows = sw_segment_clip (part[i], part[i + 1], box, &t0, &t1);
      if (shows && !(running && t0 == 0))
        {
          SwTraceRun run = { points->len, 1, along + t0 * length };
          SwPoint start = sw_point_lerp (part[i], part[i + 1], t0);
          g_array_append_val (points, start);
          g_array_append_val (runs, run);
        }
      if (shows)
        {
          SwPoint end = sw_point_lerp (part[i], part[i + 1], t1);
          g_array_append_val (points, end);
          g_array_index (runs, SwTraceRun, runs->len - 1).n++;
        }
      running = shows && t1 == 1;
      along += length;
    }
}

void
sw_trace_cut (const SwTrace *trace, SwBox box, gboolean dashed, GArray *points, GArray *runs)
{
  g_array_set_size (points, 0);
  g_array_set_size (runs, 0);
  for (guint i = 0; i < sw_trace_n (trace); i++)
    {
      guint n;
      const SwPoint *part = sw_trace_part (trace, i, &n);
      cut_part (part, n, box, points, runs);
      if (sw_trace_closed (trace, i) && !dashed && n > 2 && sw_box_holds (box, part[0]))
        cut_part ((SwPoint[]){ sw_point_lerp (part[n - 2], part[0], 0.5), part[0], sw_point_lerp (part[0], part[1], 0.5) }, 3,
                  box, points, runs);
    }
}

double
sw_segment_distance (SwPoint a, SwPoint b, SwPoint p)
{
  SwPoint ab = sw_point_sub (b, a);
  double length2 = sw_point_dot (ab, ab);
  double t = length2 > 0 ? CLAMP (sw_point_dot (sw_point_sub (p, a), ab) / length2, 0, 1) : 0;
  return sw_point_distance (sw_point_lerp (a, b, t), p);
}

gboolean
sw_ring_holds (const SwPoint *ring, guint n, SwPoint p)
{
  gboolean inside = FALSE;
  for (guint i = 0; i < n; i++)
    {
      SwPoint a = ring[i], b = ring[(i + 1) % n];
      if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x))
        inside = !inside;
    }
  return inside;
}

gboolean
sw_trace_holds (const SwTrace *trace, SwPoint p)
{
  gboolean inside = FALSE;
  for (guint part = 0; part < sw_trace_n (trace); part++)
    {
      guint n;
      const SwPoint *ring = sw_trace_part (trace, part, &n);
      inside ^= sw_ring_holds (ring, n, p);
    }
  return inside;
}
