/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/path.h"
#include "base/error.h"
#include "base/text.h"
#include "job/record.h"

static void
add (GArray *paths, const SwField *outer, int item, const SwField *inner, int axis)
{
  SwPath path = { outer, item, inner, axis };
  g_array_append_val (paths, path);
}

static void
add_places (GArray *paths, const SwField *outer, int item, const SwField *inner)
{
  add (paths, outer, item, inner, 0);
  add (paths, outer, item, inner, 1);
}

static void
add_items (GArray *paths, const SwRecord *record, const SwField *field)
{
  const SwList *list = &SW_AT (record, field, SwList);
  for (guint i = 0; i < list->n; i++)
    {
      if (field->item == &sw_struct_point)
        {
          add_places (paths, field, (int) i, NULL);
          continue;
        }
      for (guint f = 0; f < field->item->n_fields; f++)
        {
          const SwField *inner = &field->item->fields[f];
          if (inner->kind == SW_FIELD_POINT)
            add_places (paths, field, (int) i, inner);
          else
            add (paths, field, (int) i, inner, -1);
        }
    }
}

GArray *
sw_path_list (const SwRecord *record, gboolean lists)
{
  const SwStruct *body = &sw_record_type (record)->body;
  GArray *paths = g_array_new (FALSE, FALSE, sizeof (SwPath));
  for (guint i = 0; i < body->n_fields; i++)
    {
      const SwField *field = &body->fields[i];
      if ((field->flags & SW_FLAG_HIDDEN) != 0)
        continue;
      if (field->kind == SW_FIELD_POINT)
        add_places (paths, field, -1, NULL);
      else if (field->kind != SW_FIELD_LIST)
        add (paths, field, -1, NULL, -1);
      else if (lists && (field->item == &sw_struct_point || field->item == &sw_struct_vertex))
        add_items (paths, record, field);
    }
  return paths;
}

const SwField *
sw_path_leaf (const SwPath *path)
{
  if (path->axis >= 0)
    return &sw_struct_point.fields[path->axis];
  return path->inner != NULL ? path->inner : path->outer;
}

gpointer
sw_path_base (const SwRecord *record, const SwPath *path)
{
  char *base = (char *) record;
  if (path->item >= 0)
    {
      const SwList *list = &SW_AT (record, path->outer, SwList);
      if ((guint) path->item >= list->n)
        return NULL;
      base = sw_list_item (list, path->outer->item, path->item);
      if (path->axis >= 0 && path->inner != NULL)
        base += path->inner->offset;
    }
  else if (path->axis >= 0)
    base += path->outer->offset;
  return base;
}

gboolean
sw_path_equal (const SwPath *a, const SwPath *b)
{
  return a->outer == b->outer && a->item == b->item && a->inner == b->inner && a->axis == b->axis;
}

char *
sw_path_write (const SwRecord *record, const SwPath *path, SwLengths lengths)
{
  gpointer base = sw_path_base (record, path);
  return base != NULL ? sw_field_write (sw_path_leaf (path), base, lengths) : g_strdup ("");
}

gboolean
sw_path_read (SwRecord *record, const SwPath *path, SwLengths lengths, const char *text, GError **error)
{
  gpointer base = sw_path_base (record, path);
  if (base == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, "this place is gone: pick the thing again");
      return FALSE;
    }
  return sw_field_read (sw_path_leaf (path), base, lengths, text, error);
}
