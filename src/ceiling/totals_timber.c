/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/batten_rules.h"
#include "ceiling/totals_parts.h"
#include "base/tolerance.h"
#include <math.h>

/* Metres of timber by what it is for, and the stock lengths to buy for each section, by linear cutting over all stock lengths
 * of the rule set at a cost of their length: the least timber. */

#define NODES 300 /* of the search for the proof: a room's list is mostly closed by the first dive */

static const SwTotalKind member_totals[] = {
  [SW_MEMBER_BATTEN] = SW_TOTAL_BATTEN,   [SW_MEMBER_PRIMARY] = SW_TOTAL_PRIMARY,     [SW_MEMBER_NOGGIN] = SW_TOTAL_NOGGIN,
  [SW_MEMBER_TRIMMER] = SW_TOTAL_TRIMMER, [SW_MEMBER_PERIMETER] = SW_TOTAL_PERIMETER,
  [SW_MEMBER_STUD] = SW_TOTAL_STUD,
};

double
sw_totals_section (const SwRoom *room, const SwMember *member, double *width, double *depth)
{
  gboolean stud = member->kind == SW_MEMBER_STUD;
  gboolean edge = member->width == room->batten_depth && member->depth == room->batten_width;
  *width = stud || edge ? room->batten_width : member->width;
  *depth = stud || edge ? room->batten_depth : member->depth;
  return stud ? member->depth : sw_point_distance (member->from, member->to);
}

static SwTotalSection *
section_for (SwTotals *totals, double width, double depth)
{
  for (guint i = 0; i < totals->sections->len; i++)
    {
      SwTotalSection *section = &g_array_index (totals->sections, SwTotalSection, i);
      if (section->width == width && section->depth == depth)
        return section;
    }
  SwTotalSection section = { width, depth, g_array_new (FALSE, FALSE, sizeof (SwLinearItem)),
                             g_array_new (FALSE, FALSE, sizeof (SwLinearStock)), NULL };
  g_array_append_val (totals->sections, section);
  return &g_array_index (totals->sections, SwTotalSection, totals->sections->len - 1);
}

static void
want (SwTotalSection *section, double length)
{
  SwLinearItem item = { (gint64) ceil (length - SW_TOUCH_MM), 1 }; /* places of both ends are rounded */
  for (guint i = 0; i < section->items->len; i++)
    if (g_array_index (section->items, SwLinearItem, i).length == item.length)
      {
        g_array_index (section->items, SwLinearItem, i).copies++;
        return;
      }
  if (item.length > 0)
    g_array_append_val (section->items, item);
}

/* In pieces that stock can give, joints over the furthest place where the member is held. */
static void
want_member (SwTotalSection *section, const SwCeiling *ceiling, const SwCeilingMember *member, double length, double longest)
{
  double from = 0;
  while (length - from > longest)
    {
      double to = from + longest;
      for (guint i = member->n_places; i-- > 0;)
        {
          double place = g_array_index (ceiling->places, double, member->first_place + i);
          if (place > from + 1 && place <= from + longest)
            {
              to = place;
              break;
            }
        }
      want (section, to - from);
      from = to;
    }
  want (section, length - from);
}

static int
compare_lengths (gconstpointer pa, gconstpointer pb)
{
  gint64 a = ((const SwLinearItem *) pa)->length, b = ((const SwLinearItem *) pb)->length;
  return (a < b) - (a > b);
}

static gboolean
buy (SwTotals *totals, SwTotalSection *section, double kerf, GCancellable *cancellable, GError **error)
{
  SwLinearOptions options = { (gint64) ceil (kerf), 0, NODES };
  const SwLinearItem *items = (const SwLinearItem *) section->items->data;
  const SwLinearStock *stock = (const SwLinearStock *) section->stock->data;
  double wanted = 0, bought = 0;
  g_array_sort (section->items, compare_lengths);
  section->plan = sw_linear_cut (items, section->items->len, stock, section->stock->len, &options, cancellable, error);
  if (section->plan == NULL)
    return FALSE;
  for (guint s = 0; s < section->stock->len; s++)
    {
      int count = 0;
      for (guint b = 0; b < section->plan->bars->len; b++)
        {
          const SwLinearBar *bar = &g_array_index (section->plan->bars, SwLinearBar, b);
          count += bar->stock == s ? bar->times : 0;
        }
      bought += (double) count * stock[s].length;
      sw_totals_add (totals, SW_TOTAL_STOCK, section->width, section->depth, stock[s].length, count);
    }
  for (guint i = 0; i < section->items->len; i++)
    wanted += (double) items[i].copies * items[i].length;
  sw_totals_add (totals, SW_TOTAL_STOCK_WASTE, section->width, section->depth, 0, (bought - wanted) / 1e3);
  return TRUE;
}

gboolean
sw_totals_timber (SwTotals *totals, const SwCeiling *ceiling, GCancellable *cancellable, GError **error)
{
  guint n_stock;
  const double *stock = sw_ceiling_stock (ceiling->rules, ceiling->room, &n_stock, error);
  double kerf = sw_rules_value (ceiling->rules, "brandering.setout", "kerf_mm").value;
  double metres[G_N_ELEMENTS (member_totals)] = { 0 };
  if (stock == NULL)
    return FALSE;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, i);
      double width, depth, length = sw_totals_section (ceiling->room, &member->member, &width, &depth);
      metres[member->member.kind] += length / 1e3;
      want_member (section_for (totals, width, depth), ceiling, member, length, stock[n_stock - 1]);
    }
  for (guint k = 0; k < G_N_ELEMENTS (member_totals); k++)
    sw_totals_add (totals, member_totals[k], ceiling->room->batten_width,
                   k == SW_MEMBER_PRIMARY ? ceiling->room->primary_depth : ceiling->room->batten_depth, 0, metres[k]);
  for (guint i = 0; i < totals->sections->len; i++)
    {
      SwTotalSection *section = &g_array_index (totals->sections, SwTotalSection, i);
      for (guint s = 0; s < n_stock; s++)
        {
          SwLinearStock length = { (gint64) stock[s], (gint64) stock[s], 0 };
          g_array_append_val (section->stock, length);
        }
      if (!buy (totals, section, kerf, cancellable, error))
        return FALSE;
    }
  return TRUE;
}
