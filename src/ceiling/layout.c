/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/layout.h"
#include "base/tolerance.h"
#include "ceiling/boards.h"
#include "ceiling/brandering.h"
#include "space/route.h"
#include <string.h>

/* The hash goes over numbers as eight bytes each, lowest first, and texts with their length, in a fixed order; records beside
 * the room's box are left out, so that work in one room does not make the others' layouts stale. */

#define FORMAT "ceiling 3"

typedef struct
{
  GChecksum *sum;
  const SwDeck *deck;
  const SwRules *rules;
  const SwRoom *room;
  SwBox box;
  gboolean unsettled; /* places were met that settling moves */
} Hash;

static void
add_number (Hash *hash, double value)
{
  guint64 bits;
  double plain = value == 0 ? 0 : value; /* −0 is 0 */
  memcpy (&bits, &plain, sizeof bits);
  bits = GUINT64_TO_LE (bits);
  g_checksum_update (hash->sum, (const guchar *) &bits, sizeof bits);
}

static void
add_numbers (Hash *hash, const double *values, gsize n)
{
  add_number (hash, n);
  for (gsize i = 0; i < n; i++)
    add_number (hash, values[i]);
}
#define ADD(hash, ...) add_numbers (hash, (const double[]){ __VA_ARGS__ }, G_N_ELEMENTS (((const double[]){ __VA_ARGS__ })))

/* Whether settling moves the place, turned to any bay of the room. */
static void
note_unsettled (Hash *hash, SwPoint p)
{
  for (guint i = 0; i < sw_deck_n_bays (hash->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (hash->deck, i);
      SwPoint turned = sw_point_turn (p, bay->cosine, -bay->sine);
      if (sw_box_meets (hash->box, sw_record_box (&bay->bay->record)))
        hash->unsettled = hash->unsettled || fabs (turned.x - sw_settle (turned.x)) > 2 * SW_GRID_MM || fabs (turned.y - sw_settle (turned.y)) > 2 * SW_GRID_MM;
    }
}

static void
add_outline (Hash *hash, const SwList *outline)
{
  add_number (hash, outline->n);
  for (guint i = 0; i < outline->n; i++)
    {
      SwPoint p = SW_LIST_AT (*outline, SwPoint, i);
      ADD (hash, p.x, p.y);
      note_unsettled (hash, p);
    }
}

/* What the battens' strength and sag hang on when they are steel. */
static void
add_profiles (Hash *hash)
{
  const double depths[] = { hash->room->batten_depth, hash->room->primary_depth };
  ADD (hash, hash->room->material, sw_ceiling_joint_width (hash->rules, hash->room).value);
  for (gsize i = 0; i < G_N_ELEMENTS (depths); i++)
    {
      SwBattenSection section;
      double strength = 0, span = 0;
      const char *rule;
      sw_ceiling_section (hash->rules, sw_deck_job (hash->deck), hash->room, hash->room->batten_width, depths[i], &section, NULL);
      sw_ceiling_strength (hash->rules, hash->room, &strength, &rule, NULL);
      sw_ceiling_published_span (hash->rules, hash->room, hash->room->batten_width, depths[i], &span, NULL);
      ADD (hash, section.inertia, section.e, section.mass, strength, span);
    }
}

static void
add_room (Hash *hash)
{
  const SwRoom *r = hash->room;
  add_outline (hash, &r->outline);
  ADD (hash, r->finish, r->direction, r->board_kind, r->edge, r->batten_width, r->batten_depth, r->batten_centres, r->batten_shift,
       r->primary_depth, r->primary_centres, r->board_thickness, r->board_length, r->board_width, r->packing,
       r->boards_turned, r->lights, r->joints, r->insulation, sw_deck_lowest_soffit (hash->deck, r));
  if (r->material == SW_BATTENS_STEEL) /* nothing of timber, so that layouts of before stay as they are */
    add_profiles (hash);
}

/* Nothing without any, so that layouts of rooms with one level stay as they are. */
static void
add_bulkheads (Hash *hash)
{
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (hash->deck, hash->room);
  for (guint i = 0; i < bulkheads->len; i++)
    {
      const SwBulkhead *bulkhead = bulkheads->pdata[i];
      add_outline (hash, &bulkhead->outline);
      ADD (hash, bulkhead->record.id, bulkhead->drop, bulkhead->frame);
    }
  if (bulkheads->len > 0)
    add_number (hash, 2); /* how their battens are set out has changed once */
}

/* Whether all of the room's sides run along or across the bay's voids. */
static gboolean
is_square (const SwRoom *room, const SwDeckBay *bay)
{
  for (guint i = 0; i < room->outline.n; i++)
    {
      SwPoint side = sw_point_sub (SW_LIST_AT (room->outline, SwPoint, (i + 1) % room->outline.n), SW_LIST_AT (room->outline, SwPoint, i));
      SwPoint turned = sw_point_turn (side, bay->cosine, -bay->sine);
      if (fmin (fabs (turned.x), fabs (turned.y)) > SW_SETTLE_MM)
        return FALSE;
    }
  return TRUE;
}

/* Nothing for a square room below one bay with nothing in it: others' boards have come to be held at columns, seams and slanting walls. */
static void
add_odd (Hash *hash)
{
  static const SwTable tables[] = { SW_TABLE_COLUMN, SW_TABLE_OPENING, SW_TABLE_BEAM, SW_TABLE_HATCH, SW_TABLE_BULKHEAD };
  gboolean odd = hash->room->outline.n != 4;
  guint bays = 0;
  for (guint i = 0; i < sw_deck_n_bays (hash->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (hash->deck, i);
      if (!sw_box_meets (hash->box, sw_record_box (&bay->bay->record)))
        continue;
      bays++;
      odd = odd || !is_square (hash->room, bay);
    }
  for (gsize t = 0; t < G_N_ELEMENTS (tables); t++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (sw_deck_job (hash->deck), tables[t]); !odd && (record = sw_job_iter_next (&i)) != NULL;)
        odd = sw_box_meets (hash->box, sw_record_box (record));
    }
  if (odd || bays > 1)
    ADD (hash, 4, sw_rules_value (hash->rules, "brandering.setout", "board_over_mm").value);
}

static void
add_bays (Hash *hash)
{
  for (guint i = 0; i < sw_deck_n_bays (hash->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (hash->deck, i);
      if (!sw_box_meets (hash->box, sw_record_box (&bay->bay->record)))
        continue;
      add_outline (hash, &bay->bay->outline);
      ADD (hash, bay->cosine, bay->sine, bay->u_zero, bay->v_zero, bay->level, bay->slope_x, bay->slope_y, bay->level_x,
           bay->level_y, bay->profile->pitch);
      for (guint k = 0; k < bay->ribs->len; k++)
        {
          const SwRib *rib = &g_array_index (bay->ribs, SwRib, k);
          ADD (hash, rib->low, rib->high, rib->u_low, rib->u_high);
        }
    }
}

static void
add_record (Hash *hash, const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_COLUMN:
      add_outline (hash, &((const SwColumn *) record)->outline);
      break;
    case SW_TABLE_OPENING:
      add_outline (hash, &((const SwOpening *) record)->outline);
      break;
    case SW_TABLE_BEAM:
      {
        const SwBeam *beam = (const SwBeam *) record;
        ADD (hash, beam->from.x, beam->from.y, beam->to.x, beam->to.y, beam->width, beam->drop);
        break;
      }
    case SW_TABLE_HATCH:
      {
        const SwHatch *hatch = (const SwHatch *) record;
        ADD (hash, hatch->at.x, hatch->at.y, hatch->length, hatch->width, hatch->turn);
        note_unsettled (hash, (SwPoint){ hatch->at.x - hatch->length / 2, hatch->at.y - hatch->width / 2 });
        break;
      }
    default:
      {
        const SwLight *light = (const SwLight *) record;
        ADD (hash, light->at.x, light->at.y, light->cut_out, light->body);
        if (light->trims)
          add_number (hash, light->trims);
        break;
      }
    }
}

/* How far a record reaches beyond its points. */
static double
reach_of (const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_BEAM:
      return ((const SwBeam *) record)->width;
    case SW_TABLE_HATCH:
      return ((const SwHatch *) record)->length + ((const SwHatch *) record)->width;
    case SW_TABLE_LIGHT:
      return ((const SwLight *) record)->cut_out + ((const SwLight *) record)->body;
    default:
      return 0;
    }
}

static void
add_records (Hash *hash)
{
  static const SwTable tables[] = { SW_TABLE_COLUMN, SW_TABLE_OPENING, SW_TABLE_BEAM, SW_TABLE_HATCH, SW_TABLE_LIGHT };
  for (gsize t = 0; t < G_N_ELEMENTS (tables); t++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (sw_deck_job (hash->deck), tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
        if (sw_box_meets (hash->box, sw_box_grow (sw_record_box (record), reach_of (record))))
          add_record (hash, record);
      add_number (hash, t);
    }
}

static void
add_runs (Hash *hash)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (hash->deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (!sw_box_meets (hash->box, sw_record_box (record)))
        continue;
      g_autoptr (SwRoute) route = sw_route_new (hash->deck, hash->rules, (const SwRun *) record, NULL);
      for (guint k = 0; route != NULL && k < route->n; k++)
        ADD (hash, route->axis[k].x, route->axis[k].y, route->axis[k].z, route->outer, route->radius);
    }
}

static void
add_text (Hash *hash, const char *text)
{
  gsize n = text ? strlen (text) : 0;
  add_number (hash, n);
  g_checksum_update (hash->sum, (const guchar *) (text ? text : ""), (gssize) n);
}

static void
add_cell (Hash *hash, const char *table, const char *row, const char *column)
{
  SwRuleValue value;
  gboolean known = row != NULL && sw_rules_lookup (hash->rules, table, row, column, &value, NULL);
  add_number (hash, known);
  add_number (hash, known ? value.value : 0);
}

static void
add_rules (Hash *hash)
{
  static const char *values[][2] = {
    { "brandering.setout", "wall_face_mm" },    { "brandering.setout", "cantilever_mm" },
    { "brandering.setout", "bearing_mm" },      { "brandering.setout", "joint_width_mm" },
    { "brandering.setout", "primary_most_mm" }, { "brandering.setout", "packer_mm" },
    { "brandering.setout", "hanger_mm" },       { "brandering.setout", "crossing_gap_mm" },
    { "brandering.fixing", "design_n" },        { "brandering.fixing", "push_n" },
    { "timber.limits", "board_divisor" },       { "timber.limits", "duration_factor" },
    { "timber.limits", "material_factor" },     { "timber.limits", "load_density_kg_m3" },
    { "board.layout", "joint_mm" },             { "board.layout", "stagger_supports" },
    { "board.layout", "stagger_share" },        { "board.layout", "sliver_mm" },
    { "board.layout", "edge_good_mm" },         { "board.layout", "light_joint_mm" },
    { "board.layout", "hatch_joint_mm" },       { "board.layout", "kerf_mm" },
    { "board.movement", "plain_m" },            { "board.movement", "plain_m2" },
    { "board.movement", "relief_m" },           { "board.movement", "relief_m2" },
    { "brandering.fixing", "fittings_kg_m2" },  { "timber.limits", "plastered_divisor" },
    { "light.clearances", "batten_mm" },         { "light.clearances", "combustible_mm" },
  };
  static const char *centres[] = { "across_mm", "along_mm", "edge_mm", "perimeter" };
  static const char *spans[] = { "gypsum_6.4_mm", "fibre_cement_mm" };
  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    add_number (hash, sw_rules_value (hash->rules, values[i][0], values[i][1]).value);
  const char *row = sw_ceiling_board_row (hash->rules, "brandering.centres", hash->room, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (centres); i++)
    add_cell (hash, "brandering.centres", row, centres[i]);
  g_autofree char *section = g_strdup_printf ("%dx%d", (int) lround (hash->room->batten_width), (int) lround (hash->room->batten_depth));
  for (gsize i = 0; i < G_N_ELEMENTS (spans); i++)
    add_cell (hash, "brandering.spans", section, spans[i]);
  add_cell (hash, "board.kinds", sw_ceiling_board_row (hash->rules, "board.kinds", hash->room, NULL), "mass_kg_m2");
  add_cell (hash, "timber.grades", sw_ceiling_grade (hash->rules, hash->room), "e_mpa");
  add_cell (hash, "timber.grades", sw_ceiling_grade (hash->rules, hash->room), "bending_mpa");
  add_cell (hash, "deck.edge_distance", "screw-anchor", "edge_mm");
  add_cell (hash, "material.density", "glass-wool", "density_kg_m3");
  add_number (hash, sw_ceiling_longest_field (hash->rules, sw_deck_job (hash->deck), hash->room, NULL));
  double field = 1e3 * sw_ceiling_longest_field (hash->rules, sw_deck_job (hash->deck), hash->room, NULL);
  if (sw_point_distance (hash->box.low, hash->box.high) > field) /* joints along the ribs came later than layouts */
    ADD (hash, 1, sw_rules_value (hash->rules, "brandering.fixing", "end_mm").value);
  const SwPrice *price = sw_ceiling_board_price (sw_deck_job (hash->deck), hash->room);
  if (price != NULL && price->centres > 0) /* nothing without, so that layouts of before stay as they are */
    add_number (hash, price->centres);
}

/* Where the sheet or the battens' direction is to be the cheapest, the price list is a part of what it was found from: a row of the room's board, whichever its size. */
static void
add_sheet_prices (Hash *hash)
{
  g_autofree char *start = sw_ceiling_board_code (hash->room, FALSE);
  const SwRecord *record;
  ADD (hash, hash->room->sheet_choice, hash->room->sheet_most);
  if (hash->room->battens_least)
    {
      g_autofree char *section = sw_ceiling_section_size (hash->room, hash->room->batten_width, hash->room->batten_depth);
      g_autofree char *code = g_strconcat ("batten-", section, NULL);
      record = sw_job_find (sw_deck_job (hash->deck), code);
      const SwPrice *price = record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? (const SwPrice *) record : NULL;
      ADD (hash, 1, price != NULL ? (double) price->material + (double) price->labour : 0);
    }
  for (SwJobIter i = sw_job_iter (sw_deck_job (hash->deck), SW_TABLE_PRICE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwPrice *price = (const SwPrice *) record;
      if (!g_str_has_prefix (record->tag, start))
        continue;
      add_text (hash, record->tag);
      ADD (hash, (double) price->material, (double) price->labour, price->centres, price->field, price->fire_minutes, price->wet);
    }
}

char *
sw_ceiling_inputs_hash (const SwDeck *deck, const SwRules *rules, const SwRoom *room)
{
  Hash hash = { g_checksum_new (G_CHECKSUM_SHA256), deck, rules, room, sw_record_box (&room->record) };
  add_text (&hash, FORMAT);
  add_room (&hash);
  add_bulkheads (&hash);
  add_odd (&hash);
  add_bays (&hash);
  add_records (&hash);
  add_runs (&hash);
  add_rules (&hash);
  if (room->sheet_choice == SW_SHEET_CHEAPEST || room->battens_least) /* nothing for others, as above */
    add_sheet_prices (&hash);
  if (hash.unsettled) /* walls were settled to a grid later than layouts, which stay as they are where that moves nothing */
    add_number (&hash, SW_SETTLE_STEP_MM);
  char *text = g_strdup (g_checksum_get_string (hash.sum));
  g_checksum_free (hash.sum);
  return text;
}

const SwLayout *
sw_ceiling_layout_of (const SwJob *job, SwId room)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwLayout *) record)->room == room)
      return (const SwLayout *) record;
  return NULL;
}

gboolean
sw_ceiling_layout_is_steel (const SwJob *job, const SwLayout *layout)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
  return room != NULL && room->material == SW_BATTENS_STEEL;
}

SwPoint
sw_ceiling_batten_way (const SwLayout *layout)
{
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      double length = sw_point_distance (member->from, member->to);
      if (member->kind == SW_MEMBER_BATTEN && length > 0)
        return sw_point_scale (sw_point_sub (member->to, member->from), 1 / length);
    }
  return (SwPoint){ 0, 0 };
}

GArray *
sw_ceiling_fixing_counts (const SwLayout *layout)
{
  GArray *counts = g_array_sized_new (FALSE, FALSE, sizeof (guint), layout->fixings.n);
  for (guint i = 0, mark = 0; i < layout->fixings.n; i++)
    {
      guint count = 1;
      SwPoint at = SW_LIST_AT (layout->fixings, SwFixing, i).at;
      while (mark < layout->marks.n && SW_LIST_AT (layout->marks, SwLaidMark, mark).kind != SW_CEILING_FIXING)
        mark++;
      const SwLaidMark *heavy = mark < layout->marks.n ? &SW_LIST_AT (layout->marks, SwLaidMark, mark) : NULL;
      if (heavy != NULL && sw_point_distance (heavy->at, at) < SW_TOUCH_MM) /* they were written in one go, in one order */
        {
          count = (guint) fmax (2, ceil (heavy->value / heavy->limit - 1e-3));
          mark++;
        }
      g_array_append_val (counts, count);
    }
  return counts;
}

gboolean
sw_ceiling_layout_is_stale (const SwLayout *layout, const SwDeck *deck, const SwRules *rules)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (sw_deck_job (deck), layout->room);
  if (room == NULL)
    return TRUE;
  g_autofree char *inputs = sw_ceiling_inputs_hash (deck, rules, room);
  return strcmp (inputs, layout->inputs) != 0;
}

gboolean
sw_ceiling_layout_is_current (const SwSpace *space, const SwRoom *room, const SwLayout *layout, gpointer data)
{
  return !sw_ceiling_layout_is_stale (layout, sw_space_deck (space), sw_space_rules (space));
}

/* ---- to and from records ---- */

static void
write_members (const SwCeiling *ceiling, SwLayout *layout)
{
  SwMember *members = sw_list_resize (&layout->members, &sw_struct_member, ceiling->members->len);
  for (guint i = 0; i < ceiling->members->len; i++)
    members[i] = g_array_index (ceiling->members, SwCeilingMember, i).member;
  SwFixing *fixings = sw_list_resize (&layout->fixings, &sw_struct_fixing, ceiling->fixings->len);
  for (guint i = 0; i < ceiling->fixings->len; i++)
    fixings[i] = g_array_index (ceiling->fixings, SwCeilingFixing, i).fixing;
}

static void
write_marks (const SwCeiling *ceiling, SwLayout *layout)
{
  SwLaidMark *marks = sw_list_resize (&layout->marks, &sw_struct_laid_mark, ceiling->marks->len);
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      const SwCeilingMark *mark = &g_array_index (ceiling->marks, SwCeilingMark, i);
      double value = isfinite (mark->value) ? mark->value : 0;
      marks[i] = (SwLaidMark){ { sw_grid_round (mark->at.x), sw_grid_round (mark->at.y) }, sw_grid_round (value), sw_grid_round (mark->limit), (int) mark->kind };
    }
}

static void
write_boards (const SwCeiling *ceiling, SwLayout *layout)
{
  SwPiece *pieces = sw_list_resize (&layout->pieces, &sw_struct_piece, ceiling->pieces->len);
  SwCorner *corners = sw_list_resize (&layout->corners, &sw_struct_corner, ceiling->corners->len);
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      pieces[i] = piece->piece;
      for (guint k = piece->first; k < piece->first + piece->n; k++)
        corners[k] = (SwCorner){ piece->piece.piece, g_array_index (ceiling->corners, SwPoint, k) };
    }
  SwFacePiece *faces = sw_list_resize (&layout->faces, &sw_struct_face_piece, ceiling->face_pieces->len);
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    faces[i] = g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
  SwJoint *joints = sw_list_resize (&layout->joints, &sw_struct_joint, ceiling->joints->len);
  if (ceiling->joints->len > 0)
    memcpy (joints, ceiling->joints->data, sizeof (SwJoint) * ceiling->joints->len);
  SwOddSheet *sheets = sw_list_resize (&layout->sheets, &sw_struct_odd_sheet, ceiling->sheets->len);
  if (ceiling->sheets->len > 0)
    memcpy (sheets, ceiling->sheets->data, sizeof (SwOddSheet) * ceiling->sheets->len);
  SwStrip *strips = sw_list_resize (&layout->strips, &sw_struct_strip, ceiling->strips->len);
  if (ceiling->strips->len > 0)
    memcpy (strips, ceiling->strips->data, sizeof (SwStrip) * ceiling->strips->len);
}

gboolean
sw_ceiling_store (const SwCeiling *ceiling, SwEdit *edit, const SwJob *job, GError **error)
{
  const SwLayout *old = sw_ceiling_layout_of (job, ceiling->room->record.id);
  SwRecord *record = old ? sw_record_copy (&old->record) : sw_edit_create (edit, job, SW_TABLE_LAYOUT);
  SwLayout *layout = (SwLayout *) record;
  g_autofree char *inputs = sw_ceiling_inputs_hash (ceiling->deck, ceiling->rules, ceiling->room);
  layout->room = ceiling->room->record.id;
  sw_text_set (&layout->inputs, inputs);
  write_members (ceiling, layout);
  write_boards (ceiling, layout);
  write_marks (ceiling, layout);
  return sw_edit_put (edit, job, record, error);
}

static void
recall_boards (const SwLayout *layout, SwCeiling *ceiling)
{
  guint at = 0, sheets = 0;
  for (guint i = 0; i < layout->corners.n; i++)
    g_array_append_val (ceiling->corners, SW_LIST_AT (layout->corners, SwCorner, i).at);
  for (guint i = 0; i < layout->pieces.n; i++)
    {
      SwCeilingPiece piece = { .piece = SW_LIST_AT (layout->pieces, SwPiece, i), .first = at };
      while (at < layout->corners.n && SW_LIST_AT (layout->corners, SwCorner, at).piece == piece.piece.piece)
        at++;
      piece.n = at - piece.first;
      if (piece.n > 2)
        piece.area = fabs (sw_outline_area (&g_array_index (ceiling->corners, SwPoint, piece.first), piece.n));
      sheets = MAX (sheets, (guint) MAX (piece.piece.sheet, 0));
      g_array_append_val (ceiling->pieces, piece);
    }
  for (guint i = 0; i < layout->faces.n; i++)
    {
      SwCeilingFacePiece piece = { SW_LIST_AT (layout->faces, SwFacePiece, i), 0, 0 };
      sheets = MAX (sheets, (guint) MAX (piece.piece.sheet, 0));
      g_array_append_val (ceiling->face_pieces, piece);
    }
  ceiling->n_sheets = sheets;
  g_array_append_vals (ceiling->joints, layout->joints.items, layout->joints.n);
  g_array_append_vals (ceiling->strips, layout->strips.items, layout->strips.n);
  g_array_append_vals (ceiling->sheets, layout->sheets.items, layout->sheets.n);
}

/* What is stored and no more: for a layout that its inputs have left behind. */
static SwCeiling *
recall_plain (const SwLayout *layout, SwDeck *deck, SwRules *rules, const SwRoom *room)
{
  SwCeiling *ceiling = sw_ceiling_new (deck, rules, room);
  ceiling->sheet_length = room->board_length;
  ceiling->sheet_width = room->board_width;
  ceiling->turned = room->boards_turned;
  for (guint i = 0; i < layout->members.n; i++)
    {
      SwCeilingMember member = { .member = SW_LIST_AT (layout->members, SwMember, i) };
      g_array_append_val (ceiling->members, member);
      *(member.member.kind == SW_MEMBER_PRIMARY ? &ceiling->primary_top : &ceiling->top) = member.member.top;
    }
  g_autoptr (GArray) counts = sw_ceiling_fixing_counts (layout);
  for (guint i = 0; i < layout->fixings.n; i++)
    {
      SwCeilingFixing fixing = { .fixing = SW_LIST_AT (layout->fixings, SwFixing, i), .count = g_array_index (counts, guint, i) };
      g_array_append_val (ceiling->fixings, fixing);
    }
  recall_boards (layout, ceiling);
  return ceiling;
}

/* Battens follow from the inputs, boards from what was chosen. NULL when the layout is not from these inputs. */
static SwCeiling *
recall_whole (const SwLayout *layout, SwDeck *deck, SwRules *rules, const SwRoom *room, GCancellable *cancellable)
{
  g_autofree char *inputs = sw_ceiling_inputs_hash (deck, rules, room);
  if (strcmp (inputs, layout->inputs) != 0)
    return NULL;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_lay (deck, rules, room, NULL, cancellable, NULL);
  if (ceiling == NULL || !sw_ceiling_board_recall (ceiling, layout, NULL))
    return NULL;
  return g_steal_pointer (&ceiling);
}

SwCeiling *
sw_ceiling_recall (const SwLayout *layout, SwDeck *deck, SwRules *rules)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (sw_deck_job (deck), layout->room);
  if (room == NULL)
    return NULL;
  SwCeiling *whole = recall_whole (layout, deck, rules, room, NULL);
  return whole ? whole : recall_plain (layout, deck, rules, room);
}

SwCeiling *
sw_ceiling_of_room (SwDeck *deck, SwRules *rules, const SwRoom *room, GCancellable *cancellable, GError **error)
{
  const SwLayout *layout = sw_ceiling_layout_of (sw_deck_job (deck), room->record.id);
  SwCeiling *ceiling = layout ? recall_whole (layout, deck, rules, room, cancellable) : NULL;
  SwCeilingOptions options = { .keep = layout };
  return ceiling ? ceiling : sw_ceiling_plan (deck, rules, room, &options, cancellable, error);
}
