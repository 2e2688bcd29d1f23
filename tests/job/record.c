/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/records.h"
#include "support.h"
#include <string.h>

/* Every table's fields lie inside its struct, have keys once, and defaults that settle. */
static void
test_types (void)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwType *type = sw_type_get (table);
      g_assert_cmpint (sw_table_from_key (type->key), ==, table);
      for (guint i = 0; i < type->body.n_fields; i++)
        {
          const SwField *field = &type->body.fields[i];
          g_assert_cmpuint (field->offset, >=, sizeof (SwRecord));
          g_assert_cmpuint (field->offset, <, type->body.size);
          g_assert_true (sw_struct_field (&type->body, field->key) == field);
          g_assert_cmpfloat (field->low, <=, field->high);
          for (guint k = 0; k < i; k++)
            g_assert_cmpuint (type->body.fields[k].offset, !=, field->offset);
        }
    }
  g_assert_cmpint (sw_table_from_key ("nothing"), ==, SW_N_TABLES);
}

static SwRecord *
new_room (void)
{
  SwRoom *room = (SwRoom *) sw_record_new (SW_ID (SW_TABLE_ROOM, 1), "Hall");
  SwPoint outline[] = { { 0, 0 }, { 6000.004, 0 }, { 6000, 4000 }, { 0, 4000 } };
  sw_list_set_points (&room->outline, outline, 4);
  return &room->record;
}

static void
test_copy_equal (void)
{
  g_autoptr (SwRecord) a = new_room ();
  g_autoptr (SwRecord) b = sw_record_copy (a);
  g_assert_true (sw_record_equal (a, b));
  sw_text_set (&((SwRoom *) b)->name, "Foyer");
  g_assert_false (sw_record_equal (a, b));
  g_assert_cmpstr (((SwRoom *) a)->name, ==, "");
  SW_LIST_AT (((SwRoom *) b)->outline, SwPoint, 0).x = 7;
  g_assert_cmpfloat (SW_LIST_AT (((SwRoom *) a)->outline, SwPoint, 0).x, ==, 0);
}

static void
test_settle_rounds (void)
{
  g_autoptr (SwRecord) room = new_room ();
  GError *error = NULL;
  g_assert_true (sw_record_settle (room, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (SW_LIST_AT (((SwRoom *) room)->outline, SwPoint, 1).x, ==, 6000);
}

static void
test_settle_refuses (void)
{
  GError *error = NULL;
  g_autoptr (SwRecord) room = new_room ();
  sw_list_resize (&((SwRoom *) room)->outline, &sw_struct_point, 2);
  g_assert_false (sw_record_settle (room, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "outline: needs at least 3 points");

  SwPoint bow_tie[] = { { 0, 0 }, { 1000, 1000 }, { 1000, 0 }, { 0, 1000 } };
  sw_list_set_points (&((SwRoom *) room)->outline, bow_tie, 4);
  g_assert_false (sw_record_settle (room, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "outline[");

  g_autoptr (SwRecord) profile = sw_record_new (SW_ID (SW_TABLE_PROFILE, 1), "deep");
  ((SwProfile *) profile)->mouth = 600;
  g_assert_false (sw_record_settle (profile, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "mouth_mm: must be less than the pitch");

  g_autoptr (SwRecord) run = sw_record_new (SW_ID (SW_TABLE_RUN, 1), "R1");
  g_assert_false (sw_record_settle (run, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "vertices: needs at least 2 points");

  g_autoptr (SwRecord) hold = sw_record_new (SW_ID (SW_TABLE_HOLD_POINT, 1), "HP1");
  sw_text_set (&((SwHoldPoint *) hold)->on, "2026-02-30");
  g_assert_false (sw_record_settle (hold, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "on: \"2026-02-30\" is not a date");
}

static void
test_lists (void)
{
  SwList list = { 0, NULL };
  SwVertex *first = sw_list_insert (&list, &sw_struct_vertex, 0);
  first->z = 1;
  ((SwVertex *) sw_list_insert (&list, &sw_struct_vertex, 1))->z = 3;
  ((SwVertex *) sw_list_insert (&list, &sw_struct_vertex, 1))->z = 2;
  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat (SW_LIST_AT (list, SwVertex, i).z, ==, i + 1);
  sw_list_remove (&list, &sw_struct_vertex, 1);
  g_assert_cmpfloat (SW_LIST_AT (list, SwVertex, 1).z, ==, 3);
  sw_list_resize (&list, &sw_struct_vertex, 0);
  g_assert_null (list.items);
}

static void
test_fields (void)
{
  g_autoptr (SwRecord) room = new_room ();
  const SwStruct *kind = &sw_record_type (room)->body;
  GError *error = NULL;
  g_assert_true (sw_field_read (sw_struct_field (kind, "batten_depth_mm"), room, SW_LENGTHS_MM, "25+25", &error));
  g_assert_cmpfloat (((SwRoom *) room)->batten_depth, ==, 50);
  g_assert_true (sw_field_read (sw_struct_field (kind, "finish"), room, SW_LENGTHS_MM, "exposed", &error));
  g_assert_cmpint (((SwRoom *) room)->finish, ==, SW_FINISH_EXPOSED);
  g_assert_false (sw_field_read (sw_struct_field (kind, "finish"), room, SW_LENGTHS_MM, "velvet", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "velvet");
  for (guint i = 0; i < kind->n_fields; i++)
    {
      if (kind->fields[i].kind == SW_FIELD_LIST || kind->fields[i].kind == SW_FIELD_REF)
        continue;
      g_autofree char *text = sw_field_write (&kind->fields[i], room, SW_LENGTHS_MM);
      g_autoptr (SwRecord) back = sw_record_copy (room);
      g_assert_true (sw_field_read (&kind->fields[i], back, SW_LENGTHS_MM, text, &error));
      g_assert_true (sw_record_equal (room, back));
    }
}

/* 2700 mm = 106.299 in = 8 ft 10 5/16 in to the nearest sixteenth. */
static void
test_feet (void)
{
  g_autoptr (SwRecord) record = sw_record_new (SW_ID (SW_TABLE_JOB, 1), "");
  SwJobInfo *info = (SwJobInfo *) record;
  const SwField *soffit = sw_struct_field (&sw_record_type (record)->body, "soffit_level_mm");
  g_autofree char *text = sw_field_write (soffit, record, SW_LENGTHS_FT_IN);
  GError *error = NULL;
  g_assert_cmpstr (text, ==, "8' 10 5/16\"");
  g_assert_true (sw_field_read (soffit, record, SW_LENGTHS_FT_IN, text, &error));
  g_assert_cmpfloat (info->soffit_level, ==, 2700); /* what was only read is not rounded */
  g_assert_true (sw_field_read (soffit, record, SW_LENGTHS_FT_IN, "8'", &error));
  sw_assert_near (info->soffit_level, 2438.4, 1e-9);
  g_assert_true (sw_field_read (soffit, record, SW_LENGTHS_FT_IN, "100", &error));
  sw_assert_near (info->soffit_level, 2540, 1e-9);
  g_assert_false (sw_field_read (soffit, record, SW_LENGTHS_FT_IN, "1'", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "between 1' 7 11/16\" and 164' 0 1/2\"");
  sw_assert_near (info->soffit_level, 2540, 1e-9);
}

static void
test_box_move (void)
{
  g_autoptr (SwRecord) room = new_room ();
  sw_record_move (room, (SwPoint){ 100, -50 });
  SwBox box = sw_record_box (room);
  g_assert_cmpfloat (box.low.x, ==, 100);
  g_assert_cmpfloat (box.high.y, ==, 3950);
}

static void
test_call_says_no_kind_twice (void)
{
  static const struct { SwTable table; const char *tag, *kind, *call; } cases[] = {
    { SW_TABLE_ROOM, "room-2", "room", "room 2" },   { SW_TABLE_ROOM, "Room 2", "room", "room 2" },
    { SW_TABLE_ROOM, "room-2", "Raum", "Raum 2" },   { SW_TABLE_ROOM, "Raum 2", "Raum", "Raum 2" },
    { SW_TABLE_ROOM, "R2", "room", "room R2" },      { SW_TABLE_ROOM, "roomy", "room", "room roomy" },
    { SW_TABLE_BAY, "bay-1", "bay", "bay 1" },       { SW_TABLE_BAY, "B", "bay", "bay B" },
    { SW_TABLE_FITTING, "stack 1", "stack", "stack 1" }, { SW_TABLE_FITTING, "F3", "draw box", "draw box F3" },
    { SW_TABLE_ROOM, "room", "room", "room" },       { SW_TABLE_ROOM, "", "room", "room" },
    { SW_TABLE_RUN, "power-3", "power", "power 3" }, { SW_TABLE_ROOM, "r\303\266om", "room", "room r\303\266om" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (SwRecord) record = sw_record_new (SW_ID (cases[i].table, 1), cases[i].tag);
      g_autofree char *call = sw_record_call (record, cases[i].kind);
      g_assert_cmpstr (call, ==, cases[i].call);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/job/record/types", test_types);
  g_test_add_func ("/job/record/copy-equal", test_copy_equal);
  g_test_add_func ("/job/record/settle-rounds", test_settle_rounds);
  g_test_add_func ("/job/record/settle-refuses", test_settle_refuses);
  g_test_add_func ("/job/record/lists", test_lists);
  g_test_add_func ("/job/record/fields", test_fields);
  g_test_add_func ("/job/record/feet", test_feet);
  g_test_add_func ("/job/record/box-move", test_box_move);
  g_test_add_func ("/job/record/call", test_call_says_no_kind_twice);
  return g_test_run ();
}
