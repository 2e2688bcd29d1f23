/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/record_choice.h"
#include "job/records.h"
#include "sheets/context.h"
#include "window/compat.h"

void
sw_record_choice_init (SwRecordChoice *choice, GtkDropDown *drop_down, const char *name)
{
  *choice = (SwRecordChoice){ .drop_down = drop_down, .ids = g_array_new (FALSE, FALSE, sizeof (SwId)) };
  sw_compat_name_drop_down (drop_down, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
sw_record_choice_clear (SwRecordChoice *choice)
{
  choice->filling = TRUE;
  g_clear_pointer (&choice->ids, g_array_unref);
  g_clear_pointer (&choice->names, g_strfreev);
}

static char *
name_of (const SwRecord *record)
{
  const SwField *field = sw_struct_field (&sw_record_type (record)->body, "name");
  const char *name = field != NULL ? SW_AT (record, field, char *) : "";
  return *name != '\0' ? g_strdup_printf ("%s %s", record->tag, name) : g_strdup (record->tag);
}

static guint
index_of (const SwRecordChoice *choice, SwId id)
{
  guint i = 0;
  while (i < choice->ids->len && g_array_index (choice->ids, SwId, i) != id)
    i++;
  return i;
}

static void
show_names (SwRecordChoice *choice, GStrv names)
{
  if (choice->names != NULL && g_strv_equal ((const char *const *) choice->names, (const char *const *) names))
    return;
  g_autoptr (GtkStringList) list = gtk_string_list_new ((const char *const *) names);
  gtk_drop_down_set_model (choice->drop_down, G_LIST_MODEL (list));
  g_strfreev (choice->names);
  choice->names = g_strdupv (names);
}

void
sw_record_choice_fill (SwRecordChoice *choice, SwJob *job, const SwTable *tables, SwRecordTakes takes, SwId shown)
{
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();
  choice->filling = TRUE;
  g_array_set_size (choice->ids, 0);
  for (; *tables != SW_N_TABLES; tables++)
    {
      g_autoptr (GPtrArray) records = sw_sheet_records (job, *tables);
      for (guint i = 0; i < records->len; i++)
        {
          const SwRecord *record = records->pdata[i];
          g_autofree char *name = name_of (record);
          if (takes != NULL && !takes (record))
            continue;
          g_strv_builder_add (names, name);
          g_array_append_val (choice->ids, record->id);
        }
    }
  g_auto (GStrv) all = g_strv_builder_end (names);
  show_names (choice, all);
  guint at = index_of (choice, shown);
  gtk_drop_down_set_selected (choice->drop_down, at < choice->ids->len ? at : choice->ids->len > 0 ? 0 : GTK_INVALID_LIST_POSITION);
  choice->filling = FALSE;
}

SwId
sw_record_choice_now (const SwRecordChoice *choice)
{
  guint chosen = gtk_drop_down_get_selected (choice->drop_down);
  return choice->ids != NULL && chosen < choice->ids->len ? g_array_index (choice->ids, SwId, chosen) : 0;
}

void
sw_record_choice_set (SwRecordChoice *choice, SwId id)
{
  guint at = index_of (choice, id);
  if (at < choice->ids->len)
    gtk_drop_down_set_selected (choice->drop_down, at);
}
