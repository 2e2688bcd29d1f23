/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a thing at one place could do: a light within its void, a drop-in with the pipe that hangs on it, a box or valve aside
 * or up and down, a hatch below what has to be reached, a sleeve of the right width. */
#include "checks/candidates.h"
#include "checks/places.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "circuits/draws.h"
#include <string.h>

static double
whole (double mm)
{
  return ceil (mm - 2 * SW_GRID_MM);
}

static SwPoint
in_world (const SwDeckBay *bay, double u, double v)
{
  return bay != NULL ? sw_point_turn ((SwPoint){ u, v }, bay->cosine, bay->sine) : (SwPoint){ u, v };
}

/* Rounded away from zero in each direction: what is short by a hair is short. */
static SwPoint
suggested (const SwSnag *snag)
{
  double distance = whole (snag->distance);
  return (SwPoint){ snag->direction.x * distance, snag->direction.y * distance };
}

static gboolean
stays_in_room (const SwCandidates *to, SwPoint at, SwPoint by)
{
  return sw_deck_room_at (to->deck, at) == sw_deck_room_at (to->deck, sw_point_add (at, by));
}

/* ---- lights */

static void
add_light (SwCandidates *to, const SwLight *light, SwPoint by)
{
  double length = sw_point_length (by);
  if (length < 0.5 || !stays_in_room (to, light->at, by))
    return;
  SwLight *moved = (SwLight *) sw_record_copy (&light->record);
  moved->at = sw_point_add (light->at, by);
  SwAdvice *advice = sw_candidates_add (to, N_ ("Move downlight"), N_ ("Move the light {move}."), &moved->record, length);
  if (advice != NULL)
    sw_candidates_set_move (advice, (SwPoint3){ by.x, by.y, 0 });
}

/* The nearest place that nothing bars, as far as bodies decide. */
static void
light_to_place (SwCandidates *to, const SwLight *light)
{
  const SwRoom *room = sw_deck_room_at (to->deck, light->at);
  g_autoptr (SwLightPlaces) places = room != NULL ? sw_check_light_places (to->space, room, light, NULL, NULL) : NULL;
  if (places == NULL)
    return;
  SwLightPlace place = sw_light_places_ask (places, light->at);
  if (place.mm < 0 && isfinite (place.mm))
    add_light (to, light, place.move);
}

/* The way out that the snag names, the nearest allowed place, then a grid around: along the void, and across it up to its middle. */
static void
light_moves (SwCandidates *to, const SwLight *light)
{
  static const double steps[] = { 0, 10, -10, 25, -25, 50, -50, 75, -75, 100, -100, 150, -150, 200, -200, 300, -300 };
  const SwDeckBay *bay = sw_deck_bay_at (to->deck, light->at);
  double middle = 0;
  if (bay != NULL && bay->voids->len > 0)
    {
      double v = sw_deck_to_bay (bay, light->at).y;
      middle = g_array_index (bay->voids, SwVoid, sw_deck_void_near (bay, v)).v - v;
    }
  add_light (to, light, suggested (to->snag));
  light_to_place (to, light);
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      add_light (to, light, in_world (bay, steps[i], 0));
      add_light (to, light, in_world (bay, steps[i], middle));
      add_light (to, light, in_world (bay, 0, steps[i]));
    }
}

/* ---- drop-ins, with what starts or ends at them */

static void
move_ends (SwRun *run, const SwDropIn *from, SwPoint by)
{
  for (guint i = 0; i < run->vertices.n; i++)
    {
      SwVertex *vertex = &SW_LIST_AT (run->vertices, SwVertex, i);
      if (sw_point_distance (vertex->at, from->at) < from->hole / 2)
        vertex->at = sw_point_add (vertex->at, by);
    }
}

static void
drop_in_moves (SwCandidates *to, const SwDropIn *drop_in)
{
  static const double beyond[] = { 0, 5, 15, 30, 60 };
  double length = whole (to->snag->distance);
  for (gsize i = 0; i < G_N_ELEMENTS (beyond) && length > 0; i++)
    {
      SwPoint3 by = sw_point3_scale (to->snag->direction, length + beyond[i]);
      SwDropIn *moved = (SwDropIn *) sw_record_copy (&drop_in->record);
      moved->at = sw_point_add (drop_in->at, (SwPoint){ by.x, by.y });
      SwAdvice *advice = sw_candidates_add (to, N_ ("Move drop-in"), N_ ("Move it {move}, with the pipe on it."), &moved->record, length + beyond[i]);
      if (advice == NULL)
        continue;
      sw_candidates_set_move (advice, by);
      const SwRecord *record;
      for (SwJobIter k = sw_job_iter (to->job, SW_TABLE_RUN); (record = sw_job_iter_next (&k)) != NULL;)
        {
          const SwRun *run = (const SwRun *) record;
          if (run->start != drop_in->record.id && run->end != drop_in->record.id)
            continue;
          SwRun *taken = (SwRun *) sw_record_copy (record);
          move_ends (taken, drop_in, (SwPoint){ by.x, by.y });
          sw_candidates_put (to, advice, &taken->record);
        }
    }
}

/* ---- fittings */

static void
add_hatch (SwCandidates *to, const SwFitting *fitting)
{
  g_autoptr (SwEdit) none = sw_edit_new ("");
  const SwDeckBay *bay = sw_deck_bay_at (to->deck, fitting->at);
  SwHatch *hatch = (SwHatch *) sw_edit_create (none, to->job, SW_TABLE_HATCH);
  hatch->at = fitting->at;
  hatch->turn = bay != NULL ? bay->bay->direction : 0;
  if (bay != NULL && bay->voids->len > 0) /* in the middle of the void: 350 fits between ribs */
    {
      SwPoint uv = sw_deck_to_bay (bay, fitting->at);
      uv.y = g_array_index (bay->voids, SwVoid, sw_deck_void_near (bay, uv.y)).v;
      hatch->at = sw_deck_from_bay (bay, uv);
    }
  sw_candidates_add (to, N_ ("Add hatch"), N_ ("Put a hatch below it."), &hatch->record, 1000);
}

/* What sits on a run may slide along it, not off it. */
static gboolean
stays_on_run (const SwCandidates *to, const SwFitting *fitting, SwPoint3 by)
{
  const SwRoute *route = fitting->run != 0 ? sw_space_route (to->space, fitting->run) : NULL;
  double before, after;
  if (route == NULL)
    return TRUE;
  sw_circuits_along (route, fitting->at, &before);
  sw_circuits_along (route, sw_point_add (fitting->at, (SwPoint){ by.x, by.y }), &after);
  return by.z == 0 && after <= before + SW_TOUCH_MM;
}

static void
add_fitting (SwCandidates *to, const SwFitting *fitting, SwPoint3 by)
{
  if (!stays_in_room (to, fitting->at, (SwPoint){ by.x, by.y }) || !stays_on_run (to, fitting, by))
    return;
  SwFitting *moved = (SwFitting *) sw_record_copy (&fitting->record);
  moved->at = sw_point_add (fitting->at, (SwPoint){ by.x, by.y });
  moved->z += fitting->level == SW_LEVEL_BELOW ? -by.z : by.z;
  SwAdvice *advice = sw_candidates_add (to, N_ ("Move fitting"), N_ ("Move it {move}."), &moved->record, sw_point3_length (by));
  if (advice != NULL && !sw_candidates_carry_ends (to, advice, fitting->record.id, fitting->run, by))
    g_ptr_array_remove (to->found, advice);
  else if (advice != NULL)
    sw_candidates_set_move (advice, by);
}

static void
fitting_moves (SwCandidates *to, const SwFitting *fitting)
{
  static const double beyond[] = { 0, 5, 15, 30, 60, 100 };
  static const guint32 fixed = 1u << SW_FITTING_STACK | 1u << SW_FITTING_GULLY | 1u << SW_FITTING_EXIT | 1u << SW_FITTING_BOARD;
  const SwDeckBay *bay = sw_deck_bay_at (to->deck, fitting->at);
  double least = whole (fmax (to->snag->distance, isnan (to->snag->missing_mm) ? 0 : to->snag->missing_mm));
  if (fixed & 1u << fitting->kind)
    return;
  if (strcmp (to->snag->rule, "hatch-reach") == 0)
    add_hatch (to, fitting);
  for (gsize i = 0; i < G_N_ELEMENTS (beyond) && least > 0; i++)
    for (int side = -1; side <= 1; side += 2)
      {
        double distance = side * (least + beyond[i]);
        SwPoint along = in_world (bay, distance, 0), across = in_world (bay, 0, distance);
        add_fitting (to, fitting, (SwPoint3){ along.x, along.y, 0 });
        add_fitting (to, fitting, (SwPoint3){ across.x, across.y, 0 });
        add_fitting (to, fitting, (SwPoint3){ 0, 0, distance });
      }
}

/* ---- drops in walls */

/* Along its wall, with the ends of the runs that come down there. */
static void
drop_moves (SwCandidates *to, const SwDrop *drop)
{
  static const double beyond[] = { 0, 10, 25, 50, 100, 150, 200 };
  const SwRecord *wall = sw_job_get (to->job, drop->wall);
  double least = whole (fmax (to->snag->distance, isnan (to->snag->missing_mm) ? 0 : to->snag->missing_mm));
  if (wall == NULL || sw_record_table (wall) != SW_TABLE_WALL)
    return;
  SwPoint way = sw_point_sub (((const SwWall *) wall)->to, ((const SwWall *) wall)->from);
  double length = sw_point_length (way);
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (beyond) && length > 0; i++)
    {
      double distance = (least + beyond[i / 2]) * (i % 2 == 0 ? 1 : -1);
      SwPoint by = sw_point_scale (way, distance / length);
      if (drop->along + distance < 0 || drop->along + distance > length)
        continue;
      SwDrop *moved = (SwDrop *) sw_record_copy (&drop->record);
      moved->along += distance;
      SwAdvice *advice = sw_candidates_add (to, N_ ("Move drop"), N_ ("Move the drop {move}, with what ends there."), &moved->record, fabs (distance));
      if (advice != NULL && !sw_candidates_carry_ends (to, advice, drop->record.id, 0, (SwPoint3){ by.x, by.y, 0 }))
        g_ptr_array_remove (to->found, advice);
      else if (advice != NULL)
        sw_candidates_set_move (advice, (SwPoint3){ by.x, by.y, 0 });
    }
}

/* ---- sleeves */

static void
sleeve_changes (SwCandidates *to, const SwSleeve *sleeve)
{
  if (strcmp (to->snag->rule, "sleeve-size") != 0 && strcmp (to->snag->rule, "rib-hole") != 0)
    return;
  SwSleeve *changed = (SwSleeve *) sw_record_copy (&sleeve->record);
  if (strcmp (to->snag->rule, "sleeve-size") == 0)
    {
      changed->diameter = whole (sleeve->diameter + 2 * to->snag->missing_mm);
      SwAdvice *advice = sw_candidates_add (to, N_ ("Change sleeve"), N_ ("Make it {number} wide."), &changed->record, 10);
      if (advice != NULL)
        {
          advice->number = whole (sleeve->diameter + 2 * to->snag->missing_mm);
          advice->number_unit = SW_UNIT_MM;
        }
      return;
    }
  double by = whole (to->snag->distance) * (to->snag->direction.z > 0 ? 1 : -1);
  changed->z += by;
  SwAdvice *advice = sw_candidates_add (to, N_ ("Move sleeve"), N_ ("Move it {move}."), &changed->record, fabs (by));
  if (advice != NULL)
    sw_candidates_set_move (advice, (SwPoint3){ 0, 0, by });
}

void
sw_candidates_for_point (SwCandidates *to, const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_LIGHT:
      light_moves (to, (const SwLight *) record);
      break;
    case SW_TABLE_DROP_IN:
      drop_in_moves (to, (const SwDropIn *) record);
      break;
    case SW_TABLE_FITTING:
      fitting_moves (to, (const SwFitting *) record);
      break;
    case SW_TABLE_DROP:
      drop_moves (to, (const SwDrop *) record);
      break;
    case SW_TABLE_SLEEVE:
      sleeve_changes (to, (const SwSleeve *) record);
      break;
    default: /* decks, walls: not a single move */
      break;
    }
}
