/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/records.h"
#include "base/error.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <string.h>

static void
struct_init (const SwStruct *kind, gpointer base)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      switch (field->kind)
        {
        case SW_FIELD_BOOL:
        case SW_FIELD_INT:
        case SW_FIELD_ENUM:
          SW_AT (base, field, int) = (int) field->start;
          break;
        case SW_FIELD_NUMBER:
          SW_AT (base, field, double) = field->start;
          break;
        case SW_FIELD_TEXT:
        case SW_FIELD_DATE:
          SW_AT (base, field, char *) = g_strdup (field->start_text ? field->start_text : "");
          break;
        default: /* zero is the default of references, money, points and lists */
          break;
        }
    }
}

static void
struct_clear (const SwStruct *kind, gpointer base)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      if (field->kind == SW_FIELD_TEXT || field->kind == SW_FIELD_DATE)
        g_clear_pointer (&SW_AT (base, field, char *), g_free);
      else if (field->kind == SW_FIELD_LIST)
        sw_list_resize (&SW_AT (base, field, SwList), field->item, 0);
    }
}

/* Gives a bitwise copy its own texts and lists. */
static void
struct_own (const SwStruct *kind, gpointer base)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      if (field->kind == SW_FIELD_TEXT || field->kind == SW_FIELD_DATE)
        SW_AT (base, field, char *) = g_strdup (SW_AT (base, field, char *));
      else if (field->kind == SW_FIELD_LIST)
        {
          SwList *list = &SW_AT (base, field, SwList);
          list->items = list->n > 0 ? g_memdup2 (list->items, list->n * field->item->size) : NULL;
          for (guint k = 0; k < list->n; k++)
            struct_own (field->item, sw_list_item (list, field->item, k));
        }
    }
}

static gboolean
struct_equal (const SwStruct *kind, gconstpointer a, gconstpointer b)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      gboolean same = TRUE;
      switch (field->kind)
        {
        case SW_FIELD_BOOL:
        case SW_FIELD_INT:
        case SW_FIELD_ENUM:
          same = SW_AT (a, field, int) == SW_AT (b, field, int);
          break;
        case SW_FIELD_NUMBER:
          same = SW_AT (a, field, double) == SW_AT (b, field, double);
          break;
        case SW_FIELD_REF:
        case SW_FIELD_MONEY:
          same = SW_AT (a, field, gint64) == SW_AT (b, field, gint64);
          break;
        case SW_FIELD_POINT:
          same = SW_AT (a, field, SwPoint).x == SW_AT (b, field, SwPoint).x
                 && SW_AT (a, field, SwPoint).y == SW_AT (b, field, SwPoint).y;
          break;
        case SW_FIELD_TEXT:
        case SW_FIELD_DATE:
          same = strcmp (SW_AT (a, field, char *), SW_AT (b, field, char *)) == 0;
          break;
        case SW_FIELD_LIST:
          {
            const SwList *la = &SW_AT (a, field, SwList), *lb = &SW_AT (b, field, SwList);
            same = la->n == lb->n;
            for (guint k = 0; same && k < la->n; k++)
              same = struct_equal (field->item, sw_list_item (la, field->item, k), sw_list_item (lb, field->item, k));
          }
          break;
        }
      if (!same)
        return FALSE;
    }
  return TRUE;
}

SwRecord *
sw_record_new (SwId id, const char *tag)
{
  const SwType *type = sw_type_get (SW_ID_TABLE (id));
  SwRecord *record = g_malloc0 (type->body.size);
  g_atomic_ref_count_init (&record->refs);
  record->id = id;
  record->tag = g_strdup (tag ? tag : "");
  struct_init (&type->body, record);
  return record;
}

SwRecord *
sw_record_copy (const SwRecord *record)
{
  const SwStruct *kind = &sw_record_type (record)->body;
  SwRecord *copy = g_memdup2 (record, kind->size);
  g_atomic_ref_count_init (&copy->refs);
  copy->tag = g_strdup (record->tag);
  struct_own (kind, copy);
  return copy;
}

SwRecord *
sw_record_ref (const SwRecord *record)
{
  SwRecord *shared = (SwRecord *) record;
  g_atomic_ref_count_inc (&shared->refs);
  return shared;
}

void
sw_record_unref (SwRecord *record)
{
  if (!g_atomic_ref_count_dec (&record->refs))
    return;
  struct_clear (&sw_record_type (record)->body, record);
  g_free (record->tag);
  g_free (record);
}

gboolean
sw_record_equal (const SwRecord *a, const SwRecord *b)
{
  return a == b || (a->id == b->id && strcmp (a->tag, b->tag) == 0 && struct_equal (&sw_record_type (a)->body, a, b));
}

void
sw_text_set (char **text, const char *value)
{
  char *copy = g_strdup (value ? value : "");
  g_free (*text);
  *text = copy;
}

gpointer
sw_list_resize (SwList *list, const SwStruct *item, guint n)
{
  for (guint i = n; i < list->n; i++)
    struct_clear (item, sw_list_item (list, item, i));
  if (n == 0)
    g_clear_pointer (&list->items, g_free);
  else if (n != list->n)
    {
      list->items = g_realloc_n (list->items, n, item->size);
      if (n > list->n)
        memset (sw_list_item (list, item, list->n), 0, (n - list->n) * item->size);
      for (guint i = list->n; i < n; i++)
        struct_init (item, sw_list_item (list, item, i));
    }
  list->n = n;
  return list->items;
}

void
sw_list_set_points (SwList *list, const SwPoint *points, guint n)
{
  g_autofree SwPoint *kept = g_memdup2 (points, n * sizeof *points); /* may be the list's own */
  sw_list_resize (list, &sw_struct_point, n);
  if (n > 0)
    memcpy (list->items, kept, n * sizeof *kept);
}

void
sw_list_remove (SwList *list, const SwStruct *item, guint i)
{
  g_assert (i < list->n);
  struct_clear (item, sw_list_item (list, item, i));
  char *at = sw_list_item (list, item, i);
  memmove (at, at + item->size, (list->n - i - 1) * item->size);
  list->n--;
  if (list->n == 0)
    g_clear_pointer (&list->items, g_free);
}

gpointer
sw_list_insert (SwList *list, const SwStruct *item, guint i)
{
  g_assert (i <= list->n);
  guint before = list->n;
  sw_list_resize (list, item, before + 1);
  char *at = sw_list_item (list, item, i);
  g_autofree gpointer fresh = g_memdup2 (sw_list_item (list, item, before), item->size);
  memmove (at + item->size, at, (before - i) * item->size);
  memcpy (at, fresh, item->size);
  return at;
}

/* Calls `each` for every point in the struct and in its lists. */
static void
each_point (const SwStruct *kind, gpointer base, void (*each) (SwPoint *point, gpointer data), gpointer data)
{
  if (kind == &sw_struct_point)
    {
      each (base, data);
      return;
    }
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      if (field->kind == SW_FIELD_POINT)
        each (&SW_AT (base, field, SwPoint), data);
      else if (field->kind == SW_FIELD_LIST)
        for (guint k = 0; k < SW_AT (base, field, SwList).n; k++)
          each_point (field->item, sw_list_item (&SW_AT (base, field, SwList), field->item, k), each, data);
    }
}

static void
box_add (SwPoint *point, gpointer data)
{
  SwBox *box = data;
  *box = sw_box_add (*box, *point);
}

SwBox
sw_record_box (const SwRecord *record)
{
  SwBox box = SW_BOX_EMPTY;
  each_point (&sw_record_type (record)->body, (gpointer) record, box_add, &box);
  return box;
}

static void
point_move (SwPoint *point, gpointer data)
{
  *point = sw_point_add (*point, *(SwPoint *) data);
}

void
sw_record_move (SwRecord *record, SwPoint by)
{
  each_point (&sw_record_type (record)->body, record, point_move, &by);
}

void
sw_record_each_ref (SwRecord *record, void (*each) (const SwField *field, SwId *ref, gpointer data), gpointer data)
{
  const SwStruct *kind = &sw_record_type (record)->body;
  for (guint i = 0; i < kind->n_fields; i++)
    if (kind->fields[i].kind == SW_FIELD_REF)
      each (&kind->fields[i], &SW_AT (record, &kind->fields[i], SwId), data);
}

/* All digits of mm; a sixteenth of an inch. */
static const char *
write_length (double mm, SwLengths lengths, char buf[SW_LENGTH_BUF])
{
  return lengths == SW_LENGTHS_MM ? sw_number_write (mm, buf) : sw_length_write (mm, lengths, SW_LENGTH_BARE, 0, buf);
}

char *
sw_field_write (const SwField *field, gconstpointer base, SwLengths lengths)
{
  char buf[MAX (SW_NUMBER_BUF, SW_MONEY_BUF)], length[SW_LENGTH_BUF], second[SW_LENGTH_BUF];
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
      return g_strdup (SW_AT (base, field, int) ? "yes" : "no");
    case SW_FIELD_INT:
      return g_strdup_printf ("%d", SW_AT (base, field, int));
    case SW_FIELD_NUMBER:
      return g_strdup (field->unit == SW_UNIT_MM ? write_length (SW_AT (base, field, double), lengths, length)
                                                 : sw_number_write (SW_AT (base, field, double), buf));
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      return g_strdup (SW_AT (base, field, char *));
    case SW_FIELD_ENUM:
      return g_strdup (field->words[SW_AT (base, field, int)].key);
    case SW_FIELD_MONEY:
      return g_strdup (sw_money_write (SW_AT (base, field, SwMoney), buf));
    case SW_FIELD_POINT:
      return g_strdup_printf ("%s; %s", write_length (SW_AT (base, field, SwPoint).x, lengths, length),
                              write_length (SW_AT (base, field, SwPoint).y, lengths, second));
    default:
      g_assert_not_reached ();
    }
}

static gboolean
read_word (const SwField *field, gpointer base, const char *text, GError **error)
{
  for (int i = 0; field->words[i].key != NULL; i++)
    if (strcmp (field->words[i].key, text) == 0)
      {
        SW_AT (base, field, int) = i;
        return TRUE;
      }
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is none of the words that this may be", text);
  return FALSE;
}

static gboolean
read_length (double *mm, SwLengths lengths, const char *text, GError **error)
{
  char buf[SW_LENGTH_BUF];
  g_autofree char *typed = g_strstrip (g_strdup (text));
  return strcmp (typed, write_length (*mm, lengths, buf)) == 0 || sw_length_read (text, lengths, mm, error);
}

static gboolean
read_point (const SwField *field, gpointer base, SwLengths lengths, const char *text, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", 3);
  SwPoint point;
  if (g_strv_length (parts) != 2)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is not a place: write x; y", text);
      return FALSE;
    }
  point = SW_AT (base, field, SwPoint);
  if (!read_length (&point.x, lengths, parts[0], error) || !read_length (&point.y, lengths, parts[1], error))
    return FALSE;
  SW_AT (base, field, SwPoint) = point;
  return TRUE;
}

/* The model names its limits in mm; who types feet reads them so. */
static gboolean
read_ranged (const SwField *field, double *value, SwLengths lengths, const char *text, GError **error)
{
  char low[SW_LENGTH_BUF], high[SW_LENGTH_BUF];
  double read = *value;
  if (field->unit != SW_UNIT_MM)
    return sw_number_read (text, value, error);
  if (!read_length (&read, lengths, text, error))
    return FALSE;
  if (lengths != SW_LENGTHS_MM && (read < field->low || read > field->high))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: must lie between %s and %s", field->key,
                   sw_length_write (field->low, lengths, SW_LENGTH_UNIT, 0, low), sw_length_write (field->high, lengths, SW_LENGTH_UNIT, 0, high));
      return FALSE;
    }
  *value = read;
  return TRUE;
}

static gboolean
read_int (const SwField *field, gpointer base, const char *text, GError **error)
{
  gint64 whole = 0;
  if (!sw_number_read_int (text, &whole, error))
    return FALSE;
  SW_AT (base, field, int) = (int) CLAMP (whole, G_MININT, G_MAXINT);
  return TRUE;
}

gboolean
sw_field_read (const SwField *field, gpointer base, SwLengths lengths, const char *text, GError **error)
{
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
      SW_AT (base, field, int) = strcmp (text, "yes") == 0 || strcmp (text, "true") == 0 || strcmp (text, "1") == 0;
      return TRUE;
    case SW_FIELD_INT:
      return read_int (field, base, text, error);
    case SW_FIELD_NUMBER:
      return read_ranged (field, &SW_AT (base, field, double), lengths, text, error);
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      sw_text_set (&SW_AT (base, field, char *), text);
      return TRUE;
    case SW_FIELD_ENUM:
      return read_word (field, base, text, error);
    case SW_FIELD_MONEY:
      return sw_money_read (text, &SW_AT (base, field, SwMoney), error);
    case SW_FIELD_POINT:
      return read_point (field, base, lengths, text, error);
    default:
      g_assert_not_reached ();
    }
}

/* ---- calling */

/* What stands in the mark behind the word; NULL when it does not begin with it. */
static const char *
behind_word (const char *tag, const char *word)
{
  gsize n = (gsize) g_utf8_strlen (word, -1);
  if (n == 0 || (gsize) g_utf8_strlen (tag, -1) < n)
    return NULL;
  const char *rest = g_utf8_offset_to_pointer (tag, (long) n);
  g_autofree char *head = g_strndup (tag, (gsize) (rest - tag));
  g_autofree char *folded_head = g_utf8_casefold (head, -1), *folded_word = g_utf8_casefold (word, -1);
  if (!g_str_equal (folded_head, folded_word) || g_unichar_isalpha (g_utf8_get_char (rest)))
    return NULL;
  while (*rest == ' ' || *rest == '-' || *rest == '_')
    rest++;
  return rest;
}

char *
sw_record_call (const SwRecord *record, const char *kind)
{
  const SwType *type = sw_record_type (record);
  const char *const words[] = { kind, type->label, type->column };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      const char *rest = behind_word (record->tag, words[i]);
      if (rest != NULL)
        return *rest != '\0' ? g_strdup_printf ("%s %s", kind, rest) : g_strdup (kind);
    }
  return *record->tag != '\0' ? g_strdup_printf ("%s %s", kind, record->tag) : g_strdup (kind);
}
