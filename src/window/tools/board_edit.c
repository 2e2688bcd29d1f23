/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/board_edit.h"
#include "window/tools/board_data.h"
#include "window/tools/parts.h"
#include "base/error.h"
#include "sheets/words.h"
#include "space/deck.h"
#include <math.h>

gboolean
sw_board_shows_template (SwBoard *board)
{
  return board->picked->len == 0 && sw_board_template (board) != NULL;
}

/* Battens and boards stand for their room. */
static const SwRecord *
edited (SwJob *job, SwId picked)
{
  const SwRecord *record = sw_job_get (job, picked);
  if (record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT)
    return sw_job_get (job, ((const SwLayout *) record)->room);
  return record;
}

GPtrArray *
sw_board_shown (SwBoard *board)
{
  GPtrArray *records = g_ptr_array_new ();
  SwJob *job = sw_board_job (board);
  if (sw_board_shows_template (board))
    {
      g_ptr_array_add (records, sw_board_template (board));
      return records;
    }
  for (guint i = 0; i < board->picked->len; i++)
    {
      const SwRecord *record = edited (job, g_array_index (board->picked, SwId, i));
      if (record == NULL || g_ptr_array_find (records, record, NULL))
        continue;
      if (records->len > 0 && sw_record_table (records->pdata[0]) != sw_record_table (record))
        {
          g_ptr_array_set_size (records, 0);
          return records;
        }
      g_ptr_array_add (records, (gpointer) record);
    }
  return records;
}

/* Changes one copy; what it does is up to `data`. */
typedef gboolean (*Change) (SwRecord *copy, gconstpointer data, GError **error);

static char *
change_name (const SwRecord *record, guint n, const SwField *field)
{
  const char *what = sw_word (field != NULL ? field->label : N_("mark"));
  g_autofree char *lower = g_utf8_strdown (what, -1);
  if (n == 1)
    return g_strdup_printf (_("Change %s of %s"), lower, sw_word (sw_record_type (record)->label));
  return g_strdup_printf (_("Change %s of %u things"), lower, n);
}

static gboolean
change_all (SwBoard *board, const SwField *field, Change change, gconstpointer data, GError **error)
{
  g_autoptr (GPtrArray) records = sw_board_shown (board);
  if (records->len == 0)
    return TRUE;
  if (sw_board_shows_template (board))
    {
      g_autoptr (SwRecord) trial = sw_record_copy (records->pdata[0]);
      if (!change (trial, data, error))
        return FALSE;
      change (records->pdata[0], data, NULL);
      sw_board_template_changed (board);
      return TRUE;
    }
  g_autofree char *name = change_name (records->pdata[0], records->len, field);
  g_autoptr (SwEdit) edit = sw_edit_new (name);
  for (guint i = 0; i < records->len; i++)
    {
      g_autoptr (SwRecord) copy = sw_record_copy (records->pdata[i]);
      if (!change (copy, data, error) || !sw_edit_put (edit, sw_board_job (board), g_steal_pointer (&copy), error))
        return FALSE;
    }
  return sw_edit_is_empty (edit) || sw_desk_do (board->desk, edit, error);
}

typedef struct
{
  const SwPath *path;
  const char *text;
  SwId to;
  SwLengths lengths;
} Value;

static gboolean
change_value (SwRecord *copy, gconstpointer data, GError **error)
{
  const Value *value = data;
  return sw_path_read (copy, value->path, value->lengths, value->text, error);
}

static gboolean
change_ref (SwRecord *copy, gconstpointer data, GError **error)
{
  const Value *value = data;
  gpointer base = sw_path_base (copy, value->path);
  if (base != NULL)
    SW_AT (base, sw_path_leaf (value->path), SwId) = value->to;
  return TRUE;
}

static gboolean
change_tag (SwRecord *copy, gconstpointer data, GError **error)
{
  if (*(const char *) data == 0)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, _("A mark is needed: it stands on the drawings."));
      return FALSE;
    }
  sw_text_set (&copy->tag, data);
  return TRUE;
}

gboolean
sw_board_set_value (SwBoard *board, const SwPath *path, const char *text, GError **error)
{
  Value value = { path, text, 0, sw_job_lengths (sw_board_job (board)) };
  return change_all (board, path->inner != NULL && path->axis < 0 ? path->inner : path->outer, change_value, &value, error);
}

gboolean
sw_board_set_ref (SwBoard *board, const SwPath *path, SwId to, GError **error)
{
  Value value = { path, NULL, to, SW_LENGTHS_MM };
  return change_all (board, path->outer, change_ref, &value, error);
}

gboolean
sw_board_set_tag (SwBoard *board, const char *tag, GError **error)
{
  return change_all (board, NULL, change_tag, tag, error);
}

/* ---- Bays ---- */

static double
even_first_rib (SwJob *job, const SwRecord *record)
{
  const SwBay *bay = (const SwBay *) record;
  const SwRecord *profile = sw_job_get (job, bay->profile);
  return profile != NULL ? sw_deck_even_first_rib (bay, (const SwProfile *) profile) : bay->first_rib;
}

static gboolean
centre (SwRecord *copy, gconstpointer data, GError **error)
{
  ((SwBay *) copy)->first_rib = even_first_rib ((SwJob *) data, copy);
  return TRUE;
}

gboolean
sw_board_voids_are_off_centre (SwBoard *board)
{
  g_autoptr (GPtrArray) records = sw_board_shown (board);
  if (records->len == 0 || sw_board_shows_template (board) || sw_record_table (records->pdata[0]) != SW_TABLE_BAY)
    return FALSE;
  for (guint i = 0; i < records->len; i++)
    if (fabs (even_first_rib (sw_board_job (board), records->pdata[i]) - ((const SwBay *) records->pdata[i])->first_rib) > 0.5)
      return TRUE;
  return FALSE;
}

gboolean
sw_board_centre_voids (SwBoard *board, GError **error)
{
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_BAY)->body, "first_rib_mm");
  return !sw_board_voids_are_off_centre (board) || change_all (board, field, centre, sw_board_job (board), error);
}

static gboolean
insert_place (SwRecord *copy, gconstpointer data, GError **error)
{
  guint i = *(const guint *) data, skip, n = sw_parts_count (copy);
  const SwField *field = sw_parts_list (copy);
  if (field == NULL)
    return TRUE;
  skip = n - SW_AT (copy, field, SwList).n;
  if (i >= n - skip)
    return TRUE;
  gboolean ring = sw_parts_form (copy) == SW_PARTS_RING;
  SwPoint a = sw_parts_get (copy, skip + i), b = a;
  if (i + 1 < n - skip || ring)
    b = sw_parts_get (copy, skip + (i + 1) % (n - skip));
  SwPoint at = i + 1 < n - skip || ring ? sw_point_lerp (a, b, 0.5) : (SwPoint){ a.x + 500, a.y };
  return sw_parts_insert (copy, i, at);
}

static gboolean
remove_place (SwRecord *copy, gconstpointer data, GError **error)
{
  if (sw_parts_remove (copy, *(const guint *) data))
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, _("Too few places would be left."));
  return FALSE;
}

gboolean
sw_board_insert_place (SwBoard *board, guint item, GError **error)
{
  return change_all (board, board->picked->len == 1 ? sw_parts_list (sw_job_get (sw_board_job (board), sw_board_picked (board, 0))) : NULL,
                     insert_place, &item, error);
}

gboolean
sw_board_remove_place (SwBoard *board, guint item, GError **error)
{
  return change_all (board, board->picked->len == 1 ? sw_parts_list (sw_job_get (sw_board_job (board), sw_board_picked (board, 0))) : NULL,
                     remove_place, &item, error);
}
