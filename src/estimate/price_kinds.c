/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/price_kinds.h"
#include "base/text.h"
#include <string.h>

#define CEILING SW_BILL_CEILING
#define PAINTING SW_BILL_PAINTING
#define ELECTRICAL SW_BILL_ELECTRICAL
#define PLUMBING SW_BILL_PLUMBING
#define BUILDING SW_BILL_BUILDING

static const SwPriceInfo infos[SW_N_PRICES] = {
  [SW_PRICE_BOARD] = { "board", N_("Ceiling board, whole sheets"), "no", CEILING, TRUE },
  [SW_PRICE_BATTEN] = { "batten", N_("Battens"), "m", CEILING, TRUE },
  [SW_PRICE_WALL_BATTEN] = { "wall-batten", N_("Battens along walls"), "m", CEILING, TRUE },
  [SW_PRICE_NOGGIN] = { "noggin", N_("Noggins"), "m", CEILING, TRUE },
  [SW_PRICE_TRIMMER] = { "trimmer", N_("Trimmers"), "m", CEILING, TRUE },
  [SW_PRICE_PRIMARY] = { "primary", N_("Primaries"), "m", CEILING, TRUE },
  [SW_PRICE_STUD] = { "stud", N_("Studs of bulkheads"), "m", CEILING, TRUE },
  [SW_PRICE_BEAD] = { "corner-bead", N_("Corner beads"), "m", CEILING, FALSE },
  [SW_PRICE_FIXING] = { "rib-fixing", N_("Fixings to ribs"), "no", CEILING, FALSE },
  [SW_PRICE_LONG_FIXING] = { "rib-fixing-long", N_("Longer fixings to ribs"), "no", CEILING, FALSE },
  [SW_PRICE_HANGER] = { "batten-hanger", N_("Hangers of battens"), "no", CEILING, FALSE },
  [SW_PRICE_PACKER] = { "packer", N_("Packers"), "no", CEILING, FALSE },
  [SW_PRICE_CLIP] = { "batten-clip", N_("Clips of steel battens"), "no", CEILING, FALSE },
  [SW_PRICE_SCREW] = { "board-screw", N_("Board screws"), "no", CEILING, FALSE },
  [SW_PRICE_STEEL_SCREW] = { "board-screw-steel", N_("Board screws into steel"), "no", CEILING, FALSE },
  [SW_PRICE_TAPE] = { "joint-tape", N_("Joint tape"), "m", CEILING, FALSE },
  [SW_PRICE_COMPOUND] = { "joint-compound", N_("Joint compound"), "kg", CEILING, FALSE },
  [SW_PRICE_SKIM] = { "skim-plaster", N_("Skim plaster"), "kg", CEILING, FALSE },
  [SW_PRICE_SKIMMING] = { "skimming", N_("Jointing and skimming"), "m2", CEILING, FALSE },
  [SW_PRICE_JOINTING] = { "jointing", N_("Jointing without skim"), "m2", CEILING, FALSE },
  [SW_PRICE_COVER_STRIP] = { "cover-strip", N_("Cover strips of joints"), "m", CEILING, FALSE },
  [SW_PRICE_MOVEMENT_JOINT] = { "movement-joint", N_("Movement joints"), "m", CEILING, FALSE },
  [SW_PRICE_CORNICE] = { "cornice", N_("Cornice"), "m", CEILING, FALSE },
  [SW_PRICE_ADHESIVE] = { "cornice-adhesive", N_("Cornice adhesive"), "kg", CEILING, FALSE },
  [SW_PRICE_MITRE] = { "cornice-mitre", N_("Mitres of cornice"), "no", CEILING, FALSE },
  [SW_PRICE_SHADOW_LINE] = { "shadow-line", N_("Shadow line"), "m", CEILING, FALSE },
  [SW_PRICE_INSULATION] = { "insulation", N_("Insulation above the ceiling"), "m2", CEILING, TRUE },
  [SW_PRICE_HATCH] = { "hatch", N_("Access hatches"), "no", CEILING, TRUE },
  [SW_PRICE_GRID] = { "grid", N_("Suspended grid with tiles"), "m2", CEILING, FALSE },
  [SW_PRICE_GRID_EDGE] = { "grid-edge", N_("Wall angle of suspended grid"), "m", CEILING, FALSE },
  [SW_PRICE_GRID_HANGER] = { "grid-hanger", N_("Hangers of suspended grid at ribs"), "no", CEILING, FALSE },
  [SW_PRICE_CLEAN] = { "soffit-clean", N_("Soffit cleaned and degreased"), "m2", PAINTING, FALSE },
  [SW_PRICE_ZINC_PRIMER] = { "zinc-primer", N_("Primer for zinc"), "l", PAINTING, FALSE },
  [SW_PRICE_ALKALI_PRIMER] = { "alkali-primer", N_("Alkali-resistant primer"), "l", PAINTING, FALSE },
  [SW_PRICE_FINISH] = { "finish-paint", N_("Finish paint"), "l", PAINTING, FALSE },
  [SW_PRICE_SOFFIT_COAT] = { "soffit-coat", N_("One coat on the open soffit"), "m2", PAINTING, FALSE },
  [SW_PRICE_CEILING_COAT] = { "ceiling-coat", N_("One coat on the boards"), "m2", PAINTING, FALSE },
  [SW_PRICE_CONDUIT] = { "conduit", N_("Conduit"), "m", ELECTRICAL, TRUE },
  [SW_PRICE_COUPLER] = { "conduit-coupler", N_("Conduit couplers"), "no", ELECTRICAL, TRUE },
  [SW_PRICE_CONDUIT_BEND] = { "conduit-bend", N_("Conduit bends"), "no", ELECTRICAL, TRUE },
  [SW_PRICE_SADDLE] = { "saddle", N_("Conduit saddles"), "no", ELECTRICAL, TRUE },
  [SW_PRICE_BOX] = { "draw-box", N_("Draw boxes"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_DISTRIBUTION] = { "distribution-board", N_("Distribution boards"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_WIRE] = { "wire", N_("Wire, mm²"), "m", ELECTRICAL, TRUE },
  [SW_PRICE_LIGHT] = { "downlight", N_("Downlights, by cut-out"), "no", ELECTRICAL, TRUE },
  [SW_PRICE_HOOD] = { "fire-hood", N_("Fire hoods of downlights"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_DRIVER] = { "light-driver", N_("Drivers on their own"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_SWITCH] = { "switch-point", N_("Switch points"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_OUTLET] = { "socket-point", N_("Socket outlet points"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_BOARD_POINT] = { "board-point", N_("Drops to distribution boards"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_POINT] = { "other-point", N_("Other wall points"), "no", ELECTRICAL, FALSE },
  [SW_PRICE_PIPE] = { "pipe", N_("Pipe"), "m", PLUMBING, TRUE },
  [SW_PRICE_SOCKET] = { "pipe-socket", N_("Pipe sockets and couplers"), "no", PLUMBING, TRUE },
  [SW_PRICE_PIPE_BEND] = { "pipe-bend", N_("Pipe bends"), "no", PLUMBING, TRUE },
  [SW_PRICE_JUNCTION] = { "pipe-junction", N_("Pipe junctions"), "no", PLUMBING, TRUE },
  [SW_PRICE_BRACKET] = { "pipe-bracket", N_("Pipe brackets"), "no", PLUMBING, TRUE },
  [SW_PRICE_LAGGING] = { "pipe-lagging", N_("Lagging of pipes"), "m", PLUMBING, TRUE },
  [SW_PRICE_EYE] = { "cleaning-eye", N_("Cleaning eyes"), "no", PLUMBING, TRUE },
  [SW_PRICE_VALVE] = { "valve", N_("Valves"), "no", PLUMBING, TRUE },
  [SW_PRICE_DROP_IN] = { "drop-in", N_("Drop-ins through the topping, by hole"), "no", PLUMBING, TRUE },
  [SW_PRICE_TAP] = { "tap-point", N_("Water points"), "no", PLUMBING, FALSE },
  [SW_PRICE_DUCT] = { "duct", N_("Extract duct"), "m", PLUMBING, TRUE },
  [SW_PRICE_DUCT_BEND] = { "duct-bend", N_("Duct bends"), "no", PLUMBING, TRUE },
  [SW_PRICE_DUCT_JOINT] = { "duct-joint", N_("Duct joints"), "no", PLUMBING, TRUE },
  [SW_PRICE_SLEEVE] = { "sleeve", N_("Sleeves, by hole"), "no", BUILDING, TRUE },
  [SW_PRICE_FILLER] = { "void-filler", N_("Fillers of voids over separating walls"), "no", BUILDING, TRUE },
  [SW_PRICE_PLATE] = { "plate-out", N_("Stiffener plates taken out"), "no", BUILDING, FALSE },
};

const SwPriceInfo *
sw_price_info (SwPriceKind kind)
{
  g_assert (kind < SW_N_PRICES);
  return &infos[kind];
}

/* The longest word wins: "board-screw" is a kind of its own, not a board. */
SwPriceKind
sw_price_kind_of (const char *code)
{
  SwPriceKind found = SW_N_PRICES;
  gsize longest = 0;
  for (guint i = 0; i < SW_N_PRICES; i++)
    {
      gsize n = strlen (infos[i].word);
      if (n <= longest || strncmp (code, infos[i].word, n) != 0)
        continue;
      if (infos[i].sized ? code[n] == '-' && code[n + 1] != '\0' : code[n] == '\0')
        {
          found = (SwPriceKind) i;
          longest = n;
        }
    }
  return found;
}

const char *
sw_price_size (const char *code)
{
  SwPriceKind kind = sw_price_kind_of (code);
  gsize n = kind < SW_N_PRICES ? strlen (infos[kind].word) : strlen (code);
  return code[n] == '-' ? code + n + 1 : code + n;
}

const char *
sw_bill_word (SwBill bill)
{
  static const char *const words[] = { "ceiling", "painting", "electrical", "plumbing", "building" };
  g_assert (bill < SW_N_BILLS);
  return words[bill];
}

const char *
sw_bill_text (SwBill bill)
{
  static const char *const texts[] = { N_("Ceilings"), N_("Painting"), N_("Electrical"), N_("Plumbing"), N_("Building work") };
  g_assert (bill < SW_N_BILLS);
  return texts[bill];
}

const char *
sw_price_unit_text (const char *unit)
{
  static const struct { const char *word, *text; } units[] = { { "m2", "m²" }, { "no", N_("no.") } };
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (units[i].word, unit) == 0)
      return units[i].text;
  return unit;
}
