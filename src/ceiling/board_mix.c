/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/cancel.h"
#include "ceiling/sheet_parts.h"

/* Rows of sheets of several lengths and one width. Row by row, each stretch gets the joints that cost least: a shortest path over the
 * battens on which a joint may lie, whose steps are pieces, each from the cheapest length that gives it or, at the two ends, from an
 * offcut of the rows before. What is left of a sheet counts as a share of its worth, and some shares are tried, since no row knows what
 * later rows will want. Of paths that cost alike fewer joints near lights win, then fewer joints, then the larger smallest piece. The
 * path is exact for its row; the rows are not weighed against each other. What the pieces cost in truth is counted by cutting them.
 * Heights of a first row × shares × rows × (offcuts × battens × battens a sheet). */

#define MOST_FIRSTS 5
#define MOST_OFFCUTS 12 /* kept at a time: the longest */

typedef struct
{
  double length, cost;
} Length;

#define ALIKE 1e-6 /* of a sheet's cost: paths that differ by less cost alike */

typedef struct
{
  double cost;           /* in costs of the dearest sheet */
  guint close, joints;
  double smallest;
  int next;              /* place where the first of these pieces ends; −1: there is no way */
} Label;

typedef struct
{
  const SwBoarding *boarding;
  const SwBoardField *field;
  GArray *lengths;       /* Length, shortest first */
  double worth, share;   /* of a mm at its cheapest; what of it an offcut counts for */
  GArray *offcuts;       /* double */
  GArray *before;        /* double: joints of the row before */
} Mix;

/* One stretch: from wall to wall with the places for joints between. */
typedef struct
{
  GArray *places;        /* double */
  GArray *close;         /* gboolean: a joint there is near a light or hatch */
  double narrow;         /* share of a sheet's breadth that a narrow row takes, 1 for others */
  Label *tails;          /* from each place to the end; one row for a last piece from a sheet, then one an offcut */
  guint n;               /* places */
} Path;

/* ---- lengths ---- */

static int
compare_lengths (gconstpointer pa, gconstpointer pb)
{
  const Length *a = pa, *b = pb;
  return (a->length > b->length) - (a->length < b->length);
}

static void
collect_lengths (Mix *mix)
{
  const GArray *stock = mix->boarding->stock;
  double dearest = 0;
  for (guint i = 0; i < mix->boarding->n_stock; i++)
    dearest = fmax (dearest, (double) sw_sheet_stock_cost (&g_array_index (stock, SwSheetStock, i)));
  mix->worth = INFINITY;
  for (guint i = 0; i < mix->boarding->n_stock; i++)
    {
      const SwSheetStock *size = &g_array_index (stock, SwSheetStock, i);
      Length length = { (double) size->width / SW_BOARD_UNITS, (double) sw_sheet_stock_cost (size) / dearest };
      if (fabs ((double) size->height / SW_BOARD_UNITS - mix->field->width) > SW_TOUCH_MM || length.length > mix->field->length + SW_TOUCH_MM)
        continue;
      mix->worth = fmin (mix->worth, length.cost / length.length);
      g_array_append_val (mix->lengths, length);
    }
  g_array_sort (mix->lengths, compare_lengths);
}

/* What an offcut's length counts for; too short ones are waste. */
static double
worth_of (const Mix *mix, double length)
{
  return length < mix->field->sliver ? 0 : mix->share * mix->worth * length;
}

/* Of a piece from the cheapest sheet that gives it; *left: what is left of that. */
static double
sheet_cost (const Mix *mix, double length, double *left)
{
  double best = INFINITY;
  for (guint i = 0; i < mix->lengths->len; i++)
    {
      const Length *sheet = &g_array_index (mix->lengths, Length, i);
      double rest = sheet->length - length, cost = sheet->cost - worth_of (mix, rest);
      if (rest < -SW_TOUCH_MM || cost >= best - ALIKE)
        continue;
      best = cost;
      *left = fmax (rest, 0);
    }
  return best;
}

static double
offcut_cost (const Mix *mix, guint offcut, double length)
{
  double whole = g_array_index (mix->offcuts, double, offcut);
  return worth_of (mix, whole) - worth_of (mix, whole - length);
}

/* ---- the path through a stretch ---- */

static gboolean
is_before (const Label *a, const Label *b)
{
  if (b->next < 0 || fabs (a->cost - b->cost) > ALIKE)
    return b->next < 0 || a->cost < b->cost;
  if (a->close != b->close)
    return a->close < b->close;
  if (a->joints != b->joints)
    return a->joints < b->joints;
  return a->smallest > b->smallest + SW_TOUCH_MM;
}

static double
place_at (const Path *path, guint i)
{
  return g_array_index (path->places, double, i);
}

/* A piece from place i to place k, then the tail from there. */
static Label
label_of (const Path *path, const Label *tail, guint i, guint k, double cost)
{
  double length = place_at (path, k) - place_at (path, i);
  if (k + 1 == path->n)
    return (Label){ cost, 0, 0, length, (int) k };
  return (Label){ cost + tail->cost, tail->close + (guint) g_array_index (path->close, gboolean, k), tail->joints + 1,
                  fmin (length, tail->smallest), (int) k };
}

/* Whether a piece may lie between the places: not longer than `most`, no sliver. */
static gboolean
is_piece (const Mix *mix, const Path *path, guint i, guint k, double most)
{
  double length = place_at (path, k) - place_at (path, i);
  gboolean whole = i == 0 && k + 1 == path->n;
  return length <= most + SW_TOUCH_MM && (whole || length >= mix->field->sliver - SW_TOUCH_MM);
}

/* Tails whose last piece comes from that offcut, −1: from a sheet. */
static void
find_tails (const Mix *mix, Path *path, int offcut)
{
  Label *tails = path->tails + (gsize) (offcut + 1) * path->n;
  guint end = path->n - 1;
  for (guint i = path->n; i-- > 0;)
    {
      tails[i] = (Label){ .next = -1 };
      for (guint k = i + 1; k <= end; k++)
        {
          double length = place_at (path, k) - place_at (path, i), left;
          gboolean last = k == end, from_offcut = last && offcut >= 0;
          double most = from_offcut ? g_array_index (mix->offcuts, double, (guint) offcut) : mix->field->length;
          if (length > mix->field->length + SW_TOUCH_MM)
            break;
          if (!is_piece (mix, path, i, k, most) || (!last && tails[k].next < 0))
            continue;
          double cost = from_offcut ? offcut_cost (mix, (guint) offcut, length) : sheet_cost (mix, length, &left);
          Label label = label_of (path, &tails[k], i, k, cost * path->narrow);
          if (is_before (&label, &tails[i]))
            tails[i] = label;
        }
    }
}

/* The best first piece from offcut `first` (−1: from a sheet) before a tail of offcut `last`. */
static Label
best_head (const Mix *mix, const Path *path, int first, int last)
{
  const Label *tails = path->tails + (gsize) (last + 1) * path->n;
  if (first < 0)
    return tails[0];
  Label best = { .next = -1 };
  for (guint k = 1; k < path->n; k++)
    {
      gboolean whole = k + 1 == path->n;
      double length = place_at (path, k) - place_at (path, 0);
      if (!is_piece (mix, path, 0, k, g_array_index (mix->offcuts, double, (guint) first)) || (whole ? last >= 0 : tails[k].next < 0))
        continue;
      Label label = label_of (path, &tails[k], 0, k, offcut_cost (mix, (guint) first, length) * path->narrow);
      if (is_before (&label, &best))
        best = label;
    }
  return best;
}

static void
keep_offcut (Mix *mix, double length)
{
  if (length < mix->field->sliver)
    return;
  g_array_append_val (mix->offcuts, length);
  g_array_sort (mix->offcuts, sw_compare_doubles);
  if (mix->offcuts->len > MOST_OFFCUTS)
    g_array_remove_index (mix->offcuts, 0);
}

/* Joints along the way chosen; the offcuts are then those after it. */
static GArray *
follow (Mix *mix, const Path *path, Label label, int first, int last)
{
  GArray *joints = g_array_new (FALSE, FALSE, sizeof (double));
  const Label *tails = path->tails + (gsize) (last + 1) * path->n;
  g_autoptr (GArray) rests = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0, k = (guint) label.next; i + 1 < path->n; i = k, k = i + 1 < path->n ? (guint) tails[i].next : i)
    {
      double length = place_at (path, k) - place_at (path, i), left = 0;
      int offcut = i == 0 && first >= 0 ? first : k + 1 == path->n ? last : -1;
      if (offcut >= 0)
        left = g_array_index (mix->offcuts, double, (guint) offcut) - length;
      else
        sheet_cost (mix, length, &left);
      if (path->narrow >= 1)
        g_array_append_val (rests, left);
      if (k + 1 < path->n)
        g_array_append_val (joints, g_array_index (path->places, double, k));
    }
  if (MAX (first, last) >= 0)
    g_array_remove_index (mix->offcuts, (guint) MAX (first, last));
  if (MIN (first, last) >= 0)
    g_array_remove_index (mix->offcuts, (guint) MIN (first, last));
  for (guint i = 0; i < rests->len; i++)
    keep_offcut (mix, g_array_index (rests, double, i));
  return joints;
}

/* The cheapest joints through the stretch; NULL when no pieces without slivers and faults do. */
static GArray *
cheapest (Mix *mix, Path *path)
{
  int most = path->narrow >= 1 ? (int) mix->offcuts->len : 0, first = -1, last = -1;
  Label best = { .next = -1 };
  path->n = path->places->len;
  path->tails = g_new (Label, (gsize) (most + 1) * path->n);
  for (int offcut = -1; offcut < most; offcut++)
    find_tails (mix, path, offcut);
  for (int a = -1; a < most; a++)
    for (int b = -1; b < most; b++)
      {
        Label label = a >= 0 && a == b ? (Label){ .next = -1 } : best_head (mix, path, a, b);
        if (label.next < 0 || !is_before (&label, &best))
          continue;
        best = label;
        first = a;
        last = b;
      }
  GArray *joints = best.next < 0 ? NULL : follow (mix, path, best, first, last);
  g_free (path->tails);
  return joints;
}

/* ---- rows ---- */

/* A joint there lies on its batten all along and keeps its distance from those of the row before. */
static gboolean
is_place (const Mix *mix, const SwRowsStretch *stretch, double x)
{
  const SwBoardField *field = mix->field;
  for (guint i = 0; i < mix->before->len; i++)
    if (fabs (g_array_index (mix->before, double, i) - x) < field->stagger_least - SW_TOUCH_MM)
      return FALSE;
  if (field->turned)
    return TRUE;
  g_autoptr (GArray) seam = g_array_new (FALSE, FALSE, sizeof (SwInterval)), across = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_val (across, stretch->across);
  sw_rings_seam (field->area, SW_ALONG_Y, x, field->bearing, seam);
  sw_intervals_intersect (seam, across);
  return sw_board_field_bare (field, x, seam) <= 0;
}

static void
add_place (const Mix *mix, Path *path, const SwRowsStretch *stretch, double x)
{
  SwPoint low = { x, stretch->across.low }, high = { x, stretch->across.high };
  gboolean inside = x > stretch->low + SW_TOUCH_MM && x < stretch->high - SW_TOUCH_MM;
  gboolean close = inside && sw_board_field_near (mix->field, low, high) != NULL;
  if (inside && !is_place (mix, stretch, x))
    return;
  g_array_append_val (path->places, x);
  g_array_append_val (path->close, close);
}

static void
add_places (const Mix *mix, Path *path, const SwRowsStretch *stretch)
{
  const SwBoardField *field = mix->field;
  add_place (mix, path, stretch, stretch->low);
  if (field->lines != NULL)
    {
      for (guint i = 0; i < field->lines->len; i++)
        {
          double x = g_array_index (field->lines, double, i);
          if (x > stretch->low + SW_TOUCH_MM && x < stretch->high - SW_TOUCH_MM)
            add_place (mix, path, stretch, x);
        }
    }
  else
    for (double k = floor ((stretch->low + SW_TOUCH_MM - field->start) / field->step) + 1, x; (x = field->start + k * field->step) < stretch->high - SW_TOUCH_MM; k++)
      add_place (mix, path, stretch, x);
  add_place (mix, path, stretch, stretch->high);
}

static GArray *
joints_of (Mix *mix, const SwRowsStretch *stretch)
{
  Path path = { g_array_new (FALSE, FALSE, sizeof (double)), g_array_new (FALSE, FALSE, sizeof (gboolean)), 1, NULL, 0 };
  double breadth = stretch->across.high - stretch->across.low;
  if (breadth <= mix->field->width / 2) /* ripped from other sheets, and too narrow to leave offcuts that serve */
    path.narrow = breadth / mix->field->width;
  add_places (mix, &path, stretch);
  GArray *joints = cheapest (mix, &path);
  g_array_unref (path.places);
  g_array_unref (path.close);
  return joints ? joints : g_array_copy (stretch->joints);
}

/* The stretches with joints for several lengths. */
static GPtrArray *
mix_rows (Mix *mix, const SwRows *rows)
{
  GPtrArray *mixed = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_stretch_free);
  g_autoptr (GArray) here = g_array_new (FALSE, FALSE, sizeof (double));
  g_array_set_size (mix->offcuts, 0);
  g_array_set_size (mix->before, 0);
  for (guint i = 0, row = 0; i < rows->stretches->len; i++)
    {
      const SwRowsStretch *stretch = rows->stretches->pdata[i];
      if (stretch->row != row)
        {
          g_array_set_size (mix->before, 0);
          if (stretch->row == row + 1)
            g_array_append_vals (mix->before, here->data, here->len);
          g_array_set_size (here, 0);
          row = stretch->row;
        }
      g_autoptr (GArray) joints = joints_of (mix, stretch);
      g_array_append_vals (here, joints->data, joints->len);
      SwRowsStretch *copy = sw_rows_stretch_copy (stretch);
      g_array_set_size (copy->joints, 0);
      g_array_append_vals (copy->joints, joints->data, joints->len);
      g_ptr_array_add (mixed, copy);
    }
  return mixed;
}

/* Tries all shares with rows of that first height; FALSE with an error. */
static gboolean
try_first (Mix *mix, double first, SwRows **best, GCancellable *cancellable, GError **error)
{
  static const double shares[] = { 1, 0.7, 0.35, 0 };
  g_autoptr (SwRows) plain = sw_rows_lay (mix->field, (SwRowsManner){ first, SW_ROWS_FEW });
  for (gsize i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      mix->share = shares[i];
      g_autoptr (GPtrArray) stretches = mix_rows (mix, plain);
      g_autoptr (SwRows) rows = sw_rows_lay_as (mix->field, first, stretches);
      if (sw_ceiling_is_cancelled (cancellable, error) || !sw_boarding_count (mix->boarding, rows, mix->boarding->trial, 0, NULL, error))
        return FALSE;
      if (!sw_rows_is_better (rows, *best))
        continue;
      sw_rows_free (*best);
      *best = g_steal_pointer (&rows);
    }
  return TRUE;
}

SwRows *
sw_boarding_mix (SwBoarding *boarding, guint index, SwRows *best, gint64 enough, GCancellable *cancellable, GError **error)
{
  Mix mix = { boarding, boarding->fields->pdata[index], .lengths = g_array_new (FALSE, FALSE, sizeof (Length)) };
  mix.offcuts = g_array_new (FALSE, FALSE, sizeof (double));
  mix.before = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) manners = sw_rows_manners (mix.field);
  gboolean good = TRUE;
  collect_lengths (&mix);
  g_array_append_val (firsts, best->first);
  for (guint i = 0; i < manners->len && firsts->len < MOST_FIRSTS; i++)
    {
      double first = g_array_index (manners, SwRowsManner, i).first;
      guint k = 0;
      while (k < firsts->len && fabs (g_array_index (firsts, double, k) - first) > SW_TOUCH_MM)
        k++;
      if (k == firsts->len)
        g_array_append_val (firsts, first);
    }
  for (guint i = 0; i < firsts->len && good && mix.lengths->len > 1 && best->cost > enough; i++)
    good = try_first (&mix, g_array_index (firsts, double, i), &best, cancellable, error);
  g_array_unref (mix.lengths);
  g_array_unref (mix.offcuts);
  g_array_unref (mix.before);
  if (!good)
    g_clear_pointer (&best, sw_rows_free);
  return best;
}
