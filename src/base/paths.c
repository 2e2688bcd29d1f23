/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/paths.h"

static char *
find (const char *const folders[3], const char *name, GFileTest test)
{
  for (gsize i = 0; i < 3; i++)
    {
      if (folders[i] == NULL || *folders[i] == '\0')
        continue;
      g_autofree char *path = g_build_filename (folders[i], name, NULL);
      if (g_file_test (path, test))
        return g_steal_pointer (&path);
    }
  return g_build_filename (folders[1], name, NULL);
}

char *
sw_data_path (const char *name)
{
  return find ((const char *[]){ g_getenv ("SOFFITWRIGHT_DATA"), SW_DATA_DIR, SW_SOURCE_DATA_DIR }, name, G_FILE_TEST_EXISTS);
}

char *
sw_helper_path (const char *name)
{
  return find ((const char *[]){ g_getenv ("SOFFITWRIGHT_HELPERS"), SW_HELPER_DIR, SW_BUILD_HELPER_DIR }, name, G_FILE_TEST_IS_EXECUTABLE);
}

const char *
sw_locale_folder (void)
{
  const char *chosen = g_getenv ("SOFFITWRIGHT_LOCALE");
  return chosen != NULL && *chosen != '\0' ? chosen : SW_LOCALE_DIR;
}
