/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What who fixes the battens needs beside the plan: battens, centres and level of each room, and how thick the packers are. */
#include "base/number.h"
#include "base/tolerance.h"
#include "ceiling/layout.h"
#include "geometry/outline.h"
#include "sheets/cut_parts.h"
#include "sheets/schedule_parts.h"
#include "sheets/sheet_parts.h"
#include <math.h>

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_TEXT ("name", N_ ("Name of the room")),
  SW_COLUMN_TEXT ("battens", N_ ("Battens run")),
  SW_COLUMN_TEXT ("material", N_ ("Battens are of")),
  SW_COLUMN_MM ("batten_width_mm", N_ ("Batten width")),
  SW_COLUMN_MM ("batten_depth_mm", N_ ("Batten depth, upright")),
  SW_COLUMN_COUNT ("n", N_ ("Battens")),
  SW_COLUMN_NUMBER ("centres_mm", N_ ("Centres"), "mm", 1),
  SW_COLUMN_MM ("off_wall_mm", N_ ("Battens along walls, off the wall")),
  SW_COLUMN_MM ("primary_depth_mm", N_ ("Primary depth")),
  SW_COLUMN_MM ("primary_centres_mm", N_ ("Primary centres")),
  SW_COLUMN_MM ("underside_mm", N_ ("Underside of battens above level line")),
  SW_COLUMN_COUNT ("fixings", N_ ("Fixings to ribs")),
  SW_COLUMN_COUNT ("packed", N_ ("Packed")),
  SW_COLUMN_MM ("thinnest_mm", N_ ("Packers from")),
  SW_COLUMN_MM ("thickest_mm", N_ ("to")),
  SW_COLUMN_COUNT ("long", N_ ("Longer fixings")),
  SW_COLUMN_COUNT ("hangers", N_ ("Hangers")),
};

static const SwScheduleColumn packer_columns[] = {
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_COUNT ("batten", N_ ("Batten")),
  SW_COLUMN_MM ("from_wall_mm", N_ ("Middle from the ringed wall")),
  SW_COLUMN_TEXT ("packers", N_ ("Packers at its ribs, from the wall with the arrow")),
  SW_COLUMN_MM ("thickest_mm", N_ ("Thickest")),
};

static const SwScheduleColumn timber_columns[] = {
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_TEXT ("what", N_ ("What")),
  SW_COLUMN_COUNT ("n", N_ ("Pieces")),
  SW_COLUMN_MM ("ringed_from_mm", N_ ("From the ringed wall to its near side")),
  SW_COLUMN_MM ("ringed_to_mm", N_ ("to its far side")),
  SW_COLUMN_MM ("arrow_from_mm", N_ ("From the wall with the arrow to its near side")),
  SW_COLUMN_MM ("arrow_to_mm", N_ ("to its far side")),
};

/* ---- one room */

/* Where members of a kind stand across their direction: each place once, ascending. */
static GArray *
places_of (const SwLayout *layout, int kind)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  SwPoint across = { 0, 0 };
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      double length = sw_point_distance (member->from, member->to);
      if (member->kind != kind || length <= 0)
        continue;
      if (across.x == 0 && across.y == 0)
        across = (SwPoint){ (member->from.y - member->to.y) / length, (member->to.x - member->from.x) / length };
      double at = sw_point_dot (member->from, across);
      g_array_append_val (places, at);
    }
  g_array_sort (places, sw_compare_doubles);
  for (guint i = places->len; i-- > 1;)
    if (g_array_index (places, double, i) - g_array_index (places, double, i - 1) < 1)
      g_array_remove_index (places, i);
  return places;
}

/* The gap from one to the next that there is most often; NAN for fewer than two. */
static double
centres_of (const GArray *places)
{
  double found = NAN;
  guint most = 0;
  for (guint i = 1; i < places->len; i++)
    {
      double gap = g_array_index (places, double, i) - g_array_index (places, double, i - 1);
      guint n = 0;
      for (guint k = 1; k < places->len; k++)
        n += fabs (g_array_index (places, double, k) - g_array_index (places, double, k - 1) - gap) < 1;
      if (n <= most)
        continue;
      most = n;
      found = gap;
    }
  return found;
}

static void
put_fixings (SwSchedule *schedule, const SwSheetContext *context, const SwLayout *layout)
{
  double longer = sw_rules_value (context->rules, "brandering.setout", "packer_mm").value, low = INFINITY, high = 0;
  double hung = sw_rules_value (context->rules, "brandering.setout", "hanger_mm").value;
  guint packed = 0, n_long = 0, n_hung = 0, all = 0;
  g_autoptr (GArray) counts = sw_ceiling_fixing_counts (layout);
  for (guint i = 0; i < layout->fixings.n; i++)
    {
      double packer = SW_LIST_AT (layout->fixings, SwFixing, i).packer;
      guint count = g_array_index (counts, guint, i); /* side by side */
      all += count;
      n_hung += packer > hung ? count : 0;
      n_long += packer > longer && packer <= hung ? count : 0;
      if (packer < 1)
        continue;
      packed++;
      low = fmin (low, packer);
      high = fmax (high, packer);
    }
  sw_schedule_put_count (schedule, all);
  sw_schedule_put_count (schedule, packed);
  sw_schedule_put_number (schedule, packed > 0 ? low : NAN);
  sw_schedule_put_number (schedule, packed > 0 ? high : NAN);
  sw_schedule_put_count (schedule, n_long);
  sw_schedule_put_count (schedule, n_hung);
}

static void
put_room (SwSchedule *schedule, const SwSheetContext *context, const SwRoom *room)
{
  const SwLayout *layout = sw_ceiling_layout_of (sw_sheet_job (context), room->record.id);
  gboolean layered = room->direction == SW_DIRECTION_ALONG;
  sw_schedule_begin_row (schedule, room->record.id);
  sw_schedule_put (schedule, room->record.tag);
  sw_schedule_put (schedule, room->name);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_ROOM, "battens", room->direction));
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_ROOM, "batten_material", room->material));
  sw_schedule_put_number (schedule, room->batten_width);
  sw_schedule_put_number (schedule, room->batten_depth);
  if (layout == NULL)
    {
      sw_schedule_put_nothing (schedule, 12);
      return;
    }
  g_autoptr (GArray) battens = places_of (layout, SW_MEMBER_BATTEN), primaries = places_of (layout, SW_MEMBER_PRIMARY);
  sw_schedule_put_count (schedule, battens->len);
  sw_schedule_put_number (schedule, centres_of (battens));
  sw_schedule_put_number (schedule, sw_rules_value (context->rules, "brandering.setout", "wall_face_mm").value);
  sw_schedule_put_number (schedule, layered ? room->primary_depth : NAN);
  sw_schedule_put_number (schedule, layered ? centres_of (primaries) : NAN);
  sw_schedule_put_number (schedule, sw_schedule_from_line (context, sw_deck_ceiling_back (context->deck, room)));
  put_fixings (schedule, context, layout);
}

static void
fill_brandering (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (context), SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    if (((const SwRoom *) rooms->pdata[i])->finish == SW_FINISH_CLOSED)
      put_room (schedule, context, rooms->pdata[i]);
}

/* ---- packers */

typedef struct
{
  double along, packer;
} Packing;

static int
compare_packings (gconstpointer pa, gconstpointer pb)
{
  const Packing *a = pa, *b = pb;
  return (a->along > b->along) - (a->along < b->along);
}

/* Fixings on the member, from its end at the wall with the arrow; not those of another level of the ceiling above or below it. */
static GArray *
packings_of (const SwSheetContext *context, const SwLayout *layout, const SwMember *member)
{
  GArray *packings = g_array_new (FALSE, FALSE, sizeof (Packing));
  SwPoint from = member->from, to = member->to;
  double length = sw_point_distance (from, to);
  SwPoint along = sw_point_scale (sw_point_sub (to, from), 1 / length);
  for (guint i = 0; i < layout->fixings.n; i++)
    {
      const SwFixing *fixing = &SW_LIST_AT (layout->fixings, SwFixing, i);
      SwPoint at = sw_point_sub (fixing->at, from);
      Packing packing = { sw_point_dot (along, at), fixing->packer };
      if (packing.along >= -SW_TOUCH_MM && packing.along <= length + SW_TOUCH_MM && fabs (sw_point_cross (along, at)) <= member->width / 2
          && fabs (fmax (sw_deck_soffit_at (context->deck, fixing->at) - member->top, 0) - fixing->packer) < 1)
        g_array_append_val (packings, packing);
    }
  g_array_sort (packings, compare_packings);
  return packings;
}

/* "12 · 10 · – · 6"; NULL where nothing is packed. */
static char *
packers_text (const SwSheetContext *context, const GArray *packings, double *thickest)
{
  GString *text = g_string_new (NULL);
  *thickest = 0;
  for (guint i = 0; i < packings->len; i++)
    {
      double packer = g_array_index (packings, Packing, i).packer;
      g_autofree char *size = packer < 1 ? g_strdup ("–") : sw_sheet_length (context, packer, SW_LENGTH_BARE);
      *thickest = fmax (*thickest, packer);
      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", size);
    }
  return g_string_free (text, *thickest < 1);
}

/* The room's least place across its battens: the ringed wall of the brandering plan. */
static double
first_place (const SwRoom *room, SwPoint across)
{
  double first = INFINITY;
  for (guint i = 0; i < room->outline.n; i++)
    first = fmin (first, sw_point_dot (SW_LIST_AT (room->outline, SwPoint, i), across));
  return first;
}

typedef struct
{
  double from_wall, along;
  const SwMember *member;
} Held;

static int
compare_held (gconstpointer pa, gconstpointer pb)
{
  const Held *a = pa, *b = pb;
  if (fabs (a->from_wall - b->from_wall) >= 1)
    return a->from_wall < b->from_wall ? -1 : 1;
  return (a->along > b->along) - (a->along < b->along);
}

/* The members that ribs hold, from the ringed wall on; those in one line from the wall with the arrow. */
static GArray *
held_members (const SwLayout *layout, const SwRoom *room)
{
  GArray *held = g_array_new (FALSE, FALSE, sizeof (Held));
  int kind = room->direction == SW_DIRECTION_ALONG ? SW_MEMBER_PRIMARY : SW_MEMBER_BATTEN;
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      double length = sw_point_distance (member->from, member->to);
      if (member->kind != kind || length <= 0)
        continue;
      SwPoint across = { (member->from.y - member->to.y) / length, (member->to.x - member->from.x) / length };
      SwPoint along = { across.y, -across.x };
      Held one = { sw_point_dot (member->from, across) - first_place (room, across), sw_point_dot (member->from, along), member };
      g_array_append_val (held, one);
    }
  g_array_sort (held, compare_held);
  return held;
}

static void
put_packers (SwSchedule *schedule, const SwSheetContext *context, const SwLayout *layout, const SwRoom *room)
{
  g_autoptr (GArray) held = held_members (layout, room);
  guint number = 0;
  double before = -INFINITY;
  for (guint i = 0; i < held->len; i++)
    {
      const Held *one = &g_array_index (held, Held, i);
      double thickest;
      number += one->from_wall - before >= 1;
      before = one->from_wall;
      g_autoptr (GArray) packings = packings_of (context, layout, one->member);
      char *text = packers_text (context, packings, &thickest);
      if (text == NULL)
        continue;
      sw_schedule_begin_row (schedule, room->record.id);
      sw_schedule_put (schedule, *room->name != '\0' ? room->name : room->record.tag);
      sw_schedule_put_count (schedule, number);
      sw_schedule_put_number (schedule, one->from_wall);
      sw_schedule_put_take (schedule, text);
      sw_schedule_put_number (schedule, thickest);
    }
}

static void
fill_packers (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      const SwLayout *layout = sw_ceiling_layout_of (job, room->record.id);
      if (layout != NULL && room->finish == SW_FINISH_CLOSED)
        put_packers (schedule, context, layout, room);
    }
}

/* ---- timber beside the battens, and hatches */

/* What one line of the list stands for: pieces in one line, as two tapes read their outermost sides. */
typedef struct
{
  char *what;
  int order; /* the same in every language: of its kind, hatches last */
  guint n;
  double ringed[2], arrow[2];
  gboolean lengthwise; /* along the battens */
} Piece;

typedef struct
{
  SwPoint along, across; /* of the room's battens */
  double ringed, arrow;  /* where the room begins across and along them */
} Tapes;

static void
clear_piece (gpointer data)
{
  g_free (((Piece *) data)->what);
}

static gboolean
tapes_of (const SwLayout *layout, const SwRoom *room, Tapes *tapes)
{
  tapes->along = sw_ceiling_batten_way (layout);
  tapes->across = (SwPoint){ -tapes->along.y, tapes->along.x };
  tapes->ringed = first_place (room, tapes->across);
  tapes->arrow = first_place (room, tapes->along);
  return tapes->along.x != 0 || tapes->along.y != 0;
}

/* A box with middle `at` that reaches that far along and across the battens. */
static void
add_piece (GArray *pieces, const Tapes *tapes, const char *what, int order, SwPoint at, double half_along, double half_across, gboolean lengthwise)
{
  double r = sw_point_dot (at, tapes->across) - tapes->ringed, a = sw_point_dot (at, tapes->along) - tapes->arrow;
  Piece piece = { NULL, order, 1, { r - half_across, r + half_across }, { a - half_along, a + half_along }, lengthwise };
  for (guint i = 0; i < pieces->len; i++)
    {
      Piece *other = &g_array_index (pieces, Piece, i);
      const double *line = lengthwise ? other->ringed : other->arrow, *own = lengthwise ? piece.ringed : piece.arrow;
      if (strcmp (other->what, what) != 0 || other->lengthwise != lengthwise || fabs (line[0] - own[0]) >= 1 || fabs (line[1] - own[1]) >= 1)
        continue;
      double *reach = lengthwise ? other->arrow : other->ringed;
      const double *more = lengthwise ? piece.arrow : piece.ringed;
      reach[0] = fmin (reach[0], more[0]);
      reach[1] = fmax (reach[1], more[1]);
      other->n++;
      return;
    }
  g_array_append_val (pieces, piece);
  g_array_index (pieces, Piece, pieces->len - 1).what = g_strdup (what);
}

static int
compare_pieces (gconstpointer pa, gconstpointer pb)
{
  const Piece *a = pa, *b = pb;
  int order = a->order != b->order ? (a->order > b->order) - (a->order < b->order) : strcmp (a->what, b->what);
  if (order != 0)
    return order;
  if (a->lengthwise != b->lengthwise)
    return a->lengthwise ? -1 : 1;
  const double one[] = { a->ringed[0], a->arrow[0] }, two[] = { b->ringed[0], b->arrow[0] };
  int first = a->lengthwise ? 0 : 1;
  for (int i = 0; i < 2; i++)
    if (one[first ^ i] != two[first ^ i])
      return one[first ^ i] < two[first ^ i] ? -1 : 1;
  return 0;
}

static void
add_members (GArray *pieces, const Tapes *tapes, const SwLayout *layout)
{
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      SwPoint way = sw_point_sub (member->to, member->from), middle = sw_point_lerp (member->from, member->to, 0.5);
      double length = sw_point_length (way), half = member->width / 2;
      if (member->kind == SW_MEMBER_BATTEN || length <= 0)
        continue;
      gboolean lengthwise = fabs (sw_point_dot (way, tapes->along)) >= fabs (sw_point_dot (way, tapes->across));
      add_piece (pieces, tapes, sw_cut_thing_word (&(SwCutThing){ .member = member->kind }), member->kind, middle, lengthwise ? length / 2 : half, lengthwise ? half : length / 2, lengthwise);
    }
}

static void
add_hatches (GArray *pieces, const Tapes *tapes, const SwSheetContext *context, const SwRoom *room)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (context), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      if (sw_deck_room_at (context->deck, hatch->at) != room)
        continue;
      double turn = hatch->turn * G_PI / 180;
      SwPoint lengthwise = { cos (turn), sin (turn) }, aside = { -lengthwise.y, lengthwise.x };
      g_autofree char *what = g_strdup_printf (_("opening of hatch %s"), record->tag);
      add_piece (pieces, tapes, what, G_MAXINT, hatch->at,
                 (fabs (sw_point_dot (lengthwise, tapes->along)) * hatch->length + fabs (sw_point_dot (aside, tapes->along)) * hatch->width) / 2,
                 (fabs (sw_point_dot (lengthwise, tapes->across)) * hatch->length + fabs (sw_point_dot (aside, tapes->across)) * hatch->width) / 2, FALSE);
    }
}

static void
put_timber (SwSchedule *schedule, const SwSheetContext *context, const SwLayout *layout, const SwRoom *room)
{
  Tapes tapes;
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
  g_array_set_clear_func (pieces, clear_piece);
  if (!tapes_of (layout, room, &tapes))
    return;
  add_members (pieces, &tapes, layout);
  add_hatches (pieces, &tapes, context, room);
  g_array_sort (pieces, compare_pieces);
  for (guint i = 0; i < pieces->len; i++)
    {
      const Piece *piece = &g_array_index (pieces, Piece, i);
      sw_schedule_begin_row (schedule, room->record.id);
      sw_schedule_put (schedule, *room->name != '\0' ? room->name : room->record.tag);
      sw_schedule_put (schedule, piece->what);
      sw_schedule_put_count (schedule, piece->n);
      sw_schedule_put_number (schedule, piece->ringed[0]);
      sw_schedule_put_number (schedule, piece->ringed[1]);
      sw_schedule_put_number (schedule, piece->arrow[0]);
      sw_schedule_put_number (schedule, piece->arrow[1]);
    }
}

static void
fill_timber (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      const SwLayout *layout = sw_ceiling_layout_of (job, room->record.id);
      if (layout != NULL && room->finish == SW_FINISH_CLOSED)
        put_timber (schedule, context, layout, room);
    }
}

const SwScheduleKind sw_schedule_timber
    = SW_SCHEDULE ("timber-set-out", N_ ("Set-out of noggins and edges"), N_ ("Battens along walls, noggins, trimmers, studs and hatches of each boarded ceiling as two tapes read them"),
                   timber_columns, fill_timber);
const SwScheduleKind sw_schedule_brandering
    = SW_SCHEDULE ("brandering", N_ ("Brandering"), N_ ("Battens, centres, level and fixings of each boarded ceiling"), columns, fill_brandering);
const SwScheduleKind sw_schedule_packers
    = SW_SCHEDULE ("packers", N_ ("Packers"), N_ ("Thickness of the packer at each rib, batten by batten, where the soffit is not level"), packer_columns, fill_packers);
