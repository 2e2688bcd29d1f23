/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/wrap_layout.h"

#define GAP 2

struct _SwWrapLayout
{
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (SwWrapLayout, sw_wrap_layout, GTK_TYPE_LAYOUT_MANAGER)

static int
natural (GtkWidget *child, GtkOrientation orientation)
{
  int size;
  gtk_widget_measure (child, orientation, -1, NULL, &size, NULL, NULL);
  return size;
}

static void
place (GtkWidget *widget, GtkWidget *child, int x, int y, int across, int height, int width)
{
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  GtkAllocation at = { mirrored ? width - x - across : x, y, across, height };
  gtk_widget_size_allocate (child, &at, -1);
}

/* Height of all lines in a width; with `allocates` the children are put there. */
static int
lay (GtkWidget *widget, int width, gboolean allocates)
{
  int x = 0, y = 0, line = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      if (!gtk_widget_should_layout (child))
        continue;
      int across = natural (child, GTK_ORIENTATION_HORIZONTAL), height = natural (child, GTK_ORIENTATION_VERTICAL);
      if (x > 0 && x + across > width)
        {
          y += line + GAP;
          x = line = 0;
        }
      if (allocates)
        place (widget, child, x, y, across, height, width);
      x += across + GAP;
      line = MAX (line, height);
    }
  return y + line;
}

static void
wrap_measure (GtkLayoutManager *manager, GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *nat, int *minimum_baseline,
              int *natural_baseline)
{
  *minimum = *nat = 0;
  if (orientation == GTK_ORIENTATION_VERTICAL)
    {
      *minimum = *nat = lay (widget, for_size < 0 ? G_MAXINT : for_size, FALSE);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        int across = natural (child, GTK_ORIENTATION_HORIZONTAL);
        *minimum = MAX (*minimum, across);
        *nat += across + GAP;
      }
}

static void
wrap_allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  lay (widget, width, TRUE);
}

static GtkSizeRequestMode
wrap_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
sw_wrap_layout_init (SwWrapLayout *layout)
{
}

static void
sw_wrap_layout_class_init (SwWrapLayoutClass *class)
{
  GtkLayoutManagerClass *manager_class = GTK_LAYOUT_MANAGER_CLASS (class);
  manager_class->measure = wrap_measure;
  manager_class->allocate = wrap_allocate;
  manager_class->get_request_mode = wrap_request_mode;
}
