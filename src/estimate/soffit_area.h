/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/deck.h"

/* The faces over a room, mm², as seen when its soffit is left open. */
typedef struct
{
  double plan;      /* of the room under the deck */
  double ribs;      /* undersides of ribs, solid zones and edges */
  double troughs;   /* crowns and sloping sides */
  double plates;    /* both faces of each stiffener plate that stays */
  double closures;  /* faces of the closures that look into the room */
  double voids;     /* hollow of the troughs, mm³ */
  double rib_share; /* ribs / plan, 0…1 */
  double crown_low; /* z of the lowest crown over the room; the lowest soffit without voids */
  double soffit_low; /* z of the lowest rib soffit */
  const SwDeckBay *bay; /* the one with most of the room; NULL without any */
  gboolean concrete_ribs; /* its ribs' faces are bare concrete (else steel or board) */
} SwSoffitArea;

/* Of the room's part under the deck; columns and shafts are taken off. Exact for straight outlines. */
SwSoffitArea sw_soffit_area (const SwDeck *deck, const SwRoom *room);

/* Stretches along a bay's line v (its own frame, u) that lie in the room, under the bay and in no opening, column or shaft: SwInterval,
 * replacing what is in `spans`. */
void sw_soffit_spans (const SwDeck *deck, const SwDeckBay *bay, const SwRoom *room, double v, GArray *spans);
