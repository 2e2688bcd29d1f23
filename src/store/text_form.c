/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The writing half of the text form. A record has one line a field, a list that does not fit on its line one line an
 * item, so that two jobs can be compared line by line. */
#include "store/text_form.h"
#include "base/error.h"
#include "store/json_write.h"
#include <string.h>

#define LINE_WIDTH 100
#define LARGEST_FILE (256u << 20)

/* A list over several lines, one item a line. */
static void
write_long_list (GString *out, const SwJsonStyle *style, const SwField *field, const SwList *list)
{
  g_string_append_c (out, '[');
  for (guint i = 0; i < list->n; i++)
    {
      g_string_append (out, i > 0 ? "," : "");
      sw_json_write_line (out, 4);
      sw_json_write_struct (out, style, field->item, sw_list_item (list, field->item, i));
    }
  sw_json_write_line (out, 3);
  g_string_append_c (out, ']');
}

static void
write_member (GString *out, const SwJsonStyle *style, guint steps, const SwField *field, gconstpointer record)
{
  sw_json_write_line (out, steps);
  gsize line = out->len;
  g_string_append_printf (out, "\"%s\": ", field->key);
  gsize value = out->len;
  sw_json_write_field (out, style, field, record);
  if (field->kind == SW_FIELD_LIST && 2 * steps + out->len - line > LINE_WIDTH)
    {
      g_string_truncate (out, value);
      write_long_list (out, style, field, &SW_AT (record, field, SwList));
    }
}

static void
write_record (GString *out, const SwJsonStyle *style, guint steps, const SwRecord *record)
{
  const SwStruct *kind = &sw_record_type (record)->body;
  gboolean first = TRUE;
  g_string_append_c (out, '{');
  if (*record->tag != '\0')
    {
      sw_json_write_line (out, steps + 1);
      g_string_append (out, "\"id\": ");
      sw_json_write_text (out, record->tag);
      first = FALSE;
    }
  for (guint i = 0; i < kind->n_fields; i++)
    {
      if (sw_json_leaves_out (style, &kind->fields[i], record))
        continue;
      g_string_append (out, first ? "" : ",");
      first = FALSE;
      write_member (out, style, steps + 1, &kind->fields[i], record);
    }
  if (!first)
    sw_json_write_line (out, steps);
  g_string_append_c (out, '}');
}

static void
write_table (GString *out, const SwJsonStyle *style, SwTable table)
{
  const SwRecord *record;
  gboolean first = TRUE;
  g_string_append_c (out, '[');
  for (SwJobIter i = sw_job_iter (style->job, table); (record = sw_job_iter_next (&i)) != NULL; first = FALSE)
    {
      g_string_append (out, first ? "" : ",");
      sw_json_write_line (out, 2);
      write_record (out, style, 2, record);
    }
  sw_json_write_line (out, 1);
  g_string_append_c (out, ']');
}

char *
sw_text_form_write (const SwJob *job)
{
  SwJsonStyle style = { job, FALSE };
  GString *out = g_string_new (NULL);
  g_string_append_printf (out, "{\n  \"format\": \"soffit-job\",\n  \"version\": %d", SW_TEXT_FORM_VERSION);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      if (sw_job_count (job, table) == 0)
        continue;
      g_string_append (out, ",\n  ");
      g_string_append_printf (out, "\"%s\": ", sw_type_get (table)->key);
      if (table == SW_TABLE_JOB)
        write_record (out, &style, 1, (const SwRecord *) sw_job_info (job));
      else
        write_table (out, &style, table);
    }
  g_string_append (out, "\n}\n");
  return g_string_free (out, FALSE);
}

/* All of a stream with a NUL after it, at most `limit` bytes. */
static GByteArray *
read_stream (GInputStream *stream, gsize limit, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 part[65536];
  gssize got;
  while ((got = g_input_stream_read (stream, part, sizeof part, NULL, error)) > 0)
    {
      if (bytes->len + (gsize) got > limit)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_LIMIT,
                       "larger than the %" G_GSIZE_FORMAT " MB that a job in text form may have", limit >> 20);
          return NULL;
        }
      g_byte_array_append (bytes, part, (guint) got);
    }
  if (got < 0)
    return NULL;
  g_byte_array_append (bytes, (const guint8 *) "", 1);
  return g_steal_pointer (&bytes);
}

SwJob *
sw_text_form_load (const char *path, GError **error)
{
  GError *cause = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, &cause);
  g_autoptr (GByteArray) text = stream != NULL ? read_stream (G_INPUT_STREAM (stream), LARGEST_FILE, &cause) : NULL;
  SwJob *job = text != NULL ? sw_text_form_read ((const char *) text->data, (gssize) text->len - 1, &cause) : NULL;
  if (job != NULL)
    return job;
  if (cause->domain == SW_ERROR)
    {
      g_autofree char *name = g_filename_display_name (path);
      g_set_error (error, SW_ERROR, cause->code, "%s: %s", name, cause->message);
    }
  else
    g_set_error_literal (error, SW_ERROR, SW_ERROR_IO, cause->message); /* it has the name */
  g_error_free (cause);
  return NULL;
}

gboolean
sw_text_form_save (const SwJob *job, const char *path, GError **error)
{
  g_autoptr (GError) cause = NULL;
  g_autofree char *text = sw_text_form_write (job);
  if (g_file_set_contents (path, text, -1, &cause))
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_IO, cause->message); /* it has the name */
  return FALSE;
}
