/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/paths.h"

char *
sw_data_path (const char *name)
{
  const char *chosen = g_getenv ("SOFFITWRIGHT_DATA");
  const char *folders[] = { chosen, SW_DATA_DIR, SW_SOURCE_DATA_DIR };
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      if (folders[i] == NULL || *folders[i] == '\0')
        continue;
      g_autofree char *path = g_build_filename (folders[i], name, NULL);
      if (g_file_test (path, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&path);
    }
  return g_build_filename (SW_DATA_DIR, name, NULL);
}
