/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hash of (code, room) to a sum in doubles and the things that it counts; sorted once at the end. O(n log n). */
#include "estimate/needs.h"
#include "base/natural.h"
#include <string.h>

typedef struct
{
  SwPriceKind kind;
  char *code; /* owned; first in the key */
  SwId room;
  double sum;
  SwQuantity whole; /* sums of what was rounded before */
  double bought;
  SwQuantity bought_whole;
  gboolean some_unknown; /* of a part nothing is known of the cutting */
  GArray *things;
} Gathered;

struct _SwNeeds
{
  GHashTable *places; /* Gathered → itself */
  GPtrArray *all;     /* Gathered, owned */
};

static guint
hash_gathered (gconstpointer data)
{
  const Gathered *g = data;
  return g_str_hash (g->code) ^ g_int64_hash (&g->room);
}

static gboolean
same_gathered (gconstpointer a, gconstpointer b)
{
  const Gathered *first = a, *second = b;
  return first->room == second->room && g_str_equal (first->code, second->code);
}

static void
free_gathered (gpointer data)
{
  Gathered *g = data;
  g_free (g->code);
  g_array_unref (g->things);
  g_free (g);
}

SwNeeds *
sw_needs_new (void)
{
  SwNeeds *needs = g_new (SwNeeds, 1);
  needs->places = g_hash_table_new (hash_gathered, same_gathered);
  needs->all = g_ptr_array_new_with_free_func (free_gathered);
  return needs;
}

void
sw_needs_free (SwNeeds *needs)
{
  if (needs == NULL)
    return;
  g_hash_table_unref (needs->places);
  g_ptr_array_unref (needs->all);
  g_free (needs);
}

static Gathered *
gathered_for (SwNeeds *needs, SwPriceKind kind, const char *code, SwId room)
{
  Gathered key = { .code = (char *) code, .room = room };
  Gathered *g = g_hash_table_lookup (needs->places, &key);
  if (g != NULL)
    return g;
  g = g_new0 (Gathered, 1);
  g->kind = kind;
  g->code = g_strdup (code);
  g->room = room;
  g->things = g_array_new (FALSE, FALSE, sizeof (SwId));
  g_hash_table_add (needs->places, g);
  g_ptr_array_add (needs->all, g);
  return g;
}

void
sw_needs_add (SwNeeds *needs, SwPriceKind kind, const char *size, double quantity, SwId room, SwId thing)
{
  sw_needs_add_cut (needs, kind, size, quantity, 0, room, thing);
}

void
sw_needs_add_cut (SwNeeds *needs, SwPriceKind kind, const char *size, double quantity, double bought, SwId room, SwId thing)
{
  const SwPriceInfo *info = sw_price_info (kind);
  g_assert (info->sized == (size != NULL));
  g_autofree char *code = info->sized ? g_strconcat (info->word, "-", size, NULL) : g_strdup (info->word);
  Gathered *g = gathered_for (needs, kind, code, room);
  g->sum += quantity;
  g->bought += bought;
  g->some_unknown = g->some_unknown || (bought == 0 && quantity != 0);
  if (thing != 0)
    g_array_append_val (g->things, thing);
}

static int
compare_ids (gconstpointer a, gconstpointer b)
{
  SwId first = *(const SwId *) a, second = *(const SwId *) b;
  return (first > second) - (first < second);
}

static int
compare_needs (gconstpointer a, gconstpointer b)
{
  const SwNeed *first = *(const SwNeed *const *) a, *second = *(const SwNeed *const *) b;
  int by_code = sw_natural_compare (first->code, second->code);
  if (first->kind != second->kind)
    return first->kind < second->kind ? -1 : 1;
  return by_code != 0 ? by_code : compare_ids (&first->room, &second->room);
}

static void
take_things (GArray *from, GArray *to)
{
  g_array_sort (from, compare_ids);
  for (guint i = 0; i < from->len; i++)
    {
      SwId id = g_array_index (from, SwId, i);
      if (to->len == 0 || g_array_index (to, SwId, to->len - 1) != id)
        g_array_append_val (to, id);
    }
}

GPtrArray *
sw_needs_end (SwNeeds *needs)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_need_free);
  for (guint i = 0; i < needs->all->len; i++)
    {
      Gathered *g = needs->all->pdata[i];
      const SwPriceInfo *info = sw_price_info (g->kind);
      SwNeed *need = sw_need_new (g->code, info->text, info->unit, g->sum, g->room);
      need->quantity += g->whole;
      need->bought = g->some_unknown ? 0 : sw_quantity_from_double (g->bought) + g->bought_whole;
      take_things (g->things, need->things);
      if (need->quantity != 0)
        g_ptr_array_add (list, need);
      else
        sw_need_free (need);
    }
  g_ptr_array_sort (list, compare_needs);
  sw_needs_free (needs);
  return list;
}

GPtrArray *
sw_needs_of (const GPtrArray *list, SwId room)
{
  SwNeeds *needs = sw_needs_new ();
  for (guint i = 0; i < list->len; i++)
    {
      const SwNeed *need = list->pdata[i];
      if (room != SW_NEEDS_ALL && need->room != room)
        continue;
      Gathered *g = gathered_for (needs, need->kind, need->code, room == SW_NEEDS_ALL ? 0 : room);
      gboolean sheets = strcmp (need->unit, "no") == 0; /* a room's are whole ones; the job's are those of all rooms together */
      g->whole += sheets && need->bought > 0 && room == SW_NEEDS_ALL ? need->bought : need->quantity;
      g->bought_whole += sheets ? 0 : need->bought;
      g->some_unknown = g->some_unknown || sheets || need->bought == 0;
      g_array_append_vals (g->things, need->things->data, need->things->len);
    }
  return sw_needs_end (needs);
}
