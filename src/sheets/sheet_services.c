/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans of the services, one a trade and one of all. */
#include "estimate/run_facts.h"
#include "sheets/sheet_plan.h"
#include "base/number.h"

#define GROUND (SW_LAYER_BIT (SW_LAYER_DECK) | SW_LAYER_BIT (SW_LAYER_ROOMS))
#define PIPES (SW_LAYER_BIT (SW_LAYER_PIPES) | SW_LAYER_BIT (SW_LAYER_HATCHES))
#define CONDUITS (SW_LAYER_BIT (SW_LAYER_CONDUITS) | SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES))
#define RANK_LEVEL 3

/* Inverts of pipes at their vertices; of level ones at the ends only. */
static void
add_inverts (const SwSheetPlan *plan, const SwRun *run)
{
  g_autoptr (SwRoute) route = sw_route_new (plan->deck, plan->maker->context->rules, run, NULL);
  SwColourRole role = sw_service_line_role (sw_plan_service_line ((SwService) run->service));
  for (guint i = 0; route != NULL && i < route->n; i++)
    {
      if (i > 0 && fabs (route->axis[i].z - route->axis[i - 1].z) < 0.5)
        continue;
      g_autofree char *level = sw_sheet_level_text (plan->maker->context, sw_route_invert (route, i));
      g_autofree char *text = g_strdup_printf (_("IL %s"), level);
      sw_sheet_plan_add_label (plan, (SwPoint){ route->axis[i].x, route->axis[i].y }, text, role, RANK_LEVEL);
    }
}

static void
mark_pipes (const SwSheetPlan *plan)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (plan->deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    if (!sw_service_is_electric ((SwService) ((const SwRun *) record)->service))
      add_inverts (plan, (const SwRun *) record);
}

static gboolean
is_pipe (const SwJob *job, SwId id)
{
  return !sw_service_is_electric ((SwService) ((const SwRun *) sw_job_get (job, id))->service);
}

static void
add_pipe_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 18 }, { "service", 22 }, { "od_mm", 16 }, { "from", 30 }, { "to", 30 }, { "length_m", 16 }, { "fall_n", 14 }, { "invert_start_mm", 24 },
    { "invert_end_mm", 24 }, { "over_mm", 20 }, { "under_mm", 20 }, { "brackets", 18 }, { "plates_at", 40 },
  };
  static const SwSheetListColumn levels[] = {
    { "number", 18 }, { "service", 24 }, { "vertex", 16 }, { "chainage_m", 20 }, { "grid_x", 16 }, { "from_grid_x_mm", 22 }, { "grid_y", 16 }, { "from_grid_y_mm", 20 },
    { "bay", 20 }, { "void", 12 }, { "invert_mm", 22 }, { "cover_mm", 22 }, { "clear_mm", 20 }, { "fall_n", 20 }, { "turn_deg", 16 },
  };
  static const SwSheetListColumn parts[] = {
    { "number", 18 }, { "material", 26 }, { "od_mm", 18 }, { "socket_mm", 16 }, { "insulation_mm", 20 }, { "lengths", 16 }, { "stock_m", 14 }, { "bends", 15 }, { "joints", 20 },
    { "tees", 14 }, { "eyes", 18 }, { "valves", 16 }, { "other_fittings", 18 }, { "expansion", 22 }, { "brackets", 18 }, { "bracket_every_mm", 18 },
  };
  static const SwSheetListColumn hangers[] = {
    { "number", 18 }, { "hanger", 16 }, { "service", 26 }, { "along_m", 20 }, { "grid_x", 14 }, { "from_grid_x_mm", 22 }, { "grid_y", 14 }, { "from_grid_y_mm", 22 },
    { "bay", 24 }, { "void", 14 }, { "axis_mm", 24 }, { "load_n", 16 }, { "moved", 24 }, { "most_mm", 20 },
  };
  static const SwSheetListColumn flows[] = {
    { "number", 18 }, { "service", 26 }, { "od_mm", 18 }, { "bore_mm", 16 }, { "from_m", 20 }, { "to_m", 20 }, { "units", 18 }, { "flow_ls", 18 }, { "fall_n", 18 }, { "capacity_ls", 24 },
    { "filling", 20 }, { "velocity_ms", 18 }, { "loss_kpa", 18 }, { "growth_mm", 22 }, { "sleeve_mm", 22 }, { "mass_kg_m", 18 }, { "note", 40 },
  };
  sw_sheet_add_schedule_pages (maker, "pipes", columns, G_N_ELEMENTS (columns));
  sw_sheet_add_schedule_part_pages (maker, "pipes", _("Pipes: lengths, fittings and brackets"), parts, G_N_ELEMENTS (parts));
  sw_sheet_add_schedule_pages (maker, "flows", flows, G_N_ELEMENTS (flows));
  sw_sheet_add_some_schedule_pages (maker, "levels", levels, G_N_ELEMENTS (levels), is_pipe);
  sw_sheet_add_some_schedule_pages (maker, "hangers", hangers, G_N_ELEMENTS (hangers), is_pipe);
}

static void
add_conduit_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 18 }, { "service", 20 }, { "size_mm", 14 }, { "from", 32 }, { "to", 32 }, { "circuit", 18 }, { "contents", 30 }, { "fill_percent", 16 }, { "length_m", 16 },
    { "bends", 15 }, { "draw_deg", 24 }, { "boxes", 16 }, { "lengths", 16 }, { "couplers", 18 }, { "supports", 20 }, { "plates_at", 30 },
  };
  static const SwSheetListColumn circuits[] = {
    { "number", 18 }, { "name", 50 }, { "protection", 20 }, { "amps", 18 }, { "cable_mm2", 18 }, { "sharing", 20 }, { "group_factor", 20 }, { "rating_a", 18 },
    { "farthest_m", 22 }, { "drop_percent", 18 }, { "longest_m", 22 }, { "watts", 18 }, { "no_row", 30 },
  };
  static const SwSheetListColumn bonding[] = { { "number", 24 }, { "what", 60 }, { "bay", 30 }, { "voids", 60 }, { "asked", 110 } };
  static const SwSheetListColumn set_out[] = {
    { "number", 18 }, { "what", 30 }, { "room", 22 }, { "wall_x", 22 }, { "from_wall_x_mm", 18 }, { "wall_y", 22 }, { "from_wall_y_mm", 18 }, { "grid_x", 14 },
    { "from_grid_x_mm", 20 }, { "grid_y", 14 }, { "from_grid_y_mm", 20 }, { "floor_mm", 20 }, { "level_mm", 20 }, { "chase_mm", 16 }, { "chase_most_mm", 18 },
  };
  static const SwSheetListColumn parts[] = {
    { "number", 18 }, { "material", 26 }, { "size_mm", 16 }, { "way_m", 16 }, { "drops_m", 16 }, { "lengths", 18 }, { "stock_m", 14 }, { "couplers", 20 }, { "expansion", 22 },
    { "bends", 15 }, { "turns_deg", 18 }, { "boxes", 18 }, { "end_boxes", 18 }, { "supports", 20 }, { "support_every_mm", 18 },
  };
  static const SwSheetListColumn cables[] = {
    { "number", 18 }, { "circuit", 24 }, { "service", 24 }, { "from", 46 }, { "to", 46 }, { "cables", 18 }, { "cable_mm2", 22 }, { "each_m", 30 }, { "total_m", 24 }, { "contents", 34 },
  };
  sw_sheet_add_schedule_pages (maker, "conduits", columns, G_N_ELEMENTS (columns));
  sw_sheet_add_schedule_part_pages (maker, "conduits", _("Conduits: lengths, couplers, bends and saddles"), parts, G_N_ELEMENTS (parts));
  sw_sheet_add_schedule_pages (maker, "cables", cables, G_N_ELEMENTS (cables));
  sw_sheet_add_schedule_pages (maker, "circuits", circuits, G_N_ELEMENTS (circuits));
  sw_sheet_add_schedule_pages (maker, "set-out", set_out, G_N_ELEMENTS (set_out));
  sw_sheet_add_schedule_pages (maker, "bonding", bonding, G_N_ELEMENTS (bonding));
}

const SwSheetPlanKind sw_sheet_plan_electrician = {
  .layers = GROUND | CONDUITS,
  .working = TRUE,
  .notes = { N_("Turns are true angles in space. The list gives what lies between draw points."),
             N_("Steel troughs, metal conduits and metal pipes: the electrician decides what is bonded, and where. Troughs are not joined to each other.") },
  .add_lists = add_conduit_list,
};
const SwSheetPlanKind sw_sheet_plan_plumber = {
  .layers = GROUND | PIPES,
  .working = TRUE,
  .mark = mark_pipes,
  .notes = { N_("IL: invert level, above the level line.") },
  .add_lists = add_pipe_list,
};
const SwSheetPlanKind sw_sheet_plan_combined = {
  .layers = GROUND | CONDUITS | PIPES,
  .working = TRUE,
};
