/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* A batten between two supports: bending, sag and hold. Millimetres, newtons, N/mm²; masses in kg. */

/* m/s², as the trade's tables take it. */
#define SW_CEILING_GRAVITY 9.81

typedef struct
{
  double e;       /* modulus of elasticity, N/mm² */
  double inertia; /* second moment of area, mm⁴ */
  double modulus; /* section modulus, mm³ */
  double mass;    /* kg/m */
} SwBattenSection;

/* Of timber: a rectangle, depth upright, mm. */
SwBattenSection sw_span_rectangle (double width, double depth, double e, double mass);
/* Of a steel profile, whose section modulus is taken as inertia over depth: no fibre is further from the axis than that. */
SwBattenSection sw_span_profile (double depth, double inertia, double e, double mass);
/* FALSE for a profile whose second moment nobody has entered: nothing of the following holds for it. */
static inline gboolean
sw_span_is_known (const SwBattenSection *section)
{
  return section->inertia > 0;
}
/* Load of one batten in N/mm: its centres' share of a load in kg/m² and its own weight. */
double sw_span_load (const SwBattenSection *section, double mass_kg_m2, double centres);

typedef struct
{
  double load;       /* N/mm */
  double deflection; /* mm, one bay between two supports: 5wL⁴/384EI */
  double moment;     /* Nmm */
  double stress;     /* N/mm² */
  double ratio;      /* span over deflection; INFINITY without one */
} SwSpanCheck;

SwSpanCheck sw_span_check (const SwBattenSection *section, double load, double span);
/* The same for an end that stands over its last support: wL⁴/8EI, wL²/2. */
SwSpanCheck sw_span_check_cantilever (const SwBattenSection *section, double load, double reach);
/* Greatest span whose deflection is at most span / divisor, mm. */
double sw_span_greatest (const SwBattenSection *section, double load, double divisor);
