/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/badges.h"
#include "checks/snag_text.h"
#include "geometry/outline.h"
#include "sheets/plan.h"
#include "sheets/words.h"

guint *
sw_badges_number (const SwSnags *snags)
{
  guint n = sw_snags_n (snags), counts[SW_N_SEVERITIES] = { 0 };
  guint *numbers = g_new (guint, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    numbers[i] = ++counts[sw_snags_get (snags, i)->severity];
  return numbers;
}

static char *
likeness (const SwSnag *snag)
{
  g_autofree char *key = sw_snag_key (snag);
  return g_strdup_printf ("%d %s", (int) snag->severity, key);
}

/* By likeness the numbers, the first one last; `last` of each severity. */
static GHashTable *
known_numbers (const SwSnags *snags, const guint *numbers, guint last[SW_N_SEVERITIES])
{
  GHashTable *known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  for (guint i = sw_snags_n (snags); i-- > 0;)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      g_autofree char *key = likeness (snag);
      GArray *list = g_hash_table_lookup (known, key);
      last[snag->severity] = MAX (last[snag->severity], numbers[i]);
      if (list == NULL)
        {
          list = g_array_new (FALSE, FALSE, sizeof (guint));
          g_hash_table_insert (known, g_steal_pointer (&key), list);
        }
      g_array_append_val (list, numbers[i]);
    }
  return known;
}

guint *
sw_badges_keep (const SwSnags *before, const guint *numbers_before, const SwSnags *snags)
{
  guint n = sw_snags_n (snags), last[SW_N_SEVERITIES] = { 0 };
  guint *numbers = g_new0 (guint, MAX (n, 1));
  g_autoptr (GHashTable) known = known_numbers (before, numbers_before, last);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *key = likeness (sw_snags_get (snags, i));
      GArray *list = g_hash_table_lookup (known, key);
      if (list != NULL && list->len > 0)
        {
          numbers[i] = g_array_index (list, guint, list->len - 1);
          g_array_set_size (list, list->len - 1);
        }
      else
        numbers[i] = ++last[sw_snags_get (snags, i)->severity];
    }
  return numbers;
}

static const char *
translate (const char *english)
{
  return sw_word (english);
}

static const SwJob *
job_of (const SwSnags *snags)
{
  return sw_deck_job (sw_space_deck (sw_snags_space (snags)));
}

#define ABOVE_MM 500 /* a badge and the name below it are apart from where badges bear letters */

/* What is said of a room as a whole stands where its name is written: above it, so that the name can be read. */
static SwPoint
badge_place (const SwJob *job, const SwSnag *snag)
{
  SwPoint at = { snag->place.x, snag->place.y };
  const SwRecord *owner = sw_job_get (job, snag->owners[0]);
  if (owner == NULL || sw_record_table (owner) != SW_TABLE_ROOM)
    return at;
  const SwRoom *room = (const SwRoom *) owner;
  SwBox box = sw_record_box (owner);
  if (room->outline.n >= 3 && sw_point_distance (at, sw_outline_label_point (room->outline.items, room->outline.n)) < 1)
    at.y += fmin (ABOVE_MM, (box.high.y - box.low.y) / 4);
  return at;
}

SwDisplay *
sw_badges_draw (const SwSnags *snags, const guint *numbers)
{
  guint n = sw_snags_n (snags);
  const SwJob *job = job_of (snags);
  SwDisplay *display = sw_display_new ();
  g_autofree SwPlanSnag *badges = g_new0 (SwPlanSnag, MAX (n, 1));
  g_autoptr (GPtrArray) titles = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n; i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, translate);
      g_ptr_array_add (titles, g_steal_pointer (&text->what));
      badges[i] = (SwPlanSnag){ badge_place (job, snag), (int) snag->severity, (int) numbers[i], snag->owners[0],
                                g_ptr_array_index (titles, i) };
    }
  sw_plan_draw_snags (display, badges, n);
  sw_display_seal (display);
  return display;
}

/* ---- what differs */

typedef struct { gint64 x, y; guint severity, number; } Badge;

static guint
badge_hash (gconstpointer key)
{
  const Badge *badge = key;
  return ((guint) badge->x * 31 + (guint) badge->y) * 31 + badge->number * SW_N_SEVERITIES + badge->severity;
}

static gboolean
badge_equal (gconstpointer a, gconstpointer b)
{
  const Badge *p = a, *q = b;
  return p->x == q->x && p->y == q->y && p->severity == q->severity && p->number == q->number;
}

static Badge
badge_of (const SwSnags *snags, guint i, guint number)
{
  const SwSnag *snag = sw_snags_get (snags, i);
  SwPoint at = badge_place (job_of (snags), snag);
  return (Badge){ llround (at.x), llround (at.y), snag->severity, number };
}

static GHashTable *
badge_set (const SwSnags *snags, const guint *numbers)
{
  GHashTable *set = g_hash_table_new_full (badge_hash, badge_equal, g_free, NULL);
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      Badge badge = badge_of (snags, i, numbers[i]);
      g_hash_table_add (set, g_memdup2 (&badge, sizeof badge));
    }
  return set;
}

static SwBox
add_missing (SwBox box, const SwSnags *snags, const guint *numbers, GHashTable *there)
{
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      Badge badge = badge_of (snags, i, numbers[i]);
      if (!g_hash_table_contains (there, &badge))
        box = sw_box_add (box, (SwPoint){ (double) badge.x, (double) badge.y });
    }
  return box;
}

SwBox
sw_badges_changed (const SwSnags *a, const guint *numbers_a, const SwSnags *b, const guint *numbers_b)
{
  g_autoptr (GHashTable) in_a = badge_set (a, numbers_a), in_b = badge_set (b, numbers_b);
  SwBox box = add_missing (SW_BOX_EMPTY, a, numbers_a, in_b);
  return add_missing (box, b, numbers_b, in_a);
}
