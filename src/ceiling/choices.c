/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/choice_list.h"
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/boards.h"
#include "ceiling/brandering.h"
#include "ceiling/cancel.h"

/* Lays the room out once for each combination of sheet, way round, batten direction, and one size or several, and sorts the
 * results. Start offsets and stagger are searched inside each layout (boards.c). The first answer comes from the room as it is
 * with little search, so that something can be shown at once. Battens whose layout would gain from a shift are laid shifted as well.
 * Ends after four times the sizes times four layouts, less those whose battens, least sheets and least joints already cost more than as
 * many alternatives as are wanted. Layouts outside these combinations are not found. */

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
  SwCeilingChoiceFound found;
  gpointer data;
  gboolean priced, skips;  /* whether what cannot be among the wanted is left out */
  guint most;
  GPtrArray *choices;      /* the quick answer first */
  const SwCeilingChoice *best, *last; /* of them; the last that is wanted: NULL while there are fewer */
} Search;

/* ---- one layout ---- */

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

static SwCeilingOptions
options_for (const Search *search, const Way *way, gboolean quick)
{
  const SwCeilingChoiceOptions *o = search->options;
  SwCeilingOptions options = { .keep = o->keep, .quick = quick, .joint_cost = o->joint_cost };
  options.sizes = way->mixed ? o->sizes : way->size;
  options.n_sizes = way->mixed ? o->n_sizes : way->size != NULL;
  return options;
}

/* Battens only. */
static SwCeilingChoice *
begin_way (const Search *search, const Way *way, GError **error)
{
  SwCeilingChoice *choice = g_new0 (SwCeilingChoice, 1);
  choice->room = (SwRoom *) sw_record_copy (&search->room->record);
  choice->room->boards_turned = way->turned;
  choice->room->direction = way->direction;
  choice->room->batten_shift = way->shift;
  if (way->size != NULL)
    {
      choice->room->board_length = way->size->length;
      choice->room->board_width = way->size->width;
    }
  SwCeilingOptions options = options_for (search, way, FALSE);
  choice->ceiling = sw_ceiling_lay (search->deck, search->rules, choice->room, &options, search->cancellable, error);
  if (choice->ceiling == NULL)
    g_clear_pointer (&choice, sw_ceiling_choice_free);
  return choice;
}

static gboolean
finish_way (const Search *search, const Way *way, SwCeilingChoice *choice, gboolean quick, GError **error)
{
  SwCeilingOptions options = options_for (search, way, quick);
  if (!sw_ceiling_board (choice->ceiling, &options, search->cancellable, error))
    return FALSE;
  measure (search, choice);
  return TRUE;
}

/* Whether the battens' way may be among those that are wanted, whatever its boards. */
static gboolean
may_matter (const Search *search, const Way *way, const SwCeilingChoice *choice)
{
  SwCeilingChoice least = { .room = choice->room, .ceiling = choice->ceiling };
  SwCeilingOptions options = options_for (search, way, FALSE);
  double joints;
  if (!search->skips || search->last == NULL || !sw_ceiling_board_least (choice->ceiling, &options, &least.cost, &joints, NULL))
    return TRUE;
  sw_ceiling_choice_measure (&least);
  if (search->priced)
    least.cost += llround (least.batten_m * (double) search->options->batten_cost)
                  + llround (joints / 1e3 * (double) search->options->joint_cost) - 1;
  const SwCeilingChoice *last = search->last;
  if (last->faults + last->slivers > 0)
    return TRUE;
  return least.cuts < last->cuts || (least.cuts == last->cuts && least.cost <= last->cost);
}

/* ---- all ---- */

static gboolean
is_own (const SwRoom *room, const SwBoardSize *size)
{
  return fabs (size->length - room->board_length) < SW_TOUCH_MM && fabs (size->width - room->board_width) < SW_TOUCH_MM;
}

static gboolean
suits (const Search *search, const SwBoardSize *size)
{
  return sw_ceiling_sheet_suits (search->rules, sw_deck_job (search->deck), search->room, size->length, size->width);
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
  for (int mixed = 0; mixed <= (o->n_sizes > 1 ? 1 : 0); mixed++)
    for (int direction = 0; direction <= (o->both_directions ? 1 : 0); direction++)
      for (int turn = 0; turn <= (o->both_ways ? 1 : 0); turn++)
        for (int size = -1; size < (int) o->n_sizes; size++)
          {
            Way way = { size < 0 ? own : &o->sizes[size], turn ? !room->boards_turned : room->boards_turned, mixed,
                        direction ? !room->direction : room->direction, room->batten_shift };
            gboolean again = size >= 0 && is_own (room, &o->sizes[size]);
            if (!again && (size < 0 || suits (search, &o->sizes[size])))
              g_array_append_val (ways, way);
          }
  return ways;
}

/* The last of those that are wanted. */
static const SwCeilingChoice *
last_wanted (const Search *search)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new ();
  for (guint i = 1; i < search->choices->len; i++)
    g_ptr_array_add (list, search->choices->pdata[i]);
  sw_ceiling_choices_settle (list, search->most);
  return list->len == search->most ? list->pdata[search->most - 1] : NULL;
}

/* Keeps the choice; tells when it is the best so far. */
static void
keep (Search *search, SwCeilingChoice *choice)
{
  g_ptr_array_add (search->choices, choice);
  search->last = last_wanted (search);
  if (search->best != NULL && sw_ceiling_choice_compare (&choice, &search->best) >= 0)
    return;
  search->best = choice;
  if (search->found)
    search->found (choice, search->data);
}

/* Where the layout says that a shift of its battens clears lights or crossings: that shift, else NAN. */
static double
advised_shift (const SwCeiling *ceiling)
{
  for (guint i = 0; i < ceiling->marks->len; i++)
    if (g_array_index (ceiling->marks, SwCeilingMark, i).kind == SW_CEILING_SHIFT)
      return g_array_index (ceiling->marks, SwCeilingMark, i).value;
  return NAN;
}

/* Lays the room that way, and shifted where that is advised; what cannot be laid is no alternative. */
static void
try_way (Search *search, const Way *way, gboolean shifted)
{
  SwCeilingChoice *choice = begin_way (search, way, NULL);
  Way other = *way;
  if (choice == NULL)
    return;
  other.shift = shifted ? NAN : advised_shift (choice->ceiling);
  gboolean done = may_matter (search, way, choice) && finish_way (search, way, choice, FALSE, NULL);
  if (done && way->mixed && choice->ceiling->sheets->len == 0)
    done = FALSE; /* the same as without */
  if (done)
    keep (search, choice);
  else
    sw_ceiling_choice_free (choice);
  if (!isnan (other.shift))
    try_way (search, &other, TRUE);
}

static gboolean
has_locked (const SwLayout *layout)
{
  for (guint i = 0; layout != NULL && i < layout->pieces.n; i++)
    if (SW_LIST_AT (layout->pieces, SwPiece, i).locked)
      return TRUE;
  return FALSE;
}

static gboolean
is_priced (const SwCeilingChoiceOptions *options)
{
  gboolean priced = options->n_sizes > 0;
  for (guint i = 0; i < options->n_sizes; i++)
    priced = priced && options->sizes[i].cost > 0;
  return priced;
}

GPtrArray *
sw_ceiling_choices (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingChoiceOptions *options,
                    SwCeilingChoiceFound found, gpointer data, GCancellable *cancellable, GError **error)
{
  SwCeilingChoiceOptions none = { 0 };
  g_autoptr (GPtrArray) choices = g_ptr_array_new_with_free_func (sw_ceiling_choice_free);
  Search search = { deck, rules, room, options ? options : &none, cancellable, found, data, .choices = choices };
  search.priced = is_priced (search.options);
  search.skips = !has_locked (search.options->keep);
  search.most = search.options->most > 0 ? search.options->most : MOST_CHOICES;
  g_autoptr (GArray) ways = list_ways (&search);
  const Way *as_is = &g_array_index (ways, Way, 0);
  SwCeilingChoice *first = begin_way (&search, as_is, error);
  if (first == NULL || !finish_way (&search, as_is, first, TRUE, error))
    {
      g_clear_pointer (&first, sw_ceiling_choice_free);
      return NULL;
    }
  keep (&search, first);
  for (guint i = 0; i < ways->len && !g_cancellable_is_cancelled (cancellable); i++)
    try_way (&search, &g_array_index (ways, Way, i), FALSE);
  if (choices->len > 1) /* the full search has taken the quick answer's place */
    g_ptr_array_remove_index (choices, 0);
  sw_ceiling_choices_settle (choices, search.most);
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
