/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-lumber-xml.h"

#include <string.h>

#include "storage-test.h"

#define PROJECT(content)                                                                           \
  "<cavetto version='2' unit='mm'><blank width='50' thickness='25'/>"                              \
  "<rails count='4' length='3200'/>\n" content "</cavetto>"
#define PROJECT_3(content)                                                                         \
  "<cavetto version='3' unit='mm'><blank width='50' thickness='25'/>"                              \
  "<rails count='4' length='3200'/>\n" content "</cavetto>"
#define SIZE "length='2000' width='120' thickness='27'"

static CavProject *
load (const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = storage_test_bytes (text);

  return cav_storage_project_from_bytes (bytes, "a.cavetto", error);
}

static void
assert_round_trip (const CavLumber *lumber)
{
  GError *error = NULL;
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_lumber (project, lumber);
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  storage_test_assert_valid (bytes, "project.rng");
  g_autoptr (CavProject) again = cav_storage_project_from_bytes (bytes, "a", &error);
  g_assert_no_error (error);
  g_assert_true (cav_lumber_equal (lumber, cav_project_get_lumber (again)));
  g_autoptr (GBytes) once_more = cav_storage_project_to_bytes (again);
  g_assert_true (g_bytes_equal (bytes, once_more));
}

static double
draw (double most)
{
  return g_test_rand_double_range (0.0, most);
}

static CavBoard *
create_board (void)
{
  CavBoard *board = cav_board_new ();

  g_free (board->name);
  board->name = g_strdup (g_test_rand_bit () ? "ash \"3\" & <x>" : "");
  g_free (board->wood);
  board->wood = g_strdup (g_test_rand_bit () ? "ash-white" : "");
  board->count = g_test_rand_int_range (0, 50);
  board->length = 1.0 + draw (4000.0);
  board->width = 1.0 + draw (300.0);
  board->thickness = 1.0 + draw (80.0);
  board->planed = g_test_rand_bit ();
  board->price = draw (100.0);
  board->basis = (CavPriceBasis)g_test_rand_int_range (0, CAV_N_PRICE_BASES);
  board->end_trim = draw (50.0);
  for (int i = g_test_rand_int_range (0, 3); i > 0; i--)
    {
      CavBoardSpan span = { .clear = g_test_rand_bit (), .from = draw (500.0), .low = draw (50.0) };

      span.to = span.from + 1.0 + draw (200.0);
      span.high = span.low + draw (50.0);
      cav_board_add_span (board, span);
    }
  return board;
}

static CavBoardJob *
create_joined (void)
{
  g_autoptr (CavLumber) usual = cav_lumber_new ();
  const double width = 1.0 + draw (80.0);
  CavBoardJob *job = cav_board_job_new (usual, g_test_rand_bit () ? "<A> & 3" : "", width,
                                        1.0 + draw (40.0), width * draw (1.0));
  CavBoardPin pin = { .frame = 1, .rail = 2, .from = draw (900.0) };

  g_free (job->file);
  job->file = g_strdup (g_test_rand_bit () ? "../ferns/a \"3\".cavetto" : "");
  g_free (job->wood);
  job->wood = g_strdup (g_test_rand_bit () ? "ash-white" : "");
  job->mitre = draw (75.0);
  job->n_rails = g_test_rand_int_range (1, CAV_JOB_MAX_RAILS + 1);
  for (int i = 0; i < job->n_rails; i++)
    job->long_points[i] = 1.0 + draw (1000.0);
  job->frames = g_test_rand_int_range (1, 100);
  job->order = (CavGrainOrder)g_test_rand_int_range (0, CAV_N_GRAIN_ORDERS);
  job->run_start = g_test_rand_int_range (0, 4);
  job->square_first = g_test_rand_bit ();
  job->square_extra = draw (50.0);
  job->spare = draw (500.0);
  job->test = draw (500.0);
  if (g_test_rand_bit ())
    g_array_append_val (job->pins, pin);
  return job;
}

static CavLumber *
create_lumber (void)
{
  CavLumber *lumber = cav_lumber_new ();

  lumber->frames = g_test_rand_int_range (1, 100);
  lumber->order = (CavGrainOrder)g_test_rand_int_range (0, CAV_N_GRAIN_ORDERS);
  lumber->run_start = g_test_rand_int_range (0, 4);
  lumber->kerf = draw (5.0);
  lumber->jointing = draw (5.0);
  lumber->strip_extra = draw (5.0);
  lumber->planing = draw (5.0);
  lumber->resaw = g_test_rand_bit ();
  lumber->resaw_kerf = draw (5.0);
  lumber->resaw_planing = draw (5.0);
  lumber->glue_up = g_test_rand_bit ();
  lumber->square_first = g_test_rand_bit ();
  lumber->square_extra = draw (50.0);
  lumber->spare = draw (500.0);
  lumber->test = draw (500.0);
  lumber->shortest = draw (500.0);
  lumber->useful = draw (500.0);
  for (int i = g_test_rand_int_range (0, 4); i > 0; i--)
    g_ptr_array_add (lumber->boards, create_board ());
  for (int i = g_test_rand_int_range (0, 4); i > 0; i--)
    g_ptr_array_add (lumber->stock, create_board ());
  for (int i = g_test_rand_int_range (0, 4); i > 0; i--)
    {
      CavBoardPin pin = { i, i + 1, i + 2, i + 3, i + 4, i + 5, draw (1000.0) };

      g_array_append_val (lumber->pins, pin);
    }
  for (int i = g_test_rand_int_range (0, 3); i > 0; i--)
    g_ptr_array_add (lumber->joined, create_joined ());
  return lumber;
}

static void
test_random (void)
{
  for (int i = 0; i < 60; i++)
    {
      g_autoptr (CavLumber) lumber = create_lumber ();

      assert_round_trip (lumber);
    }
}

/* Usual lumber needs no element, and what is left out is usual. */
static void
test_usual (void)
{
  GError *error = NULL;
  g_autoptr (CavLumber) usual = cav_lumber_new ();
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  g_autoptr (CavProject) empty = load (PROJECT ("<lumber/>"), &error);
  g_autoptr (CavProject) row = load (PROJECT ("<lumber><board " SIZE "/></lumber>"), &error);
  const CavBoard *board;

  g_assert_no_error (error);
  g_assert_null (strstr (g_bytes_get_data (bytes, NULL), "<lumber"));
  g_assert_true (cav_lumber_equal (usual, cav_project_get_lumber (empty)));
  g_assert_cmpuint (cav_project_get_lumber (row)->boards->len, ==, 1);
  board = g_ptr_array_index (cav_project_get_lumber (row)->boards, 0);
  g_assert_cmpint (board->count, ==, 1);
  g_assert_cmpfloat_with_epsilon (board->width, 120.0, 1e-12);
  g_assert_cmpint (board->basis, ==, CAV_PRICE_UNKNOWN);
}

static void
test_errors (void)
{
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { PROJECT ("<lumber frames='0'/>"), "a.cavetto:2: frames=\"0\" of <lumber> is out of range" },
    { PROJECT ("<lumber frames='1.5'/>"), "frames of <lumber> is not a whole number" },
    { PROJECT ("<lumber order='random'/>"), "order=\"random\" of <lumber> is not known" },
    { PROJECT ("<lumber kerf='-1'/>"), "kerf=\"-1\" of <lumber> is out of range" },
    { PROJECT ("<lumber resaw='1'/>"), "neither \"yes\" nor \"no\"" },
    { PROJECT ("<lumber wood='oak'/>"), "unknown attribute \"wood\"" },
    { PROJECT ("<lumber><plank/></lumber>"), "unknown element <plank> in <lumber>" },
    { PROJECT ("<lumber><board width='1' thickness='9'/></lumber>"), "lacks the attribute" },
    { PROJECT ("<lumber><board length='0' width='1' thickness='9'/></lumber>"), "out of range" },
    { PROJECT ("<lumber><board " SIZE " count='-1'/></lumber>"), "count=\"-1\" of <board>" },
    { PROJECT ("<lumber><board " SIZE " basis='stone'/></lumber>"), "basis=\"stone\"" },
    { PROJECT ("<lumber><board " SIZE " price='-3'/></lumber>"), "price=\"-3\"" },
    { PROJECT ("<lumber><board " SIZE "><defect from='9' to='5'/></board></lumber>"),
      "ends before it begins" },
    { PROJECT ("<lumber><board " SIZE "><defect to='5'/></board></lumber>"), "\"from\"" },
    { PROJECT ("<lumber><board " SIZE "><knot from='1' to='5'/></board></lumber>"),
      "unknown element <knot> in <board>" },
    { PROJECT ("<lumber><pin frame='0'/></lumber>"), "<pin> lacks the attribute \"from\"" },
    { PROJECT ("<lumber><pin from='5' rail='-1'/></lumber>"), "rail=\"-1\" of <pin>" },
    { PROJECT ("<lumber/><lumber/>"), "<lumber> stands twice" },
    { PROJECT ("<lumber><joined width='50' thickness='25'><rail length='500'/></joined></lumber>"),
      "<joined> belongs to files of version 3" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25'/></lumber>"),
      "between 1 and 24 rails" },
    { PROJECT_3 ("<lumber><joined width='50'><rail length='500'/></joined></lumber>"),
      "<joined> lacks the attribute \"thickness\"" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25'><rail/></joined></lumber>"),
      "<rail> lacks the attribute \"length\"" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25'><rail length='0'/></joined></lumber>"),
      "length=\"0\" of <rail> is out of range" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25' face='60'><rail length='500'/></joined>"
                 "</lumber>"),
      "wider than its blank" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25' order='odd'/></lumber>"),
      "order=\"odd\" of <joined> is not known" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25'><leg/></joined></lumber>"),
      "unknown element <leg> in <joined>" },
    { PROJECT_3 ("<lumber><joined width='50' thickness='25' shop='x'/></lumber>"),
      "unknown attribute \"shop\"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavProject) project = load (rows[i].text, &error);

      g_test_message ("%s", rows[i].text);
      g_assert_null (project);
      storage_test_assert_error (error, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

static void
test_too_many (void)
{
  g_autoptr (GString) text = g_string_new ("<lumber>");
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < 1001; i++)
    g_string_append (text, "<board " SIZE "/>");
  g_string_append (text, "</lumber>");
  g_autofree char *whole = g_strdup_printf (PROJECT ("%s"), text->str);
  g_autoptr (CavProject) project = load (whole, &error);
  g_assert_null (project);
  storage_test_assert_error (error, CAV_STORAGE_ERROR_TOO_LARGE, "more than 1000 elements <board>");
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/lumber-xml/random", test_random);
  g_test_add_func ("/storage/lumber-xml/usual", test_usual);
  g_test_add_func ("/storage/lumber-xml/errors", test_errors);
  g_test_add_func ("/storage/lumber-xml/too-many", test_too_many);
  return g_test_run ();
}
