/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bridge.h"
#include <fcl/fcl.h>
#include <memory>
#include <vector>

using Vector = fcl::Vector3<double>;
using Object = fcl::CollisionObject<double>;

static Vector
vector_of (const double p[3])
{
  return Vector (p[0], p[1], p[2]);
}

static Object
axis_object (const BridgeShape *s)
{
  Vector from = vector_of (s->from), to = vector_of (s->to), along = to - from;
  std::shared_ptr<fcl::CollisionGeometry<double>> shape;
  if (s->kind == BRIDGE_CAPSULE)
    shape = std::make_shared<fcl::Capsule<double>> (s->radius, along.norm ());
  else
    shape = std::make_shared<fcl::Cylinder<double>> (s->radius, along.norm ());
  fcl::Transform3<double> place = fcl::Transform3<double>::Identity ();
  place.linear () = Eigen::Quaterniond::FromTwoVectors (Vector::UnitZ (), along).toRotationMatrix ();
  place.translation () = (from + to) / 2;
  return Object (shape, place);
}

static Object
convex_object (const BridgeShape *s)
{
  Vector middle = Vector::Zero ();
  for (int i = 0; i < 2 * s->n; i++)
    middle += vector_of (s->points[i]) / (2.0 * s->n);
  auto points = std::make_shared<std::vector<Vector>> ();
  for (int i = 0; i < 2 * s->n; i++)
    points->push_back (vector_of (s->points[i]) - middle);
  auto faces = std::make_shared<std::vector<int>> ();
  faces->push_back (s->n);
  for (int i = s->n - 1; i >= 0; i--)
    faces->push_back (2 * i);
  faces->push_back (s->n);
  for (int i = 0; i < s->n; i++)
    faces->push_back (2 * i + 1);
  for (int i = 0; i < s->n; i++)
    {
      int next = (i + 1) % s->n;
      for (int k : { 4, 2 * i, 2 * next, 2 * next + 1, 2 * i + 1 })
        faces->push_back (k);
    }
  auto shape = std::make_shared<fcl::Convex<double>> (points, s->n + 2, faces);
  fcl::Transform3<double> place = fcl::Transform3<double>::Identity ();
  place.translation () = middle;
  return Object (shape, place);
}

static Object
object_of (const BridgeShape *s)
{
  return s->kind == BRIDGE_CONVEX ? convex_object (s) : axis_object (s);
}

int
bridge_collide (const BridgeShape *a, const BridgeShape *b)
{
  Object first = object_of (a), second = object_of (b);
  fcl::CollisionRequest<double> request;
  fcl::CollisionResult<double> result;
  request.gjk_solver_type = fcl::GST_INDEP; /* the other one asserts on bodies that just touch */
  request.gjk_tolerance = 1e-9;
  return fcl::collide (&first, &second, request, result) > 0;
}

double
bridge_distance (const BridgeShape *a, const BridgeShape *b)
{
  Object first = object_of (a), second = object_of (b);
  fcl::DistanceRequest<double> request;
  fcl::DistanceResult<double> result;
  request.gjk_solver_type = fcl::GST_INDEP;
  request.distance_tolerance = 1e-9;
  fcl::distance (&first, &second, request, result);
  return result.min_distance > 0 ? result.min_distance : 0;
}
