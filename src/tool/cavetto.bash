# SPDX-License-Identifier: GPL-3.0-or-later
# What bash offers for cavetto when Tab is pressed. tests/tool/test-manual.py compares it with what
# the program itself says.

# The names of files with an ending, and folders.
_cavetto_files ()
{
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(compgen -f -X "!*$1" -- "$word"; compgen -d -- "$word")
}

_cavetto_words ()
{
  mapfile -t COMPREPLY < <(compgen -W "$1" -- "$word")
}

_cavetto ()
{
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local options ending=.cavetto

  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    case $word in
      -*) _cavetto_words '--help --version' ;;
      */*) _cavetto_files .cavetto ;;
      *)
        _cavetto_files .cavetto
        mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -W 'passes drawing preview template
          list sheets look import thumbnail' -- "$word")
        ;;
    esac
    return
  fi
  case $before in
    -o | --output) _cavetto_files '' && return ;;
    --shop) _cavetto_files .xml && return ;;
    --unit) _cavetto_words 'mm in' && return ;;
    --paper) _cavetto_words 'a4 letter' && return ;;
    --layout) _cavetto_words 'page strip cards' && return ;;
    --size | --side | --blank | --rails | --length) return ;;
  esac
  case ${COMP_WORDS[1]} in
    passes) options='-o --shop --unit --paper --layout' ;;
    drawing) options='-o --section --unit --paper' ;;
    preview) options='-o --size' ;;
    template) options='-o --shop --unit --paper' ;;
    list) options='-o --shop --unit --paper' ;;
    sheets) options='-o --shop --unit --paper --layout' ;;
    look) options='--shop --unit' ;;
    import) options='-o --shop --blank --rails --length' ending=.svg ;;
    thumbnail) options='-o --side' ;;
  esac
  case $word in
    -*) [ -z "$options" ] || _cavetto_words "$options --help" ;;
    *) _cavetto_files "$ending" ;;
  esac
}

complete -F _cavetto cavetto
