/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As broadphase.c, beside a collision library's dynamic tree of boxes, where that library is installed. Making its
 * objects is not counted. */
#include <cmath>
#include <cstdio>
#include <ctime>
#include <fcl/fcl.h>
#include <glib.h>
#include <memory>
#include <vector>
extern "C"
{
#include "broadphase.h"
}

using Object = fcl::CollisionObject<double>;

static bool
count_pair (Object *, Object *, void *data)
{
  ++*static_cast<std::size_t *> (data);
  return false;
}

static std::vector<std::unique_ptr<Object>>
make_objects (const SwBox3 *boxes, guint n)
{
  std::vector<std::unique_ptr<Object>> objects;
  for (guint i = 0; i < n; i++)
    {
      fcl::Vector3<double> low (boxes[i].low.x, boxes[i].low.y, boxes[i].low.z);
      fcl::Vector3<double> high (boxes[i].high.x, boxes[i].high.y, boxes[i].high.z);
      auto shape = std::make_shared<fcl::Box<double>> (high - low);
      fcl::Transform3<double> place = fcl::Transform3<double>::Identity ();
      place.translation () = (low + high) / 2;
      objects.emplace_back (new Object (shape, place));
      objects.back ()->computeAABB ();
    }
  return objects;
}

static double
dynamic_tree_ms (const SwBox3 *boxes, guint n, std::size_t *pairs)
{
  auto objects = make_objects (boxes, n);
  std::vector<Object *> plain;
  for (auto &object : objects)
    plain.push_back (object.get ());
  *pairs = 0;
  double start = bench_cpu_ms ();
  fcl::DynamicAABBTreeCollisionManager<double> manager;
  manager.registerObjects (plain);
  manager.setup ();
  manager.collide (pairs, count_pair);
  return bench_cpu_ms () - start;
}

static void
bench (BenchKind kind)
{
  double before[2] = { NAN, NAN };
  for (guint n = 1000; n <= 100000; n *= 10)
    {
      SwBox3 *boxes = bench_boxes (kind, n);
      double ours = INFINITY, theirs = INFINITY;
      std::size_t our_pairs = 0, their_pairs = 0;
      for (int round = 0; round < 3; round++)
        {
          BenchOurs now = bench_ours (boxes, n);
          our_pairs = now.pairs;
          ours = std::fmin (ours, now.total_ms);
          theirs = std::fmin (theirs, dynamic_tree_ms (boxes, n, &their_pairs));
        }
      std::printf ("%-6s %7u %9zu %9zu %9.2f %9.2f %7.1f %8.2f %8.2f\n", kind == BENCH_THIN ? "thin" : "cubes", n,
                   our_pairs, their_pairs, ours, theirs, theirs / ours, std::log10 (ours / before[0]),
                   std::log10 (theirs / before[1]));
      before[0] = ours;
      before[1] = theirs;
      g_free (boxes);
    }
}

int
main ()
{
  std::printf ("%-6s %7s %9s %9s %9s %9s %7s %8s %8s\n", "boxes", "n", "pairs", "theirs", "all ms", "tree ms", "ratio",
               "growth", "their gr.");
  bench (BENCH_THIN);
  bench (BENCH_CUBES);
  return 0;
}
