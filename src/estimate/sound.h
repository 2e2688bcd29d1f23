/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* Room acoustics for comparing finishes: rough, for empty rooms. */

/* Seconds by Sabine: k V / A, with k of the rule set (0.161 s/m), m³, m². */
double sw_sound_sabine (const SwRules *rules, double volume_m3, double absorption_m2);
/* By Eyring: k V / (−S ln (1 − A / S)). Infinite when all is hard, 0 when all is open. */
double sw_sound_eyring (const SwRules *rules, double volume_m3, double surface_m2, double absorption_m2);
/* Insulation of a thin plate by the mass law: 20 log10 (m f) less the rule set's 47 dB; kg/m², Hz. */
double sw_sound_mass_law (const SwRules *rules, double kg_m2, double hz);
