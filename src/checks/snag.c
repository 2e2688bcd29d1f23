/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/snags.h"
#include <stdlib.h>
#include <string.h>

struct _SwSnags
{
  gatomicrefcount refs;
  SwSpace *space;
  GArray *snags;        /* SwSnag, as they were found */
  const SwSnag **order; /* sorted: a snag is too large to be moved about */
};

#define COMPARE(a, b) \
  do \
    if ((a) != (b)) \
      return (a) < (b) ? -1 : 1; \
  while (0)

static int
snag_order (gconstpointer a, gconstpointer b)
{
  const SwSnag *p = *(const SwSnag *const *) a, *q = *(const SwSnag *const *) b;
  COMPARE (p->severity, q->severity);
  COMPARE (p->order, q->order);
  COMPARE (p->place.x, q->place.x);
  COMPARE (p->place.y, q->place.y);
  COMPARE (p->place.z, q->place.z);
  for (int i = 0; i < 2; i++)
    {
      COMPARE (p->owners[i], q->owners[i]);
      COMPARE (p->parts[i], q->parts[i]);
      COMPARE (p->kinds[i], q->kinds[i]);
    }
  int variant = strcmp (p->variant, q->variant);
  return variant != 0 ? variant : g_strcmp0 (p->detail, q->detail);
}

void
sw_snag_clear (SwSnag *snag)
{
  g_clear_pointer (&snag->detail, g_free);
}

SwSnags *
sw_snags_new (SwSpace *space, GArray *snags)
{
  SwSnags *all = g_new0 (SwSnags, 1);
  g_atomic_ref_count_init (&all->refs);
  all->space = sw_space_ref (space);
  all->snags = snags;
  all->order = g_new (const SwSnag *, MAX (snags->len, 1));
  for (guint i = 0; i < snags->len; i++)
    all->order[i] = &g_array_index (snags, SwSnag, i);
  qsort (all->order, snags->len, sizeof *all->order, snag_order);
  return all;
}

SwSnags *
sw_snags_ref (SwSnags *snags)
{
  g_atomic_ref_count_inc (&snags->refs);
  return snags;
}

void
sw_snags_unref (SwSnags *snags)
{
  if (!g_atomic_ref_count_dec (&snags->refs))
    return;
  g_free (snags->order);
  g_array_unref (snags->snags);
  sw_space_unref (snags->space);
  g_free (snags);
}

SwSpace *
sw_snags_space (const SwSnags *snags)
{
  return snags->space;
}

guint
sw_snags_n (const SwSnags *snags)
{
  return snags->snags->len;
}

const SwSnag *
sw_snags_get (const SwSnags *snags, guint i)
{
  g_assert (i < snags->snags->len);
  return snags->order[i];
}

guint
sw_snags_count (const SwSnags *snags, SwSeverity severity)
{
  guint n = 0;
  for (guint i = 0; i < snags->snags->len; i++)
    n += sw_snags_get (snags, i)->severity == severity;
  return n;
}

gboolean
sw_snag_concerns (const SwSnag *snag, SwId owner)
{
  return owner != 0 && (snag->owners[0] == owner || snag->owners[1] == owner);
}

/* "rule:owner:owner:part:part"; what stands before the parts is what makes snags alike. */
char *
sw_snag_key (const SwSnag *snag)
{
  return g_strdup_printf ("%s:%" G_GINT64_FORMAT ":%" G_GINT64_FORMAT ":%d:%d", snag->rule, snag->owners[0],
                          snag->owners[1], snag->parts[0], snag->parts[1]);
}

/* Number of leading characters, whole fields only, that two keys share. */
static gsize
key_likeness (const char *a, const char *b)
{
  gsize same = 0;
  for (gsize i = 0;; i++)
    {
      if ((a[i] == ':' || a[i] == '\0') && (b[i] == ':' || b[i] == '\0'))
        same = i;
      if (a[i] != b[i] || a[i] == '\0')
        return same;
    }
}

static gsize
alike_length (const char *key)
{
  gsize fields = 0, i = 0;
  for (; key[i] != '\0'; i++)
    if (key[i] == ':' && ++fields == 3)
      break;
  return i;
}

int
sw_snags_find (const SwSnags *snags, const char *key)
{
  gsize best = alike_length (key) - 1;
  int found = -1;
  for (guint i = 0; i < snags->snags->len; i++)
    {
      g_autofree char *here = sw_snag_key (sw_snags_get (snags, i));
      gsize same = key_likeness (here, key);
      if (same > best)
        {
          best = same;
          found = (int) i;
        }
    }
  return found;
}

const char *
sw_severity_word (SwSeverity severity)
{
  static const char *const words[SW_N_SEVERITIES] = { "stop", "fix", "note" };
  g_assert ((int) severity >= 0 && severity < SW_N_SEVERITIES);
  return words[severity];
}

const char *
sw_trade_word (SwTrade trade)
{
  static const char *const words[SW_N_TRADES] = { "electrician", "plumber", "ceiling", "architect", "engineer" };
  g_assert ((int) trade >= 0 && trade < SW_N_TRADES);
  return words[trade];
}
