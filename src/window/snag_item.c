/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/snag_item.h"
#include "window/tools/release.h"
#include "sheets/words.h"

G_DEFINE_FINAL_TYPE (SwSnagItem, sw_snag_item, G_TYPE_OBJECT)

static const char *
translate (const char *english)
{
  return sw_word (english);
}

SwSnagItem *
sw_snag_item_new (SwSnags *snags, guint index, guint number)
{
  static const char letters[] = "SFN";
  SwSnagItem *item = g_object_new (SW_TYPE_SNAG_ITEM, NULL);
  item->snags = sw_snags_ref (snags);
  item->index = index;
  item->mark = g_strdup_printf ("%c%u", letters[sw_snags_get (snags, index)->severity], number);
  return item;
}

/* ---- groups */

static SwSnagItem *
group_new (SwSnags *snags, guint index)
{
  SwSnagItem *item = g_object_new (SW_TYPE_SNAG_ITEM, NULL);
  item->snags = sw_snags_ref (snags);
  item->index = index;
  item->members = g_list_store_new (SW_TYPE_SNAG_ITEM);
  return item;
}

static guint
group_size (SwSnagItem *group)
{
  return g_list_model_get_n_items (G_LIST_MODEL (group->members));
}

/* A group of one is that one. */
static void
settle_groups (GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      SwSnagItem *item = rows->pdata[i];
      if (item->members == NULL)
        continue;
      item->mark = g_strdup_printf ("%u ×", group_size (item));
      if (group_size (item) > 1)
        continue;
      rows->pdata[i] = g_list_model_get_item (G_LIST_MODEL (item->members), 0);
      g_object_unref (item);
    }
}

GPtrArray *
sw_snag_item_rows (SwSnags *snags, const guint *numbers, gboolean (*passes) (const SwSnag *snag, gpointer data), gpointer data)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GHashTable) groups = g_hash_table_new (g_int64_hash, g_int64_equal); /* bay → its group */
  for (guint i = 0; i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      if (!passes (snag, data))
        continue;
      SwSnagItem *item = sw_snag_item_new (snags, i, numbers[i]), *group;
      if (!sw_release_is_wanted (snags, snag, NULL))
        {
          g_ptr_array_add (rows, item);
          continue;
        }
      group = g_hash_table_lookup (groups, &snag->owners[1]);
      if (group == NULL)
        {
          g_ptr_array_add (rows, group = group_new (snags, i));
          g_hash_table_insert (groups, (gpointer) &snag->owners[1], group);
        }
      g_list_store_append (group->members, item);
      g_object_unref (item);
    }
  settle_groups (rows);
  return rows;
}

static int
compare_plates (gconstpointer a, gconstpointer b)
{
  const SwPlateRef *p = a, *q = b;
  if (p->void_number != q->void_number)
    return p->void_number < q->void_number ? -1 : 1;
  return (p->plate_number > q->plate_number) - (p->plate_number < q->plate_number);
}

GArray *
sw_snag_item_plates (SwSnagItem *item)
{
  GArray *plates = g_array_new (FALSE, FALSE, sizeof (SwPlateRef));
  SwPlateRef plate;
  for (guint i = 0; item->members != NULL && i < group_size (item); i++)
    {
      g_autoptr (SwSnagItem) member = g_list_model_get_item (G_LIST_MODEL (item->members), i);
      if (sw_release_is_wanted (item->snags, sw_snag_item_snag (member), &plate))
        sw_release_add (plates, &plate);
    }
  if (item->members == NULL && sw_release_is_wanted (item->snags, sw_snag_item_snag (item), &plate))
    g_array_append_val (plates, plate);
  g_array_sort (plates, compare_plates);
  return plates;
}

/* ---- words */

#define MOST_NAMED 12

/* "void 3 plate 2, void 4 plate 2 …" */
static char *
plates_words (const GArray *plates)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < MIN (plates->len, MOST_NAMED); i++)
    {
      const SwPlateRef *plate = &g_array_index (plates, SwPlateRef, i);
      g_string_append (text, i > 0 ? ", " : "");
      g_string_append_printf (text, _("void %d plate %d"), plate->void_number, plate->plate_number);
    }
  if (plates->len > MOST_NAMED)
    g_string_append (text, " …");
  return g_strdup (text->str);
}

static SwSnagText *
group_text (SwSnagItem *item)
{
  const SwSnag *snag = sw_snag_item_snag (item);
  g_autoptr (SwSnagText) one = sw_snag_text (item->snags, snag, translate);
  g_autoptr (GArray) plates = sw_snag_item_plates (item);
  g_autofree char *bay = sw_snag_thing (item->snags, snag->owners[1], SW_N_BODIES, -1, translate);
  SwSnagText *text = g_new0 (SwSnagText, 1);
  text->title = g_strdup (one->title);
  text->what = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u plate waits for the engineer's release: %s", "%u plates wait for the engineer's release: %s",
                                             plates->len), plates->len, bay);
  text->where = plates_words (plates);
  text->todo = g_strdup (one->todo);
  text->rule = g_strdup ("");
  text->sentence = g_strdup_printf ("%s. %s", text->what, text->where);
  return text;
}

const SwSnagText *
sw_snag_item_text (SwSnagItem *item)
{
  if (item->text == NULL)
    item->text = item->members != NULL ? group_text (item) : sw_snag_text (item->snags, sw_snag_item_snag (item), translate);
  return item->text;
}

char *
sw_snag_item_key (SwSnagItem *item)
{
  if (item->members == NULL)
    return sw_snag_key (sw_snag_item_snag (item));
  return g_strdup_printf ("plates %" G_GINT64_FORMAT, sw_snag_item_snag (item)->owners[1]);
}

static void
sw_snag_item_init (SwSnagItem *item)
{
}

static void
snag_item_finalize (GObject *object)
{
  SwSnagItem *item = SW_SNAG_ITEM (object);
  g_clear_object (&item->members);
  g_clear_pointer (&item->snags, sw_snags_unref);
  g_clear_pointer (&item->text, sw_snag_text_free);
  g_free (item->mark);
  G_OBJECT_CLASS (sw_snag_item_parent_class)->finalize (object);
}

static void
sw_snag_item_class_init (SwSnagItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = snag_item_finalize;
}
