/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/dual.h"
#include "ceiling/sheet_parts.h"
#include <math.h>
#include <stdlib.h>

/* Fewest sheets for any layout whose joints across the battens' spacing lie on battens. By area alone a room often seems to
 * take a sheet or two less than any layout can do with: a stretch of 4,500 on battens at 400 needs two whole sheets of 2,400,
 * since what is left beside a piece of 2,100 reaches no two battens. So the room is cut into bands along that direction; in each
 * band, whatever the joints, the pieces' lengths come from the battens' places, and a shortest path over these finds the least
 * value that they can have under a dual feasible function (dual.h). The sum of value times height over all bands is what the
 * sheets' breadth has to give. The best function and the plain area count, rounded up. Slanting walls are cut into thin
 * bands, each as short as at its shortest. Bands × functions × battens × battens a sheet. */

#define MOST_STEPS 40  /* functions of each family */
#define THIN_BANDS 8   /* of a stretch with slanting walls */
#define AT_BATTEN 1.0  /* a joint is on a batten within this, mm, as where rows are laid */

typedef struct
{
  double breadth;      /* mm across */
  guint first, n;      /* among the places: from wall to wall */
} Band;

typedef struct
{
  const SwBoarding *boarding;
  gboolean faces;      /* of bulkheads count too */
  GArray *bands;       /* Band */
  GArray *places;      /* double, mm */
  GArray *lengths;     /* gint64: of pieces that can occur, units */
  double most, other;  /* sides of a sheet along the bands and across */
} Bound;

static int
compare_longs (gconstpointer pa, gconstpointer pb)
{
  gint64 a = *(const gint64 *) pa, b = *(const gint64 *) pb;
  return (a > b) - (a < b);
}

/* ---- bands ---- */

/* Where joints may lie in the field, across the battens: their middles and the edges of locked pieces, ascending. */
static GArray *
joint_places (const SwBoardField *field)
{
  GArray *places = g_array_copy (field->part->lines);
  for (guint i = 0; i < field->locked->len; i++)
    {
      SwBox box = sw_rings_box (field->locked->pdata[i]);
      double edges[] = { field->turned ? box.low.y : box.low.x, field->turned ? box.high.y : box.high.x };
      g_array_append_vals (places, edges, 2);
    }
  g_array_sort (places, sw_compare_doubles);
  return places;
}

static void
add_band (Bound *bound, const GArray *joints, SwInterval stretch, double breadth)
{
  Band band = { breadth, bound->places->len, 0 };
  g_array_append_val (bound->places, stretch.low);
  for (guint i = 0; i < joints->len; i++)
    {
      double at = g_array_index (joints, double, i);
      if (at > stretch.low + AT_BATTEN && at < stretch.high - AT_BATTEN)
        g_array_append_val (bound->places, at);
    }
  g_array_append_val (bound->places, stretch.high);
  band.n = bound->places->len - band.first;
  g_array_append_val (bound->bands, band);
}

/* Whether a side that is neither along nor across the bands reaches into low < x < high. */
static gboolean
slants_within (const SwRings *rings, double low, double high)
{
  for (guint r = 0; r < sw_rings_n (rings); r++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, r, &n);
      for (guint i = 0; i < n; i++)
        {
          SwPoint a = points[i], b = points[i + 1 < n ? i + 1 : 0];
          if (fabs (a.y - b.y) > SW_TOUCH_MM && fmin (a.x, b.x) < high - SW_TOUCH_MM && fmax (a.x, b.x) > low + SW_TOUCH_MM)
            return TRUE;
        }
    }
  return FALSE;
}

/* Cuts the area into bands along y and shows each stretch that lies wholly in one. */
typedef void (*StretchSeen) (SwInterval stretch, double breadth, gpointer data);

static void
walk_bands (const SwRings *area, StretchSeen seen, gpointer data)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < area->points->len; i++)
    g_array_append_val (corners, g_array_index (area->points, SwPoint, i).x);
  g_array_sort (corners, sw_compare_doubles);
  for (guint i = 1; i < corners->len; i++)
    {
      double low = g_array_index (corners, double, i - 1), high = g_array_index (corners, double, i);
      if (high - low < SW_TOUCH_MM)
        continue;
      int parts = slants_within (area, low, high) ? THIN_BANDS : 1;
      double breadth = (high - low) / parts;
      for (int k = 0; k < parts; k++)
        {
          g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (SwInterval));
          sw_rings_band (area, low + k * breadth, low + (k + 1) * breadth, stretches);
          for (guint s = 0; s < stretches->len; s++)
            seen (g_array_index (stretches, SwInterval, s), breadth, data);
        }
    }
}

typedef struct
{
  Bound *bound;
  const GArray *joints;
} BandsOf;

static void
see_band (SwInterval stretch, double breadth, gpointer data)
{
  const BandsOf *of = data;
  add_band (of->bound, of->joints, stretch, breadth);
}

static void
add_bands (Bound *bound, const SwBoardField *field)
{
  g_autoptr (SwRings) area = sw_rings_swapped (field->part->area); /* x across the bands, y along them */
  g_autoptr (GArray) joints = joint_places (field);
  BandsOf of = { bound, joints };
  walk_bands (area, see_band, &of);
}

/* ---- values ---- */

/* Of a piece between two places, in the units of cutting; on the safe side of what a joint may lie beside its batten. */
static gint64
piece_units (double length)
{
  return (gint64) floor (fmax (0, length - 2 * AT_BATTEN) * SW_BOARD_UNITS);
}

static gint64
size_units (const Bound *bound)
{
  return (gint64) ceil (bound->most * SW_BOARD_UNITS);
}

/* Least value of the pieces in a band; 0 where battens lie too far apart for any. */
static gint64
least_value (const Bound *bound, const Band *band, const SwDual *dual)
{
  const double *at = &g_array_index (bound->places, double, band->first);
  g_autofree gint64 *least = g_new (gint64, band->n);
  least[0] = 0;
  for (guint k = 1; k < band->n; k++)
    {
      least[k] = G_MAXINT64;
      for (guint i = k; i-- > 0 && at[k] - at[i] <= bound->most + 2 * AT_BATTEN;)
        if (least[i] != G_MAXINT64)
          least[k] = MIN (least[k], least[i] + sw_dual_value (dual, piece_units (at[k] - at[i])));
    }
  return least[band->n - 1] == G_MAXINT64 ? 0 : least[band->n - 1];
}

static const SwFacePiece *
face (const SwCeiling *ceiling, guint i)
{
  return &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
}

/* What the upright faces of bulkheads ask for, which come from the same sheets, the same way round. */
static double
faces_by (const Bound *bound, const SwDual *dual)
{
  const SwCeiling *ceiling = bound->boarding->ceiling;
  double sum = 0;
  for (guint i = 0; bound->faces && i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = face (ceiling, i);
      double along = ceiling->turned ? piece->width : piece->length, across = ceiling->turned ? piece->length : piece->width;
      sum += across * (double) sw_dual_value (dual, piece_units (along)) / (double) dual->divisor;
    }
  return sum;
}

static double
sheets_by (const Bound *bound, const SwDual *dual)
{
  double sum = faces_by (bound, dual);
  for (guint i = 0; i < bound->bands->len; i++)
    {
      const Band *band = &g_array_index (bound->bands, Band, i);
      sum += band->breadth * (double) least_value (bound, band, dual) / (double) dual->divisor;
    }
  return sum / bound->other;
}

/* Distinct lengths of pieces, up to a sheet's, ascending. */
static void
collect_lengths (Bound *bound)
{
  for (guint b = 0; b < bound->bands->len; b++)
    {
      const Band *band = &g_array_index (bound->bands, Band, b);
      const double *at = &g_array_index (bound->places, double, band->first);
      for (guint k = 1; k < band->n; k++)
        for (guint i = k; i-- > 0 && at[k] - at[i] <= bound->most;)
          {
            gint64 length = piece_units (at[k] - at[i]);
            if (length > 0)
              g_array_append_val (bound->lengths, length);
          }
    }
  g_array_sort (bound->lengths, compare_longs);
  guint kept = 0;
  for (guint i = 0; i < bound->lengths->len; i++)
    {
      gint64 length = g_array_index (bound->lengths, gint64, i);
      /* Nearly the same length makes nearly the same function: the shorter does for both. */
      if (kept == 0 || length - g_array_index (bound->lengths, gint64, kept - 1) > SW_BOARD_UNITS)
        g_array_index (bound->lengths, gint64, kept++) = length;
    }
  g_array_set_size (bound->lengths, kept);
}

static double
best_by_joints (Bound *bound)
{
  gint64 size = size_units (bound);
  double best = 0;
  collect_lengths (bound);
  guint n = bound->lengths->len, taken = MIN (n, MOST_STEPS);
  for (guint i = 0; i < taken; i++)
    {
      gint64 step = g_array_index (bound->lengths, gint64, (guint64) i * n / taken);
      SwDual ends = sw_dual_new (SW_DUAL_CUT_ENDS, size, step), down = sw_dual_new (SW_DUAL_ROUND_DOWN, size, step);
      if (2 * step <= size)
        best = fmax (best, fmax (sheets_by (bound, &ends), sheets_by (bound, &down)));
    }
  return best;
}

guint
sw_boarding_bound (const SwBoarding *boarding, guint first, guint n, gboolean faces)
{
  const SwCeiling *ceiling = boarding->ceiling;
  double area = 0, sheet = ceiling->sheet_length * ceiling->sheet_width;
  Bound bound = { .boarding = boarding, .faces = faces };
  bound.most = ceiling->turned ? ceiling->sheet_width : ceiling->sheet_length;
  bound.other = ceiling->turned ? ceiling->sheet_length : ceiling->sheet_width;
  bound.bands = g_array_new (FALSE, FALSE, sizeof (Band));
  bound.places = g_array_new (FALSE, FALSE, sizeof (double));
  bound.lengths = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = first; i < first + n; i++)
    {
      const SwBoardField *field = boarding->fields->pdata[i];
      area += sw_rings_area (field->part->area);
      add_bands (&bound, field);
    }
  for (guint i = 0; bound.faces && i < ceiling->face_pieces->len; i++)
    area += face (ceiling, i)->length * face (ceiling, i)->width;
  double least = fmax (area / sheet, best_by_joints (&bound));
  g_array_unref (bound.bands);
  g_array_unref (bound.places);
  g_array_unref (bound.lengths);
  return (guint) ceil (least - 1e-6);
}

/* ---- what layouts cost at least ---- */

typedef struct
{
  double most, sum; /* greatest side of a piece along the stretches; mm of joints */
} JointsOf;

/* Each line along the stretch crosses as many joints as pieces of the greatest side leave it. */
static void
see_joints (SwInterval stretch, double breadth, gpointer data)
{
  JointsOf *of = data;
  of->sum += breadth * fmax (0, ceil ((stretch.high - stretch.low - 2 * AT_BATTEN) / of->most) - 1);
}

static double
least_joints (const SwBoarding *boarding)
{
  double sum = 0;
  for (guint i = 0; i < boarding->fields->len; i++)
    {
      const SwBoardField *field = boarding->fields->pdata[i];
      g_autoptr (SwRings) across = sw_rings_swapped (field->whole);
      JointsOf long_ones = { field->width, 0 }, ends = { field->length, 0 };
      walk_bands (field->whole, see_joints, &long_ones);
      walk_bands (across, see_joints, &ends);
      sum += long_ones.sum + ends.sum;
    }
  return sum;
}

gint64
sw_boarding_least_cost (const SwBoarding *boarding, guint first, guint n, gboolean faces)
{
  const SwSheetStock *own = &g_array_index (boarding->stock, SwSheetStock, 0);
  double area = 0, least = INFINITY;
  if (boarding->n_stock == 1)
    return sw_boarding_bound (boarding, first, n, faces) * sw_sheet_stock_cost (own);
  for (guint i = first; i < first + n; i++)
    area += sw_rings_area (((const SwBoardField *) boarding->fields->pdata[i])->part->area);
  for (guint i = 0; faces && i < boarding->ceiling->face_pieces->len; i++)
    area += face (boarding->ceiling, i)->length * face (boarding->ceiling, i)->width;
  for (guint i = 0; i < boarding->n_stock; i++)
    {
      const SwSheetStock *stock = &g_array_index (boarding->stock, SwSheetStock, i);
      least = fmin (least, area * SW_BOARD_UNITS * SW_BOARD_UNITS / ((double) stock->width * stock->height) * (double) sw_sheet_stock_cost (stock));
    }
  return (gint64) floor (least * (1 - 1e-6)); /* pieces lose less than a unit to rounding */
}

gboolean
sw_ceiling_board_least (SwCeiling *ceiling, const SwCeilingOptions *options, gint64 *cost, double *joints, GError **error)
{
  SwBoarding boarding;
  gboolean done = sw_boarding_init (&boarding, ceiling, options, error);
  if (done)
    {
      *cost = sw_boarding_least_cost (&boarding, 0, boarding.fields->len, TRUE);
      *joints = least_joints (&boarding);
    }
  sw_boarding_clear (&boarding);
  return done;
}

void
sw_boarding_note_counts (SwBoarding *boarding, const SwBoardCut *plain)
{
  SwCeiling *ceiling = boarding->ceiling;
  ceiling->n_sheets_plain = plain->sheets;
  ceiling->n_sheets_bound = sw_boarding_bound (boarding, 0, boarding->fields->len, TRUE);
}

gboolean
sw_boarding_measure (SwBoarding *boarding, GError **error)
{
  SwBoardCut cut;
  g_autoptr (GPtrArray) plain = sw_boarding_lay_plain (boarding);
  sw_board_cut_init (&cut);
  gboolean done = sw_boarding_cut (boarding, plain, &cut, error);
  if (done)
    sw_boarding_note_counts (boarding, &cut);
  sw_board_cut_clear (&cut);
  return done;
}
