/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "job/edit.h"
#include "estimate/lay_rooms.h"
#include "window/pricer.h"
#include <math.h>

#define TEST(path, function) g_test_add ("/window/pricing/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

static SwJob *
job_of (Fixture *fixture)
{
  return sw_desk_job (fixture->desk);
}

static SwId
room_id (Fixture *fixture)
{
  return fixture_last (fixture, SW_TABLE_ROOM)->id;
}

static SwPriceBase *
base_new (Fixture *fixture)
{
  g_autoptr (GError) error = NULL;
  SwPriceBase *base = sw_price_base_new (job_of (fixture), sw_desk_generation (fixture->desk) + 1, NULL, &error);
  g_assert_no_error (error);
  return base;
}

static void
choose (Fixture *fixture, SwFinish finish)
{
  g_autoptr (GError) error = NULL;
  SwId room = room_id (fixture);
  g_autoptr (SwEdit) edit = sw_finish_edit (job_of (fixture), &room, 1, finish, &error);
  g_assert_no_error (error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_no_error (error);
}

/* All figures of all sides, as files hold them. */
static char *
figures (const SwRoomPrice *price)
{
  GString *text = g_string_new (NULL);
  for (guint side = 0; side < price->choice->n; side++)
    for (guint row = 0; row < sw_choice_n_rows (); row++)
      {
        SwFigure figure = sw_choice_figure (price->choice, side, row);
        g_autofree char *cell = sw_figure_write (sw_choice_row (row), &figure);
        g_string_append_printf (text, "%s=%s;", sw_choice_row (row)->key, cell);
      }
  return g_string_free (text, FALSE);
}

static void
test_finish_is_an_edit (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  SwId room = room_id (fixture);
  choose (fixture, SW_FINISH_EXPOSED);
  g_assert_cmpint (((const SwRoom *) fixture_last (fixture, SW_TABLE_ROOM))->finish, ==, SW_FINISH_EXPOSED);
  g_autofree char *name = sw_desk_undo_name (fixture->desk);
  g_assert_cmpstr (name, ==, "Choose finish");
  g_autoptr (SwEdit) again = sw_finish_edit (job_of (fixture), &room, 1, SW_FINISH_EXPOSED, &error);
  g_assert_true (sw_edit_is_empty (again));
  g_assert_true (sw_desk_undo (fixture->desk, &error));
  g_assert_cmpint (((const SwRoom *) fixture_last (fixture, SW_TABLE_ROOM))->finish, ==, SW_FINISH_CLOSED);
}

/* What was found before a finish was chosen stands as it would be found anew. */
static void
test_kept_over_a_finish (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPriceBase) before = base_new (fixture);
  g_autoptr (SwRoomPrice) kept = sw_room_price_new (before, room_id (fixture), NULL);
  g_autoptr (GHashTable) rooms = g_hash_table_new (g_int64_hash, g_int64_equal);
  g_hash_table_insert (rooms, &kept->room, kept);
  choose (fixture, SW_FINISH_EXPOSED);
  g_autoptr (SwPriceBase) after = base_new (fixture);
  g_autoptr (SwRoomPrice) anew = sw_room_price_new (after, room_id (fixture), NULL);
  sw_room_prices_drop (rooms, sw_deck_job (before->deck), sw_deck_job (after->deck));
  g_assert_cmpuint (g_hash_table_size (rooms), ==, 1);
  g_autofree char *old_figures = figures (kept), *new_figures = figures (anew);
  g_assert_cmpstr (old_figures, ==, new_figures);
}

static void
change_number (Fixture *fixture, SwTable table, const char *field, double value)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRecord *copy = sw_record_copy (fixture_last (fixture, table));
  SW_AT (copy, sw_struct_field (&sw_type_get (table)->body, field), double) = value;
  sw_edit_put (edit, job_of (fixture), copy, &error);
  g_assert_no_error (error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
}

static void
test_dropped_when_it_may_differ (Fixture *fixture, gconstpointer data)
{
  static const struct { SwTable table; const char *field; double value; } changes[] = {
    { SW_TABLE_ROOM, "batten_depth_mm", 50 }, { SW_TABLE_PROFILE, "depth_mm", 200 }, { SW_TABLE_JOB, "soffit_level_mm", 2900 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (GHashTable) rooms = g_hash_table_new (g_int64_hash, g_int64_equal);
      g_autoptr (SwJob) before = sw_job_ref (job_of (fixture));
      SwId room = room_id (fixture);
      g_hash_table_add (rooms, &room);
      change_number (fixture, changes[i].table, changes[i].field, changes[i].value);
      sw_room_prices_drop (rooms, before, job_of (fixture));
      g_assert_cmpuint (g_hash_table_size (rooms), ==, 0);
    }
}

/* A price stands on the layout that the job holds. */
static void
test_dropped_with_its_layout (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwPriceBase) base = base_new (fixture);
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwId room = room_id (fixture), other = room + 1;
  const SwLayWanted wanted = { &room, 1, TRUE };
  g_autoptr (GArray) laid = sw_lay_rooms (base->deck, base->rules, &wanted, edit, NULL, &error);
  g_assert_cmpuint (laid->len, ==, 1);
  g_assert_no_error (error);
  g_assert_false (sw_edit_is_empty (edit));
  g_autoptr (SwJob) after = sw_job_apply (job_of (fixture), edit, TRUE, &error);
  g_assert_no_error (error);
  g_autoptr (GHashTable) rooms = g_hash_table_new (g_int64_hash, g_int64_equal);
  g_hash_table_add (rooms, &room);
  g_hash_table_add (rooms, &other);
  sw_room_prices_drop (rooms, job_of (fixture), after);
  g_assert_false (g_hash_table_contains (rooms, &room));
  g_assert_true (g_hash_table_contains (rooms, &other));
}

/* With nothing but a room's ceiling to pay for, the whole job costs what the room's side does: a take-off counts the box too. */
static void
test_whole_and_sides_agree (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwPriceBase) base = base_new (fixture);
  g_autoptr (SwRoomPrice) room = sw_room_price_new (base, room_id (fixture), NULL);
  g_autoptr (SwJobPrice) job = sw_job_price_new (base, NULL, &error);
  g_assert_no_error (error);
  SwMoney ceiling = 0, all = 0;
  for (guint i = 0; i < job->whole->quote->lines->len; i++)
    {
      const SwQuoteLine *line = &g_array_index (job->whole->quote->lines, SwQuoteLine, i);
      SwBill bill = sw_price_info (line->need->kind)->bill;
      all += line->material + line->labour;
      if (bill == SW_BILL_CEILING || bill == SW_BILL_PAINTING)
        ceiling += line->material + line->labour;
    }
  const SwChoiceSide *closed = &room->choice->sides[sw_room_price_side (room, SW_FINISH_CLOSED)];
  g_assert_null (closed->fault);
  g_assert_cmpint (ceiling, ==, closed->quote->cost);
  g_assert_cmpint (all, ==, job->whole->quote->cost);
  g_assert_cmpint (all, >, ceiling);
  g_assert_true (base->invented);
}

static void
test_sums (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPriceBase) base = base_new (fixture);
  g_autoptr (SwRoomPrice) room = sw_room_price_new (base, room_id (fixture), NULL);
  SwPriceSum sum = { 0 };
  const SwChoiceSide *open = &room->choice->sides[sw_room_price_side (room, SW_FINISH_EXPOSED)];
  sw_price_sum_add (&sum, room, SW_FINISH_EXPOSED);
  sw_price_sum_add (&sum, room, SW_FINISH_EXPOSED);
  g_assert_cmpuint (sum.rooms, ==, 2);
  g_assert_cmpuint (sum.priced, ==, 2);
  g_assert_cmpint (sum.total, ==, 2 * open->quote->total);
  g_assert_cmpuint (sum.judged, ==, 2);
  g_assert_cmpuint (sum.high_enough, ==, open->head.enough ? 2 : 0);
  sw_assert_near (sum.carbon_kg, 2 * open->carbon_kg, 1e-9);
}

/* ---- The thread ---- */

typedef struct
{
  GMainLoop *loop;
  guint rooms, jobs, faults;
  guint64 generation;
  gboolean room_after_job;
} Heard;

static void
on_news (const SwPricerNews *news, gpointer data)
{
  Heard *heard = data;
  heard->generation = news->generation;
  heard->rooms += news->kind == SW_PRICED_ROOM;
  heard->jobs += news->kind == SW_PRICED_JOB;
  heard->faults += news->kind == SW_PRICED_FAULT;
  heard->room_after_job |= news->kind == SW_PRICED_ROOM && heard->jobs > 0;
  if (news->kind != SW_PRICED_ROOM)
    g_main_loop_quit (heard->loop);
}

static gboolean
on_too_late (gpointer data)
{
  g_error ("no price within a minute");
  return G_SOURCE_REMOVE;
}

static void
test_only_the_last_asking_is_heard (Fixture *fixture, gconstpointer data)
{
  Heard heard = { .loop = g_main_loop_new (NULL, FALSE) };
  SwPricer *pricer = sw_pricer_new (on_news, &heard);
  guint late = g_timeout_add_seconds (60, on_too_late, NULL);
  for (guint64 i = 1; i <= 5; i++)
    sw_pricer_ask (pricer, job_of (fixture), i, room_id (fixture));
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.generation, ==, 5);
  g_assert_cmpuint (heard.rooms, ==, 1);
  g_assert_cmpuint (heard.jobs, ==, 1);
  g_assert_cmpuint (heard.faults, ==, 0);
  g_assert_false (heard.room_after_job);
  sw_pricer_free (pricer);
  g_source_remove (late);
  g_main_loop_unref (heard.loop);
}

static void
test_unknown_rules_are_a_fault (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRecord *copy = sw_record_copy (&sw_job_info (job_of (fixture))->record);
  g_free (((SwJobInfo *) copy)->rule_set);
  ((SwJobInfo *) copy)->rule_set = g_strdup ("no-such-set");
  sw_edit_put (edit, job_of (fixture), copy, &error);
  g_assert_no_error (error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  Heard heard = { .loop = g_main_loop_new (NULL, FALSE) };
  SwPricer *pricer = sw_pricer_new (on_news, &heard);
  guint late = g_timeout_add_seconds (60, on_too_late, NULL);
  sw_pricer_ask (pricer, job_of (fixture), 1, 0);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.faults, ==, 1);
  g_assert_cmpuint (heard.rooms + heard.jobs, ==, 0);
  sw_pricer_free (pricer);
  g_source_remove (late);
  g_main_loop_unref (heard.loop);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("finish-is-an-edit", test_finish_is_an_edit);
  TEST ("kept-over-a-finish", test_kept_over_a_finish);
  TEST ("dropped-when-it-may-differ", test_dropped_when_it_may_differ);
  TEST ("dropped-with-its-layout", test_dropped_with_its_layout);
  TEST ("whole-and-sides-agree", test_whole_and_sides_agree);
  TEST ("sums", test_sums);
  TEST ("only-the-last-asking-is-heard", test_only_the_last_asking_is_heard);
  TEST ("unknown-rules-are-a-fault", test_unknown_rules_are_a_fault);
  return g_test_run ();
}
