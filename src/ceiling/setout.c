/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/setout.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <math.h>

/* Two rules meet here. Where sheets are joined end to end the joint decides: centres divide the sheet and the grid starts
 * where the sheets start. Where no sheet ends inside the room the eye decides: even centres between two battens that stand
 * the same distance off their walls. Both give a batten at each wall for the cornice. Linear in the number of battens. */

double
sw_setout_dividing_centres (double sheet, double limit)
{
  return sheet / ceil (sheet / limit - 1e-9);
}

gboolean
sw_setout_divides (double sheet, double centres)
{
  double bays = sheet / centres;
  return fabs (bays - round (bays)) < 1e-3;
}

static void
append_even (GArray *lines, double from, double to, double limit, double *centres)
{
  int bays = MAX (1, (int) ceil ((to - from) / limit - 1e-9));
  *centres = (to - from) / bays;
  for (int i = 0; i <= bays; i++)
    {
      double line = from + (to - from) * i / bays;
      g_array_append_val (lines, line);
    }
}

static double
last_line (const SwSetout *setout)
{
  return setout->length - (setout->last > 0 ? setout->last : setout->first);
}

static void
even_lines (const SwSetout *setout, SwSetoutLines *result)
{
  double from = setout->first, to = last_line (setout);
  double edge = setout->edge_limit > 0 ? fmin (setout->edge_limit, setout->limit) : setout->limit;
  if (to - from < setout->width) /* a strip of a room: one batten in its middle */
    {
      double middle = setout->length / 2;
      g_array_append_val (result->lines, middle);
      result->centres = setout->length;
      return;
    }
  if (edge >= setout->limit || (to - from) / ceil ((to - from) / setout->limit) <= edge || to - from <= 2 * edge)
    {
      append_even (result->lines, from, to, to - from <= 2 * edge ? edge : setout->limit, &result->centres);
      return;
    }
  g_array_append_val (result->lines, from);
  append_even (result->lines, from + edge, to - edge, setout->limit, &result->centres);
  g_array_append_val (result->lines, to);
}

/* The batten for the cornice at one wall, and one more when the grid begins too far from it. */
static void
add_edge (GArray *lines, double cornice, double nearest, double width, double edge)
{
  double gap = fabs (nearest - cornice);
  if (gap < width)
    return; /* the grid's batten does for the cornice too */
  g_array_append_val (lines, cornice);
  int bays = (int) ceil (gap / edge - 1e-9);
  for (int i = 1; i < bays; i++)
    {
      double line = cornice + (nearest - cornice) * i / bays;
      g_array_append_val (lines, line);
    }
}

static void
joint_lines (const SwSetout *setout, SwSetoutLines *result)
{
  GArray *lines = result->lines;
  double centres = sw_setout_dividing_centres (setout->sheet, setout->limit);
  double edge = setout->edge_limit > 0 ? setout->edge_limit : setout->limit;
  int from = (int) ceil ((setout->width / 2 - SW_TOUCH_MM - setout->start) / centres);
  result->centres = centres;
  for (int k = from;; k++)
    {
      double line = setout->start + k * centres;
      if (line > setout->length - setout->width / 2 + SW_TOUCH_MM)
        break;
      g_array_append_val (lines, line);
    }
  if (lines->len == 0)
    {
      even_lines (setout, result);
      return;
    }
  double low = g_array_index (lines, double, 0), high = g_array_index (lines, double, lines->len - 1);
  add_edge (lines, setout->first, low, setout->width, edge);
  add_edge (lines, last_line (setout), high, setout->width, edge);
  g_array_sort (lines, sw_compare_doubles);
}

SwSetoutLines
sw_setout_lines (const SwSetout *setout)
{
  SwSetoutLines result = { 0, g_array_new (FALSE, FALSE, sizeof (double)) };
  if (setout->sheet > 0)
    joint_lines (setout, &result);
  else
    even_lines (setout, &result);
  return result;
}
