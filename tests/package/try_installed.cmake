# Installs BUILD into a temporary folder, looks that everything is there, and builds and runs the project beside this file
# against it. Also given: COMPILER, LAUNCHER, FLAGS.
cmake_minimum_required(VERSION 3.22)
set(root ${BUILD}/installed)
file(REMOVE_RECURSE ${root})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --prefix ${root}/usr OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)

foreach(pattern bin/halfsplit share/man/man1/halfsplit.1 share/man/man1/halfsplit-rehearse.1
                share/bash-completion/completions/halfsplit share/zsh/site-functions/_halfsplit
                share/fish/vendor_completions.d/halfsplit.fish share/doc/halfsplit/README.md
                share/doc/halfsplit/docs/reference/harness-format.md share/doc/halfsplit/docs/schema/harness.schema.json
                share/doc/halfsplit/data/demo/minibus.json share/halfsplit/demo/jobs/forestry-slew-loom.job
                share/halfsplit/schema/next.schema.json include/halfsplit/cli/run.hpp)
  if(NOT EXISTS ${root}/usr/${pattern})
    message(FATAL_ERROR "not installed: ${pattern}")
  endif()
endforeach()

set(project ${root}/project)
execute_process(
  COMMAND ${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${project} -DCMAKE_PREFIX_PATH=${root}/usr
          -DCMAKE_CXX_COMPILER=${COMPILER} -DCMAKE_CXX_COMPILER_LAUNCHER=${LAUNCHER} -DCMAKE_CXX_FLAGS=${FLAGS}
  OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build ${project} OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
execute_process(
  COMMAND ${project}/first_step ${root}/usr/share/halfsplit/demo/minibus.json ${project}/first.job
  OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
if(NOT said MATCHES "^first: (clip )?[^ ]+ to (clip )?[^ ]+\n$")
  message(FATAL_ERROR "the first step was not told: ${said}")
endif()
message(STATUS "${said}")
file(REMOVE_RECURSE ${root})
