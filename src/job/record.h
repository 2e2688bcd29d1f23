/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/length.h"
#include "job/type.h"

/* A new record with defaults, refs 1, not yet in a job: free to be changed until it is. */
SwRecord *sw_record_new (SwId id, const char *tag);
/* A deep copy with refs 1, to be changed and put into an edit. */
SwRecord *sw_record_copy (const SwRecord *record);
SwRecord *sw_record_ref (const SwRecord *record);
void sw_record_unref (SwRecord *record);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRecord, sw_record_unref)

static inline SwTable sw_record_table (const SwRecord *record) { return SW_ID_TABLE (record->id); }
static inline const SwType *sw_record_type (const SwRecord *record) { return sw_type_get (sw_record_table (record)); }

/* Same id, tag and values, numbers bit for bit. */
gboolean sw_record_equal (const SwRecord *a, const SwRecord *b);

/* Access to a field of a record or of a list's item (`base` is its start). */
#define SW_AT(base, field, type) (*(type *) ((char *) (base) + (field)->offset))
static inline gpointer
sw_list_item (const SwList *list, const SwStruct *item, guint i)
{
  return (char *) list->items + item->size * i;
}

/* Setters for a record that is not yet in a job. Texts are copied; NULL is "". */
void sw_text_set (char **text, const char *value);
/* Makes the list n items long; new ones have the defaults, dropped ones are freed. Returns the items. */
gpointer sw_list_resize (SwList *list, const SwStruct *item, guint n);
/* Replaces a list of SwPoint. */
void sw_list_set_points (SwList *list, const SwPoint *points, guint n);
void sw_list_remove (SwList *list, const SwStruct *item, guint i);
/* Opens a gap at i filled with defaults and returns it. */
gpointer sw_list_insert (SwList *list, const SwStruct *item, guint i);

/* Rounds coordinates to the grid and checks every field's range, words, dates, outlines and what belongs to the
 * table. SW_ERROR_INVALID names field and value: "outline: needs at least 3 points". References are the job's to check. */
gboolean sw_record_settle (SwRecord *record, GError **error);

/* "room 2", "stack 1", "box F3": what people call a record of this kind (in the user's language) by its mark. A mark that
 * already begins with the kind, in that language or in English, does not say it twice. Free with g_free. */
char *sw_record_call (const SwRecord *record, const char *kind);

/* Box in plan over all points of the record; empty when it has none. */
SwBox sw_record_box (const SwRecord *record);
/* Moves every point of a record that is not yet in a job. */
void sw_record_move (SwRecord *record, SwPoint by);

/* Calls `each` for every reference in the record; `ref` may be changed when the record may. */
void sw_record_each_ref (SwRecord *record, void (*each) (const SwField *field, SwId *ref, gpointer data), gpointer data);

/* Scalar fields as people type and read them, without locale: enum by its key, lengths with tape arithmetic and in the given
 * units. A text that reads as the value that stands there already leaves it as it is, so that rounding is not entered.
 * Not for references and lists (they assert). The text is the caller's. */
char *sw_field_write (const SwField *field, gconstpointer base, SwLengths lengths);
gboolean sw_field_read (const SwField *field, gpointer base, SwLengths lengths, const char *text, GError **error);
