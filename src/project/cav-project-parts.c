/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include "project/cav-project-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const char *
cav_project_get_title (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->title;
}

void
cav_project_set_title (CavProject *self, const char *title)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  cav_content_take_text (&next->title, title != NULL ? title : "");
  cav_project_commit (self, next, C_ ("step", "edit title"));
}

const char *
cav_project_get_notes (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->notes;
}

void
cav_project_set_notes (CavProject *self, const char *notes)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  cav_content_take_text (&next->notes, notes != NULL ? notes : "");
  cav_project_commit (self, next, C_ ("step", "edit notes"));
}

CavBlank
cav_project_get_blank (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), (CavBlank){ 0 });

  return self->content->blank;
}

void
cav_project_set_blank (CavProject *self, CavBlank blank)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (isfinite (blank.width) && isfinite (blank.thickness));

  next = cav_content_copy (self->content);
  next->blank = blank;
  cav_project_commit (self, next, C_ ("step", "resize blank"));
}

const CavWood *
cav_project_get_wood (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->wood;
}

void
cav_project_set_wood (CavProject *self, const CavWood *wood)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  next->wood = wood;
  cav_project_commit (self, next, C_ ("step", "choose wood"));
}

int
cav_project_get_rails (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0);

  return self->content->rails;
}

double
cav_project_get_length (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0.0);

  return self->content->length;
}

void
cav_project_set_rails (CavProject *self, int rails, double length)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (rails >= 1);
  g_return_if_fail (isfinite (length) && length > 0.0);

  next = cav_content_copy (self->content);
  next->rails = rails;
  next->length = length;
  cav_project_commit (self, next, C_ ("step", "set rails"));
}

const CavShop *
cav_project_get_shop (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->shop->value;
}

void
cav_project_set_shop (CavProject *self, const CavShop *shop)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (shop != NULL);

  next = cav_content_copy (self->content);
  /* Copied before the old one goes: shop may be part of it. */
  cav_content_take_shared (&next->shop, cav_shop_copy (shop), (GDestroyNotify)cav_shop_free);
  cav_project_commit (self, next, C_ ("step", "change shop"));
}

gboolean
cav_project_has_frame (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  return self->content->has_frame;
}

const CavFrameSettings *
cav_project_get_frame_settings (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->frame->value;
}

void
cav_project_set_frame_settings (CavProject *self, const CavFrameSettings *settings)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  /* What could not be read back is not taken in. */
  g_return_if_fail (settings == NULL || cav_frame_settings_check (settings, NULL));

  next = cav_content_copy (self->content);
  cav_content_set_frame (next, settings);
  cav_project_commit (self, next, C_ ("step", "change frame"));
}

const CavLumber *
cav_project_get_lumber (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->lumber->value;
}

static gboolean
boards_are_sound (const GPtrArray *boards)
{
  for (guint i = 0; i < boards->len; i++)
    {
      g_autofree char *reason = cav_board_explain (g_ptr_array_index (boards, i));

      if (reason != NULL)
        return FALSE;
    }
  return TRUE;
}

static gboolean
joined_are_sound (const GPtrArray *joined)
{
  for (guint i = 0; i < joined->len; i++)
    {
      g_autofree char *reason = cav_board_job_explain (g_ptr_array_index (joined, i));

      if (reason != NULL)
        return FALSE;
    }
  return TRUE;
}

void
cav_project_set_lumber (CavProject *self, const CavLumber *lumber)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (lumber != NULL);
  g_return_if_fail (lumber->frames >= 1);
  g_return_if_fail (boards_are_sound (lumber->boards) && boards_are_sound (lumber->stock));
  g_return_if_fail (joined_are_sound (lumber->joined));

  next = cav_content_copy (self->content);
  cav_content_take_shared (&next->lumber, cav_lumber_copy (lumber),
                           (GDestroyNotify)cav_lumber_free);
  cav_project_commit (self, next, C_ ("step", "change lumber"));
}
