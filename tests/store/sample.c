/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "job/records.h"
#include <glib/gstdio.h>
#include <unistd.h>

static char *
random_text (SwRandom *random)
{
  static const char *const parts[] = { "Hall", "ß", "№ 4", " ", "\"", "\\", "\n", "\t", "/", "İı", "😀", "-5", "=1+1", ";", "\x7f", "\x01" };
  GString *text = g_string_new (NULL);
  for (int n = sw_random_int (random, 0, 6); n > 0; n--)
    g_string_append (text, parts[sw_random_int (random, 0, G_N_ELEMENTS (parts) - 1)]);
  return g_string_free (text, FALSE);
}

static SwPoint
random_point (SwRandom *random)
{
  return (SwPoint){ sw_random_double (random, -50000, 50000), sw_random_double (random, -50000, 50000) };
}

/* A star-shaped outline about a middle. */
static void
random_outline (SwRandom *random, SwList *list)
{
  SwPoint middle = random_point (random);
  guint n = (guint) sw_random_int (random, 3, 30);
  SwPoint *points = sw_list_resize (list, &sw_struct_point, n);
  for (guint i = 0; i < n; i++)
    {
      double turn = 2 * G_PI * i / n, far = sw_random_double (random, 500, 9000);
      points[i] = (SwPoint){ middle.x + far * cos (turn), middle.y + far * sin (turn) };
    }
}

/* Some record of the tables that the field may name; 0 when there is none. */
static SwId
random_ref (SwRandom *random, const SwEdit *edit, const SwJob *job, guint32 tables)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (SwId));
  const SwRecord *record;
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    for (SwJobIter i = sw_job_iter (job, table); (tables & (1u << table)) && (record = sw_job_iter_next (&i)) != NULL;)
      if (sw_edit_peek (edit, job, record->id) != NULL)
        g_array_append_val (found, record->id);
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (change->before == NULL && change->after != NULL && (tables & (1u << SW_ID_TABLE (change->id))))
        g_array_append_val (found, change->id);
    }
  return found->len > 0 ? g_array_index (found, SwId, sw_random_int (random, 0, (int) found->len - 1)) : 0;
}

static void
fill_struct (SwRandom *random, const SwEdit *edit, const SwJob *job, const SwStruct *kind, gpointer base)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      g_autofree char *text = NULL;
      switch (field->kind)
        {
        case SW_FIELD_BOOL:
        case SW_FIELD_INT:
        case SW_FIELD_ENUM:
          SW_AT (base, field, int) = sw_random_int (random, (int) field->low, (int) field->high);
          break;
        case SW_FIELD_NUMBER:
          SW_AT (base, field, double) = sw_random_int (random, 0, 3) ? sw_random_double (random, field->low, field->high) : field->start;
          break;
        case SW_FIELD_TEXT:
          text = random_text (random);
          sw_text_set (&SW_AT (base, field, char *), text);
          break;
        case SW_FIELD_DATE:
          text = g_strdup_printf ("20%02d-%02d-%02d", sw_random_int (random, 0, 99), sw_random_int (random, 1, 12), sw_random_int (random, 1, 28));
          sw_text_set (&SW_AT (base, field, char *), text);
          break;
        case SW_FIELD_REF:
          SW_AT (base, field, SwId) = random_ref (random, edit, job, field->refs);
          break;
        case SW_FIELD_MONEY:
          SW_AT (base, field, SwMoney) = (SwMoney) sw_random_next (random) / 3;
          break;
        case SW_FIELD_POINT:
          SW_AT (base, field, SwPoint) = random_point (random);
          break;
        case SW_FIELD_LIST:
          if (field->flags & SW_FLAG_OUTLINE)
            {
              random_outline (random, &SW_AT (base, field, SwList));
              break;
            }
          sw_list_resize (&SW_AT (base, field, SwList), field->item, (guint) sw_random_int (random, 2, 5));
          for (guint k = 0; k < SW_AT (base, field, SwList).n; k++)
            fill_struct (random, edit, job, field->item, sw_list_item (&SW_AT (base, field, SwList), field->item, k));
          break;
        }
    }
}

/* Draws values until the record settles: what fields demand of each other is not in the tables. */
static void
put_random (SwRandom *random, SwEdit *edit, const SwJob *job, const SwRecord *record)
{
  for (;;)
    {
      g_autoptr (GError) error = NULL;
      SwRecord *filled = sw_record_copy (record);
      fill_struct (random, edit, job, &sw_record_type (filled)->body, filled);
      if (sw_edit_put (edit, job, filled, &error))
        return;
    }
}

SwJob *
sw_sample_job (guint64 seed, guint each)
{
  SwRandom random = { seed };
  g_autoptr (SwJob) job = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("Sample");
  put_random (&random, edit, job, (const SwRecord *) sw_job_info (job));
  for (SwTable table = SW_TABLE_JOB + 1; table < SW_N_TABLES; table++)
    for (guint i = 0; i < each; i++)
      {
        g_autoptr (SwRecord) record = sw_edit_create (edit, job, table);
        if (sw_random_int (&random, 0, 1))
          {
            g_autofree char *odd = random_text (&random), *mark = g_strdup_printf ("%s%u %s", sw_type_get (table)->prefix, i, odd);
            sw_text_set (&record->tag, mark);
          }
        put_random (&random, edit, job, record);
      }
  GError *error = NULL;
  SwJob *made = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  return made;
}

SwEdit *
sw_sample_edit (SwRandom *random, const SwJob *job)
{
  for (;;)
    {
      g_autofree char *name = g_strdup_printf ("Change %d", sw_random_int (random, 0, 999));
      g_autoptr (SwEdit) edit = sw_edit_new (name);
      for (int n = sw_random_int (random, 1, 3); n > 0; n--)
        {
          SwTable table = (SwTable) sw_random_int (random, 0, SW_N_TABLES - 1);
          guint count = sw_job_count (job, table);
          const SwRecord *old = count > 0 ? sw_job_nth (job, table, (guint) sw_random_int (random, 0, (int) count - 1)) : NULL;
          int what = table == SW_TABLE_JOB ? 1 : old == NULL ? 0 : sw_random_int (random, 0, 2);
          if (what == 2)
            sw_edit_remove (edit, job, old->id);
          else if (what == 1 && sw_edit_peek (edit, job, old->id) != NULL)
            put_random (random, edit, job, old);
          else if (what == 0)
            {
              g_autoptr (SwRecord) fresh = sw_edit_create (edit, job, table);
              put_random (random, edit, job, fresh);
            }
        }
      /* An edit that would leave a record without its owner is drawn again. */
      g_autoptr (SwJob) after = sw_job_apply ((SwJob *) job, edit, TRUE, NULL);
      if (after != NULL && !sw_edit_is_empty (edit))
        return g_steal_pointer (&edit);
    }
}

void
sw_sample_fast_folders (void)
{
  if (g_access ("/dev/shm", W_OK | X_OK) == 0)
    g_setenv ("TMPDIR", "/dev/shm", TRUE);
}
