/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schema of the text form, written from the field tables: what a field's line in records.c says is all it knows, so
 * what fields demand of each other (a mouth less than the pitch) is left to the reader. */
#include "base/number.h"
#include "store/json_write.h"
#include "store/text_form.h"
#include <string.h>

typedef struct
{
  GString *out;
  guint depth;
  gboolean first; /* nothing stands yet in the open object */
} Sketch;

static void
start_member (Sketch *sketch, const char *key)
{
  g_string_append (sketch->out, sketch->first ? "" : ",");
  sketch->first = FALSE;
  sw_json_write_line (sketch->out, sketch->depth);
  sw_json_write_text (sketch->out, key);
  g_string_append (sketch->out, ": ");
}

static void
open_object (Sketch *sketch, const char *key)
{
  start_member (sketch, key);
  g_string_append_c (sketch->out, '{');
  sketch->depth++;
  sketch->first = TRUE;
}

static void
close_object (Sketch *sketch)
{
  sketch->depth--;
  if (!sketch->first)
    sw_json_write_line (sketch->out, sketch->depth);
  g_string_append_c (sketch->out, '}');
  sketch->first = FALSE;
}

static void
put_text (Sketch *sketch, const char *key, const char *text)
{
  start_member (sketch, key);
  sw_json_write_text (sketch->out, text);
}

static void
put_raw (Sketch *sketch, const char *key, const char *json)
{
  start_member (sketch, key);
  g_string_append (sketch->out, json);
}

static void
put_number (Sketch *sketch, const char *key, double value)
{
  char buf[SW_NUMBER_BUF];
  put_raw (sketch, key, sw_number_write (value, buf));
}

/* Names of the definitions of structs that lists hold. */
static const char *
struct_name (const SwStruct *kind)
{
  static const struct { const SwStruct *kind; const char *name; } names[] = {
    { &sw_struct_point, "point" },   { &sw_struct_vertex, "vertex" }, { &sw_struct_member, "member" },
    { &sw_struct_piece, "piece" },   { &sw_struct_corner, "corner" }, { &sw_struct_joint, "joint" },
    { &sw_struct_fixing, "fixing" }, { &sw_struct_strip, "strip" },   { &sw_struct_odd_sheet, "odd_sheet" },
    { &sw_struct_face_piece, "face_piece" }, { &sw_struct_laid_mark, "laid_mark" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    if (names[i].kind == kind)
      return names[i].name;
  g_assert_not_reached ();
}

static void
put_reference (Sketch *sketch, const char *name)
{
  g_autofree char *path = g_strdup_printf ("#/$defs/%s", name);
  put_text (sketch, "$ref", path);
}

static void
sketch_bool (Sketch *sketch, const SwField *field)
{
  put_text (sketch, "type", "boolean");
  put_raw (sketch, "default", field->start != 0 ? "true" : "false");
}

static void
sketch_number (Sketch *sketch, const SwField *field)
{
  put_text (sketch, "type", field->kind == SW_FIELD_INT ? "integer" : "number");
  put_number (sketch, "minimum", field->low);
  put_number (sketch, "maximum", field->high);
  put_number (sketch, "default", field->start);
}

static void
sketch_text (Sketch *sketch, const SwField *field)
{
  put_text (sketch, "type", "string");
  if (field->kind == SW_FIELD_DATE)
    put_text (sketch, "pattern", "^([0-9]{4}-[0-9]{2}-[0-9]{2})?$");
  put_text (sketch, "default", field->start_text ? field->start_text : "");
}

static void
sketch_word (Sketch *sketch, const SwField *field)
{
  g_autoptr (GString) words = g_string_new ("[");
  for (int i = 0; field->words[i].key != NULL; i++)
    {
      g_string_append (words, i > 0 ? ", " : "");
      sw_json_write_text (words, field->words[i].key);
    }
  g_string_append_c (words, ']');
  put_raw (sketch, "enum", words->str);
  put_text (sketch, "default", field->words[(int) field->start].key);
}

static void
sketch_ref (Sketch *sketch, const SwField *field)
{
  g_autoptr (GString) keys = g_string_new ("id of a record in ");
  guint n = 0;
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    if (field->refs & (1u << table))
      g_string_append_printf (keys, "%s%s", n++ > 0 ? ", " : "", sw_type_get (table)->key);
  put_text (sketch, "type", "string");
  put_text (sketch, "description", keys->str);
}

static void
sketch_money (Sketch *sketch, const SwField *field)
{
  put_text (sketch, "type", "string");
  put_text (sketch, "pattern", "^-?[0-9]+(\\.[0-9]{1,4})?$");
  put_text (sketch, "default", "0.00");
}

static void
sketch_point (Sketch *sketch, const SwField *field)
{
  put_reference (sketch, "point");
}

static void
sketch_list (Sketch *sketch, const SwField *field)
{
  put_text (sketch, "type", "array");
  if (field->flags & SW_FLAG_OUTLINE)
    put_raw (sketch, "minItems", "3");
  open_object (sketch, "items");
  put_reference (sketch, struct_name (field->item));
  close_object (sketch);
}

static void
sketch_field (Sketch *sketch, const SwField *field)
{
  static void (*const by_kind[]) (Sketch *, const SwField *) = {
    [SW_FIELD_BOOL] = sketch_bool, [SW_FIELD_INT] = sketch_number, [SW_FIELD_NUMBER] = sketch_number, [SW_FIELD_TEXT] = sketch_text,
    [SW_FIELD_DATE] = sketch_text, [SW_FIELD_ENUM] = sketch_word,  [SW_FIELD_REF] = sketch_ref,       [SW_FIELD_MONEY] = sketch_money,
    [SW_FIELD_POINT] = sketch_point, [SW_FIELD_LIST] = sketch_list,
  };
  const char *unit = sw_unit_symbol (field->unit);
  g_autofree char *title = *unit != '\0' ? g_strdup_printf ("%s (%s)", field->label, unit) : g_strdup (field->label);
  open_object (sketch, field->key);
  put_text (sketch, "title", title);
  by_kind[field->kind](sketch, field);
  close_object (sketch);
}

static void
put_required (Sketch *sketch, const SwStruct *kind)
{
  g_autoptr (GString) keys = g_string_new ("[");
  for (guint i = 0; i < kind->n_fields; i++)
    if (kind->fields[i].flags & SW_FLAG_REQUIRED)
      {
        g_string_append (keys, keys->len > 1 ? ", " : "");
        sw_json_write_text (keys, kind->fields[i].key);
      }
  g_string_append_c (keys, ']');
  if (keys->len > 2)
    put_raw (sketch, "required", keys->str);
}

/* An object with the struct's fields; records have an "id" too. */
static void
sketch_object (Sketch *sketch, const char *name, const SwStruct *kind, gboolean record)
{
  open_object (sketch, name);
  put_text (sketch, "type", "object");
  put_raw (sketch, "additionalProperties", "false");
  put_required (sketch, kind);
  open_object (sketch, "properties");
  if (record)
    {
      open_object (sketch, "id");
      put_text (sketch, "title", "The mark on the drawings, unique in the job");
      put_text (sketch, "type", "string");
      put_raw (sketch, "minLength", "1");
      put_raw (sketch, "maxLength", "80");
      close_object (sketch);
    }
  for (guint i = 0; i < kind->n_fields; i++)
    sketch_field (sketch, &kind->fields[i]);
  close_object (sketch);
  close_object (sketch);
}

static void
sketch_values (Sketch *sketch, const char *name, const SwStruct *kind)
{
  g_autofree char *count = g_strdup_printf ("%u", kind->n_fields);
  g_autoptr (GString) keys = g_string_new ("[");
  for (guint i = 0; i < kind->n_fields; i++)
    g_string_append_printf (keys, "%s%s", i > 0 ? ", " : "", kind->fields[i].key);
  g_string_append_c (keys, ']');
  open_object (sketch, name);
  put_text (sketch, "title", keys->str);
  put_text (sketch, "type", "array");
  put_raw (sketch, "minItems", count);
  put_raw (sketch, "maxItems", count);
  open_object (sketch, "items");
  put_text (sketch, "type", "number");
  put_number (sketch, "minimum", kind->fields[0].low);
  put_number (sketch, "maximum", kind->fields[0].high);
  close_object (sketch);
  close_object (sketch);
}

static void
sketch_struct (Sketch *sketch, const SwStruct *kind)
{
  if (kind->compact)
    sketch_values (sketch, struct_name (kind), kind);
  else
    sketch_object (sketch, struct_name (kind), kind, FALSE);
}

/* Each struct once, in the order of the first list that holds it. */
static void
sketch_definitions (Sketch *sketch)
{
  g_autoptr (GHashTable) done = g_hash_table_new (NULL, NULL);
  open_object (sketch, "$defs");
  g_hash_table_add (done, (gpointer) &sw_struct_point);
  sketch_struct (sketch, &sw_struct_point);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwType *type = sw_type_get (table);
      for (guint i = 0; i < type->body.n_fields; i++)
        if (type->body.fields[i].kind == SW_FIELD_LIST && g_hash_table_add (done, (gpointer) type->body.fields[i].item))
          sketch_struct (sketch, type->body.fields[i].item);
      sketch_object (sketch, type->column, &type->body, TRUE);
    }
  close_object (sketch);
}

static void
sketch_top (Sketch *sketch)
{
  open_object (sketch, "properties");
  open_object (sketch, "format");
  put_text (sketch, "const", "soffit-job");
  close_object (sketch);
  open_object (sketch, "version");
  put_number (sketch, "const", SW_TEXT_FORM_VERSION);
  close_object (sketch);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwType *type = sw_type_get (table);
      open_object (sketch, type->key);
      if (table == SW_TABLE_JOB)
        put_reference (sketch, type->column);
      else
        {
          put_text (sketch, "type", "array");
          open_object (sketch, "items");
          put_reference (sketch, type->column);
          close_object (sketch);
        }
      close_object (sketch);
    }
  close_object (sketch);
}

char *
sw_text_form_schema (void)
{
  Sketch sketch = { g_string_new ("{"), 1, TRUE };
  put_text (&sketch, "$schema", "https://json-schema.org/draft/2020-12/schema");
  put_text (&sketch, "title", "A job in its text form");
  put_text (
      &sketch, "description",
      "Lengths in millimetres whatever the job's \"units\" say, which only decide how the program shows and reads them; angles in degrees counter-clockwise from x. Every \"id\" stands once in the whole job.");
  put_text (&sketch, "type", "object");
  put_raw (&sketch, "additionalProperties", "false");
  put_raw (&sketch, "required", "[\"format\", \"version\"]");
  sketch_top (&sketch);
  sketch_definitions (&sketch);
  g_string_append (sketch.out, "\n}\n");
  return g_string_free (sketch.out, FALSE);
}
