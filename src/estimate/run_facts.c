/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facts of one run for take-off, schedules and long sections. A plate is met where a leg passes its line inside the void, between
 * soffit and crown; the plates of the voids that a leg comes near are looked at, so a run costs its legs times those. Draw
 * points are the run's ends and the boxes on it. Supports are counted leg by leg from the rule set's spacing, one more than
 * the spaces; plates are not taken for supports. */
#include "estimate/run_facts.h"
#include "base/tolerance.h"
#include "circuits/draws.h"
#include <math.h>

double
sw_run_facts_chainage (const SwRoute *route, guint i)
{
  double sum = 0;
  for (guint k = 0; k < i; k++)
    sum += hypot (route->axis[k + 1].x - route->axis[k].x, route->axis[k + 1].y - route->axis[k].y);
  return sum;
}

double
sw_run_facts_nearest (const SwRoute *route, SwPoint p)
{
  double best = INFINITY, along = 0, start = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint a = { route->axis[i].x, route->axis[i].y }, b = { route->axis[i + 1].x, route->axis[i + 1].y }, way = sw_point_sub (b, a);
      double length = sw_point_length (way);
      double t = length > 0 ? CLAMP (sw_point_dot (sw_point_sub (p, a), way) / (length * length), 0, 1) : 0;
      double distance = sw_point_distance (p, sw_point_lerp (a, b, t));
      if (distance < best)
        {
          best = distance;
          along = start + t * length;
        }
      start += length;
    }
  return along;
}

typedef struct
{
  double at, reach; /* chainage and half the box's size */
} DrawPoint;

static int
draw_point_compare (gconstpointer a, gconstpointer b)
{
  double first = ((const DrawPoint *) a)->at, second = ((const DrawPoint *) b)->at;
  return first < second ? -1 : first > second;
}

/* The boxes on a run among its fittings, in order. */
static GArray *
draw_points (const SwRoute *route, const GPtrArray *fittings)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (DrawPoint));
  const SwRun *run = route->run;
  for (guint i = 0; fittings != NULL && i < fittings->len; i++)
    {
      const SwFitting *fitting = fittings->pdata[i];
      SwId id = fitting->record.id;
      if (fitting->run != run->record.id || fitting->kind != SW_FITTING_BOX || id == run->start || id == run->end)
        continue;
      DrawPoint point = { sw_run_facts_nearest (route, fitting->at), fmax (fitting->length, fitting->width) / 2 + SW_TOUCH_MM };
      g_array_append_val (points, point);
    }
  g_array_sort (points, draw_point_compare);
  return points;
}

static gboolean
is_draw_point (const GArray *points, double chainage)
{
  for (guint i = 0; i < points->len; i++)
    if (fabs (g_array_index (points, DrawPoint, i).at - chainage) <= g_array_index (points, DrawPoint, i).reach)
      return TRUE;
  return FALSE;
}

/* What has gathered since the last draw point. */
typedef struct
{
  double turns, length;
} Stretch;

static void
stretch_note (const Stretch *stretch, SwRunFacts *facts)
{
  facts->worst_turns = fmax (facts->worst_turns, stretch->turns);
  facts->worst_length = fmax (facts->worst_length, stretch->length);
}

/* Adds a leg, which boxes on it part. */
static void
stretch_add_leg (Stretch *stretch, SwRunFacts *facts, const GArray *points, guint leg)
{
  const SwRoute *route = facts->route;
  double start = sw_run_facts_chainage (route, leg), end = sw_run_facts_chainage (route, leg + 1), from = start;
  double length = sw_point3_distance (route->axis[leg], route->axis[leg + 1]);
  for (guint i = 0; i < points->len; i++)
    {
      const DrawPoint *point = &g_array_index (points, DrawPoint, i);
      if (point->at <= start + point->reach || point->at >= end - point->reach)
        continue;
      stretch->length += length * (point->at - from) / (end - start);
      stretch_note (stretch, facts);
      *stretch = (Stretch){ 0, 0 };
      from = point->at;
    }
  stretch->length += end > start ? length * (end - from) / (end - start) : length;
}

/* Angles that the run turns: at its first drop, its vertices, its last drop. */
double
sw_run_facts_turn (const SwRunFacts *facts, guint i)
{
  const SwRoute *route = facts->route;
  if (i == 0)
    return sw_circuits_drop_turn (route, facts->drop_start, FALSE);
  if (i + 1 == route->n)
    return sw_circuits_drop_turn (route, facts->drop_end, TRUE);
  return sw_route_turn (route, i);
}

static void
count_bends (SwRunFacts *facts, const GPtrArray *fittings)
{
  const SwRoute *route = facts->route;
  g_autoptr (GArray) points = draw_points (route, fittings);
  Stretch stretch = { 0, fabs (facts->drop_start) };
  for (guint i = 0; i < route->n; i++)
    {
      double turn = sw_run_facts_turn (facts, i);
      facts->bends += turn > SW_RUN_STRAIGHT;
      facts->turns += turn;
      stretch_note (&stretch, facts);
      if (is_draw_point (points, sw_run_facts_chainage (route, i)))
        stretch = (Stretch){ 0, 0 };
      else
        stretch.turns += turn;
      if (i + 1 < route->n)
        stretch_add_leg (&stretch, facts, points, i);
    }
  stretch.length += fabs (facts->drop_end);
  stretch_note (&stretch, facts);
  facts->boxes = points->len;
}

/* Adds the plate when the leg passes its line inside the void. */
static void
offer_plate (SwRunFacts *facts, const SwDeckBay *bay, const SwDeckPlate *plate, guint leg, SwPoint a, SwPoint b)
{
  const SwRoute *route = facts->route;
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, plate->void_index);
  if (plate->out || (a.x < plate->u) == (b.x < plate->u))
    return;
  double t = (plate->u - a.x) / (b.x - a.x), v = a.y + t * (b.y - a.y);
  SwPoint3 at = sw_point3_lerp (route->axis[leg], route->axis[leg + 1], t);
  double height = at.z - sw_deck_soffit (bay, (SwPoint){ at.x, at.y });
  if (v <= over->low || v >= over->high || height + route->outer <= 0 || height - route->outer >= over->depth)
    return;
  SwRunPlate met = { bay, plate, at, sw_run_facts_chainage (route, leg) + t * sw_point_distance (a, b) };
  g_array_append_val (facts->plates, met);
}

/* Plates stand by void: the first of this one or a later one. */
static guint
first_plate (const SwDeckBay *bay, int void_index)
{
  guint low = 0, high = bay->plates->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if ((int) g_array_index (bay->plates, SwDeckPlate, middle).void_index < void_index)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static void
find_plates_in_bay (SwRunFacts *facts, const SwDeckBay *bay, guint leg)
{
  const SwPoint3 *axis = facts->route->axis;
  SwPoint a = sw_deck_to_bay (bay, (SwPoint){ axis[leg].x, axis[leg].y }), b = sw_deck_to_bay (bay, (SwPoint){ axis[leg + 1].x, axis[leg + 1].y });
  if (fmax (a.x, b.x) < 0 || fmin (a.x, b.x) > bay->length || fmax (a.y, b.y) < 0 || fmin (a.y, b.y) > bay->breadth)
    return;
  int first = sw_deck_void_near (bay, fmin (a.y, b.y)), last = sw_deck_void_near (bay, fmax (a.y, b.y));
  for (guint i = first_plate (bay, first); i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if ((int) plate->void_index > last)
        break;
      offer_plate (facts, bay, plate, leg, a, b);
    }
}

static int
met_compare (gconstpointer a, gconstpointer b)
{
  const SwRunPlate *first = a, *second = b;
  if (first->along != second->along)
    return first->along < second->along ? -1 : 1;
  return first->plate->number - second->plate->number;
}

static void
find_plates (SwRunFacts *facts, const SwDeck *deck)
{
  for (guint leg = 0; leg + 1 < facts->route->n; leg++)
    for (guint i = 0; i < sw_deck_n_bays (deck); i++)
      find_plates_in_bay (facts, sw_deck_bay (deck, i), leg);
  g_array_sort (facts->plates, met_compare);
}

static const char *
support_table (const SwRun *run)
{
  static const char *const pipes[] = {
    [SW_MATERIAL_PVC] = "support.waste",   [SW_MATERIAL_STEEL] = "support.steel",           [SW_MATERIAL_COPPER] = "support.copper",
    [SW_MATERIAL_PEX] = "support.pex",     [SW_MATERIAL_MULTILAYER] = "support.multilayer", [SW_MATERIAL_PP] = "support.waste",
    [SW_MATERIAL_CAST_IRON] = "support.steel", [SW_MATERIAL_CPVC] = "support.cpvc",         [SW_MATERIAL_PLIABLE] = "support.pex",
    [SW_MATERIAL_BRASS] = "support.copper",
  };
  if (!sw_service_is_electric ((SwService) run->service))
    return pipes[run->material];
  if (run->material == SW_MATERIAL_STEEL)
    return "conduit.support_metal";
  return run->material == SW_MATERIAL_PLIABLE ? "conduit.support_pliable" : "conduit.support_insulating";
}

static guint
spaces (double length, double spacing)
{
  return length > SW_TOUCH_MM ? (guint) ceil ((length - SW_TOUCH_MM) / spacing) : 0;
}

static void
add_leg (SwRunFacts *facts, SwPoint3 from, SwPoint3 to)
{
  SwRunLeg leg = { from, to, sw_point3_distance (from, to), 0, 0 };
  g_array_append_val (facts->legs, leg);
}

static void
find_legs (SwRunFacts *facts)
{
  const SwRoute *route = facts->route;
  SwPoint3 first = route->axis[0], last = route->axis[route->n - 1];
  if (facts->drop_start != 0)
    add_leg (facts, (SwPoint3){ first.x, first.y, first.z - facts->drop_start }, first);
  for (guint i = 0; i + 1 < route->n; i++)
    add_leg (facts, route->axis[i], route->axis[i + 1]);
  if (facts->drop_end != 0)
    add_leg (facts, last, (SwPoint3){ last.x, last.y, last.z - facts->drop_end });
}

static void
count_supports (SwRunFacts *facts, const SwRules *rules)
{
  const char *table = support_table (facts->run);
  double od = facts->route->od;
  SwRuleValue level, upright;
  if (facts->run->stage != SW_STAGE_FIRST_FIX || !sw_rules_has (rules, table)
      || !sw_rules_lookup_at (rules, table, od, SW_RULE_NEXT_LARGER, "horizontal_m", &level, NULL)
      || !sw_rules_lookup_at (rules, table, od, SW_RULE_NEXT_LARGER, "vertical_m", &upright, NULL))
    return;
  facts->has_supports = TRUE;
  facts->support_spacing = level.value * 1000;
  facts->supports = 1;
  for (guint i = 0; i < facts->legs->len; i++)
    {
      SwRunLeg *leg = &g_array_index (facts->legs, SwRunLeg, i);
      SwPoint3 way = sw_point3_sub (leg->to, leg->from);
      gboolean stands = fabs (way.z) > hypot (way.x, way.y);
      leg->supports = spaces (leg->length, (stands ? upright.value : level.value) * 1000);
      facts->supports += leg->supports;
    }
}

static void
count_pieces (SwRunFacts *facts, const SwRules *rules)
{
  SwRuleValue answer;
  facts->stock = facts->route->stock_length;
  if (sw_service_is_electric ((SwService) facts->run->service) && sw_rules_number (rules, "conduit.stock", "length_mm", &answer, NULL))
    facts->stock = answer.value;
  if (facts->stock <= 0)
    return;
  facts->pieces = spaces (sw_run_facts_total (facts), facts->stock);
  for (guint i = 0; i < facts->legs->len; i++)
    {
      SwRunLeg *leg = &g_array_index (facts->legs, SwRunLeg, i);
      leg->joints = MAX (spaces (leg->length, facts->stock), 1) - 1;
      facts->joints += leg->joints;
    }
}

static guint
count_boards (const SwJob *job, const SwRun *run)
{
  guint boards = 0;
  const SwId ends[] = { run->start, run->end };
  for (guint i = 0; i < 2; i++)
    {
      const SwRecord *record = sw_job_get (job, ends[i]);
      if (record == NULL)
        continue;
      boards += sw_record_table (record) == SW_TABLE_FITTING && ((const SwFitting *) record)->kind == SW_FITTING_BOARD;
      boards += sw_record_table (record) == SW_TABLE_DROP && ((const SwDrop *) record)->kind == SW_DROP_BOARD;
    }
  return boards;
}

SwRunFacts *
sw_run_facts_new (const SwDeck *deck, const SwRules *rules, const SwRun *run)
{
  g_autoptr (GPtrArray) fittings = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwFitting *) record)->run == run->record.id)
      g_ptr_array_add (fittings, (gpointer) record);
  return sw_run_facts_with (deck, rules, run, fittings);
}

SwRunFacts *
sw_run_facts_with (const SwDeck *deck, const SwRules *rules, const SwRun *run, const GPtrArray *fittings)
{
  SwRunFacts *facts = g_new0 (SwRunFacts, 1);
  g_autoptr (GError) error = NULL;
  SwJob *job = sw_deck_job (deck);
  facts->run = run;
  facts->legs = g_array_new (FALSE, FALSE, sizeof (SwRunLeg));
  facts->plates = g_array_new (FALSE, FALSE, sizeof (SwRunPlate));
  facts->route = sw_route_new (deck, rules, run, &error);
  if (facts->route == NULL)
    {
      facts->fault = g_strdup (error->message);
      return facts;
    }
  facts->length = sw_route_length (facts->route);
  facts->drop_start = sw_circuits_wall_drop (deck, rules, facts->route, FALSE);
  facts->drop_end = sw_circuits_wall_drop (deck, rules, facts->route, TRUE);
  find_legs (facts);
  facts->boards = count_boards (job, run);
  count_bends (facts, fittings);
  find_plates (facts, deck);
  count_supports (facts, rules);
  count_pieces (facts, rules);
  return facts;
}

void
sw_run_facts_free (SwRunFacts *facts)
{
  g_clear_pointer (&facts->route, sw_route_free);
  g_array_unref (facts->legs);
  g_array_unref (facts->plates);
  g_free (facts->fault);
  g_free (facts);
}

double
sw_run_facts_cable (const SwRunFacts *facts, const SwRules *rules)
{
  double box = sw_rules_value (rules, "cable.allowance", "box_mm").value;
  double board = sw_rules_value (rules, "cable.allowance", "board_mm").value;
  guint ends = (facts->run->start != 0) + (facts->run->end != 0);
  return sw_run_facts_total (facts) + box * (facts->boxes + ends - facts->boards) + board * facts->boards;
}
