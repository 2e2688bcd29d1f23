/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"

/* The reference trough (pitch 600, mouth 500, crown 400, depth 250, topping 75) in a bay of length × breadth at the origin,
 * void direction as given about the origin, closures 150 from the ends; put together piece by piece. */
typedef struct
{
  SwJob *job;
  SwId profile, bay;
} SwSample;

SwSample sw_sample_new (double length, double breadth, double direction);
void sw_sample_clear (SwSample *sample);
/* Takes the record over and puts it into the job; asserts that it can be. */
SwId sw_sample_put (SwSample *sample, SwRecord *record);
SwRecord *sw_sample_create (SwSample *sample, SwTable table);
/* A copy to be changed and put. */
SwRecord *sw_sample_change (SwSample *sample, SwId id);
void sw_sample_rectangle (SwList *outline, double x0, double y0, double x1, double y1);
/* A run through n vertices (x, y, level kind, z). */
typedef struct { double x, y; int level; double z; } SwSampleVertex;
SwId sw_sample_run (SwSample *sample, int service, double od, double fall, const SwSampleVertex *vertices, guint n);
