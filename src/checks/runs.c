/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Services against each other, and what a service asks of the void that it lies in. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "circuits/contents.h"
#include "drainage/run_flow.h"
#include "drainage/sweating.h"

static gboolean
is_electric (const SwRun *run)
{
  return run != NULL && sw_service_is_electric ((SwService) run->service);
}

static gboolean
is_pipe (const SwRun *run)
{
  return run != NULL && !is_electric (run) && run->service != SW_SERVICE_DUCT;
}

/* ---- run against run */

/* The greater of the two runs' own clearances; without one, the rule for what they are. Fittings may touch. */
static double
runs_asked (const SwCheckRun *run, const SwBody *first, const SwBody *second, const SwRuleValue **rule)
{
  const SwRun *a = sw_check_run_of (first), *b = sw_check_run_of (second);
  double own = MAX (a != NULL ? a->clearance : 0, b != NULL ? b->clearance : 0);
  *rule = NULL;
  if (a == NULL || b == NULL || own > 0)
    return own;
  *rule = &run->limits[is_electric (a) && is_electric (b) ? SW_LIMIT_CONDUIT : SW_LIMIT_TUBE];
  return (*rule)->value;
}

double
sw_check_runs_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRuleValue *rule;
  return runs_asked (run, first, second, &rule);
}

void
sw_check_runs_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = runs_asked (run, pair->first, pair->second, &rule);
  gboolean hits = pair->mm < -SW_TOUCH_MM;
  if (pair->mm >= needed || (needed <= 0 && !hits)
      || sw_check_joined (run, pair->first->owner, pair->second->owner, pair->place))
    return;
  sw_check_add_pair (run, hits ? "hit" : "near", hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, pair, needed, rule);
}

/* ---- power and data */

/* Data cables are of class b unless the run says what they are: unscreened, common. */
static const char *
data_class (const SwCheckRun *run, const SwRun *data)
{
  SwRuleValue value;
  if (*data->contents != '\0' && sw_rules_lookup (run->rules, "segregation.classes", data->contents, "class", &value, NULL))
    return value.text;
  return "b";
}

/* Steel conduit is solid metal; anything else counts as none. The better of the two shields. */
static const char *
containment (const SwRun *a, const SwRun *b)
{
  return a->material == SW_MATERIAL_STEEL || b->material == SW_MATERIAL_STEEL ? "solid_mm" : "none_mm";
}

/* A = S × P for the circuits in the power run. */
static double
segregation_asked (const SwCheckRun *run, const SwRun *power, const SwRun *data, SwRuleValue *rule)
{
  SwRuleValue circuits;
  *rule = (SwRuleValue){ 0 };
  if (!sw_rules_lookup (run->rules, "segregation.distance", data_class (run, data), containment (power, data), rule, NULL)
      || !sw_rules_lookup_at (run->rules, "segregation.circuits", sw_circuits_in_run (run->job, power), SW_RULE_NEXT_LARGER, "factor", &circuits, NULL))
    return -1;
  return rule->value * circuits.value;
}

/* That any power run of the job holds; for the check of a few records, which does not walk over all, as many as the table knows. */
static double
most_circuits (const SwCheckRun *run)
{
  guint most = 1, rows = sw_rules_n_rows (run->rules, "segregation.circuits");
  if (run->services == G_MAXUINT32 && rows > 0)
    return sw_rules_row_number (run->rules, "segregation.circuits", rows - 1);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (run->job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    if (*((const SwRun *) record)->contents != '\0' && ((const SwRun *) record)->circuit != 0)
      most = MAX (most, sw_circuits_in_run (run->job, (const SwRun *) record));
  return most;
}

static gboolean
power_and_data (const SwRun *a, const SwRun *b)
{
  return a != NULL && b != NULL && (a->service == SW_SERVICE_POWER || a->service == SW_SERVICE_LIGHTING)
         && b->service == SW_SERVICE_DATA;
}

double
sw_check_segregation_reach (const SwCheckRun *run)
{
  const guint32 power = 1u << SW_SERVICE_POWER | 1u << SW_SERVICE_LIGHTING;
  static const char *const classes[] = { "a", "b", "c", "d" };
  SwRuleValue distance, circuits;
  double reach = 0;
  if (!(run->services & power) || !(run->services & 1u << SW_SERVICE_DATA)
      || !sw_rules_has (run->rules, "segregation.distance"))
    return 0;
  double most = most_circuits (run);
  for (gsize i = 0; i < G_N_ELEMENTS (classes); i++)
    if (sw_rules_lookup (run->rules, "segregation.distance", classes[i], "none_mm", &distance, NULL)
        && sw_rules_lookup_at (run->rules, "segregation.circuits", most, SW_RULE_NEXT_LARGER, "factor", &circuits, NULL))
      reach = MAX (reach, distance.value * circuits.value);
  return reach;
}

double
sw_check_segregation_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRun *a = sw_check_run_of (first), *b = sw_check_run_of (second);
  SwRuleValue rule;
  return power_and_data (a, b) ? segregation_asked (run, a, b, &rule) : -1;
}

void
sw_check_segregation_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  SwRuleValue rule;
  const SwRun *power = sw_check_run_of (pair->first), *data = sw_check_run_of (pair->second);
  double needed = segregation_asked (run, power, data, &rule);
  if (pair->mm < needed && pair->mm >= -SW_TOUCH_MM) /* below that it is a clash already */
    sw_check_add_pair (run, "near", SW_SEVERITY_FIX, pair, needed, &rule);
}

/* ---- conduit and pipe */

static double
conduit_pipe_asked (const SwCheckRun *run, const SwRun *a, const SwRun *b, const SwRuleValue **rule)
{
  if (!is_electric (a) || !is_pipe (b) || b->service == SW_SERVICE_GAS)
    return -1;
  *rule = &run->limits[b->service == SW_SERVICE_HOT ? SW_LIMIT_CONDUIT_HOT : SW_LIMIT_CONDUIT_PIPE];
  return (*rule)->value;
}

double
sw_check_conduit_pipe_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRuleValue *rule;
  return conduit_pipe_asked (run, sw_check_run_of (first), sw_check_run_of (second), &rule);
}

/* Crossings cannot keep that distance: only where the two run side by side. */
static gboolean
side_by_side (const SwCheckPair *pair)
{
  SwPoint3 a = pair->first->solid.along, b = pair->second->solid.along;
  double lengths = sw_point3_length (a) * sw_point3_length (b);
  return lengths > 0 && fabs (sw_point3_dot (a, b)) > lengths * 0.7;
}

void
sw_check_conduit_pipe_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule = NULL;
  double needed = conduit_pipe_asked (run, sw_check_run_of (pair->first),
                                      sw_check_run_of (pair->second), &rule);
  const SwRuleValue *tube;
  if (pair->mm >= needed || pair->mm < runs_asked (run, pair->first, pair->second, &tube) || !side_by_side (pair))
    return;
  sw_check_add_pair (run, "near", SW_SEVERITY_NOTE, pair, needed, rule);
}

/* ---- gas */

double
sw_check_gas_electric_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRun *gas = sw_check_run_of (first), *other = sw_check_run_of (second);
  const SwFitting *fitting = sw_check_fitting_of (run, second->owner);
  gboolean electric = is_electric (other)
                      || (fitting != NULL && (fitting->kind == SW_FITTING_BOX || fitting->kind == SW_FITTING_BOARD
                                              || fitting->kind == SW_FITTING_DRIVER));
  return gas != NULL && gas->service == SW_SERVICE_GAS && electric ? sw_check_limit (run, SW_LIMIT_GAS) : -1;
}

void
sw_check_gas_electric_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  if (pair->mm < sw_check_limit (run, SW_LIMIT_GAS))
    sw_check_add_pair (run, "near", SW_SEVERITY_STOP, pair, sw_check_limit (run, SW_LIMIT_GAS), &run->limits[SW_LIMIT_GAS]);
}

/* The first place where a run lies above a room's closed ceiling. */
static gboolean
hidden_place (const SwCheckRun *run, const SwRoute *route, const SwRoom **room, SwPoint3 *place)
{
  for (guint i = 0; i < 2 * route->n - 1; i++) /* every vertex, and the middle of every leg */
    {
      SwPoint3 p = i % 2 == 0 ? route->axis[i / 2] : sw_point3_lerp (route->axis[i / 2], route->axis[i / 2 + 1], 0.5);
      *room = sw_check_room_at (run, (SwPoint){ p.x, p.y });
      if (sw_check_is_hidden (*room) && p.z > sw_check_lookup_face_at (run->lookup, *room, (SwPoint){ p.x, p.y }))
        {
          *place = p;
          return TRUE;
        }
    }
  return FALSE;
}

void
sw_check_gas_void_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  const SwRoom *room;
  SwPoint3 place;
  if (route == NULL || route->run->service != SW_SERVICE_GAS || route->run->stage == SW_STAGE_CAST_IN
      || !hidden_place (run, route, &room, &place))
    return;
  SwSnag *snag = sw_check_add (run, "closed", SW_SEVERITY_STOP, record->id, place);
  snag->room = room->record.id;
  sw_check_set_other (snag, room->record.id, SW_N_BODIES, -1);
}

/* ---- water above electricity */

static gboolean
holds_water (const SwCheckRun *run, const SwBody *body)
{
  static const guint32 joints = 1u << SW_FITTING_TEE | 1u << SW_FITTING_BEND | 1u << SW_FITTING_SOCKET | 1u << SW_FITTING_EYE
                                | 1u << SW_FITTING_VALVE;
  const SwRun *of = sw_check_run_of (body);
  const SwFitting *fitting = sw_check_fitting_of (run, body->owner);
  return of != NULL ? sw_service_is_wet ((SwService) of->service) : fitting != NULL && joints & 1u << fitting->kind;
}

typedef struct
{
  SwCheckRun *run;
  const SwBody *gear;
} Dripping;

/* Least move aside that takes one box out from over another. */
static SwPoint3
way_aside (SwBox3 wet, SwBox3 dry, double *mm)
{
  double east = dry.high.x - wet.low.x, west = wet.high.x - dry.low.x, north = dry.high.y - wet.low.y, south = wet.high.y - dry.low.y;
  double along_x = MIN (east, west), along_y = MIN (north, south);
  *mm = MIN (along_x, along_y);
  if (along_x <= along_y)
    return (SwPoint3){ east <= west ? 1 : -1, 0, 0 };
  return (SwPoint3){ 0, north <= south ? 1 : -1, 0 };
}

/* What drips falls straight down. */
static gboolean
take_dripping (const SwBody *wet, gpointer data)
{
  const Dripping *dripping = data;
  SwBox3 above = wet->box, below = dripping->gear->box;
  const SwRuleValue *rule = &dripping->run->limits[SW_LIMIT_OVER_ELECTRICAL];
  gboolean over = above.low.x < below.high.x && below.low.x < above.high.x && above.low.y < below.high.y && below.low.y < above.high.y
                  && above.low.z + above.high.z > below.low.z + below.high.z;
  if (!over || wet->owner == dripping->gear->owner || !holds_water (dripping->run, wet))
    return TRUE;
  double missing;
  SwPoint3 way = way_aside (above, below, &missing);
  SwPoint3 place = { (above.low.x + above.high.x) / 2, (above.low.y + above.high.y) / 2, above.low.z };
  SwSnag *snag = sw_check_add (dripping->run, "over", SW_SEVERITY_FIX, wet->owner, place);
  snag->kinds[0] = wet->kind;
  snag->parts[0] = wet->part;
  sw_check_set_other (snag, dripping->gear->owner, dripping->gear->kind, 0);
  sw_check_set_numbers (snag, rule->value, MAX (above.low.z - below.high.z, 0), SW_UNIT_MM, rule);
  sw_check_set_missing (snag, missing, way);
  return TRUE;
}

void
sw_check_over_electrical_record (SwCheckRun *run, const SwRecord *record)
{
  static const guint32 gear = 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_DRIVER;
  guint first, n;
  sw_space_bodies_of (run->space, record->id, &first, &n);
  if (!(gear & 1u << ((const SwFitting *) record)->kind) || n == 0)
    return;
  Dripping dripping = { run, sw_space_body (run->space, first) };
  SwBox3 above = dripping.gear->box;
  above.high.z += sw_check_limit (run, SW_LIMIT_OVER_ELECTRICAL);
  sw_space_query (run->space, above, SW_BODY_BIT (SW_BODY_SOCKET) | SW_BODY_BIT (SW_BODY_FITTING), take_dripping, &dripping);
}

/* ---- sweating */

static SwSweatCase
sweat_case (const SwCheckRun *run, const SwRoute *route)
{
  const char *group = "insulation.sweating";
  SwMagnus magnus = { sw_rules_value (run->rules, group, "magnus_a").value, sw_rules_value (run->rules, group, "magnus_b_c").value };
  double air = sw_rules_value (run->rules, group, "air_c").value;
  return (SwSweatCase){
    .pipe_mm = route->od,
    .pipe_c = run->inside_c[route->run->service],
    .air_c = air,
    .dew_c = sw_drainage_dew_point (&magnus, air, sw_rules_value (run->rules, group, "humidity_percent").value),
    .conductivity_w_mk = sw_rules_value (run->rules, group, "lambda_w_mk").value,
    .surface_w_m2k = sw_rules_value (run->rules, group, "surface_void_w_m2k").value,
  };
}

/* The next thickness that is sold; the thickness itself beyond all of them. */
static double
stock_thickness (const SwCheckRun *run, double needed)
{
  guint n;
  const double *stock = sw_rules_series (run->rules, "insulation.sweating", "stock_mm", &n, NULL, NULL);
  for (guint i = 0; stock != NULL && i < n; i++)
    if (stock[i] >= needed)
      return stock[i];
  return ceil (needed);
}

/* There are few sizes of pipe and few temperatures: the last ones are kept. */
static double
sweat_thickness (SwCheckRun *run, const SwRoute *route)
{
  const guint kept = G_N_ELEMENTS (run->sweat);
  double inside = run->inside_c[route->run->service];
  for (guint i = 0; i < kept; i++)
    if (run->sweat[i].od == route->od && run->sweat[i].inside == inside)
      return run->sweat[i].thickness;
  SwSweatCase sweat = sweat_case (run, route);
  guint next = run->n_sweat++ % kept;
  run->sweat[next].od = route->od;
  run->sweat[next].inside = inside;
  run->sweat[next].thickness = sw_drainage_sweat_thickness (&sweat);
  return run->sweat[next].thickness;
}

/* Cold water, condensate and refrigerant in a closed void, without the sleeve that keeps it dry. */
void
sw_check_sweating_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  const SwRoom *room;
  SwPoint3 place;
  if (route == NULL || isnan (run->inside_c[route->run->service]) || route->run->stage == SW_STAGE_CAST_IN)
    return;
  double needed = sweat_thickness (run, route);
  if (!(needed > route->run->insulation) || !hidden_place (run, route, &room, &place))
    return;
  SwSweatCase sweat = sweat_case (run, route);
  SwRuleValue air = sw_rules_value (run->rules, "insulation.sweating", "humidity_percent");
  SwSnag *snag = sw_check_add (run, route->run->insulation > 0 ? "thin" : "bare", SW_SEVERITY_NOTE, record->id, place);
  snag->room = room->record.id;
  sw_check_set_numbers (snag, needed, route->run->insulation, SW_UNIT_MM, &air);
  sw_check_set_param (snag, "stock", stock_thickness (run, needed), SW_UNIT_MM);
  sw_check_set_param (snag, "dew", sweat.dew_c, SW_UNIT_CELSIUS);
  sw_check_set_param (snag, "pipe", sweat.pipe_c, SW_UNIT_CELSIUS);
  sw_check_set_extent (snag, route->axis[0], route->axis[route->n - 1]);
}
