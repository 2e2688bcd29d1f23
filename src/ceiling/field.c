/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/rows.h"
#include "base/tolerance.h"

/* What rows of sheets are laid in: the part's area seen along the rows, the battens that take their end joints, the lights and
 * hatches that joints keep off, and the heights of a first row that are worth a try. */

#define MOST_MANNERS 24

static int
compare_keep_offs (gconstpointer pa, gconstpointer pb)
{
  const SwKeepOff *a = pa, *b = pb;
  if (a->at.x != b->at.x)
    return a->at.x < b->at.x ? -1 : 1;
  return (a->owner > b->owner) - (a->owner < b->owner);
}

/* Index of the line at x, −1 for none. */
static int
find_line (const GArray *lines, double x)
{
  guint low = 0, high = lines->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (g_array_index (lines, double, middle) < x - 1)
        low = middle + 1;
      else
        high = middle;
    }
  return low < lines->len && g_array_index (lines, double, low) <= x + 1 ? (int) low : -1;
}

static SwPoint
to_field (const SwBoardField *field, SwPoint world)
{
  SwPoint local = sw_frame_to (&field->part->frame, world);
  return field->turned ? (SwPoint){ local.y, local.x } : local;
}

static void
collect_keep_offs (SwBoardField *field, const SwCeiling *ceiling)
{
  const SwJob *job = sw_deck_job (ceiling->deck);
  double near_light = sw_rules_value (ceiling->rules, "board.layout", "light_joint_mm").value;
  double near_hatch = sw_rules_value (ceiling->rules, "board.layout", "hatch_joint_mm").value;
  const SwRecord *record;
  field->keep_offs = g_array_new (FALSE, FALSE, sizeof (SwKeepOff));
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      SwKeepOff off = { to_field (field, light->at), light->cut_out / 2, light->cut_out / 2, near_light, FALSE, record->id };
      if (sw_rings_holds (field->area, off.at))
        g_array_append_val (field->keep_offs, off);
    }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      SwBox box = SW_BOX_EMPTY;
      double cosine = cos (hatch->turn * G_PI / 180), sine = sin (hatch->turn * G_PI / 180);
      for (int k = 0; k < 4; k++)
        {
          SwPoint corner = { (k & 1 ? 0.5 : -0.5) * hatch->length, (k & 2 ? 0.5 : -0.5) * hatch->width };
          box = sw_box_add (box, to_field (field, sw_point_add (hatch->at, sw_point_turn (corner, cosine, sine))));
        }
      SwKeepOff off = { sw_point_lerp (box.low, box.high, 0.5), (box.high.x - box.low.x) / 2,
                        (box.high.y - box.low.y) / 2, near_hatch, TRUE, record->id };
      if (sw_box_holds (field->box, off.at))
        g_array_append_val (field->keep_offs, off);
    }
  g_array_sort (field->keep_offs, compare_keep_offs);
}

/* Where the battens of the grid run; they may be shorter than the walls allow. */
static void
collect_battens (SwBoardField *field, const SwCeiling *ceiling)
{
  const SwCeilingPart *part = field->part;
  for (guint i = 0; i < part->lines->len; i++)
    g_ptr_array_add (field->battens, g_array_new (FALSE, FALSE, sizeof (SwInterval)));
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, i);
      if (member->part != field->index || member->member.kind != SW_MEMBER_BATTEN)
        continue;
      SwPoint a = sw_frame_to (&part->frame, member->member.from), b = sw_frame_to (&part->frame, member->member.to);
      int line = find_line (part->lines, (a.x + b.x) / 2);
      SwInterval along = { fmin (a.y, b.y), fmax (a.y, b.y) };
      if (line >= 0)
        g_array_append_val (field->battens->pdata[line], along);
    }
}

SwBoardField *
sw_board_field_new (const SwCeiling *ceiling, guint index)
{
  const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, index);
  const SwRules *rules = ceiling->rules;
  SwBoardField *field = g_new0 (SwBoardField, 1);
  SwFrame same = { { 0, 0 }, 1, 0 };
  field->part = part;
  field->index = index;
  field->turned = ceiling->turned;
  field->area = field->turned ? sw_rings_swapped (part->area) : sw_rings_to (part->area, &same);
  field->whole = sw_rings_to (field->area, &same);
  field->locked = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  field->box = sw_rings_box (field->area);
  field->length = ceiling->sheet_length;
  field->width = ceiling->sheet_width;
  field->step = part->centres;
  if (field->turned || !part->gridded) /* no batten asks for more: a tidy share of the sheet */
    field->step = field->length / ceil (field->length / part->limit - 1e-9);
  field->start = field->box.low.x;
  if (!field->turned && part->gridded)
    field->start += part->shift;
  field->lines = field->turned ? NULL : g_array_ref (part->lines);
  field->batten = ceiling->room->batten_width;
  field->battens = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  collect_battens (field, ceiling);
  field->bearing = sw_rules_value (rules, "brandering.setout", "bearing_mm").value;
  field->sliver = sw_rules_value (rules, "board.layout", "sliver_mm").value;
  field->edge_good = sw_rules_value (rules, "board.layout", "edge_good_mm").value;
  field->stagger_least = sw_rules_value (rules, "board.layout", "stagger_supports").value * field->step;
  field->stagger_good = sw_rules_value (rules, "board.layout", "stagger_share").value * field->length;
  collect_keep_offs (field, ceiling);
  return field;
}

void
sw_board_field_free (SwBoardField *field)
{
  if (field == NULL)
    return;
  sw_rings_free (field->area);
  sw_rings_free (field->whole);
  g_ptr_array_unref (field->locked);
  g_clear_pointer (&field->lines, g_array_unref);
  g_ptr_array_unref (field->battens);
  g_array_unref (field->keep_offs);
  g_free (field);
}

gboolean
sw_board_field_has_line (const SwBoardField *field, double x)
{
  return field->lines == NULL || find_line (field->lines, x) >= 0;
}

gboolean
sw_board_field_on_line (const SwCeilingPart *part, double x)
{
  return find_line (part->lines, x) >= 0;
}

double
sw_board_field_bare (const SwBoardField *field, double x, const GArray *joints)
{
  int line = find_line (field->part->lines, x);
  if (line < 0)
    return sw_intervals_sum (joints);
  g_autoptr (GArray) bare = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  const GArray *battens = field->battens->pdata[line];
  g_array_append_vals (bare, joints->data, joints->len);
  for (guint i = 0; i < battens->len; i++)
    {
      SwInterval part = g_array_index (battens, SwInterval, i);
      sw_intervals_subtract (bare, part.low - field->batten, part.high + field->batten);
    }
  return sw_intervals_sum (bare);
}

const SwKeepOff *
sw_board_field_near (const SwBoardField *field, SwPoint from, SwPoint to)
{
  SwBox joint = sw_box_add (sw_box_add (SW_BOX_EMPTY, from), to);
  for (guint i = 0; i < field->keep_offs->len; i++)
    {
      const SwKeepOff *off = &g_array_index (field->keep_offs, SwKeepOff, i);
      SwBox box = { { off->at.x - off->half_x - off->keep, off->at.y - off->half_y - off->keep },
                    { off->at.x + off->half_x + off->keep, off->at.y + off->half_y + off->keep } };
      if (joint.low.x < box.high.x && joint.high.x > box.low.x && joint.low.y < box.high.y && joint.high.y > box.low.y)
        return off;
    }
  return NULL;
}

/* ---- manners ---- */

static void
add_manner (const SwBoardField *field, GArray *manners, double first, SwRowsAim aim)
{
  double height = field->box.high.y - field->box.low.y;
  if (field->turned) /* long joints lie on battens too */
    first = floor (first / field->part->centres + 1e-6) * field->part->centres;
  first = fmod (first, field->width);
  if (first < SW_TOUCH_MM)
    first = field->width;
  for (guint i = 0; i < manners->len; i++)
    {
      const SwRowsManner *other = &g_array_index (manners, SwRowsManner, i);
      if (other->aim == aim && fabs (other->first - first) < SW_TOUCH_MM)
        return;
    }
  SwRowsManner manner = { fmin (first, fmax (height, field->width)), aim };
  if (manners->len < 2 * MOST_MANNERS)
    g_array_append_val (manners, manner);
}

GArray *
sw_rows_manners (const SwBoardField *field)
{
  GArray *manners = g_array_new (FALSE, FALSE, sizeof (SwRowsManner));
  double height = field->box.high.y - field->box.low.y, rest = fmod (height, field->width);
  add_manner (field, manners, field->width, SW_ROWS_PLAIN);
  for (guint i = 0; i < field->locked->len; i++) /* rows that go on where locked pieces lie */
    for (int aim = SW_ROWS_FEW; aim < SW_N_ROWS_AIMS; aim++)
      add_manner (field, manners, sw_rings_box (field->locked->pdata[i]).low.y - field->box.low.y + field->width, aim);
  for (int aim = SW_ROWS_FEW; aim < SW_N_ROWS_AIMS; aim++)
    {
      add_manner (field, manners, field->width, aim);
      add_manner (field, manners, rest, aim);
      add_manner (field, manners, (field->width + rest) / 2, aim);
      add_manner (field, manners, field->edge_good, aim);
      add_manner (field, manners, rest - field->edge_good + field->width, aim);
    }
  for (double first = field->part->centres; field->turned && first < field->width - SW_TOUCH_MM; first += field->part->centres)
    add_manner (field, manners, first, SW_ROWS_FEW);
  /* A row's edge at a corner of the room saves a narrow cut there. */
  for (guint i = 0; i < field->area->points->len && manners->len < MOST_MANNERS; i++)
    add_manner (field, manners, g_array_index (field->area->points, SwPoint, i).y - field->box.low.y, SW_ROWS_FEW);
  return manners;
}
