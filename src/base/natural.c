/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/natural.h"
#include <glib.h>
#include <string.h>

/* Length of the figures at the start, and where they begin after zeros. */
static gsize
figures (const char *text, const char **first)
{
  gsize n = 0, zeros = 0;
  while (g_ascii_isdigit (text[n]))
    n++;
  while (zeros + 1 < n && text[zeros] == '0')
    zeros++;
  *first = text + zeros;
  return n;
}

int
sw_natural_compare (const char *a, const char *b)
{
  const char *start_a = a, *start_b = b;
  while (*a != '\0' && *b != '\0')
    {
      const char *first_a, *first_b;
      gsize n = figures (a, &first_a), m = figures (b, &first_b);
      if (n > 0 && m > 0)
        {
          gsize left = (gsize) (a + n - first_a), right = (gsize) (b + m - first_b);
          int order = left != right ? (left < right ? -1 : 1) : memcmp (first_a, first_b, left);
          if (order != 0)
            return order;
          a += n;
          b += m;
          continue;
        }
      if (*a != *b)
        return (guchar) *a < (guchar) *b ? -1 : 1;
      a++;
      b++;
    }
  if (*a != *b)
    return *a == '\0' ? -1 : 1;
  return strcmp (start_a, start_b);
}
