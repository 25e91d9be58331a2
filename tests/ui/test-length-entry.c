/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-length-entry.h"

#include <locale.h>

#include "app/cav-number-entry.h"
#include "app/cav-settings.h"
#include "ui-test.h"

typedef struct
{
  CavFigureRow *row; /* a length from 1 to 100 mm */
  CavFigureRow *other;
  GtkWindow *window;
  GtkWidget *text; /* of row, what has the keys */
  double applied;
  int n_applied;
  double typed;
  int n_typed;
} Fixture;

static void
applied_cb (Fixture *self, double value)
{
  self->applied = value;
  self->n_applied++;
}

static void
typed_cb (Fixture *self, double value)
{
  self->typed = value;
  self->n_typed++;
}

static void
set_unit (const char *nick)
{
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, nick);
  ui_test_settle ();
}

static void
set_up (Fixture *self, gconstpointer data)
{
  GtkWidget *list = gtk_list_box_new ();

  set_unit ("mm");
  self->row = CAV_FIGURE_ROW (cav_length_entry_new ("Width"));
  self->other = CAV_FIGURE_ROW (cav_length_entry_new ("Depth"));
  cav_figure_row_set_range (self->row, 1, 100);
  cav_figure_row_set_value (self->row, 12.4);
  g_signal_connect_swapped (self->row, "applied", G_CALLBACK (applied_cb), self);
  g_signal_connect_swapped (self->row, "typed", G_CALLBACK (typed_cb), self);
  gtk_list_box_append (GTK_LIST_BOX (list), GTK_WIDGET (self->row));
  gtk_list_box_append (GTK_LIST_BOX (list), GTK_WIDGET (self->other));
  self->window = ui_test_show (list, 320, 200);
  self->text = GTK_WIDGET (gtk_editable_get_delegate (cav_figure_row_get_editable (self->row)));
  gtk_widget_grab_focus (self->text);
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  g_object_ref (self->row);
  g_signal_handlers_disconnect_by_data (self->row, self);
  gtk_window_destroy (self->window);
  ui_test_settle ();
  ui_test_finalize (self->row);
  set_unit ("mm");
}

static const char *
get_text (Fixture *self)
{
  return gtk_editable_get_text (cav_figure_row_get_editable (self->row));
}

static void
type (Fixture *self, const char *text)
{
  gtk_editable_set_text (cav_figure_row_get_editable (self->row), text);
}

static gboolean
press (Fixture *self, guint key, GdkModifierType state)
{
  GtkEventController *keys = ui_test_get_controller (
      GTK_WIDGET (cav_figure_row_get_editable (self->row)), GTK_TYPE_EVENT_CONTROLLER_KEY);
  gboolean handled = FALSE;

  g_signal_emit_by_name (keys, "key-pressed", key, 0, state, &handled);
  return handled;
}

static void
press_return (Fixture *self)
{
  g_signal_emit_by_name (self->text, "activate");
}

/* (nullable) the sentence below the row; NULL where none is shown. */
static const char *
get_message (Fixture *self)
{
  return cav_figure_row_get_message (self->row);
}

static void
assert_complains (Fixture *self, const char *part)
{
  GtkWidget *entry = GTK_WIDGET (cav_figure_row_get_editable (self->row));

  g_assert_false (cav_figure_row_is_valid (self->row));
  g_assert_nonnull (get_message (self));
  if (strstr (get_message (self), part) == NULL)
    g_test_message ("“%s” says nothing of “%s”", get_message (self), part);
  g_assert_nonnull (strstr (get_message (self), part));
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
}

static void
assert_content (Fixture *self)
{
  GtkWidget *entry = GTK_WIDGET (cav_figure_row_get_editable (self->row));

  g_assert_true (cav_figure_row_is_valid (self->row));
  g_assert_null (get_message (self));
  g_assert_false (gtk_widget_has_css_class (entry, "error"));
  gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_FALSE);
}

static void
test_understands (Fixture *self, gconstpointer data)
{
  static const struct
  {
    const char *text;
    double mm;
  } rows[] = {
    { "9.5", 9.5 },      { "9,5", 9.5 },       { "9.5 mm", 9.5 },
    { "3/8 in", 9.525 }, { "1 1/4\"", 31.75 }, { "3/8 in + 1/16 in", 11.1125 },
    { "12-3.2", 8.8 },   { " 2 cm ", 20 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].text);
      cav_figure_row_set_value (self->row, 50);
      type (self, rows[i].text);
      assert_content (self);
      g_assert_cmpfloat_with_epsilon (self->typed, rows[i].mm, 1e-9);
      press_return (self);
      g_assert_cmpint (self->n_applied, ==, (int)i + 1);
      g_assert_cmpfloat_with_epsilon (self->applied, rows[i].mm, 1e-9);
      g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (self->row), rows[i].mm, 1e-9);
    }
  g_assert_cmpstr (get_text (self), ==, "20");
}

static void
test_says_what_it_cannot_take (Fixture *self, gconstpointer data)
{
  static const struct
  {
    const char *text;
    const char *part;
  } rows[] = {
    { "abc", "a number is missing" }, { "5 bananas", "not part of a length" },
    { "1 2", "two numbers" },         { "1/0", "divides by 0" },
    { "0.5", "from 1 mm to 100 mm" }, { "200", "from 1 mm to 100 mm" },
    { "-3", "from 1 mm to 100 mm" },  { "1e9", "not part of a length" },
    { "nan", "a number is missing" }, { "99999999999999999999999", "shorter length" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].text);
      type (self, rows[i].text);
      assert_complains (self, rows[i].part);
      press_return (self);
      assert_complains (self, rows[i].part);
      g_assert_cmpstr (get_text (self), ==, rows[i].text);
    }
  g_assert_cmpint (self->n_applied, ==, 0);
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (self->row), 12.4, 1e-9);
  type (self, "14");
  assert_content (self);
}

/* What may be the beginning of something is no reason to complain, until it is entered. */
static void
test_waits_for_the_rest (Fixture *self, gconstpointer data)
{
  static const char *const beginnings[] = { "", "3/", "12 - ", "1 +", "-", "0" };

  for (guint i = 0; i < G_N_ELEMENTS (beginnings); i++)
    {
      g_test_message ("“%s”", beginnings[i]);
      type (self, beginnings[i]);
      g_assert_false (cav_figure_row_is_valid (self->row));
      g_assert_null (get_message (self));
      press_return (self);
      g_assert_nonnull (get_message (self));
    }
}

static void
test_escape_goes_back (Fixture *self, gconstpointer data)
{
  type (self, "33");
  g_assert_true (press (self, GDK_KEY_Escape, 0));
  g_assert_cmpstr (get_text (self), ==, "12.4");
  g_assert_cmpfloat_with_epsilon (self->typed, 12.4, 1e-9);
  type (self, "abc");
  assert_complains (self, "a number is missing");
  g_assert_true (press (self, GDK_KEY_Escape, 0));
  g_assert_cmpstr (get_text (self), ==, "12.4");
  assert_content (self);
  g_assert_cmpint (self->n_applied, ==, 0);
  /* With nothing to go back from, Escape is for somebody else. */
  g_assert_false (press (self, GDK_KEY_Escape, 0));
}

static void
test_leaving_applies (Fixture *self, gconstpointer data)
{
  type (self, "33");
  gtk_widget_grab_focus (GTK_WIDGET (cav_figure_row_get_editable (self->other)));
  ui_test_settle ();
  g_assert_cmpint (self->n_applied, ==, 1);
  g_assert_cmpfloat_with_epsilon (self->applied, 33, 1e-9);

  /* What cannot be taken stays, with its sentence. */
  gtk_widget_grab_focus (self->text);
  type (self, "33 +");
  gtk_widget_grab_focus (GTK_WIDGET (cav_figure_row_get_editable (self->other)));
  ui_test_settle ();
  assert_complains (self, "a number is missing");
  g_assert_cmpstr (get_text (self), ==, "33 +");
  g_assert_cmpint (self->n_applied, ==, 1);

  /* An entry that was emptied and left has its value back. */
  gtk_widget_grab_focus (self->text);
  type (self, "");
  gtk_widget_grab_focus (GTK_WIDGET (cav_figure_row_get_editable (self->other)));
  ui_test_settle ();
  g_assert_cmpstr (get_text (self), ==, "33");
  assert_content (self);
}

static void
test_keys_step (Fixture *self, gconstpointer data)
{
  g_assert_true (press (self, GDK_KEY_Up, 0));
  g_assert_cmpfloat_with_epsilon (self->applied, 13.4, 1e-9);
  g_assert_true (press (self, GDK_KEY_Down, GDK_SHIFT_MASK));
  g_assert_cmpfloat_with_epsilon (self->applied, 13.3, 1e-9);
  g_assert_cmpstr (get_text (self), ==, "13.3");
  /* From what is typed. */
  type (self, "99.5");
  press (self, GDK_KEY_Up, 0);
  g_assert_cmpfloat_with_epsilon (self->applied, 100, 1e-9);
  press (self, GDK_KEY_Up, 0);
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (self->row), 100, 1e-9);
  g_assert_cmpint (self->n_applied, ==, 3);
  /* Nothing to step from. */
  type (self, "x");
  press (self, GDK_KEY_Up, 0);
  g_assert_cmpint (self->n_applied, ==, 3);
  g_assert_false (press (self, GDK_KEY_Up, GDK_CONTROL_MASK));
  /* In inches the step is a sixteenth. */
  press (self, GDK_KEY_Escape, 0);
  cav_figure_row_set_value (self->row, 25.4);
  set_unit ("inch-32");
  press (self, GDK_KEY_Up, 0);
  g_assert_cmpstr (get_text (self), ==, "1 1/16");
}

static gboolean
scroll (Fixture *self, double dy)
{
  GtkEventController *wheel = ui_test_get_controller (
      GTK_WIDGET (cav_figure_row_get_editable (self->row)), GTK_TYPE_EVENT_CONTROLLER_SCROLL);
  gboolean handled = FALSE;

  g_signal_emit_by_name (wheel, "scroll", 0.0, dy, &handled);
  return handled;
}

/* Only while the entry has the focus: a column that is scrolled changes nothing. */
static void
test_wheel_steps_with_focus (Fixture *self, gconstpointer data)
{
  g_assert_true (scroll (self, -1));
  g_assert_cmpfloat_with_epsilon (self->applied, 13.4, 1e-9);
  g_assert_true (scroll (self, 1));
  g_assert_cmpfloat_with_epsilon (self->applied, 12.4, 1e-9);
  gtk_widget_grab_focus (GTK_WIDGET (cav_figure_row_get_editable (self->other)));
  g_assert_false (scroll (self, -1));
  g_assert_cmpint (self->n_applied, ==, 2);
}

static void
test_unit_changes_the_text_alone (Fixture *self, gconstpointer data)
{
  static const struct
  {
    const char *nick;
    const char *text;
    const char *label;
  } rows[] = {
    { "mm", "9.53", "Width, mm" },
    { "inch-16", "3/8", "Width, in" },
    { "inch-32", "3/8", "Width, in" },
    { "inch-64", "3/8", "Width, in" },
    { "inch-decimal", "0.375", "Width, in" },
    { "mm", "9.53", "Width, mm" },
  };

  cav_figure_row_set_value (self->row, 9.525);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      set_unit (rows[i].nick);
      g_assert_cmpstr (get_text (self), ==, rows[i].text);
      /* Returning what is shown, rounded or not, enters nothing. */
      press_return (self);
      gtk_test_accessible_assert_property (cav_figure_row_get_editable (self->row),
                                           GTK_ACCESSIBLE_PROPERTY_LABEL, rows[i].label);
      g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (self->row), 9.525, 1e-12);
    }
  g_assert_cmpint (self->n_applied, ==, 0);
  set_unit ("inch-16");
  cav_figure_row_set_value (self->row, 12.4);
  g_assert_cmpstr (get_text (self), ==, "≈ 1/2");
  /* Not nothing, though less than the fractions show. */
  cav_figure_row_set_value (self->row, 0.05);
  g_assert_cmpstr (get_text (self), ==, "0.002");
  type (self, "3/4");
  press_return (self);
  g_assert_cmpfloat_with_epsilon (self->applied, 19.05, 1e-9);
}

static void
test_mixed (Fixture *self, gconstpointer data)
{
  cav_figure_row_set_mixed (self->row);
  g_assert_cmpstr (get_text (self), ==, "");
  g_assert_true (cav_figure_row_is_mixed (self->row));
  press_return (self);
  g_assert_cmpint (self->n_applied, ==, 0);
  assert_content (self);
  /* The value from before is another one now: it is for all of them. */
  type (self, "12.4");
  press_return (self);
  g_assert_cmpint (self->n_applied, ==, 1);
  g_assert_false (cav_figure_row_is_mixed (self->row));
}

static void
test_value_from_elsewhere (Fixture *self, gconstpointer data)
{
  type (self, "33");
  cav_figure_row_set_value (self->row, 12.4);
  g_assert_cmpstr (get_text (self), ==, "33");
  cav_figure_row_set_value (self->row, 15);
  g_assert_cmpstr (get_text (self), ==, "15");
  cav_figure_row_set_message (self->row, "Too wide for its neighbour.");
  assert_complains (self, "neighbour");
  type (self, "14");
  assert_content (self);
  g_assert_cmpint (self->n_applied, ==, 0);
}

static void
test_numbers (void)
{
  static const struct
  {
    const char *text;
    gboolean counts;
    gboolean shares;
    double value;
  } rows[] = {
    { "3", TRUE, TRUE, 3 },      { " 3 ", TRUE, TRUE, 3 },       { "0.5", FALSE, TRUE, 0.5 },
    { "0,5", FALSE, TRUE, 0.5 }, { "1.2.3", FALSE, FALSE, 0 },   { "x", FALSE, FALSE, 0 },
    { "11", FALSE, FALSE, 0 },   { "1e1", FALSE, FALSE, 0 },     { "0x5", FALSE, FALSE, 0 },
    { "inf", FALSE, FALSE, 0 },  { "3 steps", FALSE, FALSE, 0 },
  };
  CavFigureRow *count = CAV_FIGURE_ROW (cav_number_entry_new ("Steps", 0, "", 1));
  CavFigureRow *share = CAV_FIGURE_ROW (cav_number_entry_new ("Share", 2, "", 0.1));

  g_object_ref_sink (count);
  g_object_ref_sink (share);
  cav_figure_row_set_range (count, 0, 10);
  cav_figure_row_set_range (share, 0, 10);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].text);
      gtk_editable_set_text (cav_figure_row_get_editable (count), rows[i].text);
      g_assert_cmpint (cav_figure_row_apply (count), ==, rows[i].counts);
      if (rows[i].counts)
        g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (count), rows[i].value, 1e-12);
      gtk_editable_set_text (cav_figure_row_get_editable (share), rows[i].text);
      g_assert_cmpint (cav_figure_row_apply (share), ==, rows[i].shares);
      if (rows[i].shares)
        g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (share), rows[i].value, 1e-12);
    }
  ui_test_finalize (count);
  ui_test_finalize (share);
}

/* The program that asks for a comma gets one, or the other tests would prove nothing. */
static void
test_decimal_mark (void)
{
  const char *mark = localeconv ()->decimal_point;

  g_assert_cmpstr (mark, ==, g_getenv ("CAV_TEST_COMMA") != NULL ? "," : ".");
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/length-entry/decimal-mark", test_decimal_mark);
  ADD ("/ui/length-entry/understands", test_understands);
  ADD ("/ui/length-entry/says-what-it-cannot-take", test_says_what_it_cannot_take);
  ADD ("/ui/length-entry/waits-for-the-rest", test_waits_for_the_rest);
  ADD ("/ui/length-entry/escape-goes-back", test_escape_goes_back);
  ADD ("/ui/length-entry/leaving-applies", test_leaving_applies);
  ADD ("/ui/length-entry/keys-step", test_keys_step);
  ADD ("/ui/length-entry/wheel-steps-with-focus", test_wheel_steps_with_focus);
  ADD ("/ui/length-entry/unit-changes-the-text-alone", test_unit_changes_the_text_alone);
  ADD ("/ui/length-entry/mixed", test_mixed);
  ADD ("/ui/length-entry/value-from-elsewhere", test_value_from_elsewhere);
  g_test_add_func ("/ui/number-entry/takes-numbers-alone", test_numbers);
  return g_test_run ();
}
