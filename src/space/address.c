/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "space/deck.h"
#include <math.h>

static double
line_distance (const SwGridline *line, SwPoint p)
{
  SwPoint along = sw_point_sub (line->to, line->from);
  return fabs (sw_point_cross (along, sw_point_sub (p, line->from))) / sw_point_length (along);
}

static void
address_grid (const SwDeck *deck, SwPoint p, SwAddress *address)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_GRIDLINE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      double distance = line_distance ((const SwGridline *) record, p);
      if (address->grid == NULL || distance < address->from_grid)
        {
          address->grid = (const SwGridline *) record;
          address->from_grid = distance;
        }
    }
}

/* Plates stand by void. */
static guint
first_plate (const SwDeckBay *bay, guint void_index)
{
  guint low = 0, high = bay->plates->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (g_array_index (bay->plates, SwDeckPlate, middle).void_index < void_index)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* The last plate of the void at or before u; else the start closure. */
static void
address_plate (const SwDeckBay *bay, guint void_index, double u, SwAddress *address)
{
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, void_index);
  if (v->n_reaches > 0)
    address->past_plate = u - g_array_index (bay->reaches, SwReach, v->first_reach).low;
  for (guint i = first_plate (bay, void_index); i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index != void_index)
        break;
      if (plate->u > u)
        continue;
      address->has_plate = TRUE;
      address->plate_number = plate->number;
      address->past_plate = u - plate->u;
    }
}

int
sw_deck_rib_number (const SwDeckBay *bay, int rib)
{
  int n = (int) bay->voids->len;
  if (rib < n)
    return g_array_index (bay->voids, SwVoid, rib).number;
  int step = bay->bay->backwards ? -1 : 1;
  return n > 0 ? g_array_index (bay->voids, SwVoid, n - 1).number + step * (rib - n + 1) : rib;
}

SwAddress
sw_deck_address (const SwDeck *deck, SwPoint p)
{
  SwAddress address = { .bay = sw_deck_bay_at (deck, p) };
  address_grid (deck, p, &address);
  if (address.bay == NULL || address.bay->voids->len == 0)
    return address;
  SwPoint uv = sw_deck_to_bay (address.bay, p);
  int rib = sw_deck_rib_at (address.bay, uv.y);
  guint near = (guint) sw_deck_void_near (address.bay, uv.y);
  address.over_void = rib < 0;
  address.void_number = g_array_index (address.bay->voids, SwVoid, near).number;
  if (rib >= 0)
    address.rib_number = sw_deck_rib_number (address.bay, rib);
  address_plate (address.bay, near, uv.x, &address);
  return address;
}

char *
sw_address_text (const SwAddress *address)
{
  GString *text = g_string_new (NULL);
  char figure[SW_NUMBER_BUF];
  if (address->bay != NULL)
    {
      g_autofree char *call = sw_record_call (&address->bay->bay->record, "bay");
      g_string_append (text, call);
      if (address->bay->voids->len > 0)
        {
          g_string_append_printf (text, address->over_void ? ", void %d" : ", rib by void %d", address->void_number);
          sw_number_write_fixed (address->past_plate, 0, figure);
          if (address->has_plate)
            g_string_append_printf (text, ", %s past plate %d", figure, address->plate_number);
          else
            g_string_append_printf (text, ", %s from the closure", figure);
        }
    }
  if (address->grid != NULL)
    g_string_append_printf (text, "%s%s m from grid %s", text->len > 0 ? ", " : "", sw_number_write_fixed (address->from_grid / 1000, 2, figure),
                            address->grid->record.tag);
  return g_string_free (text, FALSE);
}
