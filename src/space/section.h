/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/records.h"
#include "rules/rules.h"

/* What a profile's cross-section comes to, per metre and square metre. */
typedef struct
{
  double rib_bottom, rib_top;   /* widths of the rib, mm */
  double side;                  /* length of a sloping side, mm */
  double developed;             /* rib soffit, crown and both sides a pitch, mm; over the pitch: the area factor */
  double developed_concrete, developed_steel; /* by what the face is, mm */
  double void_area;             /* mm² */
  double depth_overall;         /* rib and topping, mm */
  double concrete, concrete_solid; /* m³ per m² of deck, and of a solid slab as deep */
  double saving;                /* 0…1, troughs only */
  double sheet_mass;            /* kg per m² of deck */
  double drill_strip;           /* rib width − 2 (cover + link + bar), mm; may be negative */
} SwSection;

/* `rules` gives the density of steel. */
SwSection sw_section_of (const SwProfile *profile, const SwRules *rules);

/* Concrete saved over all bays, m³: gross of troughs, net of closures, solid zones and openings. */
typedef struct
{
  double deck_area;   /* m² */
  double gross, net, solid; /* m³ saved; of a solid slab */
} SwSaving;
typedef struct _SwDeck SwDeck;
SwSaving sw_section_saving (const SwDeck *deck);
