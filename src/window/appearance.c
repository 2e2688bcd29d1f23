/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/appearance.h"

#define PORTAL "org.freedesktop.portal.Desktop"
#define PATH "/org/freedesktop/portal/desktop"
#define INTERFACE "org.freedesktop.portal.Settings"
#define NAMESPACE "org.freedesktop.appearance"
#define KEY "color-scheme"

struct _SwAppearance
{
  GObject parent_instance;
  GSettings *settings;
  GDBusConnection *bus;
  GCancellable *cancellable;
  guint subscription;
  guint32 scheme; /* 0 no wish, 1 dark, 2 light */
};

G_DEFINE_FINAL_TYPE (SwAppearance, sw_appearance, G_TYPE_OBJECT)

static guint changed_signal;

SwTheme
sw_appearance_theme (SwAppearance *appearance)
{
  enum { FOLLOW, LIGHT, DARK };
  int wish = g_settings_get_enum (appearance->settings, "theme");
  if (wish == FOLLOW)
    return appearance->scheme == 1 ? SW_THEME_DARK : SW_THEME_LIGHT;
  return wish == DARK ? SW_THEME_DARK : SW_THEME_LIGHT;
}

static void
apply (SwAppearance *appearance)
{
  gboolean dark = sw_appearance_theme (appearance) == SW_THEME_DARK;
  GtkSettings *gtk = gtk_settings_get_default ();
  if (gtk != NULL)
    g_object_set (gtk, "gtk-application-prefer-dark-theme", dark, NULL);
  g_signal_emit (appearance, changed_signal, 0);
}

static void
take (SwAppearance *appearance, GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);
  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *next = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = next;
    }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return;
  appearance->scheme = g_variant_get_uint32 (inner);
  apply (appearance);
}

static void
on_setting (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal, GVariant *parameters,
            gpointer data)
{
  const char *space, *key;
  g_autoptr (GVariant) value = NULL;
  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&s@v)", &space, &key, &value);
  if (g_str_equal (space, NAMESPACE) && g_str_equal (key, KEY))
    take (data, value);
}

/* No portal, or one that does not know the key: no wish. */
static void
on_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GVariant) reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result, NULL);
  g_autoptr (GVariant) value = NULL;
  if (reply == NULL)
    return;
  value = g_variant_get_child_value (reply, 0);
  take (data, value);
}

static void
on_bus (GObject *source, GAsyncResult *result, gpointer data)
{
  GDBusConnection *bus = g_bus_get_finish (result, NULL);
  SwAppearance *appearance = data;
  if (bus == NULL)
    return;
  appearance->bus = bus;
  appearance->subscription = g_dbus_connection_signal_subscribe (bus, PORTAL, INTERFACE, "SettingChanged", PATH, NAMESPACE,
                                                                 G_DBUS_SIGNAL_FLAGS_NONE, on_setting, appearance, NULL);
  g_dbus_connection_call (bus, PORTAL, PATH, INTERFACE, "Read", g_variant_new ("(ss)", NAMESPACE, KEY), G_VARIANT_TYPE ("(v)"),
                          G_DBUS_CALL_FLAGS_NONE, 2000, appearance->cancellable, on_read, appearance);
}

SwAppearance *
sw_appearance_new (GSettings *settings)
{
  SwAppearance *appearance = g_object_new (SW_TYPE_APPEARANCE, NULL);
  appearance->settings = g_object_ref (settings);
  appearance->cancellable = g_cancellable_new ();
  g_signal_connect_object (settings, "changed::theme", G_CALLBACK (apply), appearance, G_CONNECT_SWAPPED);
  g_bus_get (G_BUS_TYPE_SESSION, appearance->cancellable, on_bus, appearance);
  apply (appearance);
  return appearance;
}

static void
sw_appearance_init (SwAppearance *appearance)
{
}

static void
appearance_dispose (GObject *object)
{
  SwAppearance *appearance = SW_APPEARANCE (object);
  g_cancellable_cancel (appearance->cancellable);
  if (appearance->bus != NULL && appearance->subscription != 0)
    g_dbus_connection_signal_unsubscribe (appearance->bus, appearance->subscription);
  appearance->subscription = 0;
  g_clear_object (&appearance->bus);
  g_clear_object (&appearance->cancellable);
  g_clear_object (&appearance->settings);
  G_OBJECT_CLASS (sw_appearance_parent_class)->dispose (object);
}

static void
sw_appearance_class_init (SwAppearanceClass *class)
{
  G_OBJECT_CLASS (class)->dispose = appearance_dispose;
  changed_signal = g_signal_new ("changed", SW_TYPE_APPEARANCE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
