/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As broadphase.c, beside a collision library's dynamic tree of boxes, where that library is installed. Making its
 * objects is not counted. */
#include <cmath>
#include <cstdio>
#include <cstdlib>
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

static BenchTree
dynamic_tree (const SwBox3 *boxes, guint n)
{
  auto objects = make_objects (boxes, n);
  std::vector<Object *> plain;
  for (auto &object : objects)
    plain.push_back (object.get ());
  std::size_t pairs = 0;
  gsize heap = bench_heap ();
  double start = bench_cpu_ms ();
  fcl::DynamicAABBTreeCollisionManager<double> manager;
  manager.registerObjects (plain);
  manager.setup ();
  manager.collide (&pairs, count_pair);
  return { bench_cpu_ms () - start, pairs, bench_heap () - heap };
}

static void
bench (BenchKind kind, const std::vector<guint> &sizes)
{
  double before[2] = { NAN, NAN }, n_before = NAN;
  for (guint n : sizes)
    {
      SwBox3 *boxes = bench_boxes (kind, n);
      double ours = INFINITY;
      std::size_t our_pairs = 0, our_bytes = 0;
      BenchTree theirs = { INFINITY, 0, 0 };
      for (int round = 0; round < 3; round++)
        {
          BenchOurs now = bench_ours (boxes, n);
          our_pairs = now.pairs;
          our_bytes = now.bytes;
          ours = std::fmin (ours, now.total_ms);
          BenchTree tree = dynamic_tree (boxes, n);
          theirs = tree.ms < theirs.ms ? tree : theirs;
        }
      double step = std::log (n / n_before);
      std::printf ("%-6s %7u %9zu %9zu %9.2f %9.2f %7.1f %8.2f %8.2f %7.1f %7.1f\n", kind == BENCH_THIN ? "thin" : "cubes", n,
                   our_pairs, (std::size_t) theirs.pairs, ours, theirs.ms, theirs.ms / ours, std::log (ours / before[0]) / step,
                   std::log (theirs.ms / before[1]) / step, (double) our_bytes / n, (double) theirs.bytes / n);
      before[0] = ours;
      before[1] = theirs.ms;
      n_before = n;
      g_free (boxes);
    }
}

int
main (int argc, char **argv)
{
  std::vector<guint> sizes;
  for (int i = 1; i < argc; i++)
    sizes.push_back ((guint) CLAMP (std::atoi (argv[i]), 1, 10000000));
  if (sizes.empty ())
    sizes = { 1000, 10000, 100000 };
  std::printf ("%-6s %7s %9s %9s %9s %9s %7s %8s %8s %7s %7s\n", "boxes", "n", "pairs", "theirs", "all ms", "tree ms", "ratio",
               "growth", "their gr.", "B/item", "their B");
  bench (BENCH_THIN, sizes);
  bench (BENCH_CUBES, sizes);
  return 0;
}
