/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pen.h"

/* What stands round a drawing. Words come from the caller, in the user's language. */

/* North: an arrow in a circle of 12 mm; `angle` is the direction of north where it stands (radians). */
void sw_furniture_add_north (const SwPen *pen, SwPoint centre, double angle, const char *letter);
/* An eye that looks up at a ceiling line, or down at a floor line, with the words under it; 16 mm wide. */
void sw_furniture_add_looking (const SwPen *pen, SwPoint centre, gboolean up, const char *words);
/* A bar for a drawing at 1:`scale`, from `left`, at most `width_mm` long, with marks in metres or feet, and the words above. */
void sw_furniture_add_scale_bar (const SwPen *pen, SwPoint left, double scale, double width_mm, const char *words);
/* A building grid line from a to b with its label in a ring beyond b, and one beyond a when `both`. */
void sw_furniture_add_grid_line (const SwPen *pen, SwPoint a, SwPoint b, const char *label, gboolean both);
/* A run of a service: colour, the service's own line pattern, and its letters every 60 mm and at least once. */
void sw_furniture_add_service_line (const SwPen *pen, const SwPoint *points, gsize n, SwServiceLine service, double width_mm);
/* A ring with a number: snags, pieces, fixtures. */
void sw_furniture_add_tag (const SwPen *pen, SwPoint centre, const char *label);

typedef enum
{
  SW_SIGN_NONE,
  SW_SIGN_CROSSED_RING, /* downlight */
  SW_SIGN_CROSSED_BOX,  /* hatch */
  SW_SIGN_RING          /* upon the sample of the line */
} SwLegendSign;

typedef struct
{
  const SwStroke *stroke; /* a sample of a line, or the edge of an area or a sign */
  const SwFill *fill;     /* not NULL: a sample of an area */
  const char *code;       /* letters on the sample; may be NULL */
  const char *words;
  SwLegendSign sign;      /* in the place of an area; SW_SIGN_RING on the line */
} SwLegendEntry;

/* From its top left corner down; returns the box that it takes. */
SwBox sw_furniture_add_legend (const SwPen *pen, SwPoint top_left, const char *title, const SwLegendEntry *entries, gsize n);
