/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "ceiling/sheet_parts.h"
#include <math.h>

/* Improves a plan by taking a few sheets apart and filling them again: the pieces of two to four sheets, one of them poorly used,
 * are put into no more sheets in a random order and manner. A result stays when it needs a sheet fewer, or when it gathers the
 * waste (the sum of the squares of what is used falls by less than a tolerance that shrinks to nothing over the rounds), so that
 * in the end a sheet runs empty. Each round is a handful of fillings of a few sheets; the number of rounds is the
 * caller's effort, and the search stops at the bound. Numbers are drawn from a seed: the same effort gives the same plan. */

#define TRIES 6       /* fillings a round */
#define MOST_TAKEN 4  /* sheets a round */
#define SLACK 0.05    /* of a sheet's square, at the start */

typedef struct
{
  GArray *places, *cuts; /* SwSheetPlace, SwSheetCut; their sheet numbers do not count */
  double used;           /* share of the sheet */
} Sheet;

typedef struct
{
  double key;
  guint index;
} Keyed;

typedef struct
{
  const SwSheetProblem *problem;
  SwRandom random;
  GPtrArray *sheets;
  SwSheetFill fill;
  GArray *units;         /* SwSheetUnit, of the sheets taken apart */
  Keyed *keyed;
  guint *order;
  double area;
} Search;

static void
sheet_free (Sheet *sheet)
{
  g_array_unref (sheet->places);
  g_array_unref (sheet->cuts);
  g_free (sheet);
}

static void
add_sheets (Search *search, const GArray *places, const GArray *cuts, guint n)
{
  guint first = search->sheets->len;
  for (guint i = 0; i < n; i++)
    {
      Sheet *sheet = g_new0 (Sheet, 1);
      sheet->places = g_array_new (FALSE, FALSE, sizeof (SwSheetPlace));
      sheet->cuts = g_array_new (FALSE, FALSE, sizeof (SwSheetCut));
      g_ptr_array_add (search->sheets, sheet);
    }
  for (guint i = 0; i < places->len; i++)
    {
      SwSheetPlace place = g_array_index (places, SwSheetPlace, i);
      Sheet *sheet = search->sheets->pdata[first + place.sheet];
      sheet->used += (double) place.width * place.height / search->area;
      g_array_append_val (sheet->places, place);
    }
  for (guint i = 0; i < cuts->len; i++)
    {
      SwSheetCut cut = g_array_index (cuts, SwSheetCut, i);
      g_array_append_val (((Sheet *) search->sheets->pdata[first + cut.sheet])->cuts, cut);
    }
}

/* ---- a round ---- */

static double
used_of (const Search *search, guint sheet)
{
  return ((const Sheet *) search->sheets->pdata[sheet])->used;
}

/* The emptier of two at random, then others; distinct. */
static guint
choose_sheets (Search *search, guint *chosen)
{
  int last = (int) search->sheets->len - 1;
  guint n = 0, wanted = (guint) sw_random_int (&search->random, 2, MIN (MOST_TAKEN, last + 1));
  guint a = (guint) sw_random_int (&search->random, 0, last), b = (guint) sw_random_int (&search->random, 0, last);
  chosen[n++] = used_of (search, a) < used_of (search, b) ? a : b;
  while (n < wanted)
    {
      guint next = (guint) sw_random_int (&search->random, 0, last), i = 0;
      while (i < n && chosen[i] != next)
        i++;
      if (i == n)
        chosen[n++] = next;
    }
  return n;
}

/* Their pieces as units; returns the sum of the squares of what they use. */
static double
take_units (Search *search, const guint *chosen, guint n)
{
  double squares = 0;
  g_array_set_size (search->units, 0);
  for (guint i = 0; i < n; i++)
    {
      const Sheet *sheet = search->sheets->pdata[chosen[i]];
      squares += sheet->used * sheet->used;
      for (guint k = 0; k < sheet->places->len; k++)
        {
          guint index = g_array_index (sheet->places, SwSheetPlace, k).item;
          const SwSheetItem *item = &search->problem->items[index];
          SwSheetUnit unit = { item->width, item->height, index, item->may_turn };
          g_array_append_val (search->units, unit);
        }
    }
  return squares;
}

static double
size_key (const SwSheetUnit *unit, int kind)
{
  double w = unit->width, h = unit->height;
  const double keys[] = { w * h, h, w, fmax (w, h), w + h, fmin (w, h) };
  return keys[kind];
}

static int
compare_keys (gconstpointer pa, gconstpointer pb)
{
  const Keyed *a = pa, *b = pb;
  if (a->key != b->key)
    return a->key > b->key ? -1 : 1;
  return a->index < b->index ? -1 : a->index > b->index;
}

/* Large ones first, more or less. */
static void
draw_order (Search *search)
{
  static const double shakes[] = { 0.05, 0.15, 0.4, 1.0 };
  int kind = sw_random_int (&search->random, 0, 5);
  double shake = shakes[sw_random_int (&search->random, 0, 3)];
  guint n = search->units->len;
  for (guint i = 0; i < n; i++)
    {
      double key = size_key (&g_array_index (search->units, SwSheetUnit, i), kind);
      search->keyed[i] = (Keyed){ key * (1 + shake * sw_random_double (&search->random, -1, 1)), i };
    }
  qsort (search->keyed, n, sizeof (Keyed), compare_keys);
  for (guint i = 0; i < n; i++)
    search->order[i] = search->keyed[i].index;
}

static double
squares_filled (const Search *search)
{
  double used[MOST_TAKEN] = { 0 }, sum = 0;
  for (guint i = 0; i < search->fill.places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (search->fill.places, SwSheetPlace, i);
      used[place->sheet] += (double) place->width * place->height / search->area;
    }
  for (guint i = 0; i < search->fill.sheets->len; i++)
    sum += used[i] * used[i];
  return sum;
}

static int
compare_down (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;
  return (x < y) - (x > y);
}

static void
replace (Search *search, guint *chosen, guint n)
{
  qsort (chosen, n, sizeof *chosen, compare_down);
  for (guint i = 0; i < n; i++)
    g_ptr_array_remove_index (search->sheets, chosen[i]);
  add_sheets (search, search->fill.places, search->fill.cuts, search->fill.sheets->len);
}

static void
try_round (Search *search, double slack)
{
  guint chosen[MOST_TAKEN];
  guint n = choose_sheets (search, chosen);
  double before = take_units (search, chosen, n);
  const SwSheetUnit *units = (const SwSheetUnit *) search->units->data;
  for (int i = 0; i < TRIES; i++)
    {
      SwSheetManner manner = { (SwSheetFit) sw_random_int (&search->random, 0, SW_N_FITS - 1),
                               (SwSheetSplit) sw_random_int (&search->random, 0, SW_N_SPLITS - 1) };
      draw_order (search);
      sw_sheet_fill_reset (&search->fill);
      search->fill.limit = n;
      if (!sw_sheet_fill_all (&search->fill, units, search->order, search->units->len, manner, NULL))
        continue;
      if (search->fill.sheets->len < n || squares_filled (search) >= before - slack)
        {
          replace (search, chosen, n);
          return;
        }
    }
}

/* ---- all rounds ---- */

static void
write_plan (Search *search, SwSheetPlan **plan)
{
  guint bound = (*plan)->bound, size = 0;
  sw_sheet_fill_reset (&search->fill);
  for (guint i = 0; i < search->sheets->len; i++)
    {
      const Sheet *sheet = search->sheets->pdata[i];
      g_array_append_val (search->fill.sheets, size);
      for (guint k = 0; k < sheet->places->len; k++)
        {
          SwSheetPlace place = g_array_index (sheet->places, SwSheetPlace, k);
          place.sheet = i;
          g_array_append_val (search->fill.places, place);
        }
      for (guint k = 0; k < sheet->cuts->len; k++)
        {
          SwSheetCut cut = g_array_index (sheet->cuts, SwSheetCut, k);
          cut.sheet = i;
          g_array_append_val (search->fill.cuts, cut);
        }
    }
  sw_sheet_plan_free (*plan);
  *plan = sw_sheet_plan_from (search->problem, &search->fill);
  (*plan)->bound = bound;
}

void
sw_sheet_search (const SwSheetProblem *problem, SwSheetPlan **plan, GCancellable *cancellable)
{
  guint rounds = problem->options.effort;
  Search search = { .problem = problem, .random = { problem->options.seed } };
  search.area = (double) problem->stock->width * problem->stock->height;
  search.sheets = g_ptr_array_new_with_free_func ((GDestroyNotify) sheet_free);
  search.units = g_array_new (FALSE, FALSE, sizeof (SwSheetUnit));
  search.keyed = g_new (Keyed, problem->units->len);
  search.order = g_new (guint, problem->units->len);
  sw_sheet_fill_init (&search.fill, problem->stock, 1, &problem->options);
  add_sheets (&search, (*plan)->places, (*plan)->cuts, (*plan)->sheets->len);
  for (guint i = 0; i < rounds && search.sheets->len > MAX ((*plan)->bound, 1); i++)
    {
      if (g_cancellable_is_cancelled (cancellable))
        break;
      try_round (&search, SLACK * (1 - (double) i / rounds));
    }
  if (search.sheets->len < (*plan)->sheets->len)
    write_plan (&search, plan);
  sw_sheet_fill_clear (&search.fill);
  g_ptr_array_unref (search.sheets);
  g_array_unref (search.units);
  g_free (search.keyed);
  g_free (search.order);
}
