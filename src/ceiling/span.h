/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* A batten between two supports: bending, sag and hold. Millimetres, newtons, N/mm²; masses in kg. */

/* m/s², as the trade's tables take it. */
#define SW_CEILING_GRAVITY 9.81

typedef struct
{
  double width, depth; /* depth upright */
  double e;            /* modulus of elasticity, N/mm² */
  double density;      /* kg/m³ */
} SwBattenTimber;

/* Second moment of area, mm⁴. */
double sw_span_inertia (double width, double depth);
/* Load of one batten in N/mm: its centres' share of a load in kg/m² and its own weight. */
double sw_span_load (const SwBattenTimber *timber, double mass_kg_m2, double centres);

typedef struct
{
  double load;       /* N/mm */
  double deflection; /* mm, one bay between two supports: 5wL⁴/384EI */
  double moment;     /* Nmm */
  double stress;     /* N/mm² */
  double ratio;      /* span over deflection; INFINITY without one */
} SwSpanCheck;

SwSpanCheck sw_span_check (const SwBattenTimber *timber, double load, double span);
/* The same for an end that stands over its last support: wL⁴/8EI, wL²/2. */
SwSpanCheck sw_span_check_cantilever (const SwBattenTimber *timber, double load, double reach);
/* Greatest span whose deflection is at most span / divisor, mm. */
double sw_span_greatest (const SwBattenTimber *timber, double load, double divisor);
