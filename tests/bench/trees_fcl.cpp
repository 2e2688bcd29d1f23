/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <cmath>
#include <fcl/fcl.h>
#include <glib.h>
#include <memory>
#include <vector>
extern "C"
{
#include "trees.h"
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

extern "C" BenchTree
bench_fcl_tree (const SwBox3 *boxes, guint n)
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
