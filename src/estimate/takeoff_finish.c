/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One room's finish. A closed ceiling is laid by its engine and counted piece by piece; boards are jointed, skimmed and painted.
 * An open soffit is cleaned and painted by developed area. A suspended grid goes by area, its hangers hang from ribs only:
 * on every rib that its runners need, at the rule set's distance. */
#include "ceiling/batten_rules.h"
#include "ceiling/boards.h"
#include "ceiling/layout.h"
#include "ceiling/totals.h"
#include "estimate/paint.h"
#include "estimate/takeoff_parts.h"
#include "geometry/outline.h"

typedef enum { SIZE_NONE, SIZE_SECTION, SIZE_SHEET, SIZE_THICKNESS } TotalSize;

static const struct
{
  SwTotalKind total;
  SwPriceKind price;
  TotalSize size;
} counted[] = {
  { SW_TOTAL_SHEETS, SW_PRICE_BOARD, SIZE_SHEET },
  { SW_TOTAL_BATTEN, SW_PRICE_BATTEN, SIZE_SECTION },
  { SW_TOTAL_PRIMARY, SW_PRICE_PRIMARY, SIZE_SECTION },
  { SW_TOTAL_NOGGIN, SW_PRICE_NOGGIN, SIZE_SECTION },
  { SW_TOTAL_TRIMMER, SW_PRICE_TRIMMER, SIZE_SECTION },
  { SW_TOTAL_PERIMETER, SW_PRICE_WALL_BATTEN, SIZE_SECTION },
  { SW_TOTAL_STUD, SW_PRICE_STUD, SIZE_SECTION },
  { SW_TOTAL_BEAD, SW_PRICE_BEAD, SIZE_NONE },
  { SW_TOTAL_SCREWS, SW_PRICE_SCREW, SIZE_NONE },
  { SW_TOTAL_JOINT_MOVEMENT, SW_PRICE_MOVEMENT_JOINT, SIZE_NONE },
  { SW_TOTAL_TAPE, SW_PRICE_TAPE, SIZE_NONE },
  { SW_TOTAL_COMPOUND, SW_PRICE_COMPOUND, SIZE_NONE },
  { SW_TOTAL_COVER_STRIP, SW_PRICE_COVER_STRIP, SIZE_NONE },
  { SW_TOTAL_FIXINGS, SW_PRICE_FIXING, SIZE_NONE },
  { SW_TOTAL_LONG_FIXINGS, SW_PRICE_LONG_FIXING, SIZE_NONE },
  { SW_TOTAL_HANGERS, SW_PRICE_HANGER, SIZE_NONE },
  { SW_TOTAL_PACKERS, SW_PRICE_PACKER, SIZE_NONE },
  { SW_TOTAL_CLIPS, SW_PRICE_CLIP, SIZE_NONE },
  { SW_TOTAL_INSULATION, SW_PRICE_INSULATION, SIZE_THICKNESS },
};

/* With cornices only: the walls' length is what a shadow line needs too. */
static const struct
{
  SwTotalKind total;
  SwPriceKind price;
} cornice[] = {
  { SW_TOTAL_CORNICE, SW_PRICE_CORNICE }, { SW_TOTAL_MITRES, SW_PRICE_MITRE }, { SW_TOTAL_ADHESIVE, SW_PRICE_ADHESIVE },
};

static char *
sheet_size (const SwRoom *room, const SwTotal *total)
{
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "board");
  g_autofree char *sheet = sw_takeoff_pair (total->a, total->b), *thickness = sw_takeoff_number (room->board_thickness);
  return g_strdup_printf ("%s-%s-%s", field->words[room->board_kind].key, thickness, sheet);
}

static char *
size_of (TotalSize kind, const SwRoom *room, const SwTotal *total)
{
  switch (kind)
    {
    case SIZE_SECTION:
      return sw_ceiling_section_size (room, total->a, total->b);
    case SIZE_SHEET:
      return sheet_size (room, total);
    case SIZE_THICKNESS:
      return sw_takeoff_number (total->length);
    default:
      return NULL;
    }
}

/* Metres of one section: of the members, and of the stock that they are cut from when the room is cut by itself. */
static void
section_metres (const SwTotals *totals, double a, double b, double *net, double *bought)
{
  *net = *bought = 0;
  for (guint i = 0; i < totals->totals->len; i++)
    {
      const SwTotal *total = &g_array_index (totals->totals, SwTotal, i);
      if (total->a != a || total->b != b)
        continue;
      if (total->kind == SW_TOTAL_STOCK)
        *bought += sw_quantity_to_double (total->quantity) * total->length / 1e3;
      for (gsize k = 0; k < G_N_ELEMENTS (counted); k++)
        if (counted[k].size == SIZE_SECTION && counted[k].total == total->kind)
          *net += sw_quantity_to_double (total->quantity);
    }
}

/* What the total takes of the stock that it is cut from; 0 for what is not cut. */
static double
bought_for (const SwTakeoffWork *work, const SwTotals *totals, const SwTotal *total, TotalSize size)
{
  double net, bought, quantity = sw_quantity_to_double (total->quantity);
  if (total->kind == SW_TOTAL_BEAD)
    return sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_BEAD_LENGTHS)) * sw_rules_value (work->rules, "board.takeoff", "bead_length_mm").value / 1e3;
  if (size != SIZE_SECTION)
    return 0;
  section_metres (totals, total->a, total->b, &net, &bought);
  return net > 0 ? quantity * bought / net : 0;
}

static void
add_total (const SwTakeoffWork *work, const SwRoom *room, const SwTotals *totals, const SwTotal *total, SwId thing)
{
  for (gsize i = 0; i < G_N_ELEMENTS (counted); i++)
    if (counted[i].total == total->kind)
      {
        g_autofree char *size = size_of (counted[i].size, room, total);
        gboolean into_steel = total->kind == SW_TOTAL_SCREWS && room->material == SW_BATTENS_STEEL;
        sw_needs_add_cut (work->needs, into_steel ? SW_PRICE_STEEL_SCREW : counted[i].price, size, sw_quantity_to_double (total->quantity),
                          bought_for (work, totals, total, counted[i].size), room->record.id, thing);
      }
}

static void
add_edge (const SwTakeoffWork *work, const SwRoom *room, int edge, const SwTotals *totals, SwId thing)
{
  SwId id = room->record.id;
  double bought = sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_CORNICE_LENGTHS)) * sw_rules_value (work->rules, "board.takeoff", "cornice_length_mm").value / 1e3;
  if (edge == SW_EDGE_SHADOW)
    sw_needs_add_cut (work->needs, SW_PRICE_SHADOW_LINE, NULL, sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_CORNICE)), bought, id, thing);
  for (gsize i = 0; i < G_N_ELEMENTS (cornice) && edge == SW_EDGE_CORNICE; i++)
    sw_needs_add_cut (work->needs, cornice[i].price, NULL, sw_quantity_to_double (sw_totals_sum (totals, cornice[i].total)),
                      cornice[i].total == SW_TOTAL_CORNICE ? bought : 0, id, thing);
}

/* Skim on the boards where they are skimmed, and paint. */
static gboolean
add_surface (const SwTakeoffWork *work, const SwRoom *room, double area, SwId thing, GError **error)
{
  SwRuleValue coats;
  double litres, skim = sw_rules_value (work->rules, "board.takeoff", "skim_kg_m2").value;
  double loss = sw_rules_value (work->rules, "paint.rules", "loss_percent").value;
  if (!sw_rules_lookup (work->rules, "paint.systems", "finish", "coats", &coats, error)
      || !sw_paint_litres_of (work->rules, "finish", area, loss, &litres, error))
    return FALSE;
  if (room->joints == SW_BOARD_JOINTS_SKIM)
    {
      sw_needs_add (work->needs, SW_PRICE_SKIM, NULL, area * skim, room->record.id, thing);
      sw_needs_add (work->needs, SW_PRICE_SKIMMING, NULL, area, room->record.id, thing);
    }
  else if (room->joints == SW_BOARD_JOINTS_TAPE)
    sw_needs_add (work->needs, SW_PRICE_JOINTING, NULL, area, room->record.id, thing);
  sw_needs_add (work->needs, SW_PRICE_FINISH, NULL, litres, room->record.id, thing);
  sw_needs_add (work->needs, SW_PRICE_CEILING_COAT, NULL, area * coats.value, room->record.id, thing);
  return TRUE;
}

static void
add_hatches (const SwTakeoffWork *work, const SwRoom *room)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      g_autofree char *size = sw_takeoff_pair (hatch->length, hatch->width);
      if (sw_outline_holds (room->outline.items, room->outline.n, hatch->at))
        sw_needs_add (work->needs, SW_PRICE_HATCH, size, 1, room->record.id, record->id);
    }
}

/* The layout that the job holds, when the engine finds the same; else a note. */
static SwId
layout_of (const SwTakeoffWork *work, const SwRoom *room, const SwCeiling *ceiling)
{
  const SwLayout *layout = sw_ceiling_layout_of (sw_takeoff_job (work), room->record.id);
  if (layout != NULL && !sw_ceiling_layout_is_stale (layout, work->deck, work->rules)
      && layout->members.n == ceiling->members->len && layout->pieces.n == ceiling->pieces->len
      && layout->faces.n == ceiling->face_pieces->len)
    return layout->record.id;
  sw_takeoff_note (work, SW_TAKEOFF_NEW_LAYOUT, room->record.id, NULL);
  return room->record.id;
}

/* `room` is a copy that may be changed; the engine borrows it. */
static gboolean
take_closed (const SwTakeoffWork *work, SwRoom *room, GError **error)
{
  int edge = room->edge;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_of_room (work->deck, work->rules, room, work->cancellable, error);
  if (ceiling == NULL)
    return FALSE;
  room->edge = SW_EDGE_CORNICE; /* the walls' length is wanted for shadow lines too */
  g_autoptr (SwTotals) totals = sw_totals_new (ceiling, work->cancellable, error);
  if (totals == NULL)
    return FALSE;
  SwId thing = layout_of (work, room, ceiling);
  for (guint i = 0; i < totals->totals->len; i++)
    add_total (work, room, totals, &g_array_index (totals->totals, SwTotal, i), thing);
  add_edge (work, room, edge, totals, thing);
  add_hatches (work, room);
  return add_surface (work, room, sw_quantity_to_double (sw_totals_sum (totals, SW_TOTAL_BOARD_AREA)), thing, error);
}

static gboolean
take_exposed (const SwTakeoffWork *work, const SwRoom *room, GError **error)
{
  SwPaint paint;
  SwId id = room->record.id;
  if (!sw_paint_room (work->deck, work->rules, room, &paint, error))
    return FALSE;
  sw_needs_add (work->needs, SW_PRICE_CLEAN, NULL, paint.steel_m2 + paint.concrete_m2, id, id);
  sw_needs_add (work->needs, SW_PRICE_ZINC_PRIMER, NULL, paint.zinc_primer_l, id, id);
  sw_needs_add (work->needs, SW_PRICE_ALKALI_PRIMER, NULL, paint.alkali_primer_l, id, id);
  sw_needs_add (work->needs, SW_PRICE_FINISH, NULL, paint.finish_l, id, id);
  sw_needs_add (work->needs, SW_PRICE_SOFFIT_COAT, NULL, paint.coats_m2, id, id);
  return TRUE;
}

/* Hangers under one bay. */
static guint
count_hangers (const SwTakeoffWork *work, const SwDeckBay *bay, const SwRoom *room)
{
  double every = sw_rules_value (work->rules, "ceiling.suspended", "hanger_mm").value;
  guint step = MAX (1, (guint) (every / bay->profile->pitch)), met = 0, count = 0;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (SwInterval)), hangers = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < bay->ribs->len; i++)
    {
      guint here = 0;
      sw_soffit_spans (work->deck, bay, room, g_array_index (bay->ribs, SwRib, i).v, spans);
      for (guint k = 0; k < spans->len; k++)
        here += (guint) ceil ((g_array_index (spans, SwInterval, k).high - g_array_index (spans, SwInterval, k).low) / every - 1e-9);
      if (here > 0)
        g_array_append_val (hangers, here);
    }
  met = hangers->len;
  for (guint i = 0; i < met; i += step)
    count += g_array_index (hangers, guint, MIN (i + step / 2, met - 1));
  return count;
}

static void
take_grid (const SwTakeoffWork *work, const SwRoom *room)
{
  guint hangers = 0;
  SwId id = room->record.id;
  SwBox box = sw_record_box (&room->record);
  for (guint i = 0; i < sw_deck_n_bays (work->deck); i++)
    if (sw_box_meets (box, sw_record_box (&sw_deck_bay (work->deck, i)->bay->record)))
      hangers += count_hangers (work, sw_deck_bay (work->deck, i), room);
  sw_needs_add (work->needs, SW_PRICE_GRID, NULL, sw_soffit_area (work->deck, room).plan / 1e6, id, id);
  sw_needs_add (work->needs, SW_PRICE_GRID_EDGE, NULL, sw_outline_perimeter (room->outline.items, room->outline.n) / 1e3, id, id);
  sw_needs_add (work->needs, SW_PRICE_GRID_HANGER, NULL, hangers, id, id);
}

gboolean
sw_takeoff_room (const SwTakeoffWork *work, const SwRoom *room, GError **error)
{
  if (room->finish == SW_FINISH_EXPOSED)
    return take_exposed (work, room, error);
  if (room->finish == SW_FINISH_CLOSED)
    {
      g_autoptr (SwRecord) copy = sw_record_copy (&room->record);
      return take_closed (work, (SwRoom *) copy, error);
    }
  take_grid (work, room);
  return TRUE;
}
