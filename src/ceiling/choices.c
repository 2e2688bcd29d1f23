/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/choices.h"
#include "ceiling/totals.h"
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/cancel.h"

/* Lays the room out once for each combination of sheet, way round, batten direction, and one size or several, and sorts the
 * results. Start offsets and stagger are searched inside each layout (boards.c). The first answer comes from the room as it is
 * with little search, so that something can be shown at once. Battens whose layout would gain from a shift are laid shifted as well.
 * Ends after four times the sizes times four layouts. What lies
 * outside the lists, such as one row of another length, is not found. */

#define MOST_CHOICES 8

typedef struct
{
  const SwBoardSize *size; /* NULL: the room's */
  gboolean turned, mixed;
  int direction;
  double shift;            /* of the battens */
} Way;

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  const SwRoom *room;
  const SwCeilingChoiceOptions *options;
  GCancellable *cancellable;
  gboolean priced;
} Search;

static void
choice_free (gpointer data)
{
  SwCeilingChoice *choice = data;
  sw_ceiling_free (choice->ceiling);
  sw_record_unref (&choice->room->record);
  g_free (choice);
}

/* ---- one layout ---- */

static void
measure_boards (const SwCeiling *ceiling, SwCeilingChoice *choice)
{
  double area = 0, bought = ceiling->sheet_length * ceiling->sheet_width * (ceiling->n_sheets - ceiling->sheets->len);
  choice->smallest_mm = INFINITY;
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      area += piece->area;
      choice->smallest_mm = fmin (choice->smallest_mm, fmin (piece->piece.length, piece->piece.width));
    }
  for (guint i = 0; i < ceiling->sheets->len; i++)
    bought += g_array_index (ceiling->sheets, SwOddSheet, i).length * g_array_index (ceiling->sheets, SwOddSheet, i).width;
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      area += piece->length * piece->width;
    }
  choice->sheets = ceiling->n_sheets;
  choice->waste_m2 = (bought - area) / 1e6;
}

void
sw_ceiling_choice_measure (SwCeilingChoice *choice)
{
  const SwCeiling *ceiling = choice->ceiling;
  measure_boards (ceiling, choice);
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      choice->joint_m += sw_point_distance (joint->from, joint->to) / 1e3;
    }
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *member = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      double width, depth;
      choice->batten_m += sw_totals_section (ceiling->room, member, &width, &depth) / 1e3;
    }
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      SwCeilingMarkKind kind = g_array_index (ceiling->marks, SwCeilingMark, i).kind;
      choice->faults += kind == SW_CEILING_JOINT_OFF_BATTEN || kind == SW_CEILING_STAGGER;
      choice->slivers += kind == SW_CEILING_SLIVER;
      choice->cuts += kind == SW_CEILING_LIGHT_CUTS;
    }
}

static void
measure (const Search *search, SwCeilingChoice *choice)
{
  const SwCeiling *ceiling = choice->ceiling;
  sw_ceiling_choice_measure (choice);
  choice->cost = ceiling->cost;
  if (search->priced)
    choice->cost += llround (choice->batten_m * (double) search->options->batten_cost)
                    + llround (choice->joint_m * (double) search->options->joint_cost);
}

static SwCeilingChoice *
lay_way (const Search *search, const Way *way, gboolean quick, GError **error)
{
  const SwCeilingChoiceOptions *o = search->options;
  SwCeilingChoice *choice = g_new0 (SwCeilingChoice, 1);
  choice->room = (SwRoom *) sw_record_copy (&search->room->record);
  choice->room->boards_turned = way->turned;
  choice->room->direction = way->direction;
  choice->room->batten_shift = way->shift;
  SwBoardSize own = { search->room->board_length, search->room->board_width, 0 };
  if (way->size)
    own = *way->size;
  choice->room->board_length = own.length;
  choice->room->board_width = own.width;
  SwCeilingOptions options = { .keep = o->keep, .sizes = way->mixed ? o->sizes : &own, .quick = quick };
  options.n_sizes = way->mixed ? o->n_sizes : 1;
  choice->ceiling = sw_ceiling_plan (search->deck, search->rules, choice->room, &options, search->cancellable, error);
  if (choice->ceiling == NULL)
    {
      choice_free (choice);
      return NULL;
    }
  measure (search, choice);
  return choice;
}

/* ---- all ---- */

static int
compare_choices (gconstpointer pa, gconstpointer pb)
{
  const SwCeilingChoice *a = *(SwCeilingChoice *const *) pa, *b = *(SwCeilingChoice *const *) pb;
  const double keys[][2] = {
    { a->faults, b->faults },
    { a->slivers, b->slivers },
    { a->cuts, b->cuts },
    { (double) a->cost, (double) b->cost },
    { sw_grid_round (a->joint_m), sw_grid_round (b->joint_m) },
    { -a->smallest_mm, -b->smallest_mm },
    { a->room->board_length, b->room->board_length },
    { a->room->board_width, b->room->board_width },
    { a->room->boards_turned, b->room->boards_turned },
    { a->room->direction, b->room->direction },
    { a->ceiling->sheets->len, b->ceiling->sheets->len },
    { a->room->batten_shift, b->room->batten_shift },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

static gboolean
is_own (const SwRoom *room, const SwBoardSize *size)
{
  return fabs (size->length - room->board_length) < SW_TOUCH_MM && fabs (size->width - room->board_width) < SW_TOUCH_MM;
}

/* All ways, the room as it is first. */
static GArray *
list_ways (const Search *search)
{
  const SwRoom *room = search->room;
  const SwCeilingChoiceOptions *o = search->options;
  GArray *ways = g_array_new (FALSE, FALSE, sizeof (Way));
  const SwBoardSize *own = NULL;
  for (guint i = 0; i < o->n_sizes; i++)
    if (own == NULL && is_own (room, &o->sizes[i]))
      own = &o->sizes[i];
  for (int direction = 0; direction <= (o->both_directions ? 1 : 0); direction++)
    for (int turn = 0; turn <= (o->both_ways ? 1 : 0); turn++)
      for (int size = -1; size < (int) o->n_sizes; size++)
        for (int mixed = 0; mixed <= (o->n_sizes > 1 ? 1 : 0); mixed++)
          {
            Way way = { size < 0 ? own : &o->sizes[size], turn ? !room->boards_turned : room->boards_turned, mixed,
                        direction ? !room->direction : room->direction, room->batten_shift };
            gboolean again = size >= 0 && is_own (room, &o->sizes[size]);
            if (!again)
              g_array_append_val (ways, way);
          }
  return ways;
}

/* Keeps the choice; tells when it is the best so far. */
static void
keep (GPtrArray *choices, SwCeilingChoice *choice, SwCeilingChoice **best, SwCeilingChoiceFound found, gpointer data)
{
  g_ptr_array_add (choices, choice);
  if (*best != NULL && compare_choices (&choice, best) >= 0)
    return;
  *best = choice;
  if (found)
    found (choice, data);
}

/* The same with its battens shifted, where the layout says that this clears lights or crossings. */
static SwCeilingChoice *
lay_shifted (const Search *search, const Way *way, const SwCeiling *ceiling)
{
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      const SwCeilingMark *mark = &g_array_index (ceiling->marks, SwCeilingMark, i);
      Way shifted = *way;
      shifted.shift = mark->value;
      if (mark->kind == SW_CEILING_SHIFT)
        return lay_way (search, &shifted, FALSE, NULL);
    }
  return NULL;
}

static gboolean
is_priced (const SwCeilingChoiceOptions *options)
{
  gboolean priced = options->n_sizes > 0;
  for (guint i = 0; i < options->n_sizes; i++)
    priced = priced && options->sizes[i].cost > 0;
  return priced;
}

/* The best first, at most `most`; the quick answer goes when the full search has taken its place. */
static void
settle (GPtrArray *choices, guint most)
{
  if (choices->len > 1)
    g_ptr_array_remove_index (choices, 0);
  g_ptr_array_sort (choices, compare_choices);
  if (choices->len > most)
    g_ptr_array_set_size (choices, (int) most);
}

GPtrArray *
sw_ceiling_choices (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingChoiceOptions *options,
                    SwCeilingChoiceFound found, gpointer data, GCancellable *cancellable, GError **error)
{
  SwCeilingChoiceOptions none = { 0 };
  Search search = { deck, rules, room, options ? options : &none, cancellable, FALSE };
  search.priced = is_priced (search.options);
  g_autoptr (GArray) ways = list_ways (&search);
  g_autoptr (GPtrArray) choices = g_ptr_array_new_with_free_func (choice_free);
  SwCeilingChoice *best = NULL, *first = lay_way (&search, &g_array_index (ways, Way, 0), TRUE, error);
  if (first == NULL)
    return NULL;
  keep (choices, first, &best, found, data);
  for (guint i = 0; i < ways->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      const Way *way = &g_array_index (ways, Way, i);
      SwCeilingChoice *choice = lay_way (&search, way, FALSE, NULL); /* what cannot be laid is no alternative */
      if (choice != NULL && way->mixed && choice->ceiling->sheets->len == 0)
        g_clear_pointer (&choice, choice_free); /* the same as without */
      if (choice == NULL)
        continue;
      SwCeilingChoice *shifted = lay_shifted (&search, way, choice->ceiling);
      keep (choices, choice, &best, found, data);
      if (shifted != NULL)
        keep (choices, shifted, &best, found, data);
    }
  settle (choices, search.options->most > 0 ? search.options->most : MOST_CHOICES);
  return g_steal_pointer (&choices);
}

/* ---- the direction of battens ---- */

/* m³ of timber; negative when it cannot be laid so. */
static double
timber_of (SwDeck *deck, SwRules *rules, const SwRoom *room, int direction, GCancellable *cancellable, GError **error)
{
  SwRoom *copy = (SwRoom *) sw_record_copy (&room->record);
  double sum = 0;
  copy->direction = direction;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_lay (deck, rules, copy, NULL, cancellable, error);
  for (guint i = 0; ceiling != NULL && i < ceiling->members->len; i++)
    {
      const SwMember *member = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      sum += sw_point_distance (member->from, member->to) * member->width * member->depth / 1e9;
    }
  gboolean done = ceiling != NULL;
  g_clear_pointer (&ceiling, sw_ceiling_free);
  sw_record_unref (&copy->record);
  return done ? sum : -1;
}

gboolean
sw_ceiling_least_direction (SwDeck *deck, SwRules *rules, const SwRoom *room, SwBattenDirection *direction, double *saved_m3,
                            GCancellable *cancellable, GError **error)
{
  double own = timber_of (deck, rules, room, room->direction, cancellable, error);
  if (own < 0)
    return FALSE;
  double other = timber_of (deck, rules, room, !room->direction, cancellable, NULL);
  if (sw_ceiling_is_cancelled (cancellable, error))
    return FALSE;
  *direction = other >= 0 && other < own ? !room->direction : room->direction;
  *saved_m3 = other >= 0 ? fabs (own - other) : 0;
  return TRUE;
}
