/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "made_job.h"
#include "base/random.h"
#include "job/edit.h"
#include <math.h>

#define BAY_MM    30000.0
#define PITCH_MM  600.0
#define VOIDS     49      /* of a bay: 30 m less the last rib */
#define LANES     6       /* of a void: three side by side on two levels */
#define ROOMS     5       /* a side of a bay: 25 rooms of 6 by 6 m */
#define CUBE_DEEP 500.0   /* void that takes them */
#define LIGHTS    9       /* along a void of a bay: with its n / 5 share of the runs, one on two square metres */

/* Ids and marks are counted here: the edit looks for free ones, which takes long for so many. */
static gpointer
new_record (SwTable table, guint serial)
{
  g_autofree char *tag = g_strdup_printf ("%s%u", sw_type_get (table)->prefix, serial);
  return sw_record_new (SW_ID (table, serial), tag);
}

static gpointer
put (SwEdit *edit, const SwJob *job, gpointer record)
{
  GError *error = NULL;
  if (!sw_edit_put (edit, job, record, &error))
    g_error ("%s", error->message);
  return record;
}

static void
add_bay (SwEdit *edit, const SwJob *job, SwId profile, guint serial, SwPoint at)
{
  SwBay *bay = new_record (SW_TABLE_BAY, serial);
  SwPoint corners[] = { at, { at.x + BAY_MM, at.y }, { at.x + BAY_MM, at.y + BAY_MM }, { at.x, at.y + BAY_MM } };
  sw_list_set_points (&bay->outline, corners, G_N_ELEMENTS (corners));
  bay->profile = profile;
  put (edit, job, bay);
}

/* Closed rooms with a wall along one side each, one in five of which separates. */
static void
add_rooms (SwEdit *edit, const SwJob *job, guint bay, SwPoint corner)
{
  double side = BAY_MM / ROOMS;
  for (guint i = 0; i < ROOMS * ROOMS; i++)
    {
      SwPoint at = { corner.x + i % ROOMS * side, corner.y + i / ROOMS * side };
      SwPoint corners[] = { at, { at.x + side, at.y }, { at.x + side, at.y + side }, { at.x, at.y + side } };
      SwRoom *room = new_record (SW_TABLE_ROOM, bay * ROOMS * ROOMS + i + 1);
      sw_list_set_points (&room->outline, corners, G_N_ELEMENTS (corners));
      put (edit, job, room);
      SwWall *wall = new_record (SW_TABLE_WALL, bay * ROOMS * ROOMS + i + 1);
      wall->from = corners[1];
      wall->to = corners[2];
      wall->separating = i % 5 == 0;
      put (edit, job, wall);
    }
}

/* The services of a void: power, data and water have voids of their own. */
static void
set_service (SwRun *run, guint void_index, gboolean cubes)
{
  static const struct { int service, material; double od; } kinds[] = {
    { SW_SERVICE_POWER, SW_MATERIAL_PVC, 25 }, { SW_SERVICE_COLD, SW_MATERIAL_PEX, 32 }, { SW_SERVICE_DATA, SW_MATERIAL_PVC, 25 },
    { SW_SERVICE_HOT, SW_MATERIAL_PEX, 25 },   { SW_SERVICE_LIGHTING, SW_MATERIAL_PVC, 20 },
  };
  guint kind = void_index % G_N_ELEMENTS (kinds);
  run->service = kinds[kind].service;
  run->material = kinds[kind].material;
  run->od = kinds[kind].od;
  run->insulation = run->service != SW_SERVICE_COLD ? 0 : cubes ? 25 : 9;
  run->stage = SW_STAGE_EXISTING; /* its start needs no name */
}

/* Where the next run goes: along a lane, then the next lane, void and bay. */
typedef struct
{
  gboolean cubes;
  SwRandom random;
  guint side, bay, void_index, lane; /* `side` bays in a row */
  double along;
} Layer;

static SwPoint
bay_corner (guint side, guint bay)
{
  return (SwPoint){ bay % side * BAY_MM, bay / side * BAY_MM };
}

static void
next_lane (Layer *layer)
{
  layer->along = 400;
  if (++layer->lane < (layer->cubes ? 1 : LANES))
    return;
  layer->lane = 0;
  if (++layer->void_index < VOIDS)
    return;
  layer->void_index = 0;
  layer->bay++;
}

/* The largest pipe size that is no thicker than the piece is long. */
static double
cube_size (double length)
{
  static const double sizes[] = { 50, 63, 75, 90, 110, 125, 160, 200, 250 };
  double size = sizes[0];
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    size = sizes[i] <= length ? sizes[i] : size;
  return size;
}

static void
add_run (SwEdit *edit, const SwJob *job, Layer *layer, guint serial)
{
  double length = layer->cubes ? sw_random_double (&layer->random, 50, 400) : sw_random_double (&layer->random, 500, 6000);
  if (layer->along + length > BAY_MM - 400)
    next_lane (layer);
  SwPoint corner = bay_corner (layer->side, layer->bay);
  double astray = sw_random_int (&layer->random, 0, 19) == 0 ? sw_random_double (&layer->random, -80, 80) : 0;
  double lane = layer->cubes ? 0 : (layer->lane % 3 - 1.0) * 140;
  SwPoint at = { corner.x + layer->along, corner.y + (layer->void_index + 0.5) * PITCH_MM + lane + astray };
  SwRun *run = new_record (SW_TABLE_RUN, serial);
  set_service (run, layer->void_index, layer->cubes);
  run->od = layer->cubes ? cube_size (length) : run->od;
  SwVertex *way = sw_list_resize (&run->vertices, &sw_struct_vertex, 2);
  way[0] = (SwVertex){ at, SW_LEVEL_VOID, layer->cubes ? 250 : layer->lane < 3 ? 90 : 190 };
  way[1] = way[0];
  way[1].at.x += length;
  layer->along += length + (layer->cubes ? sw_random_double (&layer->random, 250, 650) : sw_random_double (&layer->random, 100, 500));
  put (edit, job, run);
}

/* Low lights in the middle of a void, below its lanes, between the walls. */
static void
add_light (SwEdit *edit, const SwJob *job, SwRandom *random, const Layer *layer, guint serial)
{
  SwLight *light = new_record (SW_TABLE_LIGHT, serial);
  guint place = serial - 1, row = place / VOIDS % LIGHTS;
  SwPoint corner = bay_corner (layer->side, place / (VOIDS * LIGHTS) % (layer->bay + 1));
  gboolean astray = sw_random_int (random, 0, 19) == 0;
  double along = (row + 0.5) * BAY_MM / LIGHTS + sw_random_double (random, -300, 300);
  light->at.x = corner.x + (astray ? sw_random_double (random, 400, BAY_MM - 400) : along);
  light->at.y = corner.y + (place % VOIDS + 0.5) * PITCH_MM;
  light->recess = 80;
  light->top_clearance = 1;
  put (edit, job, light);
}

SwJob *
sw_made_job (guint n, gboolean cubes)
{
  GError *error = NULL;
  Layer layer = { .cubes = cubes, .random = { n }, .along = 400 };
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("Make");
  SwProfile *profile = new_record (SW_TABLE_PROFILE, 1);
  profile->plate_spacing = 0; /* they are all out */
  profile->depth = cubes ? CUBE_DEEP : profile->depth;
  put (edit, empty, profile);
  layer.side = (guint) ceil (sqrt (n / 2.2 / (BAY_MM * BAY_MM / 1e6)));
  for (guint i = 0; i < n; i++)
    add_run (edit, empty, &layer, i + 1);
  for (guint i = 0; i <= layer.bay; i++)
    {
      add_bay (edit, empty, profile->record.id, i + 1, bay_corner (layer.side, i));
      add_rooms (edit, empty, i, bay_corner (layer.side, i));
    }
  for (guint i = 0; i < n / 5; i++)
    add_light (edit, empty, &layer.random, &layer, i + 1);
  SwJob *job = sw_job_apply (empty, edit, TRUE, &error);
  if (job == NULL)
    g_error ("%s", error->message);
  return job;
}
