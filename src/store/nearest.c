/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/nearest.h"
#include <string.h>

#define LONGEST 80

SwNearest
sw_nearest_new (const char *word)
{
  return (SwNearest){ word, NULL, (guint) MIN (strlen (word) / 3 + 2, 4) };
}

/* Distance with swaps of neighbours, by rows; letters of either case count as the same. */
static guint
distance (const char *a, const char *b)
{
  gsize n = strlen (a), m = strlen (b);
  guint rows[3][LONGEST + 1];
  for (gsize k = 0; k <= m; k++)
    rows[0][k] = (guint) k;
  for (gsize i = 1; i <= n; i++)
    {
      guint *now = rows[i % 3], *before = rows[(i - 1) % 3], *earlier = rows[(i + 1) % 3];
      now[0] = (guint) i;
      for (gsize k = 1; k <= m; k++)
        {
          char x = g_ascii_tolower (a[i - 1]), y = g_ascii_tolower (b[k - 1]);
          guint best = MIN (MIN (before[k], now[k - 1]) + 1, before[k - 1] + (x != y));
          if (i > 1 && k > 1 && x == g_ascii_tolower (b[k - 2]) && y == g_ascii_tolower (a[i - 2]))
            best = MIN (best, earlier[k - 2] + 1);
          now[k] = best;
        }
    }
  return rows[n % 3][m];
}

void
sw_nearest_offer (SwNearest *nearest, const char *candidate)
{
  if (strlen (nearest->word) > LONGEST || strlen (candidate) > LONGEST)
    return;
  guint far = distance (nearest->word, candidate);
  /* A word of which nothing is left was not meant. */
  if (far < nearest->distance && far < strlen (candidate))
    {
      nearest->distance = far;
      nearest->best = candidate;
    }
}

char *
sw_nearest_hint (const SwNearest *nearest)
{
  return nearest->best != NULL ? g_strdup_printf ("; did you mean \"%s\"?", nearest->best) : g_strdup ("");
}
