/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The general-purpose trees that the benchmarks are held against; see trees.h. */
#include "trees.h"
#include <geos_c.h>
#include <sqlite3.h>

typedef struct
{
  const SwBox3 *boxes;
  guint32 self;
  gsize pairs;
} Count;

static void
count_pair (void *item, void *data)
{
  Count *count = data;
  guint32 other = GPOINTER_TO_UINT (item);
  if (other > count->self && sw_box3_meets (count->boxes[count->self], count->boxes[other]))
    count->pairs++;
}

/* The library's tree knows plan boxes only; level is looked at in the callback. Making the envelopes is not counted. */
BenchTree
bench_str_tree (const SwBox3 *boxes, guint n)
{
  GEOSContextHandle_t context = GEOS_init_r ();
  GEOSGeometry **envelopes = g_new (GEOSGeometry *, n);
  for (guint i = 0; i < n; i++)
    envelopes[i] = GEOSGeom_createRectangle_r (context, boxes[i].low.x, boxes[i].low.y, boxes[i].high.x, boxes[i].high.y);
  gsize heap = bench_heap ();
  double start = bench_cpu_ms ();
  GEOSSTRtree *tree = GEOSSTRtree_create_r (context, 10);
  for (guint i = 0; i < n; i++)
    GEOSSTRtree_insert_r (context, tree, envelopes[i], GUINT_TO_POINTER (i));
  Count count = { boxes, 0, 0 };
  for (count.self = 0; count.self < n; count.self++)
    GEOSSTRtree_query_r (context, tree, envelopes[count.self], count_pair, &count);
  BenchTree result = { bench_cpu_ms () - start, count.pairs, bench_heap () - heap };
  GEOSSTRtree_destroy_r (context, tree);
  for (guint i = 0; i < n; i++)
    GEOSGeom_destroy_r (context, envelopes[i]);
  g_free (envelopes);
  GEOS_finish_r (context);
  return result;
}

static void
must (sqlite3 *db, int code)
{
  if (code != SQLITE_OK && code != SQLITE_DONE && code != SQLITE_ROW)
    g_error ("%s", sqlite3_errmsg (db));
}

static sqlite3_stmt *
prepared (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *statement;
  must (db, sqlite3_prepare_v2 (db, sql, -1, &statement, NULL));
  return statement;
}

static void
bind_box (sqlite3_stmt *statement, const SwBox3 *box)
{
  const double sides[] = { box->low.x, box->high.x, box->low.y, box->high.y, box->low.z, box->high.z };
  for (int k = 0; k < 6; k++)
    sqlite3_bind_double (statement, k + 2, sides[k]);
}

BenchTree
bench_r_tree (const SwBox3 *boxes, guint n)
{
  sqlite3 *db;
  BenchTree result = { 0 };
  must (NULL, sqlite3_open (":memory:", &db));
  must (db, sqlite3_exec (db, "CREATE VIRTUAL TABLE t USING rtree (id, x0, x1, y0, y1, z0, z1); BEGIN", NULL, NULL, NULL));
  sqlite3_stmt *insert = prepared (db, "INSERT INTO t VALUES (?, ?, ?, ?, ?, ?, ?)");
  sqlite3_stmt *query = prepared (db, "SELECT count(*) FROM t WHERE id > ?1 AND x1 >= ?2 AND x0 <= ?3 AND y1 >= ?4 AND y0 <= ?5 AND z1 >= ?6 AND z0 <= ?7");
  double start = bench_cpu_ms ();
  for (guint i = 0; i < n; i++)
    {
      sqlite3_bind_int64 (insert, 1, i);
      bind_box (insert, &boxes[i]);
      must (db, sqlite3_step (insert));
      sqlite3_reset (insert);
    }
  for (guint i = 0; i < n; i++)
    {
      sqlite3_bind_int64 (query, 1, i);
      bind_box (query, &boxes[i]);
      must (db, sqlite3_step (query));
      result.pairs += (gsize) sqlite3_column_int64 (query, 0);
      sqlite3_reset (query);
    }
  result.ms = bench_cpu_ms () - start;
  result.bytes = (gsize) sqlite3_memory_used ();
  sqlite3_finalize (insert);
  sqlite3_finalize (query);
  sqlite3_close (db);
  return result;
}
