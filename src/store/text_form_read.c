/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reading half of the text form. First every record is made with its mark, so that references may name what stands
 * further on; then the fields are filled from the field tables and settled; last, one edit brings all into an empty job,
 * which checks what only the job can know. O(n log n). Only the first fault is reported. */
#include "store/text_form.h"
#include "base/error.h"
#include "job/edit.h"
#include "store/json_fields.h"
#include "store/nearest.h"
#include <math.h>
#include <string.h>

typedef struct
{
  SwRecord *record;
  JsonObject *object; /* borrowed from the document */
} Pending;

typedef struct
{
  GArray *pending;   /* Pending, in the order of the tables */
  SwJsonNames names; /* of the records in `pending` */
} Reader;

static void
pending_clear (gpointer data)
{
  sw_record_unref (((Pending *) data)->record);
}

/* Calls for the place of a record: "job", or "rooms[2]". */
#define RECORD_PLACE(name, record) \
  SwJsonPlace name##_table = { NULL, sw_record_type (record)->key, 0 }; \
  SwJsonPlace name##_item = { &name##_table, NULL, (guint) SW_ID_SERIAL ((record)->id) - 1 }; \
  const SwJsonPlace *name = sw_record_table (record) == SW_TABLE_JOB ? &name##_table : &name##_item

/* Makes a record with the mark that the document gives, if it does. */
static gboolean
take_record (Reader *reader, SwTable table, guint serial, JsonNode *node, GError **error)
{
  Pending pending = { sw_record_new (SW_ID (table, serial), ""), NULL };
  SwRecord *record = pending.record;
  RECORD_PLACE (place, record);
  pending.object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  g_array_append_val (reader->pending, pending);
  g_ptr_array_add (reader->names.records, record);
  if (pending.object == NULL)
    return sw_json_wrong_kind (error, place, "an object", node);
  JsonNode *mark = json_object_get_member (pending.object, "id");
  if (mark == NULL)
    return TRUE;
  SwJsonPlace at = { place, "id", 0 };
  if (!sw_json_holds_text (mark))
    return sw_json_wrong_kind (error, &at, "a text", mark);
  sw_text_set (&record->tag, json_node_get_string (mark));
  if (*record->tag == '\0')
    return sw_json_refuse (error, &at, "needs a mark of at most 80 characters");
  const SwRecord *other = g_hash_table_lookup (reader->names.marks, record->tag);
  if (other != NULL)
    {
      RECORD_PLACE (there, other);
      g_autoptr (GString) path = g_string_new (NULL);
      sw_json_place_append (path, there);
      return sw_json_refuse (error, &at, "\"%s\" is already the id of %s: choose another", record->tag, path->str);
    }
  g_hash_table_insert (reader->names.marks, record->tag, record);
  return TRUE;
}

static gboolean
take_table (Reader *reader, SwTable table, JsonNode *node, GError **error)
{
  SwJsonPlace place = { NULL, sw_type_get (table)->key, 0 };
  if (table == SW_TABLE_JOB)
    return take_record (reader, table, 1, node, error);
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return sw_json_wrong_kind (error, &place, "a list", node);
  JsonArray *array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    if (!take_record (reader, table, i + 1, json_array_get_element (array, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
unknown_table (const char *key, GError **error)
{
  SwNearest nearest = sw_nearest_new (key);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    sw_nearest_offer (&nearest, sw_type_get (table)->key);
  g_autofree char *hint = sw_nearest_hint (&nearest);
  return sw_json_refuse (error, NULL, "there is no key \"%s\" here%s", key, hint);
}

/* "format" and "version". */
static gboolean
check_head (JsonObject *top, GError **error)
{
  SwJsonPlace format_at = { NULL, "format", 0 }, version_at = { NULL, "version", 0 };
  JsonNode *format = json_object_get_member (top, "format"), *version = json_object_get_member (top, "version");
  if (format == NULL)
    return sw_json_refuse (error, NULL,
                           "\"format\" is missing: a job begins with {\"format\": \"soffit-job\", \"version\": %d",
                           SW_TEXT_FORM_VERSION);
  if (!sw_json_holds_text (format) || strcmp (json_node_get_string (format), "soffit-job") != 0)
    return sw_json_refuse (error, &format_at, "must be \"soffit-job\"");
  if (version == NULL)
    return sw_json_refuse (error, NULL, "\"version\" is missing; this program writes version %d", SW_TEXT_FORM_VERSION);
  if (!sw_json_holds_number (version) || json_node_get_double (version) < 1
      || json_node_get_double (version) != floor (json_node_get_double (version)))
    return sw_json_refuse (error, &version_at, "must be a whole number from 1 on");
  if (json_node_get_double (version) <= SW_TEXT_FORM_VERSION)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_TOO_NEW,
               "version: this job was written by a newer version of the program, which writes version %.0f; this one reads up to %d",
               json_node_get_double (version), SW_TEXT_FORM_VERSION);
  return FALSE;
}

/* Tables in the order of SwTable, so that the marks of one job clash at the same place whatever the document's order. */
static gboolean
take_tables (Reader *reader, JsonObject *top, GError **error)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;
  json_object_iter_init_ordered (&iter, top);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    if (sw_table_from_key (key) == SW_N_TABLES && strcmp (key, "format") != 0 && strcmp (key, "version") != 0)
      return unknown_table (key, error);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      node = json_object_get_member (top, sw_type_get (table)->key);
      if (node != NULL && !take_table (reader, table, node, error))
        return FALSE;
    }
  return TRUE;
}

/* Records without a mark get the lowest free number of their table. */
static void
mark_rest (Reader *reader)
{
  guint numbers[SW_N_TABLES] = { 0 };
  for (guint i = 0; i < reader->pending->len; i++)
    {
      SwRecord *record = g_array_index (reader->pending, Pending, i).record;
      SwTable table = sw_record_table (record);
      while (*record->tag == '\0' && table != SW_TABLE_JOB)
        {
          g_autofree char *mark = g_strdup_printf ("%s%u", sw_type_get (table)->prefix, ++numbers[table]);
          if (g_hash_table_contains (reader->names.marks, mark))
            continue;
          sw_text_set (&record->tag, mark);
          g_hash_table_insert (reader->names.marks, record->tag, record);
        }
    }
}

/* Fills and settles one record; errors have its place. */
static gboolean
fill_record (const Reader *reader, const Pending *pending, GError **error)
{
  RECORD_PLACE (place, pending->record);
  if (!sw_json_read_members (&reader->names, &sw_record_type (pending->record)->body, pending->record, pending->object,
                             "id", place, error))
    return FALSE;
  if (sw_record_settle (pending->record, error))
    return TRUE;
  g_autoptr (GString) path = g_string_new (NULL);
  sw_json_place_append (path, place);
  g_prefix_error (error, "%s.", path->str);
  return FALSE;
}

static SwJob *
build_job (const Reader *reader, GError **error)
{
  g_autoptr (SwJob) blank = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  for (guint i = 0; i < reader->pending->len; i++)
    {
      const Pending *pending = &g_array_index (reader->pending, Pending, i);
      if (!fill_record (reader, pending, error) || !sw_edit_put (edit, blank, sw_record_ref (pending->record), error))
        return NULL;
    }
  return sw_job_apply (blank, edit, TRUE, error);
}

SwJob *
sw_text_form_read (const char *text, gssize length, GError **error)
{
  g_autoptr (JsonNode) document = sw_json_read (text, length, error);
  if (document == NULL)
    return NULL;
  if (!JSON_NODE_HOLDS_OBJECT (document))
    {
      sw_json_wrong_kind (error, NULL, "an object: a job", document);
      return NULL;
    }
  JsonObject *top = json_node_get_object (document);
  Reader reader = { g_array_new (FALSE, FALSE, sizeof (Pending)),
                    { g_hash_table_new (g_str_hash, g_str_equal), g_ptr_array_new () } };
  g_array_set_clear_func (reader.pending, pending_clear);
  SwJob *job = NULL;
  if (check_head (top, error) && take_tables (&reader, top, error))
    {
      mark_rest (&reader);
      job = build_job (&reader, error);
    }
  g_hash_table_unref (reader.names.marks);
  g_ptr_array_unref (reader.names.records);
  g_array_unref (reader.pending);
  return job;
}
