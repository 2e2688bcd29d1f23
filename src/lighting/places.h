/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/region.h"
#include "space/space.h"
#include <gio/gio.h>

/* Where the middles of downlights of one kind may be in a room. Immutable; may be shared between threads. */
typedef struct _SwLightPlaces SwLightPlaces;

/* What keeps a light off a place. */
typedef enum
{
  SW_LIGHT_BAR_NONE,
  SW_LIGHT_BAR_EDGE,     /* of the room, or of a lower ceiling in it: the cut-out would pass it */
  SW_LIGHT_BAR_CONCRETE, /* rib, closure, solid zone, beam, column */
  SW_LIGHT_BAR_CROWN,
  SW_LIGHT_BAR_PLATE,
  SW_LIGHT_BAR_BATTEN,
  SW_LIGHT_BAR_SERVICE,  /* a run or fitting at its body */
  SW_LIGHT_BAR_HEAT,     /* a run or fitting in its heat */
  SW_LIGHT_BAR_LIGHT,    /* another light, or its heat */
  SW_LIGHT_BAR_JOINT,
  SW_LIGHT_BAR_HATCH,
  SW_LIGHT_BAR_WALL,
  SW_N_LIGHT_BARS
} SwLightBar;

typedef struct
{
  /* Greatest centres of battens where the room is closed and has no layout; 0: battens that nobody laid bar nothing. They are then
   * taken as spread evenly between the walls, the first at the rule set's distance. */
  double centres;
} SwLightPlaceOptions;

/* For lights like `light`: its body, recess, cut-out and clearances; the light of its id in the job counts as taken away, and so does
 * the place that it has. NULL: cancelled, or the geometry defeats the library. The caller's. Cost: what lies near the room, and one
 * union of it. */
SwLightPlaces *sw_light_places_new (SwSpace *space, const SwRoom *room, const SwLight *light, const SwLightPlaceOptions *options,
                                    GCancellable *cancellable, GError **error);
SwLightPlaces *sw_light_places_ref (SwLightPlaces *places);
void sw_light_places_unref (SwLightPlaces *places);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwLightPlaces, sw_light_places_unref)

/* In plan, mm. Borrowed. */
SwRegion *sw_light_places_region (const SwLightPlaces *places);
/* Battens were taken from the rule's centres: the room has no layout. */
gboolean sw_light_places_assumed (const SwLightPlaces *places);

/* One place, by its bay. */
typedef struct
{
  guint part;              /* of the region */
  SwBox box;               /* in plan for bay NULL, else u and v of its bay */
  const SwDeckBay *bay;
  double area;             /* mm²; the box's when it is a rectangle */
  SwPoint middle;          /* in plan, well inside */
  int void_index;          /* the nearest; −1: none */
  gboolean over_rib;       /* its middle: bodies that are low enough */
} SwLightStrip;
/* By bay, void and place along it: GArray of SwLightStrip, the caller's. */
GArray *sw_light_places_strips (const SwLightPlaces *places);

typedef struct
{
  SwLightBar bar;
  SwId owner;        /* of what bars it; 0: the room, or an assumed batten */
  double mm;         /* > 0: allowed, so far from the nearest edge; < 0: not allowed, so far to the nearest allowed place; −∞: there is none */
  SwPoint move;      /* to it, in whole mm along and across the voids where that holds; zero when allowed */
} SwLightPlace;
SwLightPlace sw_light_places_ask (const SwLightPlaces *places, SwPoint at);
/* "batten", "joint of the boards": untranslated. Static. */
const char *sw_light_bar_text (SwLightBar bar);

/* ---- by hand, without a job */

/* Width of the band for middles in a void, between faces of concrete, mm: the void is `mouth` wide at the soffit and `crown` at
 * `depth`; the body stands up to `top` above the soffit (less than 0: below it, where the whole mouth counts). Negative: none. */
double sw_light_band (double mouth, double crown, double depth, double top, double body, double clearance);
/* The same between two battens. */
double sw_light_gap (double centres, double batten, double cut_out, double clearance);
