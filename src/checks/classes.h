/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/check.h"
#include "geometry/neighbour.h"

/* Bodies of a space by class: two of one class want the same clearance of any third. A class is told by the kind of body and by
 * what its record says that the `_needed` functions of checks look at: of a run its service, material, stage, clearance,
 * insulation, contents and the cores of its circuit, of a fitting kind and level, of a light by how much its cut-out is wider than its body, of a wall
 * whether it separates, of a rib or plate whether it was measured. A function that looks at more has to add it to the key in
 * classes.c; a test compares with asking every pair. Inside the layer. */
typedef struct
{
  guint8 *of;   /* class of every body */
  GArray *reps; /* guint32: a body of each class; of class 0 none: it is for those that are too many, and reaches `widest` */
  float *reach; /* square: what any check wants between two classes, mm; negative: nothing */
} SwCheckClasses;

/* `needed` is asked once for each two classes, either way round. */
SwCheckClasses *sw_check_classes_new (const SwCheckRun *run, double widest, SwSpaceNeeded needed, gpointer data);
void sw_check_classes_free (SwCheckClasses *classes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCheckClasses, sw_check_classes_free)

/* For tests: the classes of a space as the whole check makes them, and what its checks ask of two bodies (negative: nothing). */
typedef struct _SwCheckAsking SwCheckAsking;
SwCheckAsking *sw_check_asking_new (SwSpace *space);
void sw_check_asking_free (SwCheckAsking *asking);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCheckAsking, sw_check_asking_free)
const SwCheckClasses *sw_check_asking_classes (const SwCheckAsking *asking);
double sw_check_asking_needed (SwCheckAsking *asking, guint a, guint b);

static inline SwNeighbourClasses
sw_check_classes_view (const SwCheckClasses *classes)
{
  return (SwNeighbourClasses){ classes->of, classes->reps->len, classes->reach };
}
