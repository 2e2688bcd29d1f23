/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/parts.h"
#include "job/records.h"

/* The point inside an item of a list: the item itself, or its field "at". */
static SwPoint *
item_point (const SwField *field, const SwList *list, guint i)
{
  char *item = sw_list_item (list, field->item, i);
  if (field->item == &sw_struct_point)
    return (SwPoint *) (gpointer) item;
  const SwField *at = sw_struct_field (field->item, "at");
  return &SW_AT (item, at, SwPoint);
}

const SwField *
sw_parts_list (const SwRecord *record)
{
  const SwStruct *body = &sw_record_type (record)->body;
  for (guint i = 0; i < body->n_fields; i++)
    if (body->fields[i].kind == SW_FIELD_LIST && (body->fields[i].item == &sw_struct_point || body->fields[i].item == &sw_struct_vertex))
      return &body->fields[i];
  return NULL;
}

/* The i-th place, or NULL; *n counts them all. */
static SwPoint *
place (const SwRecord *record, guint i, guint *n)
{
  const SwStruct *body = &sw_record_type (record)->body;
  const SwField *list = sw_parts_list (record);
  SwPoint *found = NULL;
  guint count = 0;
  for (guint f = 0; f < body->n_fields; f++)
    if (body->fields[f].kind == SW_FIELD_POINT)
      {
        if (count++ == i)
          found = &SW_AT (record, &body->fields[f], SwPoint);
      }
  if (list != NULL)
    {
      const SwList *items = &SW_AT (record, list, SwList);
      if (i >= count && i - count < items->n)
        found = item_point (list, items, i - count);
      count += items->n;
    }
  if (n != NULL)
    *n = count;
  return found;
}

guint
sw_parts_count (const SwRecord *record)
{
  guint n;
  place (record, G_MAXUINT, &n);
  return n;
}

SwPoint
sw_parts_get (const SwRecord *record, guint i)
{
  const SwPoint *point = place (record, i, NULL);
  g_return_val_if_fail (point != NULL, ((SwPoint){ 0, 0 }));
  return *point;
}

void
sw_parts_set (SwRecord *record, guint i, SwPoint to)
{
  SwPoint *point = place (record, i, NULL);
  g_return_if_fail (point != NULL);
  *point = to;
}

SwPartsForm
sw_parts_form (const SwRecord *record)
{
  const SwField *list = sw_parts_list (record);
  if (list != NULL)
    return list->item == &sw_struct_point ? SW_PARTS_RING : SW_PARTS_WAY;
  return sw_parts_count (record) == 2 ? SW_PARTS_WAY : SW_PARTS_ALONE;
}

gboolean
sw_parts_insert (SwRecord *record, guint i, SwPoint at)
{
  const SwField *field = sw_parts_list (record);
  if (field == NULL)
    return FALSE;
  SwList *list = &SW_AT (record, field, SwList);
  g_return_val_if_fail (i < list->n, FALSE);
  sw_list_insert (list, field->item, i + 1);
  if (field->item == &sw_struct_vertex)
    {
      SwVertex *vertices = list->items;
      vertices[i + 1] = vertices[i];
      if (((const SwRun *) record)->fall > 0)
        vertices[i + 1].level = SW_LEVEL_FALL;
    }
  *item_point (field, list, i + 1) = at;
  return TRUE;
}

gboolean
sw_parts_remove (SwRecord *record, guint i)
{
  const SwField *field = sw_parts_list (record);
  if (field == NULL)
    return FALSE;
  SwList *list = &SW_AT (record, field, SwList);
  guint least = field->item == &sw_struct_point ? 3 : 2;
  if (list->n <= least || i >= list->n)
    return FALSE;
  if (i == 0 && field->item == &sw_struct_vertex)
    {
      /* The next one becomes the first: it can no longer follow a fall from nowhere. */
      SwVertex *vertices = list->items;
      if (vertices[1].level == SW_LEVEL_FALL)
        {
          vertices[1].level = vertices[0].level;
          vertices[1].z = vertices[0].z;
        }
    }
  sw_list_remove (list, field->item, i);
  return TRUE;
}
