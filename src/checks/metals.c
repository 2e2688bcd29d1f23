/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copper and brass beside and above galvanised steel. Water that has run over copper takes some of it along and eats the zinc that it
 * drips on, far below too: what drips falls straight down, so the shadow of each bare part is looked through. Where it slopes,
 * the shadow is cut into steps, so that nothing beside it counts as below it. Cost: what lies below the bare parts. */
#include "checks/entries.h"
#include "base/tolerance.h"

#define STEP_MM 20.0 /* rise within one piece of a shadow */

/* ---- what is copper, and what is zinc */

static gboolean
is_bare_copper (const SwRun *of)
{
  return of != NULL && (of->material == SW_MATERIAL_COPPER || of->material == SW_MATERIAL_BRASS) && of->insulation <= 0 && of->stage != SW_STAGE_CAST_IN;
}

/* A trough and its plates; pipes and conduits of steel. */
static gboolean
is_bare_zinc (const SwBody *body)
{
  const SwRun *steel = sw_check_run_of (body);
  return body->kind <= SW_BODY_CLOSURE || body->kind == SW_BODY_PLATE || (steel != NULL && steel->material == SW_MATERIAL_STEEL);
}

/* ---- beside */

/* A sleeve keeps them apart. */
double
sw_check_zinc_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRun *steel = sw_check_run_of (second);
  gboolean zinc = second->kind <= SW_BODY_PLATE || (steel != NULL && steel->material == SW_MATERIAL_STEEL);
  return is_bare_copper (sw_check_run_of (first)) && zinc ? sw_check_limit (run, SW_LIMIT_ZINC) : -1;
}

/* The rib's underside is steel only where the profile says so. */
static gboolean
faces_concrete (const SwCheckRun *run, const SwCheckPair *pair)
{
  const SwBody *body = pair->second;
  if (body->kind != SW_BODY_RIB || body->bay >= sw_deck_n_bays (run->deck))
    return FALSE;
  return pair->away.z < -0.5 && sw_deck_bay (run->deck, body->bay)->profile->rib_face != SW_RIB_FACE_STEEL;
}

void
sw_check_zinc_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  if (!faces_concrete (run, pair))
    sw_check_add_pair (run, "near", SW_SEVERITY_FIX, pair, sw_check_limit (run, SW_LIMIT_ZINC), &run->limits[SW_LIMIT_ZINC]);
}

/* ---- above */

/* One thing below that is dripped on, as far as it was seen. */
typedef struct
{
  const SwBody *zinc;
  SwPoint3 place; /* on what drips */
  double fall;    /* from there */
  SwBox3 box;
} Dripped;

typedef struct
{
  SwCheckRun *run;
  const SwBody *wet;
  SwSolid shadow;
  SwPoint3 place;
  double low;     /* of what drips */
  GArray *found;  /* Dripped */
} Dripping;

/* Gas and air bring no water. */
static gboolean
drips (const SwCheckRun *run, const SwRecord *record)
{
  if (sw_record_table (record) == SW_TABLE_RUN)
    {
      const SwRun *of = (const SwRun *) record;
      return is_bare_copper (of) && (sw_service_is_wet ((SwService) of->service) || of->service == SW_SERVICE_REFRIGERANT);
    }
  static const guint32 joints = 1u << SW_FITTING_TEE | 1u << SW_FITTING_BEND | 1u << SW_FITTING_SOCKET | 1u << SW_FITTING_EYE | 1u << SW_FITTING_VALVE;
  const SwFitting *fitting = (const SwFitting *) record;
  const SwRecord *of = fitting->run != 0 ? sw_job_get (run->job, fitting->run) : NULL;
  if (of == NULL || !(joints & 1u << fitting->kind))
    return FALSE;
  SwService service = (SwService) ((const SwRun *) of)->service; /* valves of water pipes are of brass, whatever the pipe */
  return drips (run, of) || (fitting->kind == SW_FITTING_VALVE && sw_service_is_wet (service) && !sw_service_is_gravity (service) && ((const SwRun *) of)->insulation <= 0);
}

static void
take_zinc (Dripping *dripping, const SwBody *zinc)
{
  for (guint i = 0; i < dripping->found->len; i++)
    {
      Dripped *dripped = &g_array_index (dripping->found, Dripped, i);
      if (dripped->zinc->owner != zinc->owner || dripped->zinc->kind != zinc->kind || (zinc->kind == SW_BODY_PLATE && dripped->zinc->part != zinc->part))
        continue;
      dripped->box = sw_box3_add (dripped->box, dripping->place);
      return;
    }
  Dripped dripped = { zinc, dripping->place, fmax (dripping->low - zinc->box.high.z, 0), sw_box3_add (SW_BOX3_EMPTY, dripping->place) };
  g_array_append_val (dripping->found, dripped);
}

/* What is so near that it counts as beside it is the other check's. */
static gboolean
take_below (const SwBody *body, gpointer data)
{
  Dripping *dripping = data;
  if (is_bare_zinc (body) && body->owner != dripping->wet->owner && !sw_solid_is_clear (&dripping->shadow, &body->solid, 0)
      && sw_solid_is_clear (&dripping->wet->solid, &body->solid, sw_check_limit (dripping->run, SW_LIMIT_ZINC)))
    take_zinc (dripping, body);
  return TRUE;
}

/* A rectangle about a piece of an axis, from its underside down. */
static void
look_below (Dripping *dripping, SwPoint3 from, SwPoint3 to, double radius)
{
  double aside = sw_check_limit (dripping->run, SW_LIMIT_DRIP_ASIDE), half = radius + aside, top = fmin (from.z, to.z) - radius;
  SwPoint way = { to.x - from.x, to.y - from.y };
  double length = sw_point_length (way);
  way = length > SW_TOUCH_MM ? sw_point_scale (way, 1 / length) : (SwPoint){ 1, 0 };
  SwPoint3 along = { way.x * (length + 2 * half), way.y * (length + 2 * half), 0 }, across = { -way.y * 2 * half, way.x * 2 * half, 0 };
  SwPoint3 corner = { from.x - (way.x - way.y) * half, from.y - (way.y + way.x) * half, top };
  dripping->shadow = sw_solid_box (corner, along, across, (SwPoint3){ 0, 0, -sw_check_limit (dripping->run, SW_LIMIT_DRIP_BELOW) });
  dripping->place = sw_point3_lerp (from, to, 0.5);
  dripping->low = top;
  sw_space_query (dripping->run->space, sw_solid_box3 (&dripping->shadow),
                  SW_BODIES_RUN | SW_BODY_BIT (SW_BODY_RIB) | SW_BODY_BIT (SW_BODY_CROWN) | SW_BODY_BIT (SW_BODY_CLOSURE) | SW_BODY_BIT (SW_BODY_PLATE), take_below, dripping);
}

static void
look_below_body (Dripping *dripping)
{
  const SwSolid *solid = &dripping->wet->solid;
  SwBox3 box = dripping->wet->box;
  if (solid->kind == SW_SOLID_PRISM) /* a fitting: what stands turned counts by its box */
    {
      double half = fmin (box.high.x - box.low.x, box.high.y - box.low.y) / 2, z = box.low.z + half;
      gboolean along_x = box.high.x - box.low.x > box.high.y - box.low.y;
      SwPoint3 middle = { (box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2, z }, from = middle, to = middle;
      from.x = along_x ? box.low.x + half : middle.x;
      to.x = along_x ? box.high.x - half : middle.x;
      from.y = along_x ? middle.y : box.low.y + half;
      to.y = along_x ? middle.y : box.high.y - half;
      look_below (dripping, from, to, half);
      return;
    }
  double radius = solid->kind == SW_SOLID_TUBE ? solid->radius : solid->disc;
  guint steps = (guint) fmin (ceil (fabs (solid->along.z) / STEP_MM), 200);
  SwPoint3 end = sw_point3_add (solid->origin, solid->along);
  for (guint i = 0; i < MAX (steps, 1); i++)
    look_below (dripping, sw_point3_lerp (solid->origin, end, (double) i / MAX (steps, 1)), sw_point3_lerp (solid->origin, end, (i + 1.0) / MAX (steps, 1)), radius);
}

/* Of what falls on one thing, one snag. */
static void
add_dripped (SwCheckRun *run, const SwRecord *record, const SwBody *wet, const Dripped *dripped)
{
  SwSnag *snag = sw_check_add (run, sw_record_table (record) == SW_TABLE_RUN ? "pipe" : "joint", SW_SEVERITY_FIX, record->id, dripped->place);
  snag->kinds[0] = wet->kind;
  snag->parts[0] = wet->part;
  sw_check_set_other (snag, dripped->zinc->owner, dripped->zinc->kind, dripped->zinc->part);
  sw_check_set_numbers (snag, run->limits[SW_LIMIT_DRIP_ASIDE].value, dripped->fall, SW_UNIT_MM, &run->limits[SW_LIMIT_DRIP_ASIDE]);
  sw_check_set_extent (snag, dripped->box.low, dripped->box.high);
}

void
sw_check_drip_record (SwCheckRun *run, const SwRecord *record)
{
  guint first, n;
  if (!drips (run, record))
    return;
  sw_space_bodies_of (run->space, record->id, &first, &n);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (Dripped));
  g_autoptr (GArray) of = g_array_new (FALSE, FALSE, sizeof (const SwBody *));
  for (guint i = first; i < first + n; i++)
    {
      const SwBody *wet = sw_space_body (run->space, i);
      Dripping dripping = { .run = run, .wet = wet, .found = found };
      look_below_body (&dripping);
      while (of->len < found->len)
        g_array_append_val (of, wet);
    }
  for (guint i = 0; i < found->len; i++)
    add_dripped (run, record, g_array_index (of, const SwBody *, i), &g_array_index (found, Dripped, i));
}
