/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/totals.h"
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/totals_parts.h"
#include <math.h>

/* Counting the material of a laid ceiling. Nothing is estimated that can be counted: sheets and stock lengths come from their
 * cutting plans, screws from every crossing of a member with a piece, cornice from the walls. Only what is bought by weight or
 * roll goes by a factor of the rule set. Members times pieces. */

static double
rule (const SwCeiling *ceiling, const char *group, const char *key)
{
  return sw_rules_value (ceiling->rules, group, key).value;
}

/* ---- boards ---- */

/* Sheets of a size with their mass; returns their area in m². */
static double
add_sheets (SwTotals *totals, double length, double width, guint count, double mass)
{
  double sheet = length * width / 1e6;
  sw_totals_add (totals, SW_TOTAL_SHEETS, length, width, 0, count);
  sw_totals_add (totals, SW_TOTAL_SHEET_MASS, mass * sheet, 0, 0, mass * sheet * count);
  return sheet * count;
}

static gboolean
same_size (const SwOddSheet *a, const SwOddSheet *b)
{
  return fabs (a->length - b->length) < SW_TOUCH_MM && fabs (a->width - b->width) < SW_TOUCH_MM;
}

/* Of the pieces on upright faces, m². */
static double
face_area (const SwCeiling *ceiling)
{
  double area = 0;
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      area += piece->length * piece->width / 1e6;
    }
  return area;
}

static gboolean
add_boards (SwTotals *totals, const SwCeiling *ceiling, GError **error)
{
  SwRuleValue mass;
  const char *row = sw_ceiling_board_row (ceiling->rules, "board.kinds", ceiling->room, error);
  if (row == NULL || !sw_rules_lookup (ceiling->rules, "board.kinds", row, "mass_kg_m2", &mass, error))
    return FALSE;
  const SwOddSheet *odd = (const SwOddSheet *) ceiling->sheets->data;
  guint n_odd = ceiling->sheets->len;
  double area = 0, bought = add_sheets (totals, ceiling->sheet_length, ceiling->sheet_width, ceiling->n_sheets - n_odd, mass.value);
  for (guint i = 0; i < ceiling->pieces->len; i++)
    area += g_array_index (ceiling->pieces, SwCeilingPiece, i).area / 1e6;
  area += face_area (ceiling);
  for (guint i = 0; i < n_odd; i++)
    {
      guint before = 0, count = 0;
      for (guint k = 0; k < n_odd; k++)
        {
          before += k < i && same_size (&odd[i], &odd[k]);
          count += same_size (&odd[i], &odd[k]);
        }
      if (before == 0)
        bought += add_sheets (totals, odd[i].length, odd[i].width, count, mass.value);
    }
  sw_totals_add (totals, SW_TOTAL_BOARD_AREA, 0, 0, 0, area);
  sw_totals_add (totals, SW_TOTAL_BOARD_WASTE, 0, 0, 0, bought - area);
  return TRUE;
}

/* Inner corners of bulkheads; not those that a cornice covers. */
static double
taped_corners (const SwCeiling *ceiling)
{
  double length = ceiling->inner;
  for (guint i = 0; i < ceiling->faces->len && ceiling->room->edge != SW_EDGE_PLAIN; i++)
    length -= sw_point_distance (g_array_index (ceiling->faces, SwCeilingFace, i).from, g_array_index (ceiling->faces, SwCeilingFace, i).to);
  return fmax (length, 0);
}

static void
add_joints (SwTotals *totals, const SwCeiling *ceiling)
{
  double sums[3] = { 0 }, area = sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_BOARD_AREA));
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      sums[joint->kind] += sw_point_distance (joint->from, joint->to) / 1e3;
    }
  sums[SW_JOINT_END] += ceiling->face_joints / 1e3;
  gboolean strips = ceiling->room->joints == SW_BOARD_JOINTS_STRIP;
  double covered = sums[SW_JOINT_LONG] + sums[SW_JOINT_END] + taped_corners (ceiling) / 1e3, factor = rule (ceiling, "board.takeoff", "tape_factor");
  double tape = strips ? 0 : covered * factor;
  sw_totals_add (totals, SW_TOTAL_JOINT_LONG, 0, 0, 0, sums[SW_JOINT_LONG]);
  sw_totals_add (totals, SW_TOTAL_JOINT_END, 0, 0, 0, sums[SW_JOINT_END]);
  sw_totals_add (totals, SW_TOTAL_JOINT_MOVEMENT, 0, 0, 0, sums[SW_JOINT_MOVEMENT]);
  sw_totals_add (totals, SW_TOTAL_TAPE, 0, 0, 0, tape);
  sw_totals_add (totals, SW_TOTAL_TAPE_ROLLS, 0, 0, 0, ceil (tape / rule (ceiling, "board.takeoff", "tape_roll_m") - 1e-9));
  sw_totals_add (totals, SW_TOTAL_COMPOUND, 0, 0, 0, strips ? 0 : area * rule (ceiling, "board.takeoff", "compound_kg_m2"));
  sw_totals_add (totals, SW_TOTAL_COVER_STRIP, 0, 0, 0, strips ? covered : 0);
}

/* ---- screws ---- */

static guint
screws_along (double chord, double edge, double spacing)
{
  return (guint) ceil (fmax (chord - 2 * edge - SW_TOUCH_MM, 0) / spacing) + 1;
}

guint
sw_totals_sheet_screws (const SwRules *rules, double length, double width, double centres)
{
  double edge = sw_rules_value (rules, "board.screws", "bound_edge_mm").value;
  guint ends = screws_along (width, edge, sw_rules_value (rules, "board.screws", "end_mm").value);
  guint field = screws_along (width, edge, sw_rules_value (rules, "board.screws", "field_mm").value);
  guint between = (guint) MAX (0, (int) ceil (length / centres - 1e-6) - 1);
  return 2 * ends + between * field;
}

static double
chord (const SwRings *ring, double y)
{
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_cut (ring, SW_ALONG_X, y, cuts);
  return sw_intervals_sum (cuts);
}

/* Where a member runs below a piece on both of its sides, it is the piece's field; on one, its end. */
static guint
screws_at (const SwCeiling *ceiling, const SwMember *member, const SwRings *piece)
{
  const double aside = 8; /* inside the piece, for members whose middle is its edge */
  SwFrame frame = sw_frame_along (member->from, member->to);
  double length = sw_point_distance (member->from, member->to);
  g_autoptr (SwRings) local = sw_rings_to (piece, &frame);
  SwBox box = sw_rings_box (local);
  if (box.high.y < -aside || box.low.y > aside || box.high.x < SW_TOUCH_MM || box.low.x > length - SW_TOUCH_MM)
    return 0;
  double left = fmin (chord (local, aside), length), right = fmin (chord (local, -aside), length);
  if (left <= 0 && right <= 0)
    return 0;
  gboolean field = member->kind == SW_MEMBER_BATTEN && left > 0 && right > 0;
  return screws_along (field ? fmin (left, right) : fmax (left, right), rule (ceiling, "board.screws", "bound_edge_mm"),
                       rule (ceiling, "board.screws", field ? "field_mm" : "end_mm"));
}

/* A member beside the piece, not above or below another level of the ceiling. */
static gboolean
is_beside (const SwCeiling *ceiling, const SwCeilingMember *member, const SwCeilingPiece *piece)
{
  double drop = g_array_index (ceiling->parts, SwCeilingPart, piece->part).drop;
  return member->member.kind != SW_MEMBER_PRIMARY && member->member.top == ceiling->top - drop
         && g_array_index (ceiling->parts, SwCeilingPart, member->part).drop == drop;
}

/* On every stud, the piece's own ends among them, and along its upper and lower edge. */
static guint
face_screws (const SwCeiling *ceiling)
{
  double edge = rule (ceiling, "board.screws", "bound_edge_mm"), end = rule (ceiling, "board.screws", "end_mm");
  double field = rule (ceiling, "board.screws", "field_mm");
  guint count = 0;
  for (guint i = 0; i < ceiling->faces->len; i++)
    {
      const SwCeilingFace *face = &g_array_index (ceiling->faces, SwCeilingFace, i);
      for (guint k = face->first; k < face->first + face->n; k++)
        {
          const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, k).piece;
          guint between = (guint) MAX (0, (int) ceil (piece->length / face->centres - 1e-6) - 1);
          count += 2 * screws_along (piece->width, edge, end) + between * screws_along (piece->width, edge, field);
          count += 2 * between * MAX (screws_along (face->centres, 0, end), 2) - 2 * between;
        }
    }
  return count;
}

static void
add_screws (SwTotals *totals, const SwCeiling *ceiling)
{
  guint count = 0;
  for (guint p = 0; p < ceiling->pieces->len; p++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, p);
      g_autoptr (SwRings) ring = sw_rings_new ();
      sw_rings_add (ring, &g_array_index (ceiling->corners, SwPoint, piece->first), piece->n);
      SwBox box = sw_box_grow (sw_rings_box (ring), ceiling->room->batten_width);
      for (guint m = 0; m < ceiling->members->len; m++)
        {
          const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, m);
          SwBox line = sw_box_add (sw_box_add (SW_BOX_EMPTY, member->member.from), member->member.to);
          if (sw_box_meets (box, line) && is_beside (ceiling, member, piece))
            count += screws_at (ceiling, &member->member, ring);
        }
    }
  count += face_screws (ceiling);
  sw_totals_add (totals, SW_TOTAL_SCREWS, 0, 0, 0, count);
  sw_totals_add (totals, SW_TOTAL_SCREW_BOXES, 0, 0, 0, ceil (count / rule (ceiling, "board.takeoff", "screw_box")));
}

/* ---- fixings ---- */

/* Steel is clipped to the ribs at each fixing, and to the primaries that it crosses. */
static guint
count_clips (const SwCeiling *ceiling)
{
  guint clips = 0;
  for (guint i = 0; i < ceiling->fixings->len; i++)
    clips += MAX (g_array_index (ceiling->fixings, SwCeilingFixing, i).count, 1);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, i);
      gboolean crosses = g_array_index (ceiling->parts, SwCeilingPart, member->part).layered && member->member.kind != SW_MEMBER_PRIMARY;
      clips += crosses ? member->n_places : 0;
    }
  return ceiling->room->material == SW_BATTENS_STEEL ? clips : 0;
}

static void
add_fixings (SwTotals *totals, const SwCeiling *ceiling)
{
  guint plain = 0, longer = 0, hangers = 0, packers = 0;
  double packing = 0, each = rule (ceiling, "brandering.fixing", "per_crossing");
  for (guint i = 0; i < ceiling->fixings->len; i++)
    {
      const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, i);
      guint count = MAX (fixing->count, 1); /* not known of a layout that its inputs left behind */
      hangers += fixing->hanger ? count : 0;
      longer += fixing->long_fixing && !fixing->hanger ? count : 0;
      plain += fixing->long_fixing ? 0 : count;
      if (fixing->fixing.packer < 1)
        continue;
      packers++;
      packing += fixing->fixing.packer;
    }
  sw_totals_add (totals, SW_TOTAL_FIXINGS, 0, 0, 0, plain * each);
  sw_totals_add (totals, SW_TOTAL_LONG_FIXINGS, 0, 0, 0, longer * each);
  sw_totals_add (totals, SW_TOTAL_HANGERS, 0, 0, 0, hangers * each);
  sw_totals_add (totals, SW_TOTAL_CLIPS, 0, 0, 0, count_clips (ceiling));
  sw_totals_add (totals, SW_TOTAL_PACKERS, 0, 0, packing, packers);
}

static void
add_beads (SwTotals *totals, const SwCeiling *ceiling)
{
  double length = rule (ceiling, "board.takeoff", "bead_length_mm");
  sw_totals_add (totals, SW_TOTAL_BEAD, 0, 0, 0, ceiling->bead / 1e3);
  sw_totals_add (totals, SW_TOTAL_BEAD_LENGTHS, 0, 0, length, ceil (ceiling->bead / length - 1e-9));
}

static void
add_hatches (SwTotals *totals, const SwCeiling *ceiling)
{
  guint count = 0;
  const SwRecord *record;
  const SwList *outline = &ceiling->room->outline;
  for (SwJobIter i = sw_job_iter (sw_deck_job (ceiling->deck), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    count += sw_outline_holds (outline->items, outline->n, ((const SwHatch *) record)->at);
  sw_totals_add (totals, SW_TOTAL_HATCHES, 0, 0, 0, count);
}

/* ---- all ---- */

static void
clear_section (gpointer data)
{
  SwTotalSection *section = data;
  g_clear_pointer (&section->items, g_array_unref);
  g_clear_pointer (&section->stock, g_array_unref);
  sw_linear_plan_free (section->plan);
}

static int
compare_totals (gconstpointer pa, gconstpointer pb)
{
  const SwTotal *a = pa, *b = pb;
  const double keys[][2] = { { a->kind, b->kind }, { a->a, b->a }, { a->b, b->b }, { a->length, b->length } };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return (a->quantity > b->quantity) - (a->quantity < b->quantity);
}

SwTotals *
sw_totals_new (const SwCeiling *ceiling, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwTotals) totals = g_new0 (SwTotals, 1);
  totals->totals = g_array_new (FALSE, FALSE, sizeof (SwTotal));
  totals->sections = g_array_new (FALSE, TRUE, sizeof (SwTotalSection));
  g_array_set_clear_func (totals->sections, clear_section);
  if (!add_boards (totals, ceiling, error))
    return NULL;
  add_joints (totals, ceiling);
  add_screws (totals, ceiling);
  sw_totals_cornice (totals, ceiling);
  add_beads (totals, ceiling);
  add_fixings (totals, ceiling);
  add_hatches (totals, ceiling);
  if (!sw_totals_timber (totals, ceiling, cancellable, error))
    return NULL;
  if (ceiling->room->insulation > 0)
    sw_totals_add (totals, SW_TOTAL_INSULATION, 0, 0, ceiling->room->insulation,
                   sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_BOARD_AREA)) - face_area (ceiling));
  g_array_sort (totals->totals, compare_totals);
  return g_steal_pointer (&totals);
}

void
sw_totals_free (SwTotals *totals)
{
  if (totals == NULL)
    return;
  g_array_unref (totals->totals);
  g_array_unref (totals->sections);
  g_free (totals);
}
