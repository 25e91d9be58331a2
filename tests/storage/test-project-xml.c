/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-project-xml.h"

#include <string.h>

#include "storage-test.h"

#define PROJECT(content) "<cavetto version='1' unit='mm'>\n" content "</cavetto>"
#define STOCK "<blank width='50' thickness='25'/><rails count='4' length='3200'/>"
#define CUTS(content) PROJECT (STOCK "<cuts>" content "</cuts>")
#define DRAWN(content) CUTS ("<drawn><start x='0' y='0'/>" content "</drawn>")

static CavProject *
load (const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = storage_test_bytes (text);

  return cav_storage_project_from_bytes (bytes, "a.cavetto", error);
}

static CavProject *
load_good (const char *text)
{
  GError *error = NULL;
  CavProject *project = load (text, &error);

  g_assert_no_error (error);
  return project;
}

static void
assert_same_project (CavProject *a, CavProject *b)
{
  CavBlank x = cav_project_get_blank (a), y = cav_project_get_blank (b);
  g_autoptr (GBytes) shop_a = cav_storage_shop_to_bytes (cav_project_get_shop (a));
  g_autoptr (GBytes) shop_b = cav_storage_shop_to_bytes (cav_project_get_shop (b));

  g_assert_cmpstr (cav_project_get_title (a), ==, cav_project_get_title (b));
  g_assert_cmpstr (cav_project_get_notes (a), ==, cav_project_get_notes (b));
  g_assert_true (cav_project_get_wood (a) == cav_project_get_wood (b));
  g_assert_true (storage_test_same_bits (x.width, y.width));
  g_assert_true (storage_test_same_bits (x.thickness, y.thickness));
  g_assert_cmpint (cav_project_get_rails (a), ==, cav_project_get_rails (b));
  g_assert_true (storage_test_same_bits (cav_project_get_length (a), cav_project_get_length (b)));
  g_assert_cmpuint (cav_project_get_cut_count (a), ==, cav_project_get_cut_count (b));
  for (guint i = 0; i < cav_project_get_cut_count (a); i++)
    {
      const CavCut *cut_a = cav_project_get_cut (a, i), *cut_b = cav_project_get_cut (b, i);

      g_assert_true (cav_cut_equal (cut_a, cut_b));
      for (guint k = 0; k < CAV_N_CUT_NUMBERS; k++)
        g_assert_true (storage_test_same_bits (cut_a->numbers[k], cut_b->numbers[k]));
      if (cut_a->path != NULL)
        storage_test_assert_same_path (cut_a->path, cut_b->path);
    }
  g_assert_true (g_bytes_equal (shop_a, shop_b));
}

/* Written, valid by the schema, read as the same project, and written as the same bytes. */
static void
assert_round_trip (CavProject *project)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);

  storage_test_assert_valid (bytes, "project.rng");
  g_autoptr (CavProject) again = cav_storage_project_from_bytes (bytes, "again.cavetto", &error);
  g_assert_no_error (error);
  assert_same_project (project, again);
  g_autoptr (GBytes) once_more = cav_storage_project_to_bytes (again);
  g_assert_true (g_bytes_equal (bytes, once_more));
}

static void
test_fresh (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  assert_round_trip (project);
}

static void
test_texts (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_title (project, "  Ferns & <leaves>, \"A3\" 'x' ]]> \xc3\xa4\xe2\x82\xac ");
  cav_project_set_notes (project, "one\n\ttwo\r\nthree\n\n");
  assert_round_trip (project);

  cav_project_set_title (project, "   ");
  assert_round_trip (project);
}

/* What XML cannot hold is replaced, so that the file can still be read. */
static void
test_forbidden_characters (void)
{
  GError *error = NULL;
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_title (project, "a\x01z\xef\xbf\xbf\xff");
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  g_autoptr (CavProject) again = cav_storage_project_from_bytes (bytes, "again.cavetto", &error);
  g_assert_no_error (error);
  g_assert_cmpstr (cav_project_get_title (again), ==, "a\xef\xbf\xbdz\xef\xbf\xbd\xef\xbf\xbd");
}

static void
test_stock (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_blank (project, (CavBlank){ 100.0 / 3, 0.1 + 0.2 });
  cav_project_set_rails (project, 12, 1e5 / 7);
  for (guint i = 0; i < cav_wood_get_count (); i++)
    {
      cav_project_set_wood (project, cav_wood_get (i));
      assert_round_trip (project);
    }
}

/* Numbers inside the range of a kind that no decimal of few figures hits. */
static void
set_odd_numbers (CavCut *cut)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  for (guint i = 0; i < info->n_numbers; i++)
    {
      const CavCutNumberInfo *number = &info->numbers[i];

      if (number->number != CAV_CUT_COUNT)
        cut->numbers[number->number]
            = number->minimum
              + (number->maximum - number->minimum) * g_test_rand_double_range (0.01, 0.99);
    }
}

/* Every kind at every place in every form. */
static void
test_all_cuts (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  for (int kind = 0; kind < CAV_N_CUT_KINDS; kind++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)kind);

      for (guint form = 0; form < info->n_forms; form++)
        for (int place = 0; place < CAV_N_CORNERS + CAV_N_SIDES; place++)
          {
            gboolean is_corner = place < CAV_N_CORNERS;
            CavAnchorKind anchor = is_corner ? CAV_ANCHOR_CORNER : CAV_ANCHOR_SIDE;

            if ((info->anchors & (1u << anchor)) == 0)
              continue;
            g_autoptr (CavCut) cut
                = is_corner ? cav_cut_new_at_corner (info->kind, (CavCorner)place)
                            : cav_cut_new_on_side (info->kind, (CavSide)(place - CAV_N_CORNERS));
            cut->form = info->forms[form];
            set_odd_numbers (cut);
            cav_project_add_cut (project, cut);
          }
    }
  g_assert_cmpuint (cav_project_get_cut_count (project), >, 40);
  assert_round_trip (project);
}

/* Lines, arcs of circles and ellipses, turned by odd angles, moved by odd distances. */
static void
test_drawn_cut (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (1.0 / 3, 2.0 / 7));
  cav_path_line_to (path, CAV_POINT (20, 0.1));
  CavSegment arc = cav_segment_arc_from_endpoints (CAV_POINT (20, 0.1), CAV_POINT (25, 9), 7, 4, 33,
                                                   TRUE, TRUE);
  cav_path_append (path, &arc);
  arc = cav_segment_arc_from_endpoints (CAV_POINT (25, 9), CAV_POINT (10, 12), 30, 30, 0, FALSE,
                                        FALSE);
  cav_path_append (path, &arc);
  cav_path_close (path);
  for (int i = 0; i < 20; i++)
    {
      CavTransform turn = cav_transform_rotation (g_test_rand_double_range (-180, 180));
      CavTransform move = cav_transform_translation (g_test_rand_double_range (-9, 9), 1.0 / 3);
      g_autoptr (CavPath) turned = cav_path_transformed (path, cav_transform_compose (turn, move));
      g_autoptr (CavPath) reversed = cav_path_reversed (turned);
      g_autoptr (CavCut) cut = cav_cut_new_drawn (i % 2 == 0 ? turned : reversed);
      cav_project_add_cut (project, cut);
    }
  assert_round_trip (project);
}

static void
test_imported_cut (void)
{
  GError *error = NULL;
  double width, height;
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GBytes) picture = storage_test_bytes (
      "<svg width='60mm' height='20mm' viewBox='0 0 60 20'><path transform='rotate(3.3) skewX(5)' "
      "d='M5 5c9-9 20 9 30 0s7 3 9 9a7 3 20 1 1-3 1q-9 9-30 0z'/></svg>");
  g_autoptr (CavPath) path
      = cav_storage_outline_from_bytes (picture, "a.svg", &width, &height, &error);

  g_assert_no_error (error);
  g_autoptr (CavCut) cut = cav_cut_new_drawn (path);
  cav_project_add_cut (project, cut);
  assert_round_trip (project);
}

/* The least that a file must say, and what is meant by the rest. */
static void
test_least (void)
{
  g_autoptr (CavProject) project = load_good (PROJECT (STOCK));
  g_autoptr (GBytes) bytes = storage_test_bytes (PROJECT (STOCK));

  storage_test_assert_valid (bytes, "project.rng");
  g_assert_cmpstr (cav_project_get_title (project), ==, "");
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
  g_assert_null (cav_project_get_wood (project));
  g_assert_cmpuint (cav_project_get_shop (project)->cutters->len, >, 0);
}

static void
test_usual_numbers (void)
{
  g_autoptr (CavProject) project
      = load_good (CUTS ("<groove side='face' position='20' width='6' depth='3'/>"
                         "<bead corner='face-inside' width='5'/>"));
  const CavCut *groove = cav_project_get_cut (project, 0);
  const CavCut *bead = cav_project_get_cut (project, 1);
  g_autoptr (CavCut) usual = cav_cut_new (CAV_CUT_BEAD);

  g_assert_cmpint (groove->form, ==, CAV_FORM_FLAT);
  g_assert_cmpint (groove->side, ==, CAV_SIDE_FACE);
  g_assert_true (storage_test_same_bits (groove->numbers[CAV_CUT_SHIFT_X], 0));
  g_assert_cmpint (bead->form, ==, CAV_FORM_FLUSH);
  g_assert_true (storage_test_same_bits (bead->numbers[CAV_CUT_QUIRK_WIDTH],
                                         usual->numbers[CAV_CUT_QUIRK_WIDTH]));
}

/* Each is refused here and by the schema. */
static void
test_refused (void)
{
#define ARC(attributes) DRAWN ("<line x='10' y='0'/>\n<arc " attributes "/>")
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { "<cavetto/>", "a.cavetto:1: <cavetto> lacks the attribute \"version\"" },
    { "<cavetto version='1' unit='mm' a=''/>", "unknown attribute \"a\"" },
    { PROJECT (""), "a.cavetto:1: the project has no <blank>; add it" },
    { PROJECT ("<blank width='5' thickness='5'/>"), "the project has no <rails>; add it" },
    { PROJECT (STOCK "<frame/>"), "a.cavetto:2: <frame> belongs to files of version 2" },
    { PROJECT (STOCK "<lumber/>"), "a.cavetto:2: <lumber> belongs to files of version 2" },
    { PROJECT (STOCK "<hologram/>"), "a.cavetto:2: unknown element <hologram> in <cavetto>" },
    { PROJECT (STOCK "\n" STOCK), "a.cavetto:3: <blank> stands twice; keep one" },
    { PROJECT (STOCK "words"), "text in <cavetto>, where none belongs" },
    { PROJECT (STOCK "<title a=''/>"), "unknown attribute \"a\"" },
    { PROJECT (STOCK "<title>a<b/></title>"), "unknown element <b> in <title>" },
    { PROJECT (STOCK "<notes><b/></notes>"), "unknown element <b> in <notes>" },
    { PROJECT ("<blank thickness='25'/>"), "<blank> lacks the attribute \"width\"; add it" },
    { PROJECT ("<blank width='50'/>"), "<blank> lacks the attribute \"thickness\"; add it" },
    { PROJECT ("<blank width='0' thickness='25'/>"),
      "a.cavetto:2: width=\"0\" of <blank> is out of range; choose a number from 0.1 to 500" },
    { PROJECT ("<blank width='50' thickness='-25'/>"), "thickness=\"-25\" of <blank> is out of" },
    { PROJECT ("<blank width='NaN' thickness='25'/>"), "width=\"NaN\" of <blank> is not a number" },
    { PROJECT ("<blank width='5' thickness='INF'/>"), "\"INF\" of <blank> is not a number" },
    { PROJECT ("<blank width='5' thickness='5' x=''/>"), "unknown attribute \"x\"" },
    { PROJECT ("<blank width='5' thickness='5'><x/></blank>"), "unknown element <x> in <blank>" },
    { PROJECT ("<rails length='9'/>"), "<rails> lacks the attribute \"count\"" },
    { PROJECT ("<rails count='9'/>"), "<rails> lacks the attribute \"length\"" },
    { PROJECT ("<rails count='0' length='9'/>"), "count=\"0\" of <rails> is out of range" },
    { PROJECT ("<rails count='1.5' length='9'/>"), "count of <rails> is not a whole number" },
    { PROJECT ("<rails count='4' length='0'/>"), "length=\"0\" of <rails> is out of range" },
    { PROJECT ("<rails count='4' length='9' x=''/>"), "unknown attribute \"x\"" },
    { PROJECT (STOCK "<wood/>"), "<wood> lacks the attribute \"id\"" },
    { PROJECT (STOCK "<wood id='a' b=''/>"), "unknown attribute \"b\"" },
    { PROJECT (STOCK "<wood id='a'>b</wood>"), "text in <wood>" },
    { PROJECT (STOCK "<cuts a=''/>"), "unknown attribute \"a\"" },
    { PROJECT (STOCK "<shop version='1'/>"), "unknown attribute \"version\"" },
    { CUTS ("<scoop/>"), "unknown element <scoop> in <cuts>" },
    { CUTS ("<x:rabbet xmlns:x='urn:x'/>"), "unknown element <rabbet> in <cuts>" },
    { CUTS ("<rabbet width='5' depth='5'/>"), "<rabbet> needs the attribute \"corner\"" },
    { CUTS ("<groove width='5' depth='5' position='5'/>"),
      "<groove> needs the attribute \"side\"" },
    { CUTS ("<cove width='5' depth='5'/>"), "<cove> needs the attribute either \"corner\" or" },
    { CUTS ("<cove corner='back-inside' side='back' width='5' depth='5'/>"), "<cove> needs the" },
    { CUTS ("<rabbet side='back' width='5' depth='5'/>"), "unknown attribute \"side\"" },
    { CUTS ("<rabbet corner='top' width='5' depth='5'/>"), "corner=\"top\" of <rabbet> is not kn" },
    { CUTS ("<groove side='top' width='5' depth='5' position='5'/>"), "side=\"top\" of <groove>" },
    { CUTS ("<rabbet corner='back-inside' depth='5'/>"), "lacks the attribute \"width\"" },
    { CUTS ("<rabbet corner='back-inside' width='-5' depth='5'/>"), "width=\"-5\" of <rabbet>" },
    { CUTS ("<rabbet corner='back-inside' width='5' depth='5' form='plain'/>"), "\"form\"" },
    { CUTS ("<rabbet corner='back-inside' width='5' depth='5' shift-x='INF'/>"), "shift-x=" },
    { CUTS ("<rabbet corner='back-inside' width='5' depth='5'><x/></rabbet>"), "element <x> in" },
    { CUTS ("<groove side='face' position='5' width='5' depth='5' form='proud'/>"),
      "form=\"proud\" of <groove> is not known" },
    { CUTS ("<groove side='face' position='5' width='5' depth='5' form='x'/>"), "form=\"x\" of" },
    { CUTS ("<steps corner='back-inside' count='2.5' run='5' rise='5'/>"), "not a whole number" },
    { CUTS ("<drawn/>"), "<drawn> has no path; add <start>, <line> and <arc>" },
    { CUTS ("<drawn corner='back-inside'/>"), "unknown attribute \"corner\"" },
    { CUTS ("<drawn><line x='1' y='1'/></drawn>"), "the path does not begin; put <start" },
    { DRAWN (""), "<drawn> has no path" },
    { DRAWN ("<start x='0' y='0'/>"), "<start> stands twice" },
    { DRAWN ("<curve x='0' y='0'/>"), "unknown element <curve> in <drawn>" },
    { DRAWN ("<line x='0'/>"), "<line> lacks the attribute \"y\"" },
    { DRAWN ("<line y='0'/>"), "<line> lacks the attribute \"x\"" },
    { DRAWN ("<line x='0' y='1e9'/>"), "y=\"1e9\" of <line> is out of range" },
    { DRAWN ("<line x='0' y='1' z='2'/>"), "unknown attribute \"z\"" },
    { DRAWN ("<line x='0' y='1'>m</line>"), "text in <line>" },
    { ARC ("x='0' y='0'"), "<arc> lacks the attribute \"centre-x\"" },
    { ARC ("x='0' y='0' centre-x='5'"), "<arc> lacks the attribute \"centre-y\"" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0'"), "<arc> lacks the attribute \"rx\"" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='0' ry='5'"), "rx=\"0\" of <arc> is out" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='-5'"), "ry=\"-5\" of <arc> is out" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5'"), "attribute \"rotation\"" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' rotation='0'"), "\"start\"" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' rotation='0' start='0'"),
      "attribute \"sweep\"" },
    { ARC ("x='0' y='0' large='1'"), "unknown attribute \"large\"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = storage_test_bytes (rows[i].text);

      g_test_message ("%s", rows[i].text);
      g_assert_null (load (rows[i].text, &error));
      storage_test_assert_error (error, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
      g_assert_false (storage_test_is_valid (bytes, "project.rng"));
    }
}

/* What a schema cannot know. */
static void
test_refused_by_sense (void)
{
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { PROJECT (STOCK "<wood id='unobtainium'/>"),
      "a.cavetto:2: the wood \"unobtainium\" is not known; leave <wood> out or name another" },
    { PROJECT ("<blank width='501' thickness='25'/><rails count='4' length='3200'/>"),
      "width=\"501\" of <blank> is out of range" },
    { PROJECT (STOCK "<shop><blade id='a' diameter='254' kerf='3' height='200' tilt='0' bite='9' "
                     "grind='flat'/></shop>"),
      "height=\"200\" of <blade> is out of range" },
    { ARC (
          "x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' rotation='0' start='9' sweep='180'"),
      "a.cavetto:3: the ends of <arc> do not lie where its angles say" },
    { ARC ("x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' rotation='0' start='0' sweep='90'"),
      "a.cavetto:3: the ends of <arc> do not lie where its angles say" },
    { ARC (
          "x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' rotation='0' start='0' sweep='999'"),
      "sweep=\"999\" of <arc> is out of range" },
  };
#undef ARC

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", rows[i].text);
      g_assert_null (load (rows[i].text, &error));
      storage_test_assert_error (error, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

static void
test_other_kinds (void)
{
  g_autoptr (GError) kind = NULL, newer = NULL;

  g_assert_null (load ("<svg/>", &kind));
  storage_test_assert_error (kind, CAV_STORAGE_ERROR_WRONG_KIND,
                             "a.cavetto:1: not a Cavetto project: it begins with <svg>");
  /* Whatever else a newer version may have. */
  g_assert_null (load ("<cavetto version='4' unit='nm' x='y'><z/></cavetto>", &newer));
  storage_test_assert_error (newer, CAV_STORAGE_ERROR_NEWER,
                             "a.cavetto:1: this Cavetto project was "
                             "made by a newer version of Cavetto");
}

static void
test_too_many (void)
{
  g_autoptr (GString) cuts = g_string_new ("<cavetto version='1' unit='mm'>" STOCK "<cuts>");
  g_autoptr (GString) lines
      = g_string_new ("<cavetto version='1' unit='mm'>" STOCK "<cuts><drawn><start x='0' y='0'/>");
  g_autoptr (GError) cuts_error = NULL, lines_error = NULL;

  for (int i = 0; i < 1001; i++)
    g_string_append (cuts, "<rabbet corner='back-inside' width='5' depth='5'/>");
  g_string_append (cuts, "</cuts></cavetto>");
  g_assert_null (load (cuts->str, &cuts_error));
  storage_test_assert_error (cuts_error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 1000 cuts");

  for (int i = 0; i < 20001; i++)
    g_string_append_printf (lines, "<line x='%d' y='9'/>", i % 7);
  g_string_append (lines, "</drawn></cuts></cavetto>");
  g_assert_null (load (lines->str, &lines_error));
  storage_test_assert_error (lines_error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 20000 pieces");
}

/* Every project in docs/examples: valid, and read and written as the same bytes. */
static void
test_examples (void)
{
  g_autofree char *folder = g_build_filename (CAV_DOCS, "examples", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int n_examples = 0;

  g_assert_true (dir != NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      GError *error = NULL;
      g_autofree char *file = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;

      if (!g_str_has_suffix (name, ".cavetto"))
        continue;
      g_test_message ("%s", name);
      g_assert_true (g_file_get_contents (file, &text, NULL, &error));
      g_autoptr (GBytes) bytes = storage_test_bytes (text);
      storage_test_assert_valid (bytes, "project.rng");
      g_autoptr (CavProject) project = cav_storage_load_project (file, &error);
      g_assert_no_error (error);
      assert_round_trip (project);
      n_examples++;
    }
  g_assert_cmpint (n_examples, >=, 3);
}

/* Bytes of a good file changed at random: a project or a message, never anything else. */
static void
test_random_damage (void)
{
  g_autoptr (CavProject) project = load_good (
      DRAWN ("<line x='10' y='0'/><arc x='0' y='0' centre-x='5' centre-y='0' rx='5' ry='5' "
             "rotation='0' start='0' sweep='180'/>"));
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  gsize length = g_bytes_get_size (bytes);
  int n_refused = 0;

  for (int i = 0; i < 1500; i++)
    {
      g_autofree char *damaged = g_memdup2 (g_bytes_get_data (bytes, NULL), length);
      int n = g_test_rand_int_range (1, 5);

      for (int k = 0; k < n; k++)
        {
          int at = g_test_rand_int_range (0, (int)length);
          if (g_test_rand_bit ())
            damaged[at] = (char)g_test_rand_int_range (0, 256);
          else
            damaged[at] = damaged[g_test_rand_int_range (0, (int)length)];
        }
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) input = g_bytes_new (damaged, length);
      g_autoptr (CavProject) result = cav_storage_project_from_bytes (input, "a.cavetto", &error);
      g_assert_true ((result == NULL) == (error != NULL));
      if (error != NULL)
        g_assert_null (strchr (error->message, '\n'));
      n_refused += error != NULL;
    }
  g_assert_cmpint (n_refused, >, 500);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/project-xml/fresh", test_fresh);
  g_test_add_func ("/storage/project-xml/texts", test_texts);
  g_test_add_func ("/storage/project-xml/forbidden-characters", test_forbidden_characters);
  g_test_add_func ("/storage/project-xml/stock", test_stock);
  g_test_add_func ("/storage/project-xml/all-cuts", test_all_cuts);
  g_test_add_func ("/storage/project-xml/drawn-cut", test_drawn_cut);
  g_test_add_func ("/storage/project-xml/imported-cut", test_imported_cut);
  g_test_add_func ("/storage/project-xml/least", test_least);
  g_test_add_func ("/storage/project-xml/usual-numbers", test_usual_numbers);
  g_test_add_func ("/storage/project-xml/refused", test_refused);
  g_test_add_func ("/storage/project-xml/refused-by-sense", test_refused_by_sense);
  g_test_add_func ("/storage/project-xml/other-kinds", test_other_kinds);
  g_test_add_func ("/storage/project-xml/too-many", test_too_many);
  g_test_add_func ("/storage/project-xml/examples", test_examples);
  g_test_add_func ("/storage/project-xml/random-damage", test_random_damage);
  return g_test_run ();
}
