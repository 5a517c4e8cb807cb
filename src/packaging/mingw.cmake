# Builds for 64-bit Windows with Debian's mingw-w64: cmake --toolchain src/packaging/mingw.cmake. The program runs alone:
# the libraries of the compiler are linked in.
set(CMAKE_SYSTEM_NAME Windows)
set(CMAKE_SYSTEM_PROCESSOR x86_64)
set(CMAKE_CXX_COMPILER x86_64-w64-mingw32-g++-posix)
set(CMAKE_RC_COMPILER x86_64-w64-mingw32-windres)
set(CMAKE_EXE_LINKER_FLAGS_INIT "-static")
# Windows 10, the oldest whose console knows sequences for bold.
add_compile_definitions(_WIN32_WINNT=0x0A00 NOMINMAX WIN32_LEAN_AND_MEAN)

# Libraries that are only headers are taken from this system, and nothing else: its own headers would be found first.
# So they are linked one by one into a place of their own, with a CMake package that says where.
set(HALFSPLIT_HEADERS ${CMAKE_BINARY_DIR}/headers)
function(halfsplit_lend PACKAGE TARGET)
  foreach(folder ${ARGN})
    get_filename_component(name ${folder} NAME)
    file(MAKE_DIRECTORY ${HALFSPLIT_HEADERS}/include)
    file(CREATE_LINK ${folder} ${HALFSPLIT_HEADERS}/include/${name} SYMBOLIC)
  endforeach()
  file(WRITE ${HALFSPLIT_HEADERS}/lib/cmake/${PACKAGE}/${PACKAGE}Config.cmake
    "if(NOT TARGET ${TARGET})\n  add_library(${TARGET} INTERFACE IMPORTED)\nendif()
set_target_properties(${TARGET} PROPERTIES INTERFACE_INCLUDE_DIRECTORIES ${HALFSPLIT_HEADERS}/include)\n")
endfunction()
if(NOT EXISTS ${HALFSPLIT_HEADERS}/include AND NOT CMAKE_BINARY_DIR MATCHES "/CMakeTmp")
  halfsplit_lend(CLI11 CLI11::CLI11 /usr/include/CLI)
  halfsplit_lend(nlohmann_json nlohmann_json::nlohmann_json /usr/include/nlohmann)
  halfsplit_lend(Eigen3 Eigen3::Eigen /usr/include/eigen3/Eigen)
  halfsplit_lend(valijson valijson::valijson /usr/include/valijson)
  halfsplit_lend(fmt fmt::fmt /usr/include/fmt)
  file(APPEND ${HALFSPLIT_HEADERS}/lib/cmake/fmt/fmtConfig.cmake
    "set_target_properties(fmt::fmt PROPERTIES INTERFACE_COMPILE_DEFINITIONS FMT_HEADER_ONLY)\n")
  halfsplit_lend(Catch2 Catch2::Catch2 /usr/include/catch2)
  file(APPEND ${HALFSPLIT_HEADERS}/lib/cmake/Catch2/Catch2Config.cmake "set(Catch2_VERSION 2)\n")
endif()
set(CMAKE_FIND_ROOT_PATH ${HALFSPLIT_HEADERS} /usr/x86_64-w64-mingw32)
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
foreach(kind LIBRARY INCLUDE PACKAGE)
  set(CMAKE_FIND_ROOT_PATH_MODE_${kind} ONLY)
endforeach()
