/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "store/text_form.h"
#include "window/snag_item.h"
#include "window/tools/board_edit.h"
#include "window/tools/release.h"
#include <string.h>

/* Plates stand every 1500 from the closure at 150: at 1650, 3150, 4650, 6150 and 7650. R1 passes the first three in void 2
 * of bay A, R2 the first two of them once more; R3 passes one of bay B. */
static const char job_text[] =
    "{\"format\": \"soffit-job\", \"version\": 1, \"job\": {\"name\": \"Test\"},"
    " \"profiles\": [{\"id\": \"plain\", \"tendons\": \"no\"}],"
    " \"bays\": [{\"id\": \"bay-1\", \"name\": \"Bay A\", \"profile\": \"plain\", \"first_rib_mm\": 300,"
    "            \"outline\": [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]},"
    "           {\"id\": \"bay-2\", \"profile\": \"plain\", \"first_rib_mm\": 300,"
    "            \"outline\": [[0, 7000], [9000, 7000], [9000, 13000], [0, 13000]]}],"
    " \"runs\": [{\"id\": \"R1\", \"vertices\": [{\"at\": [500, 1200], \"z\": 60}, {\"at\": [5000, 1200], \"z\": 60}]},"
    "            {\"id\": \"R2\", \"vertices\": [{\"at\": [500, 1260], \"z\": 60}, {\"at\": [3500, 1260], \"z\": 60}]},"
    "            {\"id\": \"R3\", \"vertices\": [{\"at\": [1000, 8200], \"z\": 60}, {\"at\": [2000, 8200], \"z\": 60}]}]}";

static SwPicture *
checked (Fixture *fixture)
{
  g_autoptr (SwPicture) plain = sw_picture_new (sw_desk_job (fixture->desk), sw_desk_generation (fixture->desk) + 1, NULL, NULL);
  SwPicture *picture = sw_picture_check (plain, NULL);
  g_assert_nonnull (picture);
  return picture;
}

static SwId
id_of (Fixture *fixture, const char *tag)
{
  return sw_job_find (sw_desk_job (fixture->desk), tag)->id;
}

static guint
count (const SwPicture *picture, const char *variant)
{
  guint n = 0;
  for (guint i = 0; i < sw_snags_n (picture->snags); i++)
    {
      const SwSnag *snag = sw_snags_get (picture->snags, i);
      n += strcmp (snag->rule, "plate") == 0 && strcmp (snag->variant, variant) == 0;
    }
  return n;
}

static void
test_wanted_counts_each_plate_once (Fixture *fixture, gconstpointer data)
{
  static const struct { const char *tag; guint plates; } cases[] = { { "R1", 3 }, { "R2", 2 }, { "R3", 1 }, { "bay-1", 3 }, { "bay-2", 1 } };
  g_autoptr (SwPicture) picture = checked (fixture);
  g_assert_cmpuint (count (picture, "hit"), ==, 6);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GArray) plates = sw_release_wanted_for (picture->snags, id_of (fixture, cases[i].tag));
      g_assert_cmpuint (plates->len, ==, cases[i].plates);
    }
  g_autoptr (GArray) all = sw_release_wanted_for (picture->snags, 0);
  g_assert_cmpuint (all->len, ==, 4);
}

static void
test_one_edit_for_all_plates (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  g_autoptr (SwPicture) before = checked (fixture);
  g_autoptr (GArray) plates = sw_release_wanted_for (before->snags, id_of (fixture, "bay-1"));
  g_autoptr (SwEdit) edit = sw_release_edit (sw_desk_job (fixture->desk), plates, "N. Ngubane", "2026-03-14", "letter 7", &error);
  g_assert_no_error (error);
  g_assert_cmpstr (edit->name, ==, "Enter the release of 3 plates");
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 1);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_PLATE), ==, 3);
  g_autoptr (SwPicture) after = checked (fixture);
  g_assert_cmpuint (count (after, "hit"), ==, 1);
  g_assert_cmpuint (count (after, "released"), ==, 5);
  g_assert_true (sw_desk_undo (fixture->desk, &error));
  g_autoptr (SwPicture) undone = checked (fixture);
  g_assert_cmpuint (count (undone, "hit"), ==, 6);
}

/* A plate of which something is known already keeps its record. */
static void
test_known_plate_is_changed (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  g_autoptr (SwPicture) before = checked (fixture);
  g_autoptr (GArray) plates = sw_release_wanted_for (before->snags, id_of (fixture, "R3"));
  g_autoptr (SwEdit) half = sw_edit_new ("Half");
  SwPlate *plate = (SwPlate *) sw_edit_create (half, sw_desk_job (fixture->desk), SW_TABLE_PLATE);
  const SwPlateRef *ref = &g_array_index (plates, SwPlateRef, 0);
  plate->bay = ref->bay;
  plate->void_number = ref->void_number;
  plate->plate_number = ref->plate_number;
  sw_text_set (&plate->released_by, "somebody");
  g_assert_true (sw_edit_put (half, sw_desk_job (fixture->desk), &plate->record, &error));
  g_assert_true (sw_desk_do (fixture->desk, half, &error));
  g_autoptr (SwPicture) picture = checked (fixture);
  SwId id = fixture_last (fixture, SW_TABLE_PLATE)->id;
  g_autoptr (GArray) again = sw_release_wanted_for (picture->snags, id); /* by the plate's own record */
  g_assert_cmpuint (again->len, ==, 1);
  g_autoptr (SwEdit) edit = sw_release_edit (sw_desk_job (fixture->desk), again, "N. Ngubane", "2026-03-14", "letter 7", &error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_PLATE), ==, 1);
  g_assert_cmpint (fixture_last (fixture, SW_TABLE_PLATE)->id, ==, id);
  g_assert_cmpstr (((const SwPlate *) fixture_last (fixture, SW_TABLE_PLATE))->released_by, ==, "N. Ngubane");
}

static void
test_nothing_is_released_by_itself (Fixture *fixture, gconstpointer data)
{
  static const struct { const char *by, *on, *reference, *part; } cases[] = {
    { "", "2026-03-14", "letter 7", "engineer" }, { "  ", "2026-03-14", "letter 7", "engineer" }, { "N. Ngubane", "", "letter 7", "date" },
    { "N. Ngubane", "2026-03-14", "", "letter" }, { "N. Ngubane", "soon", "letter 7", "soon" },   { "N. Ngubane", "2026-02-30", "letter 7", "2026-02-30" },
  };
  g_autoptr (SwPicture) picture = checked (fixture);
  g_autoptr (GArray) plates = sw_release_wanted_for (picture->snags, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_assert_null (sw_release_edit (sw_desk_job (fixture->desk), plates, cases[i].by, cases[i].on, cases[i].reference, &error));
      sw_assert_error (error, SW_ERROR_INVALID, cases[i].part);
    }
}

/* ---- the list's rows */

static gboolean
all_pass (const SwSnag *snag, gpointer data)
{
  return TRUE;
}

static gboolean
passes_owner (const SwSnag *snag, gpointer data)
{
  return sw_snag_concerns (snag, *(SwId *) data);
}

static guint
n_groups (GPtrArray *rows, guint *members)
{
  guint n = 0;
  *members = 0;
  for (guint i = 0; i < rows->len; i++)
    {
      SwSnagItem *item = rows->pdata[i];
      if (item->members == NULL)
        continue;
      n++;
      *members += g_list_model_get_n_items (G_LIST_MODEL (item->members));
    }
  return n;
}

static void
test_plates_of_a_bay_are_one_row (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPicture) picture = checked (fixture);
  g_autoptr (GPtrArray) rows = sw_snag_item_rows (picture->snags, picture->numbers, all_pass, NULL);
  guint members;
  g_assert_cmpuint (n_groups (rows, &members), ==, 1); /* one plate alone is no group */
  g_assert_cmpuint (members, ==, 5);
  g_assert_cmpuint (rows->len, ==, sw_snags_n (picture->snags) - 4);
  for (guint i = 0; i < rows->len; i++)
    {
      SwSnagItem *item = rows->pdata[i];
      g_autoptr (GArray) plates = sw_snag_item_plates (item);
      if (item->members == NULL)
        continue;
      g_assert_cmpuint (plates->len, ==, 3);
      g_assert_cmpstr (sw_snag_item_text (item)->what, ==, "3 plates wait for the engineer's release: Bay A (bay-1)");
      g_assert_cmpstr (item->mark, ==, "5 ×");
    }
  SwId run = id_of (fixture, "R2");
  g_autoptr (GPtrArray) of_run = sw_snag_item_rows (picture->snags, picture->numbers, passes_owner, &run);
  g_assert_cmpuint (n_groups (of_run, &members), ==, 1);
  g_assert_cmpuint (members, ==, 2);
}

static void
test_voids_can_be_centred (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  sw_board_pick (fixture->board, id_of (fixture, "bay-1"), FALSE);
  g_assert_false (sw_board_voids_are_off_centre (fixture->board)); /* 300, nine voids of 600, 300 */
  SwRecord *bay = sw_record_copy (sw_job_find (sw_desk_job (fixture->desk), "bay-1"));
  g_autoptr (SwEdit) edit = sw_edit_new ("Move");
  ((SwBay *) bay)->first_rib = 0;
  g_assert_true (sw_edit_put (edit, sw_desk_job (fixture->desk), bay, &error));
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_true (sw_board_voids_are_off_centre (fixture->board));
  g_assert_true (sw_board_centre_voids (fixture->board, &error));
  sw_assert_near (((const SwBay *) sw_job_find (sw_desk_job (fixture->desk), "bay-1"))->first_rib, 300, 1e-9);
  g_assert_false (sw_board_voids_are_off_centre (fixture->board));
}

#define TEST(path, function) g_test_add ("/window/release/" path, Fixture, job_text, fixture_set_up, function, fixture_tear_down)

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("wanted", test_wanted_counts_each_plate_once);
  TEST ("one-edit", test_one_edit_for_all_plates);
  TEST ("known", test_known_plate_is_changed);
  TEST ("asked", test_nothing_is_released_by_itself);
  TEST ("rows", test_plates_of_a_bay_are_one_row);
  TEST ("centre", test_voids_can_be_centred);
  return g_test_run ();
}
