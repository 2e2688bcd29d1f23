/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"
#include "base/units.h"
#include "geometry/point.h"

/* Records describe themselves: from one table of fields come the text form and its schema, the columns of the job
 * file, the inspector, comparison and validation. A new field is one line in records.c. */

typedef enum
{
  SW_TABLE_JOB,
  SW_TABLE_GRIDLINE,
  SW_TABLE_PROFILE,
  SW_TABLE_BAY,
  SW_TABLE_PLATE,
  SW_TABLE_OPENING,
  SW_TABLE_COLUMN,
  SW_TABLE_BEAM,
  SW_TABLE_SOLID,
  SW_TABLE_ROOM,
  SW_TABLE_WALL,
  SW_TABLE_FITTING,
  SW_TABLE_DROP_IN,
  SW_TABLE_CIRCUIT,
  SW_TABLE_RUN,
  SW_TABLE_DROP,
  SW_TABLE_LIGHT,
  SW_TABLE_HATCH,
  SW_TABLE_SLEEVE,
  SW_TABLE_MEASURE,
  SW_TABLE_UNDERLAY,
  SW_TABLE_LAYOUT,
  SW_TABLE_HOLD_POINT,
  SW_TABLE_PRICE,
  SW_TABLE_BULKHEAD, /* tables stand in ids: new ones come last */
  SW_N_TABLES
} SwTable;

/* An id is unique in its job and never 0; the table stands in its upper bits. */
typedef gint64 SwId;
#define SW_ID(table, serial) ((SwId) (table) << 40 | (SwId) (serial))
#define SW_ID_TABLE(id) ((SwTable) ((id) >> 40))
#define SW_ID_SERIAL(id) ((id) & ((G_GINT64_CONSTANT (1) << 40) - 1))

typedef enum
{
  SW_FIELD_BOOL,   /* gboolean */
  SW_FIELD_INT,    /* int */
  SW_FIELD_NUMBER, /* double */
  SW_FIELD_TEXT,   /* char *, owned, never NULL */
  SW_FIELD_DATE,   /* char *, owned: "" or YYYY-MM-DD */
  SW_FIELD_ENUM,   /* int, index into the field's words */
  SW_FIELD_REF,    /* SwId, 0 for none */
  SW_FIELD_MONEY,  /* SwMoney */
  SW_FIELD_POINT,  /* SwPoint */
  SW_FIELD_LIST    /* SwList of the structs that the field describes */
} SwFieldKind;

typedef enum
{
  SW_FLAG_REQUIRED = 1 << 0, /* the text form must give it */
  SW_FLAG_OWNER = 1 << 1,    /* a reference without which the record goes too */
  SW_FLAG_OUTLINE = 1 << 2,  /* a list of points that must be a good outline */
  SW_FLAG_HIDDEN = 1 << 3,   /* not shown in the inspector */
  SW_FLAG_RULE_SET = 1 << 4  /* a text that names a rule set */
} SwFieldFlags;

/* n structs of one kind, owned by the record. */
typedef struct
{
  guint n;
  void *items;
} SwList;

typedef struct { const char *key, *label; } SwWord;

typedef struct _SwStruct SwStruct;

typedef struct
{
  const char *key;   /* in the text form and the job file */
  const char *label; /* for people, to be translated */
  SwFieldKind kind;
  SwUnit unit;
  guint flags;
  gsize offset;
  double start, low, high; /* default and range of a number; default of bool, int, enum */
  const char *start_text;  /* default of a text; NULL for "" */
  const SwWord *words;     /* of an enum, ended by a NULL key */
  guint32 refs;            /* tables that a reference may point into, as bits */
  const SwStruct *item;    /* of a list */
} SwField;

struct _SwStruct
{
  gsize size;
  guint n_fields;
  const SwField *fields;
  gboolean compact; /* written as an array of values, not as an object */
};

typedef struct
{
  SwStruct body;      /* size counts the SwRecord at its start */
  const char *key;    /* of the table in the text form: "bays" */
  const char *column; /* name of the table in the job file: "bay" */
  const char *label;  /* "bay", for people */
  const char *prefix; /* of automatic tags: "B" */
} SwType;

/* Start of every record. Records are immutable once they are in a job and may be read from any thread. */
typedef struct
{
  gatomicrefcount refs;
  SwId id;
  char *tag; /* the mark on the drawings, unique in the job */
} SwRecord;

const SwType *sw_type_get (SwTable table);
/* NULL where no field has the key. */
const SwField *sw_struct_field (const SwStruct *kind, const char *key);
/* The table with this key in the text form, or SW_N_TABLES. */
SwTable sw_table_from_key (const char *key);
