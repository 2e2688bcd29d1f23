/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/json_fields.h"
#include "base/error.h"
#include "job/records.h"
#include "store/nearest.h"
#include <math.h>
#include <string.h>

void
sw_json_place_append (GString *out, const SwJsonPlace *place)
{
  if (place == NULL)
    return;
  sw_json_place_append (out, place->up);
  if (place->key == NULL)
    g_string_append_printf (out, "[%u]", place->index);
  else
    g_string_append_printf (out, "%s%s", out->len > 0 ? "." : "", place->key);
}

gboolean
sw_json_refuse (GError **error, const SwJsonPlace *place, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_autoptr (GString) path = g_string_new (NULL);
  sw_json_place_append (path, place);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s%s%s", path->str, path->len > 0 ? ": " : "", what);
  return FALSE;
}

gboolean
sw_json_holds_text (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
}

gboolean
sw_json_holds_number (JsonNode *node)
{
  GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

gboolean
sw_json_wrong_kind (GError **error, const SwJsonPlace *place, const char *wanted, JsonNode *node)
{
  return sw_json_refuse (error, place, "must be %s, not %s", wanted, sw_json_kind (node));
}

typedef gboolean (*FieldReader) (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node,
                                 const SwJsonPlace *place, GError **error);

static gboolean
read_bool (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
           GError **error)
{
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    return sw_json_wrong_kind (error, place, "true or false", node);
  SW_AT (base, field, int) = json_node_get_boolean (node);
  return TRUE;
}

static gboolean
read_int (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
          GError **error)
{
  double value = sw_json_holds_number (node) ? json_node_get_double (node) : NAN;
  if (!(fabs (value) <= G_MAXINT) || value != floor (value))
    return sw_json_holds_number (node) ? sw_json_refuse (error, place, "must be a whole number")
                                       : sw_json_wrong_kind (error, place, "a whole number", node);
  SW_AT (base, field, int) = (int) value;
  return TRUE;
}

static gboolean
read_number (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
             GError **error)
{
  if (!sw_json_holds_number (node))
    return sw_json_wrong_kind (error, place, "a number", node);
  SW_AT (base, field, double) = json_node_get_double (node);
  return TRUE;
}

static gboolean
read_text (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
           GError **error)
{
  if (!sw_json_holds_text (node))
    return sw_json_wrong_kind (error, place, "a text", node);
  sw_text_set (&SW_AT (base, field, char *), json_node_get_string (node));
  return TRUE;
}

static gboolean
read_word (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
           GError **error)
{
  if (!sw_json_holds_text (node))
    return sw_json_wrong_kind (error, place, "a text", node);
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
  return sw_json_refuse (error, place, "\"%s\" is none of %s%s", word, all->str, hint);
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
no_such_mark (const SwJsonNames *names, const SwField *field, const char *mark, const SwJsonPlace *place, GError **error)
{
  SwNearest nearest = sw_nearest_new (mark);
  for (guint i = 0; i < names->records->len; i++)
    {
      const SwRecord *record = names->records->pdata[i];
      if (field->refs & (1u << sw_record_table (record)))
        sw_nearest_offer (&nearest, record->tag);
    }
  g_autofree char *hint = sw_nearest_hint (&nearest), *tables = tables_text (field->refs);
  return sw_json_refuse (error, place, "no %s is called \"%s\"%s", tables, mark, hint);
}

/* A reference as a number, as the job file keeps it; 0 for none. */
static gboolean
read_id (const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place, GError **error)
{
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_INT64)
    return sw_json_wrong_kind (error, place, "a number of a record", node);
  SW_AT (base, field, SwId) = json_node_get_int (node);
  return TRUE;
}

static gboolean
read_ref (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
          GError **error)
{
  if (names == NULL)
    return read_id (field, base, node, place, error);
  if (!sw_json_holds_text (node))
    return sw_json_wrong_kind (error, place, "the id of something, a text", node);
  const char *mark = json_node_get_string (node);
  const SwRecord *named = g_hash_table_lookup (names->marks, mark);
  if (named == NULL)
    return no_such_mark (names, field, mark, place, error);
  if (!(field->refs & (1u << sw_record_table (named))))
    {
      g_autofree char *tables = tables_text (field->refs);
      return sw_json_refuse (error, place, "\"%s\" is a %s; a %s is wanted here", mark, sw_record_type (named)->label,
                             tables);
    }
  SW_AT (base, field, SwId) = named->id;
  return TRUE;
}

static gboolean
read_money (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
            GError **error)
{
  if (!sw_json_holds_text (node))
    return sw_json_wrong_kind (error, place, "an amount in quotes, such as \"12.50\"", node);
  g_autoptr (GError) cause = NULL;
  if (!sw_money_read (json_node_get_string (node), &SW_AT (base, field, SwMoney), &cause))
    return sw_json_refuse (error, place, "%s", cause->message);
  return TRUE;
}

static gboolean read_struct (const SwJsonNames *names, const SwStruct *kind, gpointer base, JsonNode *node,
                             const SwJsonPlace *place, GError **error);

static gboolean
read_point (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
            GError **error)
{
  return read_struct (names, &sw_struct_point, &SW_AT (base, field, SwPoint), node, place, error);
}

static gboolean
read_list (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place,
           GError **error)
{
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return sw_json_wrong_kind (error, place, "a list", node);
  JsonArray *array = json_node_get_array (node);
  SwList *list = &SW_AT (base, field, SwList);
  sw_list_resize (list, field->item, json_array_get_length (array));
  for (guint i = 0; i < list->n; i++)
    {
      SwJsonPlace at = { place, NULL, i };
      if (!read_struct (names, field->item, sw_list_item (list, field->item, i), json_array_get_element (array, i), &at,
                        error))
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
read_values (const SwJsonNames *names, const SwStruct *kind, gpointer base, JsonNode *node, const SwJsonPlace *place,
             GError **error)
{
  JsonArray *array = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  if (array == NULL || json_array_get_length (array) != kind->n_fields)
    {
      g_autoptr (GString) form = g_string_new (NULL);
      for (guint i = 0; i < kind->n_fields; i++)
        g_string_append_printf (form, "%s%s", i > 0 ? ", " : "", kind->fields[i].key);
      return array == NULL ? sw_json_refuse (error, place, "must be [%s], not %s", form->str, sw_json_kind (node))
                           : sw_json_refuse (error, place, "must be [%s], not a list of %u", form->str,
                                             json_array_get_length (array));
    }
  for (guint i = 0; i < kind->n_fields; i++)
    {
      SwJsonPlace at = { place, NULL, i };
      const SwField *field = &kind->fields[i];
      if (!field_readers[field->kind](names, field, base, json_array_get_element (array, i), &at, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
unknown_key (const SwStruct *kind, const char *key, const SwJsonPlace *place, GError **error)
{
  SwNearest nearest = sw_nearest_new (key);
  for (guint i = 0; i < kind->n_fields; i++)
    sw_nearest_offer (&nearest, kind->fields[i].key);
  g_autofree char *hint = sw_nearest_hint (&nearest);
  return sw_json_refuse (error, place, "there is no key \"%s\" here%s", key, hint);
}

/* Fills the fields that the object gives. `own_key`: one key that is not a field, or NULL. */
gboolean
sw_json_read_members (const SwJsonNames *names, const SwStruct *kind, gpointer base, JsonObject *object,
                      const char *own_key, const SwJsonPlace *place, GError **error)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      const SwField *field = sw_struct_field (kind, key);
      SwJsonPlace at = { place, key, 0 };
      if (field == NULL && g_strcmp0 (key, own_key) == 0)
        continue;
      if (field == NULL)
        return unknown_key (kind, key, place, error);
      if (!field_readers[field->kind](names, field, base, node, &at, error))
        return FALSE;
    }
  for (guint i = 0; i < kind->n_fields; i++)
    if ((kind->fields[i].flags & SW_FLAG_REQUIRED) && !json_object_has_member (object, kind->fields[i].key))
      return sw_json_refuse (error, place, "\"%s\" is missing", kind->fields[i].key);
  return TRUE;
}

gboolean
sw_json_read_field (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node,
                    const SwJsonPlace *place, GError **error)
{
  return field_readers[field->kind](names, field, base, node, place, error);
}

static gboolean
read_struct (const SwJsonNames *names, const SwStruct *kind, gpointer base, JsonNode *node, const SwJsonPlace *place,
             GError **error)
{
  if (kind->compact)
    return read_values (names, kind, base, node, place, error);
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return sw_json_wrong_kind (error, place, "an object", node);
  return sw_json_read_members (names, kind, base, json_node_get_object (node), NULL, place, error);
}

