/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/clip.h"
#include "ceiling/lay.h"

/* Movement joints in a long ceiling. Where battens run across the ribs a joint beside a batten cuts through boards and brandering alike:
 * there a stretch that is longer than boards may run without one is shared evenly, each joint moved off lights and hatches that it would
 * meet, with one field more where there is no such place. Joints the other way would leave ends of battens without a rib; they are not
 * put in, and a mark says that the field is too long. Fields times lights and hatches times places. */

#define STEP_MM 10     /* joints stand on such steps from the wall that the battens begin at */
#define MORE_FIELDS 2
#define BEYOND_MM 1000 /* cutting boxes reach that far past the polygon */

/* What a joint keeps off, as stretches of x. */
static void
add_blocks (const SwLay *lay, const SwRings *local, const SwFrame *frame, GArray *blocks)
{
  const SwCeiling *ceiling = lay->ceiling;
  SwJob *job = sw_deck_job (ceiling->deck);
  double batten = ceiling->room->batten_width;
  double by_light = batten + sw_rules_value (ceiling->rules, "light.clearances", "batten_mm").value;
  double by_hatch = 2 * batten + sw_rules_value (ceiling->rules, "board.layout", "hatch_joint_mm").value;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      SwPoint at = sw_frame_to (frame, light->at);
      double half = fmax (light->cut_out, light->body) / 2 + by_light;
      SwInterval block = { at.x - half, at.x + half };
      if (sw_rings_holds (local, at))
        g_array_append_val (blocks, block);
    }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      SwPoint at = sw_frame_to (frame, hatch->at);
      double turn = hatch->turn * G_PI / 180 - atan2 (frame->sine, frame->cosine);
      double half = fabs (cos (turn)) * hatch->length / 2 + fabs (sin (turn)) * hatch->width / 2 + by_hatch;
      SwInterval block = { at.x - half, at.x + half };
      if (sw_rings_holds (local, at))
        g_array_append_val (blocks, block);
    }
}

static gboolean
is_clear (const GArray *blocks, double x)
{
  for (guint i = 0; i < blocks->len; i++)
    if (x > g_array_index (blocks, SwInterval, i).low && x < g_array_index (blocks, SwInterval, i).high)
      return FALSE;
  return TRUE;
}

/* The clear place nearest to `wanted` within the bounds; NAN for none. */
static double
place_near (const GArray *blocks, double wanted, double low, double high)
{
  double start = STEP_MM * floor (wanted / STEP_MM + 0.3);
  for (int k = 0; k * STEP_MM <= high - low; k++)
    for (int side = -1; side <= 1; side += 2)
      {
        double x = start + side * k * STEP_MM;
        if (x >= low && x <= high && is_clear (blocks, x))
          return x;
      }
  return NAN;
}

/* The joints between n fields; FALSE where one finds no place. */
static gboolean
place_joints (const GArray *blocks, double length, double limit, guint n, GArray *joints)
{
  double before = 0;
  g_array_set_size (joints, 0);
  for (guint k = 1; k < n; k++)
    {
      double low = fmax (before + STEP_MM, length - (n - k) * limit), high = fmin (before + limit, length - STEP_MM);
      double x = place_near (blocks, length * k / n, low, high);
      if (isnan (x))
        return FALSE;
      g_array_append_val (joints, x);
      before = x;
    }
  return TRUE;
}

static SwRings *
cut_between (const SwRings *local, double low, double high, GError **error)
{
  SwBox box = sw_rings_box (local);
  const SwPoint corners[] = { { low, box.low.y - BEYOND_MM }, { high, box.low.y - BEYOND_MM }, { high, box.high.y + BEYOND_MM }, { low, box.high.y + BEYOND_MM } };
  g_autoptr (SwRings) band = sw_rings_new ();
  sw_rings_add (band, corners, G_N_ELEMENTS (corners));
  return sw_rings_combine (local, band, sw_region_intersect, error);
}

/* Adds each polygon of the field, in the plan. */
static gboolean
add_field (const SwRings *local, const SwFrame *frame, double low, double high, GPtrArray *fields, GError **error)
{
  g_autoptr (SwRings) part = cut_between (local, low, high, error);
  if (part == NULL)
    return FALSE;
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (part);
  for (guint i = 0; i < polygons->len; i++)
    g_ptr_array_add (fields, sw_rings_from (polygons->pdata[i], frame));
  return TRUE;
}

gboolean
sw_lay_fields (const SwLay *lay, const SwRings *polygon, const SwFrame *frame, GPtrArray *fields, GError **error)
{
  double limit = 1e3 * sw_ceiling_longest_field (lay->ceiling->rules, sw_deck_job (lay->ceiling->deck), lay->ceiling->room, NULL);
  g_autoptr (SwRings) local = sw_rings_to (polygon, frame);
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (SwInterval)), joints = g_array_new (FALSE, FALSE, sizeof (double));
  SwBox box = sw_rings_box (local);
  double length = box.high.x - box.low.x;
  SwFrame same = { { 0, 0 }, 1, 0 };
  guint n = (guint) ceil ((length - 1) / limit), most = n + MORE_FIELDS;
  if (n > 1 && n < 1000)
    {
      add_blocks (lay, local, frame, blocks);
      for (guint i = 0; i < blocks->len; i++)
        {
          g_array_index (blocks, SwInterval, i).low -= box.low.x;
          g_array_index (blocks, SwInterval, i).high -= box.low.x;
        }
      while (n <= most && !place_joints (blocks, length, limit, n, joints))
        n++;
      if (n > most)
        g_array_set_size (joints, 0);
    }
  if (joints->len == 0)
    {
      g_ptr_array_add (fields, sw_rings_to (polygon, &same));
      return TRUE;
    }
  double low = -BEYOND_MM;
  for (guint i = 0; i <= joints->len; i++)
    {
      double high = i < joints->len ? g_array_index (joints, double, i) : length + BEYOND_MM;
      if (!add_field (local, frame, box.low.x + low, box.low.x + high, fields, error))
        return FALSE;
      low = high;
    }
  return TRUE;
}
