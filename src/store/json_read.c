/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass of recursive descent; the depth is bounded, so that no document can eat the stack, and every step consumes
 * a character or fails, so that it ends. O(n). It reports the first fault only. */
#include "store/json_read.h"
#include "base/error.h"
#include <math.h>
#include <string.h>

#define DEEPEST 64
#define LONGEST_NUMBER 400
#define LARGEST_WHOLE 9007199254740992.0

typedef struct
{
  const char *start, *at, *end;
  int depth;
  GError *error;
} Tape;

static void tape_fail (Tape *tape, const char *at, int code, const char *format, ...) G_GNUC_PRINTF (4, 5);

/* Says where `at` is; the first fault stays. */
static void
tape_fail (Tape *tape, const char *at, int code, const char *format, ...)
{
  if (tape->error != NULL)
    return;
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  guint line = 1;
  const char *line_start = tape->start;
  for (const char *c = tape->start; c < at; c++)
    if (*c == '\n')
      {
        line++;
        line_start = c + 1;
      }
  long column = g_utf8_strlen (line_start, at - line_start) + 1;
  g_set_error (&tape->error, SW_ERROR, code, "line %u, column %ld: %s", line, column, what);
}

static void
tape_invalid (Tape *tape, const char *what)
{
  tape_fail (tape, tape->at, SW_ERROR_INVALID, "%s", what);
}

static char
tape_peek (const Tape *tape)
{
  return tape->at < tape->end ? *tape->at : '\0';
}

static char
tape_skip_space (Tape *tape)
{
  while (tape->at < tape->end && strchr (" \t\r\n", *tape->at) != NULL)
    tape->at++;
  return tape_peek (tape);
}

/* Four hexadecimal figures, or 0 with the error set. */
static gunichar
read_hex (Tape *tape)
{
  gunichar value = 0;
  for (int i = 0; i < 4; i++, tape->at++)
    {
      if (!g_ascii_isxdigit (tape_peek (tape)))
        {
          tape_invalid (tape, "four hexadecimal figures must follow \\u");
          return 0;
        }
      value = value * 16 + (gunichar) g_ascii_xdigit_value (*tape->at);
    }
  return value;
}

/* What follows "\u": one UTF-16 unit or a pair. */
static void
read_unicode (Tape *tape, GString *text)
{
  const char *at = tape->at - 2;
  gunichar unit = read_hex (tape);
  if (unit >= 0xD800 && unit < 0xDC00 && tape->end - tape->at >= 2 && tape->at[0] == '\\' && tape->at[1] == 'u')
    {
      tape->at += 2;
      gunichar low = read_hex (tape);
      unit = low >= 0xDC00 && low < 0xE000 ? 0x10000 + ((unit - 0xD800) << 10) + (low - 0xDC00) : 0xD800;
    }
  if (tape->error == NULL && unit == 0)
    tape_fail (tape, at, SW_ERROR_INVALID, "\\u0000 may not stand in a text");
  else if (tape->error == NULL && unit >= 0xD800 && unit < 0xE000)
    tape_fail (tape, at, SW_ERROR_INVALID, "half of a pair of \\u units");
  else
    g_string_append_unichar (text, unit);
}

static void
read_escape (Tape *tape, GString *text)
{
  static const char names[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
  char c = tape_peek (tape);
  const char *name = c != '\0' ? strchr (names, c) : NULL;
  if (c == 'u')
    {
      tape->at++;
      read_unicode (tape, text);
    }
  else if (name != NULL)
    {
      tape->at++;
      g_string_append_c (text, meant[name - names]);
    }
  else
    tape_invalid (tape, "no such escape after \\");
}

/* At the opening quote. NULL with the error set; free with g_free. */
static char *
read_text (Tape *tape)
{
  const char *opening = tape->at++;
  g_autoptr (GString) text = g_string_new (NULL);
  while (tape->error == NULL)
    {
      gsize plain = 0;
      while (tape->at + plain < tape->end && (guchar)tape->at[plain] >= 0x20 && tape->at[plain] != '"'
             && tape->at[plain] != '\\')
        plain++;
      g_string_append_len (text, tape->at, (gssize) plain);
      tape->at += plain;
      if (tape->at >= tape->end)
        tape_fail (tape, opening, SW_ERROR_INVALID, "this text has no closing quote");
      else if (*tape->at == '"')
        {
          tape->at++;
          return g_string_free (g_steal_pointer (&text), FALSE);
        }
      else if (*tape->at == '\\')
        {
          tape->at++;
          read_escape (tape, text);
        }
      else
        tape_invalid (tape, "a line break or control character in a text must be escaped");
    }
  return NULL;
}

static gsize
skip_figures (Tape *tape)
{
  gsize n = 0;
  for (; g_ascii_isdigit (tape_peek (tape)); n++)
    tape->at++;
  return n;
}

/* Moves over a number's figures; FALSE when they are not JSON's. *whole: no fraction, no exponent. */
static gboolean
scan_number (Tape *tape, gboolean *whole)
{
  *whole = TRUE;
  if (tape_peek (tape) == '-')
    tape->at++;
  gboolean zero = tape_peek (tape) == '0';
  gsize figures = skip_figures (tape);
  if (figures == 0 || (zero && figures > 1))
    return FALSE;
  if (tape_peek (tape) == '.')
    {
      *whole = FALSE;
      tape->at++;
      if (skip_figures (tape) == 0)
        return FALSE;
    }
  if (tape_peek (tape) == 'e' || tape_peek (tape) == 'E')
    {
      *whole = FALSE;
      tape->at++;
      if (tape_peek (tape) == '+' || tape_peek (tape) == '-')
        tape->at++;
      return skip_figures (tape) > 0;
    }
  return TRUE;
}

static JsonNode *
read_number (Tape *tape)
{
  const char *from = tape->at;
  gboolean whole;
  if (!scan_number (tape, &whole) || tape->at - from > LONGEST_NUMBER)
    {
      tape_fail (tape, from, SW_ERROR_INVALID, "this is not a number");
      return NULL;
    }
  g_autofree char *figures = g_strndup (from, (gsize) (tape->at - from));
  double value = g_ascii_strtod (figures, NULL);
  if (!isfinite (value))
    {
      tape_fail (tape, from, SW_ERROR_INVALID, "this number is too large");
      return NULL;
    }
  JsonNode *node = json_node_alloc ();
  return whole && fabs (value) <= LARGEST_WHOLE ? json_node_init_int (node, (gint64) value)
                                                : json_node_init_double (node, value);
}

static JsonNode *read_value (Tape *tape);

/* After an item: TRUE when a comma announces another, FALSE at the end or with the error set. */
static gboolean
read_more (Tape *tape, char closing)
{
  char c = tape_skip_space (tape);
  if (c != ',' && c != closing)
    tape_fail (tape, tape->at, SW_ERROR_INVALID,
               tape->at < tape->end ? "a comma or \"%c\" is missing" : "the document ends before its \"%c\"", closing);
  if (tape->error != NULL)
    return FALSE;
  tape->at++;
  return c == ',';
}

static JsonNode *
read_list (Tape *tape)
{
  g_autoptr (JsonArray) list = json_array_new ();
  tape->at++;
  if (tape_skip_space (tape) == ']')
    tape->at++;
  else
    do
      {
        JsonNode *item = read_value (tape);
        if (item == NULL)
          return NULL;
        json_array_add_element (list, item);
      }
    while (read_more (tape, ']'));
  return tape->error == NULL ? json_node_init_array (json_node_alloc (), list) : NULL;
}

static gboolean
read_member (Tape *tape, JsonObject *object)
{
  const char *at = tape->at;
  if (tape_skip_space (tape) != '"')
    {
      tape_invalid (tape, "a key in quotes is missing");
      return FALSE;
    }
  at = tape->at;
  g_autofree char *key = read_text (tape);
  if (key == NULL)
    return FALSE;
  if (json_object_has_member (object, key))
    tape_fail (tape, at, SW_ERROR_INVALID, "the key \"%s\" stands twice in one object", key);
  else if (tape_skip_space (tape) != ':')
    tape_invalid (tape, "a colon is missing after the key");
  if (tape->error != NULL)
    return FALSE;
  tape->at++;
  JsonNode *value = read_value (tape);
  if (value == NULL)
    return FALSE;
  json_object_set_member (object, key, value);
  return TRUE;
}

static JsonNode *
read_object (Tape *tape)
{
  g_autoptr (JsonObject) object = json_object_new ();
  tape->at++;
  if (tape_skip_space (tape) == '}')
    tape->at++;
  else
    do
      if (!read_member (tape, object))
        return NULL;
    while (read_more (tape, '}'));
  return tape->error == NULL ? json_node_init_object (json_node_alloc (), object) : NULL;
}

static JsonNode *
read_word (Tape *tape)
{
  static const char *const words[] = { "null", "false", "true" };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gsize length = strlen (words[i]);
      if ((gsize) (tape->end - tape->at) < length || strncmp (tape->at, words[i], length) != 0)
        continue;
      tape->at += length;
      JsonNode *node = json_node_alloc ();
      return i == 0 ? json_node_init_null (node) : json_node_init_boolean (node, i == 2);
    }
  tape_invalid (tape, tape->at < tape->end ? "a value is missing here" : "the document ends where a value is missing");
  return NULL;
}

static JsonNode *
read_value (Tape *tape)
{
  JsonNode *node = NULL;
  char c = tape_skip_space (tape);
  if (++tape->depth > DEEPEST)
    tape_fail (tape, tape->at, SW_ERROR_LIMIT, "nested deeper than %d", DEEPEST);
  else if (c == '{')
    node = read_object (tape);
  else if (c == '[')
    node = read_list (tape);
  else if (c == '"')
    {
      g_autofree char *text = read_text (tape);
      node = text != NULL ? json_node_init_string (json_node_alloc (), text) : NULL;
    }
  else if (c == '-' || g_ascii_isdigit (c))
    node = read_number (tape);
  else
    node = read_word (tape);
  tape->depth--;
  return node;
}

JsonNode *
sw_json_read (const char *text, gssize length, GError **error)
{
  gsize size = length < 0 ? strlen (text) : (gsize) length;
  Tape tape = { text, text, text + size, 0, NULL };
  const char *wrong;
  if (!g_utf8_validate_len (text, size, &wrong))
    tape_fail (&tape, wrong, SW_ERROR_INVALID, "this is not UTF-8 text");
  if (size >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    tape.start = tape.at = text + 3;
  g_autoptr (JsonNode) node = tape.error == NULL ? read_value (&tape) : NULL;
  if (node != NULL)
    {
      tape_skip_space (&tape);
      if (tape.at < tape.end)
        tape_invalid (&tape, "something follows the document");
    }
  if (tape.error == NULL)
    return g_steal_pointer (&node);
  g_propagate_error (error, tape.error);
  return NULL;
}

const char *
sw_json_kind (JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    return "an object";
  if (JSON_NODE_HOLDS_ARRAY (node))
    return "a list";
  if (JSON_NODE_HOLDS_NULL (node))
    return "null";
  GType type = json_node_get_value_type (node);
  return type == G_TYPE_STRING ? "a text" : type == G_TYPE_BOOLEAN ? "true or false" : "a number";
}
