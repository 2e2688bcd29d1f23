/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a run could do: a leg aside, up or down, the whole run into the next void, its fall set anew from its start, its end
 * brought to the stack, a box where it turns too much, a crossing below the rib in the place of a way through it. */
#include "checks/candidates.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "circuits/draws.h"
#include "space/expansion.h"
#include <string.h>

#define CLEAR_OF_RIB 2.0    /* diameters from a rib's face to the foot of a set: its slope then clears the arris */
#define OFF_WALL_MM 50.0    /* a coupling from a wall's face */
#define ALL_LEVELS_MM 1e6
#define AS_STOP_COST 1000.0 /* a change of kind, not of place, ranks behind any move that is shorter */

static gboolean
is_rule (const SwCandidates *to, const char *const *rules)
{
  for (; *rules != NULL; rules++)
    if (strcmp (to->snag->rule, *rules) == 0)
      return TRUE;
  return FALSE;
}

static SwVertex *
vertex (SwRun *run, guint i)
{
  return &SW_LIST_AT (run->vertices, SwVertex, i);
}

static SwRun *
copy_of (const SwRun *run)
{
  return (SwRun *) sw_record_copy (&run->record);
}

/* The leg that the snag is about: the run may be its first owner or the other. */
static guint
leg_of (const SwCandidates *to, const SwRun *run)
{
  int part = to->snag->owners[0] == run->record.id ? to->snag->parts[0] : to->snag->parts[1];
  return (guint) CLAMP (part, 0, (int) run->vertices.n - 2);
}

/* A move does not lead out from under the deck. */
static gboolean
stays_in_bay (const SwCandidates *to, const SwRun *moved)
{
  const SwDeckBay *bay = to->snag->address.bay;
  for (guint i = 0; bay != NULL && i < moved->vertices.n; i++)
    if (sw_deck_bay_at (to->deck, SW_LIST_AT (moved->vertices, SwVertex, i).at) == NULL)
      return FALSE;
  return TRUE;
}

/* ---- aside */

/* A vertex beside an end that has to stay: the leg then starts (or ends) there. */
static void
add_jog (SwRun *run, guint end, guint at, SwPoint by)
{
  SwVertex copy = *vertex (run, end);
  SwVertex *jog = sw_list_insert (&run->vertices, &sw_struct_vertex, at);
  *jog = copy;
  jog->at = sw_point_add (copy.at, by);
}

/* Moves a leg in plan; ends that hang on a thing stay where they are. */
static void
move_leg (SwRun *run, guint leg, SwPoint by)
{
  gboolean start = leg == 0 && run->start != 0, end = leg + 2 == run->vertices.n && run->end != 0;
  if (end)
    add_jog (run, leg + 1, leg + 1, by);
  else
    vertex (run, leg + 1)->at = sw_point_add (vertex (run, leg + 1)->at, by);
  if (start)
    add_jog (run, 0, 1, by);
  else
    vertex (run, leg)->at = sw_point_add (vertex (run, leg)->at, by);
}

static SwPoint
leg_normal (const SwRun *run, guint leg)
{
  SwPoint along = sw_point_sub (SW_LIST_AT (run->vertices, SwVertex, leg + 1).at, SW_LIST_AT (run->vertices, SwVertex, leg).at);
  double length = sw_point_length (along);
  return length > SW_TOUCH_MM ? (SwPoint){ -along.y / length, along.x / length } : (SwPoint){ 0, 0 };
}

/* Round distances at and beyond what is missing. */
static const double beyond[] = { 0, 5, 15, 30, 60, 100, 150 };

static double
base_distance (const SwCandidates *to)
{
  double least = to->snag->distance > 0 ? to->snag->distance : isnan (to->snag->missing_mm) ? 0 : to->snag->missing_mm;
  return fmax (ceil (least - 2 * SW_GRID_MM), 1);
}

/* The candidate with what hangs on the moved legs; dropped when that cannot come along. */
static void
finish_move (SwCandidates *to, SwAdvice *advice, const SwRun *run, guint first, guint n, SwPoint3 by, const char *words_carried)
{
  gboolean carried;
  if (!sw_candidates_carry (to, advice, run, first, n, by, &carried))
    {
      g_ptr_array_remove (to->found, advice);
      return;
    }
  if (carried && words_carried != NULL)
    advice->words = words_carried;
  sw_candidates_set_move (advice, by);
}

static void
move_aside (SwCandidates *to, const SwRun *run, guint leg, SwPoint by)
{
  SwRun *moved = copy_of (run);
  move_leg (moved, leg, by);
  if (!stays_in_bay (to, moved))
    {
      sw_record_unref (&moved->record);
      return;
    }
  gboolean jogs = moved->vertices.n > run->vertices.n, whole = run->vertices.n == 2 && !jogs;
  SwAdvice *advice = sw_candidates_add (to, N_ ("Move run"), whole ? N_ ("Move the run {move}.") : N_ ("Move this leg {move}."), &moved->record,
                                        sw_point_length (by) + (jogs ? 100 : 0));
  if (advice != NULL)
    finish_move (to, advice, run, leg, 1, (SwPoint3){ by.x, by.y, 0 },
                 whole ? N_ ("Move the run {move}, with the fittings on it.") : N_ ("Move this leg {move}, with the fittings on it."));
}

static void
try_aside (SwCandidates *to, const SwRun *run)
{
  guint leg = leg_of (to, run);
  SwPoint normal = leg_normal (run, leg);
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (beyond) && sw_point_length (normal) > 0; i++)
    move_aside (to, run, leg, sw_point_scale (normal, (base_distance (to) + beyond[i / 2]) * (i % 2 == 0 ? 1 : -1)));
}

/* ---- up and down */

static gboolean
raise_vertex (SwVertex *at, double by)
{
  if (at->level == SW_LEVEL_FALL)
    return FALSE;
  at->z += at->level == SW_LEVEL_BELOW ? -by : by;
  return TRUE;
}

/* A falling run moves as a whole: its middle cannot be lowered. */
static SwRun *
raised (const SwRun *run, guint leg, double by)
{
  SwRun *moved = copy_of (run);
  gboolean whole = sw_service_is_gravity ((SwService) run->service), any = FALSE;
  for (guint i = whole ? 0 : leg; i < (whole ? run->vertices.n : leg + 2); i++)
    any |= raise_vertex (vertex (moved, i), by);
  if (any)
    return moved;
  sw_record_unref (&moved->record);
  return NULL;
}

/* What was above a ceiling stays above it, and what was below the crown below that. */
static gboolean
leaves_void (const SwCandidates *to, double by)
{
  const SwRoom *room = to->snag->room != 0 ? (const SwRoom *) sw_job_get (to->job, to->snag->room) : NULL;
  const SwDeckBay *bay = to->snag->address.bay;
  if (bay != NULL && to->snag->place.z + by > sw_deck_crown (bay, (SwPoint){ to->snag->place.x, to->snag->place.y }))
    return TRUE;
  if (room == NULL || room->finish == SW_FINISH_EXPOSED)
    return FALSE;
  double drop = sw_deck_ceiling_drop (to->deck, room, (SwPoint){ to->snag->place.x, to->snag->place.y });
  return to->snag->place.z + by < sw_deck_ceiling_face (to->deck, room) - drop;
}

/* What goes right through something needs another way, not another height. */
static void
try_upright (SwCandidates *to, const SwRun *run)
{
  gboolean whole = sw_service_is_gravity ((SwService) run->service);
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (beyond) && strcmp (to->snag->variant, "through") != 0; i++)
    {
      double distance = (base_distance (to) + beyond[i / 2]) * (i % 2 == 0 ? 1 : -1);
      guint leg = leg_of (to, run);
      SwRun *moved = leaves_void (to, distance) ? NULL : raised (run, leg, distance);
      SwAdvice *advice = moved == NULL ? NULL : sw_candidates_add (to, N_ ("Move run"), whole ? N_ ("Move the whole run {move}.") : N_ ("Move this leg {move}."),
                                                                   &moved->record, fabs (distance));
      if (advice != NULL)
        finish_move (to, advice, run, whole ? 0 : leg, whole ? run->vertices.n - 1 : 1, (SwPoint3){ 0, 0, distance },
                     whole ? NULL : N_ ("Move this leg {move}, with the fittings on it."));
    }
}

/* ---- next void */

static void
try_next_void (SwCandidates *to, const SwRun *run)
{
  const SwDeckBay *bay = to->snag->address.bay;
  if (bay == NULL || run->start != 0 || run->end != 0)
    return;
  for (int side = -1; side <= 1; side += 2)
    {
      SwPoint a = sw_deck_from_bay (bay, (SwPoint){ 0, 0 }), b = sw_deck_from_bay (bay, (SwPoint){ 0, side * bay->profile->pitch });
      SwPoint by = sw_point_sub (b, a);
      SwRun *moved = copy_of (run);
      sw_record_move (&moved->record, by);
      if (!stays_in_bay (to, moved))
        {
          sw_record_unref (&moved->record);
          continue;
        }
      SwAdvice *advice = sw_candidates_add (to, N_ ("Move run"), N_ ("Move the whole run into the next void, {move}."), &moved->record, bay->profile->pitch);
      if (advice != NULL)
        finish_move (to, advice, run, 0, run->vertices.n - 1, (SwPoint3){ by.x, by.y, 0 }, NULL);
    }
}

/* ---- falls */

/* All but the first vertex follow the fall; legs that drop straight down stay as they are. */
static SwRun *
with_fall (const SwRun *run, double n, double raise)
{
  SwRun *moved = copy_of (run);
  moved->fall = n;
  raise_vertex (vertex (moved, 0), raise);
  for (guint i = 1; i < run->vertices.n; i++)
    if (sw_point_distance (vertex (moved, i)->at, vertex (moved, i - 1)->at) > SW_TOUCH_MM)
      vertex (moved, i)->level = SW_LEVEL_FALL;
  return moved;
}

static void
try_fall (SwCandidates *to, const SwRun *run)
{
  static const char *const columns[] = { "default_n", "note_n", "stop_n" };
  static const double raises[] = { 0, 10, 20, 40, 60, 80, 100 };
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    for (gsize k = 0; k < G_N_ELEMENTS (raises); k++)
      {
        SwRuleValue n;
        if (!sw_rules_lookup_at (to->rules, "drainage.gradients", run->od, SW_RULE_NEXT_LARGER, columns[i], &n, NULL))
          continue;
        SwRun *moved = with_fall (run, n.value, raises[k]);
        SwAdvice *advice = sw_candidates_add (to, N_ ("Re-level run"), raises[k] > 0 ? N_ ("Start it {move} and lay it to 1:{number}.")
                                                                                     : N_ ("Lay it to 1:{number} from its start."),
                                              &moved->record, 100.0 * i + raises[k]);
        if (advice == NULL)
          continue;
        advice->number = n.value;
        sw_candidates_set_move (advice, (SwPoint3){ 0, 0, raises[k] });
      }
}

/* ---- ends */

static void
try_end (SwCandidates *to, const SwRun *run)
{
  const SwRecord *thing = to->snag->owners[1] != 0 ? sw_job_get (to->job, to->snag->owners[1]) : NULL;
  if (thing == NULL || sw_record_table (thing) != SW_TABLE_FITTING || strcmp (to->snag->variant, "short") != 0)
    return;
  SwRun *moved = copy_of (run);
  SwVertex *last = vertex (moved, run->end == thing->id ? run->vertices.n - 1 : 0);
  SwPoint by = sw_point_sub (((const SwFitting *) thing)->at, last->at);
  last->at = ((const SwFitting *) thing)->at;
  SwAdvice *advice = sw_candidates_add (to, N_ ("Lengthen run"), N_ ("Lengthen it {move}."), &moved->record, sw_point_length (by));
  if (advice != NULL)
    sw_candidates_set_move (advice, (SwPoint3){ by.x, by.y, 0 });
}

/* ---- boxes */

static SwFitting *
new_box (SwCandidates *to, const SwEdit *edit, const SwRun *run)
{
  SwFitting *box = (SwFitting *) sw_edit_create (edit, to->job, SW_TABLE_FITTING);
  SwRuleValue length, width, height;
  box->kind = SW_FITTING_BOX;
  box->run = run->record.id;
  box->at = (SwPoint){ to->snag->place.x, to->snag->place.y };
  box->level = SW_LEVEL_VOID;
  box->z = to->snag->place.z - sw_deck_soffit_at (to->deck, box->at);
  if (sw_rules_lookup (to->rules, "fittings.bodies", "draw-box", "length_mm", &length, NULL)
      && sw_rules_lookup (to->rules, "fittings.bodies", "draw-box", "width_mm", &width, NULL)
      && sw_rules_lookup (to->rules, "fittings.bodies", "draw-box", "height_mm", &height, NULL))
    {
      box->length = length.value;
      box->width = width.value;
      box->height = height.value;
    }
  return box;
}

/* A box alone, and a box with the hatch that it needs under a closed ceiling. */
static void
try_box (SwCandidates *to, const SwRun *run)
{
  g_autoptr (SwEdit) none = sw_edit_new ("");
  sw_candidates_add (to, N_ ("Add draw box"), N_ ("Put a draw box here."), &new_box (to, none, run)->record, AS_STOP_COST);
  SwFitting *box = new_box (to, none, run);
  SwAdvice *both = sw_candidates_add (to, N_ ("Add draw box"), N_ ("Put a draw box here, and a hatch below it."), &box->record, 2 * AS_STOP_COST);
  if (both == NULL)
    return;
  SwHatch *hatch = (SwHatch *) sw_edit_create (both->edit, to->job, SW_TABLE_HATCH);
  hatch->at = (SwPoint){ to->snag->place.x, to->snag->place.y };
  hatch->turn = to->snag->address.bay != NULL ? to->snag->address.bay->bay->direction : 0;
  if (!sw_candidates_put (to, both, &hatch->record))
    g_ptr_array_remove (to->found, both);
}

/* ---- sleeves */

static gboolean
sweats_or_eats (const SwRun *run)
{
  return run->material == SW_MATERIAL_COPPER || run->material == SW_MATERIAL_BRASS || run->service == SW_SERVICE_COLD || run->service == SW_SERVICE_CONDENSATE
         || run->service == SW_SERVICE_REFRIGERANT;
}

/* Each thickness that is sold, beyond what the run has: the thinnest that holds is offered. */
static void
try_sleeve (SwCandidates *to, const SwRun *run)
{
  guint n;
  const double *stock = sw_rules_series (to->rules, "insulation.sweating", "stock_mm", &n, NULL, NULL);
  for (guint i = 0; stock != NULL && i < n && sweats_or_eats (run); i++)
    {
      if (stock[i] <= run->insulation)
        continue;
      SwRun *sleeved = copy_of (run);
      sleeved->insulation = stock[i];
      SwAdvice *advice = sw_candidates_add (to, N_ ("Sleeve run"), N_ ("Give it a sleeve of {number}."), &sleeved->record, stock[i]);
      if (advice == NULL)
        continue;
      advice->number = stock[i];
      advice->number_unit = SW_UNIT_MM;
    }
}

/* ---- expansion couplings */

static SwFitting *
new_coupling (SwCandidates *to, const SwEdit *edit, const SwRoute *route, double along)
{
  SwFitting *socket = (SwFitting *) sw_edit_create (edit, to->job, SW_TABLE_FITTING);
  SwPoint3 at = sw_circuits_place (route, along), before = sw_circuits_place (route, fmax (along - 1, 0));
  socket->kind = SW_FITTING_SOCKET;
  socket->run = route->run->record.id;
  socket->at = (SwPoint){ at.x, at.y };
  socket->level = SW_LEVEL_VOID;
  socket->z = at.z - sw_deck_soffit_at (to->deck, socket->at);
  socket->length = fmax (2 * route->socket_length, 2 * route->socket);
  socket->width = socket->height = 2 * route->socket;
  socket->turn = atan2 (at.y - before.y, at.x - before.x) * 180 / G_PI;
  return socket;
}

typedef struct
{
  const SwFitting *socket;
  gboolean clear;
} WallSearch;

static gboolean
take_wall (const SwBody *body, gpointer data)
{
  WallSearch *search = data;
  const SwFitting *socket = search->socket;
  SwPoint3 at = { socket->at.x, socket->at.y, (body->box.low.z + body->box.high.z) / 2 };
  SwSolid around = sw_solid_tube (at, at, socket->length / 2 + OFF_WALL_MM);
  search->clear = sw_solid_is_clear (&around, &body->solid, 0);
  return search->clear;
}

/* Nobody gets at a coupling in a wall. */
static gboolean
keeps_off_walls (const SwCandidates *to, const SwAdvice *advice)
{
  gboolean clear = TRUE;
  for (guint i = 0; i < advice->edit->changes->len && clear; i++)
    {
      const SwFitting *socket = (const SwFitting *) g_array_index (advice->edit->changes, SwChange, i).after;
      SwBox3 box = sw_box3_grow ((SwBox3){ { socket->at.x, socket->at.y, -ALL_LEVELS_MM }, { socket->at.x, socket->at.y, ALL_LEVELS_MM } }, socket->length + OFF_WALL_MM);
      WallSearch search = { socket, TRUE };
      sw_space_query (to->space, box, 1u << SW_BODY_WALL, take_wall, &search);
      clear = search.clear;
    }
  return clear;
}

/* All that the run lacks, evenly between what holds it; then a little along, off what is in the way there. */
static void
try_couplings (SwCandidates *to, const SwRun *run)
{
  static const double shifts[] = { 0, 100, -100, 200, -200, 400, -400, 700, -700 };
  const SwRoute *route = sw_space_route (to->space, run->record.id);
  g_autoptr (GPtrArray) fittings = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (to->job, SW_TABLE_FITTING); route != NULL && (record = sw_job_iter_next (&i)) != NULL;)
    g_ptr_array_add (fittings, (gpointer) record);
  for (gsize i = 0; i < G_N_ELEMENTS (shifts) && route != NULL; i++)
    {
      g_autoptr (GArray) places = sw_expansion_places (to->rules, route, fittings, shifts[i]);
      g_autoptr (SwEdit) none = sw_edit_new ("");
      if (places->len == 0)
        return;
      SwAdvice *advice = sw_candidates_add (to, N_ ("Add expansion couplings"), places->len == 1 ? N_ ("Put an expansion coupling in {number} from its start.") : N_ ("Put {number} expansion couplings in, {places} from its start."),
                                            &new_coupling (to, none, route, g_array_index (places, double, 0))->record, AS_STOP_COST + fabs (shifts[i]));
      for (guint k = 1; advice != NULL && k < places->len; k++)
        sw_candidates_put (to, advice, &new_coupling (to, advice->edit, route, g_array_index (places, double, k))->record);
      if (advice == NULL)
        continue;
      if (!keeps_off_walls (to, advice))
        {
          g_ptr_array_remove (to->found, advice);
          continue;
        }
      advice->along = g_array_ref (places);
      advice->number = places->len == 1 ? round (g_array_index (places, double, 0)) : places->len;
      advice->number_unit = places->len == 1 ? SW_UNIT_MM : SW_UNIT_NONE;
    }
}

/* ---- below the rib */

/* Vertices of a crossing in sets of 45°: down before the rib, along below it on spacer saddles, up after it. */
static void
try_crossing (SwCandidates *to, const SwRun *run)
{
  const SwDeckBay *bay = to->snag->address.bay;
  guint leg = leg_of (to, run);
  SwPoint from = SW_LIST_AT (run->vertices, SwVertex, leg).at, to_at = SW_LIST_AT (run->vertices, SwVertex, leg + 1).at;
  if (bay == NULL || !sw_service_is_electric ((SwService) run->service) || to->snag->kinds[1] != SW_BODY_RIB
      || (guint) to->snag->parts[1] >= bay->ribs->len)
    return;
  const SwRib *rib = &g_array_index (bay->ribs, SwRib, to->snag->parts[1]);
  SwPoint a = sw_deck_to_bay (bay, from), b = sw_deck_to_bay (bay, to_at);
  double saddle = sw_rules_value (to->rules, "crossing.rules", "saddle_gap_mm").value, across = b.y - a.y;
  double fall = fabs (to->snag->place.z - sw_deck_soffit_at (to->deck, from)) + saddle + run->od, length = sw_point_distance (a, b);
  if (fabs (across) < 0.2 * length) /* almost along the rib */
    return;
  double foot = CLEAR_OF_RIB * run->od;
  const double places[] = { rib->low - foot - fall, rib->low - foot, rib->high + foot, rib->high + foot + fall };
  SwRun *moved = copy_of (run);
  SwVertex first = *vertex (moved, leg);
  for (int i = 0; i < 4; i++)
    {
      double t = (places[across > 0 ? i : 3 - i] - a.y) / across;
      SwVertex *set = sw_list_insert (&moved->vertices, &sw_struct_vertex, leg + 1 + i);
      gboolean below = i == 1 || i == 2;
      *set = (SwVertex){ sw_point_lerp (from, to_at, CLAMP (t, 0.01, 0.99)), below ? SW_LEVEL_BELOW : first.level, below ? saddle : first.z };
    }
  sw_candidates_add (to, N_ ("Cross below rib"), N_ ("Cross below the rib."), &moved->record, AS_STOP_COST);
}

void
sw_candidates_for_run (SwCandidates *to, const SwRun *run)
{
  static const struct { const char *rules[18]; void (*try) (SwCandidates *to, const SwRun *run); } ways[] = {
    { { "web-clearance", "run-run", "cable-rating", "segregation", "conduit-pipe", "gas-electric", "copper-zinc", "light-service", "light-heat",
        "column", "batten", "opening-edge", "copper-drip", "over-electrical", "wall-drop", "unmeasured", NULL }, try_aside },
    { { "rib-clearance", "crown-clearance", "run-run", "wall-drop", "segregation", "conduit-pipe", "gas-electric", "copper-zinc",
        "light-service", "light-heat", "ceiling-depth", "downstand", "fall-out", NULL }, try_upright },
    { { "run-run", "cable-rating", "segregation", "conduit-pipe", "gas-electric", "light-service", "light-heat", NULL }, try_next_void },
    { { "fall", "fall-out", "ceiling-depth", NULL }, try_fall },
    { { "gravity-end", NULL }, try_end },
    { { "conduit-turns", "conduit-length", NULL }, try_box },
    { { "rib-clearance", NULL }, try_crossing },
    { { "expansion", NULL }, try_couplings },
    { { "copper-zinc", "copper-drip", "sweating", NULL }, try_sleeve },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    if (is_rule (to, ways[i].rules) && (ways[i].try != try_fall || sw_service_is_gravity ((SwService) run->service)))
      ways[i].try (to, run);
}
