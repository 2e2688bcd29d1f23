/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/json_write.h"
#include "base/number.h"
#include <string.h>

void
sw_json_write_text (GString *out, const char *text)
{
  static const char plain[] = "\b\t\n\f\r\"\\", names[] = "btnfr\"\\";
  g_string_append_c (out, '"');
  for (const char *c = text; *c != '\0'; c++)
    {
      const char *at = strchr (plain, *c);
      if (at != NULL)
        {
          g_string_append_c (out, '\\');
          g_string_append_c (out, names[at - plain]);
        }
      else if ((guchar) *c < 0x20 || *c == 0x7f)
        g_string_append_printf (out, "\\u%04x", (guint) *c);
      else
        g_string_append_c (out, *c);
    }
  g_string_append_c (out, '"');
}

void
sw_json_write_line (GString *out, guint steps)
{
  g_string_append_c (out, '\n');
  for (guint i = 0; i < steps; i++)
    g_string_append (out, "  ");
}

static void
write_number (GString *out, double value)
{
  char buf[SW_NUMBER_BUF];
  g_string_append (out, sw_number_write (value, buf));
}

static void
write_ref (GString *out, const SwJsonStyle *style, SwId id)
{
  const SwRecord *named = style->job != NULL ? sw_job_get (style->job, id) : NULL;
  if (named != NULL)
    sw_json_write_text (out, named->tag);
  else
    g_string_append_printf (out, "%" G_GINT64_FORMAT, id);
}

static void
write_point (GString *out, SwPoint point)
{
  g_string_append_c (out, '[');
  write_number (out, point.x);
  g_string_append (out, ", ");
  write_number (out, point.y);
  g_string_append_c (out, ']');
}

static void
write_list (GString *out, const SwJsonStyle *style, const SwField *field, const SwList *list)
{
  g_string_append_c (out, '[');
  for (guint i = 0; i < list->n; i++)
    {
      g_string_append (out, i > 0 ? ", " : "");
      sw_json_write_struct (out, style, field->item, sw_list_item (list, field->item, i));
    }
  g_string_append_c (out, ']');
}

void
sw_json_write_field (GString *out, const SwJsonStyle *style, const SwField *field, gconstpointer base)
{
  char buf[SW_MONEY_BUF];
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
      g_string_append (out, SW_AT (base, field, int) ? "true" : "false");
      break;
    case SW_FIELD_INT:
      g_string_append_printf (out, "%d", SW_AT (base, field, int));
      break;
    case SW_FIELD_NUMBER:
      write_number (out, SW_AT (base, field, double));
      break;
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      sw_json_write_text (out, SW_AT (base, field, char *));
      break;
    case SW_FIELD_ENUM:
      sw_json_write_text (out, field->words[SW_AT (base, field, int)].key);
      break;
    case SW_FIELD_REF:
      write_ref (out, style, SW_AT (base, field, SwId));
      break;
    case SW_FIELD_MONEY:
      sw_json_write_text (out, sw_money_write (SW_AT (base, field, SwMoney), buf));
      break;
    case SW_FIELD_POINT:
      write_point (out, SW_AT (base, field, SwPoint));
      break;
    case SW_FIELD_LIST:
      write_list (out, style, field, &SW_AT (base, field, SwList));
      break;
    }
}

void
sw_json_write_struct (GString *out, const SwJsonStyle *style, const SwStruct *kind, gconstpointer base)
{
  gboolean first = TRUE;
  g_string_append_c (out, kind->compact ? '[' : '{');
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      if (!kind->compact && sw_json_leaves_out (style, field, base))
        continue;
      g_string_append (out, first ? "" : ", ");
      first = FALSE;
      if (!kind->compact)
        g_string_append_printf (out, "\"%s\": ", field->key);
      sw_json_write_field (out, style, field, base);
    }
  g_string_append_c (out, kind->compact ? ']' : '}');
}

static gboolean
has_default (const SwField *field, gconstpointer base)
{
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
    case SW_FIELD_INT:
    case SW_FIELD_ENUM:
      return SW_AT (base, field, int) == (int) field->start;
    case SW_FIELD_NUMBER:
      return SW_AT (base, field, double) == field->start;
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      return g_strcmp0 (SW_AT (base, field, char *), field->start_text ? field->start_text : "") == 0;
    case SW_FIELD_REF:
    case SW_FIELD_MONEY:
      return SW_AT (base, field, gint64) == 0;
    case SW_FIELD_POINT:
      return SW_AT (base, field, SwPoint).x == 0 && SW_AT (base, field, SwPoint).y == 0;
    case SW_FIELD_LIST:
      return SW_AT (base, field, SwList).n == 0;
    }
  return FALSE;
}

gboolean
sw_json_leaves_out (const SwJsonStyle *style, const SwField *field, gconstpointer base)
{
  return !style->with_defaults && !(field->flags & SW_FLAG_REQUIRED) && has_default (field, base);
}
