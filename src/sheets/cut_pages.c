/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/cut_draw.h"
#include "sheets/paragraph.h"
#include "sheets/words.h"

#define PAD_MM   5.0
#define TITLE_MM 4.5
#define FOOT_MM  7.0

struct _SwCutPages
{
  GPtrArray *displays, *titles;
  GArray *pages; /* SwSheetPage */
};

typedef struct
{
  SwCutPages *pages;
  const SwCutPlan *plan;
  const char *title;
  const SwPage *page;
  SwTextMeter *meter;
} Making;

static SwBox
inner_box (const Making *making)
{
  SwBox box = sw_box_grow (sw_page_frame (making->page), -PAD_MM);
  box.low.y += FOOT_MM;
  return box;
}

/* Title, sentences, what to buy; returns where they end. */
static double
add_head (const Making *making, const SwPen *pen, SwBox box)
{
  g_auto (GStrv) sentences = sw_cut_sentences (making->plan, SW_LENGTHS_MM);
  g_autoptr (GArray) bought = sw_cut_plan_bought (making->plan);
  g_autoptr (GString) buy = g_string_new (NULL);
  double y = box.high.y - TITLE_MM, width = box.high.x - box.low.x;
  sw_pen_add_fitted_text (pen, (SwPoint){ box.low.x, y }, making->title, width,
                          &(SwPenText){ .height_mm = TITLE_MM, .bold = TRUE });
  y -= TITLE_MM;
  for (guint i = 0; sentences[i] != NULL; i++)
    y = sw_paragraph_add (pen, (SwPoint){ box.low.x, y }, width, sentences[i]);
  for (guint i = 0; i < bought->len; i++)
    if (g_array_index (bought, guint, i) > 0)
      {
        g_autofree char *text = sw_cut_bought_text (making->plan, i, g_array_index (bought, guint, i), SW_LENGTHS_MM);
        g_string_append_printf (buy, "%s%s", buy->len > 0 ? "; " : "", text);
      }
  g_autofree char *order = g_strdup_printf (_("To buy: %s."), buy->str);
  return sw_paragraph_add (pen, (SwPoint){ box.low.x, y }, width, order) - PAD_MM;
}

static SwDisplay *
begin_page (const Making *making)
{
  SwDisplay *display = sw_display_new ();
  sw_page_add_frame (display, making->page);
  g_ptr_array_add (making->pages->displays, display);
  return display;
}

static void
draw_all (const Making *making)
{
  const SwCutDrawing drawing = { making->plan, NULL, NULL, NULL };
  for (guint first = 0; first == 0 || first < making->plan->ways->len;)
    {
      SwBox box = inner_box (making);
      SwDisplay *display = begin_page (making);
      SwPen pen = sw_pen_new (display, making->meter, 1);
      if (first == 0)
        box.high.y = add_head (making, &pen, box);
      guint n = sw_cut_draw_ways (&pen, box, &drawing, first, NULL);
      if (n == 0)
        break;
      first += n;
    }
}

/* Numbers of the pages, when all are known. */
static void
finish (const Making *making)
{
  guint n = making->pages->displays->len;
  for (guint i = 0; i < n; i++)
    {
      SwDisplay *display = making->pages->displays->pdata[i];
      SwPen pen = sw_pen_new (display, making->meter, 1);
      SwBox frame = sw_page_frame (making->page);
      g_autofree char *number = g_strdup_printf (_("%u of %u"), i + 1, n);
      char *title = n > 1 ? g_strdup_printf ("%s, %u", making->title, i + 1) : g_strdup (making->title);
      SwSheetPage page = { display, *making->page };
      sw_pen_add_text (&pen, (SwPoint){ frame.high.x - PAD_MM, frame.low.y + PAD_MM / 2 }, number,
                       &(SwPenText){ .align = SW_ALIGN_RIGHT });
      sw_display_seal (display);
      page.page.title = title;
      g_ptr_array_add (making->pages->titles, title);
      g_array_append_val (making->pages->pages, page);
    }
}

SwCutPages *
sw_cut_pages_new (const SwCutPlan *plan, const char *title, const SwPage *page)
{
  SwCutPages *pages = g_new0 (SwCutPages, 1);
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  Making making = { pages, plan, title, page, meter };
  pages->displays = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_display_unref);
  pages->titles = g_ptr_array_new_with_free_func (g_free);
  pages->pages = g_array_new (FALSE, FALSE, sizeof (SwSheetPage));
  draw_all (&making);
  finish (&making);
  return pages;
}

void
sw_cut_pages_free (SwCutPages *pages)
{
  g_ptr_array_unref (pages->displays);
  g_ptr_array_unref (pages->titles);
  g_array_unref (pages->pages);
  g_free (pages);
}

const SwSheetPage *
sw_cut_pages_get (const SwCutPages *pages, guint *n)
{
  *n = pages->pages->len;
  return (const SwSheetPage *) (gpointer) pages->pages->data;
}
