/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"
#include "space/deck.h"

/* The plan of a job as a display in the job's own coordinates: sheets and the window draw the same thing. Looking up or
 * down is the view's affair (its mirror), scale and theme too; what shows depends on px per mm by levels of detail. */

typedef enum
{
  SW_LAYER_DECK,     /* bays, voids, ribs, plates, closures, solid zones, openings, beams */
  SW_LAYER_ROOMS,    /* rooms, walls, columns */
  SW_LAYER_BATTENS,
  SW_LAYER_BOARDS,
  SW_LAYER_PIPES,    /* runs that are not electric, with fittings, drop-ins and sleeves */
  SW_LAYER_CONDUITS, /* electric runs, boxes, drops */
  SW_LAYER_LIGHTS,
  SW_LAYER_HATCHES,
  SW_LAYER_MEASURES,
  SW_LAYER_GRID,
  SW_LAYER_SNAGS,
  SW_N_LAYERS
} SwLayer;
#define SW_LAYER_BIT(layer) (G_GUINT64_CONSTANT (1) << (layer))
#define SW_LAYERS_ALL (SW_LAYER_BIT (SW_N_LAYERS) - 1)
/* Beside the layers: leaves out what belongs to ceilings, for plans of the time before there are any. */
#define SW_PLAN_BARE SW_LAYER_BIT (62)

/* Draws the layers whose bits are set, each thing in a group with its table and record as key; `part` counts the vertices
 * of runs' legs. Does not seal. O(records + voids + plates). */
void sw_plan_draw (SwDisplay *display, const SwDeck *deck, guint64 layers);

/* One room's layout by itself, on those of the layers of battens and boards whose bits are set. */
void sw_plan_draw_layout (SwDisplay *display, const SwRoom *room, const SwLayout *layout, guint64 layers);

/* A numbered badge at a place: 0 stop, 1 fix, 2 note. */
typedef struct
{
  SwPoint at;
  int severity, number;
  SwId record;
  const char *title;
} SwPlanSnag;
/* Groups have table SW_PLAN_SNAG_TABLE and the snag's index as record. */
#define SW_PLAN_SNAG_TABLE 1000
void sw_plan_draw_snags (SwDisplay *display, const SwPlanSnag *snags, guint n);

/* The layer that a record is drawn on. */
SwLayer sw_plan_layer_of (const SwJob *job, const SwRecord *record);
/* Which line (colour, pattern, letters) a service has. */
SwServiceLine sw_plan_service_line (SwService service);
/* All that is drawn on the plan, for fitting the view; the deck's and the grid's box. */
SwBox sw_plan_box (const SwJob *job);

/* "room Hall", "waste W3, 50 mm": what a record is called in lists and titles, in the user's language. Free with g_free. */
char *sw_plan_title (const SwRecord *record, SwLengths lengths);
