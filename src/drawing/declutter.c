/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/declutter.h"
#include "drawing/display_data.h"
#include "drawing/text.h"
#include "geometry/neighbour.h"

/* Width of a letter as a share of the font size, as the widest of the usual plain sans faces have it over labels with figures and
 * capitals. Measured letters would cost more than the whole answer is worth. */
#define LETTER_WIDTH      0.62
#define BOLD_LETTER_WIDTH 0.70

struct _SwDeclutter
{
  guint n;
  guint64 **left_out;
};

typedef struct
{
  SwPoint middle, along; /* device; along of length 1 */
  double half_length, half_height;
  gboolean in_front, bold, rimmed;
  double em;
  guint display;
  guint32 item;
} Label;

static SwPoint
across (const Label *label)
{
  return (SwPoint){ -label->along.y, label->along.x };
}

/* Half of what the label covers along a direction of length 1. */
static double
half_extent (const Label *label, SwPoint direction)
{
  return label->half_length * fabs (sw_point_dot (label->along, direction))
         + label->half_height * fabs (sw_point_dot (across (label), direction));
}

/* By the separating axes of two rectangles. */
static gboolean
labels_meet (const Label *a, const Label *b)
{
  const SwPoint axes[] = { a->along, across (a), b->along, across (b) },
                way = sw_point_sub (b->middle, a->middle);
  for (guint i = 0; i < G_N_ELEMENTS (axes); i++)
    if (fabs (sw_point_dot (way, axes[i])) >= half_extent (a, axes[i]) + half_extent (b, axes[i]))
      return FALSE;
  return TRUE;
}

/* Positive when `a` matters more. `later`: it is painted after b. */
static int
compare_labels (const Label *a, const Label *b, gboolean later)
{
  if (a->rimmed != b->rimmed)
    return a->rimmed ? -1 : 1;
  if (a->in_front != b->in_front)
    return a->in_front ? 1 : -1;
  if (a->bold != b->bold)
    return a->bold ? 1 : -1;
  if (a->em != b->em)
    return a->em > b->em ? 1 : -1;
  return later ? 1 : -1;
}

static Label
label_of (const SwDrawView *view, const SwDisplay *display, const SwItem *item)
{
  const SwTextStyle *style = &sw_display_style (display, item->style)->text;
  const SwPoint *at = sw_display_points (display, item->first_point);
  SwTextPlace place = sw_text_place (view, at[0], at[1], item->mirrored, style);
  double width
      = place.em * (double)g_utf8_strlen (item->text, -1) * (style->bold ? BOLD_LETTER_WIDTH : LETTER_WIDTH);
  double height = place.em / SW_TEXT_EM;
  Label label = { .along = { place.cosine, place.sine },
                  .half_length = width / 2,
                  .half_height = height / 2,
                  .em = place.em,
                  .in_front = ((view->look.faded >> item->layer) & 1) == 0,
                  .bold = style->bold,
                  .rimmed = style->halo };
  SwPoint up = { place.sine, -place.cosine };
  label.middle = sw_point_add (place.at,
                               sw_point_add (sw_point_scale (label.along, width * (1 - (int)place.align) / 2),
                                             sw_point_scale (up, height / 2)));
  return label;
}

/* The texts of a display that the view shows. */
static void
collect (const SwDisplay *display, guint index, const SwDrawView *view, GArray *labels)
{
  double scale = sw_transform_scale (view->to_device), detail = view->detail > 0 ? view->detail : scale;
  for (guint32 i = 0; i < display->items->len; i++)
    {
      const SwItem *item = sw_display_item (display, i);
      if (item->text == NULL || ((view->look.hidden >> item->layer) & 1) || detail < item->least_detail
          || detail >= item->most_detail)
        continue;
      Label label = label_of (view, display, item);
      if (!(label.em >= view->least_text_px) || !isfinite (label.half_length))
        continue;
      label.display = index;
      label.item = i;
      g_array_append_val (labels, label);
    }
}

typedef struct
{
  SwDeclutter *declutter;
  GArray *labels;
} Contest;

static gboolean
settle (guint32 first, guint32 second, gpointer data)
{
  const Contest *contest = data;
  const Label *a = &g_array_index (contest->labels, Label, first),
              *b = &g_array_index (contest->labels, Label, second);
  if (!labels_meet (a, b))
    return TRUE;
  const Label *less = compare_labels (a, b, first > second) > 0 ? b : a;
  if (less->rimmed)
    contest->declutter->left_out[less->display][less->item / 64] |= (guint64)1 << (less->item % 64);
  return TRUE;
}

SwDeclutter *
sw_declutter_new (SwDisplay *const *displays, guint n, const SwDrawView *view)
{
  SwDeclutter *declutter = g_new0 (SwDeclutter, 1);
  g_autoptr (GArray) labels = g_array_new (FALSE, FALSE, sizeof (Label));
  declutter->n = n;
  declutter->left_out = g_new0 (guint64 *, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    {
      declutter->left_out[i] = g_new0 (guint64, MAX (sw_display_n_words (displays[i]), 1));
      if (sw_transform_is_usable (view->to_device))
        collect (displays[i], i, view, labels);
    }
  g_autofree SwBox3 *boxes = g_new (SwBox3, MAX (labels->len, 1));
  for (guint i = 0; i < labels->len; i++)
    {
      const Label *label = &g_array_index (labels, Label, i);
      double dx = half_extent (label, (SwPoint){ 1, 0 }), dy = half_extent (label, (SwPoint){ 0, 1 });
      boxes[i] = (SwBox3){ { label->middle.x - dx, label->middle.y - dy, 0 },
                           { label->middle.x + dx, label->middle.y + dy, 0 } };
    }
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, labels->len);
  Contest contest = { declutter, labels };
  sw_neighbours_each_pair (index, 0, settle, &contest);
  return declutter;
}

void
sw_declutter_free (SwDeclutter *declutter)
{
  if (declutter == NULL)
    return;
  for (guint i = 0; i < declutter->n; i++)
    g_free (declutter->left_out[i]);
  g_free (declutter->left_out);
  g_free (declutter);
}

const guint64 *
sw_declutter_left_out (const SwDeclutter *declutter, guint display)
{
  g_return_val_if_fail (display < declutter->n, NULL);
  return declutter->left_out[display];
}
