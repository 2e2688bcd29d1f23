/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/compat.h"
#include "sheets/words.h"

typedef struct
{
  GtkWindow *owner;
  SwChosen chosen;
  gpointer chooser; /* keeps itself alive until it is answered */
} Question;

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *const *patterns)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, name);
  for (; *patterns != NULL; patterns++)
    gtk_file_filter_add_pattern (filter, *patterns);
  gtk_file_chooser_add_filter (chooser, filter);
}

/* The native chooser is what 4.8 has; its deprecation from 4.10 on is met here only. */
G_GNUC_BEGIN_IGNORE_DEPRECATIONS
static void
on_response (GtkNativeDialog *dialog, int response, Question *question)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      if (file != NULL)
        question->chosen (file, question->owner);
    }
  g_object_unref (dialog);
}

static void
question_free (gpointer data, GClosure *closure)
{
  g_free (data);
}

void
sw_compat_choose (GtkWindow *owner, SwChoose what, const char *name, GFile *folder, SwChosen chosen)
{
  static const struct
  {
    const char *title;
    GtkFileChooserAction action;
    const char *patterns_name;
    const char *patterns[6];
  } kinds[] = {
    [SW_CHOOSE_JOB] = { N_("Open a job"), GTK_FILE_CHOOSER_ACTION_OPEN, N_("Jobs"), { "*.soffit", "*.json", NULL } },
    [SW_CHOOSE_PICTURE] = { N_("Put a plan picture under it"), GTK_FILE_CHOOSER_ACTION_OPEN, N_("Plan pictures"), { "*.svg", "*.png", "*.jpg", "*.jpeg", NULL } },
    [SW_CHOOSE_LIST] = { N_("Read a price list"), GTK_FILE_CHOOSER_ACTION_OPEN, N_("Price lists"), { "*.csv", NULL } },
    [SW_CHOOSE_CSV] = { N_("Read a list"), GTK_FILE_CHOOSER_ACTION_OPEN, N_("Lists"), { "*.csv", "*.txt", NULL } },
    [SW_CHOOSE_SAVE_JOB] = { N_("Save a copy"), GTK_FILE_CHOOSER_ACTION_SAVE, N_("Jobs"), { "*.soffit", "*.json", NULL } },
    [SW_CHOOSE_SAVE_ANY] = { N_("Export"), GTK_FILE_CHOOSER_ACTION_SAVE, NULL, { NULL } },
    [SW_CHOOSE_FOLDER] = { N_("Choose a folder"), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, NULL, { NULL } },
  };
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (sw_word (kinds[what].title), owner, kinds[what].action, NULL, NULL);
  Question *question = g_new0 (Question, 1);
  question->owner = owner;
  question->chosen = chosen;
  if (kinds[what].patterns_name != NULL)
    add_filter (GTK_FILE_CHOOSER (dialog), sw_word (kinds[what].patterns_name), kinds[what].patterns);
  if (name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  if (folder != NULL)
    gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog), folder, NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_data (dialog, "response", G_CALLBACK (on_response), question, question_free, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
sw_compat_add_css (GdkDisplay *display, const char *resource)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (provider, resource);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider), GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}
G_GNUC_END_IGNORE_DEPRECATIONS

void
sw_compat_scroll_to (GtkWidget *list, guint position, guint n)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (list, GTK_TYPE_SCROLLED_WINDOW);
  if (scrolled == NULL || n == 0)
    return;
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  double height = gtk_adjustment_get_upper (adjustment) / n, page = gtk_adjustment_get_page_size (adjustment);
  double top = position * height, now = gtk_adjustment_get_value (adjustment);
  if (top < now)
    gtk_adjustment_set_value (adjustment, top);
  else if (top + height > now + page)
    gtk_adjustment_set_value (adjustment, top + height - page);
}

void
sw_compat_name_drop_down (GtkDropDown *choice, const char *name)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (choice)); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_TOGGLE_BUTTON (child))
      gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
sw_compat_set_figure (GtkLabel *label, const char *text)
{
  gboolean turned = *text == '-' && gtk_widget_get_direction (GTK_WIDGET (label)) == GTK_TEXT_DIR_RTL;
  g_autofree char *marked = g_strconcat (turned ? "\xe2\x80\x8e" : "", text, NULL); /* U+200E, the left-to-right mark */
  gtk_label_set_text (label, marked);
}

/* As long as nobody has scrolled away from there. */
static void
keep_at_start (GtkAdjustment *adjustment, GtkColumnView *view)
{
  double *before = g_object_get_data (G_OBJECT (adjustment), "start");
  double start = gtk_adjustment_get_upper (adjustment) - gtk_adjustment_get_page_size (adjustment);
  if (gtk_widget_get_direction (GTK_WIDGET (view)) != GTK_TEXT_DIR_RTL || start <= 0 || (*before > 0 && gtk_adjustment_get_value (adjustment) != *before))
    return;
  *before = start;
  gtk_adjustment_set_value (adjustment, start);
}

static void
on_adjustment (GtkColumnView *view)
{
  GtkAdjustment *adjustment = gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (view));
  if (adjustment == NULL || g_object_get_data (G_OBJECT (adjustment), "start") != NULL)
    return;
  g_object_set_data_full (G_OBJECT (adjustment), "start", g_new0 (double, 1), g_free);
  g_signal_connect_object (adjustment, "changed", G_CALLBACK (keep_at_start), view, 0);
  keep_at_start (adjustment, view);
}

void
sw_compat_begin_at_start (GtkColumnView *view)
{
  g_signal_connect (view, "notify::hadjustment", G_CALLBACK (on_adjustment), NULL);
  on_adjustment (view);
}

static void
setup_short (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), GPOINTER_TO_INT (data));
  gtk_label_set_max_width_chars (GTK_LABEL (label), GPOINTER_TO_INT (data));
  gtk_list_item_set_child (item, label);
}

static void
setup_whole (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_item_set_child (item, label);
}

static void
bind_string (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

void
sw_compat_shorten_drop_down (GtkDropDown *choice, int chars)
{
  GtkListItemFactory *in_button = gtk_signal_list_item_factory_new (), *in_list = gtk_signal_list_item_factory_new ();
  g_signal_connect (in_button, "setup", G_CALLBACK (setup_short), GINT_TO_POINTER (chars));
  g_signal_connect (in_button, "bind", G_CALLBACK (bind_string), NULL);
  g_signal_connect (in_list, "setup", G_CALLBACK (setup_whole), NULL);
  g_signal_connect (in_list, "bind", G_CALLBACK (bind_string), NULL);
  gtk_drop_down_set_factory (choice, in_button);
  gtk_drop_down_set_list_factory (choice, in_list);
  g_object_unref (in_button);
  g_object_unref (in_list);
}

void
sw_compat_name_row (GtkListItem *item, const char *name)
{
  GtkWidget *child = gtk_list_item_get_child (item), *row = child != NULL ? gtk_widget_get_parent (child) : NULL;
  if (row != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}
