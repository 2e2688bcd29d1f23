/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "job/desk.h"
#include "support.h"
#include <string.h>

static SwLight *
new_light (SwDesk *desk, SwEdit *edit, double x)
{
  SwLight *light = (SwLight *) sw_edit_create (edit, sw_desk_job (desk), SW_TABLE_LIGHT);
  light->at = (SwPoint){ x, 0 };
  return light;
}

static SwId
add_light (SwDesk *desk, double x)
{
  GError *error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("Add downlight");
  SwLight *light = new_light (desk, edit, x);
  SwId id = light->record.id;
  g_assert_true (sw_edit_put (edit, sw_desk_job (desk), &light->record, &error));
  g_assert_true (sw_desk_do (desk, edit, &error));
  g_assert_no_error (error);
  return id;
}

static SwDesk *
new_desk (void)
{
  g_autoptr (SwJob) job = sw_job_new ();
  return sw_desk_new (job, NULL);
}

static void
count_notice (SwDesk *desk, const SwNotice *notice, gpointer data)
{
  ++*(int *) data;
  g_assert_true (notice->tables == 1u << SW_TABLE_LIGHT);
  g_assert_false (sw_box_is_empty (notice->box));
}

static void
test_undo_redo (void)
{
  g_autoptr (SwDesk) desk = new_desk ();
  int notices = 0;
  guint handle = sw_desk_watch (desk, count_notice, &notices);
  SwId id = add_light (desk, 100);
  g_autofree char *name = sw_desk_undo_name (desk);
  g_assert_cmpstr (name, ==, "Add downlight");
  g_assert_nonnull (sw_job_get (sw_desk_job (desk), id));
  g_assert_true (sw_desk_undo (desk, NULL));
  g_assert_null (sw_job_get (sw_desk_job (desk), id));
  g_assert_false (sw_desk_undo (desk, NULL));
  g_assert_true (sw_desk_redo (desk, NULL));
  g_assert_nonnull (sw_job_get (sw_desk_job (desk), id));
  g_assert_cmpint (notices, ==, 3);
  sw_desk_unwatch (desk, handle);
  g_assert_true (sw_desk_undo (desk, NULL));
  add_light (desk, 200);
  g_assert_false (sw_desk_can_redo (desk));
  g_assert_cmpint (notices, ==, 3);
}

/* Thousands of random edits: pictures taken on the way are met again by undo and redo, and are never changed. */
static void
test_random_walk (void)
{
  enum { STEPS = 1500 };
  g_autoptr (SwDesk) desk = new_desk ();
  SwRandom random = { 42 };
  g_autoptr (GPtrArray) pictures = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_job_unref);
  g_ptr_array_add (pictures, sw_job_ref (sw_desk_job (desk)));
  for (int i = 0; i < STEPS; i++)
    {
      g_autoptr (SwEdit) edit = sw_edit_new ("Change");
      SwJob *job = sw_desk_job (desk);
      guint count = sw_job_count (job, SW_TABLE_LIGHT);
      int what = sw_random_int (&random, 0, 3);
      if (count == 0 || what <= 1)
        g_assert_true (sw_edit_put (edit, job, &new_light (desk, edit, i)->record, NULL));
      else
        {
          const SwRecord *light = sw_job_nth (job, SW_TABLE_LIGHT, (guint) sw_random_int (&random, 0, (int) count - 1));
          if (what == 2)
            sw_edit_remove (edit, job, light->id);
          else
            {
              SwRecord *copy = sw_record_copy (light);
              ((SwLight *) copy)->at.x += 1 + i;
              g_assert_true (sw_edit_put (edit, job, copy, NULL));
            }
        }
      g_assert_true (sw_desk_do (desk, edit, NULL));
      g_ptr_array_add (pictures, sw_job_ref (sw_desk_job (desk)));
    }
  for (int i = STEPS; i > 0; i--)
    {
      g_assert_true (sw_desk_undo (desk, NULL));
      if (i % 50 == 1)
        g_assert_true (sw_job_equal (sw_desk_job (desk), pictures->pdata[i - 1]));
    }
  while (sw_desk_can_redo (desk))
    g_assert_true (sw_desk_redo (desk, NULL));
  g_assert_true (sw_job_equal (sw_desk_job (desk), pictures->pdata[STEPS]));
  g_assert_true (sw_desk_revert (desk, NULL));
  g_assert_true (sw_job_equal (sw_desk_job (desk), pictures->pdata[0]));
  g_assert_true (sw_desk_undo (desk, NULL));
  g_assert_true (sw_job_equal (sw_desk_job (desk), pictures->pdata[STEPS]));
}

static SwRecord *
new_profile_and_bay (SwDesk *desk, SwEdit *edit)
{
  SwRecord *profile = sw_edit_create (edit, sw_desk_job (desk), SW_TABLE_PROFILE);
  SwId profile_id = profile->id;
  g_assert_true (sw_edit_put (edit, sw_desk_job (desk), profile, NULL));
  SwBay *bay = (SwBay *) sw_edit_create (edit, sw_desk_job (desk), SW_TABLE_BAY);
  SwPoint outline[] = { { 0, 0 }, { 6000, 0 }, { 6000, 4000 }, { 0, 4000 } };
  sw_list_set_points (&bay->outline, outline, 4);
  bay->profile = profile_id;
  return &bay->record;
}

static void
test_references (void)
{
  GError *error = NULL;
  g_autoptr (SwDesk) desk = new_desk ();
  g_autoptr (SwEdit) edit = sw_edit_new ("Add bay");
  SwRecord *bay = new_profile_and_bay (desk, edit);
  SwId bay_id = bay->id, profile_id = ((SwBay *) bay)->profile;
  g_assert_true (sw_edit_put (edit, sw_desk_job (desk), bay, &error));
  g_assert_true (sw_desk_do (desk, edit, &error));
  g_assert_no_error (error);

  g_autoptr (SwEdit) removal = sw_edit_new ("Delete profile");
  sw_edit_remove (removal, sw_desk_job (desk), profile_id);
  g_assert_cmpuint (removal->changes->len, ==, 2); /* the bay goes with it */
  g_assert_true (sw_desk_do (desk, removal, &error));
  g_assert_null (sw_job_get (sw_desk_job (desk), bay_id));
  g_assert_true (sw_desk_undo (desk, &error));

  g_autoptr (SwEdit) bad = sw_edit_new ("Break");
  SwRecord *copy = sw_record_copy (sw_job_get (sw_desk_job (desk), bay_id));
  ((SwBay *) copy)->profile = SW_ID (SW_TABLE_PROFILE, 99);
  g_assert_true (sw_edit_put (bad, sw_desk_job (desk), copy, &error));
  g_assert_false (sw_desk_do (desk, bad, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "profile: what it names is not in the job");
}

static void
test_marks (void)
{
  GError *error = NULL;
  g_autoptr (SwDesk) desk = new_desk ();
  add_light (desk, 0);
  g_autoptr (SwEdit) edit = sw_edit_new ("Add downlight");
  SwLight *light = new_light (desk, edit, 5);
  g_assert_cmpstr (light->record.tag, ==, "L2");
  sw_text_set (&light->record.tag, "L1");
  g_assert_true (sw_edit_put (edit, sw_desk_job (desk), &light->record, &error));
  g_assert_false (sw_desk_do (desk, edit, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "the mark \"L1\" stands on");
}

static void
test_conflict (void)
{
  GError *error = NULL;
  g_autoptr (SwDesk) desk = new_desk ();
  SwId id = add_light (desk, 0);
  g_autoptr (SwEdit) stale = sw_edit_new ("Move");
  SwRecord *copy = sw_record_copy (sw_job_get (sw_desk_job (desk), id));
  ((SwLight *) copy)->at.x = 9;
  g_assert_true (sw_edit_put (stale, sw_desk_job (desk), copy, NULL));
  g_assert_true (sw_desk_undo (desk, NULL));
  g_assert_false (sw_desk_do (desk, stale, &error));
  g_assert_error (error, SW_ERROR, SW_ERROR_CONFLICT);
  g_clear_error (&error);
}

static void
test_many (void)
{
  GError *error = NULL;
  g_autoptr (SwDesk) desk = new_desk ();
  g_autoptr (SwEdit) edit = sw_edit_new ("Add many");
  for (int i = 0; i < 3000; i++)
    {
      SwLight *light = (SwLight *) sw_record_new (SW_ID (SW_TABLE_LIGHT, (i * 7919) % 3001 + 1), NULL);
      g_autofree char *tag = g_strdup_printf ("x%d", i);
      sw_text_set (&light->record.tag, tag);
      light->at.x = i;
      g_assert_true (sw_edit_put (edit, sw_desk_job (desk), &light->record, &error));
    }
  g_assert_true (sw_desk_do (desk, edit, &error));
  g_assert_no_error (error);
  const SwJob *job = sw_desk_job (desk);
  g_assert_cmpuint (sw_job_count (job, SW_TABLE_LIGHT), ==, 3000);
  SwId last = 0;
  guint n = 0;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL; n++)
    {
      g_assert_cmpint (record->id, >, last);
      g_assert_true (sw_job_get (job, record->id) == record && sw_job_nth (job, SW_TABLE_LIGHT, n) == record);
      last = record->id;
    }
  g_assert_cmpuint (n, ==, 3000);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/job/desk/undo-redo", test_undo_redo);
  g_test_add_func ("/job/desk/random-walk", test_random_walk);
  g_test_add_func ("/job/desk/references", test_references);
  g_test_add_func ("/job/desk/marks", test_marks);
  g_test_add_func ("/job/desk/conflict", test_conflict);
  g_test_add_func ("/job/desk/many", test_many);
  return g_test_run ();
}
