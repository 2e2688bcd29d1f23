/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/tolerance.h"
#include "ceiling/layout.h"
#include "ceiling/totals.h"
#include "fixture.h"
#include "support.h"
#include <math.h>

/* Expected values are derived by hand beside each; the sample deck's ribs lie along x at y = 0, 600, 1,200 … with their middle. */

static double
quantity (const SwTotals *totals, SwTotalKind kind)
{
  return sw_quantity_to_double (sw_totals_sum (totals, kind));
}

static SwTotals *
totals_of (const SwCeiling *ceiling)
{
  GError *error = NULL;
  SwTotals *totals = sw_totals_new (ceiling, NULL, &error);
  g_assert_no_error (error);
  return totals;
}

static SwBulkhead *
new_bulkhead (SwFixture *fixture, SwId room, double x0, double y0, double x1, double y1, double drop)
{
  SwBulkhead *bulkhead = (SwBulkhead *) sw_sample_create (&fixture->sample, SW_TABLE_BULKHEAD);
  bulkhead->room = room;
  bulkhead->drop = drop;
  sw_sample_rectangle (&bulkhead->outline, x0, y0, x1, y1);
  return bulkhead;
}

static SwId
put_bulkhead (SwFixture *fixture, SwId room, double x0, double y0, double x1, double y1, double drop)
{
  return sw_sample_put (&fixture->sample, &new_bulkhead (fixture, room, x0, y0, x1, y1, drop)->record);
}

/* The room of 6.0 × 4.0 m of the worked example in boards.c. */
static SwId
put_room (SwFixture *fixture)
{
  return sw_sample_put (&fixture->sample, &sw_fixture_rectangle (fixture, 300, 350, 6300, 4350)->record);
}

static double
piece_area (const SwCeiling *ceiling)
{
  double area = 0;
  for (guint i = 0; i < ceiling->pieces->len; i++)
    area += g_array_index (ceiling->pieces, SwCeilingPiece, i).area;
  return area;
}

/* Along one wall: 6.0 × 0.45 m, 300 lower. The face of 6,000 takes two pieces of 3,000 × 300 on studs at 375 (which divides 3,000):
 * 0, 375 … 6,000 are 17 of 300. Bead 6 m; two beads of 3 m. Walls stay 20 m of cornice, and 6 m go along the face below the
 * higher ceiling. Boards: 24 m² flat and 1.8 upright. Tape: joints in the flat, one upright joint of 0.3. */
static void
test_along_wall (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  put_bulkhead (&fixture, room, 300, 3900, 6300, 4350, 300);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, room, NULL);
  g_autoptr (SwTotals) totals = totals_of (ceiling);
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  sw_assert_near (piece_area (ceiling) / 1e6, 24, 1e-6);
  sw_assert_near (quantity (totals, SW_TOTAL_BOARD_AREA), 25.8, 1e-9);
  g_assert_cmpuint (ceiling->faces->len, ==, 1);
  g_assert_cmpuint (ceiling->face_pieces->len, ==, 2);
  g_assert_cmpuint (sw_fixture_members (ceiling, SW_MEMBER_STUD), ==, 17);
  sw_assert_near (quantity (totals, SW_TOTAL_STUD), 17 * 0.3, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_BEAD), 6, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_BEAD_LENGTHS), 2, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_CORNICE), 26, 1e-9);
  double joints = sw_fixture_joints (ceiling, -1) + 0.3;
  sw_assert_near (quantity (totals, SW_TOTAL_TAPE), joints * 1.05, 1e-3);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_HANGER), ==, 0);
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      sw_assert_near (piece->length, 3000, 1e-9);
      sw_assert_near (piece->width, 300, 1e-9);
      sw_assert_near (piece->from.y, 3900 + 9.5 / 2, 0.01);
      sw_assert_near (piece->top, -38, 1e-9); /* the back of the room's boards, below battens of 38 */
      g_assert_cmpint (piece->piece, ==, (int) (ceiling->pieces->len + i + 1));
      g_assert_cmpint (piece->sheet, >=, 1);
      g_assert_cmpint (piece->sheet, <=, (int) ceiling->n_sheets);
    }
  sw_fixture_clear (&fixture);
}

/* Battens of the room end at the face, 300 past the rib at 3,600 and so past the 200 that they may: they go on to the rib at
 * 4,200. Those of the bulkhead lie 300 lower, on hangers, and end on the batten behind the face and at the wall. */
static void
test_battens (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  put_bulkhead (&fixture, room, 300, 3900, 6300, 4350, 300);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, room, NULL);
  guint own = 0, lower = 0, hangers = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, m->part);
      double high = fmax (m->member.from.y, m->member.to.y), low = fmin (m->member.from.y, m->member.to.y);
      if (m->member.kind == SW_MEMBER_BATTEN && part->bulkhead == 0)
        {
          sw_assert_near (high, 4200 + 38, 0.1);
          sw_assert_near (m->member.top, 0, 1e-9);
          own++;
        }
      else if (m->member.kind == SW_MEMBER_BATTEN)
        {
          sw_assert_near (m->member.top, -300, 1e-9);
          sw_assert_near (low, 3900 + 9.5 + 38, 0.1);
          g_assert_cmpuint (m->n_supports, >=, 2);
          lower++;
        }
      else if (m->member.kind == SW_MEMBER_STUD)
        {
          sw_assert_near (m->member.depth, 300, 1e-9);
          sw_assert_near (m->member.top, 0, 1e-9);
        }
    }
  for (guint i = 0; i < ceiling->fixings->len; i++)
    {
      const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, i);
      double top = g_array_index (ceiling->members, SwCeilingMember, fixing->member).member.top;
      sw_assert_near (fixing->fixing.packer, -top, 1e-6);
      hangers += fixing->hanger;
      g_assert_true (fixing->hanger == (top < -1));
    }
  g_assert_cmpuint (own, >=, 14);
  g_assert_cmpuint (lower, >=, 14);
  g_assert_cmpuint (hangers, >=, lower);
  sw_fixture_clear (&fixture);
}

/* In a corner two faces of 2,000 meet in one outer edge of 300; in the middle of the room four faces and four edges. */
static void
test_corners (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  SwId id = put_bulkhead (&fixture, room, 4300, 2350, 6300, 4350, 300);
  g_autoptr (SwCeiling) corner = sw_fixture_plan (&fixture, room, NULL);
  g_assert_cmpuint (corner->faces->len, ==, 2);
  sw_assert_near (corner->bead, 2 * 2000 + 300, 0.01);
  SwBulkhead *moved = (SwBulkhead *) sw_sample_change (&fixture.sample, id);
  sw_sample_rectangle (&moved->outline, 2300, 1350, 4300, 2850);
  sw_sample_put (&fixture.sample, &moved->record);
  g_autoptr (SwCeiling) island = sw_fixture_plan (&fixture, room, NULL);
  g_assert_cmpuint (island->faces->len, ==, 4);
  sw_assert_near (island->bead, 2 * (2000 + 1500) + 4 * 300, 0.01);
  sw_assert_near (island->inner, 2 * (2000 + 1500), 0.01);
  sw_assert_near (piece_area (island) / 1e6, 24, 1e-6);
  g_autoptr (SwTotals) totals = totals_of (island);
  sw_assert_near (quantity (totals, SW_TOTAL_CORNICE), 20 + 7, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_MITRES), 4 + 4, 1e-9);
  g_assert_cmpuint (sw_fixture_marks (island, SW_CEILING_CANTILEVER) + sw_fixture_marks (island, SW_CEILING_UNSUPPORTED), ==, 0);
  sw_fixture_clear (&fixture);
}

/* Two levels side by side: the step from the second to the first is faced too, as high as they differ. Where they overlap the lower
 * one is there. */
static void
test_levels (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  put_bulkhead (&fixture, room, 300, 3150, 6300, 4350, 200);
  put_bulkhead (&fixture, room, 300, 3750, 6300, 4350, 500);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, room, NULL);
  g_assert_cmpuint (ceiling->parts->len, ==, 3);
  g_assert_cmpuint (ceiling->faces->len, ==, 2);
  for (guint i = 0; i < ceiling->faces->len; i++)
    {
      const SwCeilingFace *face = &g_array_index (ceiling->faces, SwCeilingFace, i);
      gboolean upper = fabs (face->from.y - 3150) < 1;
      sw_assert_near (face->height, upper ? 200 : 300, 1e-9);
      sw_assert_near (face->top, upper ? -38 : -238, 1e-9);
    }
  sw_assert_near (piece_area (ceiling) / 1e6, 24, 1e-6);
  sw_fixture_clear (&fixture);
}

/* Framed: battens of a box of 450 span from the batten behind the face to a ledger and hang on no rib; along the box they would
 * have spanned 6 m. */
static void
test_framed (void)
{
  for (int direction = SW_DIRECTION_ACROSS; direction <= SW_DIRECTION_ALONG; direction++)
    {
      SwFixture fixture = sw_fixture_new (7000, 5000, direction == SW_DIRECTION_ALONG ? 90 : 0);
      SwRoom *room = sw_fixture_rectangle (&fixture, direction == SW_DIRECTION_ALONG ? -4700 : 300, 350, direction == SW_DIRECTION_ALONG ? -300 : 6300, 4350);
      room->direction = direction;
      SwBox box = sw_record_box (&room->record);
      SwId id = sw_sample_put (&fixture.sample, &room->record);
      SwBulkhead *bulkhead = new_bulkhead (&fixture, id, box.low.x, 3900, box.high.x, 4350, 300);
      bulkhead->frame = SW_BULKHEAD_FRAMED;
      sw_sample_put (&fixture.sample, &bulkhead->record);
      g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
      guint battens = 0;
      for (guint i = 0; i < ceiling->members->len; i++)
        {
          const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
          if (m->member.kind != SW_MEMBER_BATTEN || m->member.top > ceiling->top - 1)
            continue;
          sw_assert_near (m->span, 450 - 9.5 - 38 - 38, 0.1);
          g_assert_cmpuint (m->n_supports, ==, 2);
          battens++;
        }
      g_assert_cmpuint (battens, >=, 9);
      for (guint i = 0; i < ceiling->fixings->len; i++)
        g_assert_false (g_array_index (ceiling->fixings, SwCeilingFixing, i).hanger);
      g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED), ==, 0);
      sw_fixture_clear (&fixture);
    }
}

/* 1,500 deep with sheets 1,200 wide: two courses, a joint between them with noggins behind it. */
static void
test_courses (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  put_bulkhead (&fixture, room, 300, 3750, 6300, 4350, 1500);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, room, NULL);
  double area = 0;
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      g_assert_cmpfloat (piece->width, <=, 1200);
      g_assert_cmpfloat (piece->length, <=, 3000);
      area += piece->length * piece->width;
    }
  sw_assert_near (area / 1e6, 9, 1e-9);
  g_assert_cmpfloat (ceiling->face_joints, >=, 6000 + 1500);
  g_assert_cmpuint (ceiling->n_sheets, >=, ceiling->n_sheets_bound);
  g_assert_cmpuint (ceiling->n_sheets_bound, ==, 10); /* 24 + 9 m² of 3.6 */
  sw_fixture_clear (&fixture);
}

/* What is stored comes back; a bulkhead that changes makes the layout stale; the room takes its bulkheads with it. */
static void
test_layout (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId room = put_room (&fixture);
  SwId id = put_bulkhead (&fixture, room, 4300, 2350, 6300, 4350, 300);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, room, NULL);
  GError *error = NULL;
  const SwLayout *layout = sw_fixture_store (&fixture, ceiling);
  SwJob *laid = fixture.sample.job;
  g_assert_cmpuint (layout->faces.n, ==, ceiling->face_pieces->len);
  g_autoptr (SwDeck) deck = sw_deck_new (laid);
  g_assert_false (sw_ceiling_layout_is_stale (layout, deck, fixture.rules));
  g_autoptr (SwCeiling) back = sw_ceiling_recall (layout, deck, fixture.rules);
  g_assert_cmpuint (back->parts->len, ==, ceiling->parts->len);
  g_assert_cmpuint (back->n_sheets, ==, ceiling->n_sheets);
  g_assert_cmpuint (back->face_pieces->len, ==, ceiling->face_pieces->len);
  for (guint i = 0; i < back->face_pieces->len; i++)
    {
      const SwCeilingFacePiece *a = &g_array_index (back->face_pieces, SwCeilingFacePiece, i), *b = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i);
      g_assert_cmpint (a->piece.sheet, ==, b->piece.sheet);
      g_assert_true (a->piece.cut == b->piece.cut);
      sw_assert_near (a->x, b->x, 1e-9);
      sw_assert_near (a->y, b->y, 1e-9);
    }
  g_autoptr (SwEdit) lower = sw_edit_new ("lower");
  SwBulkhead *changed = (SwBulkhead *) sw_record_copy (sw_job_get (laid, id));
  changed->drop = 350;
  g_assert_true (sw_edit_put (lower, laid, &changed->record, &error));
  g_autoptr (SwJob) later = sw_job_apply (laid, lower, TRUE, &error);
  g_autoptr (SwDeck) later_deck = sw_deck_update (deck, later, lower);
  g_assert_true (sw_ceiling_layout_is_stale (layout, later_deck, fixture.rules));
  sw_assert_near (sw_deck_ceiling_drop (later_deck, (const SwRoom *) sw_job_get (later, room), (SwPoint){ 5000, 3000 }), 350, 1e-9);
  sw_assert_near (sw_deck_ceiling_drop (later_deck, (const SwRoom *) sw_job_get (later, room), (SwPoint){ 4000, 3000 }), 0, 1e-9);
  g_autoptr (SwEdit) gone = sw_edit_new ("remove");
  sw_edit_remove (gone, later, room);
  g_autoptr (SwJob) without = sw_job_apply (later, gone, TRUE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_job_count (without, SW_TABLE_BULKHEAD), ==, 0);
  sw_fixture_clear (&fixture);
}

/* A framed bulkhead along three walls has a leg of its own for each, whose battens span from wall to face, not along it: 800, 900 and 900 less
 * the board on the face, two battens or ledgers at the ends. */
static void
test_legs (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 400, 300, 6400, 4500)->record);
  SwBulkhead *bulkhead = new_bulkhead (&fixture, id, 0, 0, 1, 1, 250);
  const SwPoint corners[] = { { 400, 300 }, { 6400, 300 }, { 6400, 4500 }, { 400, 4500 }, { 400, 3600 }, { 5500, 3600 }, { 5500, 1100 }, { 400, 1100 } };
  sw_list_set_points (&bulkhead->outline, corners, G_N_ELEMENTS (corners));
  bulkhead->frame = SW_BULKHEAD_FRAMED;
  sw_sample_put (&fixture.sample, &bulkhead->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint framed = 0;
  for (guint i = 0; i < ceiling->parts->len; i++)
    framed += g_array_index (ceiling->parts, SwCeilingPart, i).framed;
  g_assert_cmpuint (framed, ==, 3);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_SPAN) + sw_fixture_marks (ceiling, SW_CEILING_STRESS) + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED)
                    + sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER), ==, 0);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      if (m->member.kind == SW_MEMBER_BATTEN && m->member.top < ceiling->top - 1)
        g_assert_cmpuint (m->n_supports, ==, 2);
      if (m->member.kind == SW_MEMBER_BATTEN && m->member.top < ceiling->top - 1)
        g_assert_cmpfloat (m->span, <=, 900);
    }
  sw_fixture_clear (&fixture);
}

/* By the face of a bulkhead the battens begin at the batten that the face's studs stand on, behind its boards: 900 across, no two are further
 * apart than 400. */
static void
test_beside_face (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 400, 300, 6400, 4500)->record);
  put_bulkhead (&fixture, id, 400, 300, 1300, 4500, 300);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      if (m->top < ceiling->top - 1 && fabs (m->from.x - m->to.x) < 1 && (m->kind == SW_MEMBER_BATTEN || m->kind == SW_MEMBER_PERIMETER))
        g_array_append_val (places, m->from.x);
    }
  g_array_sort (places, sw_compare_doubles);
  g_assert_cmpuint (places->len, >=, 3);
  for (guint i = 1; i < places->len; i++)
    g_assert_cmpfloat (g_array_index (places, double, i) - g_array_index (places, double, i - 1), <=, 400.01);
  sw_assert_near (g_array_index (places, double, places->len - 1), 1300 - 9.5 - 19, 0.01);
  sw_fixture_clear (&fixture);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/bulkheads/along-wall", test_along_wall);
  g_test_add_func ("/ceiling/bulkheads/battens", test_battens);
  g_test_add_func ("/ceiling/bulkheads/corners", test_corners);
  g_test_add_func ("/ceiling/bulkheads/levels", test_levels);
  g_test_add_func ("/ceiling/bulkheads/framed", test_framed);
  g_test_add_func ("/ceiling/bulkheads/legs", test_legs);
  g_test_add_func ("/ceiling/bulkheads/beside-face", test_beside_face);
  g_test_add_func ("/ceiling/bulkheads/courses", test_courses);
  g_test_add_func ("/ceiling/bulkheads/layout", test_layout);
  return g_test_run ();
}
