CREATE TABLE object (id INTEGER PRIMARY KEY, tbl INTEGER NOT NULL CHECK (tbl = id >> 40), tag TEXT NOT NULL) STRICT;
CREATE UNIQUE INDEX object_tag ON object (tag) WHERE tag <> '';
CREATE TABLE edit (number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE edit_change (edit INTEGER NOT NULL, place INTEGER NOT NULL, id INTEGER NOT NULL, before TEXT, after TEXT,
  PRIMARY KEY (edit, place)) STRICT, WITHOUT ROWID;
CREATE TABLE state (one INTEGER PRIMARY KEY CHECK (one = 1), position INTEGER NOT NULL, revision INTEGER NOT NULL) STRICT;
CREATE TABLE holder (one INTEGER PRIMARY KEY CHECK (one = 1), host TEXT NOT NULL, pid INTEGER NOT NULL, user TEXT NOT NULL,
  since TEXT NOT NULL) STRICT;
CREATE TABLE "job" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "number" TEXT NOT NULL,
  "rule_set" TEXT NOT NULL,
  "currency" TEXT NOT NULL,
  "units" TEXT NOT NULL /* (mm ft-in) */,
  "revision" TEXT NOT NULL,
  "prepared_by" TEXT NOT NULL,
  "datum_name" TEXT NOT NULL,
  "pour_date" TEXT NOT NULL,
  "note" TEXT NOT NULL,
  "rule_overrides" TEXT NOT NULL,
  "floor_level_mm" REAL NOT NULL,
  "level_line_mm" REAL NOT NULL,
  "soffit_level_mm" REAL NOT NULL) STRICT;
CREATE TABLE "grid_line" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "from_x" REAL NOT NULL,
  "from_y" REAL NOT NULL,
  "to_x" REAL NOT NULL,
  "to_y" REAL NOT NULL) STRICT;
CREATE TABLE "profile" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "pitch_mm" REAL NOT NULL,
  "mouth_mm" REAL NOT NULL,
  "crown_mm" REAL NOT NULL,
  "depth_mm" REAL NOT NULL,
  "sheet_mm" REAL NOT NULL,
  "topping_mm" REAL NOT NULL,
  "plate_spacing_mm" REAL NOT NULL,
  "rib_face" TEXT NOT NULL /* (concrete steel board) */,
  "cover_mm" REAL NOT NULL,
  "link_mm" REAL NOT NULL,
  "bar_mm" REAL NOT NULL,
  "tendons" TEXT NOT NULL /* (unknown no yes) */) STRICT;
CREATE TABLE "bay" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "outline" TEXT NOT NULL /* (x y) */,
  "profile" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "direction_deg" REAL NOT NULL,
  "first_rib_mm" REAL NOT NULL,
  "level_mm" REAL NOT NULL,
  "slope_x" REAL NOT NULL,
  "slope_y" REAL NOT NULL,
  "closure_start_mm" REAL NOT NULL,
  "closure_end_mm" REAL NOT NULL,
  "plate_first_mm" REAL NOT NULL,
  "plate_spacing_mm" REAL NOT NULL,
  "allowance_kpa" REAL NOT NULL,
  "first_void" INTEGER NOT NULL,
  "first_plate" INTEGER NOT NULL,
  "backwards" INTEGER NOT NULL) STRICT;
CREATE INDEX "bay_profile" ON "bay" ("profile");
CREATE TABLE "plate" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "bay" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "void" INTEGER NOT NULL,
  "plate" INTEGER NOT NULL,
  "released_by" TEXT NOT NULL,
  "released_on" TEXT NOT NULL,
  "reference" TEXT NOT NULL,
  "out_on" TEXT NOT NULL) STRICT;
CREATE INDEX "plate_bay" ON "plate" ("bay");
CREATE TABLE "opening" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "outline" TEXT NOT NULL /* (x y) */,
  "note" TEXT NOT NULL) STRICT;
CREATE TABLE "column" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "outline" TEXT NOT NULL /* (x y) */,
  "kind" TEXT NOT NULL /* (column shaft) */) STRICT;
CREATE TABLE "beam" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "from_x" REAL NOT NULL,
  "from_y" REAL NOT NULL,
  "to_x" REAL NOT NULL,
  "to_y" REAL NOT NULL,
  "width_mm" REAL NOT NULL,
  "drop_mm" REAL NOT NULL) STRICT;
CREATE TABLE "solid_zone" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "outline" TEXT NOT NULL /* (x y) */,
  "note" TEXT NOT NULL) STRICT;
CREATE TABLE "room" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "outline" TEXT NOT NULL /* (x y) */,
  "use" TEXT NOT NULL /* (habitable service assembly) */,
  "finish" TEXT NOT NULL /* (closed grid exposed) */,
  "floor_offset_mm" REAL NOT NULL,
  "battens" TEXT NOT NULL /* (across along) */,
  "battens_least" INTEGER NOT NULL,
  "batten_width_mm" REAL NOT NULL,
  "batten_depth_mm" REAL NOT NULL,
  "batten_material" TEXT NOT NULL /* (timber steel) */,
  "batten_grade" TEXT NOT NULL /* (rule s5 s7 s10 c16 c24) */,
  "batten_centres_mm" REAL NOT NULL,
  "batten_shift_mm" REAL NOT NULL,
  "primary_depth_mm" REAL NOT NULL,
  "primary_centres_mm" REAL NOT NULL,
  "board" TEXT NOT NULL /* (gypsum fibre-cement fire moisture) */,
  "board_thickness_mm" REAL NOT NULL,
  "sheet" TEXT NOT NULL /* (chosen cheapest) */,
  "sheet_most_mm" REAL NOT NULL,
  "board_length_mm" REAL NOT NULL,
  "board_width_mm" REAL NOT NULL,
  "boards_turned" INTEGER NOT NULL,
  "joints" TEXT NOT NULL /* (skim tape strip) */,
  "edge" TEXT NOT NULL /* (cornice shadow plain) */,
  "lights" TEXT NOT NULL /* (move trim) */,
  "wet" INTEGER NOT NULL,
  "fire_min" REAL NOT NULL,
  "insulation_mm" REAL NOT NULL,
  "grid_drop_mm" REAL NOT NULL,
  "packing_mm" REAL NOT NULL) STRICT;
CREATE TABLE "wall" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "from_x" REAL NOT NULL,
  "from_y" REAL NOT NULL,
  "to_x" REAL NOT NULL,
  "to_y" REAL NOT NULL,
  "thickness_mm" REAL NOT NULL,
  "material" TEXT NOT NULL /* (brick block concrete stud glass) */,
  "head" TEXT NOT NULL /* (ceiling rib crown slab) */,
  "separating" INTEGER NOT NULL,
  "fire_min" REAL NOT NULL,
  "sound_db" REAL NOT NULL) STRICT;
CREATE TABLE "fitting" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "kind" TEXT NOT NULL /* (box board stack gully exit tee bend socket eye valve hanger driver other) */,
  "at_x" REAL NOT NULL,
  "at_y" REAL NOT NULL,
  "level" TEXT NOT NULL /* (void below topping floor) */,
  "z_mm" REAL NOT NULL,
  "length_mm" REAL NOT NULL,
  "width_mm" REAL NOT NULL,
  "height_mm" REAL NOT NULL,
  "turn_deg" REAL NOT NULL,
  "run" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "access" INTEGER NOT NULL) STRICT;
CREATE INDEX "fitting_run" ON "fitting" ("run");
CREATE TABLE "drop_in" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "fixture" TEXT NOT NULL,
  "at_x" REAL NOT NULL,
  "at_y" REAL NOT NULL,
  "hole_mm" REAL NOT NULL,
  "units" REAL NOT NULL,
  "drop_mm" REAL NOT NULL) STRICT;
CREATE TABLE "circuit" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "protection" TEXT NOT NULL,
  "volts" REAL NOT NULL,
  "amps" REAL NOT NULL,
  "cable_mm2" REAL NOT NULL,
  "phases" INTEGER NOT NULL,
  "cores" INTEGER NOT NULL) STRICT;
CREATE TABLE "run" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "service" TEXT NOT NULL /* (waste soil rainwater condensate cold hot power lighting data fire-alarm sprinkler refrigerant duct gas) */,
  "material" TEXT NOT NULL /* (pvc steel copper pex multilayer pp cast-iron cpvc pliable brass) */,
  "product" TEXT NOT NULL,
  "od_mm" REAL NOT NULL,
  "bore_mm" REAL NOT NULL,
  "socket_mm" REAL NOT NULL,
  "insulation_mm" REAL NOT NULL,
  "clearance_mm" REAL NOT NULL,
  "bend_radius_mm" REAL NOT NULL,
  "fall" REAL NOT NULL,
  "vertices" TEXT NOT NULL /* (at level(void below topping floor fall) z) */,
  "start" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "end" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "circuit" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "contents" TEXT NOT NULL,
  "units" REAL NOT NULL,
  "stage" TEXT NOT NULL /* (first-fix cast-in existing) */) STRICT;
CREATE INDEX "run_start" ON "run" ("start");
CREATE INDEX "run_end" ON "run" ("end");
CREATE INDEX "run_circuit" ON "run" ("circuit");
CREATE TABLE "wall_drop" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "wall" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "kind" TEXT NOT NULL /* (switch socket board tap other) */,
  "along_mm" REAL NOT NULL,
  "height_mm" REAL NOT NULL,
  "box_depth_mm" REAL NOT NULL,
  "chase_depth_mm" REAL NOT NULL,
  "units" REAL NOT NULL,
  "circuit" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED) STRICT;
CREATE INDEX "wall_drop_wall" ON "wall_drop" ("wall");
CREATE INDEX "wall_drop_circuit" ON "wall_drop" ("circuit");
CREATE TABLE "light" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "name" TEXT NOT NULL,
  "at_x" REAL NOT NULL,
  "at_y" REAL NOT NULL,
  "cut_out_mm" REAL NOT NULL,
  "body_mm" REAL NOT NULL,
  "recess_mm" REAL NOT NULL,
  "driver_length_mm" REAL NOT NULL,
  "driver_width_mm" REAL NOT NULL,
  "driver_height_mm" REAL NOT NULL,
  "watts" REAL NOT NULL,
  "lumens" REAL NOT NULL,
  "side_clearance_mm" REAL NOT NULL,
  "top_clearance_mm" REAL NOT NULL,
  "hood" INTEGER NOT NULL,
  "trims" INTEGER NOT NULL,
  "circuit" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED) STRICT;
CREATE INDEX "light_circuit" ON "light" ("circuit");
CREATE TABLE "hatch" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "at_x" REAL NOT NULL,
  "at_y" REAL NOT NULL,
  "length_mm" REAL NOT NULL,
  "width_mm" REAL NOT NULL,
  "turn_deg" REAL NOT NULL) STRICT;
CREATE TABLE "sleeve" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "from_x" REAL NOT NULL,
  "from_y" REAL NOT NULL,
  "to_x" REAL NOT NULL,
  "to_y" REAL NOT NULL,
  "through" TEXT NOT NULL /* (rib closure solid beam wall topping) */,
  "z_mm" REAL NOT NULL,
  "diameter_mm" REAL NOT NULL,
  "run" INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "cast_in" INTEGER NOT NULL,
  "answer" TEXT NOT NULL /* (open asked allowed conditions refused) */,
  "asked_on" TEXT NOT NULL,
  "answered_by" TEXT NOT NULL,
  "answered_on" TEXT NOT NULL,
  "reference" TEXT NOT NULL,
  "conditions" TEXT NOT NULL) STRICT;
CREATE INDEX "sleeve_run" ON "sleeve" ("run");
CREATE TABLE "measure" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "of" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "kind" TEXT NOT NULL /* (rib level plate depth length diagonal edge) */,
  "number" INTEGER NOT NULL,
  "second" INTEGER NOT NULL,
  "at_x" REAL NOT NULL,
  "at_y" REAL NOT NULL,
  "value_mm" REAL NOT NULL,
  "by" TEXT NOT NULL,
  "on" TEXT NOT NULL,
  "note" TEXT NOT NULL) STRICT;
CREATE INDEX "measure_of" ON "measure" ("of");
CREATE TABLE "underlay" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "file" TEXT NOT NULL,
  "sha256" TEXT NOT NULL,
  "origin_x" REAL NOT NULL,
  "origin_y" REAL NOT NULL,
  "scale" REAL NOT NULL,
  "turn_deg" REAL NOT NULL,
  "opacity" REAL NOT NULL,
  "shown" INTEGER NOT NULL) STRICT;
CREATE TABLE "layout" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "room" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "inputs" TEXT NOT NULL,
  "members" TEXT NOT NULL /* (from to width depth top kind(batten primary noggin trimmer perimeter stud)) */,
  "pieces" TEXT NOT NULL /* (piece sheet length width cut locked) */,
  "corners" TEXT NOT NULL /* (piece at) */,
  "joints" TEXT NOT NULL /* (from to kind(long end movement)) */,
  "fixings" TEXT NOT NULL /* (at packer rib) */,
  "strips" TEXT NOT NULL /* (from to width) */,
  "sheets" TEXT NOT NULL /* (sheet length width) */,
  "faces" TEXT NOT NULL /* (piece sheet length width cut from to top) */,
  "marks" TEXT NOT NULL /* (at value limit kind(no-deck span stress cantilever unsupported narrow-batten long-fixing hanger light-cuts light-trimmed hatch-cuts joint-off-batten joint-at-light joint-at-hatch stagger sliver wide-field large-field lock-lost shift fixing-load field-unheld field-blocked unknown-section board-unheld)) */) STRICT;
CREATE INDEX "layout_room" ON "layout" ("room");
CREATE TABLE "hold_point" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "room" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "kind" TEXT NOT NULL /* (survey soil-test water-test conduit cables photographs close battens boards second-fix) */,
  "result" TEXT NOT NULL /* (open passed failed) */,
  "by" TEXT NOT NULL,
  "on" TEXT NOT NULL,
  "note" TEXT NOT NULL) STRICT;
CREATE INDEX "hold_point_room" ON "hold_point" ("room");
CREATE TABLE "price" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "description" TEXT NOT NULL,
  "unit" TEXT NOT NULL,
  "supplier" TEXT NOT NULL,
  "material" INTEGER NOT NULL,
  "labour" INTEGER NOT NULL,
  "waste" REAL NOT NULL,
  "length_mm" REAL NOT NULL,
  "width_mm" REAL NOT NULL,
  "centres_mm" REAL NOT NULL,
  "field_mm" REAL NOT NULL,
  "wet" TEXT NOT NULL /* (as-kind no yes) */,
  "fire_min" REAL NOT NULL,
  "lead_days" REAL NOT NULL,
  "inertia_mm4" REAL NOT NULL) STRICT;
CREATE TABLE "bulkhead" (
  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "room" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,
  "outline" TEXT NOT NULL /* (x y) */,
  "drop_mm" REAL NOT NULL,
  "frame" TEXT NOT NULL /* (hung framed) */,
  "build_up" TEXT NOT NULL,
  "note" TEXT NOT NULL) STRICT;
CREATE INDEX "bulkhead_room" ON "bulkhead" ("room");
