/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms laid by one edit, and all of a job's ceilings cut together: counted again from the layouts. */
#include "estimate/cut_job.h"
#include "ceiling/layout.h"
#include "estimate/lay_rooms.h"
#include "estimate/order.h"
#include "space/sample.h"
#include "support.h"
#include <math.h>
#include <string.h>

typedef struct
{
  SwSample sample;
  SwRules *rules;
} Fixture;

static SwId
add_room (Fixture *fixture, double x0, double y0, double x1, double y1, int finish)
{
  SwRoom *room = (SwRoom *) sw_sample_create (&fixture->sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&room->outline, x0, y0, x1, y1);
  room->finish = finish;
  return sw_sample_put (&fixture->sample, &room->record);
}

/* Three closed rooms, one of them 7.6 m along its battens, and an exposed one. */
static void
setup (Fixture *fixture, gconstpointer data)
{
  fixture->sample = sw_sample_new (12000, 9000, 0);
  fixture->rules = sw_test_rules ("south-africa");
  add_room (fixture, 200, 400, 4200, 8000, SW_FINISH_CLOSED);
  add_room (fixture, 4400, 400, 7700, 3700, SW_FINISH_CLOSED);
  add_room (fixture, 4400, 4000, 7700, 8000, SW_FINISH_EXPOSED);
  add_room (fixture, 8000, 400, 11600, 4100, SW_FINISH_CLOSED);
}

static void
teardown (Fixture *fixture, gconstpointer data)
{
  sw_rules_unref (fixture->rules);
  sw_sample_clear (&fixture->sample);
}

/* Lays the rooms and takes the edit over into the job; how many of each deed. */
static void
lay (Fixture *fixture, const SwLayWanted *wanted, guint deeds[SW_N_LAID])
{
  GError *error = NULL;
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwEdit) edit = sw_edit_new ("lay");
  g_autoptr (GArray) laid = sw_lay_rooms (deck, fixture->rules, wanted, edit, NULL, &error);
  g_assert_no_error (error);
  memset (deeds, 0, SW_N_LAID * sizeof *deeds);
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRoomLaid *room = &g_array_index (laid, SwRoomLaid, i);
      deeds[room->deed]++;
      g_assert_cmpint (room->fault != NULL, ==, room->deed == SW_LAID_NOT);
      g_assert_cmpint (room->figures.n_sheets > 0, ==, room->deed != SW_LAID_NOT);
      g_assert_cmpfloat (room->figures.sheet_mm2, >=, room->figures.piece_mm2);
    }
  SwJob *next = sw_job_apply (fixture->sample.job, edit, TRUE, &error);
  g_assert_no_error (error);
  sw_job_unref (fixture->sample.job);
  fixture->sample.job = next;
}

static void
test_lay (Fixture *fixture, gconstpointer data)
{
  guint deeds[SW_N_LAID];
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_NEW], ==, 3);
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_KEPT], ==, 3);
  SwRoom *room = (SwRoom *) sw_sample_change (&fixture->sample,
                                              sw_job_nth (fixture->sample.job, SW_TABLE_ROOM, 1)->id);
  sw_sample_rectangle (&room->outline, 4400, 400, 7700, 3500);
  sw_sample_put (&fixture->sample, &room->record);
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_KEPT], ==, 2);
  g_assert_cmpuint (deeds[SW_LAID_AGAIN], ==, 1);
  SwId exposed = sw_job_nth (fixture->sample.job, SW_TABLE_ROOM, 2)->id;
  lay (fixture, &(SwLayWanted){ &exposed, 1, FALSE }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_NOT], ==, 1);
  g_assert_cmpuint (sw_job_count (fixture->sample.job, SW_TABLE_LAYOUT), ==, 3);
}

static void
test_lay_cancelled (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwEdit) edit = sw_edit_new ("lay");
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_lay_rooms (deck, fixture->rules, &(SwLayWanted){ 0 }, edit, cancellable, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "stopped");
}

static SwCutJob *
cut (Fixture *fixture, SwDeck *deck)
{
  GError *error = NULL;
  SwCutJob *cut = sw_cut_job_new (deck, fixture->rules, NULL, &error);
  g_assert_no_error (error);
  return cut;
}

/* The rooms' shares of the sheets add up to what is bought, their sheets by themselves to what they would take alone; none has less board
 * than its pieces. */
static void
check_rooms (const SwCutJob *job, const SwCutGroup *boards)
{
  g_autoptr (GArray) rooms = sw_cut_job_rooms (job);
  double alone = 0, shared = 0, sheet = boards->length * boards->width;
  g_assert_cmpuint (rooms->len, >, 1);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwCutRoom *room = &g_array_index (rooms, SwCutRoom, i);
      g_assert_cmpfloat (room->pieces, >, 0);
      g_assert_cmpfloat (room->pieces, <=, room->alone + 1);
      g_assert_cmpfloat (room->pieces, <=, room->shared + 1);
      alone += room->alone;
      shared += room->shared;
    }
  sw_assert_near (alone, boards->n_by_rooms * sheet, 1);
  sw_assert_near (shared, sw_cut_group_n (boards) * sheet, 1);
}

/* How often each piece of a room is among the cut and whole ones of a group. */
static guint
count_piece (const SwCutGroup *group, SwId room, int piece)
{
  guint n = 0;
  for (guint i = 0; i < group->things->len; i++)
    {
      const SwCutThing *thing = &g_array_index (group->things, SwCutThing, i);
      n += thing->room == room && thing->piece == piece;
    }
  for (guint i = 0; i < group->whole->len; i++)
    {
      const SwCutThing *thing = &g_array_index (group->whole, SwCutThing, i);
      n += thing->room == room && thing->piece == piece;
    }
  return n;
}

/* Every piece of every layout once; metres of timber as laid, but for rounding up to mm; never more sheets
 * than room by room. */
static void
test_cut (Fixture *fixture, gconstpointer data)
{
  guint deeds[SW_N_LAID], sheets = 0, members = 0;
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwCutJob) job = cut (fixture, deck);
  g_assert_cmpuint (job->groups->len, ==, 3);
  const SwCutGroup *boards = job->groups->pdata[0], *timber = job->groups->pdata[1], *cornice = job->groups->pdata[2];
  double laid = 0, wanted = 0, walls = 0, along = 0;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (fixture->sample.job, SW_TABLE_LAYOUT);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      int most = 0;
      for (guint k = 0; k < layout->pieces.n; k++)
        {
          g_assert_cmpuint (count_piece (boards, layout->room, SW_LIST_AT (layout->pieces, SwPiece, k).piece),
                            ==, 1);
          most = MAX (most, SW_LIST_AT (layout->pieces, SwPiece, k).sheet);
        }
      const SwRoom *room = (const SwRoom *) sw_job_get (fixture->sample.job, layout->room);
      walls += sw_outline_perimeter (room->outline.items, room->outline.n);
      sheets += (guint) most;
      members += layout->members.n;
      for (guint k = 0; k < layout->members.n; k++)
        laid += sw_point_distance (SW_LIST_AT (layout->members, SwMember, k).from,
                                   SW_LIST_AT (layout->members, SwMember, k).to);
    }
  for (guint i = 0; i < timber->task->items->len; i++)
    {
      const SwCutItem *item = &g_array_index (timber->task->items, SwCutItem, i);
      wanted += (double) item->length * item->copies;
      g_assert_cmpint (item->length, <=, 6600);
    }
  /* cornice along all walls, no piece longer than a length of 3 m (price list) nor, where a wall is longer, shorter than 300 */
  g_assert_cmpint (cornice->trim, ==, SW_CUT_CORNICE);
  for (guint i = 0; i < cornice->task->items->len; i++)
    {
      const SwCutItem *item = &g_array_index (cornice->task->items, SwCutItem, i);
      along += (double) item->length * item->copies;
      g_assert_cmpint (item->length, <=, 3000);
      g_assert_cmpint (item->length, >=, 300);
    }
  sw_assert_near (along, walls, cornice->task->items->len);
  g_assert_true (boards->flat && !timber->flat);
  g_assert_cmpuint (boards->n_by_rooms, ==, sheets);
  check_rooms (job, boards);
  g_assert_cmpuint (sw_cut_group_n (boards), <=, sheets);
  g_assert_cmpfloat (wanted, >=, laid - 0.02 * members);
  g_assert_cmpfloat (wanted, <=, laid + 2 * members);
  g_assert_cmpint (timber->plan->bought, >=, timber->plan->used);
  g_assert_cmpint (timber->plan->cost_bound, <=, timber->plan->cost);
}

/* 7.6 m are longer than any stock length: battens are jointed over a rib, 600 apart with the first 350 from
 * the edge of the bay. */
static void
test_joints (Fixture *fixture, gconstpointer data)
{
  guint deeds[SW_N_LAID], joined = 0;
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwCutJob) job = cut (fixture, deck);
  const SwCutGroup *timber = job->groups->pdata[1];
  SwId room = sw_job_nth (fixture->sample.job, SW_TABLE_ROOM, 0)->id;
  const SwLayout *layout = sw_ceiling_layout_of (fixture->sample.job, room);
  for (guint i = 0; i < timber->things->len; i++)
    {
      const SwCutThing *thing = &g_array_index (timber->things, SwCutThing, i);
      gint64 length = g_array_index (timber->task->items, SwCutItem, i).length;
      gboolean at_fixing = FALSE;
      if (thing->room != room || thing->member != SW_MEMBER_BATTEN || length < 4000)
        continue;
      joined++;
      for (guint m = 0; m < layout->members.n; m++)
        for (guint k = 0; k < layout->fixings.n; k++)
          {
            double from = sw_point_distance (SW_LIST_AT (layout->members, SwMember, m).from,
                                             SW_LIST_AT (layout->fixings, SwFixing, k).at);
            at_fixing = at_fixing || fabs (from - (double) length) <= 1.01;
          }
      g_assert_true (at_fixing);
    }
  g_assert_cmpuint (joined, >, 0);
}

static void
test_order (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  guint deeds[SW_N_LAID];
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  SwPrice *price = (SwPrice *) sw_sample_create (&fixture->sample, SW_TABLE_PRICE);
  sw_text_set (&price->record.tag, "board-screw");
  sw_text_set (&price->supplier, "yard");
  price->material = SW_MONEY_ONE / 10;
  price->waste = 10;
  sw_sample_put (&fixture->sample, &price->record);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (deck, fixture->rules, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (SwOrder) order = sw_order_new (deck, fixture->rules, takeoff);
  const SwOrderLine *last = order->lines->pdata[order->lines->len - 1];
  SwQuantity net = 0, sheets = 0;
  for (guint i = 0; i < takeoff->needs->len; i++)
    net += ((const SwNeed *) takeoff->needs->pdata[i])->kind == SW_PRICE_SCREW
               ? ((const SwNeed *) takeoff->needs->pdata[i])->quantity
               : 0;
  for (guint i = 0; i < order->lines->len; i++)
    {
      const SwOrderLine *line = order->lines->pdata[i];
      sheets += line->kind == SW_PRICE_BOARD ? line->packs : 0;
      g_assert_cmpint (line->packs * line->pack, >=, line->wanted);
      g_assert_cmpint ((line->packs - 1) * line->pack, <, line->wanted);
    }
  /* The one line with a supplier comes last: boxes of a thousand at 10 cents a screw, with a tenth of waste.
   */
  g_assert_cmpstr (last->code, ==, "board-screw");
  g_assert_cmpint (last->packs, ==, (net + net / 10 + 999999) / 1000000);
  g_assert_cmpint (last->cost, ==, last->packs * 100 * SW_MONEY_ONE);
  g_assert_cmpint (sheets, ==, sw_cut_group_n (takeoff->cut->groups->pdata[0]));
  g_assert_cmpuint (order->unpriced, ==, order->lines->len - 1);
}

/* ---- the cheapest sheet ---- */

typedef struct
{
  const char *name;
  double length;               /* of the room along the rows, 2.4 m across */
  double other, price;         /* a second sheet beside the one of 3.0 m at 180 */
  double most, other_centres;  /* that stair and door pass; that the other's row asks for */
  SwWetUse other_wet;          /* of a wet room, where not as its kind; that of 3.0 m stands it */
  gboolean chosen;             /* the room keeps its own sheet */
  double taken;                /* the room's sheet afterwards */
  guint sheets, odd;
} CheapestCase;

/* By hand. 3.6 m: two sheets of 3.6 for 432, or two of 3.0 and the two ends from a third for 540. 5.4 m on battens at 300: in each of two
 * rows 3.0 + 2.4, 648 in all; 3.0 alone takes four for 720, 2.4 alone five for 720. */
static const CheapestCase cheapest[] = {
  { "longer", 3600, 3600, 216, 0, 0, SW_WET_AS_KIND, FALSE, 3600, 2, 0 },
  { "chosen", 3600, 3600, 216, 0, 0, SW_WET_AS_KIND, TRUE, 3000, 3, 0 },
  { "stair", 3600, 3600, 216, 3000, 0, SW_WET_AS_KIND, FALSE, 3000, 3, 0 },
  { "wet", 3600, 3600, 216, 0, 0, SW_WET_NO, FALSE, 3000, 3, 0 },
  { "mixed", 5400, 2400, 144, 0, 0, SW_WET_AS_KIND, FALSE, 3000, 4, 2 },
  { "mixed-stair", 5400, 2400, 144, 2700, 0, SW_WET_AS_KIND, FALSE, 2400, 5, 0 },
  { "mixed-centres", 5400, 2400, 144, 0, 240, SW_WET_AS_KIND, FALSE, 3000, 4, 0 },
};

static void
add_price (SwSample *sample, double length, double money, double centres, SwWetUse wet)
{
  SwPrice *price = (SwPrice *) sw_sample_create (sample, SW_TABLE_PRICE);
  g_autofree char *code = g_strdup_printf ("board-gypsum-9.5-%gx1200", length);
  sw_text_set (&price->record.tag, code);
  price->material = llround (money * SW_MONEY_ONE);
  price->centres = centres;
  price->wet = wet;
  sw_sample_put (sample, &price->record);
}

static void
test_cheapest (gconstpointer data)
{
  const CheapestCase *wanted = data;
  Fixture fixture = { sw_sample_new (12000, 9000, 0), sw_test_rules ("south-africa") };
  guint deeds[SW_N_LAID];
  SwId id = add_room (&fixture, 400, 400, 400 + wanted->length, 2800, SW_FINISH_CLOSED);
  SwRoom *room = (SwRoom *) sw_sample_change (&fixture.sample, id);
  room->sheet_choice = wanted->chosen ? SW_SHEET_CHOSEN : SW_SHEET_CHEAPEST;
  room->sheet_most = wanted->most;
  room->batten_centres = 300;
  room->wet = wanted->other_wet != SW_WET_AS_KIND;
  sw_sample_put (&fixture.sample, &room->record);
  add_price (&fixture.sample, 3000, 180, 0, room->wet ? SW_WET_YES : SW_WET_AS_KIND);
  add_price (&fixture.sample, wanted->other, wanted->price, wanted->other_centres, wanted->other_wet);
  lay (&fixture, &(SwLayWanted){ 0 }, deeds);
  const SwRoom *now = (const SwRoom *) sw_job_get (fixture.sample.job, id);
  const SwLayout *layout = sw_ceiling_layout_of (fixture.sample.job, id);
  int sheets = 0;
  for (guint i = 0; i < layout->pieces.n; i++)
    sheets = MAX (sheets, SW_LIST_AT (layout->pieces, SwPiece, i).sheet);
  g_assert_cmpfloat (now->board_length, ==, wanted->taken);
  g_assert_cmpint (sheets, ==, (int) wanted->sheets);
  g_assert_cmpuint (layout->sheets.n, ==, wanted->odd);
  lay (&fixture, &(SwLayWanted){ 0 }, deeds); /* nothing has changed */
  g_assert_cmpuint (deeds[SW_LAID_KEPT], ==, 1);
  add_price (&fixture.sample, 2700, 1, 0, SW_WET_AS_KIND); /* a bargain: what is laid is no longer the cheapest */
  lay (&fixture, &(SwLayWanted){ 0 }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_AGAIN], ==, wanted->chosen ? 0 : 1);
  teardown (&fixture, NULL);
}

#define ADD(name, test) g_test_add ("/estimate/cut/" name, Fixture, NULL, setup, test, teardown)

/* Battens along the ribs hang below primaries: two layers cost more than one across the ribs, whatever the sheet. */
static void
test_least_direction (void)
{
  Fixture fixture = { sw_sample_new (12000, 9000, 0), sw_test_rules ("south-africa") };
  guint deeds[SW_N_LAID];
  SwId id = add_room (&fixture, 400, 400, 4000, 2800, SW_FINISH_CLOSED);
  for (int least = 0; least < 2; least++)
    {
      SwRoom *room = (SwRoom *) sw_sample_change (&fixture.sample, id);
      room->direction = SW_DIRECTION_ALONG;
      room->battens_least = least;
      sw_sample_put (&fixture.sample, &room->record);
      lay (&fixture, &(SwLayWanted){ 0 }, deeds);
      const SwRoom *now = (const SwRoom *) sw_job_get (fixture.sample.job, id);
      g_assert_cmpint (now->direction, ==, least ? SW_DIRECTION_ACROSS : SW_DIRECTION_ALONG);
      g_assert_cmpfloat (now->board_length, ==, 3000);
      g_assert_cmpuint (sw_ceiling_layout_of (fixture.sample.job, id)->sheets.n, ==, 0);
      lay (&fixture, &(SwLayWanted){ 0 }, deeds);
      g_assert_cmpuint (deeds[SW_LAID_KEPT], ==, 1);
    }
  teardown (&fixture, NULL);
}

static guint
sags (Fixture *fixture, SwId id, double depth, const char *grade)
{
  guint deeds[SW_N_LAID], n = 0;
  int found;
  SwRoom *room = (SwRoom *) sw_sample_change (&fixture->sample, id);
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "batten_grade");
  for (found = 0; strcmp (field->words[found].key, grade) != 0; found++)
    ;
  room->batten_depth = depth;
  room->grade = found;
  sw_sample_put (&fixture->sample, &room->record);
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_assert_cmpuint (deeds[SW_LAID_KEPT], ==, 0);
  const SwLayout *layout = sw_ceiling_layout_of (fixture->sample.job, id);
  for (guint i = 0; i < layout->marks.n; i++)
    n += SW_LIST_AT (layout->marks, SwLaidMark, i).kind == SW_CEILING_SPAN;
  return n;
}

/* Sag goes with E: at the least depth at which S5 (7,800 MPa) holds, less than that holds in C24 (11,000 MPa; EN 338). The rule set's is S5. */
static void
test_grade (void)
{
  Fixture fixture = { sw_sample_new (12000, 9000, 0), sw_test_rules ("south-africa") };
  SwId id = add_room (&fixture, 400, 400, 4000, 2800, SW_FINISH_CLOSED);
  double depth = 10;
  while (depth < 38 && sags (&fixture, id, depth, "s5") > 0)
    depth++;
  g_assert_cmpfloat (depth, >, 10);
  g_assert_cmpfloat (depth, <, 38);
  g_assert_cmpuint (sags (&fixture, id, depth - 1, "rule"), >, 0);
  g_assert_cmpuint (sags (&fixture, id, depth - 1, "c24"), ==, 0);
  teardown (&fixture, NULL);
}

/* Timber and steel of the same section are not cut from each other, and each is priced by the stock of its own: whole lengths of the rule
 * set's. Screws into steel are others, and clips are counted. */
static void
test_materials (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  guint deeds[SW_N_LAID], seen = 0;
  SwRoom *room = (SwRoom *) sw_sample_change (&fixture->sample, sw_job_nth (fixture->sample.job, SW_TABLE_ROOM, 1)->id);
  room->material = SW_BATTENS_STEEL;
  SwId steel_room = sw_sample_put (&fixture->sample, &room->record);
  lay (fixture, &(SwLayWanted){ 0 }, deeds);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (deck, fixture->rules, NULL, &error);
  g_assert_no_error (error);
  SwQuantity bought[2] = { 0 }, priced[2] = { 0 }, screws[2] = { 0 }, clips = 0;
  for (guint i = 0; i < takeoff->cut->groups->len; i++)
    {
      const SwCutGroup *group = takeoff->cut->groups->pdata[i];
      if (group->flat || group->trim != 0)
        continue;
      gboolean steel = group->material == SW_BATTENS_STEEL;
      seen |= 1u << steel;
      bought[steel] += group->plan->bought;
      g_assert_cmpstr (group->code, ==, steel ? "batten-steel-38x38" : "batten-38x38");
      g_assert_cmpuint (group->task->stock->len, ==, steel ? 5 : 20);
      for (guint k = 0; k < group->things->len; k++)
        g_assert_true ((g_array_index (group->things, SwCutThing, k).room == steel_room) == steel);
    }
  g_assert_cmpuint (seen, ==, 3);
  for (guint i = 0; i < takeoff->needs->len; i++)
    {
      const SwNeed *need = takeoff->needs->pdata[i];
      gboolean steel = strstr (need->code, "steel") != NULL;
      if (sw_price_is_timber (need->kind))
        priced[steel] += need->bought;
      screws[1] += need->kind == SW_PRICE_STEEL_SCREW ? need->quantity : 0;
      screws[0] += need->kind == SW_PRICE_SCREW ? need->quantity : 0;
      clips += need->kind == SW_PRICE_CLIP ? need->quantity : 0;
    }
  g_assert_cmpint (priced[0], ==, bought[0]);
  g_assert_cmpint (priced[1], ==, bought[1]);
  g_assert_cmpint (screws[0], >, 0);
  g_assert_cmpint (screws[1], >, 0);
  g_assert_cmpint (clips, ==, (SwQuantity) sw_ceiling_layout_of (fixture->sample.job, steel_room)->fixings.n * SW_QUANTITY_ONE);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  ADD ("lay", test_lay);
  ADD ("lay-cancelled", test_lay_cancelled);
  ADD ("job", test_cut);
  ADD ("joints", test_joints);
  ADD ("order", test_order);
  ADD ("materials", test_materials);
  g_test_add_func ("/estimate/cut/grade", test_grade);
  g_test_add_func ("/estimate/cut/least-direction", test_least_direction);
  for (gsize i = 0; i < G_N_ELEMENTS (cheapest); i++)
    {
      g_autofree char *name = g_strdup_printf ("/estimate/cut/cheapest/%s", cheapest[i].name);
      g_test_add_data_func (name, &cheapest[i], test_cheapest);
    }
  return g_test_run ();
}
