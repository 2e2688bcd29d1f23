/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reading half of the text form. First every record is made with its mark, so that references may name what stands
 * further on; then the fields are filled from the field tables and settled; last, one edit brings all into an empty job,
 * which checks what only the job can know. O(n log n). Only the first fault is reported. */
#include "store/text_form.h"
#include "base/error.h"
#include "job/edit.h"
#include "store/json_read.h"
#include "store/nearest.h"
#include <math.h>
#include <string.h>

/* A place in the document, by the steps that lead there; turned into text only when something is wrong. */
typedef struct _Place Place;
struct _Place
{
  const Place *up;
  const char *key; /* NULL: item `index` of a list */
  guint index;
};

typedef struct
{
  SwRecord *record;
  JsonObject *object; /* borrowed from the document */
} Pending;

typedef struct
{
  GArray *pending;    /* Pending, in the order of the document's tables */
  GHashTable *marks;  /* mark → record, both borrowed from `pending` */
} Reader;

static void
place_append (GString *out, const Place *place)
{
  if (place == NULL)
    return;
  place_append (out, place->up);
  if (place->key == NULL)
    g_string_append_printf (out, "[%u]", place->index);
  else
    g_string_append_printf (out, "%s%s", out->len > 0 ? "." : "", place->key);
}

static gboolean refuse (GError **error, const Place *place, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError **error, const Place *place, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_autoptr (GString) path = g_string_new (NULL);
  place_append (path, place);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s%s%s", path->str, path->len > 0 ? ": " : "", what);
  return FALSE;
}

static gboolean
holds_text (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
}

static gboolean
holds_number (JsonNode *node)
{
  GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

static gboolean
wrong_kind (GError **error, const Place *place, const char *wanted, JsonNode *node)
{
  return refuse (error, place, "must be %s, not %s", wanted, sw_json_kind (node));
}

typedef gboolean (*FieldReader) (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error);

static gboolean
read_bool (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    return wrong_kind (error, place, "true or false", node);
  SW_AT (base, field, int) = json_node_get_boolean (node);
  return TRUE;
}

static gboolean
read_int (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  double value = holds_number (node) ? json_node_get_double (node) : NAN;
  if (!(fabs (value) <= G_MAXINT) || value != floor (value))
    return holds_number (node) ? refuse (error, place, "must be a whole number") : wrong_kind (error, place, "a whole number", node);
  SW_AT (base, field, int) = (int) value;
  return TRUE;
}

static gboolean
read_number (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!holds_number (node))
    return wrong_kind (error, place, "a number", node);
  SW_AT (base, field, double) = json_node_get_double (node);
  return TRUE;
}

static gboolean
read_text (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!holds_text (node))
    return wrong_kind (error, place, "a text", node);
  sw_text_set (&SW_AT (base, field, char *), json_node_get_string (node));
  return TRUE;
}

static gboolean
read_word (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!holds_text (node))
    return wrong_kind (error, place, "a text", node);
  const char *word = json_node_get_string (node);
  SwNearest nearest = sw_nearest_new (word);
  g_autoptr (GString) all = g_string_new (NULL);
  for (int i = 0; field->words[i].key != NULL; i++)
    {
      if (strcmp (field->words[i].key, word) == 0)
        {
          SW_AT (base, field, int) = i;
          return TRUE;
        }
      sw_nearest_offer (&nearest, field->words[i].key);
      g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", field->words[i].key);
    }
  g_autofree char *hint = sw_nearest_hint (&nearest);
  return refuse (error, place, "\"%s\" is none of %s%s", word, all->str, hint);
}

/* "profile", or "fitting, drop-in or drop". */
static char *
tables_text (guint32 tables)
{
  g_autoptr (GPtrArray) labels = g_ptr_array_new ();
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    if (tables & (1u << table))
      g_ptr_array_add (labels, (gpointer) sw_type_get (table)->label);
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < labels->len; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : i + 1 < labels->len ? ", " : " or ", (char *) labels->pdata[i]);
  return g_string_free (text, FALSE);
}

static gboolean
no_such_mark (const Reader *reader, const SwField *field, const char *mark, const Place *place, GError **error)
{
  SwNearest nearest = sw_nearest_new (mark);
  for (guint i = 0; i < reader->pending->len; i++)
    {
      const SwRecord *record = g_array_index (reader->pending, Pending, i).record;
      if (field->refs & (1u << sw_record_table (record)))
        sw_nearest_offer (&nearest, record->tag);
    }
  g_autofree char *hint = sw_nearest_hint (&nearest), *tables = tables_text (field->refs);
  return refuse (error, place, "no %s is called \"%s\"%s", tables, mark, hint);
}

static gboolean
read_ref (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!holds_text (node))
    return wrong_kind (error, place, "the id of something, a text", node);
  const char *mark = json_node_get_string (node);
  const SwRecord *named = g_hash_table_lookup (reader->marks, mark);
  if (named == NULL)
    return no_such_mark (reader, field, mark, place, error);
  if (!(field->refs & (1u << sw_record_table (named))))
    {
      g_autofree char *tables = tables_text (field->refs);
      return refuse (error, place, "\"%s\" is a %s; a %s is wanted here", mark, sw_record_type (named)->label, tables);
    }
  SW_AT (base, field, SwId) = named->id;
  return TRUE;
}

static gboolean
read_money (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!holds_text (node))
    return wrong_kind (error, place, "an amount in quotes, such as \"12.50\"", node);
  g_autoptr (GError) cause = NULL;
  if (!sw_money_read (json_node_get_string (node), &SW_AT (base, field, SwMoney), &cause))
    return refuse (error, place, "%s", cause->message);
  return TRUE;
}

static gboolean read_struct (const Reader *reader, const SwStruct *kind, gpointer base, JsonNode *node, const Place *place, GError **error);

static gboolean
read_point (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  return read_struct (reader, &sw_struct_point, &SW_AT (base, field, SwPoint), node, place, error);
}

static gboolean
read_list (const Reader *reader, const SwField *field, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return wrong_kind (error, place, "a list", node);
  JsonArray *array = json_node_get_array (node);
  SwList *list = &SW_AT (base, field, SwList);
  sw_list_resize (list, field->item, json_array_get_length (array));
  for (guint i = 0; i < list->n; i++)
    {
      Place at = { place, NULL, i };
      if (!read_struct (reader, field->item, sw_list_item (list, field->item, i), json_array_get_element (array, i), &at, error))
        return FALSE;
    }
  return TRUE;
}

static const FieldReader field_readers[] = {
  [SW_FIELD_BOOL] = read_bool, [SW_FIELD_INT] = read_int,   [SW_FIELD_NUMBER] = read_number, [SW_FIELD_TEXT] = read_text,
  [SW_FIELD_DATE] = read_text, [SW_FIELD_ENUM] = read_word, [SW_FIELD_REF] = read_ref,       [SW_FIELD_MONEY] = read_money,
  [SW_FIELD_POINT] = read_point, [SW_FIELD_LIST] = read_list,
};

/* A compact struct: a list of exactly its values. */
static gboolean
read_values (const Reader *reader, const SwStruct *kind, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  JsonArray *array = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  if (array == NULL || json_array_get_length (array) != kind->n_fields)
    {
      g_autoptr (GString) form = g_string_new (NULL);
      for (guint i = 0; i < kind->n_fields; i++)
        g_string_append_printf (form, "%s%s", i > 0 ? ", " : "", kind->fields[i].key);
      return array == NULL ? refuse (error, place, "must be [%s], not %s", form->str, sw_json_kind (node))
                           : refuse (error, place, "must be [%s], not a list of %u", form->str, json_array_get_length (array));
    }
  for (guint i = 0; i < kind->n_fields; i++)
    {
      Place at = { place, NULL, i };
      const SwField *field = &kind->fields[i];
      if (!field_readers[field->kind](reader, field, base, json_array_get_element (array, i), &at, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
unknown_key (const SwStruct *kind, const char *key, const Place *place, GError **error)
{
  SwNearest nearest = sw_nearest_new (key);
  for (guint i = 0; i < kind->n_fields; i++)
    sw_nearest_offer (&nearest, kind->fields[i].key);
  g_autofree char *hint = sw_nearest_hint (&nearest);
  return refuse (error, place, "there is no key \"%s\" here%s", key, hint);
}

/* Fills the fields that the object gives. `own_key`: one key that is not a field, or NULL. */
static gboolean
read_members (const Reader *reader, const SwStruct *kind, gpointer base, JsonObject *object, const char *own_key, const Place *place, GError **error)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      const SwField *field = sw_struct_field (kind, key);
      Place at = { place, key, 0 };
      if (field == NULL && g_strcmp0 (key, own_key) == 0)
        continue;
      if (field == NULL)
        return unknown_key (kind, key, place, error);
      if (!field_readers[field->kind](reader, field, base, node, &at, error))
        return FALSE;
    }
  for (guint i = 0; i < kind->n_fields; i++)
    if ((kind->fields[i].flags & SW_FLAG_REQUIRED) && !json_object_has_member (object, kind->fields[i].key))
      return refuse (error, place, "\"%s\" is missing", kind->fields[i].key);
  return TRUE;
}

static gboolean
read_struct (const Reader *reader, const SwStruct *kind, gpointer base, JsonNode *node, const Place *place, GError **error)
{
  if (kind->compact)
    return read_values (reader, kind, base, node, place, error);
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return wrong_kind (error, place, "an object", node);
  return read_members (reader, kind, base, json_node_get_object (node), NULL, place, error);
}

static void
pending_clear (gpointer data)
{
  sw_record_unref (((Pending *) data)->record);
}

/* Calls for the place of a record: "job", or "rooms[2]". */
#define RECORD_PLACE(name, record) \
  Place name##_table = { NULL, sw_record_type (record)->key, 0 }; \
  Place name##_item = { &name##_table, NULL, (guint) SW_ID_SERIAL ((record)->id) - 1 }; \
  const Place *name = sw_record_table (record) == SW_TABLE_JOB ? &name##_table : &name##_item

/* Makes a record with the mark that the document gives, if it does. */
static gboolean
take_record (Reader *reader, SwTable table, guint serial, JsonNode *node, GError **error)
{
  Pending pending = { sw_record_new (SW_ID (table, serial), ""), NULL };
  SwRecord *record = pending.record;
  RECORD_PLACE (place, record);
  pending.object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  g_array_append_val (reader->pending, pending);
  if (pending.object == NULL)
    return wrong_kind (error, place, "an object", node);
  JsonNode *mark = json_object_get_member (pending.object, "id");
  if (mark == NULL)
    return TRUE;
  Place at = { place, "id", 0 };
  if (!holds_text (mark))
    return wrong_kind (error, &at, "a text", mark);
  sw_text_set (&record->tag, json_node_get_string (mark));
  if (*record->tag == '\0')
    return refuse (error, &at, "needs a mark of at most 80 characters");
  const SwRecord *other = g_hash_table_lookup (reader->marks, record->tag);
  if (other != NULL)
    {
      RECORD_PLACE (there, other);
      g_autoptr (GString) path = g_string_new (NULL);
      place_append (path, there);
      return refuse (error, &at, "\"%s\" is already the id of %s: choose another", record->tag, path->str);
    }
  g_hash_table_insert (reader->marks, record->tag, record);
  return TRUE;
}

static gboolean
take_table (Reader *reader, SwTable table, JsonNode *node, GError **error)
{
  Place place = { NULL, sw_type_get (table)->key, 0 };
  if (table == SW_TABLE_JOB)
    return take_record (reader, table, 1, node, error);
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return wrong_kind (error, &place, "a list", node);
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
  return refuse (error, NULL, "there is no key \"%s\" here%s", key, hint);
}

/* "format" and "version". */
static gboolean
check_head (JsonObject *top, GError **error)
{
  Place format_at = { NULL, "format", 0 }, version_at = { NULL, "version", 0 };
  JsonNode *format = json_object_get_member (top, "format"), *version = json_object_get_member (top, "version");
  if (format == NULL)
    return refuse (error, NULL, "\"format\" is missing: a job begins with {\"format\": \"soffit-job\", \"version\": %d", SW_TEXT_FORM_VERSION);
  if (!holds_text (format) || strcmp (json_node_get_string (format), "soffit-job") != 0)
    return refuse (error, &format_at, "must be \"soffit-job\"");
  if (version == NULL)
    return refuse (error, NULL, "\"version\" is missing; this program writes version %d", SW_TEXT_FORM_VERSION);
  if (!holds_number (version) || json_node_get_double (version) < 1 || json_node_get_double (version) != floor (json_node_get_double (version)))
    return refuse (error, &version_at, "must be a whole number from 1 on");
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
          if (g_hash_table_contains (reader->marks, mark))
            continue;
          sw_text_set (&record->tag, mark);
          g_hash_table_insert (reader->marks, record->tag, record);
        }
    }
}

/* Fills and settles one record; errors have its place. */
static gboolean
fill_record (const Reader *reader, const Pending *pending, GError **error)
{
  RECORD_PLACE (place, pending->record);
  if (!read_members (reader, &sw_record_type (pending->record)->body, pending->record, pending->object, "id", place, error))
    return FALSE;
  if (sw_record_settle (pending->record, error))
    return TRUE;
  g_autoptr (GString) path = g_string_new (NULL);
  place_append (path, place);
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
      wrong_kind (error, NULL, "an object: a job", document);
      return NULL;
    }
  JsonObject *top = json_node_get_object (document);
  Reader reader = { g_array_new (FALSE, FALSE, sizeof (Pending)), g_hash_table_new (g_str_hash, g_str_equal) };
  g_array_set_clear_func (reader.pending, pending_clear);
  SwJob *job = NULL;
  if (check_head (top, error) && take_tables (&reader, top, error))
    {
      mark_rest (&reader);
      job = build_job (&reader, error);
    }
  g_hash_table_unref (reader.marks);
  g_array_unref (reader.pending);
  return job;
}
