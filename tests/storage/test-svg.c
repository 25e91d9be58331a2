/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg.h"

#include <math.h>
#include <string.h>

#include "storage-test.h"
#include "storage/cav-number.h"

/* A picture of 60 x 20 mm whose user unit is a millimetre. */
#define PAGE(content)                                                                              \
  "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='20mm' viewBox='0 0 60 "            \
  "20'>" content "</svg>"

static CavPath *
load (const char *text, GError **error)
{
  double width = -1, height = -1;
  g_autoptr (GBytes) bytes = storage_test_bytes (text);

  return cav_storage_outline_from_bytes (bytes, "a.svg", &width, &height, error);
}

static CavPath *
load_good (const char *text)
{
  GError *error = NULL;
  CavPath *path = load (text, &error);

  g_assert_no_error (error);
  g_assert_true (cav_path_is_closed (path));
  return path;
}

static void
assert_refused (const char *text, CavStorageError code, const char *part)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (load (text, &error));
  storage_test_assert_error (error, code, part);
}

/* Area and box are enough to tell the shapes below apart. */
static void
assert_shape (const char *text, double area, CavBox box, double tolerance)
{
  g_autoptr (CavPath) path = load_good (text);
  CavBox bounds = cav_path_get_bounds (path);

  g_test_message ("%s", text);
  g_assert_cmpfloat_with_epsilon (fabs (cav_path_get_signed_area (path)), area, tolerance);
  g_assert_cmpfloat_with_epsilon (bounds.x0, box.x0, tolerance);
  g_assert_cmpfloat_with_epsilon (bounds.y0, box.y0, tolerance);
  g_assert_cmpfloat_with_epsilon (bounds.x1, box.x1, tolerance);
  g_assert_cmpfloat_with_epsilon (bounds.y1, box.y1, tolerance);
}

/* Each command against the same shape by others. Areas of Bezier pieces are by the integral of
 * the curve: under a quadratic with control height h over width w it is w h / 3. */
static void
test_commands (void)
{
  static const struct
  {
    const char *data;
    double area;
    CavBox box;
  } rows[] = {
    { "M10 5L30 5L30 15L10 15Z", 200, { 10, 5, 30, 15 } },
    { "m10 5l20 0l0 10l-20 0z", 200, { 10, 5, 30, 15 } },
    { "M10,5,30,5,30,15,10,15Z", 200, { 10, 5, 30, 15 } },
    { "m10,5,20,0,0,10-20,0z", 200, { 10, 5, 30, 15 } },
    { "M10 5H30V15H10Z", 200, { 10, 5, 30, 15 } },
    { "M10 5h20v10h-20v-10", 200, { 10, 5, 30, 15 } },
    { "M10 5h5 15v4 6H20 10z", 200, { 10, 5, 30, 15 } },
    { "M1e1+5h20v1.0e1h-.2e2z", 200, { 10, 5, 30, 15 } },
    { " M 10 , 5 H\t30 V\n15 H 10 \rz ", 200, { 10, 5, 30, 15 } },
    { "M0 0H5M10 5H30V15H10Z", 0, { 0, 0, 0, 0 } }, /* two outlines, see below */
    { "M0 0M10 5H30V15H10Z", 200, { 10, 5, 30, 15 } },
    { "M10 5H30V15H10ZM1 1", 200, { 10, 5, 30, 15 } },
    { "M10 5H30V15H10ZM1 1z", 200, { 10, 5, 30, 15 } },
    { "M10 15Q20 5 30 15Z", 200.0 / 3, { 10, 10, 30, 15 } },
    { "M10 15q10-10 20 0z", 200.0 / 3, { 10, 10, 30, 15 } },
    { "M10 10Q15 5 20 10T30 10V20H10Z", 200, { 10, 7.5, 30, 20 } },
    { "M10 10q5-5 10 0t10 0v10h-20z", 200, { 10, 7.5, 30, 20 } },
    { "M10 10T20 10 30 10V20H10Z", 200, { 10, 10, 30, 20 } },
    { "M10 15C10 5 30 5 30 15Z", 120, { 10, 7.5, 30, 15 } },
    { "M10 15c0-10 20-10 20 0z", 120, { 10, 7.5, 30, 15 } },
    { "M10 10C10 5 20 5 20 10S30 15 30 10V20H10Z", 200, { 10, 6.25, 30, 20 } },
    { "M10 10c0-5 10-5 10 0s10 5 10 0v10h-20z", 200, { 10, 6.25, 30, 20 } },
    { "M10 15S30 5 30 15Z", 60, { 10, 15 - 10 * 4.0 / 9, 30, 15 } },
    { "M10 10A10 10 0 0 1 30 10Z", 50 * G_PI, { 10, 0, 30, 10 } },
    { "M10 10a10 10 0 0 0 20 0z", 50 * G_PI, { 10, 10, 30, 20 } },
    { "M10 10a10 5 0 0120 0z", 25 * G_PI, { 10, 5, 30, 10 } },
    { "M10 10a10,5,0,1,1,20,0,10,5,0,1,1-20,0z", 50 * G_PI, { 10, 5, 30, 15 } },
    { "M10 10a1 1 0 0120 0z", 50 * G_PI, { 10, 0, 30, 10 } }, /* too small: grown, F.6.6 */
    { "M10 10a-10-5 0 0120 0z", 25 * G_PI, { 10, 5, 30, 10 } },
    { "M20 5A5 10 90 0 1 20 15V10z", 25 * G_PI, { 20, 5, 30, 15 } },
    { "M10 5a0 9 0 0 1 20 0v10a9 0 0 0 1-20 0z", 200, { 10, 5, 30, 15 } },
    { "M10 5a1 1e-320 50 0 1 20 0v10a9 1e-9 0 0 1-20 0z", 200, { 10, 5, 30, 15 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("<path d='%s'/>"), rows[i].data);

      if (rows[i].area > 0)
        assert_shape (text, rows[i].area, rows[i].box, 0.05);
      else
        assert_refused (text, CAV_STORAGE_ERROR_CONTENT, "2 outlines");
    }
}

/* After z, a new outline begins where the old one did. */
static void
test_current_point (void)
{
  assert_refused (PAGE ("<path d='M10 5h20v10zh5v5z'/>"), CAV_STORAGE_ERROR_CONTENT, "2 outlines");
  assert_shape (PAGE ("<path d='M10 5zm20 5h5v5z'/>"), 12.5, (CavBox){ 30, 10, 35, 15 }, 1e-9);
}

static void
test_arcs_stay_arcs (void)
{
  g_autoptr (CavPath) path
      = load_good (PAGE ("<path transform='translate(1 2) rotate(90) scale(2 1)' "
                         "d='M0-5a5 5 0 0 1 0-10z'/>"));
  const CavSegment *arc = cav_path_get_segment (path, 0);

  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  g_assert_cmpint (arc->kind, ==, CAV_SEGMENT_ARC);
  g_assert_cmpfloat_with_epsilon (fmax (arc->rx, arc->ry), 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (fmin (arc->rx, arc->ry), 5, 1e-9);
  g_assert_cmpfloat_with_epsilon (arc->centre.x, 11, 1e-9);
  g_assert_cmpfloat_with_epsilon (arc->centre.y, 2, 1e-9);
}

static void
test_huge_arc (void)
{
  /* A radius of 10 km over 40 mm: 0.02 mm of rise, which must not be lost. */
  g_autoptr (CavPath) path
      = load_good (PAGE ("<path d='M0 5A10000000 10000000 0 0 1 40 5V15H0z'/>"));
  g_assert_cmpfloat_with_epsilon (fabs (cav_path_get_signed_area (path)), 400, 0.1);

  g_autoptr (CavPath) flat = load_good (PAGE ("<path d='M0 5A150000 150000 0 0 1 40 5V15H0z'/>"));
  g_assert_cmpfloat_with_epsilon (cav_path_get_bounds (flat).y0, 5 - 40.0 * 40 / 8 / 150000, 1e-4);
}

static void
test_transforms (void)
{
#define BOX "<path d='M0 0h10v5h-10z'/>"
  static const struct
  {
    const char *content;
    double area;
    CavBox box;
  } rows[] = {
    { "<g transform='translate(5,6)'>" BOX "</g>", 50, { 5, 6, 15, 11 } },
    { "<g transform='translate(5)'>" BOX "</g>", 50, { 5, 0, 15, 5 } },
    { "<g transform='scale(2)'>" BOX "</g>", 200, { 0, 0, 20, 10 } },
    { "<g transform='scale(2 3)'>" BOX "</g>", 300, { 0, 0, 20, 15 } },
    { "<g transform='scale(-1,1)'>" BOX "</g>", 50, { -10, 0, 0, 5 } },
    { "<g transform='rotate(90)'>" BOX "</g>", 50, { -5, 0, 0, 10 } },
    { "<g transform='rotate(90,10,5)'>" BOX "</g>", 50, { 10, -5, 15, 5 } },
    { "<g transform='skewX(45)'>" BOX "</g>", 50, { 0, 0, 15, 5 } },
    { "<g transform='skewY(45)'>" BOX "</g>", 50, { 0, 0, 10, 15 } },
    { "<g transform='matrix(2 0 0 1 3 4)'>" BOX "</g>", 100, { 3, 4, 23, 9 } },
    { "<g transform=' translate(5,6) , scale(2) '>" BOX "</g>", 200, { 5, 6, 25, 16 } },
    { "<g transform='scale(2)translate(5,6)'>" BOX "</g>", 200, { 10, 12, 30, 22 } },
    { "<g transform='translate(1,1)'><a transform='scale(2)'><switch>" BOX "</switch></a></g>",
      200,
      { 1, 1, 21, 11 } },
    { "<g transform='scale(2)'><path transform='translate(1,1)' d='M0 0h10v5h-10z'/></g>",
      200,
      { 2, 2, 22, 12 } },
    { "<g transform=''>" BOX "</g>", 50, { 0, 0, 10, 5 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("%s"), rows[i].content);
      assert_shape (text, rows[i].area, rows[i].box, 1e-9);
    }
}

static void
test_wrong_transforms (void)
{
  static const char *const wrong[]
      = { "translate", "translate(", "translate(1", "translate()",  "translate(1 2 3)",
          "scale(0)",  "scale(1 0)", "rotate(1,2)", "skewX(90)",    "matrix(1 2 3 4 5)",
          "turn(5)",   "5",          "rotate(x)",   "scale(1e300)", "matrix(1 2 3 4 5 6 7)",
          "scale(1) )" };

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("<g transform='%s'>" BOX "</g>"), wrong[i]);

      g_test_message ("%s", wrong[i]);
      assert_refused (text, CAV_STORAGE_ERROR_CONTENT, "of <g> cannot be used");
    }
#undef BOX
}

static void
test_shapes (void)
{
  static const struct
  {
    const char *content;
    double area;
    CavBox box;
  } rows[] = {
    { "<rect x='5' y='6' width='20' height='10'/>", 200, { 5, 6, 25, 16 } },
    { "<rect width='2cm' height='10mm'/>",
      200 * 96 * 96 / 25.4 / 25.4,
      { 0, 0, 20 * 96 / 25.4, 10 * 96 / 25.4 } },
    { "<rect width='20' height='10' rx='2'/>", 200 - (4 - G_PI) * 4, { 0, 0, 20, 10 } },
    { "<rect width='20' height='10' ry='2'/>", 200 - (4 - G_PI) * 4, { 0, 0, 20, 10 } },
    { "<rect width='20' height='10' rx='3' ry='2'/>", 200 - (4 - G_PI) * 6, { 0, 0, 20, 10 } },
    { "<rect width='20' height='10' rx='99' ry='99'/>", 50 * G_PI, { 0, 0, 20, 10 } },
    { "<rect width='20' height='10' rx='3' ry='0'/>", 200, { 0, 0, 20, 10 } },
    { "<circle cx='10' cy='9' r='5'/>", 25 * G_PI, { 5, 4, 15, 14 } },
    { "<ellipse cx='10' cy='9' rx='5' ry='3'/>", 15 * G_PI, { 5, 6, 15, 12 } },
    { "<polygon points='0,0 10,0 10,5 0,5'/>", 50, { 0, 0, 10, 5 } },
    { "<polyline points='0 0,10 0,10 5,0 5 0 0'/>", 50, { 0, 0, 10, 5 } },
    /* What draws nothing is passed over. */
    { "<rect width='0' height='9'/><circle r='0'/><ellipse rx='3'/><path/><path d=''/><polygon/>"
      "<polygon points='1 1'/><line/>"
      "<path d='M1 2'/><rect width='20' height='10'/>",
      200,
      { 0, 0, 20, 10 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("%s"), rows[i].content);
      assert_shape (text, rows[i].area, rows[i].box, 1e-6);
    }
  assert_refused (PAGE ("<rect width='x' height='9'/>"), CAV_STORAGE_ERROR_CONTENT,
                  "a.svg:1: width=\"x\" of <rect> is not a length");
  assert_refused (PAGE ("<rect width='1e99' height='9'/>"), CAV_STORAGE_ERROR_CONTENT, "length");
  assert_refused (PAGE ("<circle r='5%'/>"), CAV_STORAGE_ERROR_CONTENT, "r=\"5%\" of <circle>");
  assert_refused (PAGE ("<ellipse rx='1' ry='em'/>"), CAV_STORAGE_ERROR_CONTENT, "of <ellipse>");
  assert_refused (PAGE ("<line x1='?'/>"), CAV_STORAGE_ERROR_CONTENT, "of <line>");
  assert_refused (PAGE ("<line x2='5'/>"), CAV_STORAGE_ERROR_CONTENT, "gap of 5 mm");
  assert_refused (PAGE ("<line x2='5e8'/>"), CAV_STORAGE_ERROR_CONTENT, "100 m");
  assert_refused (PAGE ("<polygon points='1 2 3'/>"), CAV_STORAGE_ERROR_CONTENT, "pairs");
  assert_refused (PAGE ("<polygon points='1 2 x'/>"), CAV_STORAGE_ERROR_CONTENT, "pairs");
  assert_refused (PAGE ("<polygon points='1 2 1e9 2'/>"), CAV_STORAGE_ERROR_CONTENT, "100 m");
}

/* What is hidden, or only defined, is no outline. */
static void
test_hidden (void)
{
#define HERE "<path d='M0 0h10v5h-10z'/>"
  static const char *const pictures[] = {
    "<defs>" HERE "</defs>",
    "<symbol>" HERE "</symbol>",
    "<clipPath>" HERE "</clipPath>",
    "<marker>" HERE "</marker>",
    "<pattern>" HERE "</pattern>",
    "<metadata>" HERE "</metadata>",
    "<g display='none'>" HERE "</g>",
    "<g style='fill: red; display : none'>" HERE "</g>",
    "<g visibility='hidden'>" HERE "</g>",
    "<g style='visibility:hidden'>" HERE "</g>",
    "<g style='visibility:collapse'>" HERE "</g>",
    "<text>x<tspan>y</tspan></text><image/><title>t</title><desc>d</desc><style>s</style>",
    "<use visibility='hidden'/>",
    "<x:path xmlns:x='urn:other' d='M0 0h10v5h-10z'/>",
    "stray text <!-- and a comment -->",
  };

  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      g_autofree char *none = g_strdup_printf (PAGE ("%s"), pictures[i]);
      g_autofree char *one = g_strdup_printf (PAGE ("%s<path d='M5 5h7v2h-7z'/>"), pictures[i]);

      assert_refused (none, CAV_STORAGE_ERROR_CONTENT, "no outline in the picture");
      assert_shape (one, 14, (CavBox){ 5, 5, 12, 7 }, 1e-9);
    }
  assert_shape (PAGE ("<g visibility='hidden'><g visibility='inherit'><path visibility='visible' "
                      "d='M5 5h7v2h-7z'/></g></g>"),
                14, (CavBox){ 5, 5, 12, 7 }, 1e-9);
  assert_shape (PAGE ("<g visibility='hidden'><path style='visibility:visible' "
                      "d='M5 5h7v2h-7z'/></g>"),
                14, (CavBox){ 5, 5, 12, 7 }, 1e-9);
#undef HERE
}

static void
test_sizes (void)
{
  static const struct
  {
    const char *attributes;
    double width, height; /* mm */
    CavBox box;           /* of a path from 0, 0 to 10, 5 */
  } rows[] = {
    { "width='60mm' height='20mm' viewBox='0 0 60 20'", 60, 20, { 0, 0, 10, 5 } },
    { "width='6cm' height='2cm' viewBox='0 0 60 20'", 60, 20, { 0, 0, 10, 5 } },
    { "width='2in' height='1in' viewBox='0 0 2 1'", 50.8, 25.4, { 0, 0, 254, 127 } },
    { "width='96px' height='192px'", 25.4, 50.8, { 0, 0, 10 * 25.4 / 96, 5 * 25.4 / 96 } },
    { "width='72pt' height='6pc'", 25.4, 25.4, { 0, 0, 10 * 25.4 / 96, 5 * 25.4 / 96 } },
    { "width=' 60mm ' height='20 mm'", 60, 20, { 0, 0, 10 * 25.4 / 96, 5 * 25.4 / 96 } },
    { "width='60mm' height='20mm' viewBox='-5,-5 60 20'", 60, 20, { 5, 5, 15, 10 } },
    { "width='60mm' height='20mm' viewBox=' 0,0 , 120,40 '", 60, 20, { 0, 0, 5, 2.5 } },
    /* The box keeps its shape and stands in the middle, unless it is said otherwise. */
    { "width='60mm' height='20mm' viewBox='0 0 20 20'", 60, 20, { 20, 0, 30, 5 } },
    { "width='60mm' height='40mm' viewBox='0 0 60 20'", 60, 40, { 0, 10, 10, 15 } },
    { "width='60mm' height='20mm' viewBox='0 0 20 20' preserveAspectRatio='none'",
      60,
      20,
      { 0, 0, 30, 5 } },
    { "width='60mm' height='20mm' viewBox='0 0 20 20' preserveAspectRatio='xMinYMin'",
      60,
      20,
      { 0, 0, 10, 5 } },
    { "width='60mm' height='20mm' viewBox='0 0 20 20' preserveAspectRatio='xMaxYMid meet'",
      60,
      20,
      { 40, 0, 50, 5 } },
    { "width='60mm' height='20mm' viewBox='0 0 20 20' preserveAspectRatio='xMidYMax slice'",
      60,
      20,
      { 0, -40, 30, -25 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GError *error = NULL;
      double width, height;
      g_autofree char *text
          = g_strdup_printf ("<svg %s><path d='M0 0H10V5H0z'/></svg>", rows[i].attributes);
      g_autoptr (GBytes) bytes = storage_test_bytes (text);
      g_autoptr (CavPath) path
          = cav_storage_outline_from_bytes (bytes, "a.svg", &width, &height, &error);

      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (width, rows[i].width, 1e-9);
      g_assert_cmpfloat_with_epsilon (height, rows[i].height, 1e-9);
      assert_shape (text, (rows[i].box.x1 - rows[i].box.x0) * (rows[i].box.y1 - rows[i].box.y0),
                    rows[i].box, 1e-9);
    }
}

static void
test_wrong_sizes (void)
{
  static const struct
  {
    const char *attributes;
    const char *part;
  } rows[] = {
    { "", "a.svg:1: the picture has no width, so that its size is not known; set width and height "
          "in millimetres" },
    { "width='60mm'", "has no height" },
    { "width='60' height='20'", "width is \"60\", without a unit of length; set width and height" },
    { "width='60mm' height='20'", "height is \"20\", without a unit" },
    { "width='100%' height='100%'", "width is \"100%\", without a unit" },
    { "width='5em' height='5em'", "without a unit" },
    { "width='' height='5mm'", "without a unit" },
    { "width='NaNmm' height='5mm'", "without a unit" },
    { "width='1e308cm' height='5mm'", "without a unit" },
    { "width='0mm' height='5mm'", "which no molding has" },
    { "width='-5mm' height='5mm'", "which no molding has" },
    { "width='5mm' height='1e9mm'", "which no molding has" },
    { "width='5mm' height='5mm' viewBox='0 0 5'", "viewBox=\"0 0 5\" is not left, top" },
    { "width='5mm' height='5mm' viewBox='0 0 0 5'", "viewBox" },
    { "width='5mm' height='5mm' viewBox='0 0 5 5 5'", "viewBox" },
    { "width='5mm' height='5mm' viewBox='0 0 5 -5'", "viewBox" },
    { "width='5mm' height='5mm' viewBox='1e12 0 5 5'", "viewBox" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("<svg %s><path d='M0 0H10V5H0z'/></svg>", rows[i].attributes);
      assert_refused (text, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

static void
test_wrong_paths (void)
{
  static const struct
  {
    const char *data;
    const char *part;
  } rows[] = {
    { "M0 0H5V5", "a.svg:2: the path does not close: a gap of 7.07 mm from its end at (5, 5)" },
    { "L5 5", "a.svg:2: path data broken at character 1: a path begins with M" },
    { "5 5", "broken at character 1: no command of a path" },
    { "M0 0L", "broken at character 6: a number is missing" },
    { "M0 0L5", "broken at character 7: a number is missing" },
    { "M0 0L5 5 5", "broken at character 11: a number is missing" },
    { "M0 0L5 x", "broken at character 8: a number is missing" },
    { "M0 0X5 5", "broken at character 5: no command of a path" },
    { "M0 0z5 5", "broken at character 6: no command of a path" },
    { "M0 0A5 5 0 2 0 9 9", "broken at character 12: an arc's flag is neither 0 nor 1" },
    { "M0 0A5 5 0 1 x 9 9", "broken at character 14: an arc's flag is neither 0 nor 1" },
    { "M0 0L5e9 5", "broken at character 9: the number before it is too large" },
    { "M0 0LNaN 5", "a number is missing" },
    { "M0 0LInf 5", "a number is missing" },
    { "M0 0L1e999 5", "a number is missing" },
    { "M0 0L200000 5L7 9z", "farther than 100 m" },
    { "M200000 0L5 5L7 9z", "farther than 100 m" },
    { "M0 0C1 1 2 2 200000 5z", "farther than 100 m" },
    { "M0 0C1 1 200000 2 3 5z", "farther than 100 m" },
    { "M0 0A1 1 0 0 0 200000 5z", "farther than 100 m" },
    { "M0 0H10z", "encloses nothing" },
    { "M0 0H10H0", "encloses nothing" },
    { "M0 0h1e-5v1e-5z", "encloses nothing" },
    { "M0 0C10 10 10 10 0 0z", "encloses nothing" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("\n<path d='%s'/>"), rows[i].data);
      assert_refused (text, CAV_STORAGE_ERROR_CONTENT, rows[i].part);
    }
}

static void
test_wrong_pictures (void)
{
  assert_refused ("<html/>", CAV_STORAGE_ERROR_WRONG_KIND, "a.svg:1: not an SVG picture");
  assert_refused ("<svg xmlns='urn:other'/>", CAV_STORAGE_ERROR_WRONG_KIND, "not an SVG picture");
  assert_refused ("<svg", CAV_STORAGE_ERROR_NOT_XML, "a.svg:1:");
  assert_refused (PAGE ("\n<use/>"), CAV_STORAGE_ERROR_CONTENT, "a.svg:2: <use> inside");
  assert_refused (PAGE ("<g>\n<svg/></g>"), CAV_STORAGE_ERROR_CONTENT, "a.svg:2: <svg> inside");
  assert_refused (PAGE ("<path d='M1 1h5v5z'/>\n<path d='M1 1h5v5z'/>\n<path d='M1 1h5'/>"),
                  CAV_STORAGE_ERROR_CONTENT,
                  "a.svg:2: 3 outlines in the picture; combine them into one closed path");
}

/* Ends that rounding has left apart count as closed, and leave no sliver behind. */
static void
test_almost_closed (void)
{
  static const struct
  {
    const char *data;
    guint n_segments;
  } rows[] = {
    { "M0 0H10V5H0V0.004", 4 },
    { "M0 0H10V5H0V0.004z", 4 },
    { "M0 0H10V5H0z", 4 },
    { "M0 0H10V5H0V0z", 4 },
    { "M0 0H10V5A5 5 0 0 0 0 0.0003", 3 },
    { "M0 0H10V5A5 5 0 0 0 0 0.0003z", 3 },
    { "M0 0H10V5A5 5 0 0 0 0 0.007z", 4 },
    { "M0 0H10V5A5 5 0 0 0 0 0.007", 4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (PAGE ("<path d='%s'/>"), rows[i].data);
      g_autoptr (CavPath) path = load_good (text);

      g_test_message ("%s", rows[i].data);
      g_assert_cmpuint (cav_path_get_segment_count (path), ==, rows[i].n_segments);
    }
}

/* Many points: up to a limit they are read, above it they are refused at once. */
static void
test_many_points (void)
{
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autoptr (GString) curves = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (int i = 0; i < 15000; i++)
    {
      cav_number_append_rounded (lines, 30 + 9 * cos (2 * G_PI * i / 15000), 6);
      g_string_append_c (lines, ',');
      cav_number_append_rounded (lines, 10 + 9 * sin (2 * G_PI * i / 15000), 6);
      g_string_append_c (lines, ' ');
    }
  text = g_strdup_printf (PAGE ("<path d='M%sz'/>"), lines->str);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPath) path = load (text, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (cav_path_get_segment_count (path), >=, 14999);
  g_free (text);

  for (int i = 0; i < 985000; i++)
    g_string_append_printf (lines, "%d,%d ", i % 9, i % 7);
  text = g_strdup_printf (PAGE ("<path d='M%sz'/>"), lines->str);
  assert_refused (text, CAV_STORAGE_ERROR_TOO_LARGE,
                  "a.svg:1: the path has more than 20000 pieces; simplify it");
  g_free (text);

  text = g_strdup_printf (PAGE ("<polygon points='%s'/>"), lines->str);
  assert_refused (text, CAV_STORAGE_ERROR_TOO_LARGE, "more than 20000 pieces");
  g_free (text);

  for (int i = 0; i < 100000; i++)
    g_string_append (curves, "c0 9 9-9 5 5s9 9-5-5");
  text = g_strdup_printf (PAGE ("<path d='M0 0%sz'/>"), curves->str);
  assert_refused (text, CAV_STORAGE_ERROR_TOO_LARGE, "more than 20000 pieces");
  g_free (text);

  g_string_truncate (curves, 0);
  for (int i = 0; i < 100000; i++)
    g_string_append (curves, "a99999 99999 0 0 1 40 0 99999 99999 0 0 1-40 0");
  text = g_strdup_printf (PAGE ("<path transform='scale(2)' d='M0 0%sz'/>"), curves->str);
  assert_refused (text, CAV_STORAGE_ERROR_TOO_LARGE, "more than 20000 pieces");
}

/* Random bytes of path data: an outline or a message, never anything else. */
static void
test_random_data (void)
{
  static const char alphabet[] = "MmLlHhVvCcSsQqTtAaZz0123456789.,- eE+01";

  for (int i = 0; i < 3000; i++)
    {
      g_autoptr (GString) data = g_string_new ("M1 1");
      int n = g_test_rand_int_range (1, 60);

      for (int k = 0; k < n; k++)
        g_string_append_c (data, alphabet[g_test_rand_int_range (0, sizeof alphabet - 1)]);
      g_autofree char *text = g_strdup_printf (PAGE ("<path d='%s'/>"), data->str);
      g_autoptr (GError) error = NULL;
      g_autoptr (CavPath) path = load (text, &error);
      g_assert_true ((path == NULL) == (error != NULL));
      if (path != NULL)
        g_assert_true (isfinite (cav_path_get_signed_area (path)));
    }
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/svg/commands", test_commands);
  g_test_add_func ("/storage/svg/current-point", test_current_point);
  g_test_add_func ("/storage/svg/arcs-stay-arcs", test_arcs_stay_arcs);
  g_test_add_func ("/storage/svg/huge-arc", test_huge_arc);
  g_test_add_func ("/storage/svg/transforms", test_transforms);
  g_test_add_func ("/storage/svg/wrong-transforms", test_wrong_transforms);
  g_test_add_func ("/storage/svg/shapes", test_shapes);
  g_test_add_func ("/storage/svg/hidden", test_hidden);
  g_test_add_func ("/storage/svg/sizes", test_sizes);
  g_test_add_func ("/storage/svg/wrong-sizes", test_wrong_sizes);
  g_test_add_func ("/storage/svg/wrong-paths", test_wrong_paths);
  g_test_add_func ("/storage/svg/wrong-pictures", test_wrong_pictures);
  g_test_add_func ("/storage/svg/almost-closed", test_almost_closed);
  g_test_add_func ("/storage/svg/many-points", test_many_points);
  g_test_add_func ("/storage/svg/random-data", test_random_data);
  return g_test_run ();
}
