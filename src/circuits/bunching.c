/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Leg by leg: what goes the same way beside it is laid out in sections square to the leg. Between the places where something starts,
 * ends, or comes within the spacing of another, the group stays the same, so one section of each such piece is looked at. The most
 * circuits that are there for longer than the rule's length without a break decide. Legs beside it that go on round a
 * corner are lengthened by the spacing, so that the inside and the outside of a corner stay together. */
#include "circuits/bunching.h"
#include "base/number.h"
#include "circuits/contents.h"
#include <math.h>
#include <string.h>

#define SAME_WAY   0.5 /* cosine: what turns away more than 60° crosses */
#define GROUP_MOST 20  /* circuits: no table of factors goes farther */

/* A leg of a conduit as the leg that is looked at sees it. */
typedef struct
{
  const SwRoute *route;
  guint leg, circuits;
  double low, high;      /* where it is there, along the leg that is looked at */
  SwPoint3 offset, grow; /* of its axis from that leg's: offset + grow · t */
} Beside;

typedef struct
{
  double from, to; /* along the route */
  guint circuits;
  SwId nearest;
  guint leg;
  double apart, wanted; /* clear to the nearest, and what would part it */
} Piece;

typedef struct
{
  const SwDeck *deck;
  const SwRoute *route;
  const GPtrArray *others;
  GHashTable *spared;
  double diameters, reach;
  guint own;
  GArray *pieces; /* Piece, in order */
  GArray *beside; /* Beside: [0] is the leg itself */
} Bunch;

gboolean
sw_circuits_warms (const SwRun *run)
{
  return run->service == SW_SERVICE_POWER || run->service == SW_SERVICE_LIGHTING;
}

double
sw_circuits_bunching_reach (const SwRules *rules, double od)
{
  guint sizes = sw_rules_n_rows (rules, "conduit.sizes");
  double thickest = sizes > 0 ? sw_rules_row_number (rules, "conduit.sizes", sizes - 1) : 0;
  return sw_rules_value (rules, "circuit.bunching", "clear_diameters").value * fmax (od, thickest);
}

static double
needed_clear (const Bunch *bunch, const SwRoute *a, const SwRoute *b)
{
  return bunch->diameters * 2 * fmax (a->radius, b->radius);
}

/* ---- what lies beside a leg */

/* The void that the middle of a leg lies in, told from all others; NULL below the soffit and where there is no deck. */
static const SwVoid *
void_of (const SwDeck *deck, SwPoint3 from, SwPoint3 to)
{
  SwPoint3 middle = sw_point3_lerp (from, to, 0.5);
  SwPoint at = { middle.x, middle.y };
  const SwDeckBay *bay = sw_deck_bay_at (deck, at);
  int over = bay != NULL && middle.z > sw_deck_soffit (bay, at) ? sw_deck_void_at (bay, sw_deck_to_bay (bay, at).y) : -1;
  return over >= 0 ? &g_array_index (bay->voids, SwVoid, over) : NULL;
}

static gboolean
parted_by_rib (const SwDeck *deck, SwPoint3 a, SwPoint3 b, SwPoint3 c, SwPoint3 d)
{
  const SwVoid *one = void_of (deck, a, b), *other = void_of (deck, c, d);
  return one != NULL && other != NULL && one != other;
}

static void
add_beside (Bunch *bunch, guint leg, const SwRoute *other, guint other_leg, guint circuits)
{
  SwPoint3 from = bunch->route->axis[leg], to = bunch->route->axis[leg + 1], a = other->axis[other_leg], b = other->axis[other_leg + 1];
  double length = sw_point3_distance (from, to), other_length = sw_point3_distance (a, b), more = needed_clear (bunch, bunch->route, other);
  if (length <= 0 || other_length <= 0)
    return;
  SwPoint3 way = sw_point3_scale (sw_point3_sub (to, from), 1 / length);
  double start = sw_point3_dot (sw_point3_sub (a, from), way), end = sw_point3_dot (sw_point3_sub (b, from), way);
  double before = other_leg > 0 ? more : 0, after = other_leg + 2 < other->n ? more : 0;
  double low = start < end ? start - before : end - after, high = start < end ? end + after : start + before;
  Beside beside = { other, other_leg, circuits, fmax (low, 0), fmin (high, length), { 0 }, { 0 } };
  if (fabs (end - start) < SAME_WAY * other_length || beside.low >= beside.high || parted_by_rib (bunch->deck, from, to, a, b))
    return;
  SwPoint3 first = sw_point3_sub (sw_point3_sub (a, from), sw_point3_scale (way, start));
  SwPoint3 last = sw_point3_sub (sw_point3_sub (b, from), sw_point3_scale (way, end));
  beside.grow = sw_point3_scale (sw_point3_sub (last, first), 1 / (end - start));
  beside.offset = sw_point3_sub (first, sw_point3_scale (beside.grow, start));
  g_array_append_val (bunch->beside, beside);
}

/* Clear between two of them in the section at t. */
static double
clear_at (const Beside *a, const Beside *b, double t)
{
  SwPoint3 apart = sw_point3_add (sw_point3_sub (b->offset, a->offset), sw_point3_scale (sw_point3_sub (b->grow, a->grow), t));
  return sw_point3_length (apart) - a->route->radius - b->route->radius;
}

/* Where the two come within the spacing of each other and part again: |o + g t|² = d². */
static void
add_meetings (const Bunch *bunch, const Beside *a, const Beside *b, GArray *places)
{
  SwPoint3 o = sw_point3_sub (b->offset, a->offset), g = sw_point3_sub (b->grow, a->grow);
  double d = needed_clear (bunch, a->route, b->route) + a->route->radius + b->route->radius;
  double p = sw_point3_dot (g, g), q = sw_point3_dot (o, g), r = sw_point3_dot (o, o) - d * d, under = q * q - p * r;
  if (p < 1e-12 || under <= 0)
    return;
  double low = (-q - sqrt (under)) / p, high = (-q + sqrt (under)) / p;
  g_array_append_val (places, low);
  g_array_append_val (places, high);
}

/* ---- one section */

static gboolean
is_counted (const GArray *beside, const gboolean *in, guint but)
{
  for (guint i = 0; i < but; i++)
    if (in[i] && g_array_index (beside, Beside, i).route == g_array_index (beside, Beside, but).route)
      return TRUE;
  return FALSE;
}

/* All that hangs together with the leg at t: each joins when it is near one that is in already. */
static void
count_group (const Bunch *bunch, double t, Piece *piece)
{
  const GArray *all = bunch->beside;
  g_autofree gboolean *in = g_new0 (gboolean, all->len);
  gboolean grows = TRUE;
  in[0] = TRUE;
  while (grows)
    {
      grows = FALSE;
      for (guint i = 1; i < all->len; i++)
        for (guint k = 0; k < all->len && !in[i]; k++)
          {
            const Beside *a = &g_array_index (all, Beside, i), *b = &g_array_index (all, Beside, k);
            in[i] = in[k] && t >= a->low && t <= a->high && clear_at (a, b, t) <= needed_clear (bunch, a->route, b->route) + 1e-6;
            grows |= in[i];
          }
    }
  for (guint i = 0; i < all->len; i++)
    {
      const Beside *beside = &g_array_index (all, Beside, i);
      double apart = i > 0 ? clear_at (beside, &g_array_index (all, Beside, 0), t) : INFINITY;
      if (in[i] && !is_counted (all, in, i))
        piece->circuits += beside->circuits;
      if (!in[i] || apart >= piece->apart || beside->circuits == 0)
        continue;
      piece->apart = apart;
      piece->wanted = needed_clear (bunch, bunch->route, beside->route);
      piece->nearest = beside->route->run->record.id;
      piece->leg = beside->leg;
    }
}

/* ---- the run */

static SwBox3
leg_box (const SwRoute *route, guint leg, double around)
{
  return sw_box3_grow (sw_box3_add (sw_box3_add (SW_BOX3_EMPTY, route->axis[leg]), route->axis[leg + 1]), around);
}

typedef struct
{
  const SwRoute *route;
  guint leg, circuits;
  SwBox3 box; /* with half of the reach around it */
  gboolean joined;
} Near;

static guint
circuits_of (const Bunch *bunch, const SwRun *run)
{
  guint circuits = sw_circuits_in_run (sw_deck_job (bunch->deck), run);
  return bunch->spared != NULL && g_hash_table_contains (bunch->spared, &run->record.id) ? circuits - 1 : circuits;
}

/* Legs of others that may lie in a group of as many as the tables know. */
static GArray *
legs_around (const Bunch *bunch, guint leg)
{
  GArray *legs = g_array_new (FALSE, FALSE, sizeof (Near));
  SwBox3 wide = leg_box (bunch->route, leg, GROUP_MOST * (bunch->reach + bunch->route->od));
  for (guint i = 0; bunch->others != NULL && i < bunch->others->len; i++)
    {
      const SwRoute *other = bunch->others->pdata[i];
      guint circuits = 0;
      for (guint k = 0; k + 1 < other->n && other->run->record.id != bunch->route->run->record.id && sw_circuits_warms (other->run); k++)
        {
          Near near = { other, k, circuits, leg_box (other, k, bunch->reach / 2 + other->radius), FALSE };
          if (!sw_box3_meets (wide, near.box))
            continue;
          near.circuits = circuits = circuits > 0 ? circuits : circuits_of (bunch, other->run);
          g_array_append_val (legs, near);
        }
    }
  return legs;
}

/* The leg itself, and all that hangs together with it by their boxes. */
static void
gather_beside (Bunch *bunch, guint leg)
{
  const SwRoute *route = bunch->route;
  Beside self = { route, leg, bunch->own, 0, INFINITY, { 0 }, { 0 } };
  g_autoptr (GArray) legs = legs_around (bunch, leg), joined = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  SwBox3 box = leg_box (route, leg, bunch->reach / 2 + route->radius);
  g_array_set_size (bunch->beside, 0);
  g_array_append_val (bunch->beside, self);
  g_array_append_val (joined, box);
  for (guint j = 0; j < joined->len; j++)
    for (guint i = 0; i < legs->len; i++)
      {
        Near *near = &g_array_index (legs, Near, i);
        if (near->joined || !sw_box3_meets (g_array_index (joined, SwBox3, j), near->box))
          continue;
        near->joined = TRUE;
        g_array_append_val (joined, near->box);
        add_beside (bunch, leg, near->route, near->leg, near->circuits);
      }
}

/* Pieces of one leg, between the places where something changes. */
static void
cut_leg (Bunch *bunch, guint leg, double walked)
{
  double length = sw_point3_distance (bunch->route->axis[leg], bunch->route->axis[leg + 1]), zero = 0;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (double));
  gather_beside (bunch, leg);
  g_array_append_val (places, zero);
  g_array_append_val (places, length);
  for (guint i = 1; i < bunch->beside->len; i++)
    {
      const Beside *beside = &g_array_index (bunch->beside, Beside, i);
      g_array_append_val (places, beside->low);
      g_array_append_val (places, beside->high);
      for (guint k = 0; k < i; k++)
        add_meetings (bunch, beside, &g_array_index (bunch->beside, Beside, k), places);
    }
  g_array_sort (places, sw_compare_doubles);
  for (guint i = 0; i + 1 < places->len; i++)
    {
      double from = CLAMP (g_array_index (places, double, i), 0, length), to = CLAMP (g_array_index (places, double, i + 1), 0, length);
      Piece piece = { walked + from, walked + to, 0, 0, 0, INFINITY, 0 };
      if (to <= from)
        continue;
      count_group (bunch, (from + to) / 2, &piece);
      g_array_append_val (bunch->pieces, piece);
    }
}

/* The longest way without a break on which `circuits` or more lie together. */
static double
longest_with (const GArray *pieces, guint circuits, guint *first, guint *last)
{
  double longest = 0;
  for (guint i = 0, start = 0; i < pieces->len; i++)
    {
      const Piece *piece = &g_array_index (pieces, Piece, i);
      if (piece->circuits < circuits)
        start = i + 1;
      else if (piece->to - g_array_index (pieces, Piece, start).from > longest)
        {
          longest = piece->to - g_array_index (pieces, Piece, start).from;
          *first = start;
          *last = i;
        }
    }
  return longest;
}

static void
choose (const GArray *pieces, SwBunching *bunching)
{
  guint most = 0, first = 0, last = 0;
  for (guint i = 0; i < pieces->len; i++)
    most = MAX (most, g_array_index (pieces, Piece, i).circuits);
  while (most > bunching->own && longest_with (pieces, most, &first, &last) <= bunching->length.value)
    most--;
  if (most <= bunching->own)
    return;
  bunching->circuits = most;
  bunching->from = g_array_index (pieces, Piece, first).from;
  bunching->to = g_array_index (pieces, Piece, last).to;
  for (guint i = first; i <= last; i++)
    {
      const Piece *piece = &g_array_index (pieces, Piece, i);
      if (piece->nearest == 0 || (bunching->beside != 0 && piece->apart >= bunching->apart))
        continue;
      bunching->beside = piece->nearest;
      bunching->leg = piece->leg;
      bunching->apart = piece->apart;
      bunching->spacing_mm = piece->wanted;
    }
}

SwBunching
sw_circuits_bunching (const SwDeck *deck, const SwRules *rules, const SwRoute *route, const GPtrArray *others, GHashTable *spared)
{
  SwBunching bunching = { .spacing = sw_rules_value (rules, "circuit.bunching", "clear_diameters"),
                          .length = sw_rules_value (rules, "circuit.bunching", "length_mm") };
  bunching.own = bunching.circuits = sw_circuits_in_run (sw_deck_job (deck), route->run);
  bunching.spacing_mm = bunching.spacing.value * route->od;
  if (!sw_circuits_warms (route->run))
    return bunching;
  Bunch bunch = { deck, route, others, spared, bunching.spacing.value, sw_circuits_bunching_reach (rules, route->od), bunching.own, g_array_new (FALSE, FALSE, sizeof (Piece)), g_array_new (FALSE, FALSE, sizeof (Beside)) };
  double walked = 0;
  for (guint leg = 0; leg + 1 < route->n; leg++)
    {
      cut_leg (&bunch, leg, walked);
      walked += sw_point3_distance (route->axis[leg], route->axis[leg + 1]);
    }
  choose (bunch.pieces, &bunching);
  g_array_unref (bunch.pieces);
  g_array_unref (bunch.beside);
  return bunching;
}

/* ---- conduits of a space */

typedef struct
{
  const SwSpace *space;
  GPtrArray *routes;
  GHashTable *known; /* set of SwId */
} Gathering;

static gboolean
take_conduit (const SwBody *body, gpointer data)
{
  Gathering *gathering = data;
  const SwRun *run = (const SwRun *) body->record;
  const SwRoute *route = sw_circuits_warms (run) && !g_hash_table_contains (gathering->known, &body->owner) ? sw_space_route (gathering->space, body->owner) : NULL;
  if (route == NULL)
    return TRUE;
  g_hash_table_add (gathering->known, g_memdup2 (&body->owner, sizeof body->owner));
  g_ptr_array_add (gathering->routes, (gpointer) route);
  return TRUE;
}

GPtrArray *
sw_circuits_conduits_near (const SwSpace *space, const SwId *runs, guint n)
{
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  Gathering gathering = { space, g_ptr_array_new (), known };
  for (guint i = 0; i < n; i++)
    {
      const SwRoute *route = sw_space_route (space, runs[i]);
      if (route == NULL || !sw_circuits_warms (route->run) || !g_hash_table_add (known, g_memdup2 (&runs[i], sizeof runs[i])))
        continue;
      g_ptr_array_add (gathering.routes, (gpointer) route);
    }
  for (guint i = 0; i < gathering.routes->len; i++) /* grows while it is walked */
    {
      const SwRoute *route = gathering.routes->pdata[i];
      double reach = sw_circuits_bunching_reach (sw_space_rules (space), route->od);
      for (guint leg = 0; leg + 1 < route->n; leg++)
        sw_space_query (space, leg_box (route, leg, reach + route->radius), 1u << SW_BODY_TUBE, take_conduit, &gathering);
    }
  return gathering.routes;
}
