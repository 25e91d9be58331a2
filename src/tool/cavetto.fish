# SPDX-License-Identifier: GPL-3.0-or-later
# What fish offers for cavetto when Tab is pressed. tests/tool/test-manual.py compares it with what
# the program itself says.

complete -c cavetto -n __fish_use_subcommand -l version -d 'The version of the program'
complete -c cavetto -l help -d 'How it is used'
complete -c cavetto -n __fish_use_subcommand -k -a '(__fish_complete_suffix .cavetto)'

# __cavetto_command NAME WORDS OPTION...
function __cavetto_command
    complete -c cavetto -n __fish_use_subcommand -f -a $argv[1] -d $argv[2]
    set -l seen "__fish_seen_subcommand_from $argv[1]"
    for option in $argv[3..]
        switch $option
            case output
                complete -c cavetto -n $seen -s o -l output -r -F -d 'File to write'
            case shop
                complete -c cavetto -n $seen -l shop -r -F -d 'Machines and tools to plan for'
            case unit
                complete -c cavetto -n $seen -l unit -x -a 'mm in' -d 'Unit of figures'
            case paper
                complete -c cavetto -n $seen -l paper -x -a 'a4 letter' -d 'Paper of a PDF'
            case layout
                complete -c cavetto -n $seen -l layout -x -a 'page strip cards' -d 'Pages of the pass sheet'
            case section
                complete -c cavetto -n $seen -l section -d 'The section of the rail alone'
            case size
                complete -c cavetto -n $seen -l size -x -d 'Width and height in pixels'
            case side
                complete -c cavetto -n $seen -l side -x -d 'Width and height in pixels'
            case blank
                complete -c cavetto -n $seen -l blank -x -d 'Width and thickness of the blank'
            case rails
                complete -c cavetto -n $seen -l rails -x -d 'Number of rails'
            case length
                complete -c cavetto -n $seen -l length -x -d 'Length of all rails together'
        end
    end
end

__cavetto_command passes 'Plan the passes' output shop unit paper layout
__cavetto_command drawing 'Draw the frame' output section unit paper
__cavetto_command preview 'Show the frame as it would hang' output size
__cavetto_command template 'Draw the section at full size' output shop unit paper
__cavetto_command list 'List what to cut and to get' output shop unit paper
__cavetto_command sheets 'Write every sheet for the shop' output shop unit paper layout
__cavetto_command look 'List what is wrong or worth a look' shop unit
__cavetto_command import 'Make a project from an outline' output shop blank rails length
__cavetto_command thumbnail 'Draw the bare section small' output side
functions -e __cavetto_command
