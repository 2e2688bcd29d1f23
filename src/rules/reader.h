/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* A rule file as it is written: groups of key=value with the line of each. Strings belong to the chunk. */
typedef struct
{
  const char *key;
  const char *value;
  guint line;
} SwRulesLine;

typedef struct
{
  const char *name;
  guint line;
  GArray *lines; /* SwRulesLine */
} SwRulesSection;

typedef struct
{
  const char *path;
  GPtrArray *sections; /* SwRulesSection */
} SwRulesFile;

SwRulesFile *sw_rules_file_read (const char *path, GStringChunk *strings, GError **error);
/* `path` is only named in messages. */
SwRulesFile *sw_rules_file_parse (const char *path, const char *text, gsize length, GStringChunk *strings,
                                  GError **error);
void sw_rules_file_free (SwRulesFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRulesFile, sw_rules_file_free)

/* The entry of `key`; NULL when there is none. */
const SwRulesLine *sw_rules_section_find (const SwRulesSection *section, const char *key);

/* Sets SW_ERROR_INVALID "path:line: message"; returns FALSE. */
gboolean sw_rules_fail (GError **error, const char *path, guint line, const char *format, ...)
    G_GNUC_PRINTF (4, 5);
