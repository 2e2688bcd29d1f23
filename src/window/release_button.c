/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/release_button.h"
#include "window/tools/release.h"
#include "sheets/words.h"

typedef struct
{
  GtkWidget *button, *fault, *enter;
  GtkWidget *entries[3]; /* by, on, reference */
  SwDocument *document;  /* not held: the button's owner drops the plates first */
  GArray *plates;
} Release;

static void
release_free (Release *release)
{
  g_clear_pointer (&release->plates, g_array_unref);
  g_free (release);
}

static const char *
text_of (const Release *release, int i)
{
  return gtk_editable_get_text (GTK_EDITABLE (release->entries[i]));
}

static void
show_fault (Release *release, const char *fault)
{
  gtk_label_set_text (GTK_LABEL (release->fault), fault != NULL ? fault : "");
  gtk_widget_set_visible (release->fault, fault != NULL);
}

static void
on_enter (Release *release)
{
  g_autoptr (GError) error = NULL;
  if (release->document == NULL || release->plates == NULL)
    return;
  SwEdit *edit = sw_release_edit (sw_document_job (release->document), release->plates, text_of (release, 0), text_of (release, 1),
                                  text_of (release, 2), &error);
  show_fault (release, error != NULL ? error->message : NULL);
  if (edit == NULL)
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (release->button));
  sw_document_do (release->document, edit);
}

static void
add_entry (Release *release, GtkGrid *grid, int i, const char *label, const char *hint)
{
  GtkWidget *left = gtk_label_new (label);
  release->entries[i] = gtk_entry_new ();
  gtk_label_set_xalign (GTK_LABEL (left), 0);
  gtk_entry_set_placeholder_text (GTK_ENTRY (release->entries[i]), hint);
  gtk_accessible_update_property (GTK_ACCESSIBLE (release->entries[i]), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect_swapped (release->entries[i], "activate", G_CALLBACK (on_enter), release);
  gtk_grid_attach (grid, left, 0, i, 1, 1);
  gtk_grid_attach (grid, release->entries[i], 1, i, 1, 1);
}

static GtkWidget *
wrapped_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 40);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

static GtkWidget *
build_form (Release *release)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8), *grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  add_entry (release, GTK_GRID (grid), 0, _("Released by (engineer)"), _("name"));
  add_entry (release, GTK_GRID (grid), 1, _("Released on"), _("2026-03-14"));
  add_entry (release, GTK_GRID (grid), 2, _("Reference of the release"), _("letter, mail or drawing"));
  release->fault = wrapped_label ("");
  release->enter = gtk_button_new_with_label ("");
  gtk_widget_add_css_class (release->fault, "error");
  g_signal_connect_swapped (release->enter, "clicked", G_CALLBACK (on_enter), release);
  gtk_box_append (GTK_BOX (box), wrapped_label (_("Enter what the engineer wrote. Without it these plates stay.")));
  gtk_box_append (GTK_BOX (box), grid);
  gtk_box_append (GTK_BOX (box), release->fault);
  gtk_box_append (GTK_BOX (box), release->enter);
  show_fault (release, NULL);
  return box;
}

GtkWidget *
sw_release_button_new (void)
{
  Release *release = g_new0 (Release, 1);
  GtkWidget *popover = gtk_popover_new ();
  release->button = gtk_menu_button_new ();
  gtk_popover_set_child (GTK_POPOVER (popover), build_form (release));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (release->button), popover);
  gtk_menu_button_set_direction (GTK_MENU_BUTTON (release->button), GTK_ARROW_UP);
  gtk_widget_set_halign (release->button, GTK_ALIGN_START);
  gtk_widget_set_visible (release->button, FALSE);
  g_object_set_data_full (G_OBJECT (release->button), "release", release, (GDestroyNotify) release_free);
  return release->button;
}

void
sw_release_button_set_plates (GtkWidget *button, SwDocument *document, GArray *plates)
{
  Release *release = g_object_get_data (G_OBJECT (button), "release");
  guint n = plates != NULL && document != NULL && !sw_document_is_read_only (document) ? plates->len : 0;
  g_clear_pointer (&release->plates, g_array_unref);
  release->document = n > 0 ? document : NULL;
  release->plates = n > 0 ? g_array_ref (plates) : NULL;
  gtk_widget_set_visible (button, n > 0);
  if (n == 0)
    {
      gtk_menu_button_popdown (GTK_MENU_BUTTON (button));
      return;
    }
  g_autofree char *label = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Release of %u plate…", "Release of %u plates…", n), n);
  g_autofree char *enter = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Enter it for %u plate", "Enter it for all %u plates", n), n);
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_button_set_label (GTK_BUTTON (release->enter), enter);
}
