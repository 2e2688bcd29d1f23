/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/neighbour.h"
#include "base/random.h"
#include "support.h"

/* Boxes as a job has them: long thin runs both ways and small bodies, some empty, some equal. */
static SwBox3
random_box (SwRandom *random, double side, const SwBox3 *before, guint n)
{
  int kind = sw_random_int (random, 0, 19);
  if (kind == 0)
    return SW_BOX3_EMPTY;
  if (kind == 1 && n > 0)
    return before[sw_random_int (random, 0, (int) n - 1)];
  double length = sw_random_double (random, 500, 6000), thick = sw_random_double (random, 25, 110);
  SwPoint3 low = { sw_random_double (random, 0, side), sw_random_double (random, 0, side), sw_random_double (random, -90, 300) };
  SwPoint3 size = { kind < 8 ? length : thick, kind >= 8 && kind < 14 ? length : thick, thick };
  return (SwBox3){ low, sw_point3_add (low, size) };
}

static SwBox3 *
random_boxes (SwRandom *random, guint n)
{
  SwBox3 *boxes = g_new (SwBox3, n + 1);
  for (guint i = 0; i < n; i++)
    boxes[i] = random_box (random, 1000 * sqrt (n / 2.5), boxes, i);
  return boxes;
}

/* Rounding outward stays under a float's step at these sizes, on both boxes. */
#define STEP_MM 0.02

static gboolean
within (SwBox3 a, SwBox3 b, double grow)
{
  return sw_box3_meets (sw_box3_grow (a, grow), b);
}

/* Every pair that is near is there, none that is farther than rounding makes it, and in ascending order. */
static void
check_pairs (const SwBox3 *a, guint n_a, const SwBox3 *b, guint n_b, gboolean one_set, double grow, GArray *pairs)
{
  const SwPair *p = (const SwPair *) pairs->data;
  guint at = 0;
  for (guint i = 0; i < n_a; i++)
    for (guint j = one_set ? i + 1 : 0; j < n_b; j++)
      {
        gboolean there = at < pairs->len && p[at].first == i && p[at].second == j;
        at += there;
        if (there ? !within (a[i], b[j], grow + STEP_MM) : within (a[i], b[j], grow))
          g_test_message ("pair %u %u %s", i, j, there ? "is not near" : "is missing");
        g_assert_true (there ? within (a[i], b[j], grow + STEP_MM) : !within (a[i], b[j], grow));
      }
  g_assert_cmpuint (at, ==, pairs->len); /* holds only when they are sorted and single */
}

static const guint sizes[] = { 0, 1, 2, 7, 8, 9, 64, 65, 200, 513, 1500 };

static void
test_pairs (void)
{
  SwRandom random = { 21 };
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    for (int grow = 0; grow <= 150; grow += 150)
      {
        g_autofree SwBox3 *boxes = random_boxes (&random, sizes[k]);
        g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, sizes[k]);
        g_autoptr (GArray) pairs = sw_neighbours_pairs (index, grow);
        check_pairs (boxes, sizes[k], boxes, sizes[k], TRUE, grow, pairs);
        g_assert_cmpuint (sw_neighbours_count (index), ==, sizes[k]);
      }
}

static void
test_pairs_between (void)
{
  SwRandom random = { 22 };
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    for (int grow = 0; grow <= 60; grow += 60)
      {
        guint n_a = sizes[k], n_b = sizes[G_N_ELEMENTS (sizes) - 1 - k];
        g_autofree SwBox3 *a = random_boxes (&random, n_a);
        g_autofree SwBox3 *b = random_boxes (&random, n_b);
        g_autoptr (SwNeighbours) first = sw_neighbours_new (a, n_a);
        g_autoptr (SwNeighbours) second = sw_neighbours_new (b, n_b);
        g_autoptr (GArray) pairs = sw_neighbours_pairs_between (first, second, grow);
        check_pairs (a, n_a, b, n_b, FALSE, grow, pairs);
      }
}

static gboolean
stop_at_three (guint32 item, gpointer data)
{
  return ++*(int *) data < 3;
}

static void
test_find (void)
{
  SwRandom random = { 23 };
  guint n = 3000;
  g_autofree SwBox3 *boxes = random_boxes (&random, n);
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, n);
  for (int round = 0; round < 300; round++)
    {
      SwBox3 box = random_box (&random, 35000, boxes, n);
      g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (guint32));
      sw_neighbours_find (index, box, items);
      for (guint i = 0, at = 0; i < n; i++)
        {
          gboolean there = at < items->len && g_array_index (items, guint32, at) == i;
          at += there;
          g_assert_true (there ? within (box, boxes[i], STEP_MM) : !within (box, boxes[i], 0));
        }
    }
  int count = 0;
  SwBox3 all = { { -INFINITY, -INFINITY, -INFINITY }, { INFINITY, INFINITY, INFINITY } };
  g_assert_false (sw_neighbours_query (index, all, stop_at_three, &count));
  g_assert_cmpint (count, ==, 3);
  g_autoptr (GArray) everything = g_array_new (FALSE, FALSE, sizeof (guint32));
  sw_neighbours_find (index, all, everything);
  guint full = 0;
  for (guint i = 0; i < n; i++)
    full += boxes[i].low.x <= boxes[i].high.x;
  g_assert_cmpuint (everything->len, ==, full);
  g_assert_cmpuint (full, <, n);
}

static double
box_distance (SwBox3 b, SwPoint3 p)
{
  if (!(b.low.x <= b.high.x))
    return INFINITY;
  SwPoint3 off = { fmax (0, fmax (b.low.x - p.x, p.x - b.high.x)), fmax (0, fmax (b.low.y - p.y, p.y - b.high.y)),
                   fmax (0, fmax (b.low.z - p.z, p.z - b.high.z)) };
  return sw_point3_length (off);
}

static gboolean
is_even (guint32 item, gpointer data)
{
  return item % 2 == 0;
}

static void
test_nearest (void)
{
  SwRandom random = { 24 };
  guint n = 2000;
  g_autofree SwBox3 *boxes = random_boxes (&random, n);
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, n);
  for (int round = 0; round < 500; round++)
    {
      SwPoint3 p = { sw_random_double (&random, -9000, 40000), sw_random_double (&random, -9000, 40000), 0 };
      double least = INFINITY, distance;
      guint32 item;
      for (guint i = 0; i < n; i += 1 + round % 2)
        least = fmin (least, box_distance (boxes[i], p));
      g_assert_true (sw_neighbours_nearest (index, p, round % 2 ? is_even : NULL, NULL, &item, &distance));
      sw_assert_near (distance, least, STEP_MM);
      sw_assert_near (box_distance (boxes[item], p), least, STEP_MM);
      g_assert_true (round % 2 == 0 || item % 2 == 0);
    }
  guint32 item;
  SwBox3 three[] = { SW_BOX3_EMPTY, { { 5, 5, 0 }, { 6, 6, 0 } }, { { 5, 5, 0 }, { 6, 6, 0 } } };
  g_autoptr (SwNeighbours) small = sw_neighbours_new (three, 3);
  g_assert_true (sw_neighbours_nearest (small, (SwPoint3){ 0, 0, 0 }, NULL, NULL, &item, NULL));
  g_assert_cmpuint (item, ==, 1); /* the lower of two equals */
  g_autoptr (SwNeighbours) none = sw_neighbours_new (three, 1);
  g_assert_false (sw_neighbours_nearest (none, (SwPoint3){ 0, 0, 0 }, NULL, NULL, &item, NULL));
}

/* Many rounds of changes beside plain arrays: moves, removals, new items, past the point where the tree is built anew. */
static void
test_changes (void)
{
  SwRandom random = { 25 };
  guint n = 700, most = 1100;
  g_autofree SwBox3 *boxes = g_renew (SwBox3, random_boxes (&random, n), most);
  g_autofree SwBox3 *others = random_boxes (&random, n);
  g_autoptr (SwNeighbours) other = sw_neighbours_new (others, n);
  SwNeighbours *index = sw_neighbours_new (boxes, n);
  g_autoptr (SwNeighbours) oldest = sw_neighbours_ref (index);
  g_autoptr (GArray) before = sw_neighbours_pairs (oldest, 10);
  for (int round = 0; round < 40; round++)
    {
      SwNeighbourChange changes[12];
      guint n_changes = sw_random_int (&random, 0, 12);
      for (guint i = 0; i < n_changes; i++)
        {
          guint32 item = sw_random_int (&random, 0, 6) == 0 && n < most ? n++ : (guint32) sw_random_int (&random, 0, (int) n - 1);
          boxes[item] = random_box (&random, 16000, boxes, item);
          changes[i] = (SwNeighbourChange){ item, boxes[item] };
        }
      SwNeighbours *next = sw_neighbours_with (index, changes, n_changes);
      sw_neighbours_unref (index);
      index = next;
      g_assert_cmpuint (sw_neighbours_count (index), ==, n);
      g_autoptr (GArray) pairs = sw_neighbours_pairs (index, 10);
      check_pairs (boxes, n, boxes, n, TRUE, 10, pairs);
      g_autoptr (GArray) there = sw_neighbours_pairs_between (index, other, 10);
      check_pairs (boxes, n, others, 700, FALSE, 10, there);
      g_autoptr (GArray) back = sw_neighbours_pairs_between (other, index, 10);
      g_assert_cmpuint (back->len, ==, there->len);
      guint32 item;
      double distance, least = INFINITY;
      SwPoint3 p = { sw_random_double (&random, 0, 16000), sw_random_double (&random, 0, 16000), 400 };
      for (guint i = 0; i < n; i++)
        least = fmin (least, box_distance (boxes[i], p));
      g_assert_true (sw_neighbours_nearest (index, p, NULL, NULL, &item, &distance));
      sw_assert_near (distance, least, STEP_MM);
    }
  sw_neighbours_unref (index);
  g_autoptr (GArray) after = sw_neighbours_pairs (oldest, 10); /* old snapshots stay as they were */
  g_assert_cmpmem (before->data, before->len * sizeof (SwPair), after->data, after->len * sizeof (SwPair));
}

/* Crowded and degenerate: all boxes one, all in a row, one item far off. */
static void
test_crowded (void)
{
  enum { N = 300 };
  SwBox3 boxes[N];
  for (int i = 0; i < N; i++)
    boxes[i] = (SwBox3){ { 5, 5, 5 }, { 6, 6, 6 } };
  boxes[17] = (SwBox3){ { 1e7, -1e7, 0 }, { 1e7, -1e7, 0 } };
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, N);
  g_autoptr (GArray) pairs = sw_neighbours_pairs (index, 0);
  check_pairs (boxes, N, boxes, N, TRUE, 0, pairs);
  g_assert_cmpuint (pairs->len, ==, (N - 1) * (N - 2) / 2);
  for (int i = 0; i < N; i++)
    boxes[i] = (SwBox3){ { i * 10, 0, 0 }, { i * 10 + 10, 1, 1 } }; /* each touches the next */
  g_autoptr (SwNeighbours) row = sw_neighbours_new (boxes, N);
  g_autoptr (GArray) touching = sw_neighbours_pairs (row, 0);
  g_assert_cmpuint (touching->len, ==, N - 1);
}

static void
test_memory (void)
{
  SwRandom random = { 26 };
  guint n = 20000;
  g_autofree SwBox3 *boxes = random_boxes (&random, n);
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, n);
  g_assert_cmpfloat ((double) sw_neighbours_bytes (index) / n, <, 33);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/neighbour/pairs", test_pairs);
  g_test_add_func ("/geometry/neighbour/pairs-between", test_pairs_between);
  g_test_add_func ("/geometry/neighbour/find", test_find);
  g_test_add_func ("/geometry/neighbour/nearest", test_nearest);
  g_test_add_func ("/geometry/neighbour/changes", test_changes);
  g_test_add_func ("/geometry/neighbour/crowded", test_crowded);
  g_test_add_func ("/geometry/neighbour/memory", test_memory);
  return g_test_run ();
}
