/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Legends: only what the layers of a sheet show and the job has. */
#include "ceiling/ceiling.h"
#include "ceiling/layout.h"
#include "sheets/sheet_plan.h"

static const SwStroke void_edge = { .role = SW_ROLE_STEEL, .width = 0.18 }, concrete_edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.35 };
static const SwStroke plate = { .role = SW_ROLE_PLATE, .width = 0.35 }, plate_released = { .role = SW_ROLE_PLATE, .width = 0.25, .dash = SW_DASH_HIDDEN };
static const SwStroke plate_out = { .role = SW_ROLE_PLATE, .width = 0.18, .dash = SW_DASH_DOTTED };
static const SwStroke opening = { .role = SW_ROLE_OPENING, .width = 0.35 }, wall = { .role = SW_ROLE_SEPARATING_WALL, .width = 0.5 };
static const SwStroke batten = { .role = SW_ROLE_BATTEN, .width = 0.25 }, board = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25 };
static const SwStroke bulkhead = { .role = SW_ROLE_INK, .width = 0.35, .dash = SW_DASH_HIDDEN };
static const SwStroke movement = { .role = SW_ROLE_INK, .width = 0.7, .dash = SW_DASH_CENTRE };
static const SwStroke light = { .role = SW_ROLE_INK, .width = 0.25 }, hatch = { .role = SW_ROLE_HATCH, .width = 0.35 };
static const SwStroke sleeve = { .role = SW_ROLE_SLEEVE, .width = 0.35 }, sleeve_asked = { .role = SW_ROLE_SLEEVE, .width = 0.35, .dash = SW_DASH_HIDDEN };
static const SwFill void_fill = { .role = SW_ROLE_VOID }, concrete_fill = { .role = SW_ROLE_CONCRETE }, solid_fill = { .role = SW_ROLE_SOLID_ZONE };
static const SwFill beam_fill = { .role = SW_ROLE_DOWNSTAND, .transparency = 0.55 }, wall_fill = { .role = SW_ROLE_SEPARATING_WALL, .hatching = SW_HATCHING_DENSE };
static const SwFill paper_fill = { .role = SW_ROLE_PAPER }, batten_fill = { .role = SW_ROLE_BATTEN, .transparency = 0.25 }, fixing_fill = { .role = SW_ROLE_NOTE };
static const SwStroke steel_batten = { .role = SW_ROLE_STEEL, .width = 0.25 };
static const SwFill steel_fill = { .role = SW_ROLE_STEEL, .transparency = 0.25 };
static const SwFill pale_fill = { .role = SW_ROLE_BATTEN, .transparency = 0.6 };
static const SwFill board_fill = { .role = SW_ROLE_BOARD, .transparency = 0.35 }, light_fill = { .role = SW_ROLE_LIGHT };
static const SwFill strip_fill = { .role = SW_ROLE_STOP, .hatching = SW_HATCHING_LINES };

static gboolean
any_record (const SwJob *job, SwTable table)
{
  return sw_job_count (job, table) > 0;
}

static gboolean
any_plate (const SwDeck *deck, gboolean out)
{
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (deck, i);
      for (guint k = 0; k < bay->plates->len; k++)
        {
          const SwDeckPlate *of = &g_array_index (bay->plates, SwDeckPlate, k);
          if (out ? of->out : of->released && !of->out)
            return TRUE;
        }
    }
  return FALSE;
}

static gboolean
any_separating (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwWall *) record)->separating)
      return TRUE;
  return FALSE;
}

static gboolean
any_movement (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    for (guint k = 0; k < ((const SwLayout *) record)->joints.n; k++)
      if (SW_LIST_AT (((const SwLayout *) record)->joints, SwJoint, k).kind == SW_JOINT_MOVEMENT)
        return TRUE;
  return FALSE;
}

static gboolean
any_doubled (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    for (guint k = 0; k < ((const SwLayout *) record)->marks.n; k++)
      if (SW_LIST_AT (((const SwLayout *) record)->marks, SwLaidMark, k).kind == SW_CEILING_FIXING)
        return TRUE;
  return FALSE;
}

static gboolean
any_steel (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    if (sw_ceiling_layout_is_steel (job, (const SwLayout *) record))
      return TRUE;
  return FALSE;
}

static gboolean
any_strip (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwLayout *) record)->strips.n > 0)
      return TRUE;
  return FALSE;
}

static void
add (GArray *legend, const SwStroke *stroke, const SwFill *fill, const char *code, const char *words)
{
  SwLegendEntry entry = { stroke, fill, code, _(words), SW_SIGN_NONE };
  g_array_append_val (legend, entry);
}

static void
add_sign (GArray *legend, const SwStroke *stroke, const SwFill *fill, SwLegendSign sign, const char *words)
{
  SwLegendEntry entry = { stroke, fill, NULL, _(words), sign };
  g_array_append_val (legend, entry);
}

static void
add_deck (GArray *legend, const SwSheetContext *context)
{
  const SwDeck *deck = context->deck;
  SwJob *job = sw_deck_job (deck);
  add (legend, &void_edge, &void_fill, "1", N_("void number (* measured)"));
  add (legend, &concrete_edge, &concrete_fill, NULL, N_("rib, closure"));
  add (legend, &plate, NULL, NULL, N_("stiffener plate: hold point"));
  if (any_plate (deck, FALSE))
    add (legend, &plate_released, NULL, NULL, N_("plate, released"));
  if (any_plate (deck, TRUE))
    add_sign (legend, &plate_out, &paper_fill, SW_SIGN_RING, N_("plate, taken out"));
  if (any_record (job, SW_TABLE_SOLID))
    add (legend, &concrete_edge, &solid_fill, NULL, N_("solid zone"));
  if (any_record (job, SW_TABLE_OPENING))
    add (legend, &opening, &paper_fill, NULL, N_("opening"));
  if (any_record (job, SW_TABLE_BEAM))
    add (legend, &concrete_edge, &beam_fill, NULL, N_("downstand, ↓ below soffit"));
}

static gboolean
has_line (const GArray *legend, const SwStroke *stroke)
{
  for (guint i = 0; i < legend->len; i++)
    if (g_array_index (legend, SwLegendEntry, i).stroke == stroke)
      return TRUE;
  return FALSE;
}

/* One entry for each line that the runs of a layer are drawn with. */
static void
add_services (GArray *legend, const SwJob *job, SwLayer layer)
{
#define LINE(service) [SW_SERVICE_LINE_##service] = { SW_ROLE_WASTE + SW_SERVICE_LINE_##service, 0.5, SW_SIZE_PAPER, SW_DASH_SERVICE + SW_SERVICE_LINE_##service }
  static const SwStroke strokes[SW_N_SERVICE_LINES] = {
    LINE (WASTE), LINE (COLD_WATER), LINE (HOT_WATER), LINE (POWER), LINE (LIGHTING), LINE (DATA), LINE (FIRE_ALARM), LINE (GAS),
    LINE (CONDENSATE), LINE (REFRIGERANT), LINE (RAINWATER), LINE (DUCT), LINE (SPRINKLER),
  };
#undef LINE
  gboolean used[SW_N_SERVICES] = { FALSE };
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    if (sw_plan_layer_of (job, record) == layer)
      used[((const SwRun *) record)->service] = TRUE;
  for (guint service = 0; service < SW_N_SERVICES; service++)
    if (used[service] && !has_line (legend, &strokes[sw_plan_service_line ((SwService) service)]))
      {
        SwServiceLine line = sw_plan_service_line ((SwService) service);
        const char *words = used[SW_SERVICE_WASTE] && used[SW_SERVICE_SOIL] && line == SW_SERVICE_LINE_WASTE ? _("waste and soil")
                                                                                                            : sw_sheet_word (SW_TABLE_RUN, "service", (int) service);
        SwLegendEntry entry = { &strokes[line], NULL, sw_service_line_code (line), words, SW_SIGN_NONE };
        g_array_append_val (legend, entry);
      }
}

GArray *
sw_sheet_plan_legend (const SwSheetMaker *maker, guint64 layers)
{
  GArray *legend = g_array_new (FALSE, FALSE, sizeof (SwLegendEntry));
  SwJob *job = sw_sheet_job (maker->context);
  if (layers & SW_LAYER_BIT (SW_LAYER_PIPES))
    add_services (legend, job, SW_LAYER_PIPES);
  if (layers & SW_LAYER_BIT (SW_LAYER_CONDUITS))
    add_services (legend, job, SW_LAYER_CONDUITS);
  if (layers & SW_LAYER_BIT (SW_LAYER_LIGHTS) && any_record (job, SW_TABLE_LIGHT))
    add_sign (legend, &light, &light_fill, SW_SIGN_CROSSED_RING, N_("downlight"));
  if (layers & SW_LAYER_BIT (SW_LAYER_HATCHES) && any_record (job, SW_TABLE_HATCH))
    add_sign (legend, &hatch, NULL, SW_SIGN_CROSSED_BOX, N_("hatch"));
  if (layers & SW_LAYER_BIT (SW_LAYER_PIPES) && any_record (job, SW_TABLE_SLEEVE))
    {
      add (legend, &sleeve, NULL, NULL, N_("sleeve cast in or allowed"));
      add (legend, &sleeve_asked, NULL, NULL, N_("sleeve: ask the engineer"));
    }
  if (layers & SW_LAYER_BIT (SW_LAYER_BATTENS) && any_record (job, SW_TABLE_LAYOUT))
    {
      add (legend, &batten, &batten_fill, NULL, N_("batten"));
      if (any_steel (job))
        add (legend, &steel_batten, &steel_fill, NULL, N_("batten of steel"));
      add (legend, &batten, &pale_fill, NULL, N_("along a wall, noggin, trimmer"));
      add (legend, NULL, &fixing_fill, NULL, N_("each dot: a fixing to a rib"));
      if (any_doubled (job))
        add (legend, NULL, NULL, "2×", N_("fixings side by side"));
    }
  if (layers & SW_LAYER_BIT (SW_LAYER_BOARDS) && any_record (job, SW_TABLE_LAYOUT))
    {
      add (legend, &board, &board_fill, "1", N_("piece of board with its number"));
      if (any_movement (job))
        add (legend, &movement, NULL, NULL, N_("movement joint"));
      if (any_strip (job))
        add (legend, NULL, &strip_fill, NULL, N_("no screws here: service behind"));
    }
  if (layers & SW_LAYER_BIT (SW_LAYER_ROOMS) && any_separating (job))
    add (legend, &wall, &wall_fill, NULL, N_("separating wall"));
  if (layers & SW_LAYER_BIT (SW_LAYER_ROOMS) && !(layers & SW_PLAN_BARE) && any_record (job, SW_TABLE_BULKHEAD))
    add (legend, &bulkhead, NULL, NULL, N_("bulkhead: ceiling hangs lower"));
  if (layers & SW_LAYER_BIT (SW_LAYER_DECK))
    add_deck (legend, maker->context);
  return legend;
}
