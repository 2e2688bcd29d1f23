/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pattern.h"

/* How items look. Plain values; all zeros is a usable style (ink, thinnest line, any ground). */

typedef enum
{
  SW_SIZE_PAPER, /* mm on paper, whatever the scale of the drawing */
  SW_SIZE_WORLD, /* mm of the thing drawn: grows with zoom */
  SW_SIZE_PX     /* screen pixels (1/96 inch on paper) */
} SwSizeUnit;

typedef struct
{
  SwColourRole role;
  double width; /* 0 = the thinnest line that shows */
  SwSizeUnit unit;
  SwDash dash;         /* lengths always in mm on paper */
  gboolean round;      /* round ends instead of flat ones; corners are always round */
  double transparency; /* 0 opaque … 1 unseen */
} SwStroke;

typedef struct
{
  SwColourRole role;
  SwHatching hatching; /* lines in the role's colour on nothing; a ground keeps its tint under faint lines */
  double transparency;
} SwFill;

typedef enum { SW_ALIGN_LEFT, SW_ALIGN_MIDDLE, SW_ALIGN_RIGHT } SwTextAlign;
typedef enum { SW_RISE_BASELINE, SW_RISE_MIDDLE, SW_RISE_TOP } SwTextRise; /* middle and top of the capitals */

/* Text is never painted mirrored or upside down: when the view turns or mirrors it, it keeps the place that it covers
 * and reads from below or from the right. */
typedef struct
{
  SwColourRole role;
  double height; /* of capitals, as in lettering standards (ISO 3098) */
  SwSizeUnit unit;
  SwTextAlign align;
  SwTextRise rise;
  double turn;     /* radians counter-clockwise */
  gboolean halo;   /* a rim of paper colour */
  gboolean bold;
  SwColourRole on; /* what it stands on; 0 = paper or any other ground */
} SwTextStyle;

/* Font size for a height of capitals: capitals of plain sans faces are 0.70 to 0.73 of the font size. */
#define SW_TEXT_EM 1.4
