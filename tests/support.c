/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support.h"
#include <string.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>

static GPtrArray *folders;

static int
remove_one (const char *path, const struct stat *info, int kind, struct FTW *walk)
{
  return remove (path);
}

static void
remove_folders (void)
{
  for (guint i = 0; folders != NULL && i < folders->len; i++)
    nftw (folders->pdata[i], remove_one, 8, FTW_DEPTH | FTW_PHYS);
  g_clear_pointer (&folders, g_ptr_array_unref);
}

void
sw_test_init (int *argc, char ***argv)
{
  g_test_init (argc, argv, NULL);
  g_test_set_nonfatal_assertions ();
}

gboolean
sw_test_is_full (void)
{
  return g_getenv ("SOFFITWRIGHT_TEST_FULL") != NULL;
}

SwRules *
sw_test_rules (const char *name)
{
  static GHashTable *read; /* name → SwRules */
  if (read == NULL)
    read = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) sw_rules_unref);
  SwRules *rules = g_hash_table_lookup (read, name);
  if (rules == NULL)
    {
      GError *error = NULL;
      rules = sw_rules_load (name, NULL, &error);
      g_assert_no_error (error);
      g_hash_table_insert (read, g_strdup (name), rules);
    }
  return sw_rules_ref (rules);
}

int
sw_test_rounds (int n)
{
  return g_getenv ("SOFFITWRIGHT_TEST_LIGHT") != NULL ? MAX (n / 10, 1) : n;
}

char *
sw_test_source_path (const char *name)
{
  const char *root = g_getenv ("SOFFITWRIGHT_SOURCE");
  return g_build_filename (root ? root : ".", name, NULL);
}

char *
sw_test_reference_path (const char *name)
{
  g_autofree char *beside = sw_test_source_path ("../shared/reference");
  g_autofree char *path = g_build_filename (beside, name, NULL);
  if (g_file_test (path, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&path);
  g_test_skip_printf ("reference data \"%s\" is not beside this source tree", name);
  return NULL;
}

char *
sw_test_folder (void)
{
  GError *error = NULL;
  char *path = g_dir_make_tmp ("soffitwright-test-XXXXXX", &error);
  g_assert_no_error (error);
  if (folders == NULL)
    {
      folders = g_ptr_array_new_with_free_func (g_free);
      atexit (remove_folders);
    }
  g_ptr_array_add (folders, g_strdup (path));
  return path;
}
