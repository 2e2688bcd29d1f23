/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/start_page.h"
#include "base/number.h"
#include "job/records.h"
#include "sheets/words.h"
#include "window/compat.h"

struct _SwStartPage
{
  GtkWidget parent_instance;
  GtkEditable *length_entry, *width_entry;
  GtkDropDown *profile_drop_down;
  GtkLabel *fault_label;
  GtkBox *recent_box; /* its title, then a button a job */
};

G_DEFINE_FINAL_TYPE (SwStartPage, sw_start_page, GTK_TYPE_WIDGET)

static guint start_signal;

/* Names of the catalogue's profiles, for translators. */
G_GNUC_UNUSED static const char *const catalogue_names[] = { N_("Shallow trough"), N_("Medium trough"), N_("Deep trough") };

static void
show_fault (SwStartPage *page, const char *text)
{
  gtk_label_set_text (page->fault_label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (page->fault_label), text != NULL);
}

static gboolean
read_entry (SwStartPage *page, GtkEditable *entry, double *mm)
{
  g_autoptr (GError) error = NULL;
  gboolean good = sw_length_read (gtk_editable_get_text (entry), SW_LENGTHS_MM, mm, &error);
  if (good)
    gtk_widget_remove_css_class (GTK_WIDGET (entry), "faulty");
  else
    {
      gtk_widget_add_css_class (GTK_WIDGET (entry), "faulty");
      show_fault (page, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (entry));
    }
  return good;
}

static void
on_start (GtkWidget *widget, SwStartPage *page)
{
  double length, width;
  show_fault (page, NULL);
  if (read_entry (page, page->length_entry, &length) && read_entry (page, page->width_entry, &width))
    g_signal_emit (page, start_signal, 0, length, width, gtk_drop_down_get_selected (page->profile_drop_down));
}

void
sw_start_page_set_catalogue (SwStartPage *page, SwJob *catalogue)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (catalogue, SW_TABLE_PROFILE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwProfile *profile = (const SwProfile *) record;
      char pitch[SW_NUMBER_BUF], depth[SW_NUMBER_BUF];
      g_autofree char *text = g_strdup_printf (_("%s: pitch %s, depth %s"), sw_word (profile->name),
                                               sw_number_write_fixed (profile->pitch, 0, pitch), sw_number_write_fixed (profile->depth, 0, depth));
      gtk_string_list_append (names, text);
    }
  gtk_drop_down_set_model (page->profile_drop_down, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (page->profile_drop_down, MIN (1, sw_job_count (catalogue, SW_TABLE_PROFILE) - 1));
}

static GtkWidget *
recent_button_new (GFile *file)
{
  g_autofree char *name = g_file_get_basename (file), *uri = g_file_get_uri (file), *where = g_file_get_parse_name (file);
  GtkWidget *button = gtk_button_new_with_label (name);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-recent");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", uri);
  gtk_widget_set_tooltip_text (button, where);
  return button;
}

void
sw_start_page_set_recent (SwStartPage *page, const char *const *uris)
{
  GtkWidget *title = gtk_widget_get_first_child (GTK_WIDGET (page->recent_box)), *button;
  guint n = 0;
  while ((button = gtk_widget_get_next_sibling (title)) != NULL)
    gtk_box_remove (page->recent_box, button);
  for (; *uris != NULL && n < SW_START_RECENT_MOST; uris++)
    {
      g_autoptr (GFile) file = g_file_new_for_uri (*uris);
      if (!g_file_query_exists (file, NULL))
        continue;
      gtk_box_append (page->recent_box, recent_button_new (file));
      n++;
    }
  gtk_widget_set_visible (GTK_WIDGET (page->recent_box), n > 0);
}

static void
sw_start_page_init (SwStartPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
  sw_compat_name_drop_down (page->profile_drop_down, _("Profile"));
}

static void
start_page_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_start_page_parent_class)->dispose (object);
}

static void
sw_start_page_class_init (SwStartPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = start_page_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, length_entry);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, width_entry);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, profile_drop_down);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, fault_label);
  gtk_widget_class_bind_template_child (widget_class, SwStartPage, recent_box);
  gtk_widget_class_bind_template_callback (widget_class, on_start);
  start_signal = g_signal_new ("start", SW_TYPE_START_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3, G_TYPE_DOUBLE, G_TYPE_DOUBLE,
                               G_TYPE_UINT);
}
