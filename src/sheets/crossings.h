/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"
#include "space/route.h"

/* Where runs pass separating walls. */
typedef struct
{
  const SwWall *wall;
  const SwRun *run;
  const SwSleeve *sleeve; /* through this wall for this run; NULL: none was entered */
  SwPoint at;             /* on the wall's centre line, in plan */
  double along, z;        /* from the wall's start; of the run's axis */
  double outer;           /* radius with insulation */
} SwCrossing;

/* Of one wall, along it, then by the runs' marks. Borrowed from the context's deck; free with g_array_unref. */
GArray *sw_crossings_of_wall (const SwSheetContext *context, const SwWall *wall);
/* "fire 60 min, sound 45 dB". Free with g_free. */
char *sw_wall_rating_text (const SwWall *wall);
