/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "app/cav-section-canvas.h"
#include "app/cav-window.h"
#include "ui-test.h"

/* Every command can be reached by a pointer, every key of a command stands in the window of
 * keyboard shortcuts, and what stands there and in menus is so. */

typedef struct
{
  guint keyval;
  GdkModifierType modifiers;
} Key;

/* A key, and the command that it gives, with its parameter: "molding.draw('cove')". */
typedef struct
{
  Key key;
  char *command;
} Bound;

typedef struct
{
  CavDocument *document;
  CavWindow *window;
  GtkBuilder *builder;
  GHashTable *shown;  /* names of actions that a button or a menu gives */
  GHashTable *titles; /* of the shortcuts window: actions that it names */
  GArray *listed;     /* Key, accelerators of the shortcuts window */
  GArray *bound;      /* Bound */
} Fixture;

static void
clear_bound (gpointer bound)
{
  g_clear_pointer (&((Bound *)bound)->command, g_free);
}

/* Widgets */

static void
for_each_widget (GtkWidget *root, void (*visit) (Fixture *, GtkWidget *), Fixture *fixture)
{
  visit (fixture, root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    for_each_widget (child, visit, fixture);
}

static void
add_menu (Fixture *fixture, GMenuModel *model)
{
  for (int i = 0; model != NULL && i < g_menu_model_get_n_items (model); i++)
    {
      static const char *const LINKS[] = { G_MENU_LINK_SECTION, G_MENU_LINK_SUBMENU };
      g_autofree char *action = NULL;

      if (g_menu_model_get_item_attribute (model, i, G_MENU_ATTRIBUTE_ACTION, "s", &action))
        g_hash_table_add (fixture->shown, g_steal_pointer (&action));
      for (guint j = 0; j < G_N_ELEMENTS (LINKS); j++)
        {
          g_autoptr (GMenuModel) below = g_menu_model_get_item_link (model, i, LINKS[j]);

          add_menu (fixture, below);
        }
    }
}

static void
visit_shown (Fixture *fixture, GtkWidget *widget)
{
  if (GTK_IS_ACTIONABLE (widget)
      && gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)) != NULL)
    g_hash_table_add (fixture->shown,
                      g_strdup (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget))));
  if (GTK_IS_MENU_BUTTON (widget)
      && gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)) == NULL)
    {
      /* Made when it is opened. */
      gtk_menu_button_popup (GTK_MENU_BUTTON (widget));
      gtk_menu_button_popdown (GTK_MENU_BUTTON (widget));
    }
  if (GTK_IS_MENU_BUTTON (widget))
    add_menu (fixture, gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)));
  if (GTK_IS_POPOVER_MENU (widget))
    add_menu (fixture, gtk_popover_menu_get_menu_model (GTK_POPOVER_MENU (widget)));
}

/* Keys */

static void
add_bound (Fixture *fixture, GtkShortcutTrigger *trigger, const char *name, GVariant *parameter)
{
  Bound bound;

  if (!GTK_IS_KEYVAL_TRIGGER (trigger))
    return;
  bound.key = (Key){ gtk_keyval_trigger_get_keyval (GTK_KEYVAL_TRIGGER (trigger)),
                     gtk_keyval_trigger_get_modifiers (GTK_KEYVAL_TRIGGER (trigger)) };
  bound.command
      = parameter != NULL ? g_action_print_detailed_name (name, parameter) : g_strdup (name);
  g_array_append_val (fixture->bound, bound);
}

/* Keys that are ours: GTK's own widgets bring theirs. */
static void
visit_keys (Fixture *fixture, GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = NULL;

  if (!g_str_has_prefix (G_OBJECT_TYPE_NAME (widget), "Cav"))
    return;
  controllers = gtk_widget_observe_controllers (widget);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GListModel) controller = g_list_model_get_item (controllers, i);

      if (!GTK_IS_SHORTCUT_CONTROLLER (controller))
        continue;
      for (guint j = 0; j < g_list_model_get_n_items (controller); j++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (controller, j);
          GtkShortcutAction *action = gtk_shortcut_get_action (shortcut);

          if (!GTK_IS_NAMED_ACTION (action)
              || g_str_has_prefix (gtk_named_action_get_action_name (GTK_NAMED_ACTION (action)),
                                   "menu."))
            continue;
          add_bound (fixture, gtk_shortcut_get_trigger (shortcut),
                     gtk_named_action_get_action_name (GTK_NAMED_ACTION (action)),
                     gtk_shortcut_get_arguments (shortcut));
        }
    }
}

static void
add_application_keys (Fixture *fixture)
{
  GtkApplication *application = ui_test_get_application ();
  g_auto (GStrv) actions = gtk_application_list_action_descriptions (application);

  for (guint i = 0; actions[i] != NULL; i++)
    {
      g_auto (GStrv) keys = gtk_application_get_accels_for_action (application, actions[i]);

      for (guint j = 0; keys[j] != NULL; j++)
        {
          g_autoptr (GtkShortcutTrigger) trigger = gtk_shortcut_trigger_parse_string (keys[j]);

          add_bound (fixture, trigger, actions[i], NULL);
        }
    }
}

/* The window of keyboard shortcuts */

static void
list_key (Fixture *fixture, const char *accelerator)
{
  Key key;

  g_test_message ("listed: %s", accelerator);
  g_assert_true (gtk_accelerator_parse (accelerator, &key.keyval, &key.modifiers));
  g_array_append_val (fixture->listed, key);
}

/* "Left Right", and "<Alt>1...3" for three keys. */
static void
list_keys (Fixture *fixture, const char *accelerators)
{
  g_auto (GStrv) words = g_strsplit (accelerators, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      char *dots = strstr (words[i], "...");

      if (dots == NULL)
        {
          list_key (fixture, words[i]);
          continue;
        }
      for (char digit = dots[-1]; digit <= dots[3]; digit++)
        {
          g_autofree char *one = g_strndup (words[i], (gsize)(dots - words[i]));

          one[strlen (one) - 1] = digit;
          list_key (fixture, one);
        }
    }
}

static void
read_listed (Fixture *fixture)
{
  GSList *objects;

  fixture->builder = gtk_builder_new_from_resource ("/org/cavetto/Cavetto/keys.ui");
  objects = gtk_builder_get_objects (fixture->builder);
  for (GSList *link = objects; link != NULL; link = link->next)
    {
      g_autofree char *accelerator = NULL;
      g_autofree char *action = NULL;

      if (!GTK_IS_SHORTCUTS_SHORTCUT (link->data))
        continue;
      g_object_get (link->data, "accelerator", &accelerator, "action-name", &action, NULL);
      if (accelerator != NULL)
        list_keys (fixture, accelerator);
      if (action != NULL)
        g_hash_table_add (fixture->titles, g_steal_pointer (&action));
    }
  g_slist_free (objects);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  GtkWidget *canvas;
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavCut) cut = NULL;

  fixture->document = cav_document_new ();
  cav_path_move_to (path, CAV_POINT (5, 20));
  cav_path_line_to (path, CAV_POINT (9, 20));
  cav_path_line_to (path, CAV_POINT (9, 40));
  cav_path_close (path);
  cut = cav_cut_new_drawn (path);
  cav_project_add_cut (cav_document_get_project (fixture->document), cut);
  fixture->window = cav_window_new (ui_test_get_application (), fixture->document);
  fixture->shown = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  fixture->titles = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  fixture->listed = g_array_new (FALSE, FALSE, sizeof (Key));
  fixture->bound = g_array_new (FALSE, FALSE, sizeof (Bound));
  g_array_set_clear_func (fixture->bound, clear_bound);
  gtk_window_present (GTK_WINDOW (fixture->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (fixture->window));
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.show-page", "s", "lumber");
  ui_test_settle ();
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.show-page", "s", "frame");
  ui_test_settle ();
  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.show-page", "s", "molding");
  cav_selection_choose_cut (cav_document_get_selection (fixture->document), 0);
  canvas = ui_test_find (GTK_WIDGET (fixture->window), CAV_TYPE_SECTION_CANVAS);
  gtk_widget_activate_action (canvas, "canvas.menu", NULL);
  ui_test_settle ();

  for_each_widget (GTK_WIDGET (fixture->window), visit_shown, fixture);
  ui_test_wait_for (cav_plan_runner_get_state (cav_document_get_runner (fixture->document))
                    != CAV_PLAN_STATE_STALE);
  gtk_popover_popdown (GTK_POPOVER (ui_test_find (canvas, GTK_TYPE_POPOVER_MENU)));
  ui_test_settle ();
  for_each_widget (GTK_WIDGET (fixture->window), visit_keys, fixture);
  add_application_keys (fixture);
  read_listed (fixture);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  GtkWindow *keys = GTK_WINDOW (gtk_builder_get_object (fixture->builder, "keys"));

  gtk_window_destroy (keys);
  g_clear_object (&fixture->builder);
  g_clear_pointer (&fixture->shown, g_hash_table_unref);
  g_clear_pointer (&fixture->titles, g_hash_table_unref);
  g_clear_pointer (&fixture->listed, g_array_unref);
  g_clear_pointer (&fixture->bound, g_array_unref);
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  ui_test_settle ();
  ui_test_finalize (fixture->document);
}

static gboolean
is_listed (Fixture *fixture, Key key)
{
  for (guint i = 0; i < fixture->listed->len; i++)
    {
      Key other = g_array_index (fixture->listed, Key, i);

      if (other.keyval == key.keyval && other.modifiers == key.modifiers)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_bound (Fixture *fixture, Key key, const char *command)
{
  for (guint i = 0; i < fixture->bound->len; i++)
    {
      const Bound *bound = &g_array_index (fixture->bound, Bound, i);

      if (bound->key.keyval == key.keyval && bound->key.modifiers == key.modifiers
          && (command == NULL || g_str_equal (bound->command, command)))
        return TRUE;
    }
  return FALSE;
}

/* Commands that no menu could give: they need a place, or are what the list beside them does. */
static const char *const WITHOUT_ENTRY[] = {
  "canvas.choose",       /* of cuts that lie over each other; there only where some do */
  "canvas.menu",         /* opens the menu itself; the secondary button, too */
  "canvas.nudge",        /* arrow keys; the handles with the pointer */
  "canvas.remove-point", /* the canvas's menu where it is opened at a point (test-canvas-draw.c) */
  "molding.draw",        /* the buttons of the palette, and "New cut here" in the canvas's menu */
  "molding.leave",       /* Escape; the palette's pointer, and win.leave-pass in the menu */
  "molding.toggle-column", /* the button in the canvas's corner holds the state itself */
  "win.keep-mine",         /* in a bar that is there when the file has changed */
  "win.load-again",        /* as well */
  "win.open-recent",       /* one entry for each file, where there are some */
  "win.show-frame",        /* a finding's place */
  "win.show-lumber",       /* a finding's place */
  "win.show-page",         /* the switcher of pages */
};

static void
check_entry (Fixture *fixture, const char *name, guint *inout_missing)
{
  if (g_hash_table_contains (fixture->shown, name))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (WITHOUT_ENTRY); i++)
    if (g_str_equal (WITHOUT_ENTRY[i], name))
      return;
  g_test_message ("%s is in no menu and on no button", name);
  (*inout_missing)++;
}

static guint
check_entries (Fixture *fixture, GtkWidget *widget, const char *prefix, guint *inout_missing)
{
  const GVariantType *type;
  const char *action;
  const char *property;
  GType owner;
  guint checked = 0;

  for (guint i = 0; gtk_widget_class_query_action (GTK_WIDGET_GET_CLASS (widget), i, &owner,
                                                   &action, &type, &property);
       i++)
    {
      /* What the menu calls stands in the window's own actions. */
      g_autofree char *outside
          = g_str_has_prefix (action, "canvas.")
                ? g_strconcat ("win.canvas-", action + strlen ("canvas."), NULL)
                : NULL;

      if (!g_str_has_prefix (action, prefix))
        continue;
      checked++;
      if (outside == NULL || !g_hash_table_contains (fixture->shown, outside))
        check_entry (fixture, action, inout_missing);
    }
  return checked;
}

static void
test_entries (Fixture *fixture, gconstpointer data)
{
  GtkWidget *window = GTK_WIDGET (fixture->window);
  GtkWidget *page = ui_test_find (window, g_type_from_name ("CavMoldingPage"));
  g_auto (GStrv) of_application
      = g_action_group_list_actions (G_ACTION_GROUP (ui_test_get_application ()));
  guint missing = 0;

  g_assert_cmpuint (check_entries (fixture, window, "win.", &missing), >, 40);
  g_assert_cmpuint (check_entries (fixture, page, "molding.", &missing), >=, 3);
  g_assert_cmpuint (
      check_entries (fixture, ui_test_find (page, CAV_TYPE_SECTION_CANVAS), "canvas.", &missing), >,
      15);
  for (guint i = 0; of_application[i] != NULL; i++)
    {
      g_autofree char *name = g_strconcat ("app.", of_application[i], NULL);

      check_entry (fixture, name, &missing);
    }
  g_assert_cmpuint (missing, ==, 0);
}

/* Of several keys for one thing it is enough that one is told. */
static gboolean
is_told (Fixture *fixture, const char *command)
{
  if (g_hash_table_contains (fixture->titles, command))
    return TRUE;
  for (guint i = 0; i < fixture->bound->len; i++)
    {
      const Bound *bound = &g_array_index (fixture->bound, Bound, i);

      if (g_str_equal (bound->command, command) && is_listed (fixture, bound->key))
        return TRUE;
    }
  return FALSE;
}

static void
test_keys_are_told (Fixture *fixture, gconstpointer data)
{
  guint untold = 0;

  g_assert_cmpuint (fixture->bound->len, >, 60);
  for (guint i = 0; i < fixture->bound->len; i++)
    {
      const Bound *bound = &g_array_index (fixture->bound, Bound, i);

      if (is_told (fixture, bound->command))
        continue;
      g_test_message ("the key of %s stands in no list", bound->command);
      untold++;
    }
  g_assert_cmpuint (untold, ==, 0);
}

/* Keys that are no commands: what canvases do themselves, and the menu's, which is GTK's. */
static gboolean
is_of_hand (Key key)
{
  static const Key KEYS[] = { { GDK_KEY_Page_Down, 0 },       { GDK_KEY_Page_Up, 0 },
                              { GDK_KEY_Return, 0 },          { GDK_KEY_F10, 0 },
                              { GDK_KEY_Left, GDK_ALT_MASK }, { GDK_KEY_Right, GDK_ALT_MASK },
                              { GDK_KEY_Up, GDK_ALT_MASK },   { GDK_KEY_Down, GDK_ALT_MASK } };

  for (guint i = 0; i < G_N_ELEMENTS (KEYS); i++)
    if (KEYS[i].keyval == key.keyval && KEYS[i].modifiers == key.modifiers)
      return TRUE;
  return FALSE;
}

static void
test_told_keys_are_there (Fixture *fixture, gconstpointer data)
{
  guint wrong = 0;

  g_assert_cmpuint (fixture->listed->len, >, 40);
  for (guint i = 0; i < fixture->listed->len; i++)
    {
      Key key = g_array_index (fixture->listed, Key, i);
      g_autofree char *name = gtk_accelerator_name (key.keyval, key.modifiers);

      if (is_of_hand (key) || is_bound (fixture, key, NULL))
        continue;
      g_test_message ("%s does nothing", name);
      wrong++;
    }
  g_assert_cmpuint (wrong, ==, 0);
}

static guint
check_menu_keys (Fixture *fixture, GMenuModel *model, guint *inout_wrong)
{
  guint checked = 0;

  for (int i = 0; model != NULL && i < g_menu_model_get_n_items (model); i++)
    {
      static const char *const LINKS[] = { G_MENU_LINK_SECTION, G_MENU_LINK_SUBMENU };
      g_autofree char *accelerator = NULL;
      g_autofree char *action = NULL;

      if (g_menu_model_get_item_attribute (model, i, "accel", "s", &accelerator)
          && g_menu_model_get_item_attribute (model, i, G_MENU_ATTRIBUTE_ACTION, "s", &action))
        {
          const char *rest = strstr (action, "win.canvas-");
          g_autofree char *command
              = rest == action ? g_strconcat ("canvas.", action + strlen ("win.canvas-"), NULL)
                               : g_strdup (action);
          Key key;

          checked++;
          g_assert_true (gtk_accelerator_parse (accelerator, &key.keyval, &key.modifiers));
          if (!is_bound (fixture, key, command))
            {
              g_test_message ("the menu says %s for %s", accelerator, command);
              (*inout_wrong)++;
            }
        }
      for (guint j = 0; j < G_N_ELEMENTS (LINKS); j++)
        {
          g_autoptr (GMenuModel) below = g_menu_model_get_item_link (model, i, LINKS[j]);

          checked += check_menu_keys (fixture, below, inout_wrong);
        }
    }
  return checked;
}

static guint menu_keys_wrong;
static guint menu_keys_checked;

static void
visit_menu_keys (Fixture *fixture, GtkWidget *widget)
{
  if (GTK_IS_MENU_BUTTON (widget))
    menu_keys_checked += check_menu_keys (
        fixture, gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)), &menu_keys_wrong);
}

/* Keys that a menu writes itself, because the key is the canvas's. */
static void
test_menu_keys (Fixture *fixture, gconstpointer data)
{
  menu_keys_wrong = 0;
  menu_keys_checked = 0;
  for_each_widget (GTK_WIDGET (fixture->window), visit_menu_keys, fixture);
  g_assert_cmpuint (menu_keys_checked, >, 8);
  g_assert_cmpuint (menu_keys_wrong, ==, 0);
}

static guint without_keys;

static void
visit_told (Fixture *fixture, GtkWidget *widget)
{
  g_autofree char *accelerator = NULL;
  g_autofree char *title = NULL;

  if (!GTK_IS_SHORTCUTS_SHORTCUT (widget))
    return;
  g_object_get (widget, "accelerator", &accelerator, "title", &title, NULL);
  if (accelerator != NULL && *accelerator != '\0')
    return;
  g_test_message ("“%s” shows no key", title);
  without_keys++;
}

/* What is named by its action gets its key from the application, if the window is the window's. */
static void
test_keys_are_shown (Fixture *fixture, gconstpointer data)
{
  GtkWidget *keys;

  gtk_widget_activate_action (GTK_WIDGET (fixture->window), "win.show-keys", NULL);
  keys = GTK_WIDGET (
      gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (fixture->window)));
  g_assert_nonnull (keys);
  g_assert_true (gtk_widget_get_visible (keys));
  without_keys = 0;
  for_each_widget (keys, visit_told, fixture);
  g_assert_cmpuint (without_keys, ==, 0);
  gtk_window_close (GTK_WINDOW (keys));
  ui_test_settle ();
}

/* Keys for cuts hold where the focus is on a button, as it is after a menu. */
static void
test_keys_beside_the_canvas (Fixture *fixture, gconstpointer data)
{
  static const char *const COMMANDS[]
      = { "choose-all", "choose-none",   "copy",  "cut",
          "duplicate",  "mirror-across", "paste", "mirror-through" };

  for (guint i = 0; i < G_N_ELEMENTS (COMMANDS); i++)
    {
      g_autofree char *inside = g_strconcat ("canvas.", COMMANDS[i], NULL);
      g_autofree char *outside = g_strconcat ("win.canvas-", COMMANDS[i], NULL);
      guint found = 0;

      for (guint j = 0; j < fixture->bound->len; j++)
        {
          const Bound *bound = &g_array_index (fixture->bound, Bound, j);

          if (!g_str_equal (bound->command, inside))
            continue;
          found++;
          g_assert_true (is_bound (fixture, bound->key, outside));
        }
      g_assert_cmpuint (found, >=, 1);
    }
}

#define ADD(path_, test_)                                                                          \
  g_test_add ("/ui/commands/" path_, Fixture, NULL, set_up, test_, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("entries", test_entries);
  ADD ("keys-are-told", test_keys_are_told);
  ADD ("told-keys-are-there", test_told_keys_are_there);
  ADD ("menu-keys", test_menu_keys);
  ADD ("keys-are-shown", test_keys_are_shown);
  ADD ("keys-beside-the-canvas", test_keys_beside_the_canvas);
  return g_test_run ();
}
