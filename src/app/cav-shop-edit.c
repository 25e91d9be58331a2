/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-shop-edit.h"

#include <glib/gi18n.h>
#include <string.h>

/* Ids have 64 characters at most; this leaves room for a number behind. */
#define ID_MAX 48

static gboolean
has_tool (const CavShop *shop, const char *id)
{
  return cav_shop_find_blade (shop, id) != NULL || cav_shop_find_cutter (shop, id) != NULL;
}

/* Letters and digits in lower case, anything else between them as one '-'. */
static char *
simplify (const char *name)
{
  g_autofree char *plain = g_str_to_ascii (name, "C");
  GString *id = g_string_new (NULL);

  for (const char *at = plain; *at != '\0' && id->len < ID_MAX; at++)
    {
      if (g_ascii_isalnum (*at) || (*at == '.' && id->len > 0 && g_ascii_isdigit (at[1])))
        g_string_append_c (id, g_ascii_tolower (*at));
      else if (id->len > 0 && id->str[id->len - 1] != '-')
        g_string_append_c (id, '-');
    }
  while (id->len > 0 && id->str[id->len - 1] == '-')
    g_string_truncate (id, id->len - 1);
  if (id->len == 0)
    g_string_append (id, "tool");
  return g_string_free (id, FALSE);
}

char *
cav_shop_edit_create_id (const CavShop *shop, const char *name)
{
  g_autofree char *plain = NULL;
  char *id;

  g_return_val_if_fail (shop != NULL && name != NULL, NULL);

  plain = simplify (name);
  id = g_strdup (plain);
  for (guint i = 2; has_tool (shop, id); i++)
    {
      g_free (id);
      id = g_strdup_printf ("%s-%u", plain, i);
    }
  return id;
}

void
cav_shop_edit_replace (CavProject *project, const CavShop *shop, const char *name)
{
  g_return_if_fail (CAV_IS_PROJECT (project));
  g_return_if_fail (shop != NULL && name != NULL);

  cav_project_begin (project, name);
  cav_project_set_shop (project, shop);
  cav_project_end (project);
}

/* The one that was added last goes to a place further up. */
static void
move_last (GPtrArray *tools, guint index)
{
  gpointer tool = g_ptr_array_steal_index (tools, tools->len - 1);

  g_ptr_array_insert (tools, (int)index, tool);
}

/* Where a tool with that id stands; the length of the list where there is none. */
static guint
find_blade_index (const CavShop *shop, const char *id)
{
  guint index;
  CavBlade *blade = cav_shop_find_blade (shop, id);

  return blade != NULL && g_ptr_array_find (shop->blades, blade, &index) ? index
                                                                         : shop->blades->len;
}

static guint
find_cutter_index (const CavShop *shop, const char *id)
{
  guint index;
  CavCutter *cutter = cav_shop_find_cutter (shop, id);

  return cutter != NULL && g_ptr_array_find (shop->cutters, cutter, &index) ? index
                                                                            : shop->cutters->len;
}

gboolean
cav_shop_edit_put_blade (CavProject *project, CavBlade *blade, GError **error)
{
  g_autoptr (CavShop) shop = NULL;
  guint index;
  gboolean is_new;

  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);
  g_return_val_if_fail (blade != NULL, FALSE);

  shop = cav_shop_copy (cav_project_get_shop (project));
  index = find_blade_index (shop, blade->id);
  is_new = index == shop->blades->len;
  if (!is_new)
    g_ptr_array_remove_index (shop->blades, index);
  if (!cav_shop_add_blade (shop, blade, error))
    return FALSE;
  move_last (shop->blades, index);
  cav_shop_edit_replace (project, shop,
                         is_new ? C_ ("step", "add blade") : C_ ("step", "change blade"));
  return TRUE;
}

gboolean
cav_shop_edit_put_cutter (CavProject *project, CavCutter *cutter, GError **error)
{
  g_autoptr (CavShop) shop = NULL;
  guint index;
  gboolean is_new;

  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);
  g_return_val_if_fail (cutter != NULL, FALSE);

  shop = cav_shop_copy (cav_project_get_shop (project));
  index = find_cutter_index (shop, cutter->id);
  is_new = index == shop->cutters->len;
  if (!is_new)
    g_ptr_array_remove_index (shop->cutters, index);
  if (!cav_shop_add_cutter (shop, cutter, error))
    return FALSE;
  move_last (shop->cutters, index);
  cav_shop_edit_replace (project, shop,
                         is_new ? C_ ("step", "add cutter") : C_ ("step", "change cutter"));
  return TRUE;
}

gboolean
cav_shop_edit_remove (CavProject *project, const char *id)
{
  g_autoptr (CavShop) shop = NULL;
  guint blade;
  guint cutter;

  g_return_val_if_fail (CAV_IS_PROJECT (project), FALSE);
  g_return_val_if_fail (id != NULL, FALSE);

  shop = cav_shop_copy (cav_project_get_shop (project));
  blade = find_blade_index (shop, id);
  cutter = find_cutter_index (shop, id);
  if (blade < shop->blades->len)
    g_ptr_array_remove_index (shop->blades, blade);
  else if (cutter < shop->cutters->len)
    g_ptr_array_remove_index (shop->cutters, cutter);
  else
    return FALSE;
  cav_shop_edit_replace (project, shop, C_ ("step", "remove tool"));
  return TRUE;
}

static gboolean
has_tool_named (const CavShop *shop, const char *name)
{
  for (guint i = 0; i < shop->blades->len; i++)
    if (g_strcmp0 (((const CavBlade *)g_ptr_array_index (shop->blades, i))->name, name) == 0)
      return TRUE;
  for (guint i = 0; i < shop->cutters->len; i++)
    if (g_strcmp0 (((const CavCutter *)g_ptr_array_index (shop->cutters, i))->name, name) == 0)
      return TRUE;
  return FALSE;
}

/* A copy is told from the first by a number, which is understood in every language. */
static char *
create_copy_name (const CavShop *shop, const char *name)
{
  for (guint number = 2;; number++)
    {
      g_autofree char *copy_name = g_strdup_printf ("%s (%u)", name, number);

      if (!has_tool_named (shop, copy_name))
        return g_steal_pointer (&copy_name);
    }
}

static void
take_text (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text);
}

char *
cav_shop_edit_duplicate (CavProject *project, const char *id)
{
  g_autoptr (CavShop) shop = NULL;
  g_autofree char *copy_id = NULL;
  g_autofree char *copy_name = NULL;
  CavBlade *blade;
  CavCutter *cutter;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (id != NULL, NULL);

  shop = cav_shop_copy (cav_project_get_shop (project));
  copy_id = cav_shop_edit_create_id (shop, id);
  blade = cav_shop_find_blade (shop, id);
  cutter = cav_shop_find_cutter (shop, id);
  if (blade != NULL)
    {
      blade = cav_blade_copy (blade);
      copy_name = create_copy_name (shop, blade->name);
      take_text (&blade->id, copy_id);
      take_text (&blade->name, copy_name);
      g_ptr_array_insert (shop->blades, (int)find_blade_index (shop, id) + 1, blade);
    }
  else if (cutter != NULL)
    {
      cutter = cav_cutter_copy (cutter);
      copy_name = create_copy_name (shop, cutter->name);
      take_text (&cutter->id, copy_id);
      take_text (&cutter->name, copy_name);
      g_ptr_array_insert (shop->cutters, (int)find_cutter_index (shop, id) + 1, cutter);
    }
  else
    return NULL;
  cav_shop_edit_replace (project, shop, C_ ("step", "duplicate tool"));
  return g_steal_pointer (&copy_id);
}
