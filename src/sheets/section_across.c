/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cut is a slice of the solids: what the slice holds of a tube is drawn as a disc when it passes through, as a bar when
 * it lies in it. Distances are measured in the cut, between the tube as laid (with its lagging) and what stands next to it
 * at the height of its axis; the nearest way in space may be shorter, which is the checks' affair. Cost: one walk over the
 * bodies near the slice. */
#include "sheets/section.h"
#include "base/number.h"
#include "ceiling/layout.h"
#include "drawing/pattern.h"
#include "sheets/plan.h"
#include "sheets/words.h"
#include <string.h>

#define SLICE_MM 60.0  /* half the thickness that counts as in the cut */
#define BELOW_MM 420.0 /* how far walls are drawn down */
#define SMALL 2.2      /* letters, mm on paper */

typedef struct
{
  SwDisplay *display;
  const SwSpace *space;
  const SwDeck *deck;
  const SwSectionCut *cut;
  double z; /* soffit at the cut's place */
} Section;

gboolean
sw_section_cut_at (const SwDeck *deck, SwPoint at, SwSectionCut *cut)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, at);
  if (bay == NULL)
    return FALSE;
  SwPoint uv = sw_deck_to_bay (bay, at);
  *cut = (SwSectionCut){ bay, uv.x, uv.y };
  return TRUE;
}

SwPoint
sw_section_to_plan (const SwSectionCut *cut, double x)
{
  return sw_deck_from_bay (cut->bay, (SwPoint){ cut->u, x });
}

static double
soffit_z (const SwSectionCut *cut, double v)
{
  return sw_deck_soffit (cut->bay, sw_section_to_plan (cut, v));
}

SwBox
sw_section_box_across (const SwDeck *deck, const SwSectionCut *cut)
{
  double pitch = cut->bay->profile->pitch, z = soffit_z (cut, cut->v);
  double top = cut->bay->profile->depth + cut->bay->profile->topping;
  return (SwBox){ { cut->v - 1.6 * pitch, z - 160 }, { cut->v + 1.6 * pitch, z + top + 60 } };
}

static void
put_text (Section *s, SwPoint at, const char *text, SwColourRole role, SwTextAlign align, SwTextRise rise)
{
  SwTextStyle style = { .role = role, .height = SMALL, .unit = SW_SIZE_PAPER, .align = align, .rise = rise, .halo = TRUE };
  sw_display_add_text (s->display, at, text, &style);
}

static void
begin (Section *s, SwId id, const char *class_name)
{
  const SwRecord *record = sw_job_get (sw_space_job (s->space), id);
  g_autofree char *title = record != NULL ? sw_plan_title (record, sw_job_lengths (sw_space_job (s->space))) : NULL;
  sw_display_begin_group (s->display, &(SwDisplayGroup){ { (int) SW_ID_TABLE (id), 0, id }, NULL, class_name, title, NULL });
}

/* ---- Concrete ---- */

static void
draw_void (Section *s, guint index)
{
  static const SwFill hollow = { .role = SW_ROLE_PAPER };
  static const SwStroke steel = { .role = SW_ROLE_STEEL, .width = 0.35, .unit = SW_SIZE_PAPER };
  const SwDeckBay *bay = s->cut->bay;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, index);
  double lean = (bay->profile->mouth - bay->profile->crown) / 2;
  double zl = soffit_z (s->cut, v->low), zh = soffit_z (s->cut, v->high);
  SwPoint trough[4] = { { v->low, zl }, { v->low + lean, zl + v->depth }, { v->high - lean, zh + v->depth }, { v->high, zh } };
  g_autofree char *number = g_strdup_printf ("%d", v->number);
  if (sw_deck_reach_at (bay, index, s->cut->u) != NULL)
    {
      sw_display_add_polygon (s->display, trough, 4, &hollow, NULL);
      sw_display_add_polyline (s->display, trough, 4, &steel);
    }
  put_text (s, (SwPoint){ v->v, zl + v->depth + bay->profile->topping / 2 }, number, SW_ROLE_DIMENSION, SW_ALIGN_MIDDLE, SW_RISE_MIDDLE);
}

static void
draw_plates (Section *s)
{
  static const SwFill lines = { .role = SW_ROLE_PLATE, .hatching = SW_HATCHING_WIDE, .transparency = 0.4 };
  const SwDeckBay *bay = s->cut->bay;
  double lean = (bay->profile->mouth - bay->profile->crown) / 2;
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      const SwVoid *v = &g_array_index (bay->voids, SwVoid, plate->void_index);
      if (fabs (plate->u - s->cut->u) > SLICE_MM || plate->out)
        continue;
      double z = soffit_z (s->cut, v->v);
      SwPoint trough[4] = { { v->low, z }, { v->low + lean, z + v->depth }, { v->high - lean, z + v->depth }, { v->high, z } };
      sw_display_add_polygon (s->display, trough, 4, &lines, NULL);
    }
}

static void
draw_concrete (Section *s)
{
  static const SwFill concrete = { .role = SW_ROLE_CONCRETE };
  static const SwStroke edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER };
  const SwDeckBay *bay = s->cut->bay;
  double top = bay->profile->depth + bay->profile->topping, a = 0, b = bay->breadth;
  SwPoint slab[4] = { { a, soffit_z (s->cut, a) }, { b, soffit_z (s->cut, b) }, { b, soffit_z (s->cut, b) + top }, { a, soffit_z (s->cut, a) + top } };
  sw_display_set_layer (s->display, SW_LAYER_DECK);
  begin (s, bay->bay->record.id, "bay");
  sw_display_add_polygon (s->display, slab, 4, &concrete, &edge);
  for (guint i = 0; i < bay->voids->len; i++)
    draw_void (s, i);
  draw_plates (s);
  sw_display_end (s->display);
}

/* ---- Bodies ---- */

static SwPoint
to_section (const Section *s, SwPoint3 p)
{
  return (SwPoint){ sw_deck_to_bay (s->cut->bay, (SwPoint){ p.x, p.y }).y, p.z };
}

static double
u_of (const Section *s, SwPoint3 p)
{
  return sw_deck_to_bay (s->cut->bay, (SwPoint){ p.x, p.y }).x;
}

/* The part of a leg within the slice, in the section's coordinates. FALSE when it misses it. */
static gboolean
clip_leg (const Section *s, SwPoint3 a, SwPoint3 b, SwPoint *from, SwPoint *to)
{
  double ua = u_of (s, a), ub = u_of (s, b), low = s->cut->u - SLICE_MM, high = s->cut->u + SLICE_MM, t0 = 0, t1 = 1;
  if (MAX (ua, ub) < low || MIN (ua, ub) > high)
    return FALSE;
  if (fabs (ub - ua) > 1e-9)
    {
      double x = (low - ua) / (ub - ua), y = (high - ua) / (ub - ua);
      t0 = MAX (t0, MIN (x, y));
      t1 = MIN (t1, MAX (x, y));
    }
  *from = to_section (s, sw_point3_lerp (a, b, t0));
  *to = to_section (s, sw_point3_lerp (a, b, t1));
  return TRUE;
}

static void
draw_leg (Section *s, const SwRoute *route, SwPoint from, SwPoint to)
{
  SwColourRole role = sw_service_line_role (sw_plan_service_line (route->run->service));
  SwFill fill = { .role = role, .transparency = 0.35 }, lagging = { .role = role, .transparency = 0.8 };
  SwStroke ring = { .role = role, .width = 0.35, .unit = SW_SIZE_PAPER };
  SwStroke bar = { .role = role, .width = 2 * route->radius, .unit = SW_SIZE_WORLD, .round = TRUE, .transparency = 0.5 };
  if (sw_point_distance (from, to) > route->radius)
    {
      sw_display_add_line (s->display, from, to, &bar);
      sw_display_add_line (s->display, from, to, &ring);
      return;
    }
  SwPoint middle = sw_point_lerp (from, to, 0.5);
  if (route->outer > route->radius)
    sw_display_add_circle (s->display, middle, route->outer, &lagging, &ring);
  sw_display_add_circle (s->display, middle, route->radius, &fill, &ring);
  if (route->bore > 0 && route->bore < 2 * route->radius)
    sw_display_add_circle (s->display, middle, route->bore / 2, NULL, &ring);
}

static void
draw_run (Section *s, const SwRoute *route)
{
  gboolean named = FALSE, open = FALSE;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint from, to;
      if (!clip_leg (s, route->axis[i], route->axis[i + 1], &from, &to))
        continue;
      if (!open)
        {
          SwJob *job = sw_space_job (s->space);
          sw_display_set_layer (s->display, sw_plan_layer_of (job, &route->run->record));
          begin (s, route->run->record.id, sw_role_name (sw_service_line_role (sw_plan_service_line (route->run->service))));
          open = TRUE;
        }
      draw_leg (s, route, from, to);
      if (!named)
        /* Beside the distance to the crown and above that to the web. */
        put_text (s, (SwPoint){ (from.x + to.x) / 2 + route->outer + 36, MAX (from.y, to.y) + route->outer + 16 }, route->run->record.tag,
                  sw_service_line_role (sw_plan_service_line (route->run->service)), SW_ALIGN_LEFT, SW_RISE_BASELINE);
      named = TRUE;
    }
  if (open)
    sw_display_end (s->display);
}

static void
draw_runs (Section *s)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_space_job (s->space), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoute *route = sw_space_route (s->space, record->id);
      if (route != NULL)
        draw_run (s, route);
    }
}

/* What a body takes of the section: its box in the bay's frame, from its eight corners. */
static gboolean
body_extent (const Section *s, const SwBody *body, SwBox *extent, double *u_low, double *u_high)
{
  *extent = SW_BOX_EMPTY;
  *u_low = INFINITY;
  *u_high = -INFINITY;
  for (int i = 0; i < 8; i++)
    {
      SwPoint3 corner = { i & 1 ? body->box.high.x : body->box.low.x, i & 2 ? body->box.high.y : body->box.low.y,
                          i & 4 ? body->box.high.z : body->box.low.z };
      double u = u_of (s, corner);
      *u_low = MIN (*u_low, u);
      *u_high = MAX (*u_high, u);
      *extent = sw_box_add (*extent, to_section (s, corner));
    }
  return *u_low <= s->cut->u && s->cut->u <= *u_high;
}

typedef struct
{
  SwBodyKind kind;
  SwColourRole role;
  double transparency;
  SwHatching hatching;
  SwLayer layer;
  gboolean named;
} Look;

static const Look looks[] = {
  { SW_BODY_BEAM, SW_ROLE_CONCRETE, 0, SW_HATCHING_NONE, SW_LAYER_DECK, TRUE },
  { SW_BODY_COLUMN, SW_ROLE_CONCRETE_EDGE, 0.3, SW_HATCHING_NONE, SW_LAYER_ROOMS, FALSE },
  { SW_BODY_WALL, SW_ROLE_WALL, 0.4, SW_HATCHING_DENSE, SW_LAYER_ROOMS, TRUE },
  { SW_BODY_MEMBER, SW_ROLE_BATTEN, 0.2, SW_HATCHING_NONE, SW_LAYER_BATTENS, FALSE },
  { SW_BODY_BOARD, SW_ROLE_BOARD_EDGE, 0.2, SW_HATCHING_NONE, SW_LAYER_BOARDS, FALSE },
  { SW_BODY_FITTING, SW_ROLE_FITTING, 0.7, SW_HATCHING_NONE, SW_LAYER_CONDUITS, TRUE },
  { SW_BODY_LIGHT, SW_ROLE_LIGHT, 0.2, SW_HATCHING_NONE, SW_LAYER_LIGHTS, TRUE },
  { SW_BODY_DRIVER, SW_ROLE_FITTING, 0.7, SW_HATCHING_NONE, SW_LAYER_LIGHTS, FALSE },
};

static gboolean
draw_body (const SwBody *body, gpointer data)
{
  Section *s = data;
  const Look *look = looks;
  SwBox extent;
  double u_low, u_high;
  while (look->kind != body->kind)
    look++;
  if (!body_extent (s, body, &extent, &u_low, &u_high))
    return TRUE;
  const SwRecord *record = sw_job_get (sw_space_job (s->space), body->owner);
  gboolean steel = body->kind == SW_BODY_MEMBER && record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT
                   && sw_ceiling_layout_is_steel (sw_space_job (s->space), (const SwLayout *) record);
  SwColourRole role = steel ? SW_ROLE_STEEL : look->role;
  SwFill fill = { .role = role, .hatching = look->hatching, .transparency = look->transparency };
  SwStroke edge = { .role = role, .width = 0.25, .unit = SW_SIZE_PAPER };
  if (body->kind == SW_BODY_WALL)
    extent.low.y = MAX (extent.low.y, s->z - BELOW_MM);
  sw_display_set_layer (s->display, look->layer);
  begin (s, body->owner, "body");
  sw_display_add_box (s->display, extent, &fill, &edge);
  if (look->named && record != NULL)
    put_text (s, (SwPoint){ (extent.low.x + extent.high.x) / 2, extent.low.y - 8 }, record->tag, SW_ROLE_INK, SW_ALIGN_MIDDLE, SW_RISE_TOP);
  sw_display_end (s->display);
  return TRUE;
}

/* Box in the world round the slice. */
static SwBox3
slice_box (const Section *s)
{
  SwBox3 box = SW_BOX3_EMPTY;
  const SwDeckBay *bay = s->cut->bay;
  for (int i = 0; i < 4; i++)
    {
      SwPoint uv = { s->cut->u + (i & 1 ? SLICE_MM : -SLICE_MM), i & 2 ? bay->breadth + 500 : -500 };
      SwPoint p = sw_deck_from_bay (bay, uv);
      box = sw_box3_add (sw_box3_add (box, (SwPoint3){ p.x, p.y, s->z - 4000 }), (SwPoint3){ p.x, p.y, s->z + 2000 });
    }
  return box;
}

static void
draw_bodies (Section *s)
{
  guint32 kinds = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    kinds |= 1u << looks[i].kind;
  sw_space_query (s->space, slice_box (s), kinds, draw_body, s);
}

/* ---- Ceiling ---- */

/* The ceiling's level over a place of the cut; NAN outside the room. */
static double
drop_at (const Section *s, const SwRoom *room, double v)
{
  SwPoint at = sw_section_to_plan (s->cut, v);
  return sw_outline_holds (room->outline.items, room->outline.n, at) ? sw_deck_ceiling_drop (s->deck, room, at) : NAN;
}

/* An upright face at an end of a stretch, where the ceiling beyond is higher: `way` leads there. */
static void
draw_face (const Section *s, const SwRoom *room, double v, double way, double drop, double back)
{
  static const SwFill board = { .role = SW_ROLE_BOARD };
  static const SwStroke edge = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER };
  double beyond = drop_at (s, room, v + way), inside = v - way * room->board_thickness;
  if (beyond < drop - 0.5)
    sw_display_add_box (s->display, (SwBox){ { MIN (v, inside), back - drop }, { MAX (v, inside), back - beyond } }, &board, &edge);
}

/* The boards of a closed room without a layout yet, as they will be, with its bulkheads; a hung grid; nothing when exposed. */
static void
draw_ceiling (Section *s, const SwRoom *room)
{
  static const SwFill board = { .role = SW_ROLE_BOARD };
  static const SwStroke edge = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER };
  double face = sw_deck_ceiling_face (s->deck, room), back = sw_deck_ceiling_back (s->deck, room);
  const SwDeckBay *bay = s->cut->bay;
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (s->deck, room);
  if (room->finish == SW_FINISH_EXPOSED)
    return;
  for (guint b = 0; b <= bulkheads->len; b++)
    {
      const SwBulkhead *bulkhead = b > 0 ? bulkheads->pdata[b - 1] : NULL;
      double drop = bulkhead != NULL ? bulkhead->drop : 0;
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      SwInterval whole = { -1e8, 1e8 };
      g_array_append_val (spans, whole);
      sw_deck_level_along (room, bulkhead, bulkheads, sw_deck_from_bay (bay, (SwPoint){ s->cut->u, 0 }), (SwPoint){ -bay->sine, bay->cosine }, spans);
      for (guint i = 0; i < spans->len; i++)
        {
          const SwInterval *span = &g_array_index (spans, SwInterval, i);
          sw_display_add_box (s->display, (SwBox){ { span->low, face - drop }, { span->high, MAX (back, face + 4) - drop } }, &board, &edge);
          draw_face (s, room, span->low, -1, drop, back);
          draw_face (s, room, span->high, 1, drop, back);
        }
    }
}

static void
draw_ceilings (Section *s)
{
  const SwRecord *record;
  sw_display_set_layer (s->display, SW_LAYER_BOARDS);
  for (SwJobIter i = sw_job_iter (sw_space_job (s->space), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      begin (s, record->id, "ceiling");
      draw_ceiling (s, (const SwRoom *) record);
      sw_display_end (s->display);
    }
}

/* ---- Distances ---- */

#define LEAST_DETAIL 0.12 /* px per mm */

/* Left out where there is no room to write it, at `crowd` times the size already. */
static void
draw_distance (Section *s, SwPoint a, SwPoint b, double crowd)
{
  static const SwStroke line = { .role = SW_ROLE_DIMENSION, .width = 0.18, .unit = SW_SIZE_PAPER };
  double length = sw_point_distance (a, b);
  char text[SW_LENGTH_BUF];
  if (length < 0.5)
    return;
  SwPoint way = sw_point_scale (sw_point_sub (b, a), 1 / length), side = { -way.y * 6, way.x * 6 };
  sw_length_write (length, sw_job_lengths (sw_space_job (s->space)), SW_LENGTH_DIM, 0, text);
  double room_px = fabs (way.x) > 0.5 ? 8 + 5.0 * (double) strlen (text) : 11;
  sw_display_set_detail (s->display, MAX (LEAST_DETAIL, crowd * room_px / length), INFINITY);
  sw_display_add_line (s->display, a, b, &line);
  sw_display_add_line (s->display, sw_point_add (a, side), sw_point_sub (a, side), &line);
  sw_display_add_line (s->display, sw_point_add (b, side), sw_point_sub (b, side), &line);
  SwTextStyle style = { .role = SW_ROLE_DIMENSION, .height = SMALL, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE,
                        .rise = SW_RISE_MIDDLE, .halo = TRUE };
  sw_display_add_text (s->display, sw_point_lerp (a, b, 0.5), text, &style);
  sw_display_set_detail (s->display, 0, INFINITY);
}

typedef struct { SwPoint at; double reach; } Disc;

static int
compare_discs (gconstpointer a, gconstpointer b)
{
  const Disc *x = a, *y = b;
  return x->at.x < y->at.x ? -1 : x->at.x > y->at.x ? 1 : (x->at.y > y->at.y) - (x->at.y < y->at.y);
}

/* Tubes that pass through the void at the cut. */
static GArray *
discs_in (Section *s, const SwVoid *v)
{
  GArray *discs = g_array_new (FALSE, FALSE, sizeof (Disc));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_space_job (s->space), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoute *route = sw_space_route (s->space, record->id);
      for (guint k = 0; route != NULL && k + 1 < route->n; k++)
        {
          SwPoint from, to;
          if (!clip_leg (s, route->axis[k], route->axis[k + 1], &from, &to) || sw_point_distance (from, to) > route->radius)
            continue;
          Disc disc = { sw_point_lerp (from, to, 0.5), route->outer };
          if (disc.at.x > v->low && disc.at.x < v->high)
            g_array_append_val (discs, disc);
        }
    }
  g_array_sort (discs, compare_discs);
  return discs;
}

static guint
nearest_disc (const GArray *discs, double v)
{
  guint best = 0;
  for (guint i = 1; i < discs->len; i++)
    if (fabs (g_array_index (discs, Disc, i).at.x - v) < fabs (g_array_index (discs, Disc, best).at.x - v))
      best = i;
  return best;
}

#define CROWD 2.5 /* the tubes beside the one at the cut's place wait until they are drawn this much larger */

static void
draw_disc_distances (Section *s, const SwVoid *v, GArray *discs, double z)
{
  const SwProfile *profile = s->cut->bay->profile;
  double lean = (profile->mouth - profile->crown) / 2;
  guint nearest = nearest_disc (discs, s->cut->v);
  for (guint i = 0; i < discs->len; i++)
    {
      double crowd = i == nearest ? 1 : CROWD;
      const Disc *disc = &g_array_index (discs, Disc, i), *before = i > 0 ? disc - 1 : NULL, *after = i + 1 < discs->len ? disc + 1 : NULL;
      double inset = lean * CLAMP ((disc->at.y - z) / v->depth, 0, 1);
      double left = before != NULL && fabs (before->at.y - disc->at.y) < before->reach + disc->reach ? before->at.x + before->reach : v->low + inset;
      draw_distance (s, (SwPoint){ left, disc->at.y }, (SwPoint){ disc->at.x - disc->reach, disc->at.y }, crowd);
      if (after == NULL || fabs (after->at.y - disc->at.y) >= after->reach + disc->reach)
        draw_distance (s, (SwPoint){ disc->at.x + disc->reach, disc->at.y }, (SwPoint){ v->high - inset, disc->at.y }, crowd);
      draw_distance (s, (SwPoint){ disc->at.x, z }, (SwPoint){ disc->at.x, disc->at.y - disc->reach }, crowd);
      draw_distance (s, (SwPoint){ disc->at.x, disc->at.y + disc->reach }, (SwPoint){ disc->at.x, z + v->depth }, crowd);
    }
}

#define CROWN_ROOM 450.0 /* mm: the crown's width stands in the topping, where the void's number is */

static void
draw_void_distances (Section *s)
{
  const SwDeckBay *bay = s->cut->bay;
  int index = sw_deck_void_near (bay, s->cut->v);
  if (index < 0 || sw_deck_reach_at (bay, (guint) index, s->cut->u) == NULL)
    return;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, index);
  double z = soffit_z (s->cut, v->v), lean = (bay->profile->mouth - bay->profile->crown) / 2;
  g_autoptr (GArray) discs = discs_in (s, v);
  sw_display_set_layer (s->display, SW_LAYER_MEASURES);
  draw_distance (s, (SwPoint){ v->low + lean, z + v->depth + 14 }, (SwPoint){ v->high - lean, z + v->depth + 14 }, MAX (1, CROWN_ROOM / bay->profile->topping));
  if (discs->len == 0)
    {
      draw_distance (s, (SwPoint){ v->low, z + 8 }, (SwPoint){ v->high, z + 8 }, 1);
      draw_distance (s, (SwPoint){ v->v, z + 8 }, (SwPoint){ v->v, z + v->depth }, 1);
    }
  draw_disc_distances (s, v, discs, z);
}

/* What is clear between the lowest rib and the ceiling's back, written at the rib. */
static void
draw_room_distance (Section *s)
{
  const SwRoom *room = sw_deck_room_at (s->deck, sw_section_to_plan (s->cut, s->cut->v));
  const SwDeckBay *bay = s->cut->bay;
  int index = sw_deck_void_near (bay, s->cut->v);
  if (room == NULL || room->finish == SW_FINISH_EXPOSED || index < 0)
    return;
  double v = g_array_index (bay->ribs, SwRib, index + 1).v, z = soffit_z (s->cut, v), back = sw_deck_ceiling_back (s->deck, room);
  back -= sw_deck_ceiling_drop (s->deck, room, sw_section_to_plan (s->cut, v));
  sw_display_set_layer (s->display, SW_LAYER_MEASURES);
  if (back < z - 0.5)
    draw_distance (s, (SwPoint){ v, back }, (SwPoint){ v, z }, 1);
}

void
sw_section_draw_across (SwDisplay *display, const SwSpace *space, const SwSectionCut *cut)
{
  static const SwStroke datum = { .role = SW_ROLE_GRID, .width = 0.18, .unit = SW_SIZE_PAPER, .dash = SW_DASH_CENTRE };
  Section s = { display, space, sw_space_deck (space), cut, soffit_z (cut, cut->v) };
  draw_concrete (&s);
  draw_ceilings (&s);
  draw_bodies (&s);
  draw_runs (&s);
  sw_display_set_layer (display, SW_LAYER_MEASURES);
  sw_display_add_line (display, (SwPoint){ cut->v, s.z - 2000 }, (SwPoint){ cut->v, s.z + 2000 }, &datum);
  draw_void_distances (&s);
  draw_room_distance (&s);
}
