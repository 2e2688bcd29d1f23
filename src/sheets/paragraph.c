/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines are filled greedily, word by word. A word that is wider than the line is cut where it stops fitting, letter by
 * letter, so a line always takes at least one letter and wrapping ends. */
#include "sheets/paragraph.h"
#include <string.h>

#define LEADING 1.7 /* of the letters' height, from line to line */
#define PAD_MM 1.0
#define LINE_MM 0.25
#define THIN_MM 0.13

static double
leading (const SwPen *pen)
{
  return LEADING * sw_pen_letters (pen) * pen->unit;
}

static double
text_width (const SwPen *pen, const char *text, gboolean bold)
{
  return sw_text_meter_width (pen->meter, text, sw_pen_letters (pen) * pen->unit, bold);
}

/* How many bytes of `text` (a word) fit into `width`: at least one letter. */
static gsize
part_that_fits (const SwPen *pen, const char *text, double width, gboolean bold)
{
  gsize fits = (gsize) (g_utf8_next_char (text) - text);
  for (gsize next = fits; text[next] != '\0';)
    {
      next = (gsize) (g_utf8_next_char (text + next) - text);
      g_autofree char *part = g_strndup (text, next);
      if (text_width (pen, part, bold) > width)
        break;
      fits = next;
    }
  return fits;
}

typedef struct
{
  const SwPen *pen;
  double width;
  gboolean bold;
  GPtrArray *lines;
  GString *line;
} Wrap;

static void
end_line (Wrap *wrap)
{
  g_ptr_array_add (wrap->lines, g_strdup (wrap->line->str));
  g_string_truncate (wrap->line, 0);
}

static void
add_word (Wrap *wrap, const char *word)
{
  gsize before = wrap->line->len;
  g_string_append_printf (wrap->line, "%s%s", before > 0 ? " " : "", word);
  if (text_width (wrap->pen, wrap->line->str, wrap->bold) <= wrap->width)
    return;
  g_string_truncate (wrap->line, before);
  if (before > 0)
    end_line (wrap);
  while (text_width (wrap->pen, word, wrap->bold) > wrap->width)
    {
      gsize fits = part_that_fits (wrap->pen, word, wrap->width, wrap->bold);
      if (word[fits] == '\0')
        break;
      g_string_append_len (wrap->line, word, (gssize) fits);
      end_line (wrap);
      word += fits;
    }
  g_string_append (wrap->line, word);
}

GStrv
sw_paragraph_wrap (const SwPen *pen, const char *text, double width, gboolean bold)
{
  Wrap wrap = { pen, width, bold, g_ptr_array_new (), g_string_new (NULL) };
  g_autofree char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  g_auto (GStrv) parts = g_strsplit (valid, "\n", -1);
  for (guint i = 0; parts[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (parts[i], " ", -1);
      for (guint k = 0; words[k] != NULL; k++)
        if (*words[k] != '\0')
          add_word (&wrap, words[k]);
      end_line (&wrap);
    }
  g_string_free (wrap.line, TRUE);
  g_ptr_array_add (wrap.lines, NULL);
  return (GStrv) g_ptr_array_free (wrap.lines, FALSE);
}

static double
add_lines (const SwPen *pen, SwPoint top_left, double width, const char *text, const SwPenText *how)
{
  g_auto (GStrv) lines = sw_paragraph_wrap (pen, text, width, how->bold);
  double y = top_left.y, x = top_left.x + width * (how->align / 2.0);
  for (guint i = 0; lines[i] != NULL; i++, y -= leading (pen))
    sw_pen_add_text (pen, (SwPoint){ x, y }, lines[i], how);
  return y;
}

double
sw_paragraph_add (const SwPen *pen, SwPoint top_left, double width, const char *text)
{
  return add_lines (pen, top_left, width, text, &(SwPenText){ .rise = SW_RISE_TOP });
}

double
sw_paragraph_add_heading (const SwPen *pen, SwPoint top_left, double width, const char *text)
{
  return add_lines (pen, top_left, width, text, &(SwPenText){ .rise = SW_RISE_TOP, .bold = TRUE });
}

/* Height of a row of cells, as high as its highest. */
static double
row_height (const SwPen *pen, const SwTextList *list, const char *const *cells, gboolean bold)
{
  guint most = 1;
  for (guint c = 0; c < list->n_columns; c++)
    {
      g_auto (GStrv) lines = sw_paragraph_wrap (pen, cells[c], list->columns[c].width - 2 * PAD_MM * pen->unit, bold);
      most = MAX (most, g_strv_length (lines));
    }
  return (most - 1) * leading (pen) + (sw_pen_letters (pen) + 2 * PAD_MM) * pen->unit;
}

static void
get_headings (const SwTextList *list, const char **headings)
{
  for (guint c = 0; c < list->n_columns; c++)
    headings[c] = list->columns[c].heading;
}

guint
sw_paragraph_fit_list (const SwPen *pen, double height, const SwTextList *list, guint first)
{
  g_autofree const char **headings = g_new0 (const char *, list->n_columns + 1);
  get_headings (list, headings);
  double left = height - row_height (pen, list, headings, TRUE);
  guint n = 0;
  for (; first + n < list->n_rows; n++)
    {
      left -= row_height (pen, list, list->texts + (gsize) (first + n) * list->n_columns, FALSE);
      if (left < 0 && n > 0)
        break;
    }
  return n;
}

static double
add_row (const SwPen *pen, SwPoint top_left, const SwTextList *list, const char *const *cells, gboolean bold)
{
  double x = top_left.x, pad = PAD_MM * pen->unit, height = row_height (pen, list, cells, bold);
  for (guint c = 0; c < list->n_columns; x += list->columns[c++].width)
    add_lines (pen, (SwPoint){ x + pad, top_left.y - pad }, list->columns[c].width - 2 * pad, cells[c],
               &(SwPenText){ .align = list->columns[c].align, .rise = SW_RISE_TOP, .bold = bold });
  SwStroke line = sw_pen_stroke (pen, bold ? LINE_MM : THIN_MM, SW_DASH_SOLID);
  sw_display_add_line (pen->display, (SwPoint){ top_left.x, top_left.y - height }, (SwPoint){ x, top_left.y - height }, &line);
  return top_left.y - height;
}

guint
sw_paragraph_add_list (const SwPen *pen, SwPoint top_left, double bottom, const SwTextList *list, guint first, double *y)
{
  g_autofree const char **headings = g_new0 (const char *, list->n_columns + 1);
  guint n = sw_paragraph_fit_list (pen, top_left.y - bottom, list, first);
  SwStroke line = sw_pen_stroke (pen, LINE_MM, SW_DASH_SOLID), thin = sw_pen_stroke (pen, THIN_MM, SW_DASH_SOLID);
  get_headings (list, headings);
  double at = add_row (pen, top_left, list, headings, TRUE), x = top_left.x;
  for (guint i = 0; i < n; i++)
    at = add_row (pen, (SwPoint){ top_left.x, at }, list, list->texts + (gsize) (first + i) * list->n_columns, FALSE);
  for (guint c = 0; c + 1 < list->n_columns; c++)
    {
      x += list->columns[c].width;
      sw_display_add_line (pen->display, (SwPoint){ x, at }, (SwPoint){ x, top_left.y }, &thin);
    }
  sw_display_add_box (pen->display, (SwBox){ { top_left.x, at }, { x + list->columns[list->n_columns - 1].width, top_left.y } }, NULL, &line);
  if (y != NULL)
    *y = at;
  return n;
}
