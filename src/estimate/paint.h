/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"
#include "estimate/soffit_area.h"
#include "rules/rules.h"

/* Spreading rate in m² per litre: 10 × volume solids % / dry film µm (published). */
double sw_paint_spreading_rate (double solids_percent, double film_um);
/* Wet film that dries to `film_um`: film × 100 / solids. */
double sw_paint_wet_film (double solids_percent, double film_um);
/* Litres for an area: area / (rate × (1 − loss)). */
double sw_paint_litres (double area_m2, double rate_m2_l, double loss_percent);
/* Litres of one paint of the rule set's system ("finish"), all its coats. */
gboolean sw_paint_litres_of (const SwRules *rules, const char *row, double area_m2, double loss_percent, double *litres, GError **error);

typedef struct
{
  SwSoffitArea area;
  double steel_m2, concrete_m2, services_m2; /* faces to be painted */
  double zinc_primer_l, alkali_primer_l, finish_l;
  double coats_m2; /* all faces, each as often as it is painted */
  double loss_percent;
  SwRuleValue loss_rule;
} SwPaint;

/* Paint of a room whose soffit stays open: primer by what the face is, then finish coats on all, the services in sight too. */
gboolean sw_paint_room (const SwDeck *deck, const SwRules *rules, const SwRoom *room, SwPaint *paint, GError **error);
