/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/record.h"
#include "store/json_read.h"

/* Fields of records from JSON, by the field tables. Errors are SW_ERROR_INVALID and begin with the path in the document. */

/* A place in a document, by the steps that lead there (on the stack); turned into text only when something is wrong. */
typedef struct _SwJsonPlace SwJsonPlace;
struct _SwJsonPlace
{
  const SwJsonPlace *up; /* NULL: the top */
  const char *key;       /* NULL: item `index` of a list */
  guint index;
};

/* What references may name. */
typedef struct
{
  GHashTable *marks;  /* mark → record */
  GPtrArray *records; /* all of them, in the order in which guesses are made; borrowed */
} SwJsonNames;

/* Appends "rooms[2].outline". */
void sw_json_place_append (GString *out, const SwJsonPlace *place);

/* FALSE with "path: what". */
gboolean sw_json_refuse (GError **error, const SwJsonPlace *place, const char *format, ...) G_GNUC_PRINTF (3, 4);
/* FALSE with "path: must be `wanted`, not a number". */
gboolean sw_json_wrong_kind (GError **error, const SwJsonPlace *place, const char *wanted, JsonNode *node);
gboolean sw_json_holds_text (JsonNode *node);
gboolean sw_json_holds_number (JsonNode *node);

/* Sets one field of a record that is not yet in a job. References are marks, or the numbers of records when `names` is NULL. */
gboolean sw_json_read_field (const SwJsonNames *names, const SwField *field, gpointer base, JsonNode *node, const SwJsonPlace *place, GError **error);
/* Sets the fields that an object gives; the others stay. Unknown keys but `own_key` (or NULL) and missing required ones are errors. */
gboolean sw_json_read_members (const SwJsonNames *names, const SwStruct *kind, gpointer base, JsonObject *object, const char *own_key,
                               const SwJsonPlace *place, GError **error);
