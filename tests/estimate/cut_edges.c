/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Long sides of boards at joints: which want a bound edge, and that strips are put where the sheet has its own. Each plan is sawn again
 * here, cut by cut. */
#include "estimate/cut_edges.h"
#include "base/random.h"
#include "ceiling/layout.h"
#include "estimate/lay_rooms.h"
#include "space/sample.h"
#include "support.h"
#include <math.h>

/* ---- arranging */

static SwCutTask *
sheets (gint64 length, gint64 width, gint64 kerf)
{
  SwCutTask *task = sw_cut_task_new (TRUE, 1);
  task->kerf = kerf;
  task->keep = 100;
  sw_cut_task_add_stock (task, "", length, width, 0);
  return task;
}

static void
want (SwCutTask *task, gint64 length, gint64 width, int copies, int edges)
{
  sw_cut_task_add_item (task, "", length, width, copies, FALSE);
  g_array_index (task->items, SwCutItem, task->items->len - 1).edges = edges;
}

static SwCutPlan *
plan_of (const SwCutTask *task)
{
  GError *error = NULL;
  SwCutPlan *plan = sw_cut_plan_new (task, NULL, &error);
  g_assert_no_error (error);
  return plan;
}

typedef struct { gint64 x, y, length, width; } Part;

static void
saw (GArray *parts, const SwCutLine *line, gint64 kerf)
{
  for (guint i = 0; i < parts->len; i++)
    {
      Part part = g_array_index (parts, Part, i), rest = part;
      gboolean spans = line->upright ? line->from == part.y && line->to == part.y + part.width && line->at > part.x && line->at < part.x + part.length
                                     : line->from == part.x && line->to == part.x + part.length && line->at > part.y && line->at < part.y + part.width;
      if (!spans)
        continue;
      if (line->upright)
        {
          rest.x = line->at + kerf;
          rest.length = part.x + part.length - rest.x;
          part.length = line->at - part.x;
        }
      else
        {
          rest.y = line->at + kerf;
          rest.width = part.y + part.width - rest.y;
          part.width = line->at - part.y;
        }
      g_array_index (parts, Part, i) = part;
      if (rest.length > 0 && rest.width > 0)
        g_array_append_val (parts, rest);
      return;
    }
  g_assert_not_reached (); /* a cut that goes through nothing whole */
}

/* The cuts, made in their order, give each piece as it stands in the plan. */
static void
assert_sawn (const SwCutPlan *plan)
{
  for (guint w = 0; w < plan->ways->len; w++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
      const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
      Part whole = { stock->start, stock->low, stock->length - stock->start - stock->end, stock->width - stock->low - stock->high };
      g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (Part));
      g_array_append_val (parts, whole);
      for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
        saw (parts, &g_array_index (plan->lines, SwCutLine, k), plan->task->kerf);
      for (guint k = way->first; k < way->first + way->n; k++)
        {
          const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
          gboolean found = FALSE;
          for (guint i = 0; i < parts->len && !found; i++)
            {
              const Part *part = &g_array_index (parts, Part, i);
              found = part->x == piece->x && part->y == piece->y && part->length == piece->length && part->width == piece->width;
            }
          g_assert_true (found);
        }
    }
}

/* Four strips of 285 from 1,200 with cuts of 5: the two that want an edge go to the sides, whatever the order of the list; with
 * three that want one, one goes without. 4 × 285 + 3 × 5 = 1,155 leaves 45 between. */
static void
test_strips (void)
{
  for (int who = 0; who < 16; who++)
    {
      g_autoptr (SwCutTask) task = sheets (3000, 1200, 5);
      guint wanting = 0;
      for (int i = 0; i < 4; i++)
        {
          want (task, 3000 - i, 285, 1, who >> i & 1);
          wanting += (guint) (who >> i & 1);
        }
      g_autoptr (SwCutPlan) plan = plan_of (task);
      assert_sawn (plan);
      g_assert_cmpuint (plan->n, ==, 1);
      g_assert_cmpuint (sw_cut_edges_missing (plan), ==, wanting > 2 ? wanting - 2 : 0);
    }
}

/* Trimmed sides are no edges of the sheet any more. */
static void
test_trimmed (void)
{
  g_autoptr (SwCutTask) task = sheets (3000, 1200, 5);
  g_array_index (task->stock, SwCutStock, 0).low = g_array_index (task->stock, SwCutStock, 0).high = 10;
  want (task, 3000, 500, 2, 1);
  g_autoptr (SwCutPlan) plan = plan_of (task);
  assert_sawn (plan);
  g_assert_cmpuint (sw_cut_edges_missing (plan), ==, 2);
}

/* Whatever is cut: the same sheets, pieces and offcuts as without, and never more sides without an edge. */
static void
test_random (void)
{
  SwRandom random = { 41 };
  guint before = 0, after = 0;
  for (int round = 0; round < sw_test_rounds (60); round++)
    {
      g_autoptr (SwCutTask) task = sheets (3000, 1200, sw_random_int (&random, 0, 6));
      for (int i = sw_random_int (&random, 2, 9); i > 0; i--)
        want (task, sw_random_int (&random, 300, 3000), sw_random_int (&random, 100, 700), sw_random_int (&random, 1, 2), 0);
      g_autoptr (SwCutPlan) plain = plan_of (task);
      assert_sawn (plain);
      for (guint i = 0; i < task->items->len; i++)
        g_array_index (task->items, SwCutItem, i).edges = sw_random_int (&random, 0, 1);
      guint missing = sw_cut_edges_missing (plain);
      g_autoptr (SwCutPlan) plan = plan_of (task);
      assert_sawn (plan);
      g_assert_cmpuint (plan->n, ==, plain->n);
      g_assert_cmpint (plan->used, ==, plain->used);
      g_assert_cmpint (plan->kept, >=, plain->kept);
      g_assert_cmpuint (sw_cut_edges_missing (plan), <=, missing);
      before += missing;
      after += sw_cut_edges_missing (plan);
    }
  g_test_message ("sides without an edge: %u, arranged %u", before, after);
  g_assert_cmpuint (after, <, before);
}

/* ---- what rooms want */

/* In a plain rectangle rows lie side by side: a piece has joints on the sides that are not at a wall. */
static void
test_rows (void)
{
  GError *error = NULL;
  SwSample sample = sw_sample_new (9000, 9000, 0);
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  SwRoom *room = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&room->outline, 300, 400, 5300, 5000);
  room->finish = SW_FINISH_CLOSED;
  SwId id = sw_sample_put (&sample, &room->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  g_autoptr (SwEdit) edit = sw_edit_new ("lay");
  const SwLayWanted wanted_rooms = { .rooms = &id, .n = 1 };
  G_GNUC_UNUSED g_autoptr (GArray) laid = sw_lay_rooms (deck, rules, &wanted_rooms, edit, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (SwJob) job = sw_job_apply (sample.job, edit, TRUE, &error);
  const SwLayout *layout = sw_ceiling_layout_of (job, id);
  const SwJoint *row = NULL;
  int most = 0;
  for (guint i = 0; i < layout->joints.n && row == NULL; i++)
    if (SW_LIST_AT (layout->joints, SwJoint, i).kind == SW_JOINT_LONG)
      row = &SW_LIST_AT (layout->joints, SwJoint, i);
  g_assert_nonnull (row);
  gboolean along_x = fabs (row->to.x - row->from.x) > fabs (row->to.y - row->from.y);
  for (guint i = 0; i < layout->pieces.n; i++)
    {
      int number = SW_LIST_AT (layout->pieces, SwPiece, i).piece;
      SwBox box = SW_BOX_EMPTY;
      for (guint k = 0; k < layout->corners.n; k++)
        if (SW_LIST_AT (layout->corners, SwCorner, k).piece == number)
          box = sw_box_add (box, SW_LIST_AT (layout->corners, SwCorner, k).at);
      int wanted = along_x ? (box.low.y > 401) + (box.high.y < 4999) : (box.low.x > 301) + (box.high.x < 5299);
      g_assert_cmpint (sw_cut_edges_wanted (layout, number), ==, wanted);
      most = MAX (most, wanted);
    }
  g_assert_cmpint (most, ==, 2);
  sw_sample_clear (&sample);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/estimate/cut-edges/strips", test_strips);
  g_test_add_func ("/estimate/cut-edges/trimmed", test_trimmed);
  g_test_add_func ("/estimate/cut-edges/random", test_random);
  g_test_add_func ("/estimate/cut-edges/rows", test_rows);
  return g_test_run ();
}
