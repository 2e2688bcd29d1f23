/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes along walls and faces is cut wall by wall: pieces from corner to corner, whole lengths first where a wall is longer than one,
 * no last piece too short to hold. Conduits are coupled along their way and cut at boxes and ends. */
#include "ceiling/layout.h"
#include "base/number.h"
#include "ceiling/totals.h"
#include "circuits/draws.h"
#include "estimate/cut_groups.h"
#include "estimate/takeoff_parts.h"
#include <math.h>

#define SHORT_MM 300 /* a shorter last piece shares with the whole length before it */

typedef struct
{
  const SwDeck *deck;
  const SwRules *rules;
  SwCutJob *cut;
} Trimming;

/* The stock length of the price list's row, else the rule set's. */
static double
stock_of (const Trimming *trimming, const char *code, double rule)
{
  const SwRecord *record = sw_job_find (sw_deck_job (trimming->deck), code);
  const SwPrice *price = record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? (const SwPrice *) record : NULL;
  return price != NULL && price->length > 0 ? price->length : rule;
}

static SwCutGroup *
group_of (const Trimming *trimming, int member, const char *code, double stock)
{
  const SwCutGroup wanted = { .trim = member, .code = (char *) code };
  gboolean conduit = member == SW_CUT_CONDUIT;
  SwCutGroup *group = sw_cut_group_for (trimming->cut, &wanted);
  if (group->task->stock->len > 0)
    return group;
  group->task->kerf = (gint64) ceil (sw_rules_value (trimming->rules, conduit ? "conduit.stock" : "brandering.setout", "kerf_mm").value);
  group->task->keep = (gint64) ceil (sw_rules_value (trimming->rules, conduit ? "conduit.stock" : "brandering.setout", "offcut_mm").value);
  sw_cut_task_add_stock (group->task, "", (gint64) floor (stock), 0, 0);
  return group;
}

/* One stretch, in whole lengths and a rest. */
static void
add_stretch (SwCutGroup *group, SwId owner, double mm)
{
  double stock = (double) g_array_index (group->task->stock, SwCutStock, 0).length;
  guint whole = (guint) floor (mm / stock + 1e-9);
  double rest = mm - whole * stock;
  gboolean shared = whole > 0 && rest > 1 && rest < SHORT_MM;
  for (guint i = 0; i < whole - (shared ? 1 : 0); i++)
    sw_cut_group_want (group, owner, group->trim, stock);
  if (shared)
    {
      sw_cut_group_want (group, owner, group->trim, stock + rest - SHORT_MM);
      sw_cut_group_want (group, owner, group->trim, SHORT_MM);
    }
  else if (rest > 1)
    sw_cut_group_want (group, owner, group->trim, rest);
}

static void
add_edges (const Trimming *trimming, const SwCeiling *ceiling)
{
  const SwRoom *room = ceiling->room;
  int member = room->edge == SW_EDGE_CORNICE ? SW_CUT_CORNICE : SW_CUT_SHADOW;
  const char *code = sw_price_info (member == SW_CUT_CORNICE ? SW_PRICE_CORNICE : SW_PRICE_SHADOW_LINE)->word;
  double rule = sw_rules_value (trimming->rules, "board.takeoff", "cornice_length_mm").value;
  g_autoptr (SwCornice) cornice = sw_cornice_new (ceiling);
  for (guint i = 0; i < cornice->runs->len && room->edge != SW_EDGE_PLAIN; i++)
    add_stretch (group_of (trimming, member, code, stock_of (trimming, code, rule)), room->record.id, g_array_index (cornice->runs, SwCorniceRun, i).length);
}

/* Along the lower edge of each face. */
static void
add_beads (const Trimming *trimming, const SwCeiling *ceiling)
{
  const char *code = sw_price_info (SW_PRICE_BEAD)->word;
  double stock = stock_of (trimming, code, sw_rules_value (trimming->rules, "board.takeoff", "bead_length_mm").value), sum = 0;
  for (guint i = 0; i < ceiling->faces->len; i++)
    {
      const SwCeilingFace *face = &g_array_index (ceiling->faces, SwCeilingFace, i);
      double length = sw_point_distance (face->from, face->to);
      add_stretch (group_of (trimming, SW_CUT_BEAD, code, stock), ceiling->room->record.id, length);
      sum += length;
    }
  /* What is more are upright edges. */
  if (ceiling->bead - sum > 1)
    add_stretch (group_of (trimming, SW_CUT_BEAD, code, stock), ceiling->room->record.id, ceiling->bead - sum);
}

/* ---- conduits */

/* Where a box interrupts the run, ascending. */
static GArray *
boxes_on (const SwJob *job, const SwRoute *route)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      double apart;
      if (fitting->run != route->run->record.id || fitting->kind != SW_FITTING_BOX)
        continue;
      double along = sw_circuits_along (route, fitting->at, &apart);
      g_array_append_val (places, along);
    }
  g_array_sort (places, sw_compare_doubles);
  return places;
}

static void
add_conduit (const Trimming *trimming, const SwRun *run)
{
  g_autoptr (SwRoute) route = sw_route_new (trimming->deck, trimming->rules, run, NULL);
  if (route == NULL)
    return;
  g_autofree char *size = sw_takeoff_run_size (run), *code = g_strdup_printf ("%s-%s", sw_price_info (SW_PRICE_CONDUIT)->word, size);
  double stock = stock_of (trimming, code, sw_rules_value (trimming->rules, "conduit.stock", "length_mm").value), length = 0;
  double before = -fabs (sw_circuits_wall_drop (trimming->deck, trimming->rules, route, FALSE)); /* down the walls at its ends too */
  g_autoptr (GArray) places = boxes_on (sw_deck_job (trimming->deck), route);
  for (guint i = 0; i + 1 < route->n; i++)
    length += sw_point3_distance (route->axis[i], route->axis[i + 1]);
  length += fabs (sw_circuits_wall_drop (trimming->deck, trimming->rules, route, TRUE));
  g_array_append_val (places, length);
  for (guint i = 0; i < places->len; i++)
    {
      double to = g_array_index (places, double, i);
      if (to - before > 1)
        add_stretch (group_of (trimming, SW_CUT_CONDUIT, code, stock), run->record.id, to - before);
      before = fmax (before, to);
    }
}

/* Pliable conduit comes in coils, what exists is there. */
static gboolean
is_cut (const SwRun *run)
{
  return sw_service_is_electric ((SwService) run->service) && run->material != SW_MATERIAL_PLIABLE && run->stage != SW_STAGE_EXISTING;
}

void
sw_cut_trims (const SwDeck *deck, const SwRules *rules, SwCutJob *cut)
{
  const Trimming trimming = { deck, rules, cut };
  const SwJob *job = sw_deck_job (deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
      g_autoptr (SwCeiling) ceiling = NULL;
      if (room != NULL && room->finish == SW_FINISH_CLOSED)
        ceiling = sw_ceiling_recall (layout, (SwDeck *) deck, (SwRules *) rules);
      if (ceiling == NULL)
        continue;
      add_edges (&trimming, ceiling);
      add_beads (&trimming, ceiling);
    }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    if (is_cut ((const SwRun *) record))
      add_conduit (&trimming, (const SwRun *) record);
}
