/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>

/* What newer toolkits do otherwise, in one place. */

typedef enum { SW_CHOOSE_JOB, SW_CHOOSE_PICTURE, SW_CHOOSE_LIST, SW_CHOOSE_CSV, SW_CHOOSE_SAVE_JOB, SW_CHOOSE_SAVE_ANY, SW_CHOOSE_FOLDER } SwChoose;
/* `name` is proposed when saving. `chosen` gets the file (borrowed); it is not called when the user goes back. `owner` keeps
 * the question alive no longer than itself. */
typedef void (*SwChosen) (GFile *file, gpointer owner);
void sw_compat_choose (GtkWindow *owner, SwChoose what, const char *name, GFile *folder, SwChosen chosen);

void sw_compat_add_css (GdkDisplay *display, const char *resource);
/* A figure: where text runs from right to left, its minus stays before it. */
void sw_compat_set_figure (GtkLabel *label, const char *text);
/* A table wider than its window begins, read from right to left, at its right: 4.8 shows its left end. */
void sw_compat_begin_at_start (GtkColumnView *view);
/* The focus goes to a button inside a drop-down, which 4.8 leaves without a name. */
void sw_compat_name_drop_down (GtkDropDown *choice, const char *name);
/* While a row is bound: the row itself is what a screen reader stops at, and 4.8 has no name for it. */
void sw_compat_name_row (GtkListItem *item, const char *name);
/* What is chosen (of a string list) takes so many letters; in the list that opens it stands whole. */
void sw_compat_shorten_drop_down (GtkDropDown *choice, int chars);
/* Scrolls a list so that row `position` (all of one height) shows. */
void sw_compat_scroll_to (GtkWidget *list, guint position, guint n);
