/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/application.h"
#include "window/compat.h"
#include "window/keys_window.h"
#include "window/window.h"
#include "sheets/words.h"

struct _SwApplication
{
  GtkApplication parent_instance;
  GSettings *settings;
  SwAppearance *appearance;
};

G_DEFINE_FINAL_TYPE (SwApplication, sw_application, GTK_TYPE_APPLICATION)

static SwWindow *
new_window (SwApplication *application)
{
  SwWindow *window = sw_window_new (GTK_APPLICATION (application), application->settings, application->appearance);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}

static void
act_new_window (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  new_window (data);
}

static void
act_quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GList *windows = g_list_copy (gtk_application_get_windows (data));
  for (GList *link = windows; link != NULL; link = link->next)
    gtk_window_close (link->data);
  g_list_free (windows);
}

static void
act_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (data), "program-name", "Soffitwright", "version", SW_VERSION, "logo-icon-name",
                         "org.soffitwright.Soffitwright", "license-type", GTK_LICENSE_GPL_3_0, "comments",
                         _("A drawing board for everything below a voided deck. It draws, checks clearances and adds up; engineer and licensed trades decide."),
                         NULL);
}

static void
act_keys (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_present (GTK_WINDOW (sw_keys_window_new (gtk_application_get_active_window (data))));
}

static void
on_dark (GSimpleAction *action, GVariant *state, gpointer data)
{
  SwApplication *application = data;
  g_simple_action_set_state (action, state);
  g_settings_set_string (application->settings, "theme", g_variant_get_boolean (state) ? "dark" : "light");
}

static void
add_accels (GtkApplication *application)
{
  static const struct { const char *action, *keys[3]; } accels[] = {
    { "app.new-window", { "<Control>n", NULL } },     { "app.quit", { "<Control>q", NULL } },     { "win.open", { "<Control>o", NULL } },
    { "win.save-copy", { "<Control><Shift>s", NULL } }, { "win.undo", { "<Control>z", NULL } },   { "win.redo", { "<Control><Shift>z", "<Control>y", NULL } },
    { "win.copy", { "<Control>d", NULL } },           { "win.zoom(1.2)", { "<Control>plus", "<Control>equal", NULL } },
    { "win.zoom(0.8)", { "<Control>minus", NULL } },  { "win.zoom(0.0)", { "<Control>0", NULL } }, { "win.looking-up", { "<Control>u", NULL } },
    { "window.close", { "<Control>w", NULL } },       { "win.select-all", { "<Control>a", NULL } }, { "win.export", { "<Control>e", NULL } },
    { "app.keys", { "F1", "<Control>question", NULL } }, { "win.lay-out", { "<Control>l", NULL } }, { "win.layouts", { "<Control>b", NULL } }, { "win.cut", { "<Control><Shift>x", NULL } },
    { "win.price", { "<Control><Shift>p", NULL } },   { "win.ask", { "<Control><Shift>c", NULL } }, { "win.rules", { "<Control><Shift>r", NULL } },
    { "win.holds", { "<Control><Shift>h", NULL } },   { "win.survey", { "<Control><Shift>m", NULL } },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (application, accels[i].action, accels[i].keys);
  for (int i = 0; i < SW_N_SITES; i++)
    {
      g_autofree char *action = g_strdup_printf ("win.site(%d)", i), *key = g_strdup_printf ("<Control>%d", i + 1);
      gtk_application_set_accels_for_action (application, action, (const char *[]){ key, NULL });
    }
}

static void
application_startup (GApplication *base)
{
  SwApplication *application = SW_APPLICATION (base);
  static const GActionEntry entries[] = {
    { .name = "new-window", .activate = act_new_window },
    { .name = "quit", .activate = act_quit },
    { .name = "about", .activate = act_about },
    { .name = "keys", .activate = act_keys },
  };
  G_APPLICATION_CLASS (sw_application_parent_class)->startup (base);
  application->settings = g_settings_new ("org.soffitwright.Soffitwright");
  application->appearance = sw_appearance_new (application->settings);
  g_action_map_add_action_entries (G_ACTION_MAP (base), entries, G_N_ELEMENTS (entries), base);
  g_autoptr (GSimpleAction) dark = g_simple_action_new_stateful ("dark", NULL,
                                                                 g_variant_new_boolean (sw_appearance_theme (application->appearance) == SW_THEME_DARK));
  g_signal_connect (dark, "change-state", G_CALLBACK (on_dark), application);
  g_action_map_add_action (G_ACTION_MAP (base), G_ACTION (dark));
  sw_compat_add_css (gdk_display_get_default (), "/org/soffitwright/Soffitwright/style.css");
  add_accels (GTK_APPLICATION (base));
}

static void
application_activate (GApplication *base)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (base));
  if (window != NULL)
    gtk_window_present (window);
  else
    new_window (SW_APPLICATION (base));
}

static void
application_open (GApplication *base, GFile **files, int n, const char *hint)
{
  for (int i = 0; i < n; i++)
    sw_window_open (new_window (SW_APPLICATION (base)), files[i]);
}

static void
application_shutdown (GApplication *base)
{
  SwApplication *application = SW_APPLICATION (base);
  g_clear_object (&application->appearance);
  g_clear_object (&application->settings);
  G_APPLICATION_CLASS (sw_application_parent_class)->shutdown (base);
}

static void
sw_application_init (SwApplication *application)
{
}

static void
sw_application_class_init (SwApplicationClass *class)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (class);
  application_class->startup = application_startup;
  application_class->activate = application_activate;
  application_class->open = application_open;
  application_class->shutdown = application_shutdown;
}

SwApplication *
sw_application_new (void)
{
  return g_object_new (SW_TYPE_APPLICATION, "application-id", "org.soffitwright.Soffitwright", "flags", G_APPLICATION_HANDLES_OPEN, NULL);
}
