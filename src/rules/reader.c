/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strict reader of key files. GLib's own reader keeps no line numbers, joins groups of one name and takes the last
 * of two equal keys; here each of these is an error that says where. The syntax is the same less escapes and
 * translations: [group], key=value, # comments on lines of their own. */
#include "rules/reader.h"
#include "base/error.h"
#include <string.h>

#define MOST_BYTES (4 * 1024 * 1024)

gboolean
sw_rules_fail (GError **error, const char *path, guint line, const char *format, ...)
{
  va_list list;
  va_start (list, format);
  g_autofree char *message = g_strdup_vprintf (format, list);
  va_end (list);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s:%u: %s", path, line, message);
  return FALSE;
}

static void
section_free (gpointer data)
{
  SwRulesSection *section = data;
  g_array_unref (section->lines);
  g_free (section);
}

void
sw_rules_file_free (SwRulesFile *file)
{
  if (file == NULL)
    return;
  g_ptr_array_unref (file->sections);
  g_free (file);
}

const SwRulesLine *
sw_rules_section_find (const SwRulesSection *section, const char *key)
{
  for (guint i = 0; i < section->lines->len; i++)
    {
      const SwRulesLine *line = &g_array_index (section->lines, SwRulesLine, i);
      if (strcmp (line->key, key) == 0)
        return line;
    }
  return NULL;
}

static gboolean
is_name (const char *text, const char *more)
{
  if (!g_ascii_isalnum (text[0]))
    return FALSE;
  for (const char *at = text; *at != '\0'; at++)
    if (!g_ascii_islower (*at) && !g_ascii_isdigit (*at) && strchr (more, *at) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
read_section (SwRulesFile *file, char *text, guint number, GStringChunk *strings, GError **error)
{
  gsize length = strlen (text);
  if (length < 3 || text[length - 1] != ']')
    return sw_rules_fail (error, file->path, number, "a group's name needs a closing bracket, as in [group]");
  text[length - 1] = '\0';
  const char *name = text + 1;
  if (!is_name (name, "._-"))
    return sw_rules_fail (error, file->path, number,
                          "\"%s\" is not a group's name (small letters, digits, . _ -)", name);
  for (guint i = 0; i < file->sections->len; i++)
    {
      const SwRulesSection *other = file->sections->pdata[i];
      if (strcmp (other->name, name) == 0)
        return sw_rules_fail (error, file->path, number, "group [%s] stands twice, first on line %u", name,
                              other->line);
    }
  SwRulesSection *section = g_new0 (SwRulesSection, 1);
  section->name = g_string_chunk_insert_const (strings, name);
  section->line = number;
  section->lines = g_array_new (FALSE, FALSE, sizeof (SwRulesLine));
  g_ptr_array_add (file->sections, section);
  return TRUE;
}

static gboolean
read_entry (SwRulesFile *file, char *text, guint number, GStringChunk *strings, GError **error)
{
  if (file->sections->len == 0)
    return sw_rules_fail (error, file->path, number, "a [group] has to come first");
  SwRulesSection *section = file->sections->pdata[file->sections->len - 1];
  char *equals = strchr (text, '=');
  if (equals == NULL)
    return sw_rules_fail (error, file->path, number, "\"%s\" is not key=value", text);
  *equals = '\0';
  g_strchomp (text);
  if (!is_name (text, "._-/+@"))
    return sw_rules_fail (error, file->path, number,
                          "\"%s\" is not a key (small letters, digits, . _ - / + @)", text);
  const SwRulesLine *other = sw_rules_section_find (section, text);
  if (other != NULL)
    return sw_rules_fail (error, file->path, number, "\"%s\" stands twice in [%s], first on line %u", text,
                          section->name, other->line);
  SwRulesLine line = { g_string_chunk_insert_const (strings, text),
                       g_string_chunk_insert_const (strings, g_strstrip (equals + 1)), number };
  g_array_append_val (section->lines, line);
  return TRUE;
}

static gboolean
check_text (const char *path, const char *text, gsize length, GError **error)
{
  const char *end = NULL;
  if (length > MOST_BYTES)
    return sw_rules_fail (error, path, 1, "the file is larger than %d MB", MOST_BYTES / (1024 * 1024));
  if (g_utf8_validate_len (text, length, &end))
    return TRUE;
  guint line = 1;
  for (const char *at = text; at < end; at++)
    line += *at == '\n';
  return sw_rules_fail (error, path, line, "the text is not UTF-8");
}

SwRulesFile *
sw_rules_file_parse (const char *path, const char *text, gsize length, GStringChunk *strings, GError **error)
{
  if (!check_text (path, text, length, error))
    return NULL;
  g_autoptr (SwRulesFile) file = g_new0 (SwRulesFile, 1);
  file->path = g_string_chunk_insert_const (strings, path);
  file->sections = g_ptr_array_new_with_free_func (section_free);
  g_autofree char *copy = g_strndup (text, length);
  guint number = 0;
  for (char *at = copy, *next; at != NULL; at = next)
    {
      next = strchr (at, '\n');
      if (next != NULL)
        *next++ = '\0';
      number++;
      char *trimmed = g_strstrip (at);
      if (trimmed[0] == '\0' || trimmed[0] == '#')
        continue;
      if (trimmed[0] == '[' ? !read_section (file, trimmed, number, strings, error)
                            : !read_entry (file, trimmed, number, strings, error))
        return NULL;
    }
  return g_steal_pointer (&file);
}

SwRulesFile *
sw_rules_file_read (const char *path, GStringChunk *strings, GError **error)
{
  g_autofree char *text = NULL;
  gsize length = 0;
  g_autoptr (GError) problem = NULL;
  if (!g_file_get_contents (path, &text, &length, &problem))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_IO, "the rules cannot be read: %s", problem->message);
      return NULL;
    }
  return sw_rules_file_parse (path, text, length, strings, error);
}
