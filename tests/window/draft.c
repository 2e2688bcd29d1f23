/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support.h"
#include "job/edit.h"
#include "store/text_form.h"
#include "window/document.h"
#include <string.h>

/* Snags while something is dragged or drawn. What a draft gives is held against a whole check of a job that holds the same
 * records: the checks have tests of their own. */

/* A bay of 9 × 6 m, profile 600/500/400/250: void i (from 0) has its middle at y = 600 (i + 1). P1 goes through the ribs
 * between voids 2 and 4, P2 lies in void 6, P3 in void 8. */
static const char job_text[] =
    "{\"format\": \"soffit-job\", \"version\": 1, \"job\": {\"name\": \"Test\"},"
    " \"profiles\": [{\"id\": \"plain\", \"tendons\": \"no\", \"plate_spacing_mm\": 0}],"
    " \"bays\": [{\"id\": \"bay-1\", \"name\": \"Bay A\", \"profile\": \"plain\", \"first_rib_mm\": 300,"
    "            \"outline\": [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]}],"
    " \"runs\": [{\"id\": \"P1\", \"vertices\": [{\"at\": [2000, 1800], \"z\": 60}, {\"at\": [2000, 3000], \"z\": 60}]},"
    "            {\"id\": \"P2\", \"vertices\": [{\"at\": [3000, 4200], \"z\": 60}, {\"at\": [5000, 4200], \"z\": 60}]},"
    "            {\"id\": \"P3\", \"vertices\": [{\"at\": [3000, 5400], \"z\": 60}, {\"at\": [5000, 5400], \"z\": 60}]}]}";

static SwJob *
test_job (void)
{
  g_autoptr (GError) error = NULL;
  SwJob *job = sw_text_form_read (job_text, -1, &error);
  g_assert_no_error (error);
  return job;
}

static SwPicture *
checked_picture (SwJob *job)
{
  g_autoptr (SwPicture) plain = sw_picture_new (job, 1, NULL, NULL);
  SwPicture *picture = sw_picture_check (plain, NULL);
  g_assert_nonnull (picture);
  return picture;
}

static SwRecord *
moved (SwJob *job, const char *tag, double dx, double dy)
{
  SwRecord *record = sw_record_copy (sw_job_find (job, tag));
  sw_record_move (record, (SwPoint){ dx, dy });
  return record;
}

static void
test_draft_finds_what_a_whole_check_finds (void)
{
  g_autoptr (SwJob) job = test_job ();
  g_autoptr (SwPicture) picture = checked_picture (job);
  for (double dy = -900; dy <= 900; dy += 150)
    {
      g_autoptr (SwRecord) record = moved (job, "P2", 20, dy);
      g_autoptr (SwPicture) draft = sw_picture_draft (picture, &record, 1, NULL);
      g_assert_nonnull (draft);
      g_assert_true (draft->draft);
      g_autoptr (SwEdit) edit = sw_edit_new ("");
      g_assert_true (sw_edit_put (edit, job, sw_record_copy (record), NULL));
      g_autoptr (SwJob) later = sw_job_apply (job, edit, TRUE, NULL);
      g_autoptr (SwPicture) whole = checked_picture (later);
      g_assert_cmpuint (sw_snags_n (draft->snags), ==, sw_snags_n (whole->snags));
      for (guint i = 0; i < sw_snags_n (whole->snags); i++)
        {
          g_autofree char *a = sw_snag_key (sw_snags_get (draft->snags, i)), *b = sw_snag_key (sw_snags_get (whole->snags, i));
          g_assert_cmpstr (a, ==, b);
        }
    }
}

static void
test_draft_leaves_the_rest_its_numbers (void)
{
  g_autoptr (SwJob) job = test_job ();
  g_autoptr (SwPicture) picture = checked_picture (job);
  guint before = sw_snags_count (picture->snags, SW_SEVERITY_STOP), kept = 0, fresh = 0;
  g_assert_cmpuint (before, >=, 2);
  /* P2 moved on to a rib left of P1: its stops sort before those of P1. */
  g_autoptr (SwRecord) record = moved (job, "P2", -2500, -300);
  g_autoptr (SwPicture) draft = sw_picture_draft (picture, &record, 1, NULL);
  for (guint i = 0; i < sw_snags_n (draft->snags); i++)
    {
      const SwSnag *snag = sw_snags_get (draft->snags, i);
      if (snag->severity != SW_SEVERITY_STOP)
        continue;
      if (sw_snag_concerns (snag, record->id))
        {
          fresh++;
          g_assert_cmpuint (draft->numbers[i], ==, before + fresh);
          continue;
        }
      const SwSnag *old = sw_snags_get (picture->snags, kept);
      g_assert_cmpuint (draft->numbers[i], ==, picture->numbers[kept]);
      sw_assert_near (snag->place.y, old->place.y, 1e-9);
      kept++;
    }
  g_assert_cmpuint (kept, ==, before);
  g_assert_cmpuint (fresh, >, 0);
  g_assert_true (sw_box_holds (draft->changed, (SwPoint){ 1500, 3900 }));
  g_assert_false (sw_box_holds (draft->changed, (SwPoint){ 2000, 2400 }));
}

static void
test_impossible_draft_gives_none (void)
{
  g_autoptr (SwJob) job = test_job ();
  g_autoptr (SwPicture) picture = checked_picture (job);
  g_autoptr (SwRecord) record = sw_record_copy (sw_job_find (job, "P2"));
  sw_list_resize (&((SwRun *) record)->vertices, &sw_struct_vertex, 1);
  g_assert_null (sw_picture_draft (picture, &record, 1, NULL));
}

/* ---- through a document: worker and main loop as in the window */

typedef struct
{
  SwDocument *document;
  SwBoard *board;
  GArray *stops; /* guint, at each signal */
  guint before;
} Scene;

static guint
stops_now (Scene *scene)
{
  const SwPicture *picture = sw_document_snags_picture (scene->document);
  return picture != NULL && picture->snags != NULL ? sw_snags_count (picture->snags, SW_SEVERITY_STOP) : 0;
}

static void
on_snags (SwDocument *document, Scene *scene)
{
  guint stops = stops_now (scene);
  g_array_append_val (scene->stops, stops);
}

/* Until it is true; ten seconds without that fail. */
static void
wait_until (gboolean (*is_true) (Scene *scene), Scene *scene)
{
  gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC * (g_getenv ("SOFFITWRIGHT_TEST_LIGHT") != NULL ? 20 : 1);
  while (!is_true (scene) && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  g_assert_true (is_true (scene));
}

static gboolean
is_checked (Scene *scene)
{
  const SwPicture *picture = sw_document_picture (scene->document);
  return picture != NULL && picture->checked && picture->generation == sw_desk_generation (sw_document_desk (scene->document)) + 1;
}

static gboolean
is_draft (Scene *scene)
{
  return sw_document_snags_picture (scene->document)->draft;
}

static gboolean
is_no_draft (Scene *scene)
{
  return !is_draft (scene);
}

static gboolean
has_more_stops (Scene *scene)
{
  return is_draft (scene) && stops_now (scene) > scene->before;
}

static void
scene_set_up (Scene *scene, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwJob) job = test_job ();
  scene->document = sw_document_new_from_job (job, &error);
  g_assert_no_error (error);
  scene->board = sw_document_board (scene->document);
  scene->stops = g_array_new (FALSE, FALSE, sizeof (guint));
  sw_board_set_view (scene->board, 5, 0, 0);
  sw_board_set_snaps (scene->board, FALSE);
  wait_until (is_checked, scene);
  scene->before = stops_now (scene);
  g_signal_connect (scene->document, "snags", G_CALLBACK (on_snags), scene);
}

static void
scene_tear_down (Scene *scene, gconstpointer data)
{
  g_signal_handlers_disconnect_by_data (scene->document, scene);
  g_object_unref (scene->document);
  g_array_unref (scene->stops);
}

static void
move (Scene *scene, double x, double y)
{
  sw_board_motion (scene->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
}

static void
press (Scene *scene, double x, double y)
{
  move (scene, x, y);
  sw_board_press (scene->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
}

static void
release (Scene *scene, double x, double y)
{
  sw_board_release (scene->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
}

static void
test_list_follows_a_drag_and_escape_brings_it_back (Scene *scene, gconstpointer data)
{
  SwSnags *before = sw_document_picture (scene->document)->snags;
  press (scene, 4000, 4200);
  move (scene, 4000, 4100);
  move (scene, 4000, 3900); /* on the rib */
  wait_until (has_more_stops, scene);
  g_assert_cmpuint (sw_desk_history_length (sw_document_desk (scene->document)), ==, 0);
  g_assert_true (sw_document_picture (scene->document)->snags == before);
  sw_board_escape (scene->board);
  wait_until (is_no_draft, scene);
  g_assert_true (sw_document_snags_picture (scene->document)->snags == before);
  release (scene, 4000, 3900);
  g_assert_cmpuint (sw_desk_history_length (sw_document_desk (scene->document)), ==, 0);
}

static void
test_letting_go_never_steps_back (Scene *scene, gconstpointer data)
{
  press (scene, 4000, 4200);
  move (scene, 4000, 4100);
  move (scene, 4000, 3900);
  wait_until (has_more_stops, scene);
  guint dragged = stops_now (scene);
  g_array_set_size (scene->stops, 0);
  release (scene, 4000, 3900);
  wait_until (is_checked, scene);
  wait_until (is_no_draft, scene);
  g_assert_cmpuint (sw_desk_history_length (sw_document_desk (scene->document)), ==, 1);
  g_assert_cmpuint (scene->stops->len, >=, 2);
  for (guint i = 0; i < scene->stops->len; i++)
    g_assert_cmpuint (g_array_index (scene->stops, guint, i), ==, dragged);
}

static void
test_list_follows_a_run_being_drawn (Scene *scene, gconstpointer data)
{
  g_assert_true (sw_board_use (scene->board, "conduit"));
  press (scene, 7000, 1800);
  release (scene, 7000, 1800);
  move (scene, 7000, 3000); /* across two ribs, not clicked yet */
  wait_until (has_more_stops, scene);
  g_assert_cmpuint (sw_job_count (sw_document_job (scene->document), SW_TABLE_RUN), ==, 3);
  sw_board_escape (scene->board);
  wait_until (is_no_draft, scene);
  g_assert_cmpuint (stops_now (scene), ==, scene->before);
}

static void
test_hovering_changes_no_list (Scene *scene, gconstpointer data)
{
  guint serial;
  g_assert_null (sw_board_draft_under_way (scene->board, &serial));
  /* Hovering with a tool in hand changes no list. */
  g_assert_true (sw_board_use (scene->board, "light"));
  move (scene, 4000, 3900);
  g_assert_cmpuint (sw_board_drafts (scene->board)->len, ==, 1);
  g_assert_null (sw_board_draft_under_way (scene->board, &serial));
}

/* An older draft's result must not come after what ended it. */
static void
test_stale_drafts_are_dropped (Scene *scene, gconstpointer data)
{
  for (int round = 0; round < sw_test_rounds (30); round++)
    {
      press (scene, 4000, 4200);
      for (int i = 1; i <= 5; i++)
        move (scene, 4000, 4200 - 60 * i);
      sw_board_escape (scene->board);
      release (scene, 4000, 3900);
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (2000 * (round % 3));
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_assert_false (is_draft (scene));
      g_assert_cmpuint (stops_now (scene), ==, scene->before);
    }
}

#define TEST(path, function) g_test_add ("/window/draft/" path, Scene, NULL, scene_set_up, function, scene_tear_down)

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_autofree char *folder = sw_test_folder ();
  g_setenv ("XDG_DATA_HOME", folder, TRUE);
  g_test_add_func ("/window/draft/whole-check", test_draft_finds_what_a_whole_check_finds);
  g_test_add_func ("/window/draft/numbers", test_draft_leaves_the_rest_its_numbers);
  g_test_add_func ("/window/draft/impossible", test_impossible_draft_gives_none);
  TEST ("drag", test_list_follows_a_drag_and_escape_brings_it_back);
  TEST ("release", test_letting_go_never_steps_back);
  TEST ("draw", test_list_follows_a_run_being_drawn);
  TEST ("hover", test_hovering_changes_no_list);
  TEST ("stale", test_stale_drafts_are_dropped);
  return g_test_run ();
}
