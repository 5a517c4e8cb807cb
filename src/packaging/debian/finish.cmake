# What Debian wants of the files of a package and an ordinary installation does not: run by cpack before it packs.
set(root ${CPACK_TEMPORARY_DIRECTORY}/program/usr/share)
file(GLOB pages ${root}/man/man1/*.1)
configure_file(${CPACK_HALFSPLIT_DEBIAN}/copyright ${root}/doc/halfsplit/copyright COPYONLY)
configure_file(${CPACK_HALFSPLIT_DEBIAN}/changelog ${root}/doc/halfsplit/changelog COPYONLY)
# -n: neither name nor time goes into the file, so that two builds are the same.
execute_process(COMMAND gzip -9n ${pages} ${root}/doc/halfsplit/changelog COMMAND_ERROR_IS_FATAL ANY)
# zsh of Debian looks here.
file(MAKE_DIRECTORY ${root}/zsh/vendor-completions)
file(RENAME ${root}/zsh/site-functions/_halfsplit ${root}/zsh/vendor-completions/_halfsplit)
file(REMOVE_RECURSE ${root}/zsh/site-functions)
